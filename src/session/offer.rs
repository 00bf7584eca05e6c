//! What fits an argument, as far as it is typed: names and values with what they mean.

use super::command::WORDS;
use super::names::field;
use super::question::Wants;
use super::question::typed as answer_text;
use super::session::Session;
use crate::book::Address;
use crate::lang::builtins;
use crate::measure::{Graduation, UNITS};
use crate::plan::{Rack, WHATS, What};
use crate::rules::book::{Cell, Rule, SHOP, Table};
use crate::rules::{BUILD, Datum, Design, Slot, Type};
use crate::table;
use crate::word::{Arg, Args, Kind, reserved};

/// Something that may be typed in a line from `start` on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offer {
    /// Where it begins.
    pub start: usize,
    /// Its text, as it is typed.
    pub text: String,
    /// What it means, in a few words; may be empty.
    pub doc: String,
}

impl Offer {
    /// An offer from `start` on.
    pub fn new(start: usize, text: impl Into<String>, doc: impl Into<String>) -> Self {
        Self { start, text: text.into(), doc: doc.into() }
    }
}

/// So many designs are looked up for their notes; more are offered by their names alone.
const FEW: usize = 24;

impl Session {
    /// What fits an argument that begins at `at` of what was typed.
    pub(super) fn offers(&mut self, arg: &Arg, before: &str, at: usize, args: &Args) -> Vec<Offer> {
        let typed = before.get(at..).unwrap_or_default();
        let design = self.design();
        let offer = |text: String, doc: String| Offer { start: at, text, doc };
        let all: Vec<Offer> = match arg.kind {
            Kind::Design | Kind::Revision | Kind::Saved => return self.design_offers(arg.kind, typed, at),
            Kind::Words => self.design_offers(Kind::Design, typed, at),
            Kind::Retired => {
                let retired = self.shelf.look(|book| book.list(true, usize::MAX)).unwrap_or_default().0;
                retired.into_iter().map(|entry| offer(entry.name, entry.note)).collect()
            }
            Kind::Build => return self.values_of(BUILD, before, at),
            Kind::Page => design.book().headed_pages().map(|(page, doc)| offer(page.into(), doc.into())).collect(),
            Kind::GivenField => given(&design, at),
            Kind::Field => {
                names(&design, at).into_iter().filter(|offer| field(design.book(), &offer.text).is_some()).collect()
            }
            Kind::Figure => names(&design, at),
            Kind::Setting => {
                self.settings.all().into_iter().map(|one| offer(one.name.into(), one.brief.into())).collect()
            }
            Kind::SettingValue => self.setting_values(args.text(Kind::Setting), before, at),
            Kind::Style => self.style_offers(at),
            Kind::StyleOrFile => {
                let styles = self.style_offers(at).into_iter();
                return styles.filter(|one| fits(one, typed)).chain(self.files(typed, at)).collect();
            }
            Kind::Answer => return self.answers(args.text(Kind::Style), before, at),
            Kind::Script | Kind::File | Kind::SourceFile => return self.files(typed, at),
            Kind::Length | Kind::Amount | Kind::Formula | Kind::Condition => return self.formula(before, at),
            Kind::Topic => self.topics(at),
            Kind::Row => self.rows(at),
            Kind::Cells => return cells(&design, before, at),
            Kind::NewDesign | Kind::NewFigure | Kind::Temperature | Kind::Humidity | Kind::Note | Kind::ScriptText => {
                Vec::new()
            }
        };
        all.into_iter().filter(|offer| fits(offer, typed)).collect()
    }

