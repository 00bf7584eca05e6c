//! A check of a finished plan against its instance. It shares no code with the search.

use std::fmt;

use super::instance::Instance;
use super::plan::{Layout, Line, Plan, Region};

/// A flaw of a plan; layouts, pieces and sheets by their rows, regions by their place in the layout.
#[derive(Clone, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Flaw {
    /// A layout on a row that the instance does not have.
    NoSheet { layout: usize },
    /// A piece of a row that the instance does not have.
    NoPiece { layout: usize, region: usize },
    /// A piece that is turned and must not be.
    Turned { layout: usize, region: usize },
    /// A rectangle of another size than its piece, in ticks.
    Size { layout: usize, region: usize, width: u32, height: u32 },
    /// A cut outside its rectangle.
    Outside { layout: usize, region: usize, at: u32 },
    /// A rectangle that no earlier cut makes, or more than one.
    Origin { layout: usize, region: usize },
    /// Pieces cut and left do not add up to those wanted.
    Count { piece: usize, cut: u64, left: u64, wanted: u32 },
    /// More sheets than the instance has.
    TooMany { sheet: usize, used: u64, count: u32 },
    /// A cost other than that of the sheets.
    Cost { claimed: u64, found: u64 },
    /// A bound above the cost.
    Bound { bound: u64, cost: u64 },
}

impl fmt::Display for Flaw {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSheet { layout } => write!(f, "layout {layout} is on no sheet"),
            Self::NoPiece { layout, region } => write!(f, "region {region} of layout {layout} is not asked for"),
            Self::Turned { layout, region } => write!(f, "region {region} of layout {layout} must not lie on its side"),
            Self::Size { layout, region, width, height } => {
                write!(f, "region {region} of layout {layout} is {width} x {height}, not the size of its piece")
            }
            Self::Outside { layout, region, at } => {
                write!(f, "region {region} of layout {layout} is cut at {at}, outside it")
            }
            Self::Origin { layout, region } => {
                write!(f, "region {region} of layout {layout} is not made by one cut before it")
            }
            Self::Count { piece, cut, left, wanted } => {
                write!(f, "piece {piece} is cut {cut} times and left {left} times, of {wanted}")
            }
            Self::TooMany { sheet, used, count } => write!(f, "sheet {sheet} is used {used} times, of {count}"),
            Self::Cost { claimed, found } => write!(f, "the plan claims a cost of {claimed}, and costs {found}"),
            Self::Bound { bound, cost } => write!(f, "a bound of {bound} is above the cost of {cost}"),
        }
    }
}

/// Checks a plan: every cut lies within its rectangle and goes from edge to edge, every piece has exactly its size,
/// every piece is cut or left exactly once, no sheet is used twice, and the cost is that of the sheets.
///
/// # Errors
/// The first flaw.
pub fn verify(instance: &Instance, plan: &Plan) -> Result<(), Flaw> {
    let mut cut = vec![0_u64; instance.pieces.len()];
    let mut used = vec![0_u64; instance.sheets.len()];
    let mut cost = 0;
    for (number, layout) in plan.layouts.iter().enumerate() {
        let sheet = instance.sheets.get(layout.sheet).ok_or(Flaw::NoSheet { layout: number })?;
        used[layout.sheet] += 1;
        cost += u64::from(sheet.cost);
        verify_layout(instance, number, layout, &mut cut)?;
    }
    for (piece, own) in instance.pieces.iter().enumerate() {
        let left = plan.left.get(piece).copied().map_or(0, u64::from);
        if cut[piece] + left != u64::from(own.quantity) {
            return Err(Flaw::Count { piece, cut: cut[piece], left, wanted: own.quantity });
        }
    }
    for (sheet, own) in instance.sheets.iter().enumerate() {
        if let Some(count) = own.count.filter(|count| used[sheet] > u64::from(*count)) {
            return Err(Flaw::TooMany { sheet, used: used[sheet], count });
        }
    }
    if cost != plan.cost {
        return Err(Flaw::Cost { claimed: plan.cost, found: cost });
    }
    if plan.bound > cost {
        return Err(Flaw::Bound { bound: plan.bound, cost });
    }
    Ok(())
}

/// Checks the cuts of one sheet and counts its pieces.
fn verify_layout(instance: &Instance, layout: usize, own: &Layout, cut: &mut [u64]) -> Result<(), Flaw> {
    let sheet = &instance.sheets[own.sheet];
    let between = |size: u32| size.checked_sub(instance.trim).and_then(|rest| rest.checked_sub(instance.trim));
    // A region gets its size from the cut that makes it, and only one cut may make it.
    let mut sizes: Vec<Option<(u32, u32)>> = vec![None; own.regions.len()];
    if let Some(first) = sizes.first_mut() {
        *first = between(sheet.width).zip(between(sheet.height));
    }
    for (region, what) in own.regions.iter().enumerate() {
        let (width, height) = sizes[region].ok_or(Flaw::Origin { layout, region })?;
        match *what {
            Region::Left => {}
            Region::Piece { piece, turned } => {
                let wanted = instance.pieces.get(piece).ok_or(Flaw::NoPiece { layout, region })?;
                if turned && !wanted.turns {
                    return Err(Flaw::Turned { layout, region });
                }
                let own = if turned { (wanted.height, wanted.width) } else { (wanted.width, wanted.height) };
                if own != (width, height) {
                    return Err(Flaw::Size { layout, region, width, height });
                }
                cut[piece] += 1;
            }
            Region::Cut { line, at, first, rest } => {
                let whole = match line {
                    Line::Upright => width,
                    Line::Level => height,
                };
                if at == 0 || at >= whole {
                    return Err(Flaw::Outside { layout, region, at });
                }
                let over = (whole - at).saturating_sub(instance.kerf);
                for (half, size) in [(first, at), (rest, over)] {
                    let made = sizes.get_mut(half).filter(|made| half > region && made.is_none());
                    let made = made.ok_or(Flaw::Origin { layout, region: half })?;
                    *made = Some(match line {
                        Line::Upright => (size, height),
                        Line::Level => (width, size),
                    });
                }
            }
        }
    }
    Ok(())
}
