//! What a script may use up, and what is said when it does.

use std::fmt;
use std::time::Duration;

use crate::diag::Fault;

/// What a script may use up. The defaults end a stranger's script within two seconds and 256 MiB.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Limits {
    /// Steps: each statement, operator, call and turn of a loop is one or a few.
    pub steps: u64,
    /// How long it may run.
    pub time: Duration,
    /// Bytes held beyond what the program held when the script began. A single step may go past it by as much
    /// again before it is noticed, so it is well below what is promised.
    pub memory: usize,
    /// Functions that call one another, one inside the other.
    pub depth: usize,
    /// Brackets, blocks and operators nested in one expression.
    pub nesting: usize,
    /// Bytes of a text that a function makes, and of a script.
    pub text: usize,
    /// Entries of a list or a map that a function makes.
    pub entries: usize,
    /// Scripts that import one another, one inside the other.
    pub imports: usize,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            steps: 10_000_000,
            time: Duration::from_millis(1500),
            memory: 64 << 20,
            depth: 64,
            nesting: 100,
            text: 1 << 20,
            entries: 1_000_000,
            imports: 8,
        }
    }
}

/// A limit that was reached.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reached {
    /// So many steps.
    Steps(u64),
    /// So long.
    Time(Duration),
    /// So many bytes.
    Memory(usize),
    /// Calls one inside the other.
    Depth(usize),
    /// Nested deeper than there is stack for.
    Stack,
    /// Nested too deep as it is written.
    Nesting(usize),
    /// Bytes of a text.
    Text(usize),
    /// Entries of a list or map.
    Entries(usize),
    /// Imports one inside the other.
    Imports(usize),
    /// Values in one call.
    Values(usize),
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
            Self::Nesting(levels) => write!(f, "this has more than {levels} levels of brackets and operators"),
            Self::Text(bytes) => write!(f, "a text may have at most {bytes} characters"),
            Self::Entries(entries) => write!(f, "a list or a map may have at most {entries} entries"),
            Self::Imports(depth) => write!(f, "scripts import one another more than {depth} deep"),
            Self::Values(values) => write!(f, "a call takes at most {values} values"),
            Self::Stopped => f.write_str("stopped"),
        }
    }
}

impl Fault for Reached {
    fn hint(&self) -> Option<String> {
        let (setting, value) = match self {
            Self::Steps(steps) => ("steps", steps.saturating_mul(10).to_string()),
            Self::Time(time) => ("seconds", (time.as_secs().saturating_add(1).saturating_mul(10)).to_string()),
            Self::Memory(bytes) => ("memory", (bytes >> 20).saturating_mul(4).to_string()),
            Self::Depth(depth) => ("depth", depth.saturating_mul(2).to_string()),
            Self::Nesting(levels) => ("nesting", levels.saturating_mul(2).to_string()),
            Self::Text(bytes) => ("text", bytes.saturating_mul(4).to_string()),
            Self::Entries(entries) => ("entries", entries.saturating_mul(4).to_string()),
            Self::Imports(depth) => ("imports", depth.saturating_mul(2).to_string()),
            Self::Stack | Self::Values(_) | Self::Stopped => return None,
        };
        Some(format!("shop script.{setting} {value}"))
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
