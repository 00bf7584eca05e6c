//! One design: what was given, and all that comes of it.

use std::cell::RefCell;
use std::sync::Arc;

use super::book::{BUILD, Name, Role, Rule, Slot, Type};
use super::datum::Datum;
use super::evaluate::{Absent, Cell, Evaluator, Known, Pass};
use super::finding::Finding;
use super::packed::Rules;
use super::refusal::Refusal;
use super::sentence::sentence;
use super::term::Way;
use crate::diag::near;
use crate::measure::read::Size;
use crate::measure::write::{Manner, percent};
use crate::measure::{Kind, Quantity, Real, UNITS, Unit};

/// A frame in the making: the fields that were given, and the figures that follow.
///
/// Figures are worked out when asked for and kept until a field they read changes.
#[derive(Clone, Debug)]
pub struct Design {
    book: Rules,
    /// The build that was given, a place in [`super::Book::builds`].
    build: Option<u8>,
    manner: Manner,
    /// By slot, as far as the last that was given.
    given: Vec<Option<Datum>>,
    /// By slot; nothing until one is asked for.
    cells: RefCell<Vec<Cell>>,
    /// Findings of the house that framed it, on the design as it is; nothing once something changes.
    house: Option<Arc<[Finding]>>,
    #[cfg(test)]
    _copies: Copies,
}

/// A value on its way into a field.
#[derive(Clone, Debug)]
pub enum Input {
    /// A quantity; a bare number takes the bench unit where a length is wanted.
    Quantity(Quantity),
    /// Two or three lengths.
    Size(Size),
    /// A word or a text.
    Text(String),
    /// Several quantities, clockwise from the top.
    List(Vec<Quantity>),
    /// A word and a quantity.
    With(String, Quantity),
}

/// A value of a name, with its kind.
#[derive(Clone, Debug)]
pub enum Answer {
    /// A quantity, drawn, and cut where it is another.
    Quantity(Quantity, Option<Quantity>),
    /// A word or a text.
    Text(Arc<str>),
    /// Two or three lengths.
    Size(Vec<Quantity>),
    /// A percentage, as a number: 1/2 for 50%.
    Share(Quantity),
    /// Several values.
    List(Vec<Answer>),
}

/// What was given to a design, without anything that follows from it: a step to go back to.
#[derive(Clone, Debug)]
pub struct Kept {
    book: Rules,
    manner: Manner,
    given: Vec<(Slot, Datum)>,
}

impl Kept {
    /// The design again.
    pub fn design(&self) -> Design {
        let mut design = Design::new(self.book.clone(), self.manner.clone());
        for (slot, given) in &self.given {
            design.give_slot(*slot, Some(given.clone()));
        }
        design
    }
}

impl Design {
    /// What was given, to be kept.
    pub fn kept(&self) -> Kept {
        let given = (0..).zip(&self.given).filter_map(|(slot, given)| Some((slot, given.clone()?))).collect();
        Kept { book: self.book.clone(), manner: self.manner.clone(), given }
    }

    /// An empty design of the usual build.
    pub fn new(book: Rules, manner: Manner) -> Self {
        Self {
            book,
            build: None,
            manner,
            given: Vec::new(),
            cells: RefCell::default(),
            house: None,
            #[cfg(test)]
            _copies: Copies,
        }
    }

    /// The rules it follows.
    pub fn book(&self) -> &Rules {
        &self.book
    }

    /// The build's name.
    pub fn build_name(&self) -> &str {
        &self.book.builds[usize::from(self.build())].name
    }

    /// The build's place in the book.
    pub fn build(&self) -> u8 {
        self.build.unwrap_or(self.book.usual_build)
    }

    /// How its values are shown, and the tape it is made by.
    pub fn manner(&self) -> &Manner {
        &self.manner
    }

    /// Puts another tape on the bench; made sizes follow.
    pub fn set_manner(&mut self, manner: Manner) {
        self.manner = manner;
        self.forget_all();
    }

    /// Puts the house's own judgement beside the checks of the rules, as long as the design stays as it is.
    pub fn judge(&mut self, findings: Vec<Finding>) {
        self.house = Some(findings.into());
    }

