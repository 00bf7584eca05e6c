//! What is to be cut out of sheets, in whole ticks, rounded so that what fits in ticks fits at the saw.

/// Pieces of one size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    /// In ticks, rounded up.
    pub width: u32,
    /// In ticks, rounded up.
    pub height: u32,
    /// How many.
    pub quantity: u32,
    /// Whether it may lie on its side: not where grain or colour runs one way.
    pub turns: bool,
}

/// Sheets of one size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// In ticks, rounded down.
    pub width: u32,
    /// In ticks, rounded down.
    pub height: u32,
    /// How many there are; none means as many as wanted.
    pub count: Option<u32>,
    /// What one costs, in whole units of money (cents), from 0.
    pub cost: u32,
}

/// One material: what is to be cut and what it may be cut from.
///
/// Every cut goes from edge to edge of the rectangle that it divides, and takes a kerf: a rectangle of width `w` cut
/// at `x` leaves `x` and `w − x − kerf`. Where less than a kerf is left the saw takes it all, so that the last piece of
/// a row pays no kerf when it ends flush. Source: frame maths §4.
///
/// Sizes are of at most [`Instance::MOST`] ticks; what is greater counts as a piece that no sheet holds, or as a sheet
/// of that size.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Instance {
    /// What one cut takes, in ticks, rounded up; 0 for glass, which is scored.
    pub kerf: u32,
    /// What comes off each of the four edges of a sheet first, its own cut included, in ticks, rounded up.
    pub trim: u32,
    /// What is to be cut.
    pub pieces: Vec<Piece>,
    /// What it may be cut from.
    pub sheets: Vec<Sheet>,
}

impl Instance {
    /// The greatest side in ticks: areas stay far within whole numbers.
    pub const MOST: u32 = 1 << 28;

    /// Width and height of a sheet between its trims.
    pub fn usable(&self, sheet: &Sheet) -> (u32, u32) {
        let trims = self.trim.saturating_mul(2);
        (sheet.width.saturating_sub(trims), sheet.height.saturating_sub(trims))
    }
}
