//! The limits of a script, and the faults for reaching them.

use std::fmt;
use std::time::Duration;

use crate::diag::Fault;
use crate::shop::{Limit, Settings, limits};

/// The limits of a script, one for each row of [`crate::shop::limits`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Limits {
    /// Steps: a statement, an operator, a call or a turn of a loop takes one or a few.
    pub steps: u64,
    /// Running time.
    pub time: Duration,
    /// Bytes held beyond what the program held when the script began. One step may exceed this by as much again before
    /// the watch sees it, so it is well below what is promised.
    pub memory: usize,
    /// Nested calls.
    pub depth: usize,
    /// Nested brackets, blocks and operators in one expression.
    pub nesting: usize,
    /// Bytes of a script, and of a text that a function makes.
    pub text: usize,
    /// Entries of a list or a map that a function makes.
    pub entries: usize,
    /// Nested imports.
    pub imports: usize,
    /// Imported scripts in all.
    pub modules: usize,
    /// Functions that a script defines.
    pub functions: usize,
    /// Bytes printed in all.
    pub printed: usize,
    /// Bytes of one file read.
    pub read: usize,
    /// Bytes written to files in all.
    pub written: usize,
}

impl Limits {
    /// The limits of a shop.
    pub fn of(settings: &Settings) -> Self {
        let size = |limit: &Limit| usize::try_from(settings.limit(limit)).unwrap_or(usize::MAX);
        Self {
            steps: settings.limit(&limits::STEPS),
            time: Duration::from_millis(settings.limit(&limits::SECONDS)),
            memory: size(&limits::MEMORY),
            depth: size(&limits::DEPTH),
            nesting: size(&limits::NESTING),
            text: size(&limits::TEXT),
            entries: size(&limits::ENTRIES),
            imports: size(&limits::IMPORTS),
            modules: size(&limits::MODULES),
            functions: size(&limits::FUNCTIONS),
            printed: size(&limits::PRINTED),
            read: size(&limits::READ),
            written: size(&limits::WRITTEN),
        }
    }
}

/// The limits of a shop without settings.
impl Default for Limits {
    fn default() -> Self {
        Self::of(&Settings::default())
    }
}

/// A limit that was reached.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reached {
    /// Steps.
    Steps(u64),
    /// Running time.
    Time(Duration),
    /// Bytes of memory.
    Memory(usize),
    /// Nested calls.
    Depth(usize),
    /// Nesting beyond the stack.
    Stack,
    /// Nesting in the text.
    Nesting(usize),
    /// Bytes of a text.
    Text(usize),
    /// Entries of a list or map.
    Entries(usize),
    /// Nested imports.
    Imports(usize),
    /// Imported scripts.
    Modules(usize),
    /// Arguments of one call.
    Values(usize),
    /// Bytes printed.
    Printed(usize),
    /// Bytes written to files.
    Written(usize),
    /// Not a limit: someone pressed Ctrl-C.
    Stopped,
}

impl fmt::Display for Reached {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Steps(steps) => write!(f, "stopped after {steps} steps"),
            Self::Time(time) => write!(f, "stopped after {} seconds", time.as_secs_f32()),
            Self::Memory(bytes) => write!(f, "stopped because it uses more than {} MiB of memory", bytes >> 20),
            Self::Depth(depth) => write!(f, "functions call one another more than {depth} deep"),
            Self::Stack => f.write_str("this is nested too deep"),
            Self::Nesting(levels) => write!(f, "this has more than {levels} levels of brackets and signs"),
            Self::Text(bytes) => write!(f, "a text may have at most {bytes} characters"),
            Self::Entries(entries) => write!(f, "a list or a map may have at most {entries} entries"),
            Self::Imports(depth) => write!(f, "scripts import one another more than {depth} deep"),
            Self::Values(values) => write!(f, "a call takes at most {values} values"),
            Self::Modules(scripts) => write!(f, "a script imports at most {scripts} others"),
            Self::Printed(bytes) => write!(f, "a script prints at most {} MiB", bytes >> 20),
            Self::Written(bytes) => write!(f, "a script writes at most {} MiB to files", bytes >> 20),
            Self::Stopped => f.write_str("stopped"),
        }
    }
}

impl Fault for Reached {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::TOO_LONG
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }

    fn hint(&self) -> Option<String> {
        let size = |bytes: usize| u64::try_from(bytes).unwrap_or(u64::MAX);
        Some(match self {
            Self::Steps(steps) => limits::STEPS.raised(*steps, 10),
            Self::Time(time) => limits::SECONDS.raised(u64::try_from(time.as_millis()).unwrap_or(u64::MAX), 10),
            Self::Memory(bytes) => limits::MEMORY.raised(size(*bytes), 4),
            Self::Depth(depth) => limits::DEPTH.raised(size(*depth), 2),
            Self::Nesting(levels) => limits::NESTING.raised(size(*levels), 2),
            Self::Text(bytes) => limits::TEXT.raised(size(*bytes), 4),
            Self::Entries(entries) => limits::ENTRIES.raised(size(*entries), 4),
            Self::Imports(depth) => limits::IMPORTS.raised(size(*depth), 2),
            Self::Modules(scripts) => limits::MODULES.raised(size(*scripts), 4),
            Self::Printed(bytes) => limits::PRINTED.raised(size(*bytes), 4),
            Self::Written(bytes) => limits::WRITTEN.raised(size(*bytes), 4),
            Self::Stack | Self::Values(_) | Self::Stopped => return None,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_says_how_it_is_raised() {
        let limits = Limits::default();
        let steps = Reached::Steps(limits.steps);
        assert_eq!(steps.to_string(), "stopped after 10000000 steps");
        assert_eq!(steps.hint().unwrap(), "shop script.steps 100000000");
        assert_eq!(Reached::Memory(limits.memory).hint().unwrap(), "shop script.memory 256");
        assert_eq!(Reached::Time(limits.time).to_string(), "stopped after 1.5 seconds");
        assert_eq!(Reached::Stopped.hint(), None);
    }
}
