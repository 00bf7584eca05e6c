//! Replies about pieces, plans, stock, styles and settings.

use crate::diag::Diagnostic;
use crate::fact::{Datum, Fact, Field, Kind, Level, field};
use crate::plan::{BareRow, Item, Rack, Readings, Whole};
use crate::rules::Finding;
use crate::rules::facts::{CHECKS, TEXTS, checks};
use crate::session::reply::{Checked, Planned, StyleRow};
use crate::shop::facts::{CAUTIONS, cautions};
use crate::shop::{Caution, Part, Settings, usual_limit};

/// The pieces of designs.
pub struct CutList;

impl Fact for CutList {
    type Of<'a> = (&'a Vec<Part>, &'a Vec<Finding>, &'a Vec<Caution>);
    const NAME: &'static str = "parts";
    const DOC: &'static str = "The cut list.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("parts", Kind::Each(&Kind::One(Part::SHAPE)), "the pieces", |(parts, ..), _| {
            Datum::facts::<Part>(parts.iter())
        })
        .at(Level::Key),
        field::<Self>("checks", CHECKS, "stops of the designs", |(_, stops, _), _| checks(stops.as_slice().into())),
        field::<Self>("cautions", CAUTIONS, "the cautions that apply", |(.., all), _| cautions(all.as_slice().into())),
    ];
}

/// The cautions of a design.
pub struct Cautioned;

impl Fact for Cautioned {
    type Of<'a> = &'a Vec<Caution>;
    const NAME: &'static str = "cautions";
    const DOC: &'static str = "Every caution that applies to a design.";
    const FIELDS: &'static [Field<Self>] =
        &[field::<Self>("cautions", CAUTIONS, "the cautions", |all, _| cautions(all.as_slice().into())).at(Level::Key)];
}

/// A cutting plan.
pub struct Planning;

impl Fact for Planning {
    type Of<'a> = &'a Planned;
    const NAME: &'static str = "plan";
    const DOC: &'static str = "A cutting plan.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("plan", Kind::One(Whole::SHAPE), "the plan", |planned, _| {
            Datum::fact::<Whole>((&planned.whole, planned.seconds))
        })
        .at(Level::Key),
        field::<Self>("errors", Kind::Each(&Kind::One(Diagnostic::SHAPE)), "faults of the tables", |planned, _| {
            match planned.found.as_slice() {
                [] => Datum::Nothing,
                found => Datum::facts::<Diagnostic>(found.iter().map(|found| (found, ""))),
            }
        })
        .optional(),
        field::<Self>("notes", TEXTS, "how headings and numbers were read, where that was a choice", |planned, _| {
            match planned.notes.as_slice() {
                [] => Datum::Nothing,
                notes => Datum::texts(notes.iter().map(String::as_str)),
            }
        })
        .optional(),
        field::<Self>("checks", CHECKS, "stops of the designs", |planned, _| checks(planned.stops.as_slice().into())),
        field::<Self>("cautions", CAUTIONS, "the cautions that apply", |planned, _| {
            cautions(planned.cautions.as_slice().into())
        }),
    ];
}

/// Stock whose lengths have no unit.
pub struct BareStock;

impl Fact for BareStock {
    type Of<'a> = &'a Readings;
    const NAME: &'static str = "bare_stock";
    const DOC: &'static str = "Stock in which lengths have no unit.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("stock", Kind::Each(&Kind::One(BareRow::SHAPE)), "the rows in both readings", |stock, _| {
            Datum::facts::<BareRow>(stock.rows.iter().enumerate())
        })
        .at(Level::Key),
        field::<Self>("hint", Kind::Text, "a line that sets the unit", |stock, _| {
            Datum::text(format!("stock unit {}", stock.likely))
        }),
    ];
}

/// The stock of the shop.
pub struct Stock;

impl Fact for Stock {
    type Of<'a> = (&'a Rack, Option<&'a str>);
    const NAME: &'static str = "stock";
    const DOC: &'static str = "The stock of the shop.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("stock", Kind::Each(&Kind::One(Item::SHAPE)), "the rows of the stock", |(rack, _), _| {
            Datum::facts::<Item>(rack.items.iter().enumerate())
        })
        .at(Level::Key),
        field::<Self>("said", Kind::Text, "change of the stock", |(_, said), _| Datum::maybe(*said, Datum::text))
            .optional(),
    ];
}

