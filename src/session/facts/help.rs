//! Help as data.

#![expect(clippy::wildcard_enum_match_arm, reason = "a field belongs to few kinds of help")]

use crate::fact::{Datum, Fact, Field, Head, Kind, Level, field};
use crate::lang::builtin::{self, Builtin, Param};
use crate::measure::write::exactly;
use crate::measure::{Quantity, Real, Unit};
use crate::rules::facts::TEXTS;
use crate::rules::{Design, Role, Slot};
use crate::session::command::WORDS;
use crate::session::question::Question;
use crate::session::reply::{Help, HelpRow};

/// The kinds of name that help explains.
const SORTS: &[&str] =
    &["overview", "word", "field", "figure", "function", "unit", "check", "style", "setting", "shape", "material"];

/// Help about one thing.
pub struct Topic;

impl Fact for Topic {
    type Of<'a> = &'a Help;
    const NAME: &'static str = "help";
    const DOC: &'static str = "Help about one thing.";
    const FIELDS: &'static [Field<Self>] =
        &[
            field::<Self>("help", Kind::Text, "the name", |help, _| Datum::text(topic(help))).at(Level::Key),
            field::<Self>("sort", Kind::Word(SORTS), "what the name is", |help, _| Datum::text(sort(help))),
            field::<Self>("says", Kind::Text, "what it means or does", |help, _| Datum::text(says(help)))
                .at(Level::Key),
            field::<Self>("usage", Kind::Text, "how to write a word or a function", |help, _| usage(help)).optional(),
            field::<Self>("kind", Kind::Text, "kind of its value", |help, _| match help {
                Help::Name(design, slot) => Datum::text(design.book().name(*slot).of.to_string()),
                Help::Unit(unit) => Datum::text(unit.kind.to_string()),
                _ => Datum::Nothing,
            })
            .optional(),
            field::<Self>("words", TEXTS, "words that a field takes, or names of a unit", |help, _| words(help))
                .optional(),
            field::<Self>("formula", Kind::Text, "the formula", |help, _| match help {
                Help::Name(design, slot) => Datum::maybe(design.formula(*slot), Datum::text),
                Help::Check { test, .. } => Datum::text(test.as_str()),
                _ => Datum::Nothing,
            })
            .optional(),
            field::<Self>("value", Kind::Text, "the value at the bench", |help, _| match help {
                Help::Name(design, slot) => Datum::maybe(design.shown(*slot), Datum::text),
                Help::Unit(unit) => Datum::text(exactly(&Quantity::new(unit.to_storage(Real::ONE), unit.kind))),
                _ => Datum::Nothing,
            })
            .optional(),
            field::<Self>(
                "level",
                Kind::Word(&["stop", "warn", "note"]),
                "whether a check stops, warns or notes",
                |help, _| match help {
                    Help::Check { level, .. } => Datum::text(level.as_str()),
                    _ => Datum::Nothing,
                },
            )
            .optional(),
            field::<Self>("from", Kind::Text, "file of a style, or `shipped`", |help, _| match help {
                Help::Style(style, _) => Datum::text(style.from.as_str()),
                _ => Datum::Nothing,
            })
            .optional(),
            field::<Self>(
                "takes",
                Kind::Each(&Kind::One(Explained::SHAPE)),
                "what a function takes or a style asks for",
                |help, manner| match help {
                    Help::Function(name) => params(function(name).map_or(&[][..], |one| one.params)),
                    Help::Style(_, Ok(questions)) => {
                        Datum::facts::<Explained>(questions.iter().map(move |one| Line::of_question(one, manner)))
                    }
                    _ => Datum::Nothing,
                },
            )
            .optional(),
            field::<Self>("gives", Kind::Each(&Kind::One(Explained::SHAPE)), "fields of the answer", |help, _| {
                match help {
                    Help::Function(name) => gives(name),
                    Help::Shape(shape) => Datum::facts::<Explained>(shape.flat_heads().map(Line::of_head)),
                    _ => Datum::Nothing,
                }
            })
            .optional(),
            field::<Self>("rows", Kind::Each(&Kind::One(HelpRow::SHAPE)), "rows of tables for a word", |help, _| {
                match help {
                    Help::Rows(rows) => Datum::facts::<HelpRow>(rows.iter()),
                    _ => Datum::Nothing,
                }
            })
            .optional(),
            field::<Self>("examples", TEXTS, "lines to type", |help, _| examples(help)).optional(),
        ];
}

impl Fact for HelpRow {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "table row";
    const DOC: &'static str = "The row of a table for a word.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("word", Kind::Text, "the word", |row, _| Datum::text(row.word.as_str())).at(Level::Key),
        field::<Self>("table", Kind::Text, "what the table holds", |row, _| Datum::text(row.table.as_str())),
        field::<Self>("values", Kind::Named(&Kind::Text), "the value of each column", |row, _| {
            Datum::named(row.values.iter().map(|(name, value)| (name.as_str(), Datum::text(value.as_str()))))
        }),
        field::<Self>("source", Kind::Text, "where the values are published", |row, _| {
            Datum::text(row.source.as_str())
        }),
    ];
}

/// A name, its kind and its meaning.
pub struct Explained;

/// A name, its kind and its meaning.
pub struct Line {
    name: String,
    kind: String,
    says: String,
}

impl Line {
    fn of_param(param: &Param) -> Self {
        Self { name: param.name.into(), kind: param.kind.to_string(), says: param.brief.into() }
    }

