//! A screw from the stocked lengths: long enough to bite, short enough to keep clear of the face.

use super::args::{Args, amount, cell};
use crate::measure::{Quantity, Real};
use crate::rules::book::{Book, Table};
use crate::rules::datum::{Datum, Fault, Record};
use crate::rules::sentence::{Sentence, inches, words};
use crate::rules::term::Piece;

/// The thickest screw that is chosen unasked: common practice, no source.
const USUAL: i64 = 8;

/// A strip reaches under the work by at least so many diameters of its screws: common practice, no source.
const DIAMETERS: i64 = 3;

/// What a screw goes through and into.
struct Seat {
    through: Real,
    bite: Real,
    bar: Real,
    clear: Real,
}

impl Seat {
    fn least(&self) -> Real {
        self.through.clone() + self.bite.clone()
    }

    fn most(&self) -> Real {
        self.through.clone() + self.bar.clone() - self.clear.clone()
    }

    /// What a screw of a length would do.
    fn would(&self, length: &Real) -> Sentence {
        let point = length.clone() - self.through.clone();
        if !point.is_positive() {
            return vec![words("would not come through the strip")];
        }
        if *length < self.least() {
            return vec![words("would bite only "), inches(point)];
        }
        let left = self.bar.clone() - point;
        if left.is_negative() {
            vec![words("would come out of the stretcher by "), inches(-left)]
        } else if left.is_exact_zero() {
            vec![words("would reach its face")]
        } else {
            vec![words("would stop "), inches(left), words(" short of its face")]
        }
    }
}

/// See `screw` in [`super::super::native::NATIVES`]: the shortest stocked length that bites, and of it the thickest number
/// up to 8 that the reach of the strip allows.
///
/// # Errors
/// No stocked length bites and keeps clear; the strip reaches too little for any screw.
pub fn choose(book: &Book, args: &Args) -> Result<Record, Fault> {
    let seat = Seat { through: args.amount(0), bite: args.amount(1), bar: args.amount(2), clear: args.amount(3) };
    let (reach, lead, stocked) = (args.amount(4), args.amount(5), args.list(6));
    let screws = book.table("screws").ok_or_else(|| Fault(vec![words("there is no table of screws")]))?;
    let stocked = made(screws, stocked)?;
    let length = length(&seat, &stocked)?;
    let row = number(screws, &length, &reach)?;
    let of = |column| cell(screws, column, row);
    let hole = of("root").map(|root| root * lead);
    let drill = hole.as_ref().and_then(|hole| drill(book, hole));
    let mut reasons = vec![reason(&seat, &length)];
    reasons.extend(neighbour("the next shorter, ", &seat, stocked.iter().rev().find(|one| **one < length)));
    reasons.extend(neighbour("the next longer, ", &seat, stocked.iter().find(|one| **one > length)));
    if let Some(number) = of("number") {
        reasons.push(vec![
            words("no. "),
            count(number),
            words(": of the numbers up to 8 that are made so long, the thickest with a body of a third of the reach, "),
            inches(reach),
        ]);
    }
    reasons.push(vec![words(
        "pilot hole sized for a root two thirds of the shank; published tables give a root a fifth larger",
    )]);
    Ok(Record {
        parts: vec![
            amount(length),
            of("number").and_then(amount),
            of("body").and_then(amount),
            of("root").and_then(amount),
            hole.and_then(amount),
            drill.map(|drill| Datum::Word(drill.into())),
        ],
        reasons,
    })
}

fn count(number: Real) -> Piece<Quantity> {
    Piece::Value(Quantity::number(number))
}

/// The stocked lengths that a usual number is made in.
fn made(screws: &Table, stocked: &[Real]) -> Result<Vec<Real>, Fault> {
    let made: Vec<Real> = stocked.iter().filter(|length| usual(screws, length).next().is_some()).cloned().collect();
    if !made.is_empty() {
        return Ok(made);
    }
    let said = if stocked.is_empty() { "the shop stocks no screws" } else { "no number up to 8 is made as stocked" };
    Err(Fault(vec![words(said), words("; say which with `shop screws 3/4, 1, 1 1/4`")]))
}

