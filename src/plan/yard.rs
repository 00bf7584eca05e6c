//! How the shop works: its saw, its boards, the materials of its sheets.

use super::saw::Saw;
use crate::cut::Limits;
use crate::measure::{Real, Unit};
use crate::rules::book::{Cell, Table};
use crate::rules::{Book, Design};

/// How boards are ripped and milled.
#[derive(Clone, Debug)]
pub struct Ripping {
    /// Taken off each edge before the first strip, in inches.
    pub edge: Real,
    /// Left on the width of a blank for the planer, in inches.
    pub mill: Real,
    /// Left on the length of a blank, in inches.
    pub ends: Real,
    /// The planed thickness, in inches, of each rough one by its word: `4/4`.
    pub yields: Vec<(String, Real)>,
}

impl Ripping {
    /// As the settings and tables of a shop have it.
    pub fn of(shop: &Design) -> Self {
        let yields = shop.book().table("roughs").into_iter().flat_map(|table| {
            let column = table.column("yields");
            table.words.iter().enumerate().filter_map(move |(row, word)| match column?.cells.get(row)?.as_ref()? {
                Cell::Amount(amount) => Some((word.clone(), amount.clone())),
                Cell::Word(_) => None,
            })
        });
        let setting = |name| shop.made(name).map_or(Real::ZERO, |length| length.amount);
        let [edge, mill, ends] = ["shop.edge", "mill.section", "mill.length"].map(setting);
        Self { edge, mill, ends, yields: yields.collect() }
    }
}

/// How the shop works, for every plan.
#[derive(Clone, Copy)]
pub struct Yard<'a> {
    /// The saw: its kerf, and the offcuts worth keeping.
    pub saw: &'a Saw,
    /// How boards are ripped and milled.
    pub ripping: &'a Ripping,
    /// How materials of sheets are cut.
    pub natures: &'a [Nature],
    /// The unit of a bare number.
    pub bare: Option<&'a Unit>,
    /// How long to look for a plan.
    pub limits: &'a Limits<'a>,
}

/// How a material of sheets is cut, by the columns `cut` and `grain` of the tables of boards and glazings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Nature {
    /// The word for the material, in small letters.
    pub word: String,
    /// Whether a cut takes a kerf; scoring and cutting with a knife do not.
    pub has_kerf: bool,
    /// Whether a piece may be turned; a grain that shows forbids it.
    pub turns: bool,
}

impl Nature {
    /// All materials of the tables, under each of their words.
    pub fn all(book: &Book) -> Vec<Self> {
        let tables = ["boards", "glazings"].into_iter().filter_map(|name| book.table(name));
        tables.flat_map(Self::of_table).collect()
    }

    fn of_table(table: &Table) -> Vec<Self> {
        let word = |column: &str, row: usize| match table.column(column)?.cells.get(row)?.as_ref()? {
            Cell::Word(word) => Some(word.to_string()),
            Cell::Amount(_) => None,
        };
        let also = table.also.iter().map(|(word, row)| (usize::from(*row), word));
        let nature = |(row, name): (usize, &String)| {
            let (cut, grain) = (word("cut", row)?, word("grain", row)?);
            Some(Self { word: name.clone(), has_kerf: cut == "saw", turns: grain == "either way" })
        };
        table.words.iter().enumerate().chain(also).filter_map(nature).collect()
    }

    /// How the material `word` is cut. A material that no table has is sawn and may be turned.
    pub(super) fn of(word: &str, all: &[Self]) -> Self {
        let word = word.to_lowercase();
        let known = all.iter().find(|nature| nature.word == word);
        known.cloned().unwrap_or(Self { word, has_kerf: true, turns: true })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::shipped;

    /// Glass is scored, boards for mats are cut with a knife, panels are sawn; plywood shows its grain.
    #[test]
    fn the_tables_say_how_each_material_is_cut() {
        let book = shipped();
        let all = Nature::all(&book);
        for (word, has_kerf, turns) in
            [("Glass", false, true), ("mat board", false, true), ("acrylic", true, true), ("plywood", true, false)]
        {
            let word = word.to_string();
            let nature = Nature::of(&word, &all);
            assert_eq!(nature, Nature { word: word.to_lowercase(), has_kerf, turns });
        }
        assert_eq!(Nature::of("matboard", &all).has_kerf, Nature::of("mat board", &all).has_kerf);
        for table in ["boards", "glazings"].map(|name| book.table(name).unwrap()) {
            for (column, words) in [("cut", &["saw", "knife", "scored"][..]), ("grain", &["either way", "one way"])] {
                for cell in table.column(column).unwrap().cells.iter().flatten() {
                    assert!(matches!(cell, Cell::Word(word) if words.contains(&&**word)), "{column} of {}", table.name);
                }
            }
        }
    }
}
