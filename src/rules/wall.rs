//! The wall: a record of its own, which every design reads as it reads the shop.

use super::datum::Datum;
use super::design::Design;

/// What was given about a wall, by the names of the rules.
#[derive(Clone, Debug, Default)]
pub struct Wall(Vec<(String, Datum)>);

impl Wall {
    /// The wall that a design reads.
    pub fn of(design: &Design) -> Self {
        let book = design.book();
        let slots = book.sorted.iter().filter(|slot| book.name(**slot).is_of_the_wall());
        Self(slots.filter_map(|slot| Some((book.name(*slot).text.clone(), design.given(*slot)?.clone()))).collect())
    }

    /// Puts a design before this wall, whatever wall it was before.
    pub fn put_behind(&self, design: &mut Design) {
        let book = design.book().clone();
        for slot in book.sorted.iter().filter(|slot| book.name(**slot).is_of_the_wall()) {
            let value = self.0.iter().find(|(name, _)| *name == book.name(*slot).text).map(|(_, value)| value.clone());
            if value.is_some() || design.given(*slot).is_some() {
                design.put(*slot, value);
            }
        }
    }
}
