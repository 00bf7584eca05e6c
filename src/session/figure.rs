//! `figure NAME = FORMULA`: a figure of the design at the bench alone.

use super::book_told::with_unit;
use super::reply::{Done, Reply};
use super::session::Session;
use super::shop_rules::meaning;
use crate::diag::Diagnostic;

/// A line that adds a figure.
const EXAMPLE: &str = "figure own.width = outside.width + 3in";

impl Session {
    /// `figure` lists the design's own figures, `figure NAME = FORMULA` adds one.
    pub(super) fn figure_line(&mut self, text: &str) -> Result<Reply, Diagnostic> {
        if text.is_empty() {
            return Ok(Reply::Figures(self.bench.design()));
        }
        let usage = |message: &str| Diagnostic::new(message).hint(EXAMPLE);
        let Some((name, formula)) = text.split_once('=') else {
            return Err(usage("a figure is written figure NAME = FORMULA"));
        };
        let name = name.trim_end();
        if !is_name(name) {
            let wrong =
                if name.is_empty() { "a name is missing before =".into() } else { format!("{name} is no name") };
            return Err(usage(&wrong).at(0..name.len()));
        }
        if let Some(what) = meaning(name) {
            return Err(usage(&format!("{name} is {what}, so a figure needs another name")).at(0..name.len()));
        }
        let start = text.len() - formula.trim_start().len();
        let formula = formula.trim();
        if formula.is_empty() {
            return Err(usage("a formula is missing behind =").at(0..text.len()));
        }
        let before = self.bench.design();
        let design = before.with_figure(name, formula).map_err(|found| match (&found.source, &found.span) {
            (None, None) => found.hint(EXAMPLE).at(0..name.len()),
            (None, Some(_)) => {
                let found = with_unit(found, formula, self.settings.unit());
                found.shifted(start)
            }
            (Some(_), _) => found,
        })?;
        self.bench.put(design);
        Ok(self.changed(Done::Figure(name.into()), &before))
    }
}

/// Whether a text is a name with its parts: small letters, figures and `_`, dots between.
pub fn is_name(text: &str) -> bool {
    let letter = |one: char| one.is_ascii_alphanumeric() || one == '_';
    let part = |part: &str| !part.is_empty() && part.chars().all(letter);
    text.split('.').all(part) && text.starts_with(|one: char| one.is_ascii_alphabetic() || one == '_')
}
