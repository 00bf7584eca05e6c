//! A house style that was read, and the checks of the house.
//!
//! A style is a script with these functions:
//!
//! | function | returns |
//! |---|---|
//! | `about()` | what it is for, in one line that ends in a full stop |
//! | `build_for(art, asks)` | the design: a `new_design()` with the work on it, its fields set |
//! | `asks()`, if it asks anything | a map of questions by name, as [`super::question`] reads them |
//! | `works()`, if it is not for every work | `kinds`: a list; `least`, `most`: of each side; `shallow`, `deep`: of the depth |
//! | `check(design)`, if the house judges | nothing, or a list of maps with `level`, `says` and, if needed, `name` and `mend` |
//!
//! `art` is a map of the work; `asks` is a map of answers: the one given, or the usual one, or nothing if the style decides.

use std::rc::Rc;

use super::handle::Handle;
use super::question::{Question, Wants};
use super::style::ENDING;
use super::trail::Framed;
use super::workshop::Workshop;
use crate::diag::{Diagnostic, Says, codes, list, near, says};
use crate::lang::{self, DesignHandle, Engine, Memory, Script, Value};
use crate::measure::{Kind, Quantity};
use crate::rules::{Answer, Design, Finding, Level};
use crate::table::Holds;

/// The function of a style that makes the design.
pub(super) const BUILD_FOR: &str = "build_for";
/// The function that lists its questions.
pub(super) const ASKS: &str = "asks";
/// The function that says which works the style frames.
pub(super) const WORKS: &str = "works";
/// The function that judges a design.
pub(super) const CHECK: &str = "check";

/// A style that was read, with its text.
pub(super) struct ReadStyle {
    pub(super) name: String,
    pub(super) text: String,
    pub(super) script: Script,
    /// Its questions, if it has the function.
    pub(super) questions: Option<Vec<Question>>,
    /// The works that it frames.
    pub(super) works: Works,
}

/// The works that a style frames.
#[derive(Clone, Debug, Default)]
pub(super) struct Works {
    /// Words of `art.kind`; any, if empty.
    pub(super) kinds: Vec<String>,
    pub(super) least: Option<Quantity>,
    pub(super) most: Option<Quantity>,
    pub(super) shallow: Option<Quantity>,
    pub(super) deep: Option<Quantity>,
}

impl ReadStyle {
    pub(super) fn has(&self, function: &str, values: usize) -> bool {
        has(&self.script, function, values)
    }

    /// What a column for a question of this name holds, if the style asks it; without `asks()` a style asks for every name
    /// in its text.
    pub(super) fn asked(&self, name: &str) -> Option<Holds> {
        match &self.questions {
            Some(questions) => {
                questions.iter().find(|question| question.name == name).map(|question| match question.wants {
                    Wants::Quantity(_) | Wants::Whole => Holds::Amount,
                    Wants::Word(_) | Wants::Text | Wants::Truth => Holds::Text,
                })
            }
            None => quoted(&self.text, name).map(|_| Holds::Any),
        }
    }

    /// The memory of the script after a run, for calls of its functions.
    pub(super) fn memory(&self, engine: &Engine) -> Result<Memory, Diagnostic> {
        let mut memory = Memory::default();
        engine.run(&mut memory, &self.script)?;
        Ok(memory)
    }
}

fn has(script: &Script, function: &str, values: usize) -> bool {
    script.functions().iter().any(|(name, count)| name == function && *count == values)
}

impl Workshop {
    /// The style as a script, made once for each text.
    pub(super) fn read_style(&self, engine: &Engine, name: &str, text: &str) -> Result<Rc<ReadStyle>, Vec<Diagnostic>> {
        if let Some(style) = self.styles.read.borrow().get(name).filter(|style| style.text == text) {
            return Ok(Rc::clone(style));
        }
        let file = format!("{name}{ENDING}");
        let script = engine.compile(&file, text)?;
        if !has(&script, BUILD_FOR, 2) {
            let message = format!("the style {name} needs a function {BUILD_FOR}(art, asks) that makes the design");
            return Err(vec![Diagnostic::of(&codes::style::SHAPE, message)]);
        }
        let mut style =
            ReadStyle { name: name.into(), text: text.into(), script, questions: None, works: Works::default() };
        let asks = style.has(ASKS, 0);
        if asks || style.has(WORKS, 0) {
            let one = |found: Diagnostic| vec![found];
            let mut memory = style.memory(engine).map_err(one)?;
            let mut call = |function| engine.call(&mut memory, &style.script, function, Vec::new()).map_err(one);
            if asks {
                let given = call(ASKS)?;
                let read = Question::read_all(given);
                let placed = |found: Diagnostic| {
                    let key = found.name.clone().unwrap_or_default();
                    vec![placed(found, &file, text, ASKS, &key)]
                };
                style.questions = Some(read.map_err(placed)?);
            }
            if style.has(WORKS, 0) {
                let given = call(WORKS)?;
                style.works = Works::read(given).map_err(|found| vec![placed(found, &file, text, WORKS, "")])?;
            }
        }
        let style = Rc::new(style);
        self.styles.read.borrow_mut().insert(name.into(), Rc::clone(&style));
        Ok(style)
    }

