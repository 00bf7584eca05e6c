//! The least cost of boards that meet all needs.

/// A condition on a set of boards: `Σ gives · boards ≥ need`, in whole numbers.
pub(super) struct Need {
    /// What a board of each kind gives to the need.
    pub(super) gives: Vec<u64>,
    pub(super) need: u64,
}

/// The most half-decided mixes of boards to try.
const MOST: u32 = 300_000;

/// The least cost of whole boards of kinds with these costs and counts that meets all needs, or `below` if none costs
/// less; where that takes too long, the least that one need asks for with boards in part.
pub(super) fn least(kinds: &[(u64, Option<u32>)], needs: &[Need], below: u64) -> u64 {
    let open: Vec<i128> = needs.iter().map(|need| i128::from(need.need)).collect();
    let mut search = Search { kinds, needs, best: below, looked: 0 };
    let first = search.at_least(0, &open).unwrap_or(0);
    search.decide(0, 0, &open);
    if search.looked >= MOST { first.min(below) } else { search.best }
}

struct Search<'a> {
    kinds: &'a [(u64, Option<u32>)],
    needs: &'a [Need],
    best: u64,
    looked: u32,
}

impl Search<'_> {
    /// What the kinds from `kind` on cost at the least for what is still open, boards in part; none if it cannot be
    /// met.
    fn at_least(&self, kind: usize, open: &[i128]) -> Option<u64> {
        let mut dearest = 0;
        for (need, open) in self.needs.iter().zip(open).filter(|(_, open)| **open > 0) {
            let each = self.kinds[kind..].iter().zip(&need.gives[kind..]).filter(|(_, gives)| **gives > 0);
            let part = each.map(|((cost, _), gives)| {
                let gives = i128::from(*gives);
                (i128::from(*cost) * open + gives - 1) / gives
            });
            dearest = dearest.max(part.min()?);
        }
        u64::try_from(dearest).ok()
    }

    fn decide(&mut self, kind: usize, cost: u64, open: &[i128]) {
        self.looked = self.looked.saturating_add(1);
        if self.looked >= MOST {
            return;
        }
        let Some(more) = self.at_least(kind, open) else { return };
        if cost + more >= self.best {
            return;
        }
        let Some((each, count)) = self.kinds.get(kind).copied() else {
            self.best = cost;
            return;
        };
        let mut open = open.to_vec();
        let (mut cost, mut taken) = (cost, 0);
        loop {
            self.decide(kind + 1, cost, &open);
            // More of a kind that no open need asks for only costs more.
            let helps = self.needs.iter().zip(&open).any(|(need, open)| *open > 0 && need.gives[kind] > 0);
            if !helps || count == Some(taken) || cost >= self.best || self.looked >= MOST {
                return;
            }
            taken += 1;
            cost += each;
            open.iter_mut().zip(self.needs).for_each(|(open, need)| *open -= i128::from(need.gives[kind]));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn need(gives: &[u64], need: u64) -> Need {
        Need { gives: gives.to_vec(), need }
    }

    /// Worked by hand: 10 of the thick kind, which gives 6 for 7, take two; 25 of either take 13 more at 4 for 5.
    #[test]
    fn whole_boards_meet_every_need() {
        let kinds = [(5, None), (7, None)];
        assert_eq!(least(&kinds, &[need(&[0, 6], 10)], 100), 14);
        // Two thick ones give 12, and the other 13 take four thin ones (34) or one thick and two thin (31), or three
        // thick and one thin: 24 + ... 18 + 4 is 22, too little; so three thick and two thin.
        assert_eq!(least(&kinds, &[need(&[0, 6], 10), need(&[4, 6], 25)], 100), 31);
        assert_eq!(least(&kinds, &[need(&[0, 6], 10), need(&[4, 6], 25)], 31), 31);
        // One thick board is all there is, so that the need cannot be met: nothing costs less than what is known.
        assert_eq!(least(&[(5, None), (7, Some(1))], &[need(&[0, 6], 10)], 40), 40);
    }
}
