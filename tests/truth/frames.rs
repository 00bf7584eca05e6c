//! Designs set field by field, as at the bench. What they come to is in the tables beside this file.

use benchrule::diag::{Diagnostic, Fault};
use benchrule::measure::Graduation;
use benchrule::measure::write::Manner;
use benchrule::rules::{Design, shipped};

/// A design with these fields set, in this order.
#[track_caller]
fn design(graduation: Graduation, fields: &[(&str, &str)]) -> Design {
    let mut design = Design::new(shipped(), Manner { graduation });
    for (name, text) in fields {
        set(&mut design, name, text);
    }
    design
}

/// Sets a field as it is typed at the bench.
#[track_caller]
pub fn set(design: &mut Design, name: &str, text: &str) {
    let input = design
        .read_input(name, text, &mut |text| {
            Err(Diagnostic::of(&benchrule::diag::codes::value::NOTATION, format!("no formulas here: {text}")))
        })
        .unwrap_or_else(|found| panic!("{name} {text}: {found:?}"));
    if let Err(refusal) = design.set(name, input) {
        panic!("{name} {text}: {refusal:?}");
    }
}

/// A name that stands for four unlike values names each of them.
#[test]
fn a_gap_of_four_values() {
    let design = design(Graduation::sixteenths(), &[("art", "12 x 9 x 3/4"), ("reveal", "1/4, 1/2, 1/4, 1/8")]);
    let refusal = benchrule::show::spoken(&design.answer("reveal").unwrap_err().says());
    assert_eq!(
        refusal,
        "reveal has several values: reveal.top 1/4\", reveal.right 1/2\", reveal.bottom 1/4\", reveal.left 1/8\""
    );
}
