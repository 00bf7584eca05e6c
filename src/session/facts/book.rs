//! Replies of the design book.

use crate::book::facts::{CHANGES, changes};
use crate::book::text::{Difference, LeftOut};
use crate::book::{Entry, Imported};
use crate::fact::{Datum, Fact, Field, Kind, Level, field};
use crate::rules::Design;
use crate::rules::facts::{Designed, TEXTS};
use crate::session::booked::{Label, Opened, Past, PickedUp, Side};

/// A design was saved.
pub struct Kept;

impl Fact for Kept {
    type Of<'a> = (&'a String, u32, bool);
    const NAME: &'static str = "kept";
    const DOC: &'static str = "A design was saved.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("kept", Kind::Text, "name of the design", |(name, ..), _| Datum::text(name.as_str())),
        field::<Self>("revision", Kind::Count, "number of the newest revision", |(_, number, _), _| {
            Datum::Count((*number).into())
        }),
        field::<Self>("written", Kind::Truth, "whether this line saved a new revision", |(.., written), _| {
            Datum::Truth(*written)
        }),
    ];
}

/// A design was opened.
pub struct OpenedDesign;

impl Fact for OpenedDesign {
    type Of<'a> = &'a Opened;
    const NAME: &'static str = "opened";
    const DOC: &'static str = "A saved design was put on the bench.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("opened", Kind::Text, "name of the design", |opened, _| Datum::text(opened.name.as_str())),
        field::<Self>("revision", Kind::Count, "number of the revision", |opened, _| {
            Datum::Count(opened.number.into())
        }),
        field::<Self>("kept", Kind::Text, "when the revision was saved", |opened, _| Datum::text(opened.when.as_str())),
        field::<Self>("note", Kind::Text, "note saved with the revision", |opened, _| {
            Datum::text(opened.note.as_str())
        }),
        field::<Self>("retired", Kind::Truth, "whether the design is retired", |opened, _| {
            Datum::Truth(opened.retired)
        }),
        field::<Self>("design", Kind::One(Design::SHAPE), "the design on the bench", |opened, _| {
            Datum::fact::<Design>(Designed { design: &opened.design, findings: opened.findings.as_slice().into() })
        }),
        field::<Self>("differences", CHANGES, "figures that differ from the saved ones", |opened, _| {
            changes(&opened.differences)
        }),
        field::<Self>(
            "left_out",
            Kind::Each(&Kind::One(LeftOut::SHAPE)),
            "saved values that the rules no longer take",
            |opened, _| Datum::facts::<LeftOut>(opened.left_out.iter()),
        ),
        field::<Self>(
            "wall",
            Kind::Each(&Kind::One(WallChange::SHAPE)),
            "saved values of the wall that differ from the wall of the bench",
            |opened, _| Datum::facts::<WallChange>(opened.wall.iter()),
        ),
        field::<Self>(
            "tape",
            Kind::OrNothing(&Kind::Text),
            "tape that the design was saved for, if the bench has another",
            |opened, _| Datum::maybe(opened.tape.as_deref(), Datum::text),
        ),
        field::<Self>("program", Kind::Text, "version of the program that saved the revision", |opened, _| {
            Datum::text(opened.program.as_str())
        }),
    ];
}

/// Designs of the book.
pub struct Listed;

impl Fact for Listed {
    type Of<'a> = (&'a Vec<Entry>, usize);
    const NAME: &'static str = "designs";
    const DOC: &'static str = "Designs of the book.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>(
            "designs",
            Kind::Each(&Kind::One(Entry::SHAPE)),
            "the designs shown, newest first",
            |(entries, _), _| Datum::facts::<Entry>(entries.iter()),
        )
        .at(Level::Key),
        field::<Self>("count", Kind::Count, "number of designs in all", |(_, count), _| Datum::count(*count)),
    ];
}

/// The history of a design.
pub struct Revisions;

impl Fact for Revisions {
    type Of<'a> = (&'a String, &'a Vec<Past>);
    const NAME: &'static str = "revisions";
    const DOC: &'static str = "The revisions of a design, oldest first.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("revisions", Kind::Each(&Kind::One(Past::SHAPE)), "the revisions", |(_, past), _| {
            Datum::facts::<Past>(past.iter())
        })
        .at(Level::Key),
        field::<Self>("design", Kind::Text, "name of the design", |(name, _), _| Datum::text(name.as_str())),
    ];
}

/// A saved value that differs from the wall of the bench.
pub struct WallChange;

impl Fact for WallChange {
    type Of<'a> = &'a (Difference, String);
    const NAME: &'static str = "wall change";
    const DOC: &'static str = "A saved value that differs from the wall of the bench.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "the field", |(one, _), _| Datum::text(one.name.as_str())),
        field::<Self>("was", Kind::OrNothing(&Kind::Text), "the saved value", |(one, _), _| {
            Datum::maybe(one.was.as_deref(), Datum::text)
        }),
        field::<Self>("is", Kind::OrNothing(&Kind::Text), "the value now", |(one, _), _| {
            Datum::maybe(one.is.as_deref(), Datum::text)
        }),
        field::<Self>("line", Kind::Text, "a line that brings the saved value back", |(_, line), _| {
            Datum::text(line.as_str())
        }),
    ];
}

