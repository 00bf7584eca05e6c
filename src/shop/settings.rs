//! The settings of the shop: read from `shop.toml`, shown and set at the bench, written when asked.

use std::collections::BTreeMap;

use toml_edit::{Document, DocumentMut, Item, Table, Value};

use crate::diag::{Diagnostic, Fault, Span, list, near};
use crate::measure::Graduation;
use crate::measure::write::Manner;

/// The settings of one shop.
#[derive(Clone, Debug, PartialEq)]
pub struct Settings {
    /// The tape on the bench; its marks decide the bench unit.
    pub graduation: Graduation,
    /// The wood that rails are of unless told otherwise.
    pub wood: String,
    /// Limits of scripts that are other than usual, by the last word of the setting.
    pub script: BTreeMap<&'static str, u64>,
}

impl Default for Settings {
    fn default() -> Self {
        Self { graduation: Graduation::sixteenths(), wood: "poplar".into(), script: BTreeMap::new() }
    }
}

/// A setting: its name, what it takes, what it is.
#[derive(Debug)]
pub struct Setting {
    /// As it is typed and written.
    pub name: &'static str,
    /// What it is, in one line.
    pub brief: &'static str,
    /// A line that sets it.
    pub example: &'static str,
}

/// Every setting.
pub const SETTINGS: &[Setting] = &[
    Setting { name: "unit", brief: "what a bare number is, in or mm", example: "shop unit mm" },
    Setting { name: "graduation", brief: "the finest marks of the tape", example: "shop graduation 1/32 in" },
    Setting { name: "wood", brief: "the wood of rails unless told otherwise", example: "shop wood cherry" },
    Setting { name: "script.steps", brief: "most steps of a script", example: "shop script.steps 100000000" },
    Setting { name: "script.seconds", brief: "longest run of a script", example: "shop script.seconds 10" },
    Setting { name: "script.memory", brief: "most memory of a script, MiB", example: "shop script.memory 256" },
    Setting { name: "script.depth", brief: "most functions inside one another", example: "shop script.depth 128" },
    Setting { name: "script.nesting", brief: "most brackets inside one another", example: "shop script.nesting 200" },
    Setting { name: "script.text", brief: "longest text a script makes, bytes", example: "shop script.text 4000000" },
    Setting { name: "script.entries", brief: "most entries of a list", example: "shop script.entries 4000000" },
    Setting { name: "script.imports", brief: "most imports inside one another", example: "shop script.imports 16" },
];

/// The file of the settings.
pub const FILE: &str = "shop.toml";

/// The prefix of the limits of scripts.
const SCRIPT: &str = "script.";

/// Why a setting is not set.
#[derive(Clone, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum SettingFault {
    Unknown { name: String, near: Vec<&'static str> },
    Unit(String),
    Graduation(String),
    Wood { word: String, near: Vec<String> },
    Number { name: &'static str, text: String },
    Clash { unit: String, graduation: &'static str },
}

impl std::fmt::Display for SettingFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Unknown { name, .. } => write!(f, "there is no setting {name}"),
            Self::Unit(text) => write!(f, "the bench unit is in or mm, not {text}"),
            Self::Graduation(text) => {
                let names: Vec<&str> = Graduation::all().map(|one| one.name).collect();
                write!(f, "a tape is marked in {}, not {text}", list(&names, "or"))
            }
            Self::Wood { word, .. } => write!(f, "there is no wood {word} in the tables"),
            Self::Number { name, text } => write!(f, "{name} is a whole number above 0, not {text}"),
            Self::Clash { unit, graduation } => write!(f, "a tape in {unit} is not marked in {graduation}"),
        }
    }
}

impl Fault for SettingFault {
    fn hint(&self) -> Option<String> {
        match self {
            Self::Unknown { near, .. } => near.first().map(|name| example(name)),
            Self::Unit(_) => Some("shop unit in".into()),
            Self::Graduation(_) => Some("shop graduation 1/16 in".into()),
            Self::Wood { near, .. } => near.first().map(|wood| format!("shop wood {wood}")),
            Self::Number { name, .. } => Some(example(name)),
            Self::Clash { .. } => Some("shop graduation 1 mm".into()),
        }
    }
}

fn example(name: &str) -> String {
    SETTINGS.iter().find(|setting| setting.name == name).map_or_else(String::new, |setting| setting.example.into())
}

impl Settings {
    /// How quantities are shown.
    pub fn manner(&self) -> Manner {
        Manner { graduation: self.graduation.clone() }
    }

