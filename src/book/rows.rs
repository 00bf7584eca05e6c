//! Rows of the database, read and written.

use rusqlite::{Connection, OptionalExtension, Row, params};

use super::revision::{Draft, Entry, Mark, Revision};
use super::text;

/// The columns that [`revision`] reads, from `design.name` and `design.retired` on.
pub(super) const REVISION: &str = "design.name, design.retired, number, time, strftime('%Y-%m-%d %H:%M', time, ?1), \
     note, program, fields, figures, tape, style, style_version";

pub(super) fn revision(row: &Row) -> rusqlite::Result<Revision> {
    let style: Option<String> = row.get(10)?;
    let version: Option<String> = row.get(11)?;
    Ok(Revision {
        name: row.get(0)?,
        retired: row.get(1)?,
        number: row.get(2)?,
        time: row.get(3)?,
        when: row.get::<_, Option<String>>(4)?.unwrap_or_default(),
        note: row.get(5)?,
        program: row.get(6)?,
        draft: Draft {
            fields: row.get(7)?,
            figures: row.get(8)?,
            tape: row.get(9)?,
            style: style.map(|name| Mark { name, version: version.unwrap_or_default() }),
        },
    })
}

/// The row of a design.
pub(super) struct Head {
    pub(super) id: i64,
    pub(super) retired: bool,
    /// The number of the newest revision.
    pub(super) number: u32,
}

pub(super) fn head(connection: &Connection, name: &str) -> rusqlite::Result<Option<Head>> {
    const HEAD: &str = "SELECT design.id, retired, number FROM design JOIN revision ON revision.id = newest \
         WHERE name = ?1";
    let head = |row: &Row| Ok(Head { id: row.get(0)?, retired: row.get(1)?, number: row.get(2)? });
    connection.query_row(HEAD, [name], head).optional()
}

/// The order of lists: newest first by time, then by order of saving.
pub(super) const AGE: &str = "kept DESC, newest DESC";

/// The columns that [`entry`] reads; the third parameter is the clock for times.
pub(super) const ENTRY: &str = "name, retired, number, time, strftime('%Y-%m-%d %H:%M', time, ?3), note, fields";

pub(super) fn entry(row: &Row) -> rusqlite::Result<Entry> {
    Ok(Entry {
        name: row.get(0)?,
        retired: row.get(1)?,
        number: row.get(2)?,
        time: row.get(3)?,
        when: row.get::<_, Option<String>>(4)?.unwrap_or_default(),
        note: row.get(5)?,
        fields: row.get(6)?,
    })
}

/// A revision to write.
pub(super) struct New<'a> {
    pub(super) number: u32,
    pub(super) time: &'a str,
    pub(super) note: &'a str,
    pub(super) program: &'a str,
    pub(super) draft: &'a Draft,
}

/// Universal time, as saved.
pub(super) fn time(connection: &Connection, now: i64) -> rusqlite::Result<String> {
    connection.query_row("SELECT strftime('%Y-%m-%dT%H:%M:%SZ', ?1, 'unixepoch')", [now], |row| row.get(0))
}

pub(super) fn make_design(change: &Connection, name: &str, retired: bool) -> rusqlite::Result<i64> {
    change.execute("INSERT INTO design (name, retired) VALUES (?1, ?2)", params![name, retired])?;
    Ok(change.last_insert_rowid())
}

/// Adds a revision after the others of its design.
pub(super) fn append(change: &Connection, design: i64, name: &str, new: &New) -> rusqlite::Result<()> {
    let (style, version) = match &new.draft.style {
        Some(mark) => (Some(&mark.name), Some(&mark.version)),
        None => (None, None),
    };
    change.execute(
        "INSERT INTO revision (design, number, time, note, style, style_version, program, tape, fields, figures) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
        params![
            design,
            new.number,
            new.time,
            new.note,
            style,
            version,
            new.program,
            new.draft.tape,
            new.draft.fields,
            new.draft.figures
        ],
    )?;
    let id = change.last_insert_rowid();
    change.execute("UPDATE design SET newest = ?2, kept = ?3 WHERE id = ?1", params![design, id, new.time])?;
    index_words(change, design, name, new.note, &new.draft.fields)
}

/// Updates the search index for the newest revision of a design.
pub(super) fn index(change: &Connection, design: i64) -> rusqlite::Result<()> {
    let newest = "SELECT name, note, fields FROM design JOIN revision ON revision.id = newest WHERE design.id = ?1";
    let (name, note, fields): (String, String, String) =
        change.query_row(newest, [design], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?;
    index_words(change, design, &name, &note, &fields)
}

fn index_words(change: &Connection, design: i64, name: &str, note: &str, fields: &str) -> rusqlite::Result<()> {
    let both = |one: &str, field: &str| format!("{one} {}", text::words(fields, field));
    change.execute(
        "INSERT OR REPLACE INTO words (rowid, name, client, note) VALUES (?1, ?2, ?3, ?4)",
        params![design, both(name, "name"), text::words(fields, "client"), both(note, "note")],
    )?;
    Ok(())
}

/// The revision with this number.
pub(super) fn find(connection: &Connection, zone: &str, name: &str, number: u32) -> rusqlite::Result<Option<Revision>> {
    let sql =
        format!("SELECT {REVISION} FROM revision JOIN design ON design.id = design WHERE name = ?2 AND number = ?3");
    connection.query_row(&sql, params![zone, name, number], revision).optional()
}
