//! What the framer sees: labelled text, laid out for a width, and the backends that write it.
//!
//! A page holds labelled text; the width of the terminal and its colors matter only when it is rendered. The same pages
//! go to the prompt, to files and to tests.
//!
//! Invariant: text carries labels and never a color; only `ansi.rs` writes escape codes; nothing is cut off without a
//! mark.

pub mod ansi;
pub mod answer;
pub mod canvas;
pub mod columns;
pub mod errors;
mod excerpt;
pub mod fact;
pub mod finding;
pub mod json;
mod keep;
pub mod page;
pub mod table;
pub mod tape;
pub mod text;
pub mod theme;
mod wrap;

pub use answer::Press;
pub use columns::plain_text;
pub use fact::{Memo, Object};
pub use finding::{finding, spoken};
pub use page::Page;
pub use table::{Cell, Table};
pub use tape::tape;
pub use text::{Label, Text};
