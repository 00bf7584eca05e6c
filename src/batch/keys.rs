//! What a column may be called.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::Arc;

use super::row::STYLE;
use crate::diag::{Diagnostic, codes, list, near};
use crate::rules::FIGURE;
use crate::session::Framer;
use crate::session::figure::is_name;
use crate::table::{Headings, Holds};

/// The trade's own words for columns of works. A work is its art, so a width is that of the art.
pub(super) const ALIASES: &[(&str, &str)] = &[
    ("title", "name"),
    ("w", "art.width"),
    ("width", "art.width"),
    ("h", "art.height"),
    ("height", "art.height"),
    ("d", "art.depth"),
    ("size", "art"),
    ("dimensions", "art"),
    ("qty", "quantity"),
    ("count", "quantity"),
    ("copies", "quantity"),
    ("customer", "client"),
    ("notes", "note"),
    ("remarks", "note"),
    ("species", "wood"),
    ("timber", "wood"),
    ("molding", "moulding"),
    ("rebate", "rabbet"),
    ("glass", "glazing.kind"),
    ("glazing", "glazing.kind"),
    ("backing", "backing.kind"),
];

/// The names that columns may have: fields of any build, `build`, `style`, what styles ask for, and `figure.NAME` with
/// formulas for figures of the designs' own.
pub struct Keys<'a> {
    framer: &'a Framer,
    known: RefCell<BTreeMap<String, Arc<str>>>,
}

impl<'a> Keys<'a> {
    /// Those of a shop.
    pub fn new(framer: &'a Framer) -> Self {
        Self { framer, known: RefCell::default() }
    }

    /// What the column of a name holds, if there is such a column.
    pub(super) fn holds(&self, name: &str) -> Option<Holds> {
        if name == STYLE || name.strip_prefix(FIGURE).is_some_and(is_name) {
            return Some(Holds::Text);
        }
        self.framer.holds(name)
    }

    /// Keys of JSON objects that were read as a name spelled otherwise: `W is read as art.width`.
    pub(super) fn notes(&self) -> Vec<String> {
        let known = self.known.borrow();
        let others = known.iter().filter(|(name, key)| !name.eq_ignore_ascii_case(key));
        others.map(|(name, key)| format!("{name} is read as {key}")).collect()
    }

    /// The name that a key of a JSON object stands for, found as the heading of a column is.
    ///
    /// # Errors
    /// It is not, with near names; a figure, which follows from fields.
    pub(super) fn key(&self, name: &str) -> Result<Arc<str>, Diagnostic> {
        if let Some(known) = self.known.borrow().get(name) {
            return Ok(Arc::clone(known));
        }
        let (known, unknown) = (|name: &str| self.holds(name), |name: &str| self.unknown(name));
        let headings = Headings { known: &known, aliases: ALIASES, own: &[], unknown: &unknown };
        let (own, _) = headings.find(name).ok_or_else(|| self.unknown(name))?;
        let key: Arc<str> = own.into();
        self.known.borrow_mut().insert(name.into(), Arc::clone(&key));
        Ok(key)
    }

    /// The finding about a name that is not a column.
    pub(super) fn unknown(&self, name: &str) -> Diagnostic {
        let book = self.framer.book();
        if book.slot(name).is_some() {
            return Diagnostic::of(
                &codes::batch::COLUMN,
                format!("{name} is a figure that follows from fields, and no column sets it"),
            );
        }
        // A slip in the last part of a dotted name is the likeliest, so a name that ends so is near too.
        let ends = format!(".{name}");
        let fields = || book.all_names().filter(|name| self.framer.is_field(name)).chain([STYLE]);
        let mut offered = near(name, fields());
        offered.extend(fields().filter(|field| field.ends_with(&ends)).take(2));
        let message = format!("there is no field {name}, and no style asks for it");
        match offered.as_slice() {
            [] => Diagnostic::of(&codes::batch::COLUMN, format!("{message}; take the column out of the table")),
            some => {
                Diagnostic::of(&codes::batch::COLUMN, format!("{message}; is it {}?", list(some, "or"))).hint(some[0])
            }
        }
    }
}
