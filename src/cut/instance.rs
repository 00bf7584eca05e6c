//! A cutting problem and its answer, in whole ticks, rounded so that a plan that fits in ticks fits at the saw.

use super::certificate::Certificate;

/// How a part lies beside its neighbors in a stick.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Fit {
    /// Each takes its whole length and a kerf: square parts, and mitered parts of a molding, whose long points meet.
    Apart,
    /// Turned end for end, each miter nests in the next: neighbors share `overlap`, and all parts of a stick have one
    /// `setting` of the saw. Source: frame maths §4.
    Turned {
        /// The length that two neighbors share, in ticks, rounded down: `o = plan width · tan(miter)`.
        overlap: u32,
        /// Face and angle; parts of different settings never share a stick.
        setting: u32,
    },
}

/// Parts of one length.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// Between the long points, in ticks, rounded up.
    pub length: u32,
    /// The kerf along the part, in ticks, rounded up: `c = kerf / (cos miter · cos tilt)`.
    pub kerf: u32,
    /// How the part lies beside its neighbors.
    pub fit: Fit,
    /// The number of parts.
    pub quantity: u32,
    /// The frame of the part, if any: its parts come from one stick, or from few that match, if that costs nothing.
    pub group: Option<u32>,
    /// Whether the part is too short to hold at the saw: it is cut beside a longer part if that costs nothing.
    pub short: bool,
}

/// Sticks of one length.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stock {
    /// Between the two trims, in ticks, rounded down: `usable = stock − 2 trim`.
    pub usable: u32,
    /// The number of sticks; none means as many as needed.
    pub count: Option<u32>,
    /// The cost of one stick, in whole cents, from 0.
    pub cost: u32,
    /// Whether the stick is an offcut; of equal plans the one that uses more offcuts is better.
    pub offcut: bool,
}

/// One material: the parts and the stock.
///
/// A stick of `N` parts fits when, with the gap between neighbors the greater of their two kerfs,
/// `Σ length + Σ gap ≤ usable`; parts that are turned share their overlap: `Σ length + (N − 1)(kerf − overlap) ≤
/// usable`. The last part pays no kerf.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Instance {
    /// The parts, by their lengths.
    pub parts: Vec<Part>,
    /// The stock, by its lengths.
    pub stock: Vec<Stock>,
    /// The shortest offcut that is worth keeping, in ticks; with 0 no offcut is worth more than another.
    pub keep: u32,
}

/// One stick and the parts cut from it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stick {
    /// The row of the stock.
    pub stock: usize,
    /// The rows of the parts, in the order of cutting.
    pub parts: Vec<usize>,
}

/// Sticks for all parts, or for as many as the stock allows.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Plan {
    /// All sticks, with like sticks together.
    pub sticks: Vec<Stick>,
    /// The cost of all sticks.
    pub cost: u64,
    /// A bound: no plan for the same parts costs less.
    pub bound: u64,
    /// What proves the bound.
    pub certificate: Certificate,
    /// For each row, the parts that no stick holds, because they are too long or the stock is used up.
    pub left: Vec<u32>,
}

impl Plan {
    /// Whether the plan is proven: no plan costs less.
    pub fn is_proven(&self) -> bool {
        self.cost == self.bound
    }
}
