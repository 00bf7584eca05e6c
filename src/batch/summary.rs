//! A row's line of the summary.

use super::row::State;
use crate::diag::count;
use crate::fact::{Datum, Fact, Field, Kind, Level as Room, field};
use crate::measure::write::exactly;
use crate::measure::{Quantity, Real};
use crate::rules::{Answer, Design, Finding, Level};
use crate::show::spoken;

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
    pub(super) quantity: i64,
    art: String,
    outside: String,
    /// Of one frame as it hangs, and as it is packed.
    weights: [Option<Quantity>; 2],
    pub(super) weight: String,
    pub(super) packed: String,
    pub(super) state: State,
    /// Whether its object has no weight, so that the weights leave it out.
    pub(super) is_unweighed: bool,
    /// How many stops, warnings and notes its checks report.
    counts: [usize; 3],
    /// These counts, and the first of the checks with what it reports; or what is wrong with the row.
    pub says: String,
    /// Why it cannot be made; empty where it can.
    pub(super) stop: String,
}

/// The check that an object without a weight raises.
const UNWEIGHED: &str = "weight.unknown";

/// How bad a check may be, the worst first, and the word for one.
const LEVELS: [(Level, &str); 3] = [(Level::Stop, "stop"), (Level::Warn, "warning"), (Level::Note, "note")];

/// How many stops, warnings and notes there are.
fn counts(findings: &[Finding]) -> [usize; 3] {
    LEVELS.map(|(level, _)| findings.iter().filter(|finding| finding.level == level).count())
}

/// How many stops, warnings and notes there are, and what the first of them reports.
fn reported(findings: &[Finding]) -> String {
    let Some(first) = findings.first() else { return String::new() };
    let words = counts(findings).into_iter().zip(LEVELS).filter(|(number, _)| *number > 0);
    let words: Vec<String> = words.map(|(number, (_, level))| count(number, level)).collect();
    format!("{}; {}: {}", words.join(", "), first.name, spoken(&first.says))
}

/// Why a design with these findings cannot be made; empty where it can.
fn stopped(findings: &[Finding]) -> String {
    let stops = findings.iter().filter(|finding| finding.level == Level::Stop);
    let stops: Vec<String> = stops.map(|finding| spoken(&finding.says)).collect();
    if stops.is_empty() { String::new() } else { format!("it cannot be built as specified: {}", stops.join("; ")) }
}

impl SummaryLine {
    /// Of a row without a design.
    pub(super) fn failed(row: u64, name: &str, says: String, line: usize) -> Self {
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
            is_unweighed: false,
            counts: [0; 3],
            stop: format!("line {line} of the table: {says}"),
            says,
        }
    }

    /// What one frame weighs in pounds, as it hangs and as it is packed.
    pub(super) fn one(&self) -> [Real; 2] {
        self.weights.each_ref().map(|weight| weight.as_ref().map_or(Real::ZERO, |weight| weight.amount.clone()))
    }

    /// The same of all its frames.
    pub(super) fn all(&self) -> [Real; 2] {
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
        // As it was set: 300 mm stay 300 mm on a tape of inches.
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
        is_unweighed: findings.iter().any(|finding| finding.name == UNWEIGHED),
        counts: counts(findings),
        says: reported(findings),
        stop: stopped(findings),
    }
}

impl Fact for SummaryLine {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "summary";
    const DOC: &'static str = "What came of a row of a table of works.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("row", Kind::Count, "number of the row", |line, _| Datum::Count(line.row)).at(Room::Key),
        field::<Self>("name", Kind::Text, "name of the design", |line, _| Datum::text(line.name.as_str()))
            .at(Room::Key),
        field::<Self>("style", Kind::Text, "style that made the design", |line, _| Datum::text(line.style.as_str())),
        field::<Self>("build", Kind::Text, "build of the frame", |line, _| Datum::text(line.build.as_str()))
            .at(Room::Detail),
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
        .at(Room::Key),
        // A page has these counts at the beginning of what the row says.
        field::<Self>("stops", Kind::Count, "how many checks stop it", |line, _| line.count(0))
            .optional()
            .at(Room::Detail),
        field::<Self>("warnings", Kind::Count, "how many checks warn", |line, _| line.count(1))
            .optional()
            .at(Room::Detail),
        field::<Self>("notes", Kind::Count, "how many checks have a note", |line, _| line.count(2))
            .optional()
            .at(Room::Detail),
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
