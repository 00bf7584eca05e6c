//! The search: a first plan, bounds, the cheapest mix, and a trial of that mix.

use std::collections::{BTreeMap, HashSet};

use super::arrange::arrange;
use super::bound::{Cut, by_halves, by_size};
use super::certify::{Impossible, certificate};
use super::close::{Closed, close};
use super::dive::{Diver, Found, Manner};
use super::greedy::{Draft, Filling, fill};
use super::instance::{Instance, Plan};
use super::limits::{Limits, Meter};
use super::mix::{Mixed, Wanted, cheapest};
use super::number::whole;
use super::problem::Problem;
use super::relax::{Ask, HARDLY, Pool};

/// The cheapest plan found within `limits`, and a bound for the cost of any plan.
///
/// Parts that are too long for every stick, or for which the stock runs out, are left; the plan and its
/// bound cover the rest. With `limits` of steps alone the same instance always gives the same plan.
pub fn solve(instance: &Instance, limits: &Limits) -> Plan {
    let meter = Meter::new(limits);
    let mut problem = Problem::new(instance);
    let mut best = first(&problem, &meter);
    if !best.is_whole() && Pool::takes(&problem) {
        best = Search::new(&problem, &meter, best).completed();
    }
    if !best.is_whole() {
        // The stock seems to run out: plan the rest as if no more were wanted.
        problem.items.iter_mut().zip(&best.left).for_each(|(item, left)| item.demand -= left);
        best.left.fill(0);
    }
    let mut search = Search::new(&problem, &meter, best);
    search.run();
    let plan = arrange(instance, &problem, &search.best, search.bound());
    let bound = search.bound();
    Plan { certificate: certificate(instance, &problem, search.cuts, search.impossible, bound), ..plan }
}

/// The better of two quick plans: the one with less left over, then the cheaper.
fn first(problem: &Problem, meter: &Meter) -> Draft {
    let (demand, counts) = (problem.demand(), problem.counts());
    let longest = fill(problem, &demand, &counts, Filling::Longest, u64::MAX, meter);
    let room = problem.room.iter().flatten().max().copied().unwrap_or(0);
    // The tighter filling tries every sum of every stick.
    if room.saturating_mul(problem.items.len()).saturating_mul(longest.sticks()) > TIGHT {
        return longest;
    }
    let tightest = fill(problem, &demand, &counts, Filling::Tightest, u64::MAX, meter);
    let rank = |draft: &Draft| (draft.left_over(problem), draft.cost);
    if rank(&tightest) < rank(&longest) { tightest } else { longest }
}

struct Search<'a> {
    problem: &'a Problem,
    meter: &'a Meter<'a>,
    pool: Pool,
    cuts: Vec<Cut>,
    best: Draft,
    /// No plan costs less.
    bound: u64,
    /// Mixes that may work, but could not be rounded so far.
    tried: HashSet<Vec<u32>>,
    /// Mixes that certainly do not work.
    impossible: BTreeMap<Vec<u32>, Impossible>,
    /// The most steps of a first dive.
    first: u64,
    /// The sticks of each length in the relaxation, in thousandths.
    near: Vec<u64>,
}

/// The result of trying a mix.
enum Trial {
    Found(Found),
    Cut(Cut),
    /// No plan has this mix.
    Impossible(Impossible),
    Open,
}

impl<'a> Search<'a> {
    fn new(problem: &'a Problem, meter: &'a Meter<'a>, best: Draft) -> Self {
        let mut pool = Pool::default();
        for (pattern, _) in &best.patterns {
            pool.add(pattern.clone());
        }
        let mut cuts = vec![by_size(problem)];
        cuts.extend(by_halves(problem));
        let near = vec![0; problem.bars.len()];
        Self {
            problem,
            meter,
            pool,
            cuts,
            best,
            bound: 0,
            tried: HashSet::new(),
            impossible: BTreeMap::new(),
            first: 0,
            near,
        }
    }

    /// A plan for all parts with all the stock, if one is found, or else the plan as it is.
    fn completed(mut self) -> Draft {
        let counts = self.problem.counts();
        let budget = self.problem.cost(&counts);
        for round in 0..FIRST_ROUNDS {
            match self.trial(&counts, budget, round) {
                Trial::Found(found) => return Draft::whole(self.problem, found),
                Trial::Cut(_) | Trial::Impossible(_) => break,
                Trial::Open => {}
            }
        }
        self.best
    }

    fn bound(&self) -> u64 {
        self.bound.min(self.best.cost)
    }

