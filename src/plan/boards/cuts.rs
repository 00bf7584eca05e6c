//! The cuts of a board, in a framer's order: rip, crosscut, and again until each block is a blank.

use super::strips::Strip;
use crate::cut::sheet::{Instance, Layout, Line, Region};
use crate::measure::Real;
use crate::plan::yard::Yard;

/// A board and its cuts.
#[derive(Clone, Debug)]
pub struct Board {
    /// The row of the rack.
    pub item: usize,
    /// The board between its trims and edges.
    pub block: Block,
}

/// A rectangle of a board, in inches.
#[derive(Clone, Debug)]
pub struct Block {
    /// Along the grain.
    pub length: Real,
    /// Across it.
    pub width: Real,
    /// What the block becomes.
    pub cut: Cut,
}

/// What a block becomes.
#[derive(Clone, Debug)]
pub enum Cut {
    /// Waste.
    Rest,
    /// An offcut worth keeping: the part with the same section, and its milled length in inches.
    Offcut(usize, Real),
    /// The blank of a part.
    Part(usize),
    /// Blocks, ripped from one edge to the other.
    Ripped(Vec<Block>),
    /// Blocks, crosscut from one end to the other.
    Crosscut(Vec<Block>),
}

impl Block {
    /// The cuts of a layout whose pieces are these strips.
    pub(super) fn of(layout: &Layout, instance: &Instance, strips: &[Strip], yard: &Yard) -> Self {
        let sheet = &instance.sheets[layout.sheet];
        let whole = Cutter { layout, kerf: instance.kerf, strips, yard }.block(0, [sheet.width, sheet.height]);
        let kerf = yard.saw.inches(instance.kerf);
        whole.ripped_first(&kerf).keeping(yard)
    }

    /// The same blanks, ripped where it can be and then crosscut: blocks side by side that have a strip of one width
    /// give it in one rip, all rests of a strip come to its end.
    fn ripped_first(self, kerf: &Real) -> Self {
        let Self { length, width, cut } = self;
        let each = |blocks: Vec<Self>| blocks.into_iter().map(|block| block.ripped_first(kerf));
        let cut = match cut {
            Cut::Rest | Cut::Offcut(..) | Cut::Part(_) => cut,
            Cut::Ripped(blocks) => Cut::Ripped(packed(each(blocks).flat_map(Self::strips).collect(), &length, kerf)),
            Cut::Crosscut(blocks) => {
                let blocks = joined(each(blocks).flat_map(Self::pieces).collect(), kerf);
                if blocks.iter().all(|block| matches!(block.cut, Cut::Rest)) {
                    return Self { length, width, cut: Cut::Rest };
                }
                return match common(&blocks, &width) {
                    Some(strip) => Self { length, width, cut: Cut::Crosscut(blocks) }.ripped_at(&strip, kerf),
                    None => Self { length, width, cut: Cut::Crosscut(blocks) },
                };
            }
        };
        Self { length, width, cut }
    }

    /// Of blocks side by side, each with a strip so wide: these strips in one, and what is left of the blocks.
    fn ripped_at(self, strip: &Real, kerf: &Real) -> Self {
        let Self { length, width, cut } = self;
        let beside = width.clone() - strip.clone() - kerf.clone();
        let rest = |length: &Real, width: &Real| Self { length: length.clone(), width: width.clone(), cut: Cut::Rest };
        let (mut first, mut others) = (Vec::new(), Vec::new());
        let blocks = if let Cut::Crosscut(blocks) = cut { blocks } else { Vec::new() };
        for block in blocks {
            let long = block.length.clone();
            let mut strips = block.strips();
            match strips.iter().position(|one| one.is_strip(strip)) {
                Some(at) => first.push(strips.remove(at)),
                None => {
                    first.push(rest(&long, strip));
                    strips.clear();
                }
            }
            others.push(match strips.len() {
                0 => rest(&long, &beside),
                1 if strips.iter().all(|one| one.width == beside) => strips.remove(0),
                _ => Self { length: long, width: beside.clone(), cut: Cut::Ripped(strips) },
            });
        }
        let row = |blocks: Vec<Self>, width: &Real| {
            let row = Self { length: length.clone(), width: width.clone(), cut: Cut::Crosscut(blocks) };
            row.ripped_first(kerf)
        };
        let mut strips = row(first, strip).strips();
        if beside.is_positive() {
            strips.extend(row(others, &beside).strips());
        }
        let strips = packed(strips, &length, kerf);
        Self { length, width, cut: Cut::Ripped(strips) }
    }

