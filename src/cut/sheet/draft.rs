//! A plan in progress: sheets being filled, and pieces that lie on none.

use super::problem::Problem;
use super::tree::Tree;

/// A sheet that is in use.
#[derive(Clone, Debug)]
pub(super) struct Open {
    pub(super) blank: usize,
    pub(super) tree: Tree,
}

/// Sheets, their cost, and the items that lie on none.
#[derive(Clone, Debug, Default)]
pub(super) struct Draft {
    pub(super) sheets: Vec<Open>,
    pub(super) left: Vec<usize>,
}

impl Draft {
    pub(super) fn cost(&self, problem: &Problem) -> u64 {
        self.sheets.iter().map(|open| problem.blanks[open.blank].cost).sum()
    }

    /// The area of the items that lie on no sheet.
    pub(super) fn left_area(&self, problem: &Problem) -> u64 {
        self.left.iter().map(|item| problem.items[*item].size.area()).sum()
    }

    /// The unused sheets of each size.
    pub(super) fn counts(&self, problem: &Problem) -> Vec<u32> {
        let mut counts: Vec<u32> = problem.blanks.iter().map(|blank| blank.count).collect();
        self.sheets.iter().for_each(|open| counts[open.blank] -= 1);
        counts
    }

    /// Moves the contents of each sheet to the cheapest sheet that holds them.
    pub(super) fn cheapen(&mut self, problem: &Problem) {
        let mut counts = self.counts(problem);
        for open in &mut self.sheets {
            let size = open.tree.size();
            let cheaper = (0..problem.blanks.len())
                .filter(|blank| counts[*blank] > 0 && size.is_in(problem.blanks[*blank].size))
                .min_by_key(|blank| problem.blanks[*blank].cost)
                .filter(|blank| problem.blanks[*blank].cost < problem.blanks[open.blank].cost);
            if let Some(blank) = cheaper {
                counts[open.blank] += 1;
                counts[blank] -= 1;
                open.blank = blank;
                open.tree = open.tree.moved(problem.blanks[blank].size);
            }
        }
    }
}
