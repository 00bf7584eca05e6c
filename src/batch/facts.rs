//! What is answered of a row of a table of works.

use super::row::{NAME, Row};
use crate::diag::Diagnostic;
use crate::fact::{Datum, Fact, Field, Kind, Level, Shape, field};
use crate::rules::Design;
use crate::rules::facts::Designed;
use crate::shop::caution::SHEET;
use crate::shop::facts::{CAUTIONS, cautions};
use crate::shop::{self, Part};
use crate::show::errors::{MORE, more};

/// Every kind of reply about a row.
pub const REPLIES: &[&dyn Shape] = &[Framed::SHAPE, Failed::SHAPE];

/// A row that became a design.
pub struct Framed;

/// A design with its row.
pub struct Frame<'a> {
    /// The number of the row.
    pub row: u64,
    /// The style that framed it, empty for none.
    pub style: &'a str,
    /// The design and its checks.
    pub design: &'a Design,
    /// What the checks report.
    pub findings: &'a [crate::rules::Finding],
    /// Its pieces.
    pub parts: &'a [Part],
}

impl Fact for Framed {
    type Of<'a> = Frame<'a>;
    const NAME: &'static str = "row";
    const DOC: &'static str = "A row of a table of works and its design.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("row", Kind::Count, "number of the row", |frame, _| Datum::Count(frame.row)),
        field::<Self>("style", Kind::Text, "the style that made the design", |frame, _| {
            Datum::text_if_any(frame.style)
        })
        .optional(),
        field::<Self>("design", Kind::One(Design::SHAPE), "the design", |frame, _| {
            Datum::fact::<Design>(Designed { design: frame.design, findings: frame.findings.into() })
        })
        .at(Level::Key),
        field::<Self>("cautions", CAUTIONS, "the cautions that apply", |frame, _| {
            cautions(shop::cautions(frame.design, frame.parts, SHEET).into())
        }),
    ];
}

/// A row without a design.
pub struct Failed;

impl Fact for Failed {
    type Of<'a> = (&'a Row, &'a [Diagnostic]);
    const NAME: &'static str = "failed_row";
    const DOC: &'static str = "A row of a table of works that cannot be made into a design.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("row", Kind::Count, "number of the row", |(row, _), _| Datum::Count(row.number)),
        field::<Self>("name", Kind::OrNothing(&Kind::Text), "name in the row", |(row, _), _| {
            Datum::maybe(row.cell(NAME), |cell| Datum::text(cell.text.as_str()))
        }),
        field::<Self>("error", Kind::One(Diagnostic::SHAPE), "what is wrong", |(_, found), _| {
            Datum::maybe(found.first(), |first| Datum::fact::<Diagnostic>((first, "")))
        })
        .at(Level::Key),
        field::<Self>("more", MORE, "what else is wrong", |(_, found), _| more(found, "")).optional(),
    ];
}
