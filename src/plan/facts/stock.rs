//! Rows of the stock, what a plan takes of them, and rows whose lengths have no unit.

use super::{of, price, section, wood};
use crate::fact::{Datum, Fact, Field, Kind, Level, field};
use crate::plan::buy::Purchase;
use crate::plan::rack::{BareRow, COST, COUNT, Item, LENGTH, SECTION, WHAT, WIDTH, WOOD};

impl Fact for Item {
    type Of<'a> = (usize, &'a Self);
    const NAME: &'static str = "stock row";
    const DOC: &'static str = "A row of the stock: pieces of one kind that the shop has.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("row", Kind::Count, "number of the row, as `stock drop` takes it", |(at, _), _| {
            Datum::count(at + 1)
        })
        .at(Level::Key),
        field::<Self>("what", Kind::Word(&["stick", "offcut", "board", "sheet"]), "what it is", |(_, item), _| {
            Datum::text(item.what.word())
        })
        .at(Level::Key),
        field::<Self>("length", Kind::LENGTH, "length of each", |(_, item), _| Datum::inches(&item.length))
            .at(Level::Key),
        field::<Self>("width", Kind::LENGTH, "width of each", |(_, item), _| {
            Datum::maybe(item.width.as_ref(), Datum::inches)
        })
        .at(Level::Key)
        .optional(),
        field::<Self>("count", Kind::Count, "how many; as many as needed where it is left out", |(_, item), _| {
            Datum::maybe(item.count, |count| Datum::Count(count.into()))
        })
        .at(Level::Key)
        .or_shown("any")
        .optional(),
        field::<Self>("cost", Kind::Cost, "what one costs", |(_, item), _| price(item.cost.map(u64::from))).optional(),
        field::<Self>("of", Kind::Text, "wood and section in words", |(_, item), _| of(&item.material)).optional(),
        field::<Self>("wood", Kind::Text, "wood or other material", |(_, item), _| wood(&item.material))
            .optional()
            .at(Level::Detail),
        field::<Self>("section", Kind::Text, "section of a stick, thickness of a board or sheet", |(_, item), _| {
            section(&item.material)
        })
        .optional()
        .at(Level::Detail),
    ];
}

impl Fact for Purchase {
    type Of<'a> = Self;
    const NAME: &'static str = "purchase";
    const DOC: &'static str = "Pieces of one kind that a plan takes from the rack or that have to be bought.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>(
            "what",
            Kind::Word(&["stick", "offcut", "board", "sheet", "part", "piece"]),
            "what it is",
            |one, _| Datum::text(one.what),
        )
        .at(Level::Key),
        field::<Self>("count", Kind::Count, "how many", |one, _| Datum::Count(one.count)).at(Level::Key),
        field::<Self>("length", Kind::LENGTH, "length of each", |one, _| Datum::inches(&one.length)).at(Level::Key),
        field::<Self>("width", Kind::LENGTH, "width of each", |one, _| Datum::maybe(one.width.as_ref(), Datum::inches))
            .at(Level::Key)
            .optional(),
        field::<Self>("of", Kind::Text, "wood and section in words", |one, _| of(&one.material)).optional(),
        field::<Self>("wood", Kind::Text, "wood or other material", |one, _| wood(&one.material))
            .optional()
            .at(Level::Detail),
        field::<Self>("section", Kind::Text, "section of a stick, thickness of a board or sheet", |one, _| {
            section(&one.material)
        })
        .optional()
        .at(Level::Detail),
        field::<Self>("each", Kind::Cost, "what one costs", |one, _| price(one.each)).optional(),
        field::<Self>("sum", Kind::Cost, "what all of them cost", |one, _| {
            price(one.each.map(|each| each * one.count))
        })
        .optional(),
    ];
}

impl Fact for BareRow {
    type Of<'a> = (usize, &'a Self);
    const NAME: &'static str = "bare stock row";
    const DOC: &'static str = "A row of stock in which a length has no unit, read in inches and in millimeters.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("row", Kind::Count, "number of the row", |(at, _), _| Datum::count(at + 1)).at(Level::Key),
        field::<Self>("what", Kind::Text, "what it is", |(_, row), _| row.inches(WHAT)).at(Level::Key),
        field::<Self>("length_in", Kind::Text, "length of each, read in inches", |(_, row), _| row.inches(LENGTH))
            .at(Level::Key),
        field::<Self>("length_mm", Kind::Text, "length of each, read in millimeters", |(_, row), _| {
            row.millimeters(LENGTH)
        })
        .at(Level::Key),
        field::<Self>("width_in", Kind::Text, "width of each, read in inches", |(_, row), _| row.inches(WIDTH))
            .at(Level::Key)
            .optional(),
        field::<Self>("width_mm", Kind::Text, "width of each, read in millimeters", |(_, row), _| {
            row.millimeters(WIDTH)
        })
        .at(Level::Key)
        .optional(),
        field::<Self>("count", Kind::Text, "how many; as many as needed where it is left out", |(_, row), _| {
            row.inches(COUNT)
        })
        .or_shown("any")
        .optional(),
        field::<Self>("cost", Kind::Text, "what one costs", |(_, row), _| row.inches(COST)).optional(),
        field::<Self>("wood", Kind::Text, "wood or other material", |(_, row), _| row.inches(WOOD)).optional(),
        field::<Self>("section_in", Kind::Text, "section or thickness, read in inches", |(_, row), _| {
            row.inches(SECTION)
        })
        .optional(),
        field::<Self>("section_mm", Kind::Text, "section or thickness, read in millimeters", |(_, row), _| {
            row.millimeters(SECTION)
        })
        .optional(),
    ];
}

impl BareRow {
    fn inches(&self, column: usize) -> Datum<'_> {
        Datum::text_if_any(&self.inches[column])
    }

    fn millimeters(&self, column: usize) -> Datum<'_> {
        Datum::text_if_any(&self.millimeters[column])
    }
}
