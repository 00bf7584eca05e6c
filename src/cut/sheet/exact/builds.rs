//! Whether pieces come out of one sheet: rows and columns of them are built up, all that waste no more than may be.
//!
//! Every pattern of cuts from edge to edge is a tree of two things side by side or one above the other. Of those with the
//! same pieces only the least sizes are kept. A sheet may waste what it has more than its pieces; a build wastes what is
//! free in it, and beside and above it what no pieces fill. Sources: Wang, Two algorithms for constrained two-dimensional
//! cutting stock problems, Operations Research 31 (1983), for builds with a limit on waste; Fleszar, An exact algorithm
//! for the two-dimensional stage-unrestricted guillotine cutting/packing decision problem, INFORMS Journal on Computing 28
//! (2016), for deciding so whether all pieces fit.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap, HashMap};

use super::counts::{Counts, Places};
use crate::cut::limits::Meter;
use crate::cut::sheet::problem::{Problem, Size};
use crate::cut::sheet::tree::{Node, Tree, Way};

/// Whether pieces come out of a sheet.
#[derive(Clone, Debug)]
pub(super) enum Held {
    /// They do, so.
    Yes(Tree),
    /// They do not, however it is cut.
    No,
    /// There was no time or room to know.
    Unknown,
}

/// More builds than this take more memory than they are worth.
const MOST_BUILDS: usize = 1_000_000;

/// Pieces in a rectangle.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Build {
    /// Of all its pieces.
    area: Reverse<u64>,
    counts: Counts,
    size: Size,
    made: Made,
}

#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Made {
    Piece {
        item: usize,
    },
    /// Of two finished builds.
    Row {
        across: bool,
        first: usize,
        second: usize,
    },
}

const fn way_of(across: bool) -> Way {
    if across { Way::Across } else { Way::Up }
}

/// Whether a sheet holds all of `counts`, for certain either way unless the work ends first.
pub(super) fn held(problem: &Problem, places: &Places, sheet: Size, counts: Counts, meter: &Meter) -> Held {
    let pieces = places.items(counts);
    let area: u64 = pieces.iter().map(|item| problem.items[*item].size.area()).sum();
    let Some(budget) = sheet.area().checked_sub(area) else { return Held::No };
    let ways = |side: fn(Size) -> u64| {
        let sides = |item: &usize| problem.items[*item].ways().map(side).collect::<Vec<u64>>();
        pieces.iter().map(sides).collect::<Vec<_>>()
    };
    let (widths, heights) = (ways(|size| size.width), ways(|size| size.height));
    let mut yard = Yard {
        places,
        sheet,
        most: counts,
        budget,
        across: Reach::new(sheet.width, widths.iter().map(Vec::as_slice)),
        up: Reach::new(sheet.height, heights.iter().map(Vec::as_slice)),
        waiting: BinaryHeap::new(),
        fronts: HashMap::new(),
        done: Vec::new(),
        by_height: BTreeMap::new(),
        by_width: BTreeMap::new(),
        least: [&widths, &heights].map(|sides| sides.iter().flatten().copied().min().unwrap_or(1)),
    };
    let mut items = pieces;
    items.dedup();
    for item in items {
        let own = &problem.items[item];
        for size in own.ways() {
            let area = Reverse(own.size.area());
            yard.offer(Build { area, counts: places.one(item), size, made: Made::Piece { item } });
        }
    }
    yard.run(meter)
}

/// Everything that is built.
struct Yard<'a> {
    places: &'a Places,
    sheet: Size,
    most: Counts,
    /// The most that may be wasted.
    budget: u64,
    across: Reach,
    up: Reach,
    /// What is to be joined with what is done, the least area first: what has the same pieces is then all there.
    waiting: BinaryHeap<Build>,
    /// The least sizes for the same pieces.
    fronts: HashMap<Counts, Vec<Size>>,
    done: Vec<Build>,
    by_height: BTreeMap<u64, Vec<usize>>,
    by_width: BTreeMap<u64, Vec<usize>>,
    /// The least width and height of a piece.
    least: [u64; 2],
}