    /// What may stand as the value of a field, from `at` on.
    pub(super) fn values_of(&self, name: &str, before: &str, at: usize) -> Vec<Offer> {
        let typed = before.get(at..).unwrap_or_default();
        let design = self.design();
        let Some(slot) = design.book().slot(name) else { return self.formula(before, at) };
        let parts = rule(&design, slot).filter(|rule| rule.gather.is_some()).map(|rule| rule.reads.clone());
        let words = words(&design, parts.and_then(|parts| parts.first().copied()).unwrap_or(slot), at);
        let is_optional = rule(&design, slot).is_some_and(|rule| rule.optional);
        let none = is_optional.then(|| Offer::new(at, "none", "leaves it out"));
        let now = design.shown(slot).filter(|now| typed.is_empty() && !now.starts_with('~'));
        let now = now.filter(|_| words.is_empty() && design.book().name(slot).of != Type::Text);
        let now = now.map(|now| Offer::new(at, now, "the value now"));
        let found: Vec<Offer> = words.into_iter().chain(none).chain(now).filter(|offer| fits(offer, typed)).collect();
        let is_amount = !matches!(design.book().name(slot).of, Type::Word | Type::Text);
        if found.is_empty() && is_amount { self.formula(before, at) } else { found }
    }

    /// Names for the formula that begins at `at` and that a text ends in; none behind a whole value.
    pub(super) fn formula(&self, before: &str, at: usize) -> Vec<Offer> {
        let letter = |one: char| one.is_alphanumeric() || matches!(one, '_' | '.');
        let start = before.trim_end_matches(letter).len().max(at);
        let typed = &before[start..];
        let value = before[at..start].trim_end();
        if value.ends_with(|last: char| letter(last) || matches!(last, '"' | '\'' | ')' | ']' | '%')) {
            return Vec::new();
        }
        let design = self.design();
        let mut found: Vec<Offer> =
            names(&design, start).into_iter().filter(|offer| offer.text.starts_with(typed)).collect();
        if found.is_empty() {
            found = functions(start).filter(|offer| offer.text.starts_with(typed)).collect();
        }
        found
    }

    fn design_offers(&self, kind: Kind, typed: &str, at: usize) -> Vec<Offer> {
        let open = typed.trim_start_matches('"');
        if let Some((name, _)) = open.split_once('@').filter(|_| kind == Kind::Revision) {
            let revisions = self.shelf.look(|book| book.revisions(name)).unwrap_or_default();
            let one = |one: crate::book::Revision| {
                let note = if one.note.is_empty() { String::new() } else { format!("  {}", one.note) };
                Offer::new(at, format!("{name}@{}", one.number), format!("{}{note}", one.when))
            };
            return revisions.into_iter().map(one).filter(|offer| fits(offer, open)).collect();
        }
        let names = self.design_names(open);
        let few = names.len() <= FEW;
        let words = reserved(WORDS);
        let doc = |name: &str| {
            let address = Address { name: name.into(), revision: None };
            let newest = self.shelf.look(|book| book.revision(&address)).ok()?;
            let note = if newest.note.is_empty() { String::new() } else { format!("  {}", newest.note) };
            Some(format!("revision {}, {}{note}", newest.number, newest.when))
        };
        let offer = |name: String| {
            let doc = if few { doc(&name).unwrap_or_default() } else { String::new() };
            let quoted = words.contains(name.as_str()) || typed.starts_with('"');
            Offer::new(at, if quoted { format!("\"{name}\"") } else { name }, doc)
        };
        names.into_iter().map(offer).collect()
    }

    /// Names of designs that begin so; none where the book cannot be read.
    pub(super) fn design_names(&self, begin: &str) -> Vec<String> {
        const MOST: u32 = 200;
        self.shelf.look(|book| book.names(begin, MOST)).unwrap_or_default()
    }

    fn style_offers(&mut self, at: usize) -> Vec<Offer> {
        self.style_rows().into_iter().map(|style| Offer::new(at, style.name, style.about)).collect()
    }

