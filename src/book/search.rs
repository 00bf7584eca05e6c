//! Finds designs by words, or by a condition on their values.

use rusqlite::params;
use rusqlite::types::Null;

use super::fault::BookFault;
use super::revision::Entry;
use super::rows::{AGE, ENTRY, entry};
use super::store::DesignBook;
use super::text;
use crate::rules::condition::Kept;
use crate::rules::{Condition, Datum, Known, Type};

/// The designs in use that have the words.
const MATCH: &str = "FROM words JOIN design ON design.id = words.rowid WHERE words MATCH ?1 AND retired = 0";

impl DesignBook {
    /// Designs whose name, client or note has every word, or a word that begins with it; newest first, at most `most`, and
    /// the number in all.
    ///
    /// # Errors
    /// There is no word to look for, or the database fails.
    pub fn find(&self, words: &str, most: usize) -> Result<(Vec<Entry>, usize), BookFault> {
        // Each word is quoted by itself, so that none is taken for an operator of the search.
        let asked: Vec<String> =
            words.split_whitespace().map(|word| format!("\"{}\"*", word.replace('"', "\"\""))).collect();
        if asked.is_empty() || !words.contains(char::is_alphanumeric) {
            return Err(BookFault::NoWords);
        }
        let asked = asked.join(" ");
        self.look(|book| {
            let count: i64 = book.query_row(&format!("SELECT count(*) {MATCH}"), [&asked], |row| row.get(0))?;
            // Only designs to show are read.
            let sql = format!(
                "SELECT {ENTRY} FROM design JOIN revision ON revision.id = newest \
                 WHERE design.id IN (SELECT design.id {MATCH} ORDER BY {AGE} LIMIT ?2) ORDER BY {AGE}"
            );
            let mut rows = book.prepare(&sql)?;
            let rows = rows.query_map(params![asked, i64::try_from(most).unwrap_or(i64::MAX), self.zone], entry)?;
            Ok((rows.collect::<rusqlite::Result<_>>()?, usize::try_from(count).unwrap_or_default()))
        })
    }

    /// Designs whose newest revision meets a condition, by its saved values; newest first, at most `most`, and the number in
    /// all.
    ///
    /// # Errors
    /// The database fails.
    pub fn find_if(&self, condition: &Condition, most: usize) -> Result<(Vec<Entry>, usize), BookFault> {
        self.look(|book| {
            let sql = format!(
                "SELECT {ENTRY}, figures FROM design JOIN revision ON revision.id = newest \
                 WHERE retired = 0 ORDER BY {AGE}"
            );
            let mut statement = book.prepare(&sql)?;
            let mut rows = statement.query(params![Null, Null, self.zone])?;
            let (mut found, mut count) = (Vec::new(), 0);
            while let Some(row) = rows.next()? {
                let texts = Texts { fields: row.get_ref(6)?.as_str()?, figures: row.get_ref(7)?.as_str()? };
                if condition.holds(&texts) {
                    count += 1;
                    if found.len() < most {
                        found.push(entry(row)?);
                    }
                }
            }
            Ok((found, count))
        })
    }
}

/// A design in the database.
struct Texts<'t> {
    fields: &'t str,
    figures: &'t str,
}

impl Kept for Texts<'_> {
    fn known(&self, name: &str, of: Type) -> Option<Known> {
        // Texts and the build are saved once, with the fields.
        let value = text::value(self.figures, name).or_else(|| text::value(self.fields, name));
        text::read_known(value?, of)
    }

    fn given(&self, name: &str, of: Type) -> Option<Datum> {
        text::read(text::value(self.fields, name)?, of)
    }
}
