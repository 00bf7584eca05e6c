//! The settings of the shop: read from `shop.toml`, shown and set at the bench, written when asked.

use std::borrow::Cow;
use std::collections::BTreeMap;

use toml_edit::{Document, DocumentMut, Item, Table, Value};

use super::limits::{LIMITS, Limit, SCRIPT};
use crate::diag::{Code, Diagnostic, Fault, Fix, Says, Span, codes, list, near};
use crate::measure::Graduation;
use crate::measure::write::Manner;
use crate::rules::book::SHOP;
use crate::rules::{Design, Rules, shipped};

/// The settings of one shop.
#[derive(Clone, Debug)]
pub struct Settings {
    /// The rules of the shop: those that ship, and its own on top.
    pub rules: Rules,
    /// The tape on the bench; its marks decide the bench unit.
    pub graduation: Graduation,
    /// What the fields `shop.…` of the rules are in this shop, by the last word of their names, as text that reads back.
    pub fields: BTreeMap<String, String>,
    /// Limits of scripts that are other than usual, by the last word of the setting, in its unit.
    pub script: BTreeMap<&'static str, u64>,
}

impl Default for Settings {
    fn default() -> Self {
        Self::by(shipped())
    }
}

/// A setting: its name, what it takes, what it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Setting {
    /// As it is typed and written.
    pub name: Cow<'static, str>,
    /// What it is, in one line.
    pub brief: Cow<'static, str>,
    /// A line that sets it.
    pub example: Cow<'static, str>,
}

const fn setting(name: &'static str, brief: &'static str, example: &'static str) -> Setting {
    Setting { name: Cow::Borrowed(name), brief: Cow::Borrowed(brief), example: Cow::Borrowed(example) }
}

/// The settings of the bench.
const BENCH: &[Setting] = &[
    setting("unit", "unit of a bare number, in or mm", "shop unit mm"),
    setting("graduation", "finest marks of the tape", "shop graduation 1/32 in"),
];

/// The file of the settings.
pub const FILE: &str = "shop.toml";

/// Why a setting is not set.
#[derive(Clone, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum SettingFault {
    Unknown { name: String, near: Vec<Setting> },
    Unit(String),
    Graduation(String),
    Field(Box<Diagnostic>),
    Number { name: String, text: String },
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
            // At the bench a setting is called by its own name alone.
            Self::Field(_) => Ok(()),
            Self::Number { name, text } => write!(f, "{name} is a whole number above 0, not {text}"),
            Self::Clash { unit, graduation } => write!(f, "a tape in {unit} is not marked in {graduation}"),
        }
    }
}

impl SettingFault {
    /// Every value that a setting may have.
    fn choices(&self) -> Vec<String> {
        match self {
            Self::Unit(_) => ["in", "mm"].map(String::from).to_vec(),
            Self::Graduation(_) => Graduation::all().map(|one| one.name.into()).collect(),
            Self::Unknown { .. } | Self::Field(_) | Self::Number { .. } | Self::Clash { .. } => Vec::new(),
        }
    }
}

impl Fault for SettingFault {
    fn code(&self) -> &'static Code {
        match self {
            Self::Field(found) => found.code,
            Self::Unknown { .. } => &codes::setting::UNKNOWN,
            Self::Unit(_) | Self::Graduation(_) | Self::Number { .. } => &codes::setting::VALUE,
            Self::Clash { .. } => &codes::setting::CLASH,
        }
    }

    fn says(&self) -> Says {
        match self {
            // At the bench a setting is called by its own name alone.
            Self::Field(found) => found.says.clone().renamed(|name| name.strip_prefix(SHOP)),
            Self::Unknown { .. } | Self::Unit(_) | Self::Graduation(_) | Self::Number { .. } | Self::Clash { .. } => {
                self.to_string().into()
            }
        }
    }
    fn fixes(&self) -> Vec<Fix> {
        let line = |line: String| vec![Fix::Line(line)];
        match self {
            Self::Unknown { near, .. } => {
                line(near.first().map_or_else(|| "help shop".into(), |near| format!("help {}", near.name)))
            }
            Self::Unit(_) | Self::Graduation(_) => vec![Fix::Choices(self.choices())],
            Self::Field(found) => {
                let short = |text: &String| text.replacen(SHOP, "", 1);
                let fix = |fix: &Fix| match fix {
                    Fix::Setting(name, value) => Fix::Line(format!("shop {} {value}", short(name))),
                    Fix::Line(text) => Fix::Line(short(text)),
                    Fix::Value(_) | Fix::Choices(_) => fix.clone(),
                };
                found.fixes.iter().map(fix).collect()
            }
            Self::Number { name, .. } => line(format!("help {name}")),
            Self::Clash { .. } => line("shop graduation".into()),
        }
    }
}

impl Settings {
    /// Those of a shop with these rules that says nothing else.
    pub fn by(rules: Rules) -> Self {
        Self { rules, graduation: Graduation::sixteenths(), fields: BTreeMap::new(), script: BTreeMap::new() }
    }

