//! Pieces on a wall: a row or a grid of them, and where their hooks go.

mod fault;

use super::fault::{OutOfRange, above_zero, not_below_zero};
use super::point::Point;
pub use fault::WallFault;

/// A framed piece that hangs on hooks. Lengths in inches.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Outside width.
    pub width: f64,
    /// Outside height.
    pub height: f64,
    /// Each hook, from the left of the piece.
    pub hooks: Vec<f64>,
    /// Distance of the hooks below the top of the piece.
    pub drop: f64,
}

/// The wall. Lengths in inches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wall {
    /// From the left corner to the right one.
    pub width: f64,
    /// From the floor to the ceiling.
    pub height: f64,
    /// Height of the middle of the row or grid above the floor.
    pub centre: f64,
}

/// The gaps between pieces, and between rows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Gaps {
    /// Equal between pieces, at both ends of the wall, and between rows.
    Equal,
    /// Given, in inches; the rest is halved between the ends of the wall.
    Given(f64),
}

/// Where a piece hangs. Lengths in inches, across from the left corner, up from the floor.
#[derive(Clone, Debug, PartialEq)]
pub struct Hung {
    /// Its row, from 0 at the top.
    pub row: usize,
    /// Its column, from 0 at the left.
    pub column: usize,
    /// Its left edge.
    pub left: f64,
    /// Its right edge.
    pub right: f64,
    /// Its lower edge.
    pub bottom: f64,
    /// Its upper edge.
    pub top: f64,
    /// Its hooks: x across, y up.
    pub hooks: Vec<Point>,
}

/// Pieces in place.
#[derive(Clone, Debug, PartialEq)]
pub struct Hanging {
    /// The pieces in the order they were given, row by row.
    pub pieces: Vec<Hung>,
    /// The gap between neighbors, in inches.
    pub gap: f64,
    /// The gap at either end of the wall, in inches.
    pub end: f64,
}

/// Rounding dust, in inches, so that pieces that just fit do fit.
const GRAIN: f64 = 1e-9;

/// Pieces side by side in the order given, the middle of each on the center line.
///
/// Equal gaps: `(wall − Σ width) / (pieces + 1)`, at both ends as well. Given: the row is centered on the wall. Hooks:
/// the piece's left edge and the hook's place on it; its top less the hook's drop.
///
/// Errors: sizes that are not above zero, hooks outside of their piece, and by how much a row is wider than the wall or
/// reaches below the floor or above the ceiling. Source: frame maths §7.
pub fn row(wall: &Wall, pieces: &[Piece], gaps: Gaps) -> Result<Hanging, WallFault> {
    grid(wall, pieces, gaps, Some(1))
}

/// Pieces in at most so many rows of one length, filled row by row; the last may be shorter.
///
/// A column is as wide as its widest piece and a row as high as its tallest, each piece in the middle of its cell. The
/// gaps between rows are those between columns; the middle of the grid lies on the center line. Rows not given: the
/// fewest for which the wall is wide and high enough.
///
/// Errors: as of `row`; rows below 1 or above the number of pieces. Source: frame maths §7.
pub fn grid(wall: &Wall, pieces: &[Piece], gaps: Gaps, rows: Option<usize>) -> Result<Hanging, WallFault> {
    check(wall, pieces, gaps)?;
    let Some(rows) = rows else {
        return chosen(wall, pieces, gaps);
    };
    if rows == 0 || rows > pieces.len() {
        return Err(WallFault::Rows { rows, pieces: pieces.len() });
    }
    Cells::of(pieces, pieces.len().div_ceil(rows)).hang(wall, pieces, gaps)
}

/// The fewest rows that fit.
fn chosen(wall: &Wall, pieces: &[Piece], gaps: Gaps) -> Result<Hanging, WallFault> {
    let mut wrong = WallFault::NoPieces;
    for rows in 1..=pieces.len() {
        match Cells::of(pieces, pieces.len().div_ceil(rows)).hang(wall, pieces, gaps) {
            // More rows are narrower, and only taller.
            Err(fault @ WallFault::TooWide { .. }) => wrong = fault,
            settled => return settled,
        }
    }
    Err(wrong)
}