/// The rows of the usual numbers that are made in a length, the thinnest first.
fn usual<'t>(screws: &'t Table, length: &'t Real) -> impl DoubleEndedIterator<Item = usize> + 't {
    let made = |row: &usize| {
        let within = cell(screws, "shortest", *row).zip(cell(screws, "longest", *row));
        within.is_some_and(|(shortest, longest)| shortest <= *length && *length <= longest)
    };
    let usual = |row: &usize| cell(screws, "number", *row).is_some_and(|number| number <= Real::whole(USUAL));
    (0..screws.words.len()).filter(made).filter(usual)
}

/// The shortest stocked length that bites.
fn length(seat: &Seat, stocked: &[Real]) -> Result<Real, Fault> {
    let fits = stocked.iter().find(|length| **length >= seat.least());
    if let Some(length) = fits.filter(|length| **length <= seat.most()) {
        return Ok(length.clone());
    }
    if seat.most() < seat.least() {
        return Err(Fault(vec![
            words("a stretcher of "),
            inches(seat.bar.clone()),
            words(" has no room for a bite of "),
            inches(seat.bite.clone()),
            words(" and "),
            inches(seat.clear.clone()),
            words(" clear of the face"),
        ]));
    }
    let mut said = vec![
        words("no stocked screw is from "),
        inches(seat.least()),
        words(" to "),
        inches(seat.most()),
        words(" long"),
    ];
    let shorter = stocked.iter().rev().find(|length| **length < seat.least());
    for near in shorter.into_iter().chain(fits) {
        said.extend([words("; "), inches(near.clone()), words(" ")]);
        said.extend(seat.would(near));
    }
    Err(Fault(said))
}

/// The row of the thickest usual number that is made in a length and that a reach allows.
fn number(screws: &Table, length: &Real, reach: &Real) -> Result<usize, Fault> {
    let allowed = |row: &usize| cell(screws, "body", *row).is_some_and(|body| Real::whole(DIAMETERS) * body <= *reach);
    usual(screws, length).rev().find(allowed).ok_or_else(|| {
        let thinnest = usual(screws, length).next().and_then(|row| cell(screws, "body", row)).unwrap_or(Real::ZERO);
        Fault(vec![
            words("the strip reaches "),
            inches(reach.clone()),
            words(" under the work, less than three times the body of the thinnest screw of "),
            inches(length.clone()),
            words(", "),
            inches(Real::whole(DIAMETERS) * thinnest),
        ])
    })
}

/// The largest drill that does not exceed a hole.
fn drill(book: &Book, hole: &Real) -> Option<String> {
    let drills = book.table("drills")?;
    let sizes = drills.words.iter().enumerate().filter_map(|(row, word)| Some((cell(drills, "size", row)?, word)));
    let fits = sizes.filter(|(size, _)| size <= hole);
    let largest = fits.fold(None, |best: Option<(Real, &String)>, one| match best {
        Some(best) if best.0 >= one.0 => Some(best),
        _ => Some(one),
    });
    largest.map(|(_, word)| word.clone())
}

fn reason(seat: &Seat, length: &Real) -> Sentence {
    let bite = length.clone() - seat.through.clone();
    let left = seat.bar.clone() - bite.clone();
    vec![
        inches(length.clone()),
        words(" is the shortest that holds: "),
        inches(seat.through.clone()),
        words(" through the strip, "),
        inches(bite),
        words(" in the stretcher, "),
        inches(left),
        words(" short of its face"),
    ]
}

fn neighbour(which: &str, seat: &Seat, length: Option<&Real>) -> Option<Sentence> {
    let length = length?;
    let mut said = vec![words(which), inches(length.clone()), words(", ")];
    said.extend(seat.would(length));
    Some(said)
}
