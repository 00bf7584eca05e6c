//! Findings: what cannot be done, where, why, and what would work.
//!
//! A finding is data: a code from one table ([`codes`]), what it is about, a message made of words and values
//! ([`Says`]), and fixes ([`Fix`]). Only `show` turns a message into text, so nothing can be decided by its wording.
//!
//! Invariant: nothing here knows a frame, a script or a terminal.

pub mod codes;
mod diagnostic;
mod fault;
mod fix;
mod list;
mod near;
mod numbers;
mod place;
pub(crate) mod says;

pub use codes::Code;
pub use diagnostic::Diagnostic;
pub use fault::Fault;
pub use fix::Fix;
pub use list::{count, list};
pub use near::near;
pub use numbers::numbers;
pub use place::{Source, Span, line_column};
pub(crate) use says::says;
pub use says::{Part, Says};
