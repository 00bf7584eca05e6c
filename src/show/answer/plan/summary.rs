//! What a plan costs and what is proven of it, for each kind of stock.

use super::super::super::Page;
use super::super::super::text::{Label, Text};
use super::section::{length, percent};
use crate::diag::count;
use crate::measure::write::Manner;
use crate::measure::{Kind, Quantity, Real};
use crate::plan::{Boarding, Cutting, Proof, Whole};

/// Whether a plan takes nothing from stock.
pub(super) fn is_empty(whole: &Whole) -> bool {
    whole.proofs().next().is_none()
}

/// The cost, the proof, and where the wood goes, of sticks, boards and each material of sheets.
pub(super) fn summary(whole: &Whole, manner: &Manner) -> Page {
    whole.proofs().fold(Page::new(), |page, one| {
        let page = page.hanging(head(&one, manner), 2).hanging(proof(&one, whole, manner), 2);
        let lines = match one.what {
            "stick" => of_sticks(&whole.sticks, manner),
            "board" => vec![of_boards(&whole.boards, whole)],
            _ => of_sheets(&one, whole),
        };
        lines.into_iter().fold(page, |page, line| page.hanging(line, 2))
    })
}

/// An amount of cost as the bench shows it: money, or so many sticks.
fn cost(of: &Proof, amount: u64, manner: &Manner) -> String {
    if !of.pricing.is_money() {
        return count(amount, of.what);
    }
    let cents = i64::try_from(amount).map_or(Real::ZERO, Real::whole);
    manner.short(&Quantity::new(cents / Real::whole(100), Kind::MONEY))
}

fn head(of: &Proof, manner: &Manner) -> Text {
    let number = count(u64::try_from(of.count).unwrap_or(u64::MAX), of.what);
    let material = of.material.words();
    let taken = if material.is_empty() { number } else { format!("{number} of {material}") };
    let head = Text::of(Label::Heading, "plan").and(Label::Plain, "  ").and(Label::Value, taken);
    match of.pricing.is_money() {
        true => head.and(Label::Plain, "  ").and(Label::Value, cost(of, of.cost, manner)),
        false => head,
    }
}

/// What is proven, and what the proof leaves aside.
fn proof(of: &Proof, whole: &Whole, manner: &Manner) -> Text {
    let money = of.pricing.is_money();
    let aside = match of.what {
        // Offcuts are in the shop already and do not count.
        "stick" if !money && whole.sticks.has_offcuts() => " beside offcuts",
        // Thin parts might share a board that is sawn through its thickness, which no plan here does.
        "board" => " without resawing",
        _ => "",
    };
    let planned = if of.holds_for.is_empty() { String::new() } else { format!(" {}", of.holds_for) };
    let bound = cost(of, of.bound, manner);
    let less = if money { "less" } else { "fewer" };
    if of.is_proven() {
        let text = match of.bound {
            0 => format!(": it costs nothing{planned}"),
            _ => format!(": {less} than {bound}{aside} is impossible{planned}"),
        };
        return Text::of(Label::Good, "  proven best").and(Label::Plain, text);
    }
    let amount = |amount: u64| i64::try_from(amount).map_or(Real::ZERO, Real::whole);
    let above = cost(of, of.cost - of.bound, manner);
    let share = percent(&amount(of.cost - of.bound), &amount(of.cost));
    // That less than nothing is impossible says nothing.
    let floor = if of.bound == 0 { String::new() } else { format!("; {less} than {bound}{aside} is impossible") };
    let text = format!(": at most {above} ({share}) above the best there can be{floor}{planned}");
    Text::of(Label::Warn, "  not proven best").and(Label::Plain, text)
}

/// Where the wood goes, how it is sawn, and the sizes that the proof is about.
fn of_sticks(cutting: &Cutting, manner: &Manner) -> Vec<Text> {
    let total = |lengths: &mut dyn Iterator<Item = &Real>| lengths.fold(Real::ZERO, |sum, one| sum + one.clone());
    let sticks = &cutting.sticks;
    let whole = total(&mut sticks.iter().map(|stick| &cutting.order.stock[stick.stock].length));
    let kept = total(&mut sticks.iter().map(|stick| &stick.offcut));
    let waste = total(&mut sticks.iter().map(|stick| &stick.waste));
    let used = whole.clone() - kept.clone() - waste.clone();
    let [used, kept, waste] = [used, kept, waste].map(|part| percent(&part, &whole));
    let saw = &cutting.saw;
    let [kerf, trim, offcut] = [&saw.kerf, &saw.trim, &saw.offcut].map(|inches| length(inches, manner));
    let tick = if saw.metric { "0.1 mm" } else { "1/64\"" };
    vec![
        Text::of(Label::Plain, format!("  parts {used}, offcuts {kept}, waste {waste}")),
        Text::of(Label::Dim, format!("  kerf {kerf}, trim {trim} at each end, offcuts kept from {offcut}")),
        Text::of(
            Label::Dim,
            format!("  figured to {tick}: parts, kerf and trim rounded up, stock down; the proof is for those sizes"),
        ),
    ]
}

fn of_boards(boards: &Boarding, whole: &Whole) -> Text {
    let (feet, used) = (boards.feet(&whole.rack.items), boards.used());
    let share = percent(&used, &feet);
    let text = format!("  {} board feet bought, {} in parts, {share}", feet.to_decimal(2), used.to_decimal(2));
    Text::of(Label::Plain, text)
}

fn of_sheets(of: &Proof, whole: &Whole) -> Vec<Text> {
    let own = whole
        .sheeting
        .iter()
        .filter(|one| one.rows.first().is_some_and(|row| whole.sheets[*row].material == of.material));
    let line = |used: Real| format!("  pieces {}; cuts run from edge to edge", percent(&used, &Real::whole(1)));
    own.map(|one| Text::of(Label::Plain, line(one.used()))).collect()
}