    /// A key of `KEY=VALUE`, or a value for one.
    fn answers(&mut self, style: &str, before: &str, at: usize) -> Vec<Offer> {
        let typed = before.get(at..).unwrap_or_default();
        let manner = self.manner();
        let questions = self.questions(style).unwrap_or_default();
        let Some((key, value)) = typed.split_once('=') else {
            let asked = questions.iter().map(|one| Offer::new(at, format!("{}=", one.name), one.about.clone()));
            let found: Vec<Offer> = asked.filter(|offer| fits(offer, typed)).collect();
            if !found.is_empty() {
                return found;
            }
            let names = names(&self.design(), at).into_iter();
            let fields = names.filter(|offer| field(self.design().book(), &offer.text).is_some());
            return fields
                .map(|offer| Offer { text: format!("{}=", offer.text), ..offer })
                .filter(|offer| fits(offer, typed))
                .collect();
        };
        let value_at = before.len() - value.trim_start().len();
        let Some(question) = questions.iter().find(|one| one.name == key.trim()) else {
            return self.values_of(key.trim(), before, value_at);
        };
        let offer = |text: &str| Offer::new(value_at, text, "");
        let mut found: Vec<Offer> = match &question.wants {
            Wants::Word(words) => words.iter().map(|word| offer(word)).collect(),
            Wants::Truth => vec![offer("yes"), offer("no")],
            Wants::Quantity(_) | Wants::Whole | Wants::Text => Vec::new(),
        };
        if let Some(usual) = &question.default {
            let text = answer_text(usual, &manner);
            found.retain(|offer| offer.text != text);
            found.push(Offer::new(value_at, text, "the usual answer"));
        }
        found.into_iter().filter(|offer| fits(offer, value.trim_start())).collect()
    }

    fn setting_values(&self, setting: &str, before: &str, at: usize) -> Vec<Offer> {
        let offer = |text: &str, doc: &str| Offer::new(at, text, doc);
        match setting {
            "unit" => vec![offer("in", "inches"), offer("mm", "millimeters")],
            "graduation" => Graduation::all().map(|one| offer(one.name, "")).collect(),
            other => match self
                .settings
                .get(other)
                .filter(|_| self.design().book().slot(&format!("{SHOP}{other}")).is_none())
            {
                Some(now) => vec![Offer::new(at, now, "the value now")],
                None => self.values_of(&format!("{SHOP}{other}"), before, at),
            },
        }
    }

    /// Everything that has help.
    fn topics(&mut self, at: usize) -> Vec<Offer> {
        let design = self.design();
        let book = design.book();
        let offer = |text: &str, doc: &str| Offer::new(at, text, doc);
        let mut all: Vec<Offer> = WORDS.iter().map(|word| offer(word.name, word.brief)).collect();
        all.extend(names(&design, at));
        for table in book.tables.iter().filter(|table| !table.sources.is_empty()) {
            let row = |(row, word): (usize, &String)| Offer::new(at, word.as_str(), known(&design, table, row));
            all.extend(table.words.iter().enumerate().map(row));
        }
        all.extend(self.style_offers(at));
        all.extend(self.settings.all().into_iter().map(|one| offer(&one.name, &one.brief)));
        all.extend(book.checks.iter().map(|check| offer(&check.name, "a check")));
        all.extend(UNITS.iter().map(|unit| offer(unit.names[0], unit.brief)));
        for function in builtins() {
            let taken = all.iter().any(|other| other.text == function.name);
            let name = if taken { format!("{}()", function.name) } else { function.name.into() };
            all.push(Offer::new(at, name, function.brief));
        }
        all
    }

    /// The rows of the stock by their numbers.
    fn rows(&self, at: usize) -> Vec<Offer> {
        let rack = self.whole_rack().unwrap_or_default();
        rack.items.iter().zip(1_usize..).map(|(item, row)| Offer::new(at, row.to_string(), item.row(&[]))).collect()
    }
}

/// Whether an offer goes on from what was typed; a quote may come first.
pub(super) fn fits(offer: &Offer, typed: &str) -> bool {
    let plain = |text: &str| text.trim_start_matches('"').to_lowercase();
    plain(&offer.text).starts_with(&plain(typed))
}

/// The names that this build has.
pub(super) fn names(design: &Design, at: usize) -> Vec<Offer> {
    let order = &design.book().builds[usize::from(design.build())].order;
    let name = |slot: &Slot| {
        let name = design.book().name(*slot);
        Offer::new(at, name.text.as_str(), name.doc.as_str())
    };
    order.iter().map(name).collect()
}

