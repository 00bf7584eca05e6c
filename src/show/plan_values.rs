//! A cutting plan as a map for scripts.

use super::answer::because;
use crate::lang::Value;
use crate::measure::write::Manner;
use crate::measure::{Kind, Quantity, Real};
use crate::plan::{Block, Board, Boarding, Cut, Cutting, Piece, Sheeting, Stick, Wanted, WantedSheet, Whole};

fn length(inches: &Real) -> Value {
    Value::Quantity(Quantity::inches(inches.clone()))
}

fn text(text: &str) -> Value {
    Value::Text(text.into())
}

fn list<T>(all: impl IntoIterator<Item = T>, one: impl FnMut(T) -> Value) -> Value {
    Value::List(all.into_iter().map(one).collect())
}

/// A plan for everything: what `planned` in the table of functions says stands in it.
pub fn plan_value(whole: &Whole, manner: &Manner) -> Value {
    let sticks = &whole.sticks;
    let (cost, bound) = whole.cost();
    let cut = |one: &Sheeting| (0..one.plan.layouts.len()).map(|at| sheet(whole, one, at)).collect::<Vec<_>>();
    Value::map([
        ("cost", money(sticks, cost)),
        ("bound", money(sticks, bound)),
        ("proven", Value::Truth(cost == bound)),
        ("stock_said", Value::Truth(whole.is_said)),
        ("sticks", list(&sticks.sticks, |one| stick(sticks, one))),
        ("boards", list(&whole.boards.boards, |one| board(whole, one))),
        ("sheets", Value::List(whole.sheeting.iter().flat_map(cut).collect())),
        ("unplanned", Value::List(unplanned(whole, manner))),
    ])
}

/// An amount of cost: money, or a count where nothing in the shop has a cost.
fn money(cutting: &Cutting, cost: u64) -> Value {
    let cost = i64::try_from(cost).unwrap_or(i64::MAX);
    if !cutting.is_money() {
        return Value::count(cost);
    }
    Value::Quantity(Quantity::new(Real::ratio(cost, 100), Kind::MONEY))
}

fn part(parts: &[Wanted], piece: &Piece) -> Value {
    let part = &parts[piece.part];
    Value::map([("name", text(&part.name)), ("length", length(&part.length)), ("from", length(&piece.from))])
}

fn stick(cutting: &Cutting, stick: &Stick) -> Value {
    let held = &cutting.order.stock[stick.stock];
    Value::map([
        ("length", length(&held.length)),
        ("of", Value::Text(held.material.words())),
        ("cost", money(cutting, cutting.cost_of(stick.stock))),
        ("parts", list(&stick.pieces, |piece| part(&cutting.order.parts, piece))),
        ("offcut", length(&stick.offcut)),
        ("waste", length(&stick.waste)),
    ])
}

fn board(whole: &Whole, board: &Board) -> Value {
    let item = &whole.rack.items[board.item];
    Value::map([
        ("length", length(&item.length)),
        ("width", item.width.as_ref().map_or(Value::Nothing, length)),
        ("of", Value::Text(item.material.words())),
        ("block", block(&whole.boards, &board.block)),
    ])
}

/// What becomes of a block of a board: a part, an offcut, a rest, or the blocks that it is ripped or crosscut into.
fn block(boards: &Boarding, one: &Block) -> Value {
    let inner = |blocks: &[Block]| list(blocks, |inner| block(boards, inner));
    let (what, becomes) = match &one.cut {
        Cut::Rest => ("rest", Value::Truth(true)),
        Cut::Offcut(_, milled) => ("offcut", length(milled)),
        Cut::Part(part) => ("part", text(&boards.parts[*part].name)),
        Cut::Ripped(blocks) => ("ripped", inner(blocks)),
        Cut::Crosscut(blocks) => ("crosscut", inner(blocks)),
    };
    Value::map([("length", length(&one.length)), ("width", length(&one.width)), (what, becomes)])
}

fn sheet(whole: &Whole, one: &Sheeting, at: usize) -> Value {
    let item = &whole.rack.items[one.items[one.plan.layouts[at].sheet]];
    let parts = one.placed(at, &whole.sticks.saw).into_iter().filter_map(|(placed, [left, bottom])| {
        let (row, turned) = placed.piece?;
        let piece = &whole.sheets[one.rows[row]];
        Some(Value::map([
            ("name", text(&piece.name)),
            ("width", length(&piece.width)),
            ("height", length(&piece.height)),
            ("turned", Value::Truth(turned)),
            ("left", length(&left)),
            ("bottom", length(&bottom)),
        ]))
    });
    Value::map([
        ("length", length(&item.length)),
        ("width", item.width.as_ref().map_or(Value::Nothing, length)),
        ("of", Value::Text(item.material.words())),
        ("parts", Value::List(parts.collect())),
    ])
}

/// Parts that nothing in the shop gives, each with the reason.
fn unplanned(whole: &Whole, manner: &Manner) -> Vec<Value> {
    let left = |name: &str, quantity: u32, because: String| {
        let because = Value::Text(because);
        Value::map([("name", text(name)), ("quantity", Value::count(quantity)), ("because", because)])
    };
    let sticks = &whole.sticks;
    let of_sticks = sticks
        .left
        .iter()
        .map(|one| left(&sticks.order.parts[one.part].name, one.quantity, because(sticks, one, manner)));
    let of_sheets = whole.sheets.iter().enumerate().filter_map(|(row, sheet)| {
        let (quantity, because) = not_out_of(whole, row, sheet)?;
        Some(left(&sheet.name, quantity, because))
    });
    of_sticks.chain(of_sheets).collect()
}

/// How many of a row of sheets no sheet of the shop gives, and why.
fn not_out_of(whole: &Whole, row: usize, sheet: &WantedSheet) -> Option<(u32, String)> {
    let place = |one: &Sheeting| Some(one.plan.left[one.rows.iter().position(|own| *own == row)?]);
    match whole.sheeting.iter().find_map(place) {
        None => Some((sheet.quantity, format!("there is no stock of {}", sheet.material.words()))),
        Some(0) => None,
        Some(left) => Some((left, "they do not come out of the sheets there are".into())),
    }
}
