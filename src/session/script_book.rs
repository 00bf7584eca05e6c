//! The design book for scripts.

use std::rc::Rc;

use super::booked::Booked;
use super::handle::framed_of;
use super::stored;
use super::trail::Framed;
use super::workshop::Workshop;
use crate::book::Entry;
use crate::diag::Diagnostic;
use crate::fact::fact;
use crate::lang::{BookHandle, DesignHandle, Value};

/// The design book of a session, for its scripts.
pub(super) struct ScriptBook(pub(super) Rc<Workshop>);

impl BookHandle for ScriptBook {
    fn keep(&self, design: &dyn DesignHandle, name: &str, note: Option<&str>) -> Result<String, Diagnostic> {
        let kept = stored::keep(&self.0.shelf, &framed_of(design)?.draft(), name, note)?;
        Ok(format!("{}@{}", kept.name, kept.number))
    }

    fn open(&self, name: &str) -> Result<Rc<dyn DesignHandle>, Diagnostic> {
        let revision = stored::revision(&self.0.shelf, name).map_err(|fault| {
            // The line that would work at the prompt does not work in a script.
            Diagnostic::from(fault).only(None)
        })?;
        let (design, _) = stored::on_bench(&revision, self.0.fresh());
        Ok(self.0.hold(Framed { design: design.into(), style: revision.draft.style }))
    }

    fn list(&self, what: Option<&str>) -> Result<Vec<Value>, Diagnostic> {
        let entries = match what {
            None => self.0.shelf.look(|book| book.list(false, usize::MAX))?.0,
            Some(what) => {
                let found = match what.trim_start().strip_prefix("if ") {
                    Some(condition) => stored::find_if(&self.0.shelf, condition, usize::MAX, &self.0.settings.borrow()),
                    None => stored::find(&self.0.shelf, what, usize::MAX).map_err(Diagnostic::from),
                };
                match found {
                    Ok(Booked::List { entries, .. }) => entries,
                    Ok(_) => Vec::new(),
                    Err(found) => return Err(Diagnostic { span: None, fixes: Vec::new(), ..found }),
                }
            }
        };
        let manner = self.0.settings.borrow().manner();
        Ok(entries.iter().map(|entry| Value::of_fact(&*fact::<Entry>(entry), &manner)).collect())
    }
}