/// The fields that were given, each with its value.
fn given(design: &Design, at: usize) -> Vec<Offer> {
    let order = &design.book().builds[usize::from(design.build())].order;
    let parts = |slot: &Slot| design.rule(*slot).filter(|rule| rule.gather.is_some()).map(|rule| rule.reads.as_slice());
    let is_given = |slot: &Slot| design.given(*slot).is_some();
    let given =
        order.iter().filter(|slot| is_given(slot) || parts(slot).is_some_and(|parts| parts.iter().any(is_given)));
    let given = given.map(|slot| (design.book().name(*slot), *slot)).filter(|(name, _)| !name.is_of_the_shop());
    given.map(|(name, slot)| Offer::new(at, name.text.as_str(), design.shown(slot).unwrap_or_default())).collect()
}

pub(super) fn functions(at: usize) -> impl Iterator<Item = Offer> {
    builtins().map(move |one| Offer::new(at, format!("{}(", one.name), one.brief))
}

/// The rule of a name in the build at the bench, or in the first that has the name.
fn rule(design: &Design, slot: Slot) -> Option<&Rule> {
    design.rule(slot).or_else(|| {
        let book = design.book();
        let build = book.build(book.builds_with(slot).first()?)?;
        book.rule(build, slot)
    })
}

/// The words that a field takes, each with the first that is known of it.
fn words(design: &Design, slot: Slot, at: usize) -> Vec<Offer> {
    if design.book().name(slot).of != Type::Word {
        return Vec::new();
    }
    let Some(rule) = rule(design, slot) else { return Vec::new() };
    let Some(table) = design.book().word_table(rule) else {
        return design
            .book()
            .words(rule)
            .unwrap_or_default()
            .iter()
            .map(|word| Offer::new(at, word.as_str(), ""))
            .collect();
    };
    row_offers(design, table, at)
}

/// The words of a table, other names for them included.
fn row_offers(design: &Design, table: &Table, at: usize) -> Vec<Offer> {
    let own =
        table.words.iter().enumerate().map(|(row, word)| Offer::new(at, word.as_str(), known(design, table, row)));
    let also = table.also.iter().map(|(other, row)| {
        let meant = table.words.get(usize::from(*row)).map_or("", String::as_str);
        Offer::new(at, other.as_str(), format!("another name for {meant}"))
    });
    own.chain(also).collect()
}

/// What a table says a word means, or the first amount with a unit that it has for it.
fn known(design: &Design, table: &Table, row: usize) -> String {
    if let Some(meaning) = table.meaning(row) {
        return meaning.into();
    }
    let amounts = table
        .columns
        .iter()
        .filter(|column| matches!(column.of, Type::Quantity(kind) if kind != crate::measure::Kind::NUMBER));
    let first = amounts.filter_map(|column| Some((column, column.cells.get(row)?.as_ref()?))).next();
    match first {
        Some((column, Cell::Amount(amount))) => {
            format!("{} {}", column.name, design.show(&Datum::Amount(amount.clone()), column.of))
        }
        Some((_, Cell::Word(_))) | None => String::new(),
    }
}

/// A cell of a row of the stock: what it is, its wood, board or glazing, the quarters of a rough board.
fn cells(design: &Design, before: &str, at: usize) -> Vec<Offer> {
    let typed = before.get(at..).unwrap_or_default();
    let all = table::cells(typed);
    let [what, cell] = [all.first(), all.last()].map(|cell| cell.cloned().unwrap_or_default());
    let start = at + cell.span.start;
    let rows =
        |table: &str| design.book().table(table).map(|table| row_offers(design, table, start)).unwrap_or_default();
    let is_of = |kind: What| what.text.eq_ignore_ascii_case(kind.word());
    let offers: Vec<Offer> = match Rack::columns().nth(all.len() - 1) {
        Some("what") => WHATS.iter().map(|(what, _, doc)| Offer::new(start, *what, *doc)).collect(),
        Some("wood") if is_of(What::Sheet) => [rows("boards"), rows("glazings")].concat(),
        Some("wood") => rows("woods"),
        Some("section") if is_of(What::Board) => rows("roughs"),
        _ => Vec::new(),
    };
    offers.into_iter().filter(|offer| fits(offer, before.get(start..).unwrap_or_default())).collect()
}