    fn of_head(head: &'static Head) -> Self {
        let absent = if head.optional { "; left out if empty" } else { "" };
        Self { name: head.name.into(), kind: head.kind.to_string(), says: format!("{}{absent}", head.doc) }
    }

    fn of_question(question: &Question, manner: &crate::measure::Manner) -> Self {
        let facts = [question.about.clone(), question.limits(manner), question.usual(manner)];
        let says: Vec<String> = facts.into_iter().filter(|fact| !fact.is_empty()).collect();
        Self { name: question.name.clone(), kind: question.wants.with_article(), says: says.join("; ") }
    }
}

impl Fact for Explained {
    type Of<'a> = Line;
    const NAME: &'static str = "explained";
    const DOC: &'static str = "A name, its kind and its meaning.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "the name", |line, _| Datum::text(line.name.clone())).at(Level::Key),
        field::<Self>("kind", Kind::Text, "kind of the value", |line, _| Datum::text(line.kind.clone())),
        field::<Self>("says", Kind::Text, "meaning of the name", |line, _| Datum::text(line.says.clone())),
    ];
}

fn function(name: &str) -> Option<&'static Builtin> {
    builtin::all().find(|one| one.name == name)
}

fn params<'a>(params: &'static [Param]) -> Datum<'a> {
    Datum::facts::<Explained>(params.iter().map(Line::of_param))
}

fn gives<'a>(name: &str) -> Datum<'a> {
    match function(name) {
        Some(Builtin { shape: Some(shape), .. }) => Datum::facts::<Explained>(shape.flat_heads().map(Line::of_head)),
        Some(function) if !function.gives.is_empty() => params(function.gives),
        _ => Datum::Nothing,
    }
}

fn topic(help: &Help) -> String {
    match help {
        Help::Screen(_) => "help".into(),
        Help::Word(word) => word.name.into(),
        Help::Name(design, slot) => design.book().name(*slot).text.clone(),
        Help::Function(name) => (*name).into(),
        Help::Unit(unit) => unit.names.first().copied().unwrap_or_default().into(),
        Help::Check { name, .. } => name.clone(),
        Help::Style(style, _) => style.name.clone(),
        Help::Setting(setting) => setting.name.to_string(),
        Help::Shape(shape) => shape.name().into(),
        Help::Rows(rows) => rows.first().map(|row| row.word.clone()).unwrap_or_default(),
    }
}

fn is_field(design: &Design, slot: Slot) -> bool {
    match design.rule(slot) {
        Some(rule) => rule.given || rule.gather.is_some(),
        None => design.book().name(slot).role != Role::Figure,
    }
}

fn sort(help: &Help) -> &'static str {
    match help {
        Help::Screen(_) => "overview",
        Help::Word(_) => "word",
        Help::Name(design, slot) if is_field(design, *slot) => "field",
        Help::Name(..) => "figure",
        Help::Function(_) => "function",
        Help::Unit(_) => "unit",
        Help::Check { .. } => "check",
        Help::Style(..) => "style",
        Help::Setting(_) => "setting",
        Help::Shape(_) => "shape",
        Help::Rows(_) => "material",
    }
}

fn says(help: &Help) -> String {
    match help {
        Help::Screen(_) => "`help NAME` explains a name.".into(),
        Help::Word(word) => word.brief.into(),
        Help::Name(design, slot) => design.book().name(*slot).doc.clone(),
        Help::Function(name) => function(name).map_or("", |one| one.brief).into(),
        Help::Unit(unit) => unit.brief.into(),
        Help::Check { level, builds, fires_if, .. } => {
            format!(
                "a {level} check of {builds} frames; it reports when its formula {}",
                if *fires_if { "holds" } else { "does not hold" }
            )
        }
        Help::Style(style, _) => style.about.clone(),
        Help::Setting(setting) => setting.brief.to_string(),
        Help::Shape(shape) => shape.doc().into(),
        Help::Rows(rows) => rows.first().map(|row| row.table.clone()).unwrap_or_default(),
    }
}

fn usage<'a>(help: &'a Help) -> Datum<'a> {
    match help {
        Help::Word(word) => Datum::text(word.usage()),
        Help::Function(name) => Datum::maybe(function(name).map(Builtin::signature), Datum::text),
        _ => Datum::Nothing,
    }
}

fn words<'a>(help: &'a Help) -> Datum<'a> {
    match help {
        Help::Screen(_) => Datum::texts(WORDS.iter().map(|word| word.name)),
        Help::Unit(Unit { names, .. }) => Datum::texts(names.iter().copied()),
        Help::Name(design, slot) => {
            let words = design.rule(*slot).and_then(|rule| design.book().words(rule));
            Datum::maybe(words, |words| {
                Datum::texts(words.iter().map(ToString::to_string).collect::<Vec<_>>().into_iter())
            })
        }
        _ => Datum::Nothing,
    }
}

fn examples<'a>(help: &'a Help) -> Datum<'a> {
    match help {
        Help::Word(word) => Datum::texts(word.example.0.iter().copied()),
        Help::Function(name) => {
            Datum::texts(function(name).into_iter().flat_map(|one| one.examples.iter().map(|(line, _)| *line)))
        }
        Help::Name(design, slot) if design.rule(*slot).is_some_and(|rule| rule.given) => {
            Datum::texts(std::iter::once(design.nudged(*slot)))
        }
        Help::Name(design, slot) => Datum::texts(std::iter::once(format!("why {}", design.book().name(*slot).text))),
        Help::Setting(setting) => Datum::texts(std::iter::once(setting.example.to_string())),
        _ => Datum::Nothing,
    }
}
