//! A cutting plan: what it costs and what is proven, what to buy, where to set the stop, each stick to scale.

mod bar;
mod left;

use std::collections::BTreeMap;

use self::bar::bar;
pub use self::left::{Asked, unplanned};
use super::super::Page;
use super::super::table::Cell;
use super::super::text::{Label, Text};
use crate::measure::write::Manner;
use crate::measure::{Kind, Quantity, Real};
use crate::plan::{Cutting, Stick};

/// So many sticks stand on a page of their own: a plan of a million parts is never laid out as a whole.
const A_PAGE: usize = 500;

/// The page of a plan in a terminal of `width` columns, page by page, one below the other.
pub fn plan_pages<'a>(cutting: &'a Cutting, manner: &'a Manner, width: usize) -> impl Iterator<Item = Page> + use<'a> {
    let is_empty = cutting.sticks.is_empty();
    let first = if is_empty {
        Page::new().text("nothing to cut")
    } else {
        let page = summary(cutting, manner);
        let page = taken(page, cutting, manner);
        stops(page, cutting, manner).heading("Sticks")
    };
    let longest = cutting.sticks.iter().map(|stick| stock(cutting, stick).to_f64()).fold(0.0, f64::max);
    let sticks = cutting.sticks.chunks(A_PAGE).enumerate().map(move |(nth, some)| {
        let each = some.iter().enumerate();
        each.fold(Page::new(), |page, (at, stick)| {
            page.append(one_stick(cutting, stick, nth * A_PAGE + at + 1, manner, width, longest))
        })
    });
    let last = (!is_empty).then(|| cautions(cutting, manner));
    std::iter::once(first).chain(sticks).chain(last)
}

pub(super) fn length(inches: &Real, manner: &Manner) -> String {
    manner.short(&Quantity::inches(inches.clone()))
}

/// An amount of cost as the bench shows it: money, or so many sticks.
fn cost(cutting: &Cutting, amount: u64, manner: &Manner) -> String {
    if !cutting.is_money() {
        return count(amount, "stick");
    }
    money(amount, manner)
}

/// So many cents as money.
pub(super) fn money(cents: u64, manner: &Manner) -> String {
    let cents = i64::try_from(cents).map_or(Real::ZERO, Real::whole);
    manner.short(&Quantity::new(cents / Real::whole(100), Kind::MONEY))
}

fn count(number: u64, word: &str) -> String {
    if number == 1 { format!("1 {word}") } else { format!("{number} {word}s") }
}

/// `part` of `whole` in percent, to a tenth.
fn percent(part: &Real, whole: &Real) -> String {
    format!("{} %", (part.clone() * Real::whole(100) / whole.clone()).to_fixed(1))
}

fn number(count: usize) -> u64 {
    u64::try_from(count).unwrap_or(u64::MAX)
}

fn total<'a>(lengths: impl Iterator<Item = &'a Real>) -> Real {
    lengths.fold(Real::ZERO, |sum, length| sum + length.clone())
}

fn stock<'a>(cutting: &'a Cutting, stick: &Stick) -> &'a Real {
    &cutting.order.stock[stick.stock].length
}

/// Sticks, cost, proof; what goes where of all the wood; what it was worked out with.
fn summary(cutting: &Cutting, manner: &Manner) -> Page {
    let sticks = count(number(cutting.sticks.len()), "stick");
    let head = Text::of(Label::Heading, "plan").and(Label::Plain, "  ").and(Label::Value, sticks);
    let head = if cutting.is_money() {
        head.and(Label::Plain, "  ").and(Label::Value, cost(cutting, cutting.cost, manner))
    } else {
        head
    };
    let whole = total(cutting.sticks.iter().map(|stick| stock(cutting, stick)));
    let kept = total(cutting.sticks.iter().map(|stick| &stick.offcut));
    let waste = total(cutting.sticks.iter().map(|stick| &stick.waste));
    let used = whole.clone() - kept.clone() - waste.clone();
    let shares = format!(
        "parts {}, offcuts {}, waste {}",
        percent(&used, &whole),
        percent(&kept, &whole),
        percent(&waste, &whole)
    );
    let saw = &cutting.saw;
    let saw_cuts = format!(
        "kerf {}, trim {} at each end, offcuts kept from {}",
        length(&saw.kerf, manner),
        length(&saw.trim, manner),
        length(&saw.offcut, manner)
    );
    let tick = if saw.metric { "0.1 mm" } else { "1/64\"" };
    let rounded = format!(
        "worked out in whole {tick}: parts, kerf and trim rounded up, stock down; the proof holds for these sizes"
    );
    Page::new()
        .hanging(head, 2)
        .hanging(proof(cutting, manner), 2)
        .hanging(Text::of(Label::Plain, format!("  {shares}")), 2)
        .hanging(Text::of(Label::Dim, format!("  {saw_cuts}")), 2)
        .hanging(Text::of(Label::Dim, format!("  {rounded}")), 2)
}

fn proof(cutting: &Cutting, manner: &Manner) -> Text {
    let of = if cutting.left.is_empty() { "" } else { " for the parts planned" };
    // Offcuts are there already, and are not in the count.
    let beside = if !cutting.is_money() && cutting.has_offcuts() { " beside offcuts" } else { "" };
    if cutting.is_proven() {
        let (bound, less) = (cost(cutting, cutting.bound, manner), if cutting.is_money() { "less" } else { "fewer" });
        return Text::of(Label::Good, "  proven best")
            .and(Label::Plain, format!(": {less} than {bound}{beside} is impossible{of}"));
    }
    let amount = |amount: u64| i64::try_from(amount).map_or(Real::ZERO, Real::whole);
    let gap = amount(cutting.cost - cutting.bound);
    let above = cost(cutting, cutting.cost - cutting.bound, manner);
    let bound = cost(cutting, cutting.bound, manner);
    let share = percent(&gap, &amount(cutting.cost));
    let text =
        format!(": at most {above} ({share}) above the best there can be; less than {bound}{beside} is impossible{of}");
    Text::of(Label::Warn, "  not proven best").and(Label::Plain, text)
}

