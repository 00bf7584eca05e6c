//! What is answered of a row of a table of works, and of the whole run.

use super::row::{NAME, Row};
use crate::diag::Diagnostic;
use crate::fact::{Datum, Fact, Field, Kind, Level, Shape, field};
use crate::measure::{self, Quantity};
use crate::rules::Design;
use crate::rules::facts::{Designed, TEXTS};
use crate::shop::caution::SHEET;
use crate::shop::facts::{CAUTIONS, cautions};
use crate::shop::{self, Part};
use crate::show::errors::{MORE, more};

/// Every kind of reply of a run.
pub const REPLIES: &[&dyn Shape] = &[Framed::SHAPE, Failed::SHAPE, Ended::SHAPE];

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

/// What a whole run came to.
#[derive(Clone, Debug)]
pub struct Ended {
    /// How many rows there are.
    pub rows: u64,
    /// How many of them an earlier run did.
    pub before: u64,
    /// How many cannot be made as they are.
    pub stopped: u64,
    /// How many have no design.
    pub failed: u64,
    /// What all designs that can be made weigh together.
    pub weight: Quantity,
    /// The designs whose object has no weight, so that the weight leaves it out.
    pub unweighed: Vec<String>,
    /// What was not read as it is written in the table.
    pub notes: Vec<String>,
    /// The folder that the files are in.
    pub folder: Option<String>,
    /// Files there of an earlier run that belong to no row now.
    pub left: Vec<String>,
}

impl Fact for Ended {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "batch";
    const DOC: &'static str = "What a run over a table of works came to.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("rows", Kind::Count, "how many rows there are", |run, _| Datum::Count(run.rows)).at(Level::Key),
        field::<Self>("done_before", Kind::Count, "how many rows an earlier run did", |run, _| {
            Datum::Count(run.before)
        }),
        field::<Self>("stopped", Kind::Count, "how many designs cannot be made as they are", |run, _| {
            Datum::Count(run.stopped)
        }),
        field::<Self>("failed", Kind::Count, "how many rows have no design", |run, _| Datum::Count(run.failed)),
        field::<Self>("weight", Kind::Of(measure::Kind::MASS), "weight of all frames that can be made", |run, _| {
            Datum::quantity(&run.weight)
        }),
        field::<Self>(
            "unweighed",
            TEXTS,
            "designs whose object has no weight, so that the sum leaves it out",
            |run, _| texts_if_any(&run.unweighed),
        )
        .optional(),
        field::<Self>("notes", TEXTS, "what was not read as it is written in the table", |run, _| {
            texts_if_any(&run.notes)
        })
        .optional(),
        field::<Self>("written", Kind::Text, "the folder that the files are in", |run, _| {
            Datum::maybe(run.folder.as_deref(), Datum::text)
        })
        .optional(),
        field::<Self>("left", TEXTS, "files of an earlier run that belong to no row now", |run, _| {
            texts_if_any(&run.left)
        })
        .optional(),
    ];
}

/// Texts, or nothing where the list is empty.
fn texts_if_any(texts: &[String]) -> Datum<'_> {
    if texts.is_empty() { Datum::Nothing } else { Datum::texts(texts.iter().map(String::as_str)) }
}