    /// The findings of a style on a design that it framed; none from a style without checks.
    pub(super) fn judgement(&self, style: &ReadStyle, design: &Design) -> Result<Vec<Finding>, Diagnostic> {
        if !style.has(CHECK, 1) {
            return Ok(Vec::new());
        }
        let engine = self.style_engine();
        let mut memory = style.memory(&engine)?;
        // A copy, because checks change nothing.
        let handle: Rc<dyn DesignHandle> = Rc::new(Handle::new(design.clone()));
        let given = vec![Value::Design(lang::Design(handle))];
        let said = engine.call(&mut memory, &style.script, CHECK, given)?;
        let wrong = |what: String| {
            let message = format!("{CHECK}(design) of the style {} {what}", style.name);
            placed(
                Diagnostic::of(&codes::style::SHAPE, message),
                &format!("{}{ENDING}", style.name),
                &style.text,
                CHECK,
                "",
            )
        };
        if matches!(said, Value::Nothing) {
            return Ok(Vec::new());
        }
        let Value::List(several) = said else {
            return Err(wrong(format!("must return a list of maps, or nothing, not {}", said.what())));
        };
        several.into_iter().map(|one| finding(&style.name, one, design).map_err(wrong)).collect()
    }

    /// Judges a design by the style that framed it, if it was changed since.
    ///
    /// The style is read as it is now. A style that is gone judges nothing; one that fails is a finding.
    pub(super) fn judge(&self, framed: &mut Framed) {
        let Some(mark) = framed.style.as_ref().filter(|_| !framed.design.is_judged()) else { return };
        let engine = self.style_engine();
        let Ok(text) = self.style_text(&mark.name) else { return };
        let Ok(style) = self.read_style(&engine, &mark.name, &text) else { return };
        let findings = self.judgement(&style, &framed.design).unwrap_or_else(|found| {
            let says = found.says.within(says!("the style {} cannot judge this design", style.name));
            vec![Finding { level: Level::Warn, name: style.name.clone(), says, mend: None }]
        });
        Rc::make_mut(&mut framed.design).judge(findings);
    }
}

/// One finding of a style; its name begins with the style's.
fn finding(style: &str, given: Value, design: &Design) -> Result<Finding, String> {
    const KEYS: &[&str] = &["level", "name", "says", "mend"];
    let Value::Map(mut parts) = given else {
        return Err(format!("must return a list of maps; this one holds {}", given.what()));
    };
    if let Some(other) = parts.keys().find(|key| !KEYS.contains(&key.as_str())) {
        return Err(format!("returns a map with `{other}`; its names are {}", list(KEYS, "and")));
    }
    let mut text = |key: &str| match parts.remove(key) {
        Some(Value::Text(text)) => Ok(Some(text)),
        None | Some(Value::Nothing) => Ok(None),
        Some(other) => Err(format!("returns a map whose `{key}` is {}, not text", other.what())),
    };
    let level = match text("level")?.as_deref() {
        Some("stop") => Level::Stop,
        Some("warn") => Level::Warn,
        Some("note") => Level::Note,
        Some(other) => return Err(format!("returns the level {other}; the levels are stop, warn and note")),
        None => return Err("returns a map without `level`: stop, warn or note".into()),
    };
    let says = text("says")?.ok_or("returns a map without `says`, the message")?;
    let name = text("name")?.map_or_else(|| style.to_string(), |name| format!("{style}.{name}"));
    let mend = text("mend")?.filter(|line| would_set(design, line));
    Ok(Finding { level, name, says: Says::quoted(says), mend })
}

/// Whether a line sets a field of this design: other mends are not offered.
fn would_set(design: &Design, line: &str) -> bool {
    let Some((field, value)) = line.split_once(' ') else { return false };
    let mut plain = |text: &str| Err(Diagnostic::of(&codes::style::SHAPE, text));
    design.read_input(field, value, &mut plain).is_ok_and(|input| design.clone().set(field, input).is_ok())
}

