//! Pieces, cautions and labels of rules files: faulty ones are refused at their place.

use super::faulty::{check, hinted};

const SIZES: &str = "field gap length = 1in\n";

#[test]
fn faulty_pieces_are_refused() {
    let after = |piece: &str| format!("{SIZES}{piece}");
    let whole = "piece \"bar\" stick material \"oak\" width gap thickness gap long gap weight heavy";
    let weighed = |piece: &str| format!("{SIZES}field heavy mass = 1lb\n{piece}");
    hinted(&weighed(&whole.replace("long", "lng")), (3, 58), "there is no detail of a stick lng", "long");
    check(&weighed(&whole.replace("material \"oak\"", "long gap")), (3, 52), "long is given twice");
    check(&weighed(&whole.replace("long gap", "")), (3, 1), "the piece \"bar\" has no long");
    check(&weighed(&whole.replace("long gap", "long heavy")), (3, 63), "long takes a length, not a mass");
    check(
        &after("piece \"bar\" stick material \"oak\" width gap thickness gap long gap"),
        (2, 28),
        "no table has a density for this material; add the figure that the piece weighs: weight NAME",
    );
    check(
        &weighed(&format!("{whole}\n{whole}")),
        (4, 7),
        "the piece \"bar\" is defined twice; write `instead` before the one that counts",
    );
    check(&weighed(&format!("instead {whole}")), (3, 15), "there is no piece \"bar\" for float to replace");
    check(&weighed(&format!("{whole} when gap")), (3, 85), "when takes a condition, not a length");
    hinted(&weighed(&whole.replace("long gap", "long gab")), (3, 63), "there is no name gab", "gap");
    check("piece \"bar\" board material \"oak\"", (1, 13), "this cannot be read; possible here: stick or sheet");
    check("wide = pieces", (1, 8), "there is no name pieces");
    check("pieces = 1in", (1, 1), "pieces has a meaning of its own and cannot be a name");
}

#[test]
fn faulty_cautions_are_refused() {
    let caution = "page parts\ncaution saws on parts for pieces of woods\n  says mind\n  full mind {gap}\n  source us";
    let with = |from: &str, to: &str| format!("{SIZES}{}", caution.replace(from, to));
    hinted(&with("on parts", "on part"), (3, 17), "there is no page part", "parts");
    hinted(&with("of woods", "of wods"), (3, 37), "there is no table wods", "woods");
    check(&with("of woods", "of \"pine\""), (3, 37), "no table has a material \"pine\"");
    check(&with("of woods", "with dust"), (3, 39), "there is no column dust");
    hinted(&with("{gap}", "{gep}"), (5, 14), "there is no name gep", "gap");
    check(&with("of woods", "under 1lb"), (3, 40), "under takes a length, not a mass");
    check(&with("for pieces of woods", "if gap"), (3, 26), "saws takes a condition, not a length");
    check(
        &format!("{}\n{}", with("", ""), &caution[11..]),
        (7, 9),
        "the caution \"saws\" is defined twice; write `instead` before the one that counts",
    );
    check(&with("caution saws", "instead caution saws"), (3, 17), "there is no caution \"saws\" for float to replace");
}

#[test]
fn faulty_labels_are_refused() {
    let label = format!("{SIZES}page label\nlabel \"gap\" on label = gap");
    hinted(&label.replace("= gap", "= gep"), (3, 24), "there is no name gep", "gap");
    hinted(&label.replace("on label", "on lable"), (3, 16), "there is no page lable", "label");
    check(
        &format!("{label}\nlabel \"gap\" on label = gap"),
        (4, 7),
        "the label \"gap\" is defined twice; write `instead` before the one that counts",
    );
    check(&label.replace("label \"gap\"", "instead label \"gap\""), (3, 15), "there is no label \"gap\" to replace");
    check("page parts\npage parts", (2, 6), "the page parts is defined twice");
    check("group \"Here\" on nowhere", (1, 17), "there is no page nowhere");
}