    /// Every setting: those of the bench, the fields `shop.…` of the rules, the limits of scripts.
    pub fn all(&self) -> Vec<Setting> {
        let design = Design::new(self.rules.clone(), Manner::default());
        let fields = (0..).zip(&self.rules.names).filter_map(|(slot, name)| {
            let short = name.text.strip_prefix(SHOP)?;
            let example = design.example(slot).replacen(SHOP, "shop ", 1);
            Some(Setting { name: short.to_string().into(), brief: name.doc.clone().into(), example: example.into() })
        });
        let limits = LIMITS.iter().map(|limit| Setting {
            name: format!("{SCRIPT}{}", limit.name).into(),
            brief: limit.brief.into(),
            example: limit.example.into(),
        });
        BENCH.iter().cloned().chain(fields).chain(limits).collect()
    }

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
            other => match other.strip_prefix(SCRIPT) {
                Some(limit) => self.script.get(limit).map(u64::to_string),
                None => self.fields.get(other).cloned().or_else(|| self.usual(other)),
            },
        }
    }

    /// What a field of the rules is where this shop says nothing.
    fn usual(&self, name: &str) -> Option<String> {
        let design = Design::new(self.rules.clone(), self.manner());
        design.shown(design.slot(&format!("{SHOP}{name}")).ok()?)
    }

    /// What a script may use up of something, in its least unit.
    pub fn limit(&self, limit: &Limit) -> u64 {
        self.script.get(limit.name).map_or(limit.usual, |number| number.saturating_mul(limit.unit))
    }

    /// Sets one.
    ///
    /// # Errors
    /// An unknown name, a value that it does not take.
    pub fn set(&mut self, name: &str, text: &str) -> Result<(), SettingFault> {
        let text = text.trim();
        let text = text.strip_prefix('"').and_then(|text| text.strip_suffix('"')).unwrap_or(text);
        match name {
            "unit" => self.set_unit(text)?,
            "graduation" => self.graduation = graduation(text).ok_or_else(|| SettingFault::Graduation(text.into()))?,
            _ => match Limit::named(name) {
                Some(limit) => {
                    let number = text.replace('_', "").parse().ok().filter(|number| *number > 0);
                    let number = number.ok_or_else(|| SettingFault::Number { name: name.into(), text: text.into() })?;
                    self.script.insert(limit.name, number);
                }
                None => self.set_field(name, text)?,
            },
        }
        Ok(())
    }

    fn set_field(&mut self, name: &str, text: &str) -> Result<(), SettingFault> {
        let full = format!("{SHOP}{name}");
        let mut design = Design::new(self.rules.clone(), self.manner());
        let Some(slot) = design.book().slot(&full) else {
            let all = self.all();
            let near = near(name, all.iter().map(|setting| &*setting.name));
            let near = near.into_iter().filter_map(|near| all.iter().find(|setting| setting.name == near)).cloned();
            return Err(SettingFault::Unknown { name: name.into(), near: near.collect() });
        };
        let field = |found: Diagnostic| SettingFault::Field(Box::new(found));
        let mut plain = |text: &str| Err(Diagnostic::of(&codes::setting::FILE, format!("{name} does not take {text}")));
        let input = design
            .read_input(&full, text, &mut plain)
            .map_err(|found| field(design.in_line(&full, text, found, &mut plain)))?;
        design.set(&full, input).map_err(|refusal| field(refusal.into()))?;
        match design.given_text(slot) {
            Some(text) => self.fields.insert(name.into(), text),
            None => self.fields.remove(name),
        };
        Ok(())
    }

    /// An empty design in this shop.
    pub fn fresh(&self) -> Design {
        let mut design = Design::new(self.rules.clone(), self.manner());
        self.fit(&mut design);
        design
    }

    /// Gives a design the tape of this shop and its values of the fields `shop.…`.
    pub fn fit(&self, design: &mut Design) {
        if *design.manner() != self.manner() {
            design.set_manner(self.manner());
        }
        let full = |name: &str| format!("{SHOP}{name}");
        let is_usual = |name: &&str| !self.fields.contains_key(*name);
        let old = design.given_names().filter_map(|name| name.strip_prefix(SHOP)).filter(is_usual).map(full);
        for name in old.collect::<Vec<_>>() {
            let _ = design.clear(&name);
        }
        for (name, text) in &self.fields {
            let plain = |text: &str| Err(Diagnostic::of(&codes::setting::FILE, text));
            // Each was read when it was set, so it reads again.
            if let Ok(input) = design.read_input(&full(name), text, &mut { plain }) {
                let _ = design.set(&full(name), input);
            }
        }
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
    pub fn read(text: &str, rules: Rules) -> Result<Self, Vec<Diagnostic>> {
        let inside = |found: Diagnostic| found.inside(FILE, text);
        let document = Document::parse(text).map_err(|error| {
            let message = Says::quoted(error.message().lines().next().unwrap_or("not readable"));
            vec![inside(Diagnostic::of(&codes::setting::FILE, message).at(error.span().unwrap_or(0..0)))]
        })?;
        let mut settings = Self::by(rules);
        let mut found = Vec::new();
        settings.read_table(document.as_table(), "", &mut found);
        if found.is_empty() { Ok(settings) } else { Err(found.into_iter().map(inside).collect()) }
    }

    fn read_table(&mut self, table: &Table, prefix: &str, found: &mut Vec<Diagnostic>) {
        // The unit comes first, so that a graduation of the other unit is seen to clash.
        let mut items: Vec<(&str, &Item)> = table.iter().collect();
        items.sort_by_key(|(key, _)| *key != "unit");
        let mut unit = None;
        for (key, item) in items {
            let name = format!("{prefix}{key}");
            let place: Span = table.key(key).and_then(toml_edit::Key::span).unwrap_or(0..0);
            if let Some(inner) = item.as_table() {
                if name == "script" {
                    self.read_table(inner, SCRIPT, found);
                } else {
                    found.push(
                        Diagnostic::of(&codes::setting::FILE, format!("there is no part [{name}]"))
                            .at(place)
                            .hint("[script]"),
                    );
                }
                continue;
            }
            let text = match (item.as_str(), item.as_integer()) {
                (Some(text), _) => text.to_string(),
                (_, Some(number)) => number.to_string(),
                _ => item.to_string(),
            };
            let at_value = item.span().unwrap_or(place.clone());
            match self.set(&name, &text) {
                Err(SettingFault::Unknown { name, near }) => {
                    let hint = near.first().map(|near| near.name.trim_start_matches(SCRIPT).to_string());
                    let fault = Diagnostic::from(SettingFault::Unknown { name, near });
                    found.push(fault.only(hint).at(place));
                }
                Err(SettingFault::Field(inner)) => {
                    let value = |line: String| line.split_once(' ').map_or(line.clone(), |(_, value)| value.into());
                    let hint = inner.fixed(&text).into_iter().find(|line| !line.starts_with("help ")).map(value);
                    found.push(Diagnostic::from(SettingFault::Field(inner)).only(hint).at(at_value));
                }
                Err(fault) => found.push(Diagnostic::from(fault).only(None).at(at_value)),
                Ok(()) if name == "unit" => unit = Some(self.unit()),
                Ok(()) if name == "graduation" && unit.is_some_and(|unit| unit != self.unit()) => {
                    let clash =
                        SettingFault::Clash { unit: unit.unwrap_or_default().into(), graduation: self.graduation.name };
                    found.push(Diagnostic::from(clash).only(None).at(at_value));
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
        for (name, text) in &self.fields {
            put(&mut document[name.as_str()], text.as_str().into());
        }
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diag::line_column;

    fn read(text: &str) -> Result<Settings, Vec<Diagnostic>> {
        Settings::read(text, shipped())
    }

    #[test]
    fn a_written_file_reads_back() {
        let mut settings = Settings::default();
        for (name, text) in [("graduation", "0.5mm"), ("wood", "Hard  Maple"), ("script.steps", "1_000")] {
            settings.set(name, text).unwrap();
        }
        let old = "# the south shop\nwood = \"cherry\" # for now\n";
        let text = settings.write(old);
        assert!(text.starts_with("# the south shop\nwood = \"hard maple\" # for now\n"), "{text}");
        let back = read(&text).unwrap();
        assert_eq!((back.fields, back.script), (settings.fields, settings.script));
        assert_eq!(back.graduation, settings.graduation);
    }

    #[track_caller]
    fn bad(text: &str, line: usize, column: usize, message: &str, hint: Option<&str>) {
        let found = read(text).unwrap_err();
        let place = found[0].span.clone().expect("placed");
        assert_eq!(line_column(text, place.start), (line, column), "{}", found[0].message());
        assert_eq!(found[0].message(), message);
        assert_eq!(found[0].offered(text).as_deref(), hint);
    }

    #[test]
    fn faults_are_placed_with_near_names() {
        bad("unit = \"in\"\ngradation = \"1/16 in\"\n", 2, 1, "there is no setting gradation", Some("graduation"));
        bad("unit = \"ell\"", 1, 8, "the bench unit is in or mm, not ell", None);
        bad("[script]\nsteps = 1\nstep = 1", 3, 1, "there is no setting script.step", Some("steps"));
        bad("[script]\nsteps = -4", 2, 9, "script.steps is a whole number above 0, not -4", None);
        bad("wood = \"chery\"", 1, 8, "there is no wood called chery", Some("cherry"));
        bad("[tools]\nsaw = 1", 1, 2, "there is no part [tools]", Some("[script]"));
        bad("graduation = \"1/16 in\"\nunit = \"mm\"", 1, 14, "a tape in mm is not marked in 1/16 in", None);
        assert!(read("unit = ").unwrap_err()[0].span.is_some());
    }

    #[test]
    fn the_unit_takes_its_usual_tape() {
        let mut settings = Settings::default();
        settings.set("unit", "mm").unwrap();
        assert_eq!(settings.graduation.name, "1 mm");
        settings.set("graduation", "1/32\"").unwrap();
        assert_eq!(settings.unit(), "in");
        assert!(settings.set("graduation", "1/7 in").unwrap_err().to_string().contains("1/8 in"));
    }
}
