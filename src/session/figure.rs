//! `figure NAME = FORMULA`: a figure of this design only.

use super::formula_fault::with_unit;
use super::reply::{Done, Faults, Reply};
use super::session::Session;
use super::shop_rules::meaning;
use crate::diag::{Diagnostic, codes};
use crate::rules::Design;
use crate::word::{Args, Kind};

/// A name that the rules do not use.
const OTHER: &str = "own.width";

impl Session {
    pub(super) fn figures(&mut self, _: &Args) -> Result<Reply, Faults> {
        Ok(Reply::Figures(self.bench.design()))
    }

    pub(super) fn figure(&mut self, args: &Args) -> Result<Reply, Faults> {
        let (name, formula) = (args.text(Kind::NewFigure), args.text(Kind::Formula));
        let before = self.bench.design();
        let renamed = |found: Diagnostic| {
            let found = Diagnostic { fixes: Vec::new(), ..found }.at(args.span(Kind::NewFigure));
            // A sound formula stays as typed.
            let names = [digits_last(name), OTHER.to_string()];
            let free = names.into_iter().find(|name| is_free(&before, name, formula));
            match free {
                Some(free) => found.instead(free),
                None => found.hint("help figure"),
            }
        };
        if !is_name(name) {
            let message = format!("{name} cannot be a name; use small letters, digits, _ and dots");
            return Err(renamed(Diagnostic::of(&codes::word::FORM, message)).into());
        }
        if let Some(what) = meaning(name) {
            return Err(
                renamed(Diagnostic::of(&codes::word::FORM, format!("{name} is {what}; choose another name"))).into()
            );
        }
        let design = before.with_figure(name, formula).map_err(|found| match (&found.source, &found.span) {
            (None, None) => renamed(found),
            (None, Some(_)) => {
                let found = with_unit(found, formula, self.settings.unit());
                found.shifted(args.span(Kind::Formula).start)
            }
            (Some(_), _) => found,
        })?;
        self.bench.put(design);
        Ok(self.changed(Done::Figure(name.into()), &before))
    }
}

/// A name with the digits that it begins with at its end: `x2` for `2x`.
fn digits_last(name: &str) -> String {
    let rest = name.trim_start_matches(|one: char| one.is_ascii_digit());
    format!("{rest}{}", &name[..name.len() - rest.len()])
}

/// Whether a figure may have this name and formula.
fn is_free(design: &Design, name: &str, formula: &str) -> bool {
    is_name(name) && meaning(name).is_none() && design.with_figure(name, formula).is_ok()
}

/// Whether a text is a name: parts of letters, digits and `_`, with dots between them.
pub fn is_name(text: &str) -> bool {
    let letter = |one: char| one.is_ascii_alphanumeric() || one == '_';
    let part = |part: &str| !part.is_empty() && part.chars().all(letter);
    text.split('.').all(part) && text.starts_with(|one: char| one.is_ascii_alphabetic() || one == '_')
}
