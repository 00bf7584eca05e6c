//! Rules on top of the shipped ones: files of a shop, figures of one design.

use std::collections::BTreeMap;

use super::{bench, set};
use crate::measure::{Quantity, Real, inches};
use crate::rules::{Design, Rules, shipped};

const CRATE: &str =
    "for all\nfield crate.pad length = 2in -- padding\ncrate.width = outside.width + 2 * crate.pad up\n";

fn float() -> Design {
    let mut design = bench();
    set(&mut design, "art", "16 x 20 x 3/4");
    design
}

fn amount(design: &Design, name: &str) -> Real {
    design.made(name).unwrap_or_else(|| panic!("{name}")).amount
}

#[test]
fn a_file_of_the_shop_adds_to_what_ships() {
    let book = Rules::from(shipped().with_file("crate.rules", CRATE).unwrap());
    let design = float().by(book);
    let outside = amount(&float(), "outside.width");
    assert_eq!(amount(&design, "outside.width"), outside);
    assert_eq!(amount(&design, "crate.width"), outside + Real::whole(4));
    // One file may go on from another, and a book remembers both.
    let lid = "for all\ncrate.lid = crate.width + 1in\n";
    let both = design.book().with_file("lid.rules", lid).unwrap();
    assert_eq!(both.added.files.len(), 2);
    assert!(shipped().with_file("lid.rules", lid).unwrap_err().message().contains("crate.width"));
}

#[test]
fn a_fault_in_a_file_of_the_shop_has_its_place_there() {
    let found = shipped().with_file("crate.rules", &format!("{CRATE}outside.width = 1in\n")).unwrap_err();
    let source = found.source.expect("the file");
    assert_eq!(source.name, "crate.rules");
    assert_eq!(found.span.map(|span| &source.text[span]), Some("outside.width"));
}

#[test]
fn a_design_takes_what_was_given_to_other_rules() {
    let design = float();
    let book = Rules::from(shipped().with_file("crate.rules", CRATE).unwrap());
    let there = design.by(book);
    for (slot, name) in (0..).zip(&design.book().names) {
        let other = there.book().slot(&name.text).unwrap();
        assert_eq!(design.given_text(slot), there.given_text(other), "{}", name.text);
    }
    // And back again, where the figure of the shop is unknown.
    assert!(there.by(shipped()).same_givens(&design));
}

#[test]
fn a_figure_of_a_design_stands_in_that_design_alone() {
    let design = float();
    let with = design.with_figure("shelf.width", "outside.width + 3\"").unwrap();
    assert_eq!(amount(&with, "shelf.width"), amount(&design, "outside.width") + Real::whole(3));
    assert!(design.slot("shelf.width").is_err());
    assert!(!with.same_givens(&design));
    let mut without = with.clone();
    without.clear("shelf.width").unwrap();
    assert!(without.same_givens(&design));
    // Another formula takes the place of the first.
    let other = with.with_figure("shelf.width", "face").unwrap();
    assert_eq!(amount(&other, "shelf.width"), amount(&design, "face"));
}

#[test]
fn figures_of_a_design_are_aimed_at() {
    let design = float().with_figure("shelf.width", "outside.width + 3\"").unwrap();
    let (shelf, reveal) = (design.slot("shelf.width").unwrap(), design.slot("reveal").unwrap());
    let wanted = Quantity::from(inches(Real::whole(24)));
    let (there, aimed) = design.aim(shelf, &wanted, reveal).unwrap();
    assert!(aimed.off.is_exact_zero());
    assert_eq!(amount(&there, "outside.width"), Real::whole(21));
}

#[test]
fn kept_figures_come_back_together_and_the_faulty_one_is_left_out() {
    let kept: BTreeMap<String, String> =
        [("b.w", "a.w * 2"), ("a.w", "outside.width"), ("c.w", "outside.widht"), ("face", "1in")]
            .map(|(name, formula)| (name.to_string(), formula.to_string()))
            .into();
    let (design, left_out) = float().with_figures(kept);
    assert_eq!(amount(&design, "b.w"), amount(&design, "outside.width") * Real::whole(2));
    let names: Vec<&str> = left_out.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, ["face", "c.w"]);
}

#[test]
fn a_circle_through_figures_of_a_design_takes_them_all() {
    let kept = [("a.w", "b.w + 1in"), ("b.w", "a.w + 1in")].map(|(name, formula)| (name.into(), formula.into())).into();
    let (design, left_out) = float().with_figures(kept);
    assert!(design.own_figures().is_empty());
    assert_eq!(left_out.len(), 2);
    assert!(crate::diag::Diagnostic::new(left_out[0].1.clone()).message().contains("circle"));
}
