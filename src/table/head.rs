//! The headings of a table: exact names, names spelled otherwise, the trade's own words for them.

use std::sync::Arc;

use super::cells::{delimiter, report, split};
use super::column::{Column, Holds};
use crate::diag::{Diagnostic, codes};

/// What the headings of a table may be.
pub struct Headings<'a> {
    /// What the column of an exact name holds, if there is such a column.
    pub known: &'a dyn Fn(&str) -> Option<Holds>,
    /// Words of the trade, in small letters without blanks, each with the name that it stands for.
    pub aliases: &'a [(&'a str, &'a str)],
    /// Those of these words that the program writes itself, and so reads without a note.
    pub own: &'a [&'a str],
    /// The finding about any other heading.
    pub unknown: &'a dyn Fn(&str) -> Diagnostic,
}

/// The first row of a table.
#[derive(Clone, Debug)]
pub struct Head {
    /// What stands between two cells.
    pub mark: char,
    /// The columns, in their order.
    pub columns: Vec<Column>,
    /// Headings that were read as a name spelled otherwise: `Qty is read as quantity`.
    pub notes: Vec<String>,
    /// What keeps the table from being read, placed in the row: broken quotes, two columns of one name.
    pub faults: Vec<Diagnostic>,
    /// Headings that are not known, placed in the row.
    pub unknown: Vec<Diagnostic>,
}

impl Head {
    /// Reads the row that names the columns.
    pub fn read(text: &str, headings: &Headings) -> Self {
        let mark = delimiter(text);
        let (cells, faults) = split(text, mark);
        let faults = report(text, mark, &faults);
        let mut head = Self { mark, columns: Vec::new(), notes: Vec::new(), faults, unknown: Vec::new() };
        let mut seen: Vec<(Arc<str>, String)> = Vec::new();
        let mut once: Vec<&str> = Vec::new();
        for cell in &cells {
            let column = match headings.find(&cell.text) {
                _ if cell.text.is_empty() => Column::Unnamed,
                None => {
                    head.unknown.push((headings.unknown)(&cell.text).at(cell.span.clone()));
                    Column::Ignored
                }
                Some((name, holds)) => {
                    if let Some((_, other)) = seen.iter().find(|(own, _)| **own == *name) {
                        let message = twice(&name, other, &cell.text);
                        head.faults.push(Diagnostic::of(&codes::table::SHAPE, message).at(cell.span.clone()));
                        continue;
                    }
                    let is_own = headings.own.iter().any(|own| cell.text.eq_ignore_ascii_case(own));
                    if !is_own && !cell.text.eq_ignore_ascii_case(&name) {
                        head.notes.push(format!("{} is read as {name}", cell.text));
                    }
                    let name: Arc<str> = name.into();
                    seen.push((Arc::clone(&name), cell.text.clone()));
                    Column::Named(name, holds)
                }
            };
            once.push(&cell.text);
            head.columns.push(column);
        }
        // Of columns that are there twice, the head as it would do.
        let mended = once.iter().map(|name| super::field(name, mark)).collect::<Vec<_>>().join(&mark.to_string());
        head.faults = head.faults.into_iter().map(|fault| fault.or_else(|| Some(mended.clone()))).collect();
        head
    }
}

fn twice(name: &str, first: &str, second: &str) -> String {
    if first == second {
        return format!("the column {first} is there twice");
    }
    format!("the columns {first} and {second} are both {name}")
}

impl Headings<'_> {
    /// The name that a heading stands for: itself, itself in small letters or with other marks between its words, and only
    /// then a word of the trade.
    pub fn find(&self, heading: &str) -> Option<(String, Holds)> {
        let exact = |name: String| (self.known)(&name).map(|holds| (name, holds));
        let lower = heading.to_lowercase();
        let words = |joint: &str| {
            let words = lower.split([' ', '_', '-']).filter(|word| !word.is_empty());
            words.collect::<Vec<_>>().join(joint)
        };
        let spelled = || [lower.clone(), words("_"), words("."), words("")].into_iter().find_map(exact);
        let alias = || {
            let folded = words("");
            let (_, name) = self.aliases.iter().find(|(alias, _)| *alias == folded)?;
            exact((*name).to_string())
        };
        exact(heading.to_string()).or_else(spelled).or_else(alias)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn head(text: &str) -> Head {
        let known = |name: &str| match name {
            "art.width" | "quantity" | "setback" => Some(Holds::Amount),
            "name" | "thin_face" | "title" => Some(Holds::Text),
            _ => None,
        };
        let aliases = [("w", "art.width"), ("qty", "quantity"), ("title", "name"), ("lost", "nowhere")];
        let unknown = |name: &str| Diagnostic::of(&codes::table::SHAPE, format!("unknown {name}"));
        Head::read(text, &Headings { known: &known, aliases: &aliases, own: &["lost"], unknown: &unknown })
    }

    fn names(text: &str) -> Vec<String> {
        let name = |column: Column| match column {
            Column::Named(name, _) => name.to_string(),
            Column::Unnamed => String::new(),
            Column::Ignored => "-".into(),
        };
        head(text).columns.into_iter().map(name).collect()
    }

    #[test]
    fn headings_are_found_however_they_are_spelled() {
        assert_eq!(
            names("Name,ART WIDTH,Qty,Set_Back,Thin Face"),
            ["name", "art.width", "quantity", "setback", "thin_face"]
        );
        assert_eq!(names(" W ;\"quantity\";;lost"), ["art.width", "quantity", "", "-"]);
        assert_eq!(head("Name,W,QTY").notes, ["W is read as art.width", "QTY is read as quantity"]);
        // A name of the table's own wins over a word of the trade.
        assert_eq!(names("title"), ["title"]);
    }

    #[test]
    fn two_columns_of_one_name_are_a_fault() {
        let faults =
            |text: &str| head(text).faults.into_iter().map(|one| (one.message(), one.line())).collect::<Vec<_>>();
        assert_eq!(
            faults("w,name,Art Width"),
            [("the columns w and Art Width are both art.width".into(), Some("w,name".into()))]
        );
        assert_eq!(faults("name,name,w"), [("the column name is there twice".into(), Some("name,w".into()))]);
    }
}
