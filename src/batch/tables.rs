//! What is told of a whole run: a line a row, weights, pieces.

use super::made::{Made, State};
use crate::fact::{Datum, Fact, Field, Kind, Level as Weight, fact, field, rows};
use crate::lang::cells::{spoken, table};
use crate::measure::write::Manner;
use crate::measure::write::exactly;
use crate::measure::{Kind, Quantity, Real};
use crate::plan::{Purchase, Stick, Whole, parts_csv, purchases};
use crate::rules::{Answer, Design, Finding, Level};
use crate::shop::Part;
use crate::show::Page;
use crate::show::fact::page as facts_page;

/// How wide a page is that is written to a file.
pub const COLUMNS: usize = 80;
/// A row's line of the summary.
#[derive(Clone, Debug)]
pub struct SummaryLine {
    /// The number of the row.
    pub row: u64,
    /// What the design is called.
    pub name: String,
    /// The style that framed it.
    pub style: String,
    build: String,
    quantity: i64,
    art: String,
    outside: String,
    /// Of one frame as it hangs, and as it is packed.
    weights: [Option<Quantity>; 2],
    weight: String,
    packed: String,
    state: State,
    /// How many stops, warnings and notes its checks report.
    counts: [usize; 3],
    /// These counts, and the first of the checks with what it reports; or what is wrong with the row.
    pub says: String,
}

/// How bad a check may be, the worst first, and the words for one and for several.
const LEVELS: [(Level, &str, &str); 3] =
    [(Level::Stop, "stop", "stops"), (Level::Warn, "warning", "warnings"), (Level::Note, "note", "notes")];

/// How many stops, warnings and notes there are.
fn counts(findings: &[Finding]) -> [usize; 3] {
    LEVELS.map(|(level, ..)| findings.iter().filter(|finding| finding.level == level).count())
}

/// How many stops, warnings and notes there are, and what the first of them reports.
fn reported(findings: &[Finding]) -> String {
    let Some(first) = findings.first() else { return String::new() };
    let words = counts(findings).into_iter().zip(LEVELS).filter(|(count, _)| *count > 0);
    let words: Vec<String> =
        words.map(|(count, (_, one, more))| format!("{count} {}", if count == 1 { one } else { more })).collect();
    format!("{}; {}: {}", words.join(", "), first.name, first.says)
}

impl SummaryLine {
    /// Of a row without a design.
    pub(super) fn failed(row: u64, name: &str, says: String) -> Self {
        Self {
            row,
            name: name.into(),
            style: String::new(),
            build: String::new(),
            quantity: 0,
            art: String::new(),
            outside: String::new(),
            weights: [None, None],
            weight: String::new(),
            packed: String::new(),
            state: State::Failed,
            counts: [0; 3],
            says,
        }
    }

    /// How many frames; nothing where there is no design.
    fn quantity_text(&self) -> String {
        if self.state == State::Failed { String::new() } else { self.quantity.to_string() }
    }

    /// What one frame weighs in pounds, as it hangs and as it is packed.
    fn one(&self) -> [Real; 2] {
        self.weights.each_ref().map(|weight| weight.as_ref().map_or(Real::ZERO, |weight| weight.amount.clone()))
    }

    /// The same of all its frames.
    fn all(&self) -> [Real; 2] {
        self.one().map(|weight| weight * Real::whole(self.quantity))
    }
}

/// The line of a design.
pub(super) fn line(
    row: u64,
    name: &str,
    style: &str,
    design: &Design,
    state: State,
    findings: &[Finding],
) -> SummaryLine {
    let shown = |quantity: &Quantity| design.manner().short(quantity);
    let made = |name: &str| design.made(name);
    let size = |whole: &str, across: &str| match (made(&format!("{whole}.width")), made(&format!("{whole}.height"))) {
        (Some(width), Some(height)) => format!("{} x {}", shown(&width), shown(&height)),
        _ => made(across).map_or_else(String::new, |across| format!("{} across", shown(&across))),
    };
    let art = match design.answer("art") {
        // As it was told: 300 mm are not so much and a little less on a tape of inches.
        Ok(Answer::Size(extents)) => extents.iter().map(exactly).collect::<Vec<_>>().join(" x "),
        _ => size("art", "art.across"),
    };
    let weights = [made("weight"), made("packed.weight")];
    let text = |weight: &Option<Quantity>| weight.as_ref().map_or_else(String::new, shown);
    SummaryLine {
        row,
        name: name.into(),
        style: style.into(),
        build: design.build_name().into(),
        quantity: made("quantity").and_then(|quantity| quantity.amount.to_whole()).unwrap_or(1),
        art,
        outside: size("outside", "outside.across"),
        weight: text(&weights[0]),
        packed: text(&weights[1]),
        weights,
        state,
        counts: counts(findings),
        says: reported(findings),
    }
}

