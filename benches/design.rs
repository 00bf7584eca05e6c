//! How long a design takes: whole, after one change, its checks, its reasons; and unpacking the rules.

#![allow(missing_docs, clippy::unwrap_used)]

use std::rc::Rc;

use benchrule::diag::Diagnostic;
use benchrule::measure::read;
use benchrule::measure::write::Manner;
use benchrule::rules::{Design, Input, shipped, unpack};
use benchrule::session::Reply;
use benchrule::show::answer;
use divan::{Bencher, black_box};

fn main() {
    divan::main();
}

/// A design of each kind that is common at the bench.
const DESIGNS: &[(&str, &[(&str, &str)])] = &[
    ("float", &[("art", "16 1/64 x 20 x 1 1/4"), ("reveal", "3/8"), ("face", "13/16")]),
    ("hexagon", &[("sides", "6"), ("art.across", "10"), ("art.depth", "3/4")]),
    (
        "print",
        &[
            ("build", "rabbeted"),
            ("art", "11 x 14 x 1/64"),
            ("art.kind", "paper"),
            ("mat", "2"),
            ("glazing", "glass"),
            ("backing", "1/8"),
        ],
    ),
];

fn empty() -> Design {
    Design::new(shipped(), Manner::default())
}

/// The fields read, so that what is measured takes no text.
fn inputs(name: &str) -> Vec<(&'static str, Input)> {
    let (_, fields) = DESIGNS.iter().find(|(one, _)| *one == name).unwrap();
    let mut design = empty();
    let mut inputs = Vec::new();
    for (name, text) in *fields {
        let input = design
            .read_input(name, text, &mut |text| Err(Diagnostic::of(&benchrule::diag::codes::value::NOTATION, text)))
            .unwrap();
        design.set(name, input.clone()).unwrap();
        inputs.push((*name, input));
    }
    inputs
}

fn made(name: &str) -> Design {
    let mut design = empty();
    for (name, input) in inputs(name) {
        design.set(name, input).unwrap();
    }
    all(&design);
    design
}

/// Every name of the build, drawn and cut.
fn all(design: &Design) -> usize {
    let order = &design.book().builds[usize::from(design.build())].order;
    order.iter().filter(|slot| design.evaluate(|evaluator| evaluator.known(**slot).is_ok())).count()
}

/// The names of the build that have no page of their own: what there is to saw.
fn sizes(design: &Design) -> usize {
    let order = design.book().builds[usize::from(design.build())].order.iter();
    let plain = order.filter(|slot| design.book().group(**slot).is_some_and(|group| group.page.is_none()));
    plain.filter(|slot| design.evaluate(|evaluator| evaluator.known(**slot).is_ok())).count()
}

fn afresh(bencher: Bencher, name: &str, count: fn(&Design) -> usize) {
    let inputs = inputs(name);
    let book = shipped();
    bencher.bench_local(|| {
        let mut design = Design::new(book.clone(), Manner::default());
        for (name, input) in &inputs {
            design.set(name, input.clone()).unwrap();
        }
        black_box(count(&design))
    });
}

#[divan::bench(args = ["float", "hexagon", "print"])]
fn whole(bencher: Bencher, name: &str) {
    afresh(bencher, name, all);
}

#[divan::bench(args = ["float", "hexagon", "print"])]
fn sizes_alone(bencher: Bencher, name: &str) {
    afresh(bencher, name, sizes);
}

#[divan::bench(args = ["reveal", "face", "art.width", "setback"])]
fn one_change(bencher: Bencher, name: &str) {
    let mut design = made("float");
    let read = |text: &str| {
        design
            .read_input(name, text, &mut |text| Err(Diagnostic::of(&benchrule::diag::codes::value::NOTATION, text)))
            .unwrap()
    };
    let values = [read("7/16"), read("17/32")];
    let mut turn = 0;
    bencher.bench_local(move || {
        turn = 1 - turn;
        design.set(name, values[turn].clone()).unwrap();
        black_box(all(&design))
    });
}