    /// The parts that it is crosscut into, if it is into nothing else.
    fn blanks(&self) -> Option<Vec<&Self>> {
        match &self.cut {
            Cut::Part(_) => Some(vec![self]),
            Cut::Crosscut(blocks) => {
                let is_plain = blocks.iter().all(|block| matches!(block.cut, Cut::Part(_) | Cut::Rest));
                is_plain.then(|| blocks.iter().filter(|block| matches!(block.cut, Cut::Part(_))).collect())
            }
            Cut::Rest | Cut::Offcut(..) | Cut::Ripped(_) => None,
        }
    }

    /// Whether it is a strip so wide that has blanks in it.
    fn is_strip(&self, width: &Real) -> bool {
        self.width == *width && !matches!(self.cut, Cut::Rest)
    }

    /// The strips that it is ripped into, or itself.
    fn strips(self) -> Vec<Self> {
        match self.cut {
            Cut::Ripped(blocks) => blocks,
            Cut::Rest | Cut::Offcut(..) | Cut::Part(_) | Cut::Crosscut(_) => vec![self],
        }
    }

    /// The blocks that it is crosscut into, or itself.
    fn pieces(self) -> Vec<Self> {
        match self.cut {
            Cut::Crosscut(blocks) => blocks,
            Cut::Rest | Cut::Offcut(..) | Cut::Part(_) | Cut::Ripped(_) => vec![self],
        }
    }

    /// A rest beside blanks of its own width is an offcut of their section, if it is long enough once it is milled.
    fn keeping(mut self, yard: &Yard) -> Self {
        let (Cut::Ripped(blocks) | Cut::Crosscut(blocks)) = &mut self.cut else { return self };
        *blocks = std::mem::take(blocks).into_iter().map(|block| block.keeping(yard)).collect();
        let Cut::Crosscut(blocks) = &mut self.cut else { return self };
        let like = blocks.iter().find_map(|block| match block.cut {
            Cut::Part(part) if block.width == self.width => Some(part),
            Cut::Part(_) | Cut::Rest | Cut::Offcut(..) | Cut::Ripped(_) | Cut::Crosscut(_) => None,
        });
        for block in blocks.iter_mut().filter(|block| matches!(block.cut, Cut::Rest)) {
            let milled = block.length.clone() - yard.ripping.ends.clone();
            if let Some(part) = like.filter(|_| milled.is_positive() && milled >= yard.saw.offcut) {
                block.cut = Cut::Offcut(part, milled);
            }
        }
        self
    }

    /// Itself and all blocks within it.
    pub fn each(&self) -> impl Iterator<Item = &Self> {
        let mut waiting = vec![self];
        std::iter::from_fn(move || {
            let block = waiting.pop()?;
            if let Cut::Ripped(blocks) | Cut::Crosscut(blocks) = &block.cut {
                waiting.extend(blocks.iter().rev());
            }
            Some(block)
        })
    }
}

struct Cutter<'a> {
    layout: &'a Layout,
    kerf: u32,
    strips: &'a [Strip],
    yard: &'a Yard<'a>,
}

impl Cutter<'_> {
    fn region(&self, region: usize) -> Region {
        self.layout.regions.get(region).copied().unwrap_or(Region::Left)
    }

    fn block(&self, region: usize, [length, width]: [u32; 2]) -> Block {
        let cut = match self.region(region) {
            Region::Left => Cut::Rest,
            Region::Piece { piece, .. } => self.strips.get(piece).map_or(Cut::Rest, |strip| self.strip(strip)),
            Region::Cut { line: Line::Level, .. } => Cut::Ripped(self.row(region, [length, width], Line::Level)),
            Region::Cut { line: Line::Upright, .. } => Cut::Crosscut(self.row(region, [length, width], Line::Upright)),
        };
        let inches = |ticks: u32| self.yard.saw.inches(ticks);
        Block { length: inches(length), width: inches(width), cut }
    }

    fn strip(&self, strip: &Strip) -> Cut {
        let inches = |ticks: u32| self.yard.saw.inches(ticks);
        match strip.blanks.as_slice() {
            [(part, _)] => Cut::Part(*part),
            blanks => {
                let block = |(part, length): &(usize, u32)| Block {
                    length: inches(*length),
                    width: inches(strip.width),
                    cut: Cut::Part(*part),
                };
                Cut::Crosscut(blanks.iter().map(block).collect())
            }
        }
    }

    /// The blocks that cuts of one way make, one after another.
    fn row(&self, region: usize, size: [u32; 2], way: Line) -> Vec<Block> {
        let (mut region, mut size) = (region, size);
        let mut blocks = Vec::new();
        loop {
            match self.region(region) {
                Region::Cut { line, at, first, rest } if line == way => {
                    let side = usize::from(way == Line::Level);
                    let mut one = size;
                    one[side] = at;
                    blocks.push(self.block(first, one));
                    size[side] = size[side].saturating_sub(at.saturating_add(self.kerf));
                    region = rest;
                }
                Region::Left | Region::Piece { .. } | Region::Cut { .. } => {
                    if size.iter().all(|side| *side > 0) {
                        blocks.push(self.block(region, size));
                    }
                    return blocks;
                }
            }
        }
    }
}

