//! Replies about the design at the bench.

use crate::fact::{Datum, Fact, Field, Kind, Level, field};
use crate::lang::Value;
use crate::measure::{Length, Quantity};
use crate::rules::facts::{CHECKS, Designed, TEXTS, checks, known};
use crate::rules::{Answer, Design, Slot, Step, Tolerance, Type};
use crate::shop::caution::{SHEET, cautions_of_all};
use crate::shop::facts::{CAUTIONS, cautions};
use crate::shop::{self, Places, parts};

/// Nothing to say.
pub struct Nothing;

impl Fact for Nothing {
    type Of<'a> = ();
    const NAME: &'static str = "nothing";
    const DOC: &'static str = "A line that has no answer.";
    const FIELDS: &'static [Field<Self>] =
        &[field::<Self>("kind", Kind::Word(&["nothing"]), "always `nothing`", |(), _| Datum::text("nothing"))];
}

/// The value of a line.
pub struct Valued;

impl Fact for Valued {
    type Of<'a> = &'a Value;
    const NAME: &'static str = "value";
    const DOC: &'static str = "The value of a line.";
    const FIELDS: &'static [Field<Self>] =
        &[field::<Self>("", Kind::Value, "the value", |value, _| value.datum()).at(Level::Key)];
}

/// A field or a figure.
pub struct Named;

impl Fact for Named {
    type Of<'a> = (&'a String, &'a Answer);
    const NAME: &'static str = "figure";
    const DOC: &'static str = "The value of a field or a figure.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("", Kind::Value, "the value", |(_, answer), _| (*answer).clone().datum()).at(Level::Key),
        field::<Self>("name", Kind::Text, "name of the field or figure", |(name, _), _| Datum::text(name.as_str())),
    ];
}

/// The whole design.
pub struct Sheet;

impl Fact for Sheet {
    type Of<'a> = (&'a Design, Option<&'a str>);
    const NAME: &'static str = "design";
    const DOC: &'static str = "The whole design.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("design", Kind::One(Design::SHAPE), "the design", |(design, _), _| {
            Datum::fact::<Design>(Designed::of(design))
        })
        .at(Level::Key),
        field::<Self>("style", Kind::Text, "style that framed the design", |(_, style), _| {
            Datum::maybe(*style, Datum::text)
        })
        .optional(),
        field::<Self>("cautions", CAUTIONS, "the cautions that apply", |(design, _), _| {
            cautions(shop::cautions(design, &parts(design), SHEET).into())
        }),
    ];
}

/// How a value is worked out.
pub struct Why;

impl Fact for Why {
    type Of<'a> = (&'a Design, &'a Vec<Step>);
    const NAME: &'static str = "why";
    const DOC: &'static str = "How a value is worked out, step by step.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("why", Kind::Text, "the field or figure", |(design, steps), _| {
            let name = steps.first().map(|step| design.book().name(step.slot).text.as_str());
            Datum::text(name.unwrap_or_default())
        })
        .at(Level::Key),
        field::<Self>(
            "steps",
            Kind::Each(&Kind::One(Step::SHAPE)),
            "steps, the value itself first",
            |(design, steps), _| {
                let design = *design;
                Datum::facts::<Step>(steps.iter().map(move |step| (design, step)))
            },
        ),
        field::<Self>("tolerance", Kind::One(Tolerance::SHAPE), "tolerance of the value", |(design, steps), _| {
            let slot = steps.first().map(|step| step.slot);
            Datum::maybe(slot.and_then(|slot| tolerance(design, slot)), Datum::fact::<Tolerance>)
        })
        .optional(),
    ];
}

/// The tolerance of a figure, if it has one.
fn tolerance(design: &Design, slot: Slot) -> Option<(&Design, Slot, Tolerance)> {
    Some((design, slot, design.tolerance(slot).ok()?))
}

/// A length on the tape.
pub struct Tape;

impl Fact for Tape {
    type Of<'a> = &'a Length;
    const NAME: &'static str = "tape";
    const DOC: &'static str = "A length as it is read on the tape.";
    const FIELDS: &'static [Field<Self>] = &[field::<Self>("tape", Kind::LENGTH, "the length", |length, _| {
        Datum::quantity(&Quantity::from((*length).clone()))
    })
    .at(Level::Key)];
}

/// One page of a design: its figures, reasons, checks and cautions.
pub struct Drawn<'a> {
    /// The design.
    pub design: &'a Design,
    /// The page.
    pub page: &'a str,
}

impl Drawn<'_> {
    fn slots(&self) -> Vec<Slot> {
        self.design.on_page(self.page)
    }
}

/// One page of a design.
pub struct Page;

