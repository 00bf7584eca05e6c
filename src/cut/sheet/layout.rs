//! From the tree of a sheet to its cuts.

use super::instance::Instance;
use super::plan::{Layout, Line, Region};
use super::problem::Size;
use super::tree::{Tree, Way};

/// Work left: a region, its size, and the nodes in it, in order.
struct Waiting {
    region: usize,
    size: Size,
    what: What,
}

enum What {
    /// One node, which may be smaller than the region.
    One(usize),
    /// The parts of a row, from one node to an end.
    Row { way: Way, next: usize, end: usize },
}

/// Collects the regions of a sheet.
struct Cutter<'a> {
    tree: &'a Tree,
    kerf: u64,
    regions: Vec<Region>,
    waiting: Vec<Waiting>,
}

/// The cuts of a tree; `piece` gives the row and whether it is turned for an item and the size in which it lies.
pub(super) fn layout(
    tree: &Tree,
    row: usize,
    instance: &Instance,
    piece: impl FnMut(usize, Size) -> (usize, bool),
) -> Layout {
    let mut piece = piece;
    let mut cutter = Cutter { tree, kerf: u64::from(instance.kerf), regions: vec![Region::Left], waiting: Vec::new() };
    if !tree.is_empty() {
        cutter.waiting.push(Waiting { region: 0, size: tree.sheet(), what: What::One(0) });
    }
    while let Some(Waiting { region, size, what }) = cutter.waiting.pop() {
        match what {
            What::One(node) => cutter.one(region, size, node, &mut piece),
            What::Row { way, next, end } => cutter.row(region, size, way, next, end),
        }
    }
    Layout { sheet: row, regions: cutter.regions }
}

impl Cutter<'_> {
    fn one(&mut self, region: usize, size: Size, node: usize, piece: &mut impl FnMut(usize, Size) -> (usize, bool)) {
        let own = self.tree.nodes()[node];
        let Some(item) = own.item else {
            let what = What::Row { way: own.way, next: node + 1, end: node + own.span };
            self.waiting.push(Waiting { region, size, what });
            return;
        };
        let (wide, high) = (size.width > own.size.width, size.height > own.size.height);
        if !wide && !high {
            let (piece, turned) = piece(item, own.size);
            self.regions[region] = Region::Piece { piece, turned };
            return;
        }
        // The offcut that comes off first is the longer one, so it should be the larger of the two.
        let beside = (size.width - own.size.width) * size.height;
        let above = (size.height - own.size.height) * size.width;
        let way = if wide && (!high || beside >= above) { Way::Across } else { Way::Up };
        self.cut(region, size, way, node, node + own.span);
    }

    fn row(&mut self, region: usize, size: Size, way: Way, next: usize, end: usize) {
        let own = self.tree.nodes()[next];
        let last = next + own.span >= end;
        if last && way.sides(size).0 == way.sides(own.size).0 {
            self.waiting.push(Waiting { region, size, what: What::One(next) });
        } else {
            self.cut(region, size, way, next, end);
        }
    }

    /// Cuts off the first part of a row; after it comes the rest of the row, or waste.
    fn cut(&mut self, region: usize, size: Size, way: Way, next: usize, end: usize) {
        let own = self.tree.nodes()[next];
        let (at, _) = way.sides(own.size);
        let (whole, thick) = way.sides(size);
        let first = self.regions.len();
        self.regions.extend([Region::Left; 2]);
        let line = match way {
            Way::Across => Line::Upright,
            Way::Up => Line::Level,
        };
        let marked = u32::try_from(at - self.kerf).unwrap_or(0);
        self.regions[region] = Region::Cut { line, at: marked, first, rest: first + 1 };
        if next + own.span < end {
            let what = What::Row { way, next: next + own.span, end };
            self.waiting.push(Waiting { region: first + 1, size: way.size(whole - at, thick), what });
        }
        self.waiting.push(Waiting { region: first, size: way.size(at, thick), what: What::One(next) });
    }
}