/// The sizes of a grid.
struct Cells {
    widths: Vec<f64>,
    heights: Vec<f64>,
}

impl Cells {
    fn of(pieces: &[Piece], columns: usize) -> Self {
        let mut widths = vec![0.0; columns];
        let mut heights = Vec::new();
        for row in pieces.chunks(columns) {
            for (width, piece) in widths.iter_mut().zip(row) {
                *width = piece.width.max(*width);
            }
            heights.push(row.iter().map(|piece| piece.height).fold(0.0, f64::max));
        }
        Self { widths, heights }
    }

    fn hang(&self, wall: &Wall, pieces: &[Piece], gaps: Gaps) -> Result<Hanging, WallFault> {
        let (across, up) = (self.widths.iter().sum::<f64>(), self.heights.iter().sum::<f64>());
        let (gaps_across, gaps_up) = (count(&self.widths) - 1.0, count(&self.heights) - 1.0);
        let gap = match gaps {
            Gaps::Equal => (wall.width - across) / (gaps_across + 2.0),
            Gaps::Given(gap) => gap,
        };
        let takes = across + gaps_across * gap.max(0.0);
        let end = (wall.width - takes) / 2.0;
        if end < -GRAIN {
            return Err(WallFault::TooWide { takes, wall: wall.width });
        }
        let half = (up + gaps_up * gap) / 2.0;
        let (floor, ceiling) = (wall.centre - half, wall.centre + half);
        if floor < -GRAIN {
            return Err(WallFault::BelowFloor { by: -floor });
        }
        if ceiling > wall.height + GRAIN {
            return Err(WallFault::AboveCeiling { by: ceiling - wall.height });
        }
        let mut hung = Vec::with_capacity(pieces.len());
        let mut top = ceiling;
        for (row, (height, in_row)) in self.heights.iter().zip(pieces.chunks(self.widths.len())).enumerate() {
            let mut left = end;
            for (column, (width, piece)) in self.widths.iter().zip(in_row).enumerate() {
                let corner = Point::new(left + (width - piece.width) / 2.0, top - (height - piece.height) / 2.0);
                hung.push(piece.hung(row, column, corner));
                left += width + gap;
            }
            top -= height + gap;
        }
        Ok(Hanging { pieces: hung, gap, end })
    }
}

impl Piece {
    fn check(&self) -> Result<(), OutOfRange> {
        above_zero("its width", self.width)?;
        above_zero("its height", self.height)?;
        not_below_zero("the drop of its hooks", self.drop)?;
        self.hooks.iter().try_for_each(|hook| not_below_zero("the place of a hook", *hook))
    }

    /// The piece with its upper left corner at a point of the wall.
    fn hung(&self, row: usize, column: usize, corner: Point) -> Hung {
        Hung {
            row,
            column,
            left: corner.x,
            right: corner.x + self.width,
            bottom: corner.y - self.height,
            top: corner.y,
            hooks: self.hooks.iter().map(|hook| corner + Point::new(*hook, -self.drop)).collect(),
        }
    }
}

/// A count as a float.
fn count(cells: &[f64]) -> f64 {
    cells.iter().fold(0.0, |count, _| count + 1.0)
}

fn check(wall: &Wall, pieces: &[Piece], gaps: Gaps) -> Result<(), WallFault> {
    above_zero("the width of the wall", wall.width)?;
    above_zero("the height of the wall", wall.height)?;
    above_zero("the center line", wall.centre)?;
    if let Gaps::Given(gap) = gaps {
        not_below_zero("the gap", gap)?;
    }
    if pieces.is_empty() {
        return Err(WallFault::NoPieces);
    }
    for (piece, one) in pieces.iter().enumerate() {
        one.check().map_err(|fault| WallFault::Piece { piece, fault })?;
        let off = |hook: &f64| (hook - one.width).max(one.drop - one.height);
        if let Some(by) = one.hooks.iter().map(off).find(|by| *by > 0.0) {
            return Err(WallFault::HookOff { piece, by });
        }
    }
    Ok(())
}