    fn run(&mut self) {
        if self.is_done() || !Pool::takes(self.problem) {
            return;
        }
        let counts = self.problem.counts();
        let demand = self.problem.demand();
        let ask = Ask { demand: &demand, counts: &counts, cover: false, seed: 0 };
        let relaxed = self.pool.relax(self.problem, ask, self.meter);
        self.cuts.extend(relaxed.cut);
        for (pattern, amount) in &relaxed.amounts {
            self.near[pattern.bar] += u64::from(whole(1000.0 * amount));
        }
        for round in 0..MOST_ROUNDS {
            self.tried = self.impossible.keys().cloned().collect();
            if self.round(round) || self.meter.is_over() {
                return;
            }
        }
    }

    fn cheapest(&self) -> Mixed {
        let (cuts, tried, near) = (&self.cuts, &self.tried, &self.near);
        cheapest(self.problem, Wanted { cuts, tried, below: self.best.cost, near }, self.meter)
    }

    /// Whether the plan is proven best.
    fn is_done(&mut self) -> bool {
        match self.cheapest() {
            Mixed::Mix(mix) => self.bound = self.bound.max(self.problem.cost(&mix)),
            Mixed::None => self.bound = self.best.cost,
            Mixed::Unknown(least) => self.bound = self.bound.max(least),
        }
        self.bound >= self.best.cost
    }

    /// Tries every mix that could give a cheaper plan, the cheapest first; returns whether none is left.
    fn round(&mut self, round: usize) -> bool {
        let mut open = None;
        loop {
            let mix = match self.cheapest() {
                Mixed::Mix(mix) => mix,
                Mixed::None => {
                    self.bound = self.bound.max(open.unwrap_or(self.best.cost).min(self.best.cost));
                    return self.bound >= self.best.cost;
                }
                Mixed::Unknown(least) => {
                    self.bound = self.bound.max(open.unwrap_or(least).min(least));
                    return false;
                }
            };
            let cost = self.problem.cost(&mix);
            self.bound = self.bound.max(open.unwrap_or(cost).min(cost));
            match self.trial(&mix, cost, round) {
                Trial::Found(found) => {
                    self.best = Draft::whole(self.problem, found);
                    if self.bound >= self.best.cost {
                        return true;
                    }
                }
                Trial::Cut(cut) => self.cuts.push(cut),
                Trial::Impossible(why) => {
                    self.tried.insert(mix.clone());
                    self.impossible.insert(mix, why);
                }
                Trial::Open => {
                    open = Some(open.unwrap_or(cost).min(cost));
                    self.tried.insert(mix);
                }
            }
            if self.meter.is_over() {
                return true;
            }
        }
    }

    fn trial(&mut self, mix: &[u32], cost: u64, round: usize) -> Trial {
        let demand = self.problem.demand();
        let ask = Ask { demand: &demand, counts: mix, cover: true, seed: 0 };
        let relaxed = self.pool.relax(self.problem, ask, self.meter);
        if let Some(cut) = relaxed.cut.filter(|cut| !cut.is_met(mix)) {
            return Trial::Cut(cut);
        }
        if relaxed.short > HARDLY {
            return Trial::Open;
        }
        // The first dive runs to its end; later ones get a multiple of its steps in each round.
        let steps = if round == 0 { u64::MAX } else { self.first.max(LEAST_STEPS) << round.min(20) };
        let mut diver = Diver { problem: self.problem, pool: &mut self.pool, meter: self.meter };
        let (found, used) = self.meter.part(steps, || diver.dive(mix, cost, Manner::nth(round)));
        self.first = self.first.max(if round == 0 { used } else { 0 });
        if let Some(found) = found {
            return Trial::Found(found);
        }
        // The cut that leaves this mix the least room: prices of a plan limited to it.
        let ask = Ask { demand: &demand, counts: mix, cover: false, seed: 0 };
        let Some(cut) = self.pool.relax(self.problem, ask, self.meter).cut else { return Trial::Open };
        if !cut.is_met(mix) {
            return Trial::Cut(cut);
        }
        let steps = self.first.max(LEAST_STEPS) << round.min(20);
        let (table, meter) = (self.pool.table(), self.meter);
        match meter.part(steps, || close(self.problem, table, &cut, mix, round, meter)).0 {
            Closed::Found(found) => Trial::Found(found),
            Closed::Impossible(tree) => Trial::Impossible(Impossible { worth: cut.worth, tree }),
            Closed::Unknown => Trial::Open,
        }
    }
}

/// The most cells of the tighter filling.
const TIGHT: usize = 100_000_000;
/// Attempts at a plan for all parts before some are left over.
const FIRST_ROUNDS: usize = 4;
/// The steps of a part of the search in the first round; each later round doubles them.
const LEAST_STEPS: u64 = 100_000_000;
/// Beyond some number of seeds, more do not help.
const MOST_ROUNDS: usize = 1000;