    /// Whether the house has judged the design as it is.
    pub fn is_judged(&self) -> bool {
        self.house.is_some()
    }

    /// Findings of the house on the design as it is.
    pub(super) fn house(&self) -> &[Finding] {
        self.house.as_deref().unwrap_or_default()
    }

    /// Whether nothing was given but its build, the wall and the shop.
    pub fn is_empty(&self) -> bool {
        let is_own = |name: &Name| name.text != BUILD && !name.is_of_the_wall() && !name.is_of_the_shop();
        let mut given = self.book.names.iter().zip(&self.given).filter(|(_, given)| given.is_some());
        !given.any(|(name, _)| is_own(name)) && self.own_figures().is_empty()
    }

    /// The unit that a bare number takes where a length is wanted.
    pub fn bare_unit(&self) -> &'static Unit {
        bare_unit(&self.manner)
    }

    fn forget_all(&mut self) {
        self.house = None;
        self.cells.get_mut().fill(Cell::Unknown);
    }

    /// Runs `work` with the evaluator of this design.
    pub fn evaluate<R>(&self, work: impl FnOnce(&mut Evaluator) -> R) -> R {
        let mut cells = self.cells.borrow_mut();
        if cells.is_empty() {
            cells.resize(self.book.names.len(), Cell::Unknown);
        }
        let mut evaluator = Evaluator {
            book: &self.book,
            build: self.build(),
            given: &self.given,
            cells: &mut cells,
            manner: &self.manner,
        };
        work(&mut evaluator)
    }

    /// The value of a slot, or why it has no value.
    ///
    /// # Errors
    /// Idle, missing fields, failed arithmetic.
    pub fn known(&self, slot: Slot) -> Result<Known, Absent> {
        self.evaluate(|evaluator| evaluator.known(slot).clone())
    }

    /// Works out everything that this build has.
    pub fn work_out(&self) {
        let order = &self.book.builds[usize::from(self.build())].order;
        self.evaluate(|evaluator| order.iter().for_each(|slot| evaluator.ensure(*slot)));
    }

    /// The fields that must be set before everything is known, in the order of the sheet.
    pub fn missing(&self) -> Vec<Slot> {
        let order = &self.book.builds[usize::from(self.build())].order;
        let mut fields: Vec<Slot> = Vec::new();
        self.evaluate(|evaluator| {
            for slot in order {
                if let Err(Absent::Missing(missing)) = evaluator.known(*slot) {
                    missing.iter().for_each(|slot| {
                        if !fields.contains(slot) {
                            fields.push(*slot);
                        }
                    });
                }
            }
        });
        fields
    }

    /// What was given to a slot.
    pub fn given(&self, slot: Slot) -> Option<&Datum> {
        self.given.get(usize::from(slot))?.as_ref()
    }

    /// The rule of a slot in this build.
    pub fn rule(&self, slot: Slot) -> Option<&Rule> {
        self.book.rule(self.build(), slot)
    }

    /// The slot of a name that this build has.
    ///
    /// # Errors
    /// An unknown name, with near ones; a name of other builds.
    pub fn slot(&self, name: &str) -> Result<Slot, Refusal> {
        let Some(slot) = self.book.slot(name) else {
            let near = near(name, self.book.all_names());
            return Err(Refusal::Unknown { name: name.into(), near: near.into_iter().map(Into::into).collect() });
        };
        if self.rule(slot).is_none() {
            return Err(Refusal::NotHere {
                name: name.into(),
                build: self.build_name().into(),
                others: self.book.builds_with(slot).into_iter().map(Into::into).collect(),
            });
        }
        Ok(slot)
    }

    /// The value of a name.
    ///
    /// # Errors
    /// An unknown name; a value that is not there, and why.
    pub fn answer(&self, name: &str) -> Result<Answer, Refusal> {
        let slot = self.slot(name)?;
        let of = self.book.name(slot).of;
        if of == Type::Size {
            return self.size(slot);
        }
        if self.rule(slot).is_some_and(|rule| rule.gather == Some(Way::Row)) {
            return self.row(slot);
        }
        let known = self.known(slot).map_err(|why| self.refusal(slot, why))?;
        Ok(answer(&known, of))
    }

    fn size(&self, slot: Slot) -> Result<Answer, Refusal> {
        let parts = self.rule(slot).map(|rule| rule.reads.clone()).unwrap_or_default();
        let mut lengths = Vec::new();
        for part in &parts {
            match self.known(*part) {
                Ok(Known { drawn: Datum::Amount(amount), .. }) => lengths.push(Quantity::inches(amount)),
                Ok(_) => {}
                // The last extent may be wanting.
                Err(Absent::Missing(_)) if lengths.len() == 2 => {}
                Err(why) => return Err(self.refusal(slot, why)),
            }
        }
        Ok(Answer::Size(lengths))
    }

    /// The values that a row gathers under one name, as far as they are known.
    fn row(&self, slot: Slot) -> Result<Answer, Refusal> {
        let parts = self.rule(slot).map(|rule| rule.reads.clone()).unwrap_or_default();
        let mut several = Vec::new();
        for part in &parts {
            match self.known(*part) {
                Ok(known) => several.push(answer(&known, self.book.name(*part).of)),
                Err(Absent::Idle) if !several.is_empty() => {}
                Err(why) => return Err(self.refusal(*part, why)),
            }
        }
        Ok(Answer::List(several))
    }

    /// Whether a field may be left out, was, and would do something.
    fn is_wanted(&self, slot: Slot) -> bool {
        self.rule(slot).is_some_and(|rule| {
            let applies =
                |when: &super::book::Node| self.evaluate(|evaluator| evaluator.holds(when, Pass::Drawn)) == Ok(true);
            rule.optional && self.given(slot).is_none() && rule.when.as_ref().is_none_or(applies)
        })
    }

    /// Puts a reason into words.
    pub fn refusal(&self, slot: Slot, why: Absent) -> Refusal {
        let name = self.book.name(slot).text.clone();
        let text = |slot: &Slot| self.book.name(*slot).text.clone();
        match why {
            Absent::Idle if self.is_wanted(slot) => Refusal::Unset { name },
            Absent::Idle => Refusal::Idle { name, build: self.build_name().into() },
            Absent::Missing(slots) => Refusal::Missing { name, fields: slots.iter().map(text).collect() },
            Absent::Broken(why) => Refusal::Broken { name, why: why.to_string() },
            Absent::Refused(fault) => Refusal::Broken { name, why: sentence(&fault.0, &self.manner) },
            Absent::Differ(slots) => Refusal::Differ {
                name,
                fields: slots.iter().map(|slot| (text(slot), self.shown(*slot).unwrap_or_default())).collect(),
            },
        }
    }

    /// A word that a field offers: the last of them, so that an example says something new.
    fn last_word(&self, slot: Slot) -> &str {
        let of_first = |rule: &'_ Rule| rule.gather.and_then(|_| rule.reads.first().copied());
        // Of several fields the first takes the word.
        let slot = self.rule(slot).and_then(of_first).unwrap_or(slot);
        let table = self.rule(slot).and_then(|rule| self.book.word_table(rule));
        let name = &self.book.name(slot).text;
        let words = table.into_iter().flat_map(|table| table.words.iter().filter(|word| table.is_for(word, name)));
        words.last().map_or("", String::as_str)
    }

    /// The least that a field takes, if the rules set it.
    fn low(&self, slot: Slot) -> Option<Real> {
        let (low, _) = self.rule(slot)?.low.as_ref()?;
        self.evaluate(|evaluator| evaluator.amount(low, Pass::Drawn)).ok()
    }

    /// The least count that a field takes, of those that say something.
    fn least(&self, slot: Slot) -> String {
        self.low(slot).filter(|low| *low > Real::ONE).map_or_else(|| "1".into(), |low| low.to_text())
    }

    /// A line that would set a field.
    pub fn example(&self, slot: Slot) -> String {
        let name = &self.book.name(slot).text;
        if let Some(rule) = self.rule(slot).filter(|rule| rule.gather == Some(Way::Row)) {
            let value = |part: &Slot| self.example(*part).split_once(' ').map(|(_, value)| value.to_string());
            let values: Vec<String> = rule.reads.iter().filter_map(value).collect();
            return format!("{name} {}", values.join(", "));
        }
        match name.as_str() {
            "art" | "art.width" | "art.height" => "art 16\" x 20\" x 3/4\"".into(),
            // What is measured is offered as it is meant to be: true, and as drawn.
            "art.edges" | "art.edge.top" | "art.edge.right" | "art.edge.bottom" | "art.edge.left" => {
                let side = |name: &str, usual: &str| self.shown_by_name(name).unwrap_or_else(|| usual.into());
                let (width, height) = (side("art.width", "16\""), side("art.height", "20\""));
                format!("art.edges {width}, {height}, {width}, {height}")
            }
            "art.across" => "art.across 20\"".into(),
            "built.width" | "built.height" => {
                let drawn = self.shown_by_name(&name.replace("built", "fit"));
                format!("{name} {}", drawn.as_deref().unwrap_or("16 1/2\""))
            }
            _ => match self.book.name(slot).of {
                Type::Quantity(Kind::LENGTH) => {
                    let usual = Real::ratio(5, 8);
                    let low = self.low(slot).filter(|low| *low > usual).unwrap_or(usual);
                    format!("{name} {}", self.manner.short(&Quantity::inches(low)))
                }
                Type::Quantity(Kind::TEMPERATURE) => format!("{name} 70degF"),
                Type::Quantity(kind) => format!("{name} 1{}", kind.unit()),
                Type::Word => format!("{name} {}", self.last_word(slot)),
                Type::Share => format!("{name} 50%"),
                Type::Size => format!("{name} 16\" x 20\""),
                Type::Whole => format!("{name} {}", self.least(slot)),
                Type::List(kind) => format!("{name} 1{}, 2{}", kind.unit(), kind.unit()),
                Type::Text | Type::Truth | Type::Nothing | Type::Record(_) => format!("{name} 1"),
            },
        }
    }

    /// The made value of a name, if it is a quantity.
    pub fn made(&self, name: &str) -> Option<Quantity> {
        let slot = self.slot(name).ok()?;
        let known = self.known(slot).ok()?;
        known.made().amount().map(|amount| Quantity::new(amount.clone(), self.kind(slot)))
    }

    /// The made value of a slot as text, if it has one.
    pub fn shown(&self, slot: Slot) -> Option<String> {
        let known = self.known(slot).ok()?;
        Some(self.show(known.made(), self.book.name(slot).of))
    }

    fn shown_by_name(&self, name: &str) -> Option<String> {
        self.shown(self.book.slot(name)?)
    }

    /// A value as text, in one unit.
    pub fn show(&self, value: &Datum, of: Type) -> String {
        match (value, of) {
            (Datum::Amount(amount), Type::Quantity(kind)) => self.manner.short(&Quantity::new(amount.clone(), kind)),
            (Datum::Amount(amount), Type::Share) => percent(amount),
            (Datum::Amount(amount), _) => self.manner.short(&Quantity::number(amount.clone())),
            (Datum::Word(word), _) => word.to_string(),
            (Datum::Truth(truth), _) => truth.to_string(),
            (Datum::List(list), _) if list.is_empty() => "none".into(),
            (Datum::List(list), of) => {
                let kind = if let Type::List(kind) = of { kind } else { Kind::NUMBER };
                let shown = list.iter().map(|one| self.manner.short(&Quantity::new(one.clone(), kind)));
                shown.collect::<Vec<_>>().join(", ")
            }
            (Datum::Record(record), _) => {
                let reasons = record.reasons.iter().map(|reason| sentence(reason, &self.manner));
                reasons.collect::<Vec<_>>().join("; ")
            }
        }
    }

    /// Sets a field, or several under one name. Nothing changes on an error.
    ///
    /// # Errors
    /// A name that cannot be set here; a value of the wrong kind or out of range.
    pub fn set(&mut self, name: &str, input: Input) -> Result<(), Refusal> {
        let slot = self.slot(name)?;
        let pairs = self.spread(slot, input)?;
        for (slot, value) in pairs {
            self.put(slot, value);
        }
        Ok(())
    }

    /// Gives a name what another design has there, checked when it was given there.
    pub fn give(&mut self, name: &str, value: Datum) {
        if let Some(slot) = self.book.slot(name) {
            self.put(slot, Some(value));
        }
    }

    /// Clears a value, or several under one name; their defaults apply again.
    ///
    /// # Errors
    /// A name that cannot be set here.
    pub fn clear(&mut self, name: &str) -> Result<(), Refusal> {
        if self.book.is_own(name) {
            return self.drop_figure(name);
        }
        let slot = self.slot(name)?;
        for slot in self.settable(slot)? {
            self.put(slot, None);
        }
        Ok(())
    }

    fn give_slot(&mut self, slot: Slot, value: Option<Datum>) {
        let place = usize::from(slot);
        if place >= self.given.len() {
            self.given.resize(place + 1, None);
        }
        if self.book.build_field == Some(slot) {
            self.build = value.as_ref().and_then(Datum::word).and_then(|word| self.book.build(word));
        }
        self.given[place] = value;
    }

    pub(super) fn put(&mut self, slot: Slot, value: Option<Datum>) {
        self.give_slot(slot, value);
        if self.book.build_field == Some(slot) {
            // Other rules apply now.
            return self.forget_all();
        }
        self.house = None;
        let build = self.build();
        let cells = self.cells.get_mut();
        if cells.is_empty() {
            return;
        }
        let readers = self.book.readers(build);
        let mut stale = vec![slot];
        cells[usize::from(slot)] = Cell::Unknown;
        while let Some(slot) = stale.pop() {
            for reader in &readers[usize::from(slot)] {
                // A reader that is unknown already has had its own readers seen to.
                if !matches!(cells[usize::from(*reader)], Cell::Unknown) {
                    cells[usize::from(*reader)] = Cell::Unknown;
                    stale.push(*reader);
                }
            }
        }
    }

    /// A copy in which a slot is given the value that it has.
    pub(super) fn pinned(&self, slot: Slot) -> Option<Self> {
        let value = self.known(slot).ok()?.drawn;
        let mut copy = self.clone();
        copy.put(slot, Some(value));
        Some(copy)
    }

    /// The slots that a settable name stands for.
    pub(super) fn settable(&self, slot: Slot) -> Result<Vec<Slot>, Refusal> {
        let name = self.book.name(slot);
        match self.rule(slot) {
            Some(rule) if rule.gather.is_some() => Ok(self.parts(rule)),
            Some(rule) if rule.given => Ok(vec![slot]),
            rule => Err(Refusal::Figure {
                name: name.text.clone(),
                reads: rule
                    .iter()
                    .flat_map(|rule| &rule.reads)
                    .map(|read| self.book.name(*read).text.clone())
                    .collect(),
            }),
        }
    }

    /// The parts of a gathered name, in the order of the file.
    fn parts(&self, rule: &Rule) -> Vec<Slot> {
        rule.reads.clone()
    }

    /// Every name whose value is not what it was in `before`, in the order of the sheet; of names with a page of their own
    /// only those on `page`.
    pub fn changes(&self, before: &Self, page: Option<&str>) -> Vec<(Slot, Result<Known, Absent>)> {
        let mut changed = Vec::new();
        let is_listed = |slot: Slot| {
            self.book.group(slot).is_none_or(|group| group.page.is_none() || group.page.as_deref() == page)
        };
        for slot in &self.book.builds[usize::from(self.build())].order {
            // A size, a word with its value, and what a function found are listed by their parts.
            if matches!(self.book.name(*slot).of, Type::Record(_)) || !is_listed(*slot) {
                continue;
            }
            if self.rule(*slot).is_some_and(|rule| matches!(rule.gather, Some(Way::Size | Way::With | Way::Row))) {
                continue;
            }
            let now = self.known(*slot);
            let then = self.slot_in(before, *slot).map_or(Err(Absent::Idle), |slot| before.known(slot));
            let same = match (&now, &then) {
                (Ok(now), Ok(then)) => now.same(then),
                (Err(now), Err(then)) => now == then,
                _ => false,
            };
            if !same {
                changed.push((*slot, now));
            }
        }
        changed
    }

    /// The slot that a name of this design has in another, which may have figures of its own.
    fn slot_in(&self, other: &Self, slot: Slot) -> Option<Slot> {
        if self.book.is(&other.book) { Some(slot) } else { other.book.slot(&self.book.name(slot).text) }
    }

    /// The names on a page of their own, in the order of the sheet.
    pub fn on_page(&self, page: &str) -> Vec<Slot> {
        let order = self.book.builds[usize::from(self.build())].order.iter().copied();
        order.filter(|slot| self.book.group(*slot).is_some_and(|group| group.page.as_deref() == Some(page))).collect()
    }

    /// The lines of a label or a list that have a value: each its word, and its values with `x` between them.
    pub fn lines_of(&self, page: &str) -> Vec<(String, String)> {
        let lines = self.book.lines_of(page).filter_map(|(word, names)| {
            let values: Vec<String> = names.iter().filter_map(|name| self.shown(self.slot(name).ok()?)).collect();
            (!values.is_empty()).then(|| (word.to_string(), values.join(" x ")))
        });
        lines.collect()
    }

    /// Whether the same was given, for the same build.
    pub fn same_givens(&self, other: &Self) -> bool {
        (self.build == other.build || self.build() == other.build())
            && (self.book.is(&other.book) || self.book.added == other.book.added)
            && (0..).take(self.given.len().max(other.given.len())).all(|slot| {
                match (self.given(slot), other.given(slot)) {
                    (Some(one), Some(other)) => one.same(other),
                    // The usual build is the same, given or not.
                    (one, other) => self.book.build_field == Some(slot) || one.is_none() && other.is_none(),
                }
            })
    }

    /// The names that something was given to.
    pub fn given_names(&self) -> impl Iterator<Item = &str> {
        let given = (0..).zip(&self.given).filter(|(_, given)| given.is_some());
        given.map(|(slot, _)| self.book.name(slot).text.as_str())
    }

    /// Whether a person sets the name, in this build.
    pub fn is_field(&self, slot: Slot) -> bool {
        self.rule(slot).is_some_and(|rule| rule.given) && self.book.name(slot).role != Role::Figure
    }
}

