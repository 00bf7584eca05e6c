//! Sentences with quantities in them, shown in the unit of the bench that asks.

use super::term::Piece;
use crate::measure::write::Manner;
use crate::measure::{Kind, Quantity, Real, Toward, to_step};

/// Words and quantities in order.
pub type Sentence = Vec<Piece<Quantity>>;

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

/// A sentence in which lengths are written `4 in`, to be shown in the unit of a bench.
pub fn in_lengths(text: &str) -> Sentence {
    let mut pieces = Vec::new();
    let mut rest = text;
    while let Some(at) = rest.find(" in") {
        let start = rest[..at].rfind(' ').map_or(0, |blank| blank + 1);
        let behind = &rest[at + 3..];
        let length = Real::from_decimal(&rest[start..at]).filter(|_| !behind.starts_with(char::is_alphabetic));
        let upto = if length.is_some() { start } else { at + 3 };
        pieces.push(words(&rest[..upto]));
        // Faults are given in thousandths; a sixteenth is exact in them or was not.
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
pub fn words(text: &str) -> Piece<Quantity> {
    Piece::Words(text.into())
}

/// A length in a sentence.
pub fn inches(amount: Real) -> Piece<Quantity> {
    Piece::Value(Quantity::new(amount, Kind::LENGTH))
}
