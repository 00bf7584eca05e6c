//! The progress of a run, on standard error if that is a terminal.

use std::io::{self, IsTerminal};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

/// The line for a table of known size: the share that is done and the time left.
const WHOLE: &str = "{msg}  {wide_bar} {percent} %, {eta} left";
/// The line for a pipe, whose length is not known.
const OPEN: &str = "{msg}";

/// A line that shows the progress of a run.
pub(super) struct Progress(ProgressBar);

impl Progress {
    /// The progress of a table, whose size may be known.
    pub(super) fn new(bytes: Option<u64>) -> Self {
        if !io::stderr().is_terminal() {
            return Self(ProgressBar::hidden());
        }
        let bar = ProgressBar::with_draw_target(bytes, ProgressDrawTarget::stderr());
        let template = if bytes.is_some() { WHOLE } else { OPEN };
        if let Ok(style) = ProgressStyle::with_template(template) {
            bar.set_style(style);
        }
        Self(bar)
    }

    /// Shows how many rows are done and how many bytes of the table are read.
    pub(super) fn show(&self, rows: u64, bytes: u64) {
        let milliseconds = self.0.elapsed().as_millis().max(1);
        let rate = u128::from(rows) * 1000 / milliseconds;
        self.0.set_message(format!("{rows} rows, {rate} a second"));
        self.0.set_position(bytes);
    }

    /// Shows a message in place of counts.
    pub(super) fn say(&self, what: &'static str) {
        self.0.set_message(what);
    }

    /// Hides the line while `write` runs.
    pub(super) fn aside<T>(&self, work: impl FnOnce() -> T) -> T {
        self.0.suspend(work)
    }

    /// Removes the line.
    pub(super) fn end(&self) {
        self.0.finish_and_clear();
    }
}
