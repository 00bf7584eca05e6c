//! Tables of values in rows and columns: read strictly, and written so that no cell runs in a spreadsheet.
//!
//! Lenient readers lose rows without a word: a quote that never closes swallows the rest of the table, and `"18"1/2`
//! becomes 90 1/2 in. A size that is misread is cut wrong, so everything that is not clear is reported here with its line,
//! its column and its cell. Parts, stock, plans, batch runs and scripts all read their rows through [`Reader`].
//!
//! Invariant: nothing else in the program takes a row apart.

mod cells;
mod column;
mod date;
mod faults;
mod head;
mod lines;
mod number;
mod reader;
mod sheet;
mod values;
mod write;

pub use cells::{Cell, cells, delimiter};
pub use column::{Column, Holds};
pub use faults::{MOST_SHOWN, brief, capped};
pub use head::{Head, Headings};
pub use lines::{Line, Lines};
pub use number::not_a_date;
pub use reader::{Reader, Row};
pub use sheet::{Entry, Kind, Sheet, Spec};
pub use values::LONGEST;
pub use write::{field, spoken, table, unspoken};
