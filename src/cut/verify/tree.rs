//! Whether a tree closes a mix.

use super::kinds::Kinds;
use super::patterns::Pattern;
use super::steps::Steps;
use crate::cut::certificate::{ClosedMix, Counted, Prices, Tree};

/// A case on the way to a leaf: of the patterns that `counts` marks there are at least, or at most, `count` sticks.
struct Case {
    counts: Vec<bool>,
    least: bool,
    count: u32,
}

struct Closing<'a> {
    kinds: &'a Kinds,
    worth: Vec<i64>,
    mix: &'a [u32],
    patterns: Vec<Pattern>,
    cases: Vec<Case>,
    steps: &'a Steps,
}

/// Whether the tree shows that no plan has this mix; none if the steps run out or the certificate is of other rows.
pub(super) fn closes(kinds: &Kinds, closed: &ClosedMix, mix: &[u32], steps: &Steps) -> Option<bool> {
    let worth = kinds.worth(&closed.worth)?;
    let patterns = kinds.patterns(&worth, mix, steps)?;
    Closing { kinds, worth, mix, patterns, cases: Vec::new(), steps }.is_closed(&closed.tree)
}

impl Closing<'_> {
    fn is_closed(&mut self, tree: &Tree) -> Option<bool> {
        self.steps.take(16 + self.patterns.len() * (4 + self.cases.len()))?;
        let split = match tree {
            Tree::Leaf(prices) => return self.is_impossible(prices),
            Tree::Split(split) => split,
        };
        let counts: Vec<bool> =
            self.patterns.iter().map(|pattern| self.is_counted(pattern, &split.counted)).collect::<Option<_>>()?;
        let more = split.most.checked_add(1)?;
        for (tree, least, count) in [(&split.fewer, false, split.most), (&split.more, true, more)] {
            self.cases.push(Case { counts: counts.clone(), least, count });
            let closed = self.is_closed(tree)?;
            self.cases.pop();
            if !closed {
                return Some(false);
            }
        }
        Some(true)
    }

    fn is_counted(&self, pattern: &Pattern, counted: &Counted) -> Option<bool> {
        match counted {
            Counted::Pair(one, other) => {
                let has = |kind: usize| pattern.parts.iter().any(|own| own.0 == kind);
                Some(has(self.kinds.part(*one)?) && has(self.kinds.part(*other)?))
            }
            Counted::Only(stick) => {
                let mut counts = vec![0_u32; self.kinds.parts.len()];
                for row in &stick.parts {
                    counts[self.kinds.part(*row)?] += 1;
                }
                pattern.parts.iter().for_each(|(kind, count)| counts[*kind] = counts[*kind].wrapping_sub(*count));
                Some(pattern.stick == self.kinds.stick(stick.stock)? && counts.iter().all(|count| *count == 0))
            }
        }
    }

    /// Whether all parts, and the counts of all cases, are worth more than the sticks of the mix can be.
    fn is_impossible(&self, prices: &Prices) -> Option<bool> {
        let mut price = vec![0_i64; self.kinds.parts.len()];
        for (row, own) in &prices.parts {
            let kind = self.kinds.part(*row)?;
            // The patterns are silent on parts without worth.
            if self.worth[kind] == 0 {
                return Some(false);
            }
            price[kind] = i64::from(*own);
        }
        // A case of more is worth something, one of fewer costs something.
        let is_sound = |(case, price): (&Case, &i32)| if case.least { *price >= 0 } else { *price <= 0 };
        if prices.splits.len() != self.cases.len() || !self.cases.iter().zip(&prices.splits).all(is_sound) {
            return Some(false);
        }
        let product = |count: u32, price: i64| i128::from(count) * i128::from(price);
        let parts = self.kinds.parts.iter().zip(&price).map(|(part, price)| product(part.wanted, *price));
        let cases = self.cases.iter().zip(&prices.splits).map(|(case, price)| product(case.count, i64::from(*price)));
        let asked: i128 = parts.chain(cases).sum();
        // A stick without parts of worth is worth nothing.
        let mut most = vec![0_i128; self.mix.len()];
        for (at, pattern) in self.patterns.iter().enumerate() {
            let parts = pattern.parts.iter().map(|(kind, count)| product(*count, price[*kind]));
            let cases = self.cases.iter().zip(&prices.splits).filter(|(case, _)| case.counts[at]);
            let worth = parts.chain(cases.map(|(_, price)| i128::from(*price))).sum();
            most[pattern.stick] = most[pattern.stick].max(worth);
        }
        let held: i128 = self.mix.iter().zip(most).map(|(count, most)| i128::from(*count) * most).sum();
        Some(asked > held)
    }
}