impl Yard<'_> {
    fn run(mut self, meter: &Meter) -> Held {
        while let Some(build) = self.waiting.pop() {
            let front = self.fronts.get(&build.counts);
            if !front.is_some_and(|front| front.contains(&build.size)) {
                continue;
            }
            let at = self.done.len();
            self.done.push(build);
            if build.counts == self.most {
                return Held::Yes(self.tree(at));
            }
            // It is joined with itself too: there may be two of the same pieces.
            self.by_height.entry(build.size.height).or_default().push(at);
            self.by_width.entry(build.size.width).or_default().push(at);
            let joined = [Way::Across, Way::Up].into_iter().all(|way| self.join(at, way, meter));
            if !joined || meter.is_over() || self.fronts.len() > MOST_BUILDS || self.waiting.len() > MOST_BUILDS {
                return Held::Unknown;
            }
        }
        Held::No
    }

    /// Builds rows of one build and all others that are done.
    fn join(&mut self, at: usize, way: Way, meter: &Meter) -> bool {
        let own = self.done[at];
        let (along, thick) = way.sides(own.size);
        let (whole, _) = way.sides(self.sheet);
        let (thinnest, index) = match way {
            Way::Across => (self.least[0], &self.by_height),
            Way::Up => (self.least[1], &self.by_width),
        };
        // Where one is thicker the room beside the other is lost.
        let from = thick.saturating_sub(self.budget / thinnest.max(1));
        let to = thick + self.budget / along.max(1);
        let mut found = Vec::new();
        for (other_thick, others) in index.range(from..=to) {
            meter.count(8 * others.len());
            for &second in others {
                let other = &self.done[second];
                let (length, _) = way.sides(other.size);
                if along + length > whole {
                    continue;
                }
                let Some(counts) = self.places.together(own.counts, other.counts, self.most) else { continue };
                let size = way.size(along + length, thick.max(*other_thick));
                let area = Reverse(own.area.0 + other.area.0);
                let across = way == Way::Across;
                found.push(Build { area, counts, size, made: Made::Row { across, first: second, second: at } });
            }
            if meter.is_over() {
                return false;
            }
        }
        meter.count(32 * found.len());
        found.into_iter().for_each(|build| self.offer(build));
        true
    }

    /// Keeps a build if it wastes no more than may be, and none with the same pieces is as small.
    fn offer(&mut self, build: Build) {
        let size = build.size;
        if !size.is_in(self.sheet) {
            return;
        }
        let within = size.area() - build.area.0;
        let around = size.height * self.across.lost(size.width) + size.width * self.up.lost(size.height);
        if within + around > self.budget {
            return;
        }
        let front = self.fronts.entry(build.counts).or_default();
        if front.iter().any(|other| other.is_in(size)) {
            return;
        }
        front.retain(|other| !size.is_in(*other));
        front.push(size);
        self.waiting.push(build);
    }

    fn tree(&self, at: usize) -> Tree {
        let mut nodes = Vec::new();
        self.lay(at, None, &mut nodes);
        Tree::of(self.sheet, nodes)
    }

    /// The nodes of a build that lies in a row of a way; a row in a row of its own way goes up in it.
    fn lay(&self, at: usize, within: Option<Way>, nodes: &mut Vec<Node>) {
        let build = self.done[at];
        let place = nodes.len();
        match build.made {
            Made::Piece { item } => {
                let way = within.map_or(Way::Across, Way::other);
                nodes.push(Node { size: build.size, room: build.size, item: Some(item), span: 1, way });
            }
            Made::Row { across, first, second } => {
                let way = way_of(across);
                let is_own = within != Some(way);
                if is_own {
                    nodes.push(Node { size: build.size, room: build.size, item: None, span: 1, way });
                }
                self.lay(first, Some(way), nodes);
                self.lay(second, Some(way), nodes);
                if is_own {
                    nodes[place].span = nodes.len() - place;
                }
            }
        }
    }
}

/// All sums of sides of pieces, up to a whole side.
struct Reach {
    whole: u64,
    /// In rising order; none if there are too many.
    sums: Option<Vec<u64>>,
}

/// With more sums than this, hardly any gap stays unfilled.
const MOST_SUMS: usize = 20_000;

impl Reach {
    /// The sums for pieces that each lie one way or the other.
    fn new<'a>(whole: u64, sides: impl Iterator<Item = &'a [u64]>) -> Self {
        let mut sums = vec![0];
        for own in sides {
            let more: Vec<u64> = own.iter().flat_map(|side| sums.iter().map(move |sum| sum + side)).collect();
            sums.extend(more.into_iter().filter(|sum| *sum <= whole));
            sums.sort_unstable();
            sums.dedup();
            if sums.len() > MOST_SUMS {
                return Self { whole, sums: None };
            }
        }
        Self { whole, sums: Some(sums) }
    }

    /// The length lost beside `side`: no pieces fill more of the rest.
    fn lost(&self, side: u64) -> u64 {
        let rest = self.whole - side;
        let Some(sums) = &self.sums else { return 0 };
        let at = sums.partition_point(|sum| *sum <= rest);
        rest - sums[at.saturating_sub(1)]
    }
}
