//! What a failed line offers, tried on the bench before it is shown.

use std::panic::{AssertUnwindSafe, catch_unwind};

use super::session::Session;
use crate::diag::{Diagnostic, Fix};
use crate::lang::{Line, read_line};

impl Session {
    /// Leaves out the fixes of a finding that would fail here, or stop the design. Lines that write to disk, that change
    /// the shop or that run scripts are not tried.
    pub(super) fn keep_what_works(&mut self, typed: &str, found: &mut Diagnostic) {
        if found.source.is_some() {
            return;
        }
        let span = found.span.clone();
        found.fixes.retain(|fix: &Fix| fix.line(typed, span.as_ref()).is_none_or(|line| !self.fails(&line)));
    }

    /// Whether a line fails, or brings a check that stops the design; the bench stays as it is.
    fn fails(&mut self, line: &str) -> bool {
        if !self.can_be_tried(line) {
            return false;
        }
        let before = self.bench.framed();
        let stopped = before.design.stops();
        let result = catch_unwind(AssertUnwindSafe(|| self.dispatch(line).is_ok()));
        let after = self.bench.replace(before);
        let stops = after.design.stops();
        let _ = (self.scripts.take_printed(), self.shelf.take_remarks());
        !result.unwrap_or(false) || stops.iter().any(|name| !stopped.contains(name))
    }

    /// Whether a line changes nothing but the bench, and is soon done.
    fn can_be_tried(&self, line: &str) -> bool {
        match read_line(line, self) {
            Ok(Line::Set { .. } | Line::Show { .. }) | Err(_) => true,
            Ok(Line::Command { word, .. }) => SOON_DONE.contains(&word),
            Ok(Line::Blank | Line::Expression) => false,
        }
    }
}

/// Words that change nothing but the bench, and are soon done.
const SOON_DONE: &[&str] = &[
    "new",
    "clear",
    "why",
    "aim",
    "figure",
    "tape",
    "hang",
    "movement",
    "tolerance",
    "help",
    "style",
    "open",
    "find",
    "revisions",
    "compare",
];
