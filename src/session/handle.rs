//! A design that the bench and its scripts share.

use std::cell::RefCell;
use std::rc::Rc;

use super::trail::Framed;
use crate::diag::{Diagnostic, codes};
use crate::lang::{DesignHandle, Value};
use crate::measure::read::{Reading, Size};
use crate::rules::{Answer, Design, Input, Way};

/// A design that the bench and its scripts share.
///
/// Readers and undo steps share the design; a change copies it while others still have it.
#[derive(Debug)]
pub struct Handle(RefCell<Framed>);

impl Handle {
    /// A handle of a design that no style framed.
    pub fn new(design: Design) -> Self {
        Self::of(Framed { design: design.into(), style: None })
    }

    /// A handle of a design.
    pub fn of(framed: Framed) -> Self {
        Self(RefCell::new(framed))
    }

    /// The design as it is now.
    pub fn design(&self) -> Rc<Design> {
        Rc::clone(&self.0.borrow().design)
    }

    /// The design with the style that framed it.
    pub fn framed(&self) -> Framed {
        self.0.borrow().clone()
    }

    /// Whether a style framed the design and has not judged its present state.
    pub fn is_unjudged(&self) -> bool {
        let framed = self.0.borrow();
        framed.style.is_some() && !framed.design.is_judged()
    }

    /// The result of `look` at the design.
    pub fn look<T>(&self, look: impl FnOnce(&Design) -> T) -> T {
        look(&self.0.borrow().design)
    }

    /// The result of `work` on the design, which may change it.
    pub fn work<T>(&self, work: impl FnOnce(&mut Design) -> T) -> T {
        work(Rc::make_mut(&mut self.0.borrow_mut().design))
    }

    /// Replaces the design; the style stays.
    pub fn put(&self, design: Design) {
        self.0.borrow_mut().design = design.into();
    }

    /// Replaces the design and its style, and gives the old ones.
    pub fn replace(&self, framed: Framed) -> Framed {
        self.0.replace(framed)
    }
}

impl DesignHandle for Handle {
    fn get(&self, name: &str) -> Result<Value, Diagnostic> {
        Ok(value(self.look(|design| design.answer(name))?))
    }

    fn made(&self, name: &str) -> Result<Value, Diagnostic> {
        match self.look(|design| design.made(name)) {
            Some(made) => Ok(Value::Quantity(made)),
            None => self.get(name),
        }
    }

    fn set(&self, name: &str, value: Value) -> Result<(), Diagnostic> {
        if matches!(value, Value::Nothing) {
            return Err(Diagnostic::of(&codes::script::ARGUMENT, format!("{name} gets no value here")));
        }
        let input = self.look(|design| input(design, name, value))?;
        Ok(self.work(|design| match input {
            Some(input) => design.set(name, input),
            None => design.clear(name),
        })?)
    }

    fn names(&self) -> Vec<String> {
        self.look(|design| design.book().all_names().map(Into::into).collect())
    }

    fn as_any(&self) -> &dyn std::any::Any {
        self
    }
}

/// The value of a name for a script: sizes as drawn.
pub fn value(answer: Answer) -> Value {
    match answer {
        Answer::Quantity(drawn, _) | Answer::Share(drawn) => Value::Quantity(drawn),
        Answer::Text(text) => Value::Text(text.to_string()),
        Answer::List(several) => Value::List(several.into_iter().map(value).collect()),
        Answer::Size(extents) => {
            let mut extents = extents.into_iter();
            match (extents.next(), extents.next()) {
                (Some(width), Some(height)) => Value::Size(Size { width, height, depth: extents.next() }),
                _ => Value::Nothing,
            }
        }
    }
}

/// A value of a script as the input of a field; no value clears the field.
pub fn input(design: &Design, name: &str, value: Value) -> Result<Option<Input>, Diagnostic> {
    Ok(Some(match value {
        Value::Nothing => return Ok(None),
        Value::Quantity(quantity) => Input::Quantity(quantity),
        Value::Size(size) => Input::Size(size),
        // `d.glazing = "glass 2mm"`: a word with its value, as at the prompt.
        Value::Text(text) if is_with(design, name) => {
            let mut plain =
                |rest: &str| Err(Diagnostic::of(&codes::script::ARGUMENT, format!("{name} does not take {rest}")));
            design.read_input(name, &text, &mut plain)?
        }
        Value::Text(text) => Input::Text(text),
        Value::List(values) => Input::List(
            values
                .into_iter()
                .map(
                    |value| {
                        if let Value::Quantity(quantity) = value { Ok(quantity) } else { Err(wrong(name, &value)) }
                    },
                )
                .collect::<Result<_, _>>()?,
        ),
        other @ (Value::Truth(_) | Value::Map(_) | Value::Design(_) | Value::Shown(_)) => {
            return Err(wrong(name, &other));
        }
    }))
}

/// Whether a name stands for a word with a value.
fn is_with(design: &Design, name: &str) -> bool {
    let rule = design.book().slot(name).and_then(|slot| design.rule(slot));
    rule.is_some_and(|rule| rule.gather == Some(Way::With))
}

fn wrong(name: &str, value: &Value) -> Diagnostic {
    Diagnostic::of(&codes::script::ARGUMENT, format!("{name} does not take {}", value.what()))
}

/// A value of the language, in place of a reading of text.
pub fn reading(value: Value) -> Result<Reading, Diagnostic> {
    if let Value::Quantity(quantity) = value {
        return Ok(Reading::Quantity(quantity));
    }
    if let Value::Size(size) = value {
        return Ok(Reading::Size(size));
    }
    Err(Diagnostic::of(&codes::script::ARGUMENT, format!("this gives {}, but a value is needed", value.what())))
}

/// The design behind a handle of a script.
pub(super) fn design_of(handle: &dyn DesignHandle) -> Result<Rc<Design>, Diagnostic> {
    framed_of(handle).map(|framed| framed.design)
}

/// The design behind a handle of a script, with the style that framed it.
pub(super) fn framed_of(handle: &dyn DesignHandle) -> Result<Framed, Diagnostic> {
    handle
        .as_any()
        .downcast_ref::<Handle>()
        .map(Handle::framed)
        .ok_or_else(|| Diagnostic::of(&codes::script::ARGUMENT, "this is not a design of the bench"))
}
