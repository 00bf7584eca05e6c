//! Sheets for scripts that print them.

use super::answer;
use crate::measure::write::Manner;
use crate::rules::Design;
use crate::session::{Paper, Planned, Reply};

/// Lays pages out for a width, without colour.
#[derive(Clone, Copy, Debug)]
pub struct Press {
    /// How many columns there are.
    pub width: usize,
}

impl Paper for Press {
    fn sheet(&self, design: &Design) -> String {
        let text = answer::sheet(design, None).render(self.width, false);
        text.trim_end().to_string()
    }

    fn plan(&self, planned: &Planned, manner: &Manner) -> String {
        let reply = Reply::Plan(Box::new(planned.clone()));
        answer::page(&reply, manner, self.width).render(self.width, false).trim_end().to_string()
    }
}
