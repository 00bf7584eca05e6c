//! The tables of a whole run: a line for each row, weights, pieces.

use super::made::Made;
use super::row::State;
use super::summary::SummaryLine;
use super::weights::Weights;
use crate::fact::{fact, rows};
use crate::measure::write::Manner;
use crate::measure::{Kind, Quantity};
use crate::plan::{LeftRow, RowOf, Work};
use crate::shop::{Caution, Part};
use crate::show::Page;
use crate::show::fact::page as facts_page;

/// What rows came to, gathered in their order.
#[derive(Debug, Default)]
pub struct Tables {
    lines: Vec<SummaryLine>,
    /// The sum over all designs that can be made.
    weights: Weights,
    /// The pieces of every design that can be made, under its name.
    pub parts: Vec<(String, Vec<Part>)>,
    cautions: Vec<Caution>,
}

impl Tables {
    /// Adds the weight of a row, and where the tables are wanted its line and its pieces. Of a run of a million rows that
    /// wants none only the weight is kept.
    pub fn add(&mut self, made: Made, wanted: bool) {
        let Made { line, parts, name, cautions, .. } = made;
        if line.state == State::Made {
            self.weights.add(Weights::of(&line));
        }
        if !wanted {
            return;
        }
        self.lines.push(line);
        if !parts.is_empty() {
            self.parts.push((name, parts));
        }
        // Nearly all rows have the same few cautions.
        for caution in cautions {
            if !self.cautions.contains(&caution) {
                self.cautions.push(caution);
            }
        }
    }

    /// All pieces as one piece of work for the planner.
    pub fn work(&self) -> Work {
        Work { rows: self.left_out(), ..Work::of_designs(&self.parts, self.cautions.clone()) }
    }

    /// The summary as a table of values.
    pub fn summary_csv(&self) -> String {
        rows::csv::<SummaryLine>(self.lines.iter(), &Manner::default())
    }

    /// What each design that can be made weighs, one and all of it, and everything together.
    pub fn weights_csv(&self) -> String {
        let made = self.lines.iter().filter(|line| line.state == State::Made);
        let lines: Vec<Weights> = made.map(Weights::of).chain([self.weights.clone()]).collect();
        rows::csv::<Weights>(lines.iter(), &Manner::default())
    }

    /// The pieces of all designs, each under the name of its design, as `benchrule plan` reads them.
    pub fn parts_csv(&self) -> String {
        let named = self.parts.iter().flat_map(|(name, parts)| {
            parts.iter().map(move |part| Part { name: format!("{name}/{}", part.name), ..part.clone() })
        });
        rows::csv::<Part>(named.collect::<Vec<_>>().iter(), &Manner::default())
    }

    /// The works that cannot be made, and so are missing in a plan and in the tables of parts, weights and purchases.
    fn left_out(&self) -> Vec<LeftRow> {
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

    /// What all designs that can be made weigh together as they hang, and those whose object has no weight.
    pub fn weight(&self) -> (Quantity, Vec<String>) {
        let Weights { all: [weight, _], unweighed, .. } = self.weights.clone();
        (Quantity::new(weight, Kind::MASS), unweighed)
    }
}