/// A finding about the result of a function of a style, placed at a name in it or at the function.
fn placed(found: Diagnostic, file: &str, text: &str, function: &str, name: &str) -> Diagnostic {
    let head = format!("fn {function}");
    let Some(start) = text.find(&head) else { return found };
    let inner = text.get(start + head.len()..).unwrap_or_default();
    let span = quoted(inner, name).map_or(start..start + head.len(), |at| {
        let from = start + head.len() + at;
        from..from + name.len()
    });
    found.at(span).inside(file, text)
}

impl Works {
    fn read(given: Value) -> Result<Self, Diagnostic> {
        const KEYS: &[&str] = &["kinds", "least", "most", "shallow", "deep"];
        let Value::Map(parts) = given else {
            return Err(Diagnostic::of(
                &codes::style::SHAPE,
                format!("works() must return a map, not {}", given.what()),
            ));
        };
        let mut works = Self::default();
        for (key, value) in parts {
            let length = value.quantity().filter(|length| length.kind == Kind::LENGTH).cloned();
            match (key.as_str(), value, length) {
                ("kinds", Value::List(kinds), _) => {
                    let word = |kind: Value| if let Value::Text(kind) = kind { Some(kind) } else { None };
                    let words: Option<Vec<String>> = kinds.into_iter().map(word).collect();
                    works.kinds = words.ok_or_else(|| {
                        Diagnostic::of(&codes::style::SHAPE, "kinds in works() must be a list of texts")
                    })?;
                }
                ("least", _, Some(length)) => works.least = Some(length),
                ("most", _, Some(length)) => works.most = Some(length),
                ("shallow", _, Some(length)) => works.shallow = Some(length),
                ("deep", _, Some(length)) => works.deep = Some(length),
                ("kinds", other, _) => {
                    return Err(Diagnostic::of(
                        &codes::style::SHAPE,
                        format!("kinds in works() must be a list, not {}", other.what()),
                    ));
                }
                (key, other, None) if KEYS.contains(&key) => {
                    return Err(Diagnostic::of(
                        &codes::style::SHAPE,
                        format!("{key} in works() must be a length, not {}", other.what()),
                    ));
                }
                (key, _, _) => {
                    let close = near(key, KEYS.iter().copied());
                    let message = format!("works() has no `{key}`; its names are {}", list(KEYS, "and"));
                    return Err(match close.first() {
                        Some(close) => Diagnostic::of(
                            &codes::style::SHAPE,
                            format!("works() has no `{key}`; did you mean `{close}`?"),
                        ),
                        None => Diagnostic::of(&codes::style::SHAPE, message),
                    });
                }
            }
        }
        Ok(works)
    }

    /// Refuses a work that the style does not frame.
    pub(super) fn take(&self, style: &str, design: &Design) -> Result<(), Diagnostic> {
        let manner = design.manner();
        if let Ok(Answer::Text(kind)) = design.answer("art.kind")
            && !self.kinds.is_empty()
            && !self.kinds.iter().any(|one| **one == *kind)
        {
            let message = format!("the style {style} frames {}, not {kind}", list(&self.kinds, "and"));
            return Err(Diagnostic::of(&codes::style::NOT_FOR, message));
        }
        let sides = (&self.least, &self.most);
        let depths = (&self.shallow, &self.deep);
        for (name, (least, most)) in [("art.width", sides), ("art.height", sides), ("art.depth", depths)] {
            let Ok(Answer::Quantity(measured, _)) = design.answer(name) else { continue };
            let says = |word: &str, bound: &Quantity| {
                let (bound, measured) = (manner.short(bound), manner.short(&measured));
                Err(Diagnostic::of(
                    &codes::style::NOT_FOR,
                    format!("the style {style} takes {name} {word} {bound}; this work has {measured}"),
                ))
            };
            if let Some(least) = least.as_ref().filter(|least| measured.amount < least.amount) {
                return says("from", least);
            }
            if let Some(most) = most.as_ref().filter(|most| measured.amount > most.amount) {
                return says("up to", most);
            }
        }
        Ok(())
    }
}

/// The place of a name in a text, as a whole word.
pub(super) fn quoted(text: &str, name: &str) -> Option<usize> {
    let letter = |letter: char| letter.is_alphanumeric() || letter == '_';
    text.match_indices(name).map(|(at, _)| at).find(|at| {
        let (before, behind) = (text.get(..*at).unwrap_or_default(), text.get(at + name.len()..).unwrap_or_default());
        !name.is_empty() && !before.ends_with(letter) && !behind.starts_with(letter)
    })
}
