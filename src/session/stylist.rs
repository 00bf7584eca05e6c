//! Frames works by house styles: finds the style, runs it, and sets the fields that the line names.

use std::collections::BTreeMap;
use std::rc::Rc;

use super::handle::{design_of, input, value};
use super::house::{BUILD_FOR, ReadStyle};
use super::powers::StylePowers;
use super::reply::StyleRow;
use super::style::{self, ENDING};
use super::trail::Framed;
use super::workshop::{Styles, Workshop};
use crate::book::Mark;
use crate::diag::{Diagnostic, codes, list, near};
use crate::host::Trouble;
use crate::lang::{Engine, Value};
use crate::rules::{Answer, Design, Input, Wall};

/// The answers and fields of a line or a script for a style.
pub(super) enum Asks<'a> {
    /// As typed at the prompt.
    Texts(&'a BTreeMap<String, String>),
    /// As given by a script.
    Values(&'a BTreeMap<String, Value>),
}

impl Workshop {
    /// A fresh design; while a style runs, with the work already on it.
    pub(super) fn fresh(&self) -> Design {
        let mut design = self.settings.borrow().fresh();
        self.bench.look(Wall::of).put_behind(&mut design);
        if let Some(work) = &*self.styles.work.borrow() {
            carry_over(work, &mut design);
        }
        design
    }

    /// Frames the work of a design by a style.
    ///
    /// # Errors
    /// The style does not exist, has a fault, or does not take a value.
    pub(super) fn styled(&self, name: &str, design: &Design, asks: Asks) -> Result<Framed, Vec<Diagnostic>> {
        let text = self.style_text(name).map_err(|found| vec![found])?;
        let engine = self.style_engine();
        let style = self.read_style(&engine, name, &text)?;
        self.framed_by(&style, design, asks).map_err(|found| vec![found])
    }

    /// The work of a design framed by a style that was read, and judged by it.
    pub(super) fn framed_by(&self, style: &ReadStyle, design: &Design, asks: Asks) -> Result<Framed, Diagnostic> {
        let name = &style.name;
        asks.are_known(style, design)?;
        let art = Value::Map(art_of(design)?);
        style.works.take(name, design)?;
        let asked = Value::Map(asks.values(style, design)?);
        let engine = self.style_engine();
        let mut memory = style.memory(&engine)?;
        let made = {
            // A style can frame by another style; afterwards the work is its own again.
            let (depth, most) = (self.styles.depth.get() + 1, engine.limits().imports);
            if depth > most {
                let message = format!("styles use one another more than {most} deep");
                return Err(
                    Diagnostic::of(&codes::script::TOO_LONG, message).hint(crate::shop::limits::IMPORTS.example)
                );
            }
            self.styles.depth.set(depth);
            let before = self.styles.work.replace(Some(design.clone()));
            let _end = End(&self.styles, before);
            engine.call(&mut memory, &style.script, BUILD_FOR, vec![art, asked])?
        };
        let Value::Design(handle) = made else {
            let message =
                format!("the style {name} returns {}, not a design; {BUILD_FOR} must end with the design", made.what());
            return Err(Diagnostic::of(&codes::style::ANSWER, message));
        };
        let mut framed = design_of(&*handle.0)?;
        if let Some(measure) = changed_work(design, &framed) {
            let message =
                format!("the style {name} changes {measure}, which was measured; styles change only the frame");
            return Err(Diagnostic::of(&codes::style::ANSWER, message));
        }
        let design = Rc::make_mut(&mut framed);
        asks.put_over(style, design)?;
        design.judge(self.judgement(style, design)?);
        Ok(Framed { design: framed, style: Some(Mark { name: name.clone(), version: style::version(&style.text) }) })
    }

    /// The engine of styles, separate from the framer's, so that a script at the prompt can call a style.
    pub(super) fn style_engine(&self) -> Rc<Engine> {
        let mut engine = self.styles.engine.borrow_mut();
        let make = || Rc::new(Engine::new(self.engine_settings(Rc::new(StylePowers(self.me.clone())))));
        Rc::clone(engine.get_or_insert_with(make))
    }

    /// The text of a style.
    ///
    /// # Errors
    /// No style has that name, or its file cannot be read.
    pub(super) fn style_text(&self, name: &str) -> Result<String, Diagnostic> {
        if let Some(text) = self.style_or_none(name)? {
            return Ok(text);
        }
        let names: Vec<String> = self.style_rows().into_iter().map(|style| style.name).collect();
        let near = near(name, names.iter().map(String::as_str));
        let found = Diagnostic::of(
            &codes::style::UNKNOWN,
            format!("there is no style called {name}; styles are {}", list(&names, "and")),
        );
        Err(match near.first() {
            Some(near) => found.hint(format!("style {near}")),
            None => found,
        })
    }

    fn own_style(&self, name: &str) -> Result<Option<String>, Diagnostic> {
        if let Some((_, text)) = self.styles.handed.borrow().as_ref().filter(|(handed, _)| handed == name) {
            return Ok(Some(text.clone()));
        }
        let plain = |letter: char| letter.is_alphanumeric() || matches!(letter, '-' | '_' | '/');
        let Some(folder) = self.folder().filter(|_| name.chars().all(plain) && !name.starts_with('/')) else {
            return Ok(None);
        };
        let file = folder.join(format!("{name}{ENDING}"));
        if self.host.leads_out(&folder, &file) {
            return Err(Diagnostic::of(
                &codes::style::UNKNOWN,
                format!("the style {name} is a link that leads out of the style folder"),
            ));
        }
        match self.host.read(&file) {
            Ok(text) => Ok(Some(text)),
            Err(fault) if fault.trouble == Trouble::Missing => Ok(None),
            Err(fault) => Err(fault.into()),
        }
    }

    /// The text of a style, if there is one of that name: the shop's own before the shipped one.
    pub(super) fn style_or_none(&self, name: &str) -> Result<Option<String>, Diagnostic> {
        if let Some(text) = self.own_style(name)? {
            return Ok(Some(text));
        }
        Ok(style::SHIPPED.iter().find(|(shipped, _)| *shipped == name).map(|(_, text)| (*text).to_string()))
    }

    pub(super) fn style_rows(&self) -> Vec<StyleRow> {
        let mut rows: Vec<StyleRow> = style::SHIPPED
            .iter()
            .map(|(name, text)| StyleRow {
                name: (*name).into(),
                about: style::first_line(text),
                from: "shipped".into(),
            })
            .collect();
        if let Some(folder) = self.folder() {
            for file in self.host.list(&folder) {
                let Some(name) = file.strip_suffix(ENDING) else { continue };
                let path = folder.join(&file);
                if self.host.size(&path).is_none() {
                    continue;
                }
                let about = match self.host.read(&path) {
                    Ok(text) => style::first_line(&text),
                    Err(_) => UNREADABLE.into(),
                };
                rows.retain(|row| row.name != name);
                rows.push(StyleRow { name: name.into(), about, from: path.display().to_string() });
            }
        }
        rows.sort_by(|one, other| one.name.cmp(&other.name));
        rows
    }
}

/// The description of a style whose file cannot be read.
const UNREADABLE: &str = "its file cannot be read";

/// Restores the work before, however a style ends.
struct End<'a>(&'a Styles, Option<Design>);