impl Fact for Past {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "revision";
    const DOC: &'static str = "A revision of a design and what it changed.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("revision", Kind::Count, "number of the revision", |past, _| Datum::Count(past.number.into())),
        field::<Self>("kept", Kind::Text, "when the revision was saved", |past, _| Datum::text(past.when.as_str())),
        field::<Self>("note", Kind::Text, "note saved with the revision", |past, _| Datum::text(past.note.as_str())),
        field::<Self>("style", Kind::OrNothing(&Kind::Text), "style that framed the design", |past, _| {
            Datum::maybe(past.style.as_ref(), |(name, _)| Datum::text(name.as_str()))
        }),
        field::<Self>("style_version", Kind::OrNothing(&Kind::Text), "version of that style", |past, _| {
            Datum::maybe(past.style.as_ref(), |(_, version)| Datum::text(version.as_str()))
        }),
        field::<Self>("changed", CHANGES, "fields that differ from the revision before", |past, _| {
            changes(&past.changes)
        }),
        field::<Self>("figures", Kind::Count, "number of figures that differ, where no field does", |past, _| {
            Datum::count(past.figures)
        }),
    ];
}

/// Two designs side by side.
pub struct Compared;

impl Fact for Compared {
    type Of<'a> = (&'a [String; 2], &'a Vec<Side>);
    const NAME: &'static str = "compared";
    const DOC: &'static str = "Two designs side by side.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("compared", TEXTS, "name and revision of both", |(names, _), _| {
            Datum::texts(names.iter().map(String::as_str))
        }),
        field::<Self>(
            "names",
            Kind::Named(&Kind::One(Side::SHAPE)),
            "the value of each field and figure in both",
            |(_, rows), _| Datum::named(rows.iter().map(|row| (row.name.as_str(), Datum::fact::<Side>(row)))),
        ),
    ];
}

impl Fact for Side {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "side";
    const DOC: &'static str = "A value in two designs.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("is", Kind::Each(&Kind::OrNothing(&Kind::Text)), "the value in each", |side, _| {
            Datum::Each(Box::new(side.values.iter().map(|value| Datum::maybe(value.as_deref(), Datum::text))))
        }),
        field::<Self>("differs", Kind::Truth, "whether the two differ", |side, _| Datum::Truth(side.differs)),
    ];
}

/// A change of the book that another line undoes.
pub struct Undoable;

impl Fact for Undoable {
    type Of<'a> = (&'a String, &'a String);
    const NAME: &'static str = "done";
    const DOC: &'static str = "The book was changed; another line undoes that.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("done", Kind::Text, "what was done", |(said, _), _| Datum::text(said.as_str())),
        field::<Self>("back", Kind::Text, "a line that undoes it", |(_, back), _| Datum::text(back.as_str())),
    ];
}

/// The book was exported.
pub struct Exported;

impl Fact for Exported {
    type Of<'a> = (&'a String, (usize, usize));
    const NAME: &'static str = "exported";
    const DOC: &'static str = "The book was written to a file.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("exported", Kind::Text, "the file", |(file, _), _| Datum::text(file.as_str())),
        field::<Self>("designs", Kind::Count, "number of designs", |(_, (designs, _)), _| Datum::count(*designs)),
        field::<Self>("revisions", Kind::Count, "number of revisions", |(_, (_, revisions)), _| {
            Datum::count(*revisions)
        }),
    ];
}

/// A file was imported.
pub struct ImportedFrom;

impl Fact for ImportedFrom {
    type Of<'a> = (&'a String, &'a Imported);
    const NAME: &'static str = "imported";
    const DOC: &'static str = "Designs of a file were added to the book.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("imported", Kind::Text, "the file", |(file, _), _| Datum::text(file.as_str())),
        field::<Self>("designs", Kind::Count, "number of new designs", |(_, all), _| Datum::count(all.designs)),
        field::<Self>("revisions", Kind::Count, "number of revisions added", |(_, all), _| Datum::count(all.revisions)),
        field::<Self>("remarks", TEXTS, "what was left out, and why", |(_, all), _| {
            Datum::texts(all.remarks.iter().map(String::as_str))
        }),
    ];
}

/// The book was copied.
pub struct BackedUp;

impl Fact for BackedUp {
    type Of<'a> = &'a String;
    const NAME: &'static str = "copied";
    const DOC: &'static str = "The book was copied to a file.";
    const FIELDS: &'static [Field<Self>] =
        &[field::<Self>("copied", Kind::Text, "the file", |file, _| Datum::text(file.as_str()))];
}

/// A label for a frame.
pub struct Labelled;

impl Fact for Labelled {
    type Of<'a> = &'a Label;
    const NAME: &'static str = "label";
    const DOC: &'static str = "A label for a frame.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("label", Kind::Text, "name and revision", |label, _| Datum::text(label.head.as_str())),
        field::<Self>("says", Kind::Named(&Kind::Text), "the lines of the label", |label, _| {
            Datum::named(label.rows.iter().map(|(word, value)| (word.as_str(), Datum::text(value.as_str()))))
        }),
        field::<Self>("date", Kind::Text, "day that the revision was saved", |label, _| {
            Datum::text(label.date.as_str())
        }),
    ];
}

/// The bench of an earlier shell is back.
pub struct PickedUpBench;

impl Fact for PickedUpBench {
    type Of<'a> = &'a PickedUp;
    const NAME: &'static str = "picked_up";
    const DOC: &'static str = "A bench that an earlier shell left is back.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("picked_up", Kind::Text, "when that bench was last saved", |one, _| {
            Datum::text(one.when.as_str())
        }),
        field::<Self>("steps", Kind::Count, "number of steps that can be undone", |one, _| Datum::count(one.steps)),
        field::<Self>("design", Kind::One(Design::SHAPE), "the design on the bench", |one, _| {
            Datum::fact::<Design>(Designed::of(&one.design))
        }),
    ];
}
