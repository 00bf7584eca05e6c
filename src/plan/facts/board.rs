//! A board of a plan, the blanks that come out of it, and the cuts that make them.

use super::{of, section, width, wood};
use crate::fact::{Datum, Fact, Field, Kind, Level, field};
use crate::plan::boards::{Block, Board, Cut};
use crate::plan::whole::Whole;

impl Fact for Board {
    type Of<'a> = (&'a Whole, usize, &'a Self);
    const NAME: &'static str = "board";
    const DOC: &'static str = "A board of a plan and how it is ripped and crosscut.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("board", Kind::Count, "number of the board", |(_, at, _), _| Datum::count(at + 1)).at(Level::Key),
        field::<Self>("length", Kind::LENGTH, "length of the board", |(whole, _, board), _| {
            Datum::inches(&whole.rack.items[board.item].length)
        })
        .at(Level::Key),
        field::<Self>("width", Kind::LENGTH, "width of the board", |(whole, _, board), _| {
            width(&whole.rack.items[board.item])
        }),
        field::<Self>("of", Kind::Text, "wood and section in words", |(whole, _, board), _| {
            of(&whole.rack.items[board.item].material)
        }),
        field::<Self>("wood", Kind::Text, "wood of the board", |(whole, _, board), _| {
            wood(&whole.rack.items[board.item].material)
        })
        .optional()
        .at(Level::Detail),
        field::<Self>("section", Kind::Text, "thickness of the board in quarters", |(whole, _, board), _| {
            section(&whole.rack.items[board.item].material)
        })
        .at(Level::Detail),
        field::<Self>(
            "parts",
            Kind::Each(&Kind::One(Blank::SHAPE)),
            "the blanks that come out of it",
            |(whole, _, board), _| {
                let whole = *whole;
                let parts = board.block.each().filter_map(|block| match block.cut {
                    Cut::Part(part) => Some((block, whole.boards.parts[part].name.as_str())),
                    Cut::Rest | Cut::Offcut(..) | Cut::Ripped(_) | Cut::Crosscut(_) => None,
                });
                Datum::facts::<Blank>(parts.enumerate())
            },
        ),
        field::<Self>("block", Kind::One(Block::SHAPE), "the board between its trims", |(whole, _, board), _| {
            Datum::fact::<Block>((*whole, &board.block))
        }),
    ];
}

/// The blank of a part.
pub struct Blank;

impl Fact for Blank {
    type Of<'a> = (usize, (&'a Block, &'a str));
    const NAME: &'static str = "blank";
    const DOC: &'static str = "A part in the rough, before it is milled and cut to length.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("cut", Kind::Count, "number of the blank in its board", |(at, _), _| Datum::count(at + 1)),
        field::<Self>("name", Kind::Text, "name of the part", |(_, (_, name)), _| Datum::text(*name)).at(Level::Key),
        field::<Self>("length", Kind::LENGTH, "length in the rough", |(_, (block, _)), _| Datum::inches(&block.length))
            .at(Level::Key),
        field::<Self>("width", Kind::LENGTH, "width that it is ripped to", |(_, (block, _)), _| {
            Datum::inches(&block.width)
        }),
    ];
}

/// The blocks that a block is cut into.
fn blocks<'a>(whole: &'a Whole, blocks: &'a [Block]) -> Datum<'a> {
    Datum::facts::<Block>(blocks.iter().map(move |block| (whole, block)))
}

impl Fact for Block {
    type Of<'a> = (&'a Whole, &'a Self);
    const NAME: &'static str = "block";
    const DOC: &'static str =
        "A rectangle of a board and what becomes of it: one of part, offcut, rest, ripped, crosscut.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("length", Kind::LENGTH, "length along the grain", |(_, block), _| Datum::inches(&block.length)),
        field::<Self>("width", Kind::LENGTH, "width across the grain", |(_, block), _| Datum::inches(&block.width)),
        field::<Self>("part", Kind::Text, "name of the part that it is the blank of", |(whole, block), _| match block
            .cut
        {
            Cut::Part(part) => Datum::text(whole.boards.parts[part].name.as_str()),
            Cut::Rest | Cut::Offcut(..) | Cut::Ripped(_) | Cut::Crosscut(_) => Datum::Nothing,
        })
        .optional(),
        field::<Self>("offcut", Kind::LENGTH, "length of the offcut that it becomes once milled", |(_, block), _| {
            match &block.cut {
                Cut::Offcut(_, milled) => Datum::inches(milled),
                Cut::Rest | Cut::Part(_) | Cut::Ripped(_) | Cut::Crosscut(_) => Datum::Nothing,
            }
        })
        .optional(),
        field::<Self>("rest", Kind::Truth, "whether it is left over", |(_, block), _| match block.cut {
            Cut::Rest => Datum::Truth(true),
            Cut::Part(_) | Cut::Offcut(..) | Cut::Ripped(_) | Cut::Crosscut(_) => Datum::Nothing,
        })
        .optional(),
        field::<Self>(
            "ripped",
            Kind::Each(&Kind::One(Self::SHAPE)),
            "blocks that it is ripped into",
            |(whole, block), _| match &block.cut {
                Cut::Ripped(inner) => blocks(whole, inner),
                Cut::Rest | Cut::Part(_) | Cut::Offcut(..) | Cut::Crosscut(_) => Datum::Nothing,
            },
        )
        .optional(),
        field::<Self>(
            "crosscut",
            Kind::Each(&Kind::One(Self::SHAPE)),
            "blocks that it is crosscut into",
            |(whole, block), _| match &block.cut {
                Cut::Crosscut(inner) => blocks(whole, inner),
                Cut::Rest | Cut::Part(_) | Cut::Offcut(..) | Cut::Ripped(_) => Datum::Nothing,
            },
        )
        .optional(),
    ];
}
