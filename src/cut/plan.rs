//! What a solver gives: sticks with their parts in order, the cost, and what is proven of it.

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