impl Fact for SummaryLine {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "summary";
    const DOC: &'static str = "What came of a row of a table of works.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("row", Kind::Count, "number of the row", |line, _| Datum::Count(line.row)).at(Weight::Key),
        field::<Self>("name", Kind::Text, "name of the design", |line, _| Datum::text(line.name.as_str()))
            .at(Weight::Key),
        field::<Self>("style", Kind::Text, "style that made the design", |line, _| Datum::text(line.style.as_str())),
        field::<Self>("build", Kind::Text, "build of the frame", |line, _| Datum::text(line.build.as_str()))
            .at(Weight::Detail),
        field::<Self>("quantity", Kind::Count, "how many frames", |line, _| match line.state {
            State::Failed => Datum::Nothing,
            State::Made | State::Stopped => Datum::count(line.quantity),
        })
        .optional(),
        field::<Self>("art", Kind::Text, "size of the work", |line, _| Datum::text(line.art.as_str())),
        field::<Self>("outside", Kind::Text, "size of the frame", |line, _| Datum::text(line.outside.as_str())),
        field::<Self>("weight", Kind::Text, "weight of one frame", |line, _| Datum::text(line.weight.as_str())),
        field::<Self>("state", Kind::Word(&["made", "stop", "failed"]), "whether it can be made", |line, _| {
            Datum::text(line.state.word())
        })
        .at(Weight::Key),
        field::<Self>("stops", Kind::Count, "how many checks stop it", |line, _| line.count(0)).optional(),
        field::<Self>("warnings", Kind::Count, "how many checks warn", |line, _| line.count(1)).optional(),
        field::<Self>("notes", Kind::Count, "how many checks have a note", |line, _| line.count(2)).optional(),
        field::<Self>(
            "says",
            Kind::Text,
            "what the first of them reports, or what is wrong with the row",
            |line, _| Datum::text(line.says.as_str()),
        ),
    ];
}

impl SummaryLine {
    /// How many checks report something of a level; a row without a design has none.
    fn count<'a>(&self, level: usize) -> Datum<'a> {
        match self.state {
            State::Failed => Datum::Nothing,
            State::Made | State::Stopped => Datum::count(self.counts[level]),
        }
    }
}

impl State {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Made => "made",
            Self::Stopped => "stop",
            Self::Failed => "failed",
        }
    }
}

/// What rows came to, gathered in their order.
#[derive(Debug, Default)]
pub struct Tables {
    lines: Vec<SummaryLine>,
    /// The pieces of every design that can be made, under its name.
    pub parts: Vec<(String, Vec<Part>)>,
}

impl Tables {
    /// Takes in what is told of a row.
    pub fn add(&mut self, made: &mut Made) {
        self.lines.extend(made.line.take());
        let parts = std::mem::take(&mut made.parts);
        if !parts.is_empty() {
            self.parts.push((made.name.clone(), parts));
        }
    }

    /// The summary as a table of values.
    pub fn summary_csv(&self) -> String {
        table(rows::table::<SummaryLine>(self.lines.iter(), &Manner::default()))
    }

    /// What each design that can be made weighs, one and all of it, and everything together, in pounds.
    pub fn weights_csv(&self) -> String {
        let head = ["name", "quantity", "weight", "packed", "weight lb", "packed lb", "all lb", "all packed lb"];
        let mut rows = vec![head.map(String::from).to_vec()];
        let mut count = 0_i64;
        for line in self.made() {
            count = count.saturating_add(line.quantity);
            let head = [line.name.clone(), line.quantity.to_string(), line.weight.clone(), line.packed.clone()];
            rows.push(
                head.into_iter()
                    .chain(line.one().into_iter().chain(line.all()).map(|weight| weight.to_fixed(3)))
                    .collect(),
            );
        }
        let blank = String::new;
        let [all, packed] = self.weights().map(|sum| sum.to_fixed(3));
        rows.push(vec!["all".into(), count.to_string(), blank(), blank(), blank(), blank(), all, packed]);
        table(rows)
    }

    /// The pieces of all designs, each under the name of its design, as `benchrule plan` reads them.
    pub fn parts_csv(&self) -> String {
        let named = self.parts.iter().flat_map(|(name, parts)| {
            parts.iter().map(move |part| Part { name: spoken(&format!("{name}/{}", part.name)), ..part.clone() })
        });
        parts_csv(&named.collect::<Vec<_>>())
    }

    /// The summary as a page, for a terminal.
    pub fn page(&self) -> Page {
        let manner = Manner::default();
        let lines: Vec<_> = self.lines.iter().map(fact::<SummaryLine>).collect();
        facts_page::table(Page::new(), &lines, &manner)
    }

    /// What all designs that can be made weigh together.
    pub fn weight(&self) -> Quantity {
        let [weight, _] = self.weights();
        Quantity::new(weight, Kind::MASS)
    }

    /// What all designs that can be made weigh together, in pounds, as they hang and as they are packed.
    fn weights(&self) -> [Real; 2] {
        let add = |[hung, packed]: [Real; 2], [one, other]: [Real; 2]| [hung + one, packed + other];
        self.made().map(SummaryLine::all).fold([Real::ZERO, Real::ZERO], add)
    }

    fn made(&self) -> impl Iterator<Item = &SummaryLine> {
        self.lines.iter().filter(|line| line.state == State::Made)
    }
}

/// The sticks of a plan, a line a piece, in which no name runs.
pub fn plan_csv(whole: &Whole, manner: &Manner) -> String {
    let sticks = whole.sticks.sticks.iter().enumerate().map(|(at, stick)| (&whole.sticks, at, stick));
    table(rows::table::<Stick>(sticks, manner))
}

/// What a plan takes from the rack or from the dealer, then the pieces that no stock gives.
pub fn buy_csv(whole: &Whole, manner: &Manner) -> String {
    table(rows::table::<Purchase>(purchases(whole).into_iter(), manner))
}
