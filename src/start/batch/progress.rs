//! How far a run is, on standard error where that is a terminal.

use std::io::{self, IsTerminal};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

/// With a share of the whole and the time left, where it is known how much there is to read.
const WHOLE: &str = "{msg}  {wide_bar} {percent} %, {eta} left";
/// Of a pipe, whose end nobody knows.
const OPEN: &str = "{msg}";

/// A line that shows the progress of a run.
pub(super) struct Progress(ProgressBar);

impl Progress {
    /// Of a table of so many bytes, if that is known.
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

    /// What is done and not to be counted in bytes.
    pub(super) fn say(&self, what: &'static str) {
        self.0.set_message(what);
    }

    /// Takes the line away while something else is written.
    pub(super) fn aside<T>(&self, work: impl FnOnce() -> T) -> T {
        self.0.suspend(work)
    }

    /// Takes the line away.
    pub(super) fn end(&self) {
        self.0.finish_and_clear();
    }
}
