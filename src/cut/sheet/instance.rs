//! A sheet problem, in whole ticks, rounded so that a plan that fits in ticks fits at the saw.

/// Pieces of one size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    /// In ticks, rounded up.
    pub width: u32,
    /// In ticks, rounded up.
    pub height: u32,
    /// How many.
    pub quantity: u32,
    /// Whether the piece may be turned; grain or color in one direction forbids it.
    pub turns: bool,
}

/// Sheets of one size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// In ticks, rounded down.
    pub width: u32,
    /// In ticks, rounded down.
    pub height: u32,
    /// The number of sheets; none means as many as needed.
    pub count: Option<u32>,
    /// The cost of one sheet, in whole cents, from 0.
    pub cost: u32,
}

/// One material: the pieces and the sheets.
///
/// Every cut goes from edge to edge of the rectangle that it divides, and takes a kerf: a rectangle of width `w` cut
/// at `x` leaves `x` and `w − x − kerf`. Where less than a kerf is left the saw takes it all, so that the last piece of
/// a row pays no kerf when it ends flush. Source: frame maths §4.
///
/// Sizes are of at most [`Instance::MOST`] ticks; what is greater counts as a piece that no sheet holds, or as a sheet
/// of that size.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Instance {
    /// The kerf, in ticks, rounded up; 0 for glass, which is scored.
    pub kerf: u32,
    /// The trim of each edge of a sheet, cut included, in ticks, rounded up.
    pub trim: u32,
    /// The pieces, by their sizes.
    pub pieces: Vec<Piece>,
    /// The sheets, by their sizes.
    pub sheets: Vec<Sheet>,
}

impl Instance {
    /// The longest side in ticks; areas stay far from overflow.
    pub const MOST: u32 = 1 << 28;

    /// Width and height of a sheet between its trims.
    pub fn usable(&self, sheet: &Sheet) -> (u32, u32) {
        let trims = self.trim.saturating_mul(2);
        (sheet.width.saturating_sub(trims), sheet.height.saturating_sub(trims))
    }
}
