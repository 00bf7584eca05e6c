//! What is told of a whole run: a line a row, weights, pieces.

use super::made::{Made, State};
use crate::measure::write::exactly;
use crate::measure::{Kind, Quantity, Real};
use crate::plan::parts_csv;
use crate::rules::{Answer, Design};
use crate::shop::Part;
use crate::show::{Cell, Label, Page, Text};
use crate::table::table;

/// How wide a page is that is written to a file.
pub const COLUMNS: usize = 80;
/// The columns of the summary.
const SUMMARY: [&str; 10] = ["row", "name", "style", "build", "quantity", "art", "outside", "weight", "state", "says"];

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
    /// What stops it, or is wrong with the row.
    pub says: String,
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
pub(super) fn line(row: u64, name: &str, style: &str, design: &Design, state: State, says: String) -> SummaryLine {
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
        says,
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
        let head = SUMMARY.map(String::from).to_vec();
        let rows = self.lines.iter().map(|line| {
            let word = line.state.word().into();
            let [row, name, style, build] =
                [&line.row.to_string(), &line.name, &line.style, &line.build].map(Clone::clone);
            let [art, outside, weight, says] = [&line.art, &line.outside, &line.weight, &line.says].map(Clone::clone);
            vec![row, name, style, build, line.quantity_text(), art, outside, weight, word, says]
        });
        table(std::iter::once(head).chain(rows))
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
            parts.iter().map(move |part| Part { name: format!("{name}/{}", part.name), ..part.clone() })
        });
        parts_csv(&named.collect::<Vec<_>>())
    }

    /// The summary as a page, for a terminal.
    pub fn page(&self) -> Page {
        let head = ["row", "name", "style", "quantity", "art", "outside", "weight", "state"];
        let page = Page::new().row(head.map(|word| Cell::of(Label::Dim, word)));
        self.lines.iter().fold(page, |page, line| {
            let label = match line.state {
                State::Made => Label::Good,
                State::Stopped => Label::Stop,
                State::Failed => Label::Error,
            };
            page.row([
                Cell::right(Text::of(Label::Dim, line.row.to_string())),
                Cell::of(Label::Name, &line.name),
                Cell::of(Label::Plain, &line.style).yielding(3),
                Cell::right(Text::of(Label::Plain, line.quantity_text())).yielding(2),
                Cell::of(Label::Value, &line.art).yielding(2),
                Cell::of(Label::Value, &line.outside).yielding(1),
                Cell::right(Text::of(Label::Plain, &line.weight)).yielding(3),
                Cell::of(label, line.state.word()),
            ])
        })
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
