//! The tables of a whole run: a line for each row, weights, pieces.

use super::made::Made;
use super::row::State;
use super::summary::SummaryLine;
use super::weights::Weights;
use crate::fact::{fact, rows};
use crate::measure::write::Manner;
use crate::measure::{Kind, Quantity};
use crate::plan::Work;
use crate::shop::{Caution, Part};
use crate::show::Page;
use crate::show::fact::page as facts_page;

/// What rows came to, gathered in their order.
#[derive(Debug, Default)]
pub struct Tables {
    keeps_lines: bool,
    lines: Vec<SummaryLine>,
    /// The sum over all designs that can be made.
    weights: Weights,
    /// The pieces of every design that can be made, under its name.
    pub parts: Vec<(String, Vec<Part>)>,
    cautions: Vec<Caution>,
}

impl Tables {
    /// Tables that are written or shown, or else only the weight of all designs: memory then does not grow with the rows.
    pub fn new(keeps_lines: bool) -> Self {
        Self { keeps_lines, ..Self::default() }
    }

    /// Adds the line and the pieces of a row.
    pub fn add(&mut self, made: &mut Made) {
        if let Some(line) = made.line.take() {
            if line.state == State::Made {
                self.weights.add(Weights::of(&line));
            }
            if self.keeps_lines {
                self.lines.push(line);
            }
        }
        let parts = std::mem::take(&mut made.parts);
        if !parts.is_empty() {
            self.parts.push((made.name.clone(), parts));
        }
        // Nearly all rows have the same few cautions.
        for caution in std::mem::take(&mut made.cautions) {
            if !self.cautions.contains(&caution) {
                self.cautions.push(caution);
            }
        }
    }

    /// All pieces as one piece of work for the planner.
    pub fn work(&self) -> Work {
        Work::of_designs(&self.parts, self.cautions.clone())
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
