//! The names of the rules for the reader of lines and scripts: fields, figures, and what a field takes.

use crate::diag::{Diagnostic, codes};
use crate::lang::builtin::counting_in;
use crate::lang::{Names, Takes};
use crate::measure::read::quantity;
use crate::measure::{Kind, Unit};
use crate::rules::{Answer, Design, NameKind, Rules};

/// What a field takes at the prompt, if the name is a field in any build.
pub fn field(rules: &Rules, name: &str) -> Option<Takes> {
    match rules.kind(name)? {
        NameKind::Figure => None,
        NameKind::Value => Some(Takes::Value),
        NameKind::Word => Some(Takes::Name),
        NameKind::Text => Some(Takes::Text),
    }
}

/// The possible meanings of `field -amount`, each tried: the field set below zero, or the amount subtracted from its value;
/// if neither works, the field set to something else. A formula as amount is used as it is.
pub fn below(design: &Design, field: &str, amount: &str) -> Vec<String> {
    let (under, less) = (format!("-{amount}"), |amount: &str| format!("{field} - {amount}"));
    let Ok(bare) = quantity(amount, None) else {
        return vec![format!("{field} = {under}"), less(amount)];
    };
    let mut plain = |text: &str| Err(Diagnostic::of(&codes::value::NOTATION, text));
    let mut lines = Vec::new();
    if design.takes(field, &under, &mut plain) {
        lines.push(format!("{field} = {under}"));
    }
    if let Ok(Answer::Quantity(now, _) | Answer::Share(now)) = design.answer(field) {
        // Only a bare length gets a unit.
        let unit = if now.kind == Kind::LENGTH { design.bare_unit().names[0].into() } else { now.kind.unit() };
        match bare.kind {
            kind if kind == now.kind => lines.push(less(amount)),
            Kind::NUMBER if now.kind != Kind::MONEY => lines.push(less(&format!("{amount}{unit}"))),
            _ => {}
        }
    }
    if lines.is_empty() {
        let above = design.takes(field, amount, &mut plain).then(|| format!("{field} {amount}"));
        lines.extend(above);
    }
    lines
}

/// The names for rewriting a script or a line: those of the rules, and the variables that hide them.
#[derive(Debug)]
pub struct Known<'a> {
    /// The rules.
    pub rules: &'a Rules,
    /// The variables of the prompt.
    pub variables: &'a [String],
}

impl Names for Known<'_> {
    fn word(&self, _: &str) -> Option<Takes> {
        None
    }

    fn field(&self, name: &str) -> Option<Takes> {
        field(self.rules, name)
    }

    fn counting_in(&self, unit: &Unit) -> Option<&'static str> {
        counting_in(unit)
    }

    fn is_figure(&self, name: &str) -> bool {
        self.rules.kind(name) == Some(NameKind::Figure)
    }

    fn is_variable(&self, name: &str) -> bool {
        self.variables.iter().any(|variable| variable == name)
    }

    fn all(&self) -> Vec<String> {
        self.rules.all_names().map(Into::into).collect()
    }
}