/// A file was written.
pub struct WrittenTo;

impl Fact for WrittenTo {
    type Of<'a> = (&'a String, &'a String, &'a Vec<Finding>);
    const NAME: &'static str = "written";
    const DOC: &'static str = "A file was written.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("written", Kind::Text, "the file", |(_, file, _), _| Datum::text(file.as_str())).at(Level::Key),
        field::<Self>("what", Kind::Text, "contents of the file", |(what, ..), _| Datum::text(what.as_str()))
            .at(Level::Key),
        field::<Self>("checks", CHECKS, "stops of the designs", |(.., stops), _| checks(stops.as_slice().into())),
    ];
}

/// A style that was checked.
pub struct Checks;

impl Fact for Checks {
    type Of<'a> = &'a Checked;
    const NAME: &'static str = "style_check";
    const DOC: &'static str = "A style that was checked and has no fault.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("style", Kind::Text, "name of the style", |checked, _| Datum::text(checked.name.as_str())),
        field::<Self>("designs", Kind::Count, "number of designs that were framed", |checked, _| {
            Datum::count(checked.designs)
        }),
        field::<Self>("seen", Kind::Each(&Kind::One(Seen::SHAPE)), "warnings and notes", |checked, _| {
            Datum::facts::<Seen>(checked.seen.iter())
        }),
    ];
}

/// A check that reports something in some designs of a style.
pub struct Seen;

impl Fact for Seen {
    type Of<'a> = &'a (crate::rules::Level, String, usize);
    const NAME: &'static str = "seen";
    const DOC: &'static str = "A check that reports something in some designs of a style.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("level", Kind::Word(&["stop", "warn", "note"]), "stop, warning or note", |(level, ..), _| {
            Datum::text(level.to_string())
        }),
        field::<Self>("name", Kind::Text, "name of the check", |(_, name, _), _| Datum::text(name.as_str())),
        field::<Self>("designs", Kind::Count, "number of designs with that report", |(.., count), _| {
            Datum::count(*count)
        }),
    ];
}

/// The house styles.
pub struct Styles;

impl Fact for Styles {
    type Of<'a> = &'a Vec<StyleRow>;
    const NAME: &'static str = "styles";
    const DOC: &'static str = "The house styles.";
    const FIELDS: &'static [Field<Self>] =
        &[field::<Self>("styles", Kind::Each(&Kind::One(StyleRow::SHAPE)), "the styles", |styles, _| {
            Datum::facts::<StyleRow>(styles.iter())
        })
        .at(Level::Key)];
}

impl Fact for StyleRow {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "style";
    const DOC: &'static str = "A house style.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "name of the style", |style, _| Datum::text(style.name.as_str())),
        field::<Self>("about", Kind::Text, "what the style is for", |style, _| Datum::text(style.about.as_str())),
        field::<Self>("from", Kind::Text, "`shipped`, or the file of the style", |style, _| {
            Datum::text(style.from.as_str())
        }),
    ];
}

/// The settings of the shop.
pub struct ShopSettings;

impl Fact for ShopSettings {
    type Of<'a> = (&'a Settings, Option<&'a str>);
    const NAME: &'static str = "shop";
    const DOC: &'static str = "The settings of the shop.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>(
            "shop",
            Kind::Named(&Kind::OrNothing(&Kind::Text)),
            "the value of each setting",
            |(settings, _), _| {
                let settings = *settings;
                Datum::named(settings.all().into_iter().map(move |setting| {
                    let value = settings.get(&setting.name).or_else(|| usual_limit(&setting.name));
                    (setting.name.to_string(), Datum::maybe(value, Datum::text))
                }))
            },
        )
        .at(Level::Key),
        field::<Self>("written", Kind::Text, "file that the settings were saved to", |(_, file), _| {
            Datum::maybe(*file, Datum::text)
        })
        .optional(),
    ];
}
