//! The proof of the bound of a plan, for a reader without knowledge of the search.

use super::instance::Stick;

/// Cuts, and a tree for each mix of sticks that meets all of them and costs less than the bound.
///
/// Parts of one length, kerf, and fit are *like*; so are rows of stock of one length and cost, offcuts apart.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Certificate {
    /// For each cut, the worth of a part of each row. The sticks of any plan must hold the worth of all parts.
    pub cuts: Vec<Vec<u32>>,
    /// The mixes that meet all cuts, and why no plan has them.
    pub closed: Vec<ClosedMix>,
}

/// A mix of sticks that cannot hold all parts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClosedMix {
    /// The number of sticks of each row of the stock; the counts of like rows are added up.
    pub mix: Vec<u32>,
    /// The worth of a part of each row. All sticks of the mix hold little more than the worth of all parts, so that few
    /// patterns waste no more than that.
    pub worth: Vec<u32>,
    /// Closes every way to share out the parts over those patterns.
    pub tree: Tree,
}

/// A proof by cases.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Tree {
    /// Prices under which all that is asked is worth more than the sticks can hold.
    Leaf(Prices),
    /// Two cases.
    Split(Box<Split>),
}

/// Prices of parts, and of the cases that lead to a leaf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Prices {
    /// A row of each kind of like parts, and the price of one of them.
    pub parts: Vec<(usize, i32)>,
    /// The price of a counted stick for each split, from the root: from 0 for the case of more, to 0 for that of fewer.
    pub splits: Vec<i32>,
}

/// Two cases: at most so many of the counted sticks, or more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Split {
    /// Which sticks are counted.
    pub counted: Counted,
    /// The most in the case of fewer.
    pub most: u32,
    /// The case of at most `most`.
    pub fewer: Tree,
    /// The case of at least one more than `most`.
    pub more: Tree,
}

/// The sticks that a split counts, by their parts that have a worth.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Counted {
    /// Those with parts like these two rows.
    Pair(usize, usize),
    /// Those with just these parts, or like ones.
    Only(Stick),
}