impl Drop for End<'_> {
    fn drop(&mut self) {
        *self.0.work.borrow_mut() = self.1.take();
        self.0.depth.set(self.0.depth.get().saturating_sub(1));
    }
}

impl Asks<'_> {
    fn keys(&self) -> Vec<&String> {
        match self {
            Asks::Texts(texts) => texts.keys().collect(),
            Asks::Values(values) => values.keys().collect(),
        }
    }

    /// Refuses a key that is not a field and that the style does not ask for.
    fn are_known(&self, style: &ReadStyle, design: &Design) -> Result<(), Diagnostic> {
        let fields = || design.book().all_names();
        let known = |key: &str| style.asked(key).is_some() || fields().any(|name| name == key);
        let Some(key) = self.keys().into_iter().find(|key| !known(key)) else { return Ok(()) };
        let message = format!("{key} is not a field, and the style {} does not ask for it", style.name);
        let value = match self {
            Asks::Texts(texts) => texts.get(key).cloned().unwrap_or_default(),
            // A script writes values in its own way.
            Asks::Values(_) => return Err(Diagnostic::of(&codes::style::ANSWER, message)),
        };
        let questions = style.questions.iter().flatten().map(|question| question.name.as_str());
        let hint =
            near(key, questions.chain(fields())).first().map(|near| format!("style {} {near}={value}", style.name));
        Err(Diagnostic::of(&codes::style::ANSWER, message).about(key).only(hint))
    }

    /// The arguments of the style: an answer to each of its questions, and the other keys as given.
    fn values(&self, style: &ReadStyle, design: &Design) -> Result<BTreeMap<String, Value>, Diagnostic> {
        let mut handed: BTreeMap<String, Value> = match self {
            Asks::Values(values) => (*values).clone(),
            Asks::Texts(texts) => texts
                .iter()
                .map(|(key, text)| {
                    let reading = crate::measure::read::read(text, Some(design.bare_unit()));
                    let value = reading.map_or_else(|_| Value::Text(text.clone()), Value::from);
                    (key.clone(), value)
                })
                .collect(),
        };
        for question in style.questions.iter().flatten() {
            let name = &question.name;
            let given = match self {
                Asks::Texts(texts) => texts.get(name).map(|text| question.read_answer(text, design.manner())),
                Asks::Values(values) => values.get(name).cloned().map(|value| question.answer(value, design.manner())),
            };
            let answer = match given {
                Some(answer) => answer.map_err(|found| {
                    let found = found.about(name.as_str()).lines(|pair| format!("style {} {pair}", style.name));
                    Diagnostic { span: None, ..found }
                })?,
                None => question.default.clone().unwrap_or(Value::Nothing),
            };
            handed.insert(name.clone(), answer);
        }
        Ok(handed)
    }

    /// Sets the fields that the line names, over those of the style; answers to questions are the style's own.
    fn put_over(&self, style: &ReadStyle, design: &mut Design) -> Result<(), Diagnostic> {
        let asked = |key: &str| style.questions.iter().flatten().any(|question| question.name == key);
        let is_field = |design: &Design, key: &str| !asked(key) && design.book().slot(key).is_some();
        match self {
            Asks::Values(values) => {
                for (key, value) in values.iter() {
                    // A key that is not a field is for the style alone.
                    if !is_field(design, key) {
                        continue;
                    }
                    if let Some(input) = input(design, key, value.clone())? {
                        design.set(key, input)?;
                    }
                }
            }
            Asks::Texts(texts) => {
                for (key, text) in texts.iter() {
                    if !is_field(design, key) {
                        continue;
                    }
                    let mut plain =
                        |text: &str| Err(Diagnostic::of(&codes::style::ANSWER, format!("{key} does not take {text}")));
                    let input: Input = design.read_input(key, text, &mut plain).map_err(|mut found| {
                        found.span = None;
                        found
                    })?;
                    design.set(key, input)?;
                }
            }
        }
        Ok(())
    }
}

