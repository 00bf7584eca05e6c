//! The steps that led to the design at the bench, and those that were undone.

use std::rc::Rc;

use crate::book::{self, Draft, Mark, text};
use crate::rules::{Design, Kept};

/// A design with the style that framed it.
#[derive(Clone, Debug)]
pub struct Framed {
    /// The design.
    pub design: Rc<Design>,
    /// The style that framed it, if one did.
    pub style: Option<Mark>,
}

impl Framed {
    /// The design as the book saves it.
    pub fn draft(&self) -> Draft {
        Draft {
            fields: text::fields(&self.design),
            figures: text::figures(&self.design),
            tape: self.design.manner().graduation.name.into(),
            style: self.style.clone(),
        }
    }

    /// Whether the same fields are set and the same style framed the design.
    pub fn same(&self, other: &Self) -> bool {
        let is_same = Rc::ptr_eq(&self.design, &other.design) || self.design.same_givens(&other.design);
        is_same && self.style == other.style
    }
}

#[derive(Clone, Debug)]
struct Step {
    number: u64,
    /// The line of this step; empty for the first.
    line: String,
    kept: Kept,
    style: Option<Mark>,
}

impl Step {
    fn of(number: u64, line: &str, framed: &Framed) -> Self {
        Self { number, line: line.trim().into(), kept: framed.design.kept(), style: framed.style.clone() }
    }

    fn framed(&self) -> Framed {
        Framed { design: self.kept.design().into(), style: self.style.clone() }
    }
}

/// Steps one after another, and the present one.
#[derive(Clone, Debug)]
pub struct Trail {
    steps: Vec<Step>,
    at: usize,
}

/// The most steps that are kept for undoing.
const MOST: usize = 1000;

impl Trail {
    /// Begins at a design.
    pub fn new(framed: &Framed) -> Self {
        Self { steps: vec![Step::of(1, "", framed)], at: 0 }
    }

    /// Adds the step of a line. Undone steps are dropped.
    pub fn remember(&mut self, line: &str, framed: &Framed) {
        self.steps.truncate(self.at + 1);
        let number = self.steps.last().map_or(1, |last| last.number + 1);
        self.steps.push(Step::of(number, line, framed));
        if self.steps.len() > MOST + 1 {
            self.steps.remove(0);
        }
        self.at = self.steps.len() - 1;
    }

    /// Goes back a step: the line that is undone, and the design before it.
    pub fn back(&mut self) -> Option<(String, Framed)> {
        let line = self.steps.get(self.at).map(|step| step.line.clone())?;
        self.at = self.at.checked_sub(1)?;
        Some((line, self.steps.get(self.at)?.framed()))
    }

    /// Goes a step forward again: the line that is redone, and the design after it.
    pub fn forward(&mut self) -> Option<(String, Framed)> {
        let next = self.steps.get(self.at + 1)?;
        self.at += 1;
        Some((next.line.clone(), next.framed()))
    }

    /// How many steps can be undone.
    pub fn len(&self) -> usize {
        self.at
    }

    /// Whether there is nothing to undo.
    pub fn is_empty(&self) -> bool {
        self.at == 0
    }

    /// The numbers of all steps, in order; a number stands for one step for as long as the trail does.
    pub fn numbers(&self) -> Vec<u64> {
        self.steps.iter().map(|step| step.number).collect()
    }

    /// The number of the present step.
    pub fn number(&self) -> u64 {
        self.steps.get(self.at).map_or(1, |step| step.number)
    }

    /// A step as saved.
    pub fn written(&self, number: u64) -> Option<book::Step> {
        let step = self.steps.iter().rfind(|step| step.number == number)?;
        let fields = text::fields(&step.kept.design());
        Some(book::Step { number, line: step.line.clone(), fields, style: step.style.clone() })
    }

    /// The trail of an earlier shell, each design on one of `fresh`; nothing if it left none.
    pub fn picked_up(left: &book::Left, fresh: &dyn Fn() -> Design) -> Option<Self> {
        let step = |step: &book::Step| Step {
            number: step.number,
            line: step.line.clone(),
            kept: text::design(&step.fields, fresh()).0.kept(),
            style: step.style.clone(),
        };
        let steps: Vec<Step> = left.steps.iter().map(step).collect();
        (!steps.is_empty()).then(|| Self { at: left.at.min(steps.len() - 1), steps })
    }

    /// The design of the present step.
    pub fn framed(&self) -> Option<Framed> {
        self.steps.get(self.at).map(Step::framed)
    }
}
