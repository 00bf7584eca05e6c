//! Rows of truth: what a figure must be, and what says so.

use std::fs;
use std::path::{Path, PathBuf};

use num_rational::BigRational;
use num_traits::ToPrimitive;

use crate::arithmetic::{Value, printed, worked};
use crate::seconds::{Fields, methods};

/// What says what a figure must be.
#[derive(Clone, Debug, PartialEq)]
pub enum Holder {
    /// Printed digits, and where they stand.
    Published(String),
    /// A second method, by its name.
    Second(String),
    /// A working that is worked out here.
    Hand,
}

/// A row of a table of truth.
#[derive(Clone, Debug)]
pub struct Row {
    /// File and line.
    pub place: String,
    /// The marks of the tape, and the fields as they are typed, in order.
    pub design: String,
    /// The figure, or `check NAME`, `piece NAME: DETAIL`.
    pub subject: String,
    /// What it is as drawn and as made: one of a word, a printed number, `~` and a number whose last digit is rounded.
    pub expected: [String; 2],
    /// What says so.
    pub holder: Holder,
    /// The workings as drawn and as made, of a row worked by hand or printed in other units.
    workings: [String; 2],
}

/// The columns of a table of truth.
pub const COLUMNS: &str = "design\tfigure\tdrawn\tmade\theld by\tworking\tworking as made";

/// The folder of the tables.
pub fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/truth")
}

/// All rows of all tables. Where the design is left blank it is that of the row before.
pub fn rows() -> Vec<Row> {
    let mut files: Vec<PathBuf> = fs::read_dir(folder()).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|file| file.extension().is_some_and(|end| end == "tsv"));
    files.sort();
    let each = |file: &PathBuf| read(&file.file_name().unwrap().to_string_lossy(), &fs::read_to_string(file).unwrap());
    files.iter().flat_map(each).collect()
}

fn read(file: &str, text: &str) -> Vec<Row> {
    let mut lines = (1..).zip(text.lines()).filter(|(_, line)| !line.starts_with('#') && !line.trim().is_empty());
    let (_, head) = lines.next().unwrap_or((0, ""));
    assert_eq!(head, COLUMNS, "{file}");
    let mut design = String::new();
    lines
        .map(|(number, line)| {
            let place = format!("{file}:{number}");
            let mut cells: Vec<&str> = line.split('\t').map(str::trim).collect();
            assert!((5..=7).contains(&cells.len()), "{place}: {} cells", cells.len());
            cells.resize(7, "");
            if !cells[0].is_empty() {
                design = cells[0].into();
            }
            let made = if cells[3].is_empty() { cells[2] } else { cells[3] };
            let made_working = if cells[6].is_empty() { cells[5] } else { cells[6] };
            Row {
                design: design.clone(),
                subject: cells[1].into(),
                expected: [cells[2].into(), made.into()],
                holder: holder(cells[4]).unwrap_or_else(|| panic!("{place}: what is `{}`?", cells[4])),
                workings: [cells[5].into(), made_working.into()],
                place,
            }
        })
        .collect()
}

fn holder(text: &str) -> Option<Holder> {
    match text.split_once(' ').unwrap_or((text, "")) {
        ("by", "hand") => Some(Holder::Hand),
        ("second", name) => Some(Holder::Second(name.into())),
        // Author or body, title, year, table or page; read or from memory.
        ("published", place) if place.ends_with("(read)") || place.ends_with("(memory)") => {
            Some(Holder::Published(place.into()))
        }
        _ => None,
    }
}

impl Row {
    /// The tape, and the fields with what is typed for each.
    pub fn fields(&self) -> (Option<&str>, Vec<(&str, &str)>) {
        let (tape, fields) = match self.design.strip_prefix('[').and_then(|rest| rest.split_once(']')) {
            Some((tape, fields)) => (Some(tape), fields),
            None => (None, self.design.as_str()),
        };
        let pairs = fields.split(';').map(str::trim).filter(|field| !field.is_empty());
        (tape, pairs.map(|field| field.split_once(' ').unwrap_or((field, ""))).collect())
    }

    /// Why the row does not hold by itself: what its working or its second method gives is not what it says.
    pub fn fault(&self) -> Option<String> {
        let worked: Result<[Value; 2], String> = match &self.holder {
            Holder::Published(_) if self.workings[0].is_empty() => return None,
            // The working turns printed digits into the units of the figure.
            Holder::Published(_) | Holder::Hand => match self.workings.each_ref().map(|text| worked(text)) {
                [Ok(drawn), Ok(made)] => Ok([drawn, made]),
                [Err(why), _] | [_, Err(why)] => Err(why),
            },
            Holder::Second(name) => match methods().find(|(known, _)| known == name) {
                Some((_, method)) => {
                    let (_, fields) = self.fields();
                    let value = Value::Float(method(&Fields::new(&fields), &self.subject));
                    // A working as made rounds the value `v` of the method, or does without it.
                    let made = match self.workings[1].as_str() {
                        "" => Ok(value.clone()),
                        text => worked(&format!("v = {:.15} + 0; {text}", value.float())),
                    };
                    made.map(|made| [value, made])
                }
                None => Err(format!("there is no second method called {name}")),
            },
        };
        let worked = match worked {
            Ok(worked) => worked,
            Err(why) => return Some(why),
        };
        let mut pairs = self.expected.iter().zip(&worked);
        let (text, value) = pairs.find(|(text, value)| !meets(if is_word(text) { "fires" } else { text }, value))?;
        Some(format!("it is worked out as {}, and the row says {text}", value.float()))
    }
}

/// Whether a value is what is printed: exactly, or behind `~` to the last digit that is printed. `fires` is 1.
pub fn meets(text: &str, value: &Value) -> bool {
    let text = match text {
        "fires" => "~1",
        "silent" => "~0",
        text => text,
    };
    let (rough, text) = text.strip_prefix('~').map_or((false, text), |rest| (true, rest));
    let Some(is) = printed(text) else { return false };
    match value {
        Value::Exact(value) if !rough => *value == is,
        Value::Exact(_) | Value::Float(_) => {
            rough && (value.float() - float(&is)).abs() <= 0.5000001 * last_digit(text)
        }
    }
}

/// Whether it is the word of a figure. The working of a word says why it is this one: it comes to 1 where that holds.
fn is_word(text: &str) -> bool {
    text != "silent" && printed(text.trim_start_matches('~')).is_none()
}

fn float(exact: &BigRational) -> f64 {
    exact.to_f64().unwrap_or(f64::NAN)
}

/// What the last digit of a decimal number is worth.
fn last_digit(text: &str) -> f64 {
    let places = text.split_once('.').map_or(0, |(_, part)| part.len());
    10_f64.powi(-i32::try_from(places).unwrap_or(0))
}
