//! What a failed line offers, tried on the bench before it is shown.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;

use super::command::{Action, word};
use super::session::Session;
use super::stock::read_takes;
use super::stored::{new_name, revision};
use crate::diag::{Diagnostic, Fix, codes, numbers};
use crate::lang::{Line, read_line};
use crate::shop::parts;
use crate::word::{Args, Given, Kind, Tested};

impl Session {
    /// Leaves out the fixes of a finding that would fail here, or stop the design. A line that does more than change the
    /// bench is read and not run.
    pub(super) fn keep_what_works(&mut self, typed: &str, found: &mut Diagnostic) {
        if found.source.is_some() {
            return;
        }
        // A line that is put together from values shows what names stand for, and leaves out what is around them.
        if found.code == &codes::script::KIND {
            found.fixes.retain(|fix| !matches!(fix, Fix::Line(line) if numbers(line) != numbers(typed)));
        }
        let span = found.span.clone();
        found.fixes.retain(|fix: &Fix| fix.line(typed, span.as_ref()).is_none_or(|line| !self.fails(&line)));
    }

    /// Whether a line fails, or brings a check that stops the design; the bench stays as it is.
    pub(super) fn fails(&mut self, line: &str) -> bool {
        match self.trial(line) {
            Trial::Run => {}
            Trial::Known(works) => return !works,
        }
        let (before, trail) = (self.bench.framed(), self.trail.clone());
        let stopped = before.design.stops();
        let result = catch_unwind(AssertUnwindSafe(|| self.dispatch(line).is_ok()));
        let after = self.bench.replace(before);
        self.trail = trail;
        let stops = after.design.stops();
        let _ = (self.scripts.take_printed(), self.shelf.take_remarks());
        !result.unwrap_or(false) || stops.iter().any(|name| !stopped.contains(name))
    }

    /// Whether a line is of a form that no reading of a slip offers; a finding about stock itself may offer it.
    pub(super) fn is_uncertain(&self, line: &str) -> bool {
        let Ok(Line::Command { word: name, rest, .. }) = read_line(line, self) else { return false };
        word(name).and_then(|word| word.read(line, rest).ok()).is_some_and(|(form, _)| form.tested == Tested::Never)
    }

    /// What can be learned about a line without doing more than change the bench.
    fn trial(&mut self, line: &str) -> Trial {
        match read_line(line, self) {
            Ok(Line::Set { .. } | Line::Show { .. }) => Trial::Run,
            Ok(Line::Command { word: name, rest, .. }) => match word(name).map(|word| word.read(line, rest)) {
                Some(Ok((form, args))) => match form.tested {
                    Tested::ByRunning => Trial::Run,
                    Tested::ByReading | Tested::Never => {
                        Trial::Known(args.iter().all(|given| self.exists(given)) && self.has_matter(form.action, &args))
                    }
                },
                Some(Err(_)) | None => Trial::Known(false),
            },
            Ok(Line::Expression) => {
                // It may set fields of the design on the bench.
                let before = self.bench.framed();
                let runs = self.scripts.runs(line);
                self.bench.replace(before);
                Trial::Known(runs)
            }
            Ok(Line::Blank) => Trial::Known(true),
            Err(_) => Trial::Known(false),
        }
    }

    /// Whether there is what a form works on beside its arguments.
    #[expect(clippy::wildcard_enum_match_arm, reason = "a few forms work on what must be there first")]
    fn has_matter(&self, action: Action, args: &Args) -> bool {
        match action {
            Action::BookExport => self.is_book_empty().is_ok_and(|empty| !empty),
            Action::Parts | Action::Plan => {
                self.designs(args).is_ok_and(|all| all.iter().any(|(_, design)| !parts(design).is_empty()))
            }
            Action::PlanTake => self.planned.as_ref().is_some_and(|made| made.planned.whole.is_recorded),
            Action::PlanPutBack => read_takes(self.host()).is_ok_and(|takes| !takes.bookings.is_empty()),
            Action::StockDrop => {
                self.whole_rack().is_ok_and(|rack| (1..=rack.items.len()).contains(&args.number(Kind::Row)))
            }
            Action::ShopSet => {
                self.settings.clone().set(args.text(Kind::Setting), args.text(Kind::SettingValue)).is_ok()
            }
            _ => true,
        }
    }

    /// Whether there is what an argument names, or a design can have the name.
    #[expect(clippy::wildcard_enum_match_arm, reason = "a few kinds name what must exist")]
    fn exists(&mut self, given: &Given) -> bool {
        match given.arg.kind {
            Kind::Design | Kind::Revision | Kind::Retired => revision(&self.shelf, given.text()).is_ok(),
            Kind::Cells => self.takes_row(given.text()),
            // An empty design is not saved.
            Kind::Saved => !self.design().is_empty() && new_name(&self.shelf, given.text()).is_ok(),
            Kind::Script | Kind::SourceFile => self.host().read(Path::new(given.text())).is_ok(),
            Kind::NewDesign => new_name(&self.shelf, given.text()).is_ok(),
            Kind::StyleOrFile => {
                let is_style = self.style_rows().iter().any(|style| style.name == given.text());
                is_style || self.shelf.host().read(Path::new(given.text())).is_ok()
            }
            _ => true,
        }
    }
}

/// What is known about a line before it runs.
enum Trial {
    /// It may be run to see.
    Run,
    /// Whether it works, as far as is known without running it.
    Known(bool),
}
