//! Help on one page.

use super::super::Page;
use super::super::table::Cell;
use super::super::text::{Label, Text};
use super::value::cited;
use crate::diag::Diagnostic;
use crate::fact::Shape;
use crate::lang::builtin::Param;
use crate::lang::{Builtin, builtin};
use crate::measure::write::{Manner, exactly};
use crate::measure::{Quantity, Unit};
use crate::rules::{Book, Cause, Design, Role, Slot};
use crate::session::{Help, HelpRow, Question, StyleRow, WORDS, Word};
use crate::shop::Setting;
use crate::show::spoken;

pub(super) fn page(help: &Help, manner: &Manner) -> Page {
    match help {
        Help::Screen(book) => screen(book),
        Help::Word(word) => of_word(word),
        Help::Name(design, slot) => of_name(design, *slot),
        Help::Function(name) => builtin::all().find(|one| one.name == *name).map_or_else(Page::new, of_function),
        Help::Unit(unit) => of_unit(unit),
        Help::Check { name, level, builds, test, fires_if } => {
            let when = if *fires_if { "  if " } else { "  unless " };
            head(name)
                .text(format!("A check ({level}) of {builds} frames. It reports"))
                .hanging(Text::of(Label::Dim, when).and(Label::Plain, test), 4)
        }
        Help::Style(style, questions) => of_style(style, questions, manner),
        Help::Setting(setting) => of_setting(setting),
        Help::Shape(shape) => fields(head(shape.name()).text(shape.doc()), *shape),
        Help::Rows(rows) => rows
            .iter()
            .map(of_row)
            .fold(Page::new(), |page, row| if page.is_empty() { row } else { page.blank().append(row) }),
    }
}

fn head(name: &str) -> Page {
    Page::new().text(Text::of(Label::Heading, name))
}

fn try_line(line: &str) -> Text {
    Text::from("  ").and(Label::Hint, "try: ").and(Label::Plain, line)
}

/// A longer usage is shown only by the help on its word.
const WIDEST: usize = 26;

/// Lines to begin with, and every word with its meaning.
fn screen(book: &Book) -> Page {
    let mut page = Page::new().text(Text::of(Label::Heading, "A frame, line by line"));
    let builds: Vec<&str> = book.builds.iter().map(|build| &*build.name).collect();
    let builds = format!("one of {}", builds.join(", "));
    for (line, says) in [
        ("art 16\" x 20\" x 1 1/4\"", "the work: width, height, depth"),
        ("build float", &builds),
        ("reveal 3/8\"", "any field: its name and a value"),
        ("outside.width", "any figure: its name alone"),
        ("11 3/8\" + 400mm", "any sum, in any units"),
    ] {
        page = page.row([Cell::of(Label::Plain, format!("  {line}")), Cell::of(Label::Dim, says)]);
    }
    page = page.heading("Words");
    for word in WORDS {
        let usage = word.usage();
        let shown = if usage.len() > WIDEST { format!("{} …", word.name) } else { usage };
        page = page.row([Cell::of(Label::Name, format!("  {shown}")), Cell::flowing(word.brief)]);
    }
    page.blank().text("`help NAME` explains any name: words, fields, figures, builds, checks, functions, units, styles, settings. Press Tab to complete.")
}

fn of_word(word: &Word) -> Page {
    let (lines, answer) = word.example;
    let mut page = head(word.name).text(word.brief);
    for form in word.forms {
        page = page.fixed(Text::of(Label::Name, format!("  {}", form.usage(word.name))));
    }
    for arg in word.args() {
        page = page.row([Cell::of(Label::Name, format!("  {}", arg.name)), Cell::flowing(arg.doc)]);
    }
    for line in lines {
        page = page.fixed(Text::of(Label::Dim, "  > ").and(Label::Plain, line));
    }
    let page = if answer.is_empty() { page } else { page.fixed(Text::from("  ").and(Label::Value, answer)) };
    and_function(page, word.name)
}

/// A line about a function of the same name.
fn and_function(page: Page, name: &str) -> Page {
    let Some(function) = builtin::named(name) else { return page };
    page.text(Text::of(Label::Dim, format!("  {0} is also a function: `help {0}()`", function.name)))
}

