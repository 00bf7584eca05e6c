//! What a word of the design book answers, as one JSON object.

use serde_json::{Map, Value as Json, json};

use super::json::design_object;
use super::spoken;
use crate::book::Entry;
use crate::book::text::{self, Difference};
use crate::session::Booked;

/// The object of a reply of the design book.
pub(super) fn of_booked(booked: &Booked) -> Json {
    match booked {
        Booked::Kept { name, number, written } => json!({ "kept": name, "revision": number, "written": written }),
        Booked::Opened(opened) => json!({
            "opened": opened.name,
            "revision": opened.number,
            "kept": opened.when,
            "note": opened.note,
            "retired": opened.retired,
            "design": design_object(&opened.design),
            "differences": changes(&opened.differences),
            "wall": opened.wall.iter().map(|(one, line)| json!({ "name": one.name, "was": one.was, "is": one.is, "line": line })).collect::<Vec<_>>(),
            "left_out": opened
                .left_out
                .iter()
                .map(|left| json!({ "name": left.name, "value": left.value, "because": spoken(&left.why) }))
                .collect::<Vec<_>>(),
            "tape": opened.tape,
            "program": opened.program,
        }),
        Booked::List { entries, count, .. } => {
            json!({ "designs": entries.iter().map(of_entry).collect::<Vec<_>>(), "count": count })
        }
        Booked::Revisions(name, past) => json!({
            "revisions": past
                .iter()
                .map(|one| {
                    json!({
                        "revision": one.number,
                        "kept": one.when,
                        "note": one.note,
                        "style": one.style.as_ref().map(|(name, _)| name),
                        "style_version": one.style.as_ref().map(|(_, version)| version),
                        "changed": changes(&one.changes),
                        "figures": one.figures,
                    })
                })
                .collect::<Vec<_>>(),
            "design": name,
        }),
        Booked::Compared { names, rows } => {
            let side = |row: &crate::session::booked::Side| json!({ "is": row.values, "differs": row.differs });
            let rows: Map<String, Json> = rows.iter().map(|row| (row.name.clone(), side(row))).collect();
            json!({ "compared": names, "names": rows })
        }
        Booked::Done { said, back } => json!({ "done": said, "back": back }),
        Booked::Exported { file, counts } => json!({ "exported": file, "designs": counts.0, "revisions": counts.1 }),
        Booked::Imported(file, imported) => json!({
            "imported": file,
            "designs": imported.designs,
            "revisions": imported.revisions,
            "remarks": imported.remarks,
        }),
        Booked::BackedUp(file) => json!({ "copied": file }),
        Booked::Label(label) => {
            let rows: Map<String, Json> =
                label.rows.iter().map(|(word, value)| ((*word).to_string(), value.as_str().into())).collect();
            json!({ "label": label.head, "says": rows, "date": label.date })
        }
        Booked::PickedUp(picked_up) => json!({
            "picked_up": picked_up.when,
            "steps": picked_up.steps,
            "design": design_object(&picked_up.design),
        }),
    }
}

fn of_entry(entry: &Entry) -> Json {
    json!({
        "name": entry.name,
        "revision": entry.number,
        "time": entry.time,
        "note": entry.note,
        "retired": entry.retired,
        "build": text::value(&entry.fields, text::BUILD),
        "client": text::words(&entry.fields, "client"),
    })
}

fn changes(changes: &[Difference]) -> Json {
    let pairs: Map<String, Json> =
        changes.iter().map(|one| (one.name.clone(), json!({ "was": one.was, "is": one.is }))).collect();
    pairs.into()
}