    /// The bench unit.
    pub fn unit(&self) -> &'static str {
        if self.graduation.metric { "mm" } else { "in" }
    }

    /// The value of a setting as text; a limit of scripts that is as usual has none.
    pub fn get(&self, name: &str) -> Option<String> {
        match name {
            "unit" => Some(self.unit().into()),
            "graduation" => Some(self.graduation.name.into()),
            "wood" => Some(self.wood.clone()),
            other => self.script.get(other.strip_prefix(SCRIPT)?).map(u64::to_string),
        }
    }

    /// Sets one; `woods` are the words that a wood may be.
    ///
    /// # Errors
    /// An unknown name, a value that it does not take.
    pub fn set(&mut self, name: &str, text: &str, woods: &[String]) -> Result<(), SettingFault> {
        let text = text.trim();
        let text = text.strip_prefix('"').and_then(|text| text.strip_suffix('"')).unwrap_or(text);
        let Some(setting) = SETTINGS.iter().find(|setting| setting.name == name) else {
            let near = near(name, SETTINGS.iter().map(|setting| setting.name));
            return Err(SettingFault::Unknown { name: name.into(), near });
        };
        match setting.name {
            "unit" => self.set_unit(text)?,
            "graduation" => self.graduation = graduation(text).ok_or_else(|| SettingFault::Graduation(text.into()))?,
            "wood" => self.wood = wood(text, woods)?,
            limit => {
                let number = text.replace('_', "").parse().ok().filter(|number| *number > 0);
                let number = number.ok_or_else(|| SettingFault::Number { name: limit, text: text.into() })?;
                self.script.insert(limit.trim_start_matches(SCRIPT), number);
            }
        }
        Ok(())
    }

    /// Another unit takes its usual tape; the same unit keeps the tape.
    fn set_unit(&mut self, text: &str) -> Result<(), SettingFault> {
        match text {
            "in" | "inch" | "inches" if self.graduation.metric => self.graduation = Graduation::sixteenths(),
            "mm" if !self.graduation.metric => self.graduation = Graduation::millimetres(),
            "in" | "inch" | "inches" | "mm" => {}
            _ => return Err(SettingFault::Unit(text.into())),
        }
        Ok(())
    }

    /// Reads the text of a settings file.
    ///
    /// # Errors
    /// Every finding, each with its place in the text.
    pub fn read(text: &str, woods: &[String]) -> Result<Self, Vec<Diagnostic>> {
        let inside = |found: Diagnostic| found.inside(FILE, text);
        let document = Document::parse(text).map_err(|error| {
            let message = error.message().lines().next().unwrap_or("not readable").to_string();
            vec![inside(Diagnostic::new(message).at(error.span().unwrap_or(0..0)))]
        })?;
        let mut settings = Self::default();
        let mut found = Vec::new();
        settings.read_table(document.as_table(), "", woods, &mut found);
        if found.is_empty() { Ok(settings) } else { Err(found.into_iter().map(inside).collect()) }
    }

    fn read_table(&mut self, table: &Table, prefix: &str, woods: &[String], found: &mut Vec<Diagnostic>) {
        // The unit comes first, so that a graduation of the other unit is seen to clash.
        let mut items: Vec<(&str, &Item)> = table.iter().collect();
        items.sort_by_key(|(key, _)| *key != "unit");
        let mut unit = None;
        for (key, item) in items {
            let name = format!("{prefix}{key}");
            let place: Span = table.key(key).and_then(toml_edit::Key::span).unwrap_or(0..0);
            if let Some(inner) = item.as_table() {
                if name == "script" {
                    self.read_table(inner, SCRIPT, woods, found);
                } else {
                    found.push(Diagnostic::new(format!("there is no part [{name}]")).at(place).hint("[script]"));
                }
                continue;
            }
            let text = match (item.as_str(), item.as_integer()) {
                (Some(text), _) => text.to_string(),
                (_, Some(number)) => number.to_string(),
                _ => item.to_string(),
            };
            let at_value = item.span().unwrap_or(place.clone());
            match self.set(&name, &text, woods) {
                Err(SettingFault::Unknown { name, near }) => {
                    let hint = near.first().map(|near| near.trim_start_matches(SCRIPT).to_string());
                    let message = SettingFault::Unknown { name, near }.to_string();
                    found.push(Diagnostic { hint, ..Diagnostic::new(message).at(place) });
                }
                Err(fault) => found.push(Diagnostic::new(fault.to_string()).at(at_value)),
                Ok(()) if name == "unit" => unit = Some(self.unit()),
                Ok(()) if name == "graduation" && unit.is_some_and(|unit| unit != self.unit()) => {
                    let clash =
                        SettingFault::Clash { unit: unit.unwrap_or_default().into(), graduation: self.graduation.name };
                    found.push(Diagnostic::new(clash.to_string()).at(at_value));
                }
                Ok(()) => {}
            }
        }
    }

    /// The text of a settings file: `old` with these settings in it, its comments and order kept.
    pub fn write(&self, old: &str) -> String {
        let mut document: DocumentMut = old.parse().unwrap_or_default();
        put(&mut document["unit"], self.unit().into());
        put(&mut document["graduation"], self.graduation.name.into());
        put(&mut document["wood"], self.wood.as_str().into());
        for (name, limit) in &self.script {
            document["script"].or_insert(toml_edit::table());
            put(&mut document["script"][name], i64::try_from(*limit).unwrap_or(i64::MAX).into());
        }
        document.to_string()
    }
}

