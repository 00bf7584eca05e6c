//! The sticks of a plan: each in a line, drawn to scale, and what is cut from it.

use super::super::super::Page;
use super::super::super::fact::page::line;
use super::super::super::text::{Label, Text};
use super::bar::bar;
use super::section::length;
use crate::fact::fact;
use crate::measure::Real;
use crate::measure::write::Manner;
use crate::plan::{Cutting, Stick, Whole};

/// So many sticks are laid out at a time.
const A_PAGE: usize = 500;

/// The sticks, page by page, under their heading.
pub(super) fn sticks<'a>(whole: &'a Whole, manner: &'a Manner, width: usize) -> impl Iterator<Item = Page> + use<'a> {
    let cutting = &whole.sticks;
    let longest =
        cutting.sticks.iter().map(|stick| cutting.order.stock[stick.stock].length.to_f64()).fold(0.0, f64::max);
    let head = (!cutting.sticks.is_empty()).then(|| Page::new().blank().text(Text::of(Label::Heading, "Sticks")));
    let pages = cutting.sticks.chunks(A_PAGE).enumerate().map(move |(nth, some)| {
        some.iter().enumerate().fold(Page::new(), |page, (at, stick)| {
            let head = line(&*fact::<Stick>((cutting, nth * A_PAGE + at, stick)), manner);
            page.hanging(head, 2).fixed(bar(cutting, stick, longest, width)).hanging(cuts(cutting, stick, manner), 2)
        })
    });
    head.into_iter().chain(pages)
}

/// What is cut from a stick, in order; like parts that follow one another are counted.
fn cuts(cutting: &Cutting, stick: &Stick, manner: &Manner) -> Text {
    let mut cuts = Text::from("  ");
    for (at, (name, long, times)) in runs(cutting, stick).into_iter().enumerate() {
        let comma = if at == 0 { "" } else { ", " };
        let times = if times > 1 { format!("{times} x ") } else { String::new() };
        cuts = cuts.and(Label::Plain, format!("{comma}{times}")).and(Label::Name, name).and(Label::Plain, " ");
        cuts = cuts.and(Label::Value, length(long, manner));
    }
    cuts
}

/// Like parts that follow one another in a stick: name, length, how many.
fn runs<'a>(cutting: &'a Cutting, stick: &Stick) -> Vec<(&'a str, &'a Real, u64)> {
    let mut runs: Vec<(&str, &Real, u64)> = Vec::new();
    for piece in &stick.pieces {
        let part = &cutting.order.parts[piece.part];
        match runs.last_mut() {
            Some(last) if last.0 == part.name && last.1.same(&part.length) => last.2 += 1,
            _ => runs.push((&part.name, &part.length, 1)),
        }
    }
    runs
}
