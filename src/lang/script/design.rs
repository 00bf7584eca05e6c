//! What a script sees of a design.

use std::fmt;
use std::rc::Rc;

use super::value::Value;
use crate::diag::Diagnostic;

/// The name of the design at the bench in every script.
pub const DESIGN: &str = "design";

/// What a script sees of a design. A handle is shared, so setting a field goes through a plain reference.
pub trait DesignHandle {
    /// The field or figure called `name`, dotted names too.
    ///
    /// # Errors
    /// There is none of this name, or it has no value yet.
    fn get(&self, name: &str) -> Result<Value, Diagnostic>;

    /// The size called `name` as it is made, on the marks of the tape.
    ///
    /// # Errors
    /// There is none of this name, or it has no value yet.
    fn made(&self, name: &str) -> Result<Value, Diagnostic> {
        self.get(name)
    }

    /// Gives the field called `name` a value.
    ///
    /// # Errors
    /// There is no such field, or it does not take this value.
    fn set(&self, name: &str, value: Value) -> Result<(), Diagnostic>;

    /// Every field and figure that there is, for completion and for near names.
    fn names(&self) -> Vec<String>;

    /// Itself, for whoever made it.
    fn as_any(&self) -> &dyn std::any::Any;
}

/// A design in the hands of a script.
#[derive(Clone)]
pub struct Design(pub Rc<dyn DesignHandle>);

impl Design {
    /// Whether both are the very same design.
    pub fn is(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl fmt::Debug for Design {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Design")
    }
}
