//! The bench language between what is typed and what the script engine runs.
//!
//! `prompt` finds what sort of line it is, `prepass` turns notation and names of the design into plain script, `srcmap`
//! leads every place of that script back to what was typed.
//!
//! Invariant: every range that leaves this module lies inside the text that was typed.

mod assigned;
mod bracket;
mod call;
mod calls;
mod first;
mod growing;
mod lex;
mod names;
mod notation;
mod path;
pub mod prepass;
pub mod prompt;
mod scope;
pub mod srcmap;
mod token;

#[cfg(test)]
mod tests;

pub use assigned::{assigned, read_of};
pub use call::Call;
pub use calls::calls_of;
pub use growing::Growing;
pub use names::{Names, Takes};
pub use prepass::{Mode, Rewritten, prepass};
pub use prompt::{Line, is_complete, lone_name, read_line, unknown_name};
pub use srcmap::SourceMap;