/// Strips so long with the blanks of strips of one width in as few of them as the longest first need; what is left over
/// of the width is one rest.
fn packed(strips: Vec<Block>, length: &Real, kerf: &Real) -> Vec<Block> {
    let (plain, mut others): (Vec<Block>, Vec<Block>) = strips.into_iter().partition(|strip| strip.blanks().is_some());
    let mut rows: Vec<(Real, Vec<Block>)> = Vec::new();
    let mut widths: Vec<(Real, Vec<&Block>, usize)> = Vec::new();
    for strip in &plain {
        let blanks = strip.blanks().unwrap_or_default();
        match widths.iter_mut().find(|(width, ..)| *width == strip.width) {
            Some((_, own, count)) => {
                own.extend(blanks);
                *count += 1;
            }
            None => widths.push((strip.width.clone(), blanks, 1)),
        }
    }
    let mut freed: Vec<Block> = Vec::new();
    for (width, mut blanks, count) in widths {
        blanks.sort_by(|one, other| other.length.partial_cmp(&one.length).unwrap_or(std::cmp::Ordering::Equal));
        // What each strip has, and how much of it that takes with a kerf behind each blank.
        let mut fresh: Vec<(Real, Vec<Block>)> = Vec::new();
        for blank in blanks {
            let fits = |taken: &Real| taken.clone() + blank.length.clone() <= *length;
            let more = blank.length.clone() + kerf.clone();
            match fresh.iter_mut().find(|(taken, _)| fits(taken)) {
                Some((taken, own)) => {
                    *taken = taken.clone() + more;
                    own.push(blank.clone());
                }
                None => fresh.push((more, vec![blank.clone()])),
            }
        }
        if fresh.len() > count {
            others.extend(plain.iter().filter(|strip| strip.width == width).cloned());
            continue;
        }
        let rest = |length: Real, width: &Real| Block { length, width: width.clone(), cut: Cut::Rest };
        freed.extend((fresh.len()..count).map(|_| rest(length.clone(), &width)));
        for (taken, mut own) in fresh {
            let left = length.clone() - taken;
            own.extend(left.is_positive().then(|| rest(left, &width)));
            rows.push((width.clone(), own));
        }
    }
    let strip = |(width, own): (Real, Vec<Block>)| Block { length: length.clone(), width, cut: Cut::Crosscut(own) };
    let strips: Vec<Block> = rows.into_iter().map(strip).chain(others).chain(freed).collect();
    let (rests, mut kept): (Vec<Block>, Vec<Block>) =
        strips.into_iter().partition(|strip| matches!(strip.cut, Cut::Rest));
    kept.extend(
        rests.into_iter().reduce(|one, other| Block { width: one.width + kerf.clone() + other.width, ..other }),
    );
    kept
}

/// The blocks of a row with all rests in one at its end, and the cuts between these.
fn joined(blocks: Vec<Block>, kerf: &Real) -> Vec<Block> {
    let (rests, mut kept): (Vec<Block>, Vec<Block>) =
        blocks.into_iter().partition(|block| matches!(block.cut, Cut::Rest));
    let rest =
        rests.into_iter().reduce(|one, other| Block { length: one.length + kerf.clone() + other.length, ..other });
    kept.extend(rest);
    kept
}

/// The widest strip that every block of a row has, rests left out, if it is not as wide as the row.
fn common(blocks: &[Block], width: &Real) -> Option<Real> {
    let mut ripped = blocks.iter().filter(|block| !matches!(block.cut, Cut::Rest)).map(|block| match &block.cut {
        Cut::Ripped(strips) => strips.as_slice(),
        Cut::Rest | Cut::Offcut(..) | Cut::Part(_) | Cut::Crosscut(_) => &[],
    });
    let first = ripped.next()?;
    let others: Vec<&[Block]> = ripped.collect();
    let in_all = |strip: &&Block| others.iter().all(|strips| strips.iter().any(|one| one.is_strip(&strip.width)));
    let own = first.iter().filter(|strip| strip.is_strip(&strip.width) && strip.width < *width).filter(in_all);
    own.map(|strip| &strip.width)
        .fold(None, |widest: Option<&Real>, one| widest.filter(|own| *own >= one).or(Some(one)))
        .cloned()
}
