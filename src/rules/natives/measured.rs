//! Measured art: the right-angled opening around a work that is not right-angled.

use super::args::{Args, about};
use crate::frame::{Basis, Fit, Measured, Quadrilateral, fit};
use crate::measure::{Kind, Quantity, Real};
use crate::rules::datum::{Datum, Fault, Record};
use crate::rules::sentence::{Sentence, inches, words};
use crate::rules::term::Piece;

const CORNERS: [&str; 4] = ["top left", "top right", "bottom right", "bottom left"];
const SIDES: [[&str; 2]; 4] = [["above", "left"], ["above", "right"], ["below", "right"], ["below", "left"]];

/// See `seat` in [`super::super::native::NATIVES`].
///
/// # Errors
/// Lengths that make no work that can be framed.
pub fn seat(args: &Args) -> Result<Record, Fault> {
    let at = |place| args.float(place).unwrap_or_default();
    let measured = Measured {
        edges: [at(0), at(1), at(2), at(3)],
        diagonals: [args.float(4), args.float(5)],
        middles: [args.float(6), args.float(7)],
    };
    let shape = Quadrilateral::place(&measured).map_err(Fault::of)?;
    let fit = fit(&shape, [at(8), at(9), at(10), at(11)], at(12));
    let list = |gaps: &[f64]| Some(Datum::List(gaps.iter().map(|gap| Real::approximate(*gap)).collect()));
    Ok(Record {
        parts: vec![
            about(fit.width),
            about(fit.height),
            about(fit.turn.to_degrees()),
            about(shape.misfit),
            about(fit.unevenness),
            list(&fit.corner_gaps.concat()),
            list(&fit.middle_gaps),
            about(fit.corner_gaps.concat().into_iter().fold(0.0, f64::max)),
        ],
        reasons: reasons(&shape, &fit),
    })
}

fn length(value: f64) -> Piece<Quantity> {
    inches(Real::approximate(value))
}

fn reasons(shape: &Quadrilateral, fit: &Fit) -> Vec<Sentence> {
    let mut all = vec![match shape.basis {
        Basis::EqualDiagonals => vec![words("no diagonal was measured: both are taken to be equal")],
        Basis::OneDiagonal => vec![words("one diagonal settles the shape")],
        Basis::BothDiagonals => vec![
            words("both diagonals are one length more than it takes; the six disagree by "),
            length(shape.misfit),
            words(" at most"),
        ],
    }];
    let turn = Quantity::new(Real::approximate(fit.turn.to_degrees().abs()), Kind::ANGLE);
    if fit.turn.abs() > f64::EPSILON {
        let way = if fit.turn > 0.0 { " clockwise" } else { " the other way round" };
        all.push(vec![words("turned by "), Piece::Value(turn), words(way), words(", the gaps are most even")]);
    }
    for ((corner, gaps), sides) in CORNERS.iter().zip(fit.corner_gaps).zip(SIDES) {
        all.push(vec![
            words(&format!("{corner}: ")),
            length(gaps[0]),
            words(&format!(" {}, ", sides[0])),
            length(gaps[1]),
            words(&format!(" to the {}", sides[1])),
        ]);
    }
    all
}
