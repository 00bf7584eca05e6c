//! What a solver gives: sheets with their cuts, the cost, and what is proven of it.

use super::instance::Instance;

/// Which way a cut runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// From bottom to top: it divides the width.
    Upright,
    /// From left to right: it divides the height.
    Level,
}

/// What becomes of a rectangle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Region {
    /// It is left over.
    Left,
    /// It is a piece of a row, exactly.
    Piece {
        /// Which row of the pieces.
        piece: usize,
        /// Whether it lies on its side.
        turned: bool,
    },
    /// It is cut in two.
    Cut {
        /// Which way.
        line: Line,
        /// How far from the left, or from the bottom: the size of the first half, in ticks.
        at: u32,
        /// The region left of the cut, or below.
        first: usize,
        /// The region behind the kerf; of no size where the kerf takes all.
        rest: usize,
    },
}

/// One sheet and how it is cut.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Layout {
    /// Which row of the sheets.
    pub sheet: usize,
    /// Every rectangle in the order of cutting; the first is the sheet between its trims, halves come after their whole.
    pub regions: Vec<Region>,
}

/// A rectangle on a sheet, measured from the lower left corner between the trims, in ticks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Placed {
    /// The piece's row, and whether it lies on its side; none for what is left over.
    pub piece: Option<(usize, bool)>,
    /// From the left.
    pub left: u32,
    /// From below.
    pub bottom: u32,
    /// Its width as it lies.
    pub width: u32,
    /// Its height as it lies.
    pub height: u32,
}

impl Layout {
    /// Where everything lies: the pieces, and what is left over of any size, in the order of cutting.
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

/// Sheets for all pieces, or for as many as there are sheets for.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Plan {
    /// Every sheet that is cut.
    pub layouts: Vec<Layout>,
    /// What the sheets cost together.
    pub cost: u64,
    /// No plan for the pieces that are cut here costs less: certified in whole numbers.
    pub bound: u64,
    /// How many pieces of each row no sheet holds, too great or the sheets used up.
    pub left: Vec<u32>,
}

impl Plan {
    /// Whether no plan for the same pieces costs less.
    pub const fn is_proven(&self) -> bool {
        self.cost == self.bound
    }
}