fn of_name(design: &Design, slot: Slot) -> Page {
    let book = design.book();
    let name = book.name(slot);
    let rule = design.rule(slot);
    let sort = match (rule, name.of) {
        (Some(rule), _) if rule.gather.is_some() => "one name for several fields".to_string(),
        (Some(rule), of) if rule.given => format!("a field, {of}"),
        (None, of) if name.role != Role::Figure => format!("a field, {of}"),
        (_, of) => format!("a figure, {of}"),
    };
    let mut page = head(&name.text).text(Text::from(name.doc.as_str()).and(Label::Dim, format!("  ({sort})")));
    let Some(rule) = rule else {
        let builds = book.builds_with(slot).join(", ");
        return page.text(format!("Not for a {} frame; for {builds}.", design.build_name()));
    };
    if rule.gather.is_some() {
        let parts: Vec<&str> = rule.reads.iter().map(|part| book.name(*part).text.as_str()).collect();
        page = page.text(format!("Short for {}.", parts.join(", ")));
    }
    if let Some(table) = book.word_table(rule) {
        page = page.text(format!("One of {}.", table.words.join(", ")));
        for (row, word) in table.words.iter().enumerate() {
            if let Some(meaning) = table.meaning(row) {
                page = page.row([Cell::of(Label::Name, format!("  {word}")), Cell::flowing(meaning)]);
            }
        }
    }
    if let Some(formula) = design.formula(slot) {
        let word = if rule.given { "  usually " } else { "  = " };
        page = page.hanging(Text::of(Label::Dim, word).and(Label::Plain, formula), 4);
    }
    if let Some(toward) = rule.toward {
        page = page.text(Text::of(Label::Dim, format!("  rounded to the marks of the tape, {toward}")));
    }
    if let Some(value) = design.shown(slot) {
        let given = design.explain(slot).ok().and_then(|steps| steps.first().map(|step| step.cause));
        let cause = if given == Some(Cause::Given) { ", given" } else { "" };
        page = page.text(Text::of(Label::Dim, "  now ").and(Label::Value, &value).and(Label::Dim, cause));
    }
    let example = if rule.given { design.nudged(slot) } else { format!("why {}", name.text) };
    and_function(page, &name.text).text(try_line(&example))
}

fn of_function(function: &Builtin) -> Page {
    let row = |page: Page, param: &Param| {
        let name = Cell::of(Label::Name, format!("  {}", param.name));
        page.row([name, Cell::flowing(Text::of(Label::Dim, param.about()))])
    };
    let mut page = function.params.iter().fold(head(&function.signature()).text(function.brief), row);
    if let Some(shape) = function.shape {
        page = fields(page.text(function.returns.of_each()), shape);
    } else if !function.gives.is_empty() {
        page = function.gives.iter().fold(page.text(function.returns.of_each()), row);
    }
    for (line, answer) in function.examples {
        page = page
            .fixed(Text::of(Label::Dim, "  > ").and(Label::Plain, line))
            .fixed(Text::from("  ").and(Label::Value, answer));
    }
    page
}

/// The fields of a shape, each with its kind and meaning.
fn fields(page: Page, shape: &'static dyn Shape) -> Page {
    shape.flat_heads().filter(|head| !head.is_spread()).fold(page, |page, head| {
        let optional = if head.optional { "; left out if empty" } else { "" };
        page.row([
            Cell::of(Label::Name, format!("  {}", head.name)),
            Cell::flowing(Text::from(head.doc).and(Label::Dim, format!("  ({}{optional})", head.kind))),
        ])
    })
}

fn of_unit(unit: &Unit) -> Page {
    let one = Quantity::new(unit.to_storage(crate::measure::Real::ONE), unit.kind);
    let names = unit.names.join(" ");
    let page = head(unit.names[0]).text(format!("{}: {}", unit.kind, unit.brief)).text(format!("  names: {names}"));
    if unit.names[0] == unit.kind.unit() {
        page
    } else {
        page.text(format!("  1 {} is {}", unit.names[0], exactly(&one)))
    }
}

fn of_style(style: &StyleRow, questions: &Result<Vec<Question>, Vec<Diagnostic>>, manner: &Manner) -> Page {
    let mut page =
        head(&style.name).text(style.about.as_str()).text(Text::of(Label::Dim, format!("  from {}", style.from)));
    let questions = match questions {
        Ok(questions) => questions.as_slice(),
        Err(found) => {
            let said = |page: Page, one: &Diagnostic| page.text(Text::of(Label::Stop, spoken(&one.says)));
            return found.iter().fold(page, said).text(try_line(&format!("style check {}", style.name)));
        }
    };
    if !questions.is_empty() {
        page = page.text("It asks for:");
    }
    for question in questions {
        let facts = [question.wants.with_article(), question.limits(manner), question.usual(manner)];
        let facts: Vec<String> = facts.into_iter().filter(|fact| !fact.is_empty()).collect();
        let about = if question.about.is_empty() { String::new() } else { format!("{}  ", question.about) };
        page = page.row([
            Cell::of(Label::Name, format!("  {}", question.name)),
            Cell::flowing(Text::from(about.as_str()).and(Label::Dim, format!("({})", facts.join("; ")))),
        ]);
    }
    let pair = questions.first().map(|question| format!(" {}={}", question.name, question.example(manner)));
    page.text(try_line(&format!("style {}{}", style.name, pair.unwrap_or_default())))
}

fn of_row(row: &HelpRow) -> Page {
    let page = head(&row.word).text(Text::of(Label::Dim, format!("from the table: {}", row.table)));
    let page = row.values.iter().fold(page, |page, (name, value)| {
        page.row([Cell::of(Label::Name, format!("  {name}")), Cell::flowing(Text::of(Label::Value, value))])
    });
    page.hanging(Text::of(Label::Dim, format!("  source: {}", cited(&row.source))), 4)
}

fn of_setting(setting: &Setting) -> Page {
    head(&setting.name).text(format!("A setting of the shop: {}.", setting.brief)).text(try_line(&setting.example))
}
