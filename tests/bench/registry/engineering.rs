//! Every figure that has a page of its own (fixings, hang, movement, tolerance), and of measured art and ovals, has
//! help, an explanation, a place in JSON, and a tolerance where something measured or made is in it.

use std::collections::BTreeSet;

use benchrule::rules::{Design, Role, Slot, Type, shipped};
use benchrule::session::Reply;
use benchrule::show::json;

use crate::bench::Bench;

/// Designs that have every figure between them: the lines that make each.
const DESIGNS: &[&[&str]] = &[
    &[
        "art 16 x 20 x 3/4",
        "key.depth 1/2",
        "built.diagonals 28 7/16, 28 3/8",
        "hook.count 2",
        "wall.width 100",
        "wall.gap 3",
        "wall.rows 1",
    ],
    &["art 24 x 30 x 1", "art.kind panel", "panel.solid yes", "hanger cleat"],
    &["sides 6", "art.across 14", "art.depth 3/4", "slope 20°"],
    &[
        "art.depth 3/4",
        "art.edges 16, 20 1/8, 16 1/16, 20",
        "art.diagonals 25 5/8, 25 3/4",
        "art.middles 16 1/16, 20 1/16",
    ],
    &["new shadowbox", "art 16 x 20 x 1", "shape oval"],
    &[
        "new rabbeted",
        "art 11 x 14 x 1/64",
        "art.kind paper",
        "mat 3",
        "glazing glass",
        "mount 1/8",
        "backing 1/8",
        "rabbet 1/4",
    ],
    &["new rabbeted", "sides 8", "art.across 11", "art.depth 1/8", "glazing acrylic", "backing 1/8"],
    &["new box", "art 9 x 12 x 2", "art.kind object", "art.weight 2lb", "glazing acrylic"],
];

fn added(design: &Design, slot: Slot) -> bool {
    let book = design.book();
    let group = &book.groups[usize::from(book.name(slot).group)];
    let name = &book.name(slot).text;
    let mine = group.page.is_some() || group.name == "Measured" || name.starts_with("oval.");
    // What a function found is shown by its parts.
    mine && book.name(slot).role != Role::Gather && !matches!(book.name(slot).of, Type::Record(_))
}

fn bench(lines: &[&str]) -> Bench {
    let mut bench = Bench::new();
    for line in lines {
        let shown = bench.line(line);
        assert!(!shown.failed(), "{line}: {}", shown.text);
    }
    bench
}

#[test]
fn every_figure_of_the_engineering_is_whole() {
    let mut left: BTreeSet<String> = BTreeSet::new();
    let mut met: BTreeSet<String> = BTreeSet::new();
    for lines in DESIGNS {
        let mut bench = bench(lines);
        let Ok(Reply::Sheet(design, _)) = bench.line("sheet").outcome.reply else { panic!("no sheet") };
        let object = json::reply(&Reply::Sheet(design.clone(), None), &bench.0.manner())["design"].take();
        for slot in design.book().builds[usize::from(design.build())].order.clone() {
            let name = design.book().name(slot).text.clone();
            if !added(&design, slot) {
                continue;
            }
            left.insert(name.clone());
            if design.known(slot).is_err() {
                continue;
            }
            met.insert(name.clone());
            assert!(!object["fields"][&name].is_null() || !object["figures"][&name].is_null(), "{name} in JSON");
            for word in ["why", "help"] {
                let shown = bench.line(&format!("{word} {name}"));
                assert!(!shown.failed() && shown.text.contains(&name), "{word} {name}: {}", shown.text);
            }
            // Anything but an amount is refused; an amount shows what adds to its tolerance, or that nothing does.
            let shown = bench.line(&format!("tolerance {name}"));
            let amount = matches!(design.book().name(slot).of, Type::Quantity(_));
            assert_eq!(shown.failed(), !amount, "tolerance {name}: {}", shown.text);
            let is_answered = shown.text.contains("at worst") || shown.text.contains("has no tolerance");
            assert!(!amount || is_answered, "tolerance {name}: {}", shown.text);
        }
    }
    let unmet: Vec<&String> = left.difference(&met).collect();
    assert!(unmet.is_empty(), "no design has {unmet:?}");
}

/// What comes of made sizes alone must have something to be off by; what is only wanted or looked up has not.
#[test]
fn figures_of_made_sizes_have_a_tolerance() {
    let mut bench = bench(&["art 16 x 20 x 3/4"]);
    for name in
        ["weight", "hook.height", "wire", "rail.moves", "mitre.wedge", "blank.length", "screw.line", "glue.area"]
    {
        let shown = bench.line(&format!("tolerance {name}"));
        assert!(shown.text.contains("at worst"), "{name}: {}", shown.text);
    }
    let page = bench.line("tolerance").text;
    for name in ["weight", "hook.height", "mitre.wedge", "mitre.gap"] {
        assert!(page.contains(name), "{name}: {page}");
    }
}

/// Each page answers as an object with figures, reasons, checks and cautions.
#[test]
fn pages_are_objects() {
    let mut bench = bench(&["art 16 x 20 x 3/4"]);
    for word in ["fixings", "hang", "movement"] {
        let Ok(reply) = bench.line(word).outcome.reply else { panic!("{word}") };
        let object = json::reply(&reply, &bench.0.manner());
        let page = &object[word];
        assert!(page["figures"].as_object().is_some_and(|figures| figures.len() > 8), "{object}");
        assert!(page["reasons"].is_array() && page["checks"].is_array() && page["cautions"].is_array(), "{object}");
    }
    let book = shipped();
    let pages: BTreeSet<&str> = book.groups.iter().filter_map(|group| group.page.as_deref()).collect();
    assert_eq!(pages.into_iter().collect::<Vec<_>>(), ["fixings", "hang", "movement", "tolerance"]);
}
