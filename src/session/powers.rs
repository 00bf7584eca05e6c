//! What a script can reach besides designs, styles and plans. Only this file decides it.

use std::rc::{Rc, Weak};

use super::files::ScriptFiles;
use super::handle::Handle;
use super::script_book::ScriptBook;
use super::workshop::Workshop;
use crate::diag::{Diagnostic, codes};
use crate::lang::{self, BookHandle, DesignHandle, FileHandle, Powers, Value};

/// Powers of the framer's own scripts, which are lines of the prompt and files that are run: the design at the bench, the
/// design book, and files below granted folders.
pub(super) struct FramerPowers {
    pub(super) workshop: Rc<Workshop>,
    pub(super) bench: Rc<Handle>,
}

/// Powers of a house style: none. It turns a work into a design.
///
/// The workshop owns the engine of styles, so the engine holds the workshop weakly: else neither would ever be dropped, and
/// the design book never closed.
pub(super) struct StylePowers(pub(super) Weak<Workshop>);

impl Powers for FramerPowers {
    fn workshop(&self) -> Option<Rc<dyn lang::Workshop>> {
        Some(self.workshop.clone())
    }

    fn bench(&self) -> Option<Rc<dyn DesignHandle>> {
        Some(self.bench.clone())
    }

    fn book(&self) -> Option<Rc<dyn BookHandle>> {
        Some(Rc::new(ScriptBook(Rc::clone(&self.workshop))))
    }

    fn files(&self) -> Option<Rc<dyn FileHandle>> {
        let (host, grants) = (Rc::clone(&self.workshop.host), self.workshop.grants.borrow().clone());
        Some(Rc::new(ScriptFiles { host, grants }))
    }
}

impl Powers for StylePowers {
    fn workshop(&self) -> Option<Rc<dyn lang::Workshop>> {
        let workshop: Rc<dyn lang::Workshop> = self.0.upgrade()?;
        Some(workshop)
    }

    fn bench(&self) -> Option<Rc<dyn DesignHandle>> {
        Some(Rc::new(NoBench))
    }
}

/// The bench of a style, which has none.
struct NoBench;

impl NoBench {
    fn refuse<T>() -> Result<T, Diagnostic> {
        Err(Diagnostic::of(&codes::script::NOT_HERE, "a style does not see the bench; it makes a design of its own")
            .hint("let d = new_design();"))
    }
}

impl DesignHandle for NoBench {
    fn get(&self, _: &str) -> Result<Value, Diagnostic> {
        Self::refuse()
    }

    fn set(&self, _: &str, _: Value) -> Result<(), Diagnostic> {
        Self::refuse()
    }

    fn names(&self) -> Vec<String> {
        Vec::new()
    }

    fn as_any(&self) -> &dyn std::any::Any {
        self
    }
}