/// How many sticks of each row of the stock: those to buy, and offcuts, which are there already.
fn taken(page: Page, cutting: &Cutting, manner: &Manner) -> Page {
    let mut used: BTreeMap<usize, u64> = BTreeMap::new();
    cutting.sticks.iter().for_each(|stick| *used.entry(stick.stock).or_default() += 1);
    let is_offcut = |row: &usize| cutting.order.stock[*row].offcut;
    let (offcuts, bought): (BTreeMap<_, _>, BTreeMap<_, _>) = used.into_iter().partition(|(row, _)| is_offcut(row));
    let row = |page: Page, (row, count): (usize, u64)| {
        let held = &cutting.order.stock[row];
        let each = cutting.cost_of(row);
        let (each, sum) = if cutting.is_money() && !held.offcut {
            (format!("at {}", cost(cutting, each, manner)), cost(cutting, each * count, manner))
        } else {
            Default::default()
        };
        page.row([
            Cell::right(Text::of(Label::Value, format!("  {count} of"))),
            Cell::right(Text::of(Label::Value, length(&held.length, manner))),
            Cell::right(Text::of(Label::Plain, each)),
            Cell::right(Text::of(Label::Value, sum)),
            Cell::of(Label::Plain, held.material.words()).yielding(1),
        ])
    };
    let all = |page: Page, heading: &str, rows: BTreeMap<usize, u64>| {
        if rows.is_empty() { page } else { rows.into_iter().fold(page.heading(heading), row) }
    };
    all(all(page, "Buy", bought), "Offcuts used", offcuts)
}

/// Each length that is cut more than once, the longest first: one setting of the stop.
fn stops(page: Page, cutting: &Cutting, manner: &Manner) -> Page {
    let mut lengths: Vec<(&Real, u64)> = Vec::new();
    let pieces = cutting.sticks.iter().flat_map(|stick| &stick.pieces);
    let mut all: Vec<&Real> = pieces.map(|piece| &cutting.order.parts[piece.part].length).collect();
    all.sort_by(|left, right| right.partial_cmp(left).unwrap_or(std::cmp::Ordering::Equal));
    for one in all {
        match lengths.last_mut() {
            Some(last) if last.0.same(one) => last.1 += 1,
            _ => lengths.push((one, 1)),
        }
    }
    lengths.retain(|length| length.1 > 1);
    if lengths.is_empty() {
        return page;
    }
    lengths.into_iter().fold(page.heading("Stop settings"), |page, (one, times)| {
        page.row([
            Cell::right(Text::of(Label::Value, format!("  {}", length(one, manner)))),
            Cell::right(Text::of(Label::Other, manner.other(&Quantity::inches(one.clone())))),
            Cell::right(Text::of(Label::Plain, format!("{times} parts"))),
        ])
    })
}

/// A stick: a bar to scale, and what is cut from it in words.
fn one_stick(cutting: &Cutting, stick: &Stick, number: usize, manner: &Manner, width: usize, longest: f64) -> Page {
    let held = &cutting.order.stock[stick.stock];
    let material = cutting.order.parts.get(stick.pieces.first().map_or(0, |piece| piece.part));
    let words = material.map_or_else(String::new, |part| part.material.words());
    let head = Text::of(Label::Name, number.to_string())
        .and(Label::Plain, "  ")
        .and(Label::Value, length(&held.length, manner))
        .and(Label::Plain, "  ")
        .and(Label::Plain, words);
    let mut cuts = Text::from("  ");
    for (name, long, times) in runs(cutting, stick) {
        let times = if times > 1 { format!("{times} x ") } else { String::new() };
        cuts = cuts.and(Label::Plain, times).and(Label::Name, name).and(Label::Plain, " ");
        cuts = cuts.and(Label::Value, length(long, manner)).and(Label::Plain, ", ");
    }
    if stick.offcut.is_positive() {
        cuts =
            cuts.and(Label::Good, "offcut ").and(Label::Value, length(&stick.offcut, manner)).and(Label::Plain, ", ");
    }
    cuts = cuts.and(Label::Dim, format!("waste {}", length(&stick.waste, manner)));
    Page::new().hanging(head, 2).fixed(bar(cutting, stick, longest, width)).hanging(cuts, 2)
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

/// Parts that a hand cannot hold at the saw.
fn cautions(cutting: &Cutting, manner: &Manner) -> Page {
    let mut short: BTreeMap<usize, bool> = BTreeMap::new();
    for stick in &cutting.sticks {
        let longer =
            stick.pieces.iter().any(|piece| !cutting.is_short(piece.part)) || stick.offcut >= cutting.saw.offcut;
        for piece in stick.pieces.iter().filter(|piece| cutting.is_short(piece.part)) {
            *short.entry(piece.part).or_insert(true) &= longer && stick.pieces.len() > 1;
        }
    }
    if short.is_empty() {
        return Page::new();
    }
    let page = Page::new().blank().text(Text::of(Label::Heading, "Short parts"));
    short.into_iter().fold(page, |page, (row, beside)| {
        let part = &cutting.order.parts[row];
        let how = if beside {
            "cut it off while the stick is long, before the longer parts"
        } else {
            "leave it on a longer piece and hold it in a jig, not by hand"
        };
        let text = format!("{} is {}, too short to hold at the saw: {how}", part.name, length(&part.length, manner));
        page.said(Label::Warn, &text)
    })
}
