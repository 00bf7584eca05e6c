//! The tables of a whole run: a line for each row, weights, pieces.

use super::made::Made;
use super::row::State;
use super::summary::SummaryLine;
use crate::fact::{fact, rows};
use crate::measure::write::Manner;
use crate::measure::{Kind, Quantity, Real};
use crate::plan::{LeftRow, RowOf};
use crate::shop::Part;
use crate::show::Page;
use crate::show::fact::page as facts_page;
use crate::table::table;

/// What rows came to, gathered in their order.
#[derive(Debug)]
pub struct Tables {
    lines: Vec<SummaryLine>,
    /// What all designs that can be made weigh together, in pounds, as they hang and as they are packed.
    weights: [Real; 2],
    /// The pieces of every design that can be made, under its name.
    pub parts: Vec<(String, Vec<Part>)>,
}

impl Default for Tables {
    fn default() -> Self {
        Self { lines: Vec::new(), weights: [Real::ZERO, Real::ZERO], parts: Vec::new() }
    }
}

impl Tables {
    /// Adds the weight of a row, and where the tables are wanted its line and its pieces. Of a run of a million rows that
    /// wants none only the weight is kept.
    pub fn add(&mut self, made: Made, wanted: bool) {
        let Made { line, parts, name, .. } = made;
        if line.state == State::Made {
            let [hung, packed] = line.all();
            let [all, all_packed] = self.weights.clone();
            self.weights = [all + hung, all_packed + packed];
        }
        if !wanted {
            return;
        }
        self.lines.push(line);
        if !parts.is_empty() {
            self.parts.push((name, parts));
        }
    }

    /// The summary as a table of values.
    pub fn summary_csv(&self) -> String {
        rows::csv::<SummaryLine>(self.lines.iter(), &Manner::default())
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
        let [all, packed] = self.weights.each_ref().map(|sum| sum.to_fixed(3));
        rows.push(vec!["all".into(), count.to_string(), blank(), blank(), blank(), blank(), all, packed]);
        table(rows)
    }

    /// The pieces of all designs, each under the name of its design, as `benchrule plan` reads them.
    pub fn parts_csv(&self) -> String {
        let named = self.parts.iter().flat_map(|(name, parts)| {
            parts.iter().map(move |part| Part { name: format!("{name}/{}", part.name), ..part.clone() })
        });
        rows::csv::<Part>(named.collect::<Vec<_>>().iter(), &Manner::default())
    }

    /// The works that cannot be made, and so are missing in a plan and in the tables of parts, weights and purchases.
    pub fn left_out(&self) -> Vec<LeftRow> {
        let left = self.lines.iter().filter(|line| line.state != State::Made);
        let row = |line: &SummaryLine| LeftRow { name: line.name.clone(), of: RowOf::Work, because: line.stop.clone() };
        left.map(row).collect()
    }

    /// The same as remarks below a table, which readers of the table skip.
    pub fn remarks(&self) -> String {
        let remark = |row: LeftRow| format!("# left out: {}: {}\n", row.name, row.because.replace('\n', " "));
        self.left_out().into_iter().map(remark).collect()
    }

    /// The summary as a page, for a terminal.
    pub fn page(&self) -> Page {
        let manner = Manner::default();
        let lines: Vec<_> = self.lines.iter().map(fact::<SummaryLine>).collect();
        facts_page::table(Page::new(), &lines, &manner)
    }

    /// What all designs that can be made weigh together.
    pub fn weight(&self) -> Quantity {
        let [weight, _] = &self.weights;
        Quantity::new(weight.clone(), Kind::MASS)
    }

    fn made(&self) -> impl Iterator<Item = &SummaryLine> {
        self.lines.iter().filter(|line| line.state == State::Made)
    }
}