impl Fact for Page {
    type Of<'a> = Drawn<'a>;
    const NAME: &'static str = "page";
    const DOC: &'static str = "One page of a design.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("figures", Kind::Named(&Kind::Value), "values of the fields and figures on the page", |of, _| {
            let design = of.design;
            Datum::named(of.slots().into_iter().filter_map(move |slot| {
                let gathers = design.rule(slot).is_some_and(|rule| rule.gather.is_some());
                let name = design.book().name(slot);
                let value = design.known(slot);
                (value.is_ok() && !gathers && !matches!(name.of, Type::Record(_)))
                    .then(|| (name.text.as_str(), known(design, slot, value)))
            }))
        }),
        field::<Self>("reasons", TEXTS, "reasons for what the program chose", |of, _| {
            Datum::texts(of.design.reasons(of.slots().into_iter()).into_iter())
        }),
        field::<Self>("checks", CHECKS, "what the checks report", |of, _| {
            checks(of.design.findings_of(of.page).into())
        }),
        field::<Self>("cautions", CAUTIONS, "the cautions that apply", |of, _| {
            cautions(shop::cautions(of.design, &parts(of.design), of.page).into())
        }),
    ];
}

/// The page of fixings.
pub struct Fixings;

impl Fact for Fixings {
    type Of<'a> = Drawn<'a>;
    const NAME: &'static str = "fixings";
    const DOC: &'static str = "Screws, brads and how the work is held.";
    const FIELDS: &'static [Field<Self>] = &[field::<Self>("fixings", Kind::One(Page::SHAPE), "the page", |of, _| {
        Datum::fact::<Page>(Drawn { design: of.design, page: of.page })
    })
    .at(Level::Key)];
}

/// The page of movement.
pub struct Movement;

impl Fact for Movement {
    type Of<'a> = Drawn<'a>;
    const NAME: &'static str = "movement";
    const DOC: &'static str = "How the wood moves with the air.";
    const FIELDS: &'static [Field<Self>] = &[field::<Self>("movement", Kind::One(Page::SHAPE), "the page", |of, _| {
        Datum::fact::<Page>(Drawn { design: of.design, page: of.page })
    })
    .at(Level::Key)];
}

/// Another page of the rules.
pub struct OtherPage;

impl Fact for OtherPage {
    type Of<'a> = Drawn<'a>;
    const NAME: &'static str = "sheet_page";
    const DOC: &'static str = "One page of the sheet.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("page", Kind::Text, "name of the page", |of, _| Datum::text(of.page.to_string())).at(Level::Key),
        field::<Self>("shows", Kind::One(Page::SHAPE), "what is on the page", |of, _| {
            Datum::fact::<Page>(Drawn { design: of.design, page: of.page })
        }),
    ];
}

/// How designs hang.
pub struct Hung;

impl Fact for Hung {
    type Of<'a> = (&'a Vec<Design>, Option<&'a Places>);
    const NAME: &'static str = "hang";
    const DOC: &'static str = "How a design hangs, and where designs go on the wall.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("hang", Kind::One(Page::SHAPE), "the page, if there is one design", |(designs, _), _| {
            match designs.as_slice() {
                [design] => Datum::fact::<Page>(Drawn { design, page: "hang" }),
                _ => Datum::Nothing,
            }
        })
        .optional(),
        field::<Self>("wall", Kind::One(Places::SHAPE), "places on the wall", |(_, places), _| {
            Datum::maybe(*places, Datum::fact::<Places>)
        })
        .optional(),
        field::<Self>("cautions", CAUTIONS, "cautions, if there are several designs", |(designs, _), _| {
            if designs.len() == 1 {
                return Datum::Nothing;
            }
            cautions(cautions_of_all(designs.iter(), "hang").into())
        })
        .optional(),
    ];
}

/// Tolerances.
pub struct TolerancePage;

impl Fact for TolerancePage {
    type Of<'a> = (&'a Design, Option<Slot>);
    const NAME: &'static str = "tolerance";
    const DOC: &'static str = "Tolerances of sizes, and the effect of saw errors.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>(
            "tolerance",
            Kind::Named(&Kind::One(Tolerance::SHAPE)),
            "the tolerance of each size",
            |(design, about), _| {
                let design = *design;
                let slots = match about {
                    Some(slot) => vec![*slot],
                    None => design.book().builds[usize::from(design.build())].order.clone(),
                };
                Datum::named(slots.into_iter().filter_map(move |slot| {
                    let of = tolerance(design, slot).filter(|(.., tolerance)| !tolerance.shares.is_empty())?;
                    Some((design.book().name(slot).text.as_str(), Datum::fact::<Tolerance>(of)))
                }))
            },
        ),
        field::<Self>("saw", Kind::One(Page::SHAPE), "effect of saw errors", |(design, about), _| match about {
            Some(_) => Datum::Nothing,
            None => Datum::fact::<Page>(Drawn { design, page: "tolerance" }),
        })
        .optional(),
    ];
}

/// The figures added to the design.
pub struct OwnFigures;

impl Fact for OwnFigures {
    type Of<'a> = &'a Design;
    const NAME: &'static str = "figures";
    const DOC: &'static str = "The figures added to this design.";
    const FIELDS: &'static [Field<Self>] =
        &[field::<Self>("figures", Kind::Named(&Kind::Text), "the formula of each figure", |design, _| {
            Datum::named(
                design.own_figures().iter().map(|(name, formula)| (name.as_str(), Datum::text(formula.as_str()))),
            )
        })];
}
