//! What a run has done so far, so that it can go on where it was stopped.
//!
//! A line a row: `{"row":1,"mark":"…","file":"…","style":"…","version":"…","kept":false,"fields":"…"}`. The mark is of the
//! row, the version of all texts that the style hangs on; where either is another now, the row is made again.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, BufRead};

use serde::{Deserialize, Serialize};

use crate::session::style::hash;
use crate::shop::Settings;

/// The first line of a journal.
#[derive(Debug, PartialEq, Eq, Serialize, Deserialize)]
struct Head {
    file: String,
    format: u32,
    program: String,
    /// A mark of the settings and the shop's own rules, which all designs hang on.
    shop: String,
}

/// A row that is done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Done {
    /// The number of the row.
    pub row: u64,
    /// The mark of the row, in hexadecimal digits.
    pub mark: String,
    /// What its files are called.
    pub file: String,
    /// The style that framed it.
    pub style: String,
    /// The mark of all texts that this style hangs on.
    pub version: String,
    /// Whether it went into the design book.
    pub kept: bool,
    /// What was given to the design, as the book has it.
    pub fields: String,
}

/// The rows that an earlier run did.
#[derive(Debug, Default)]
pub struct Journal(BTreeMap<u64, Done>);

impl Journal {
    /// The rows whose files pass.
    #[must_use]
    pub fn of_files(mut self, pass: impl Fn(&str) -> bool) -> Self {
        self.0.retain(|_, done| pass(&done.file));
        self
    }

    /// The first line of a journal of rows that are made in this shop.
    pub fn head(settings: &Settings) -> String {
        let all = settings.all();
        let values = all.iter().map(|one| format!("{}={:?};", one.name, settings.get(&one.name)));
        let own = settings.rules.added.files.iter().map(|(name, text)| format!("{name}={text:?};"));
        let mark = hash(values.chain(own).collect::<String>().bytes());
        let program = env!("CARGO_PKG_VERSION").to_string();
        let head = Head { file: "benchrule batch".into(), format: 1, program, shop: format!("{mark:016x}") };
        line(&head)
    }

    /// The line of a row that is done.
    pub fn line(done: &Done) -> String {
        line(done)
    }

    /// Reads a journal; none if it is of another program or another shop. A last line that was cut off, in the middle of a
    /// letter too, is left out.
    ///
    /// # Errors
    /// It cannot be read; a line before the last is not about a row.
    pub fn read(input: impl BufRead, settings: &Settings) -> io::Result<Option<Self>> {
        let mut lines = input.split(b'\n');
        if lines.next().transpose()?.as_deref() != Some(Self::head(settings).trim_end().as_bytes()) {
            return Ok(None);
        }
        let mut journal = Self::default();
        let mut lines = (2..).zip(lines).peekable();
        while let Some((number, line)) = lines.next() {
            match serde_json::from_slice::<Done>(&line?) {
                Ok(done) => {
                    journal.0.insert(done.row, done);
                }
                Err(_) if lines.peek().is_none() => {}
                Err(_) => return Err(io::Error::other(format!("line {number} is not about a row"))),
            }
        }
        Ok(Some(journal))
    }

    /// The row of that number, if it was done and says the same.
    pub fn done(&self, number: u64, mark: u64) -> Option<&Done> {
        self.0.get(&number).filter(|done| done.mark == format!("{mark:016x}"))
    }

    /// Leaves out all rows but these, and gives the files that no row has any more.
    pub fn retain(&mut self, rows: &BTreeSet<u64>) -> Vec<String> {
        let (stays, goes): (BTreeMap<_, _>, BTreeMap<_, _>) =
            std::mem::take(&mut self.0).into_iter().partition(|(row, _)| rows.contains(row));
        self.0 = stays;
        let files: BTreeSet<&str> = self.0.values().map(|done| done.file.as_str()).collect();
        goes.into_values().map(|done| done.file).filter(|file| !files.contains(file.as_str())).collect()
    }

    /// The whole journal again, in the order of the rows.
    pub fn text(&self, settings: &Settings) -> String {
        self.0.values().fold(Self::head(settings), |text, done| text + &*line(done))
    }
}

/// Texts and numbers: there is nothing that JSON could not hold.
fn line(one: &impl Serialize) -> String {
    serde_json::to_string(one).unwrap_or_default() + "\n"
}
