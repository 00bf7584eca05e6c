//! A stick of a plan, its cuts, and how the stop is set.

use super::{cost, of, section, wood};
use crate::fact::{Datum, Fact, Field, Kind, Level, field};
use crate::plan::job::{Cutting, Piece, Stick};
use crate::plan::material::Material;
use crate::plan::setting::{ShortPart, StopSetting};

/// What a stick is of, known by what is cut from it where the stock does not say.
fn of_stick(cutting: &Cutting, stick: &Stick) -> Material {
    let held = &cutting.order.stock[stick.stock].material;
    let own = stick.pieces.first().map_or(held, |piece| &cutting.order.parts[piece.part].material);
    let known = |held: &String, own: &String| if held.is_empty() { own.clone() } else { held.clone() };
    Material { wood: known(&held.wood, &own.wood), section: known(&held.section, &own.section) }
}

impl Fact for Stick {
    type Of<'a> = (&'a Cutting, usize, &'a Self);
    const NAME: &'static str = "stick";
    const DOC: &'static str = "A stick of a plan and what is cut from it.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("stick", Kind::Count, "number of the stick", |(_, at, _), _| Datum::count(at + 1)).at(Level::Key),
        field::<Self>("length", Kind::LENGTH, "length of the stick", |(cutting, _, stick), _| {
            Datum::inches(&cutting.order.stock[stick.stock].length)
        })
        .at(Level::Key),
        field::<Self>("of", Kind::Text, "wood and section in words", |(cutting, _, stick), _| {
            of(&of_stick(cutting, stick))
        })
        .optional(),
        field::<Self>("wood", Kind::Text, "wood of the stick", |(cutting, _, stick), _| {
            wood(&of_stick(cutting, stick))
        })
        .optional()
        .at(Level::Detail),
        field::<Self>("section", Kind::Text, "section of the stick", |(cutting, _, stick), _| {
            section(&of_stick(cutting, stick))
        })
        .optional()
        .at(Level::Detail),
        field::<Self>("cost", Kind::Cost, "what the stick costs", |(cutting, _, stick), _| {
            cost(cutting.order.pricing, cutting.cost_of(stick.stock))
        })
        .at(Level::Extra),
        field::<Self>(
            "parts",
            Kind::Each(&Kind::One(Piece::SHAPE)),
            "what is cut from it, in order",
            |(cutting, _, stick), _| {
                let (cutting, stick) = (*cutting, *stick);
                Datum::facts::<Piece>(stick.pieces.iter().enumerate().map(move |(at, piece)| (cutting, at, piece)))
            },
        ),
        field::<Self>("offcut", Kind::LENGTH, "what is left and worth keeping, or 0", |(_, _, stick), _| {
            Datum::inches(&stick.offcut)
        })
        .at(Level::Extra),
        field::<Self>("waste", Kind::LENGTH, "what is neither part nor offcut", |(_, _, stick), _| {
            Datum::inches(&stick.waste)
        })
        .at(Level::Extra),
    ];
}

impl Fact for Piece {
    type Of<'a> = (&'a Cutting, usize, &'a Self);
    const NAME: &'static str = "cut";
    const DOC: &'static str = "A part in a stick.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("cut", Kind::Count, "number of the part in its stick", |(_, at, _), _| Datum::count(at + 1)),
        field::<Self>("name", Kind::Text, "name of the part", |(cutting, _, piece), _| {
            Datum::text(cutting.order.parts[piece.part].name.as_str())
        })
        .at(Level::Key),
        field::<Self>(
            "length",
            Kind::LENGTH,
            "length of the part between the long points",
            |(cutting, _, piece), _| Datum::inches(&cutting.order.parts[piece.part].length),
        )
        .at(Level::Key),
        field::<Self>("from", Kind::LENGTH, "where the part begins, from the end of the stick", |(_, _, piece), _| {
            Datum::inches(&piece.from)
        }),
    ];
}

impl Fact for StopSetting {
    type Of<'a> = Self;
    const NAME: &'static str = "stop setting";
    const DOC: &'static str = "A length that is cut more than once: set the stop to it once.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("length", Kind::LENGTH, "length from the blade to the stop", |one, _| Datum::inches(&one.length))
            .at(Level::Key),
        field::<Self>("parts", Kind::Count, "how many parts are cut to it", |one, _| Datum::Count(one.parts))
            .at(Level::Key),
    ];
}

impl Fact for ShortPart {
    type Of<'a> = Self;
    const NAME: &'static str = "short part";
    const DOC: &'static str = "A part that is too short to hold at the saw by hand.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "name of the part", |part, _| Datum::text(part.name.clone())).at(Level::Key),
        field::<Self>("length", Kind::LENGTH, "length of the part between the long points", |part, _| {
            Datum::inches(&part.length)
        })
        .at(Level::Key),
        field::<Self>("advice", Kind::Text, "how to cut it", |part, _| Datum::text(part.advice())).at(Level::Key),
    ];
}
