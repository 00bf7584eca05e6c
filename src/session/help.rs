//! Finds what `help` explains.

use super::command::word;
use super::facts::REPLIES;
use super::reply::{Faults, Help, HelpRow, Reply};
use super::session::Session;
use crate::diag::{Diagnostic, codes, list, near};
use crate::fact::{Shape, shapes};
use crate::lang::{Names, builtins};
use crate::measure::{UNITS, Unit};
use crate::rules::book::{Cell, Column, SHOP, Table};
use crate::rules::{Datum, Design};
use crate::shop::Setting;
use crate::word::{Args, Kind};

impl Session {
    pub(super) fn help(&mut self, _: &Args) -> Result<Reply, Faults> {
        Ok(Reply::Help(Help::Screen(self.design().book().clone())))
    }

    pub(super) fn help_style(&mut self, args: &Args) -> Result<Reply, Faults> {
        let name = args.text(Kind::Style);
        // Only a style is near to a style.
        let found = style(name, self).map_err(|found| {
            let styles: Vec<String> = self.style_rows().into_iter().map(|style| style.name).collect();
            let meant = near(name, styles.iter().map(String::as_str)).first().map(|near| format!("help style {near}"));
            let says = format!("there is no style called {name}");
            Diagnostic { says: says.into(), ..found }.hint(meant.unwrap_or_else(|| "styles".into()))
        });
        Ok(Reply::Help(found?))
    }

    pub(super) fn help_on(&mut self, args: &Args) -> Result<Reply, Faults> {
        Ok(Reply::Help(about(args.text(Kind::Topic).trim(), self)?))
    }
}

/// Help about `topic`.
fn about(topic: &str, session: &mut Session) -> Result<Help, Diagnostic> {
    let function = |name: &str| builtins().find(|one| one.name == name).map(|one| Help::Function(one.name));
    // A word or a field may share its name with a function: the bracket means the function.
    if let Some(help) = topic.strip_suffix("()").and_then(function) {
        return Ok(help);
    }
    let topic = topic.trim_end_matches("()");
    if let Some(word) = word(topic) {
        return Ok(Help::Word(word));
    }
    let design = session.design();
    if let Some(slot) = design.book().slot(topic) {
        return Ok(Help::Name(design, slot));
    }
    if let Some(help) = function(topic) {
        return Ok(help);
    }
    if let Some(unit) = Unit::named(topic) {
        return Ok(Help::Unit(unit));
    }
    if let Some(check) = design.book().checks.iter().find(|check| check.name == topic) {
        let builds: Vec<&str> = check
            .builds
            .iter()
            .filter_map(|build| design.book().builds.get(usize::from(*build)))
            .map(|build| &*build.name)
            .collect();
        return Ok(Help::Check {
            name: check.name.clone(),
            level: check.level.to_string(),
            builds: list(&builds, "and"),
            test: design.condition(check),
            fires_if: check.fires_if,
        });
    }
    if let Some(shape) = shape(topic) {
        return Ok(Help::Shape(shape));
    }
    if let Some(setting) = session.settings.all().into_iter().find(|setting| setting.name == topic) {
        // The line to try moves the value that the shop has.
        let example = design.book().slot(&format!("{SHOP}{topic}")).map(|slot| design.nudged(slot));
        let example = example.map_or(setting.example.clone(), |line| line.replacen(SHOP, "shop ", 1).into());
        return Ok(Help::Setting(Setting { example, ..setting }));
    }
    let rows = rows(topic, &design);
    if !rows.is_empty() {
        return Ok(Help::Rows(rows));
    }
    style(topic, session)
}

/// The shape of replies with this name.
fn shape(topic: &str) -> Option<&'static dyn Shape> {
    shapes(REPLIES).into_iter().chain(REPLIES.iter().copied()).find(|shape| shape.name() == topic)
}

/// The rows of tables for a word or another name of it.
fn rows(topic: &str, design: &Design) -> Vec<HelpRow> {
    let typed = topic.trim_matches('"').to_lowercase();
    let row = |table: &Table| {
        let word = table.meant(&typed)?;
        let row = table.words.iter().position(|one| one == word)?;
        let value = |column: &Column| {
            let value = match column.cells.get(row)?.as_ref()? {
                Cell::Amount(amount) => Datum::Amount(amount.clone()),
                Cell::Word(word) => Datum::Word(word.clone()),
            };
            Some((column.name.clone(), design.show(&value, column.of)))
        };
        Some(HelpRow {
            word: word.into(),
            table: table.doc.clone(),
            values: table.columns.iter().filter_map(value).collect(),
            source: sources(table, row),
        })
    };
    design.book().tables.iter().filter(|table| !table.sources.is_empty()).filter_map(row).collect()
}

/// Where a row is published: the row itself, then the columns with a source of their own.
fn sources(table: &Table, row: usize) -> String {
    let own = table.sources.get(row).map_or("", String::as_str);
    let mut cited: Vec<(&str, Vec<&str>)> = Vec::new();
    for column in table.columns.iter().filter(|column| column.cells.get(row).is_some_and(Option::is_some)) {
        match (table.source(column, row), column.name.as_str()) {
            (source, _) if source == own => {}
            (source, name) => match cited.iter_mut().find(|(one, _)| *one == source) {
                Some((_, names)) => names.push(name),
                None => cited.push((source, vec![name])),
            },
        }
    }
    let cited = cited.into_iter().map(|(source, names)| format!("{}: {source}", list(&names, "and")));
    std::iter::once(own.to_string()).chain(cited).collect::<Vec<_>>().join("; ")
}

fn style(name: &str, session: &mut Session) -> Result<Help, Diagnostic> {
    if let Some(style) = session.style_rows().into_iter().find(|style| style.name == name) {
        let questions = session.questions(name);
        return Ok(Help::Style(style, questions));
    }
    let styles: Vec<String> = session.style_rows().into_iter().map(|style| style.name).collect();
    let (all, settings, design) = (session.all(), session.settings.all(), session.design());
    let book = design.book();
    let known = all
        .iter()
        .map(|name| &**name)
        .chain(builtins().map(|one| one.name))
        .chain(UNITS.iter().flat_map(|unit| unit.names.iter().copied()))
        .chain(styles.iter().map(String::as_str))
        .chain(book.checks.iter().map(|check| check.name.as_str()))
        .chain(settings.iter().map(|setting| &*setting.name))
        .chain(
            book.tables
                .iter()
                .filter(|table| !table.sources.is_empty())
                .flat_map(|table| &table.words)
                .map(String::as_str),
        );
    let near = near(name, known);
    let found = Diagnostic::of(&codes::word::NO_HELP, format!("there is no help on {name}"));
    Err(match near.first() {
        Some(first) => Diagnostic::of(
            &codes::word::NO_HELP,
            format!("there is no help on {name}; did you mean {}?", list(&near, "or")),
        )
        .hint(format!("help {first}")),
        None => found.hint("help"),
    })
}
