//! What is answered of pieces, and of their places on a wall.

use super::{Caution, Part, Place, Places, Shape};
use std::borrow::Cow;

use crate::fact::{Datum, Fact, Field, Kind, Level, field};
use crate::measure::{Quantity, Size};
use crate::shop::parts::{Sheet, Stick};

/// A size of a stick; a sheet has none.
fn of_stick<'a>(part: &Part, size: impl Fn(&Stick) -> &Quantity) -> Datum<'a> {
    match &part.shape {
        Shape::Stick(stick) => Datum::quantity(size(stick)),
        Shape::Sheet(_) => Datum::Nothing,
    }
}

/// A size of a sheet; a stick has none.
fn of_sheet<'a>(part: &Part, size: impl Fn(&Sheet) -> &Quantity) -> Datum<'a> {
    match &part.shape {
        Shape::Sheet(sheet) => Datum::quantity(size(sheet)),
        Shape::Stick(_) => Datum::Nothing,
    }
}

/// What a piece is cut from.
const CUT_FROM: &[&str] = &["stick", "sheet"];

impl Fact for Part {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "part";
    const DOC: &'static str = "A kind of piece on the cut list.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "name of the piece on the cut list", |part, _| {
            Datum::text(part.name.as_str())
        })
        .at(Level::Key),
        field::<Self>("quantity", Kind::Count, "how many, for all frames of the design", |part, _| {
            Datum::count(part.quantity)
        })
        .at(Level::Key),
        field::<Self>("material", Kind::Text, "what it is made of", |part, _| Datum::text(part.material.as_str())),
        field::<Self>("cut_from", Kind::Word(CUT_FROM), "whether it is cut from a stick or a sheet", |part, _| {
            Datum::text(match part.shape {
                Shape::Stick(_) => CUT_FROM[0],
                Shape::Sheet(_) => CUT_FROM[1],
            })
        })
        .at(Level::Detail),
        field::<Self>("section", Kind::Size, "section of a stick, width x thickness, once it is known", |part, _| {
            match &part.shape {
                Shape::Stick(Stick { section: Some((width, height)), .. }) => {
                    Datum::Size(Size { width: width.clone(), height: height.clone(), depth: None })
                }
                Shape::Stick(_) | Shape::Sheet(_) => Datum::Nothing,
            }
        })
        .optional(),
        field::<Self>("short", Kind::LENGTH, "length of a stick between the short points", |part, _| {
            of_stick(part, |stick| &stick.short)
        })
        .at(Level::Key)
        .optional(),
        field::<Self>("long", Kind::LENGTH, "length of a stick between the long points", |part, _| {
            of_stick(part, |stick| &stick.long)
        })
        .at(Level::Key)
        .optional(),
        field::<Self>(
            "mitre",
            Kind::ANGLE,
            "miter angle at the saw, from square, at both ends of a stick",
            |part, _| of_stick(part, |stick| &stick.mitre),
        )
        .at(Level::Key)
        .optional(),
        field::<Self>("tilt", Kind::ANGLE, "blade tilt, from vertical, at both ends of a stick", |part, _| {
            of_stick(part, |stick| &stick.tilt)
        })
        .at(Level::Extra)
        .optional(),
        field::<Self>("joint", Kind::Word(Stick::JOINTS), "how the ends of a stick are cut", |part, _| {
            match &part.shape {
                Shape::Stick(stick) => Datum::text(stick.joint()),
                Shape::Sheet(_) => Datum::Nothing,
            }
        })
        .at(Level::Detail)
        .optional(),
        field::<Self>("show", Kind::Text, "face of a stick that is seen", |part, _| match &part.shape {
            Shape::Stick(stick) => Datum::text(stick.show.as_ref()),
            Shape::Sheet(_) => Datum::Nothing,
        })
        .at(Level::Detail)
        .optional(),
        field::<Self>("width", Kind::LENGTH, "width of a sheet", |part, _| of_sheet(part, |sheet| &sheet.width))
            .at(Level::Key)
            .optional(),
        field::<Self>("height", Kind::LENGTH, "height of a sheet", |part, _| of_sheet(part, |sheet| &sheet.height))
            .at(Level::Key)
            .optional(),
        field::<Self>("thickness", Kind::LENGTH, "thickness of a sheet", |part, _| {
            of_sheet(part, |sheet| &sheet.thickness)
        })
        .optional(),
    ];
}

