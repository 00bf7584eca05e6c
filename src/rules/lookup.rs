//! Names of tables, columns and functions of the program in a formula, looked up.

use super::book::Node;
use super::native::{NATIVES, Native, native};
use super::resolve::{Maker, unknown};
use super::term::{Form, Placed, Term};
use crate::diag::{Diagnostic, Span, codes};

impl Maker<'_> {
    /// `smallest(TABLE.COLUMN, VALUE)`, `largest(TABLE.COLUMN)`, `every(TABLE.COLUMN)`, `failed(NAME)`, `fault(NAME)`.
    pub(super) fn lookup(&self, name: &str, args: &[Term], span: &Span, scope: &[u8]) -> Result<Node, Diagnostic> {
        match (name, args) {
            ("smallest", [path, least]) => {
                let (table, column) = self.column_path(path)?;
                Ok(Node::Smallest(table, column, Box::new(self.node(least, scope)?)))
            }
            ("largest", [path]) => {
                let (table, column) = self.column_path(path)?;
                Ok(Node::Largest(table, column))
            }
            ("every", [path]) => {
                let (table, column) = self.column_path(path)?;
                Ok(Node::Every(table, column))
            }
            ("failed", [of]) => Ok(Node::Failed(Box::new(self.found(of, scope)?.1))),
            ("fault", [of]) => Ok(Node::Fault(Box::new(self.found(of, scope)?.1))),
            _ => {
                let form = match name {
                    "smallest" => "smallest(TABLE.COLUMN, VALUE)",
                    "largest" => "largest(TABLE.COLUMN)",
                    "every" => "every(TABLE.COLUMN)",
                    "failed" => "failed(NAME)",
                    _ => "fault(NAME)",
                };
                Err(Diagnostic::of(&codes::rules::CALL, format!("{name} is written {form}")).at(span.clone()))
            }
        }
    }

    /// A function of the program with its arguments.
    pub(super) fn native(&self, name: &str, args: &[Term], span: &Span, scope: &[u8]) -> Result<Node, Diagnostic> {
        let place = native(name).unwrap_or_default();
        let takes = NATIVES[usize::from(place)].takes;
        if takes.len() != args.len() {
            let names: Vec<&str> = takes.iter().map(|(name, ..)| *name).collect();
            let message = format!("{name} takes {} arguments ({}), not {}", takes.len(), names.join(", "), args.len());
            return Err(Diagnostic::of(&codes::rules::CALL, message).at(span.clone()));
        }
        let args = args.iter().map(|arg| self.node(arg, scope)).collect::<Result<_, _>>()?;
        Ok(Node::Native(place, args))
    }

    /// `COLUMN of WORD`, `PART of WHAT A FUNCTION FOUND`.
    pub(super) fn part(&self, part: &Placed, whole: &Term, scope: &[u8]) -> Result<Node, Diagnostic> {
        if let Form::Word(word) = &whole.form {
            return self.of_word(part, word, &whole.span);
        }
        if let Ok((native, node)) = self.found(whole, scope) {
            let place = native.gives.iter().position(|(name, ..)| *name == part.0);
            let place = place.and_then(|place| u8::try_from(place).ok());
            let place = place.ok_or_else(|| unknown("part", part, native.gives.iter().map(|(name, ..)| *name)))?;
            return Ok(Node::Part(Box::new(node), place));
        }
        let Form::Name(name) = &whole.form else {
            return Err(Diagnostic::of(
                &codes::rules::CALL,
                "only a word of a table, or what a function found, has parts",
            )
            .at(whole.span.clone()));
        };
        let word = self.node(whole, scope)?;
        let table = self.listed.get(name).and_then(|table| self.table_place(table));
        let Some(table) = table else {
            let message = format!("{name} is not a word of a table, so it has no {}", part.0);
            return Err(Diagnostic::of(&codes::rules::CALL, message).at(whole.span.clone()));
        };
        let column = self.column(table, part)?;
        Ok(Node::Column(table, column, Box::new(word)))
    }

    /// `COLUMN of "WORD"`: the first table that has both.
    fn of_word(&self, (column, _): &Placed, word: &str, span: &Span) -> Result<Node, Diagnostic> {
        let mut tables =
            (0_u16..).zip(&self.book.tables).filter(|(_, table)| table.words.iter().any(|one| one == word));
        let found = tables.find_map(|(place, table)| {
            let at = table.columns.iter().position(|one| one.name == *column)?;
            Some(Node::Column(place, u16::try_from(at).ok()?, Box::new(Node::Word(word.into()))))
        });
        found.ok_or_else(|| {
            Diagnostic::of(&codes::rules::NAME_UNKNOWN, format!("no table has a {column} of \"{word}\""))
                .at(span.clone())
        })
    }

    /// What a function found: a name that stands for it, or the function itself.
    fn found(&self, term: &Term, scope: &[u8]) -> Result<(&'static Native, Node), Diagnostic> {
        let node = self.node(term, scope)?;
        match self.book.native_of(&node) {
            Some(native) => Ok((native, node)),
            None => Err(Diagnostic::of(&codes::rules::CALL, "this is not what a function of the program found")
                .at(term.span.clone())),
        }
    }

    fn table_place(&self, name: &str) -> Option<u16> {
        self.book.tables.iter().position(|table| table.name == name).and_then(|place| u16::try_from(place).ok())
    }

    /// The table of that name.
    pub(super) fn table_named(&self, (name, place): &Placed) -> Result<u16, Diagnostic> {
        let names = self.book.tables.iter().map(|table| table.name.as_str()).filter(|name| !name.is_empty());
        self.table_place(name).ok_or_else(|| unknown("table", &(name.clone(), place.clone()), names))
    }

    fn column(&self, table: u16, (name, place): &Placed) -> Result<u16, Diagnostic> {
        let columns =
            self.book.tables.get(usize::from(table)).map(|table| table.columns.as_slice()).unwrap_or_default();
        let column = columns.iter().position(|column| column.name == *name).and_then(|at| u16::try_from(at).ok());
        let known = columns.iter().map(|column| column.name.as_str());
        column.ok_or_else(|| unknown("column", &(name.clone(), place.clone()), known))
    }

    fn column_path(&self, term: &Term) -> Result<(u16, u16), Diagnostic> {
        let fault = || Diagnostic::of(&codes::rules::CALL, "a column is written TABLE.COLUMN").at(term.span.clone());
        let Form::Name(path) = &term.form else { return Err(fault()) };
        let (table, column) = path.split_once('.').ok_or_else(fault)?;
        let place = self.table_named(&(table.into(), term.span.clone()))?;
        Ok((place, self.column(place, &(column.to_string(), term.span.clone()))?))
    }
}
