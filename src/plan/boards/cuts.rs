//! How a board is cut, as a framer does it: ripped along, crosscut, each block again until it is a blank.

use super::Yard;
use crate::cut::sheet::{Instance, Layout, Line, Region};
use crate::measure::Real;

/// A rectangle of a board, in inches.
#[derive(Clone, Debug)]
pub struct Block {
    /// Along the grain.
    pub length: Real,
    /// Across it.
    pub width: Real,
    /// What becomes of it.
    pub cut: Cut,
}

/// What becomes of a block.
#[derive(Clone, Debug)]
pub enum Cut {
    /// It is left over.
    Rest,
    /// It is left over and worth keeping: the part whose section it has, and its length once it is milled, in inches.
    Offcut(usize, Real),
    /// It is the blank of a part.
    Part(usize),
    /// It is ripped into these, from one edge to the other.
    Ripped(Vec<Block>),
    /// It is crosscut into these, from one end to the other.
    Crosscut(Vec<Block>),
}

impl Block {
    /// Of a layout whose pieces are blanks of the parts in `rows`.
    pub(super) fn of(layout: &Layout, instance: &Instance, rows: &[usize], yard: &Yard) -> Self {
        let sheet = &instance.sheets[layout.sheet];
        Cutter { layout, kerf: instance.kerf, rows, yard }.block(0, [sheet.width, sheet.height])
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
    rows: &'a [usize],
    yard: &'a Yard<'a>,
}

impl Cutter<'_> {
    fn region(&self, region: usize) -> Region {
        self.layout.regions.get(region).copied().unwrap_or(Region::Left)
    }

    fn block(&self, region: usize, [length, width]: [u32; 2]) -> Block {
        let cut = match self.region(region) {
            Region::Left => Cut::Rest,
            Region::Piece { piece, .. } => self.rows.get(piece).map_or(Cut::Rest, |row| Cut::Part(*row)),
            Region::Cut { line: Line::Level, .. } => Cut::Ripped(self.row(region, [length, width], Line::Level)),
            Region::Cut { line: Line::Upright, .. } => {
                Cut::Crosscut(self.keeping(width, self.row(region, [length, width], Line::Upright)))
            }
        };
        let inches = |ticks: u32| self.yard.saw.inches(ticks);
        Block { length: inches(length), width: inches(width), cut }
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

    /// A rest beside blanks of its own width is an offcut of their section, if it is long enough once it is milled.
    fn keeping(&self, width: u32, mut blocks: Vec<Block>) -> Vec<Block> {
        let width = self.yard.saw.inches(width);
        let like = blocks.iter().find_map(|block| match block.cut {
            Cut::Part(part) if block.width == width => Some(part),
            Cut::Part(_) | Cut::Rest | Cut::Offcut(..) | Cut::Ripped(_) | Cut::Crosscut(_) => None,
        });
        for block in blocks.iter_mut().filter(|block| matches!(block.cut, Cut::Rest)) {
            let milled = block.length.clone() - self.yard.ripping.ends.clone();
            if let Some(part) = like.filter(|_| milled.is_positive() && milled >= self.yard.saw.offcut) {
                block.cut = Cut::Offcut(part, milled);
            }
        }
        blocks
    }
}
