//! A plan that was made at the prompt, with what it was made from, for `plan take`.

use super::reply::Planned;
use super::stored::typed;
use crate::fact::rows;
use crate::measure::Manner;
use crate::plan::{Ripping, Saw};
use crate::rules::Design;
use crate::shop::{Part, parts};
use crate::word::{Args, Kind};

/// A plan, and what it was made from.
pub(super) struct MadePlan {
    /// The plan, and the faults of the stock.
    pub(super) planned: Planned,
    /// The designs that the line named.
    pub(super) asked: Asked,
    /// The text of `stock.csv`, if the file was there.
    pub(super) stock: Option<String>,
    /// Everything else that the plan depends on, as text.
    basis: String,
}

impl MadePlan {
    pub(super) fn new(
        planned: Planned,
        asked: Asked,
        stock: Option<String>,
        (designs, shop): (&[(String, Design)], &Design),
    ) -> Self {
        Self { planned, asked, stock, basis: basis(designs, shop) }
    }

    /// Whether designs with the same parts, in a shop with the same saw, are still what it was made from.
    pub(super) fn is_of(&self, designs: &[(String, Design)], shop: &Design) -> bool {
        self.basis == basis(designs, shop)
    }
}

/// Everything that a plan depends on except the stock: the parts, the saw, and how boards are ripped.
fn basis(designs: &[(String, Design)], shop: &Design) -> String {
    let table = |design: &Design| rows::csv::<Part>(parts(design).iter(), &Manner::default());
    let parts = designs.iter().map(|(name, design)| format!("{name}\n{}", table(design)));
    format!("{:?}\n{:?}\n{}", Saw::of(shop), Ripping::of(shop), parts.collect::<String>())
}

/// The designs that a line names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Asked {
    /// None: the design on the bench.
    Bench,
    /// Every design in the book.
    All,
    /// These.
    Named(Vec<String>),
}

impl Asked {
    pub(super) fn of(args: &Args) -> Self {
        let names: Vec<String> = args.all(Kind::Design).map(|given| given.text().into()).collect();
        match names.is_empty() {
            _ if args.has("all") => Self::All,
            true => Self::Bench,
            false => Self::Named(names),
        }
    }

    /// A line that plans these designs.
    pub(super) fn line(&self) -> String {
        match self {
            Self::Bench => "plan".into(),
            Self::All => "plan all".into(),
            Self::Named(names) => {
                let names: Vec<String> = names.iter().map(|name| typed(name)).collect();
                format!("plan {}", names.join(", "))
            }
        }
    }
}
