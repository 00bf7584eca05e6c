//! A row of stock that would hold a part that a plan leaves out.

use super::job::Cutting;
use super::lacking::Lacking;
use super::rack::{Item, Rack, What};
use crate::measure::Real;

impl Lacking<'_> {
    /// A row of stock that holds the part, priced like its neighbors in `rack` where stock has prices; none for a row that
    /// cannot be read.
    pub fn remedy(self, rack: &Rack) -> Option<Item> {
        let (length, material) = (self.length()?, self.material()?);
        let item = match self {
            Self::Part(cutting, _) => Item::to_buy(What::Stick, stick(length, cutting), None, material),
            Self::Piece(..) | Self::Row(_) => {
                Item::to_buy(What::Sheet, self.width()?.clone(), Some(length.clone()), material)
            }
        };
        Some(rack.priced(item))
    }
}

/// The length of the shortest stick in stock that holds the part, or else of the part with both trims.
fn stick(length: &Real, cutting: &Cutting) -> Real {
    let need = length.clone() + cutting.saw.trim.clone() * Real::whole(2);
    let enough = cutting.order.stock.iter().map(|held| &held.length).filter(|length| **length >= need);
    let shortest = enough.fold(None, |best: Option<&Real>, one| best.filter(|best| *best <= one).or(Some(one)));
    shortest.cloned().unwrap_or(need)
}
