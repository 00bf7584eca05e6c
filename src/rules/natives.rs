//! What the functions of the program do. Each takes its arguments in the order of [`super::native::NATIVES`] and finds
//! a record, or a fault.

mod args;
mod corner;
mod measured;
mod moisture;
mod oval;
mod places;
mod screw;

use self::args::Args;
use super::book::Book;
use super::datum::{Datum, Fault, Record};
use super::native::{Native, Work};

impl Native {
    /// What it finds, in the order of what it gives, by the tables of a book.
    ///
    /// Takes a value for each of what it takes, in that order and of that kind, lists with the least first; nothing for
    /// what may be lacking and is.
    ///
    /// # Errors
    /// There is nothing to be found, and why.
    pub fn find(&self, book: &Book, args: &[Option<Datum>]) -> Result<Record, Fault> {
        let args = Args(args);
        match self.work {
            Work::Screw => screw::choose(book, &args),
            Work::Places => places::along(&args),
            Work::Moisture => moisture::content(&args),
            Work::Swelling => moisture::swelling(&args),
            Work::Seat => measured::seat(&args),
            Work::Oval => oval::rail(&args),
            Work::Brad => corner::driven(&args),
            Work::Key => corner::key(&args),
            Work::Mitres => corner::mitres(&args),
            Work::Racked => corner::leaning(&args),
            Work::Unlike => corner::unlike(&args),
        }
    }
}
