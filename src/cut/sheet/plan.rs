//! The answer of a solver: sheets with their cuts, the cost, and a proven bound.

use super::instance::Instance;

/// The direction of a cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// From bottom to top: it divides the width.
    Upright,
    /// From left to right: it divides the height.
    Level,
}

/// What a rectangle becomes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Region {
    /// Waste, or an offcut.
    Left,
    /// A piece, exactly.
    Piece {
        /// The row of the piece.
        piece: usize,
        /// Whether the piece is turned.
        turned: bool,
    },
    /// Two rectangles, by one cut.
    Cut {
        /// The direction of the cut.
        line: Line,
        /// How far from the left, or from the bottom: the size of the first half, in ticks.
        at: u32,
        /// The region left of the cut, or below.
        first: usize,
        /// The region after the kerf; empty if the kerf takes all.
        rest: usize,
    },
}

/// One sheet and its cuts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Layout {
    /// The row of the sheet.
    pub sheet: usize,
    /// Every rectangle in the order of cutting; the first is the sheet between its trims, halves come after their whole.
    pub regions: Vec<Region>,
}

/// A rectangle on a sheet, measured from the lower left corner between the trims, in ticks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Placed {
    /// The row of the piece, and whether it is turned; none for what is left over.
    pub piece: Option<(usize, bool)>,
    /// Distance from the left.
    pub left: u32,
    /// Distance from the bottom.
    pub bottom: u32,
    /// Its width as it lies.
    pub width: u32,
    /// Its height as it lies.
    pub height: u32,
}

impl Layout {
    /// The place of everything on the sheet, offcuts included, in the order of cutting.
    pub fn placed(&self, instance: &Instance) -> Vec<Placed> {
        let (width, height) = instance.sheets.get(self.sheet).map_or((0, 0), |sheet| instance.usable(sheet));
        let mut placed = Vec::new();
        let mut waiting = vec![(0, Placed { piece: None, left: 0, bottom: 0, width, height })];
        while let Some((region, place)) = waiting.pop() {
            match self.regions.get(region).copied().unwrap_or(Region::Left) {
                Region::Left if place.width == 0 || place.height == 0 => {}
                Region::Left => placed.push(place),
                Region::Piece { piece, turned } => placed.push(Placed { piece: Some((piece, turned)), ..place }),
                Region::Cut { line, at, first, rest } => {
                    let behind = at.saturating_add(instance.kerf);
                    let (before, after) = match line {
                        Line::Upright => {
                            let width = place.width.saturating_sub(behind);
                            (Placed { width: at, ..place }, Placed { left: place.left + behind, width, ..place })
                        }
                        Line::Level => {
                            let height = place.height.saturating_sub(behind);
                            (Placed { height: at, ..place }, Placed { bottom: place.bottom + behind, height, ..place })
                        }
                    };
                    waiting.push((rest, after));
                    waiting.push((first, before));
                }
            }
        }
        placed
    }
}

/// Sheets for all pieces, or for as many as the sheets allow.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Plan {
    /// All sheets that are cut.
    pub layouts: Vec<Layout>,
    /// The cost of all sheets.
    pub cost: u64,
    /// A bound: no plan for the same pieces costs less, certified in whole numbers.
    pub bound: u64,
    /// For each row, the pieces that no sheet holds, because they are too large or the sheets are used up.
    pub left: Vec<u32>,
}

impl Plan {
    /// Whether the plan is proven: no plan costs less.
    pub const fn is_proven(&self) -> bool {
        self.cost == self.bound
    }
}
