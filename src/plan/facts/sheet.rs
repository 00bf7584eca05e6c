//! A sheet of a plan with the pieces on it, and pieces that are bought in their own size.

use super::{of, section, width, wood};
use crate::cut::sheet::Placed;
use crate::fact::{Datum, Fact, Field, Kind, Level, field};
use crate::measure::Real;
use crate::plan::rack::Item;
use crate::plan::sheets::Sheeting;
use crate::plan::whole::Whole;
use crate::plan::work::WantedSheet;

/// A sheet of a plan and what is cut from it.
pub struct Layout;

/// A sheet by its number, from 0, its plan, and its place there.
pub type Numbered<'a> = (usize, (&'a Whole, &'a Sheeting, usize));

/// The sheets of all materials.
pub fn layouts(whole: &Whole) -> impl Iterator<Item = Numbered<'_>> {
    let of_one = move |one| (0..Sheeting::count(one)).map(move |at| (whole, one, at));
    whole.sheeting.iter().flat_map(of_one).enumerate()
}

/// The pieces on a sheet, each with the corner of its place.
pub fn placed<'a>(
    (_, (whole, one, at)): Numbered<'a>,
) -> impl Iterator<Item = (&'a WantedSheet, Placed, [Real; 2])> + 'a {
    one.placed(at, &whole.sticks.saw).into_iter().filter_map(move |(placed, corner)| {
        let (row, _) = placed.piece?;
        Some((&whole.sheets[one.rows[row]], placed, corner))
    })
}

/// The row of the rack that a sheet comes from.
fn item<'a>((whole, one, at): &(&'a Whole, &'a Sheeting, usize)) -> &'a Item {
    &whole.rack.items[one.items[one.plan.layouts[*at].sheet]]
}

impl Fact for Layout {
    type Of<'a> = Numbered<'a>;
    const NAME: &'static str = "layout";
    const DOC: &'static str = "A sheet of a plan and what is cut from it.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("sheet", Kind::Count, "number of the sheet", |(at, _), _| Datum::count(at + 1)).at(Level::Key),
        field::<Self>("length", Kind::LENGTH, "length of the sheet", |(_, of), _| Datum::inches(&item(of).length))
            .at(Level::Key),
        field::<Self>("width", Kind::LENGTH, "width of the sheet", |(_, of), _| width(item(of))),
        field::<Self>("of", Kind::Text, "wood and section in words", |(_, sheet), _| of(&item(sheet).material)),
        field::<Self>("wood", Kind::Text, "material of the sheet", |(_, of), _| wood(&item(of).material))
            .at(Level::Detail),
        field::<Self>("section", Kind::Text, "thickness of the sheet", |(_, of), _| section(&item(of).material))
            .optional()
            .at(Level::Detail),
        field::<Self>("parts", Kind::Each(&Kind::One(PlacedPiece::SHAPE)), "the pieces on the sheet", |sheet, _| {
            Datum::facts::<PlacedPiece>(placed(*sheet))
        }),
    ];
}

/// A piece in its place on a sheet.
pub struct PlacedPiece;

impl Fact for PlacedPiece {
    type Of<'a> = (&'a WantedSheet, Placed, [Real; 2]);
    const NAME: &'static str = "placed";
    const DOC: &'static str = "A piece in its place on a sheet.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "name of the piece", |(piece, ..), _| Datum::text(piece.name.as_str()))
            .at(Level::Key),
        field::<Self>("width", Kind::LENGTH, "width of the piece", |(piece, ..), _| Datum::inches(&piece.width)),
        field::<Self>("height", Kind::LENGTH, "height of the piece", |(piece, ..), _| Datum::inches(&piece.height)),
        field::<Self>("turned", Kind::Truth, "whether it lies on its side", |(_, placed, _), _| {
            Datum::Truth(placed.piece.is_some_and(|(_, turned)| turned))
        }),
        field::<Self>("left", Kind::LENGTH, "distance from the left edge of the sheet", |(.., [left, _]), _| {
            Datum::inches(left)
        }),
        field::<Self>("bottom", Kind::LENGTH, "distance from the bottom edge of the sheet", |(.., [_, bottom]), _| {
            Datum::inches(bottom)
        }),
    ];
}

impl Fact for WantedSheet {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "pane";
    const DOC: &'static str = "Pieces of a sheet, bought in their own size.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "name of the piece", |piece, _| Datum::text(piece.name.as_str()))
            .at(Level::Key),
        field::<Self>("quantity", Kind::Count, "how many", |piece, _| Datum::Count(piece.quantity.into()))
            .at(Level::Key),
        field::<Self>("width", Kind::LENGTH, "width of the piece", |piece, _| Datum::inches(&piece.width))
            .at(Level::Key),
        field::<Self>("height", Kind::LENGTH, "height of the piece", |piece, _| Datum::inches(&piece.height))
            .at(Level::Key),
        field::<Self>("of", Kind::Text, "wood and section in words", |piece, _| Datum::text(piece.material.words())),
        field::<Self>("wood", Kind::Text, "material of the piece", |piece, _| {
            Datum::text(piece.material.wood.as_str())
        })
        .at(Level::Detail),
        field::<Self>("section", Kind::Text, "thickness of the piece", |piece, _| {
            Datum::text(piece.material.section.as_str())
        })
        .at(Level::Detail),
    ];
}
