//! What is to be cut, and out of what: whole ticks, rounded so that what fits in ticks fits at the saw.

/// How a part lies beside its neighbours in a stick.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Fit {
    /// Its whole length and a kerf: square parts, and mitred parts of a moulding, whose long points meet.
    Apart,
    /// Turned end for end, each mitre fills the next: neighbours share `overlap`, and all parts of a stick are of one
    /// `setting` of the saw. Source: frame maths §4.
    Turned {
        /// What two neighbours share, in ticks, rounded down: `o = plan width · tan(mitre)`.
        overlap: u32,
        /// Which face and angle; parts of different settings never share a stick.
        setting: u32,
    },
}

/// Parts of one length.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// Between the long points, in ticks, rounded up.
    pub length: u32,
    /// What one cut takes along the part, in ticks, rounded up: `c = kerf / (cos mitre · cos tilt)`.
    pub kerf: u32,
    /// How it lies beside its neighbours.
    pub fit: Fit,
    /// How many.
    pub quantity: u32,
    /// The frame it belongs to, if to one: parts of a frame come out of one stick, or few that match, where that costs
    /// nothing.
    pub group: Option<u32>,
    /// Whether it is too short to be held at the saw: it is cut beside a longer part where that costs nothing.
    pub short: bool,
}

/// Sticks of one length.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stock {
    /// Between the two trims, in ticks, rounded down: `usable = stock − 2 trim`.
    pub usable: u32,
    /// How many there are; none means as many as wanted.
    pub count: Option<u32>,
    /// What one costs, in whole units of money (cents), from 0.
    pub cost: u32,
    /// Whether it is left over from another plan; of equal plans the one that uses more of these is better.
    pub offcut: bool,
}

/// One material: what is to be cut and what it may be cut from.
///
/// A stick of `N` parts fits when, with the gap between neighbours the greater of their two kerfs,
/// `Σ length + Σ gap ≤ usable`; parts that are turned share their overlap: `Σ length + (N − 1)(kerf − overlap) ≤
/// usable`. The last part pays no kerf.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Instance {
    /// What is to be cut.
    pub parts: Vec<Part>,
    /// What it may be cut from.
    pub stock: Vec<Stock>,
    /// The shortest rest of a stick that is worth keeping, in ticks; with 0 no rest is worth more than another.
    pub keep: u32,
}

/// One stick and what is cut from it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stick {
    /// Which row of the stock.
    pub stock: usize,
    /// Which rows of the parts, in the order of cutting.
    pub parts: Vec<usize>,
}

/// Sticks for all parts, or for as many as there is stock for.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Plan {
    /// Every stick, like sticks beside one another.
    pub sticks: Vec<Stick>,
    /// What the sticks cost together.
    pub cost: u64,
    /// No plan for all parts that can be planned costs less: certified in whole numbers.
    pub bound: u64,
    /// How many parts of each row no stick holds, the part too long or the stock used up.
    pub left: Vec<u32>,
}

impl Plan {
    /// Whether nothing that is left could be had, and no plan costs less.
    pub fn is_proven(&self) -> bool {
        self.cost == self.bound
    }
}
