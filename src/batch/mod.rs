//! A table of works in, everything that is needed to make them out.
//!
//! [`Rows`] reads the table row by row, [`Run`] frames them on several threads in bounded chunks and gives them back in
//! the order of the table, [`Tables`] gathers the tables of the whole run. Each row is a design of its own: the
//! faults of one are reported, and the others are framed.
//!
//! Invariant: nothing here touches a terminal or a file; the same rows give the same bytes, on however many threads.

pub mod facts;
mod journal;
mod json;
mod keys;
mod made;
mod row;
mod run;
mod summary;
mod table;
mod tables;
mod weights;

pub use journal::{Done, Journal};
pub use keys::Keys;
pub use made::{COLUMNS, Made, Wants};
pub use row::{Cell, Row, State};
pub use run::{HostMaker, Run, Shop, framer};
pub use table::Rows;
pub use tables::Tables;
