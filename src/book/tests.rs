//! Texts of designs and the store, in a folder of their own.

mod exchanged;
mod random;
mod stored;

use std::path::Path;

use super::{DesignBook, Draft, text};
use crate::host::Zone;
use crate::measure::write::Manner;
use crate::rules::{Design, shipped};

/// An empty bench.
fn bench() -> Design {
    Design::new(shipped(), Manner::default())
}

/// Sets a field as if typed.
#[track_caller]
fn set(design: &mut Design, name: &str, value: &str) {
    let mut plain = |text: &str| panic!("{text} is not a value");
    let input = design.read_input(name, value, &mut plain).unwrap();
    design.set(name, input).unwrap();
}

/// A design to save.
fn draft(design: &Design) -> Draft {
    Draft {
        fields: text::fields(design),
        figures: text::figures(design),
        tape: design.manner().graduation.name.into(),
        style: None,
    }
}

/// A work of this width in a float frame.
fn float(width: &str) -> Draft {
    let mut design = bench();
    set(&mut design, "art", &format!("{width} x 20 x 3/4"));
    draft(&design)
}

/// Opens the book of a folder.
#[track_caller]
fn open(folder: &Path) -> DesignBook {
    DesignBook::open(&folder.join("book.db"), Zone::Universal).unwrap()
}