#[divan::bench(args = ["float", "hexagon", "print"])]
fn checks(bencher: Bencher, name: &str) {
    let design = made(name);
    bencher.bench_local(|| black_box(design.findings().len()));
}

#[divan::bench]
fn check_with_mend(bencher: Bencher) {
    let mut design = made("float");
    let narrow = design
        .read_input("strip.width", "1/2", &mut |text| {
            Err(Diagnostic::of(&benchrule::diag::codes::value::NOTATION, text))
        })
        .unwrap();
    design.set("strip.width", narrow).unwrap();
    assert!(design.findings()[0].mend.is_some());
    bencher.bench_local(|| black_box(design.findings().len()));
}

#[divan::bench(args = ["outside.width", "strip.side.short", "rail.top.long"])]
fn why(bencher: Bencher, name: &str) {
    let design = made("float");
    let slot = design.slot(name).unwrap();
    bencher.bench_local(|| black_box(design.explain(slot).unwrap().len()));
}

/// Every page of the engineering, worked out afresh after a change and laid out.
#[divan::bench(args = ["float", "hexagon", "print"])]
fn engineering_sheet(bencher: Bencher, name: &str) {
    let mut design = made(name);
    let read = |text: &str| {
        design
            .read_input("face", text, &mut |text| Err(Diagnostic::of(&benchrule::diag::codes::value::NOTATION, text)))
            .unwrap()
    };
    let values = [read("13/16"), read("7/8")];
    let mut turn = 0;
    bencher.bench_local(move || {
        turn = 1 - turn;
        design.set("face", values[turn].clone()).unwrap();
        let manner = design.manner().clone();
        let replies = ["fixings", "hang", "movement"].map(|page| Reply::Page(Rc::new(design.clone()), page.into()));
        let all = replies.into_iter().chain([Reply::Tolerance(Rc::new(design.clone()), None)]);
        let length = |reply: Reply| answer::page(&reply, &manner, 80).render(80, false).len();
        black_box(all.map(length).sum::<usize>())
    });
}

/// Figure, what is wanted of it, field: on a straight line, on a curve, out of reach, and through the longest chain.
const AIMS: &[(&str, &str, &str, bool)] = &[
    ("outside.width", "20in", "reveal", true),
    ("outside.diagonal", "30in", "reveal", true),
    ("wire.tension", "5lbf", "wire", true),
    ("mitre", "50deg", "slope", false),
    ("rail.pulled", "1/4in", "face", true),
    ("brace.span", "60in", "art.width", false),
];

#[divan::bench(args = 0..AIMS.len())]
fn aim(bencher: Bencher, row: usize) {
    let design = made("float");
    let (figure, wanted, field, hits) = AIMS[row];
    let (figure, field) = (design.slot(figure).unwrap(), design.slot(field).unwrap());
    let wanted = read::quantity(wanted, None).unwrap();
    assert_eq!(design.aim(figure, &wanted, field).is_ok(), hits, "{:?}", AIMS[row]);
    bencher.bench_local(|| black_box(design.aim(figure, &wanted, field).is_ok()));
}

#[divan::bench(args = ["outside.width", "opening.diagonal", "rail.pulled"])]
fn tolerance(bencher: Bencher, name: &str) {
    let design = made("float");
    let slot = design.slot(name).unwrap();
    bencher.bench_local(|| black_box(design.tolerance(slot).unwrap().shares.len()));
}

#[divan::bench]
fn slopes_of_one_figure(bencher: Bencher) {
    let design = made("float");
    let figure = design.slot("strip.side.short").unwrap();
    let fields = ["reveal.top", "art.height", "art.bulk", "strip.bearing"].map(|name| design.slot(name).unwrap());
    bencher.bench_local(|| black_box(fields.map(|field| design.slope(figure, field).unwrap())));
}

#[divan::bench]
fn unpacking(bencher: Bencher) {
    bencher.bench_local(|| black_box(unpack().names.len()));
}