impl Fact for Caution {
    type Of<'a> = Cow<'a, Self>;
    const NAME: &'static str = "caution";
    const DOC: &'static str = "A hazard, and how to avoid it.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "name of the caution", |of, _| text(of, |caution| &caution.name))
            .at(Level::Key),
        field::<Self>("short", Kind::Text, "the hazard and what to do, in one line", |of, _| {
            text(of, |caution| &caution.short)
        })
        .at(Level::Key),
        field::<Self>("full", Kind::Text, "the whole text", |of, _| text(of, |caution| &caution.full)),
        field::<Self>("source", Kind::Text, "where it is from", |of, _| text(of, |caution| &caution.source)),
    ];
}

/// A text of a caution, borrowed where the caution is.
fn text<'a>(of: &Cow<'a, Caution>, which: for<'c> fn(&'c Caution) -> &'c str) -> Datum<'a> {
    match of {
        Cow::Borrowed(caution) => Datum::text(which(caution)),
        Cow::Owned(caution) => Datum::text(which(caution).to_string()),
    }
}

/// The kind of a field that lists cautions.
pub const CAUTIONS: Kind = Kind::Each(&Kind::One(Caution::SHAPE));

/// Cautions, borrowed or worked out just now.
pub fn cautions(all: Cow<'_, [Caution]>) -> Datum<'_> {
    match all {
        Cow::Borrowed(all) => Datum::facts::<Caution>(all.iter().map(Cow::Borrowed)),
        Cow::Owned(all) => Datum::facts::<Caution>(all.into_iter().map(Cow::Owned)),
    }
}

impl Fact for Places {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "wall";
    const DOC: &'static str = "Pieces in their places on a wall.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("pieces", Kind::Each(&Kind::One(Place::SHAPE)), "the pieces, row by row", |places, _| {
            Datum::facts::<Place>(places.pieces.iter())
        }),
        field::<Self>("gap", Kind::LENGTH, "gap between neighbors", |places, _| Datum::quantity(&places.gap)),
        field::<Self>("end", Kind::LENGTH, "wall left at either end", |places, _| Datum::quantity(&places.end)),
    ];
}

impl Fact for Place {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "place";
    const DOC: &'static str = "Where a piece hangs, from the left corner and from the floor.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "name of the piece", |place, _| Datum::text(place.name.as_str()))
            .at(Level::Key),
        field::<Self>("row", Kind::Count, "row of the piece, 1 at the top", |place, _| Datum::count(place.row)),
        field::<Self>("left", Kind::LENGTH, "left edge, from the left corner", |place, _| Datum::quantity(&place.left))
            .at(Level::Key),
        field::<Self>("right", Kind::LENGTH, "right edge, from the left corner", |place, _| {
            Datum::quantity(&place.right)
        }),
        field::<Self>("top", Kind::LENGTH, "top edge, from the floor", |place, _| Datum::quantity(&place.top)),
        field::<Self>("hooks", Kind::Each(&Kind::One(Hook::SHAPE)), "the hooks of the piece", |place, _| {
            Datum::facts::<Hook>(place.hooks.iter())
        }),
    ];
}

/// A hook in the wall.
pub struct Hook;

impl Fact for Hook {
    type Of<'a> = &'a [Quantity; 2];
    const NAME: &'static str = "hook";
    const DOC: &'static str = "Where a hook goes into the wall.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("across", Kind::LENGTH, "distance from the left corner", |[across, _], _| {
            Datum::quantity(across)
        }),
        field::<Self>("up", Kind::LENGTH, "height above the floor", |[_, up], _| Datum::quantity(up)),
    ];
}
