//! Text → a value for a field, as the field's kind asks for it.

use super::book::{Slot, Type};
use super::design::{Design, Input};
use super::term::Way;
use crate::diag::{Diagnostic, Fix, Span, codes};
use crate::measure::read::{Reading, read};
use crate::measure::{Kind, Unit};

/// Works out a text that is not a value by itself as an expression.
pub type Evaluate<'a> = &'a mut dyn FnMut(&str) -> Result<Reading, Diagnostic>;

impl Design {
    /// Reads `text` as a value for the field `name`: a bare number takes the bench unit where a length is wanted, a
    /// word needs no quotes, sides are given clockwise from the top with commas between them.
    ///
    /// # Errors
    /// A name that this design does not have; a text that is not a value, with its place.
    pub fn read_input(&self, name: &str, text: &str, evaluate: Evaluate) -> Result<Input, Diagnostic> {
        let slot = self.slot(name)?;
        if text.trim().is_empty() {
            return Err(Diagnostic::of(&codes::word::VALUE_MISSING, format!("{name} wants a value")).at(0..text.len()));
        }
        let gather = self.rule(slot).and_then(|rule| rule.gather);
        let of = self.book().name(slot).of;
        if text.trim() == "none" {
            return Ok(Input::Text("none".into()));
        }
        match (gather, of) {
            (Some(Way::With), _) => self.word_and_value(text, evaluate),
            (Some(Way::Around | Way::Row), _) | (_, Type::List(_)) => self.several(slot, text, evaluate),
            (_, Type::Word | Type::Text) => Ok(Input::Text(bare_text(text))),
            _ => Ok(input(self.value(text, self.unit_for(slot), evaluate)?)),
        }
    }

