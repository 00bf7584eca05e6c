//! What a script may use up: the one table of limits, each a setting of the shop.
//!
//! Whoever holds scripts to their limits, says that one was reached, or shows and sets them reads this table.

/// A limit of scripts.
#[derive(Debug)]
pub struct Limit {
    /// The last word of the setting: `steps` of `script.steps`.
    pub name: &'static str,
    /// What is limited, in one line.
    pub brief: &'static str,
    /// What it is unless the shop says otherwise, in the least unit: bytes, thousandths of a second, things counted.
    pub usual: u64,
    /// How many of the least unit make one of the setting's: a setting in MiB counts 1 048 576 bytes.
    pub unit: u64,
    /// A line that raises it.
    pub example: &'static str,
}

const BYTE: u64 = 1;
const MIB: u64 = 1 << 20;
const SECOND: u64 = 1000;

const fn limit(name: &'static str, brief: &'static str, usual: u64, unit: u64, example: &'static str) -> Limit {
    Limit { name, brief, usual, unit, example }
}

/// Each statement, operator, call and turn of a loop is a step or a few.
pub const STEPS: Limit = limit("steps", "most steps of a script", 10_000_000, 1, "shop script.steps 100000000");
/// A stranger's script is over within two seconds: what is in hand when the time is up is still finished.
pub const SECONDS: Limit = limit("seconds", "longest time a script may run", 1500, SECOND, "shop script.seconds 10");
/// Held beyond what the program held when the script began. A step may go past it by as much again before it is noticed,
/// so it is well below the 256 MiB that are promised.
pub const MEMORY: Limit = limit("memory", "most memory of a script, MiB", 64 * MIB, MIB, "shop script.memory 256");
/// Functions that call one another, one inside the other.
pub const DEPTH: Limit = limit("depth", "deepest nesting of function calls", 64, 1, "shop script.depth 128");
/// Brackets, blocks and operators nested in one expression.
pub const NESTING: Limit = limit("nesting", "deepest nesting of brackets", 100, 1, "shop script.nesting 200");
/// A text that a function makes, and the text of a script.
pub const TEXT: Limit = limit("text", "longest text a script makes, bytes", MIB, BYTE, "shop script.text 4000000");
/// Entries of a list or a map that a function makes.
pub const ENTRIES: Limit = limit("entries", "most entries of a list", 1_000_000, 1, "shop script.entries 4000000");
/// Scripts that import one another, one inside the other.
pub const IMPORTS: Limit = limit("imports", "deepest nesting of imports", 8, 1, "shop script.imports 16");
/// Scripts that are imported, all in all.
pub const MODULES: Limit = limit("modules", "most scripts imported by one", 64, 1, "shop script.modules 200");
/// Functions that one script defines.
pub const FUNCTIONS: Limit = limit("functions", "most functions of a script", 10_000, 1, "shop script.functions 20000");
/// What a script prints and reports about its progress, in all.
pub const PRINTED: Limit = limit("printed", "most text a script prints, MiB", 4 * MIB, MIB, "shop script.printed 16");
/// A file that a script reads.
pub const READ: Limit = limit("read", "largest file a script reads, MiB", 4 * MIB, MIB, "shop script.read 16");
/// What a script writes to files, all in all.
pub const WRITTEN: Limit =
    limit("written", "most data a script writes to files, MiB", 64 * MIB, MIB, "shop script.written 256");

/// Every limit, in the order in which they are shown.
pub const LIMITS: &[&Limit] = &[
    &STEPS, &SECONDS, &MEMORY, &DEPTH, &NESTING, &TEXT, &ENTRIES, &IMPORTS, &MODULES, &FUNCTIONS, &PRINTED, &READ,
    &WRITTEN,
];

/// The prefix of the settings.
pub const SCRIPT: &str = "script.";

impl Limit {
    /// The limit that is set by the setting of that name, `script.steps`.
    pub fn named(setting: &str) -> Option<&'static Self> {
        let name = setting.strip_prefix(SCRIPT)?;
        LIMITS.iter().copied().find(|limit| limit.name == name)
    }

    /// An amount in the least unit as the setting would have it: `1.5`.
    pub fn shown(&self, amount: u64) -> String {
        let (whole, rest) = (amount / self.unit, amount % self.unit);
        let tenths = rest.saturating_mul(10) / self.unit;
        if tenths == 0 { whole.to_string() } else { format!("{whole}.{tenths}") }
    }

    /// A line that lets `times` as much of it be used, in whole units of the setting.
    pub fn raised(&self, amount: u64, times: u64) -> String {
        let more = amount.div_ceil(self.unit).saturating_mul(times);
        format!("shop {SCRIPT}{} {more}", self.name)
    }
}

/// A limit as it usually is, in the unit of its setting.
pub fn usual_limit(setting: &str) -> Option<String> {
    Limit::named(setting).map(|limit| limit.shown(limit.usual))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_are_told_in_the_unit_of_the_setting() {
        assert_eq!(usual_limit("script.seconds").as_deref(), Some("1.5"));
        assert_eq!(usual_limit("script.memory").as_deref(), Some("64"));
        assert_eq!(usual_limit("script.steps").as_deref(), Some("10000000"));
        assert_eq!(usual_limit("script.stairs"), None);
        assert_eq!(SECONDS.raised(1500, 10), "shop script.seconds 20");
        assert_eq!(MEMORY.raised(64 << 20, 4), "shop script.memory 256");
    }

    #[test]
    fn every_limit_is_there_once_with_a_line_that_raises_it() {
        for limit in LIMITS {
            assert_eq!(LIMITS.iter().filter(|one| one.name == limit.name).count(), 1, "{}", limit.name);
            let number = limit.example.strip_prefix(&format!("shop {SCRIPT}{} ", limit.name)).expect(limit.name);
            assert!(number.parse::<u64>().unwrap() * limit.unit > limit.usual, "{}", limit.name);
        }
    }
}
