//! What the functions of the program do. Each takes its arguments in the order of [`super::native::NATIVES`] and finds
//! a record, or says why there is none.

mod corner;
mod measured;
mod moisture;
mod oval;
mod places;
mod screw;

use std::sync::Arc;

use super::book::{Book, Cell, Table};
use super::evaluate::Datum;
use super::native::{Native, Work};
use super::term::Piece;
use crate::measure::write::Manner;
use crate::measure::{Kind, Quantity, Real, Toward, to_step};

/// A sentence with quantities in it, shown in the unit of the bench that asks.
pub type Sentence = Vec<Piece<Quantity>>;

/// What a function found.
#[derive(Clone, Debug, Default)]
pub struct Record {
    /// In the order of what it gives; nothing where that does not apply.
    pub parts: Vec<Option<Datum>>,
    /// Why it is so and not otherwise.
    pub reasons: Vec<Sentence>,
}

/// Why a function found nothing.
#[derive(Clone, Debug)]
pub struct Fault(pub Sentence);

impl Fault {
    /// What another part of the program says cannot be.
    fn of(why: impl std::fmt::Display) -> Self {
        Self(in_lengths(&why.to_string()))
    }
}

impl PartialEq for Fault {
    fn eq(&self, other: &Self) -> bool {
        let manner = Manner::default();
        sentence(&self.0, &manner) == sentence(&other.0, &manner)
    }
}

impl Eq for Fault {}

/// A sentence in the unit of a bench.
pub fn sentence(pieces: &Sentence, manner: &Manner) -> String {
    pieces
        .iter()
        .map(|piece| match piece {
            Piece::Words(words) => words.clone(),
            Piece::Value(quantity) => manner.about(quantity),
        })
        .collect()
}

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

/// The arguments of a function.
struct Args<'a>(&'a [Option<Datum>]);

impl Args<'_> {
    fn real(&self, place: usize) -> Option<Real> {
        self.0.get(place)?.as_ref()?.amount().cloned()
    }

    /// An amount that is always there.
    fn amount(&self, place: usize) -> Real {
        self.real(place).unwrap_or(Real::ZERO)
    }

    fn float(&self, place: usize) -> Option<f64> {
        self.real(place).map(|amount| amount.to_f64())
    }

    /// A whole number, such as of sides; 0 for what is none, which no frame has.
    fn count(&self, place: usize) -> u32 {
        self.real(place).and_then(|amount| amount.to_whole()).and_then(|whole| u32::try_from(whole).ok()).unwrap_or(0)
    }

    fn list(&self, place: usize) -> &[Real] {
        match self.0.get(place) {
            Some(Some(Datum::List(list))) => list,
            _ => &[],
        }
    }
}

/// A cell of a table that is an amount.
fn cell(table: &Table, column: &str, row: usize) -> Option<Real> {
    match table.column(column)?.cells.get(row)?.as_ref()? {
        Cell::Amount(amount) => Some(amount.clone()),
        Cell::Word(_) => None,
    }
}

/// A part that is an amount.
fn amount(amount: Real) -> Option<Datum> {
    Some(Datum::Amount(amount))
}

/// A part that came of arithmetic with approximate numbers.
fn about(value: f64) -> Option<Datum> {
    Some(Datum::Amount(Real::approximate(value)))
}

/// A sentence in which lengths are written `4 in`, to be told in the unit of a bench.
fn in_lengths(text: &str) -> Sentence {
    let mut pieces = Vec::new();
    let mut rest = text;
    while let Some(at) = rest.find(" in") {
        let start = rest[..at].rfind(' ').map_or(0, |blank| blank + 1);
        let behind = &rest[at + 3..];
        let length = Real::from_decimal(&rest[start..at]).filter(|_| !behind.starts_with(char::is_alphabetic));
        let upto = if length.is_some() { start } else { at + 3 };
        pieces.push(words(&rest[..upto]));
        // Faults are told in thousandths; a sixteenth is exact in them or was not.
        pieces.extend(length.map(|length| {
            let on_mark = to_step(&length, &Real::ratio(1, 16), Toward::Nearest).1;
            inches(if on_mark { length } else { Real::approximate(length.to_f64()) })
        }));
        rest = behind;
    }
    pieces.push(words(rest));
    pieces
}

/// A text in which lengths are written `4 in`, in the unit of a bench.
pub fn in_unit(text: &str, manner: &Manner) -> String {
    sentence(&in_lengths(text), manner)
}

/// Words of a sentence.
fn words(text: &str) -> Piece<Quantity> {
    Piece::Words(text.into())
}

/// A length in a sentence.
fn inches(amount: Real) -> Piece<Quantity> {
    Piece::Value(Quantity::new(amount, Kind::LENGTH))
}

/// A record shared by all that read it.
pub fn shared(record: Record) -> Datum {
    Datum::Record(Arc::new(record))
}
