//! Figures of the engineering against published values, through designs as the program makes them; the tables that ship.

mod air;
mod corners;
mod extents;
mod fasteners;
mod hanging;
mod ranges;
mod rows;
mod sheets;

use benchrule::measure::write::Manner;
use benchrule::rules::{Datum, Design, shipped};

use crate::frames::set;

/// A design with these fields set, in this order.
#[track_caller]
fn design(fields: &[(&str, &str)]) -> Design {
    let mut design = Design::new(shipped(), Manner::default());
    for (name, text) in fields {
        set(&mut design, name, text);
    }
    design
}

#[track_caller]
fn drawn(design: &Design, name: &str) -> Datum {
    let slot = design.slot(name).unwrap();
    design.known(slot).unwrap_or_else(|why| panic!("{:?}", design.refusal(slot, why))).drawn
}

/// A figure as computed, in storage units: inch, pound, pound-force, degree.
#[track_caller]
fn value(design: &Design, name: &str) -> f64 {
    drawn(design, name).amount().unwrap_or_else(|| panic!("{name} is not an amount")).to_f64()
}

#[track_caller]
fn near(is: f64, expected: f64, within: f64) {
    assert!((is - expected).abs() <= within, "{is}, not {expected}");
}