/// The unit that a bare number takes on a bench with this tape.
pub fn bare_unit(manner: &Manner) -> &'static Unit {
    let name = if manner.graduation.metric { "mm" } else { "in" };
    Unit::named(name).unwrap_or(&UNITS[0])
}

/// A known value with its kind.
pub fn answer(known: &Known, of: Type) -> Answer {
    let kind = if let Type::Quantity(kind) = of { kind } else { Kind::NUMBER };
    match &known.drawn {
        Datum::Amount(amount) if of == Type::Share => Answer::Share(Quantity::number(amount.clone())),
        Datum::Amount(amount) => Answer::Quantity(
            Quantity::new(amount.clone(), kind),
            known.cut.as_ref().and_then(Datum::amount).map(|cut| Quantity::new(cut.clone(), kind)),
        ),
        Datum::Word(word) => Answer::Text(word.clone()),
        Datum::Truth(truth) => Answer::Text(truth.to_string().into()),
        Datum::List(list) => {
            let kind = if let Type::List(kind) = of { kind } else { Kind::NUMBER };
            let one = |one: &Real| Answer::Quantity(Quantity::new(one.clone(), kind), None);
            Answer::List(list.iter().map(one).collect())
        }
        Datum::Record(_) => Answer::Text("found".into()),
    }
}

/// Counts, for tests, how often a design is copied.
#[cfg(test)]
#[derive(Debug)]
struct Copies;

#[cfg(test)]
thread_local! {
    static COPIED: std::cell::Cell<usize> = const { std::cell::Cell::new(0) };
}

#[cfg(test)]
impl Clone for Copies {
    fn clone(&self) -> Self {
        COPIED.set(COPIED.get() + 1);
        Self
    }
}

/// How many designs `work` copies on this thread.
#[cfg(test)]
pub(crate) fn copies_in(work: impl FnOnce()) -> usize {
    let before = COPIED.get();
    work();
    COPIED.get() - before
}
