//! What a script sees of a design.

use std::fmt;
use std::rc::Rc;

use super::value::Value;
use crate::diag::Diagnostic;

/// The name of the design at the bench in every script.
pub const DESIGN: &str = "design";

/// What a script sees of a design. A handle is shared, so setting a field goes through a plain reference.
pub trait DesignHandle {
    /// The field or figure called `name`, which may be dotted.
    ///
    /// # Errors
    /// There is no such name, or it has no value yet.
    fn get(&self, name: &str) -> Result<Value, Diagnostic>;

    /// The size called `name` as made, on the marks of the tape.
    ///
    /// # Errors
    /// There is no such name, or it has no value yet.
    fn made(&self, name: &str) -> Result<Value, Diagnostic> {
        self.get(name)
    }

    /// Sets the field called `name`.
    ///
    /// # Errors
    /// There is no such field, or it refuses the value.
    fn set(&self, name: &str, value: Value) -> Result<(), Diagnostic>;

    /// All fields and figures, for completion and near names.
    fn names(&self) -> Vec<String>;

    /// The handle itself, so that its maker can recover the type.
    fn as_any(&self) -> &dyn std::any::Any;
}

/// A design as a value of a script.
#[derive(Clone)]
pub struct Design(pub Rc<dyn DesignHandle>);

impl Design {
    /// Whether both are the same design, not merely equal ones.
    pub fn is(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl fmt::Debug for Design {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Design")
    }
}