/// Puts a value in its place, with the blanks and comments that stood around the old one.
fn put(item: &mut Item, new: Value) {
    match item.as_value_mut() {
        Some(old) => {
            let around = old.decor().clone();
            *old = new;
            *old.decor_mut() = around;
        }
        None => *item = Item::Value(new),
    }
}

/// The graduation written so, blanks and the inch mark however they stand.
fn graduation(text: &str) -> Option<Graduation> {
    let folded = |text: &str| text.replace(' ', "").replace('"', "in");
    Graduation::all().find(|one| folded(one.name) == folded(text))
}

fn wood(text: &str, woods: &[String]) -> Result<String, SettingFault> {
    let folded = text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    if woods.contains(&folded) {
        return Ok(folded);
    }
    let near = near(text, woods.iter().map(String::as_str)).into_iter().map(Into::into).collect();
    Err(SettingFault::Wood { word: text.into(), near })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diag::line_column;

    fn woods() -> Vec<String> {
        vec!["poplar".into(), "cherry".into(), "hard maple".into()]
    }

    #[test]
    fn a_written_file_reads_back() {
        let mut settings = Settings::default();
        for (name, text) in [("graduation", "0.5mm"), ("wood", "Hard  Maple"), ("script.steps", "1_000")] {
            settings.set(name, text, &woods()).unwrap();
        }
        let old = "# the south shop\nwood = \"cherry\" # for now\n";
        let text = settings.write(old);
        assert!(text.starts_with("# the south shop\nwood = \"hard maple\" # for now\n"), "{text}");
        assert_eq!(Settings::read(&text, &woods()).unwrap(), settings);
    }

    #[track_caller]
    fn bad(text: &str, line: usize, column: usize, message: &str, hint: Option<&str>) {
        let found = Settings::read(text, &woods()).unwrap_err();
        let place = found[0].span.clone().expect("placed");
        assert_eq!(line_column(text, place.start), (line, column), "{}", found[0].message);
        assert_eq!(found[0].message, message);
        assert_eq!(found[0].hint.as_deref(), hint);
    }

    #[test]
    fn faults_are_placed_with_near_names() {
        bad("unit = \"in\"\ngradation = \"1/16 in\"\n", 2, 1, "there is no setting gradation", Some("graduation"));
        bad("unit = \"ell\"", 1, 8, "the bench unit is in or mm, not ell", None);
        bad("[script]\nsteps = 1\nstep = 1", 3, 1, "there is no setting script.step", Some("steps"));
        bad("[script]\nsteps = -4", 2, 9, "script.steps is a whole number above 0, not -4", None);
        bad("wood = \"chery\"", 1, 8, "there is no wood chery in the tables", None);
        bad("[tools]\nsaw = 1", 1, 2, "there is no part [tools]", Some("[script]"));
        bad("graduation = \"1/16 in\"\nunit = \"mm\"", 1, 14, "a tape in mm is not marked in 1/16 in", None);
        assert!(Settings::read("unit = ", &woods()).unwrap_err()[0].span.is_some());
    }

    #[test]
    fn the_unit_takes_its_usual_tape() {
        let mut settings = Settings::default();
        settings.set("unit", "mm", &woods()).unwrap();
        assert_eq!(settings.graduation.name, "1 mm");
        settings.set("graduation", "1/32\"", &woods()).unwrap();
        assert_eq!(settings.unit(), "in");
        assert!(settings.set("graduation", "1/7 in", &woods()).unwrap_err().to_string().contains("1/8 in"));
    }
}
