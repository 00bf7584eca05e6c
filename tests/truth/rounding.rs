//! Which way sizes are rounded to the marks: what goes into something is made no larger than there is room, what must cover
//! or hold something no smaller. The list is common practice, no source. What the rounded values are is held by rows.

use std::collections::BTreeSet;

use benchrule::measure::Toward;
use benchrule::rules::shipped;

/// What goes into something.
const NO_LARGER: &[&str] = &[
    "glazing.width",
    "glazing.height",
    "glazing.across",
    // The backing and the mount are boards.
    "board.width",
    "board.height",
    "board.across",
    "strip.top.long",
    "strip.top.short",
    "strip.side.long",
    "strip.side.short",
    "strip.long",
    "strip.short",
    "spacer.top.long",
    "spacer.side.long",
    "spacer.each.long",
    "spacer.each.short",
    "mat.1.window.width",
    "mat.1.window.height",
    "mat.2.window.width",
    "mat.2.window.height",
    "mat.3.window.width",
    "mat.3.window.height",
    "dust.width",
    "dust.height",
    // What is free is never made out to be more.
    "recess",
    "room",
];

/// What must cover or hold something.
const NO_SMALLER: &[&str] = &[
    "opening.width",
    "opening.height",
    "opening.across",
    "inside.width",
    "inside.height",
    "inside.across",
    "rabbet",
    "rail.short",
    "rail.long",
    "depth",
    "strip.width",
    "spacer",
    "oval.wide",
    "oval.long",
    "oval.short",
    "oval.strip.wide",
    "oval.strip.long",
    "oval.strip.short",
];

/// What is set out on a mark, and may lie on either side of it.
const EITHER: &[&str] = &[
    "gauge",
    "mat.outer.width",
    "mat.outer.height",
    "screw.top.at",
    "screw.side.at",
    "screw.at",
    "point.top.at",
    "point.side.at",
    "point.at",
    "brad.at",
    "hanger.drop",
    "hanger.span",
    "hook.span",
    "hook.height",
    "wire",
];

#[test]
fn what_goes_in_is_no_larger_and_what_holds_no_smaller() {
    let book = shipped();
    let mut wrong = BTreeSet::new();
    let mut seen = BTreeSet::new();
    for build in &book.builds {
        for (slot, rule) in (0..).zip(&build.rules) {
            let Some(toward) = rule.and_then(|place| book.rules[usize::from(place)].toward) else { continue };
            let name = book.name(slot).text.as_str();
            seen.insert(name);
            let list = match toward {
                Toward::Up => NO_SMALLER,
                Toward::Down => NO_LARGER,
                Toward::Nearest => EITHER,
            };
            if !list.contains(&name) {
                wrong.insert(format!("{name} is rounded {toward:?}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    let all = [NO_LARGER, NO_SMALLER, EITHER].concat();
    let never: Vec<&&str> = all.iter().filter(|name| !seen.contains(**name)).collect();
    assert!(never.is_empty(), "no build rounds these: {never:?}");
}