/// The first measure of the work that a style changed.
fn changed_work(work: &Design, framed: &Design) -> Option<String> {
    let book = work.book();
    (0..).zip(&book.names).filter(|(_, name)| book.is_of_the_work(&name.text)).find_map(|(slot, name)| {
        let measured = work.given(slot)?;
        let same = framed.given(slot).is_some_and(|given| given.same(measured));
        (!same).then(|| name.text.clone())
    })
}

/// Puts the work of one design onto another.
pub(super) fn carry_over(from: &Design, to: &mut Design) {
    let book = from.book().clone();
    for (place, name) in book.names.iter().enumerate() {
        let slot = u16::try_from(place).ok();
        let given = slot.and_then(|slot| from.given(slot));
        if let Some(given) = given.filter(|_| book.is_of_the_work(&name.text)) {
            to.give(&name.text, given.clone());
        }
    }
}

/// The work as a style receives it.
fn art_of(design: &Design) -> Result<BTreeMap<String, Value>, Diagnostic> {
    let mut art = BTreeMap::new();
    let missing = design.answer("art.width").is_err() && design.answer("art.across").is_err();
    if missing {
        return Err(Diagnostic::of(&codes::style::NO_WORK, "there is no work to frame yet; set the work first")
            .hint("help art"));
    }
    for name in design.book().all_names().filter(|name| name.starts_with("art.")) {
        if let Ok(answer) = design.answer(name) {
            art.insert(name.trim_start_matches("art.").to_string(), value(answer));
        }
    }
    if let Ok(Answer::Quantity(quantity, _)) = design.answer("quantity") {
        art.insert("quantity".into(), Value::Quantity(quantity));
    }
    Ok(art)
}