    /// The unit that a bare number takes in a field, if it takes one.
    fn unit_for(&self, slot: Slot) -> Option<&'static Unit> {
        let lengths = Type::List(Kind::LENGTH);
        let of = self.book().name(slot).of;
        let takes = matches!(of, Type::Quantity(Kind::LENGTH) | Type::Size) || of == lengths;
        takes.then(|| self.bare_unit())
    }

    /// Reads a value, or works it out where it is a formula.
    ///
    /// # Errors
    /// What the formula lacks where the text looks like one, what is wrong with the notation otherwise.
    pub fn value(&self, text: &str, bare: Option<&Unit>, evaluate: Evaluate) -> Result<Reading, Diagnostic> {
        read(text, bare).or_else(|misread| {
            // A formula has names, brackets or signs in it; anything else is a value with a slip in it.
            let formula = text.contains(['*', '(', '+']) || text.trim_start().starts_with(char::is_alphabetic);
            match evaluate(text) {
                Ok(value) => Ok(value),
                Err(found) if formula => Err(found),
                Err(_) => Err(misread),
            }
        })
    }

    /// A finding against `text` as a value of `name`, with only those of its fixes that the field takes.
    #[must_use]
    pub fn in_line(&self, name: &str, text: &str, mut found: Diagnostic, evaluate: Evaluate) -> Diagnostic {
        let span = found.span.clone();
        found.fixes.retain(|fix| match fix {
            Fix::Value(_) => fix.line(text, span.as_ref()).is_some_and(|value| self.takes(name, &value, evaluate)),
            Fix::Line(_) | Fix::Setting(..) | Fix::Choices(_) => true,
        });
        found
    }

    /// Whether a text can be set as the value of a name.
    pub fn takes(&self, name: &str, text: &str, evaluate: Evaluate) -> bool {
        self.read_input(name, text, evaluate).is_ok_and(|input| self.clone().set(name, input).is_ok())
    }

    /// Several values with commas between; what is offered in place of one is offered with those around it.
    fn several(&self, slot: Slot, text: &str, evaluate: Evaluate) -> Result<Input, Diagnostic> {
        let parts = commas(text);
        let gathered = self.rule(slot).filter(|rule| rule.gather == Some(Way::Row)).map(|rule| rule.reads.clone());
        let mut values = Vec::new();
        for (place, part) in parts.iter().enumerate() {
            let unit = self.unit_for(gathered.as_ref().and_then(|slots| slots.get(place)).copied().unwrap_or(slot));
            let inner = &text[part.clone()];
            let reading = self.value(inner, unit, evaluate).map_err(|found| {
                let found = found.shifted(part.start);
                if parts.len() == 1 { with_commas(found, text) } else { found }
            })?;
            match reading {
                Reading::Quantity(quantity) => values.push(quantity),
                Reading::Size(_) => {
                    return Err(Diagnostic::of(
                        &codes::field::KIND,
                        "this is a size; sides are given one by one with commas",
                    )
                    .at(part.clone()));
                }
            }
        }
        match values.as_slice() {
            [only] => Ok(Input::Quantity(only.clone())),
            _ => Ok(Input::List(values)),
        }
    }

    fn word_and_value(&self, text: &str, evaluate: Evaluate) -> Result<Input, Diagnostic> {
        let trimmed = text.trim();
        let start = text.len() - text.trim_start().len();
        if trimmed.starts_with(|first: char| first.is_ascii_digit() || VULGAR.contains(first)) {
            let value = self.value(trimmed, Some(self.bare_unit()), evaluate).map_err(|found| found.shifted(start))?;
            if let Reading::Quantity(quantity) = value {
                return Ok(Input::Quantity(quantity));
            }
        }
        // A word may be of several parts, `foam board`; the value begins with a figure.
        let figure = |at: &usize| {
            let value = trimmed[*at..].trim_start_matches('-');
            value.starts_with(|first: char| first.is_ascii_digit() || VULGAR.contains(first))
        };
        let blanks = trimmed.char_indices().filter(|(_, letter)| letter.is_whitespace());
        let behind = blanks.map(|(at, blank)| at + blank.len_utf8()).find(figure);
        let Some(behind) = behind else {
            return Ok(Input::Text(bare_text(trimmed)));
        };
        let (word, rest) = trimmed.split_at(behind);
        let start = start + behind;
        match self.value(rest, Some(self.bare_unit()), evaluate).map_err(|found| found.shifted(start))? {
            Reading::Quantity(quantity) => Ok(Input::With(word.trim().into(), quantity)),
            Reading::Size(_) => {
                Err(Diagnostic::of(&codes::field::KIND, "this is a size; a thickness is wanted").at(start..text.len()))
            }
        }
    }
}

/// Letters that a value may begin with besides figures.
const VULGAR: &str = "½¼¾⅛⅜⅝⅞.";

fn input(reading: Reading) -> Input {
    match reading {
        Reading::Quantity(quantity) => Input::Quantity(quantity),
        Reading::Size(size) => Input::Size(size),
    }
}

/// The text without blanks around it, and without the quotes around it.
fn bare_text(text: &str) -> String {
    let text = text.trim();
    text.strip_prefix('"').and_then(|text| text.strip_suffix('"')).unwrap_or(text).to_string()
}

/// A finding against values side by side, with commas between them where a sum was offered.
fn with_commas(mut found: Diagnostic, text: &str) -> Diagnostic {
    if text.contains(" + ") {
        return found;
    }
    for fix in &mut found.fixes {
        if let Fix::Value(value) = fix {
            *value = value.replace(" + ", ", ");
        }
    }
    found
}

/// The stretches between commas outside brackets.
fn commas(text: &str) -> Vec<Span> {
    let mut depth = 0_usize;
    let mut start = 0;
    let mut parts = Vec::new();
    for (at, letter) in text.char_indices() {
        match letter {
            '(' | '[' => depth += 1,
            ')' | ']' => depth = depth.saturating_sub(1),
            ',' if depth == 0 => {
                parts.push(start..at);
                start = at + 1;
            }
            _ => {}
        }
    }
    parts.push(start..text.len());
    parts
}
