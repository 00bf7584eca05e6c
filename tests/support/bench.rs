//! A bench to type at, and what it shows.

use std::rc::Rc;

use benchrule::host::Memory;
use benchrule::session::{Outcome, Session};
use benchrule::shop::Settings;
use benchrule::show::{Press, answer, finding};

/// How wide it shows things.
const WIDTH: usize = 80;

/// A session in memory.
pub struct Bench(pub Session);

/// What was shown for a line.
pub struct Shown {
    /// As on a terminal, errors included.
    pub text: String,
    /// What came of the line.
    pub outcome: Outcome,
}

impl Bench {
    pub fn new() -> Self {
        Self::with(&[])
    }

    /// With these files on its disk.
    pub fn with(files: &[(&str, &str)]) -> Self {
        let host = Rc::new(Memory::with(files));
        Self(Session::new(host, Settings::default(), Rc::new(Press { width: WIDTH })))
    }

    pub fn line(&mut self, line: &str) -> Shown {
        let outcome = self.0.line(line);
        let mut text: String = outcome.printed.iter().map(|line| format!("{line}\n")).collect();
        match &outcome.reply {
            Ok(reply) => text += &answer::page(reply, &self.0.manner(), WIDTH).render(WIDTH, false),
            Err(found) => found.iter().for_each(|one| text += &finding(one, line, WIDTH).render(WIDTH, false)),
        }
        Shown { text, outcome }
    }
}

impl Shown {
    pub fn failed(&self) -> bool {
        self.outcome.reply.is_err()
    }
}
