//! What a plan takes out of the rack or from the dealer, as a table.

use std::collections::BTreeMap;

use crate::measure::write::exactly;
use crate::measure::{Quantity, Real};
use crate::plan::{Item, Material, Pricing, WHATS, What, Whole};
use crate::table::table;

/// How many pieces of which stock a plan takes, with what they cost; then pieces that no stock gives.
pub fn buy_csv(whole: &Whole) -> String {
    let head = ["what", "count", "length", "width", "wood", "section", "each", "sum"];
    let mut rows = vec![head.map(String::from).to_vec()];
    // A stick of any wood is bought in the wood that is cut from it.
    let mut sticks: BTreeMap<(usize, Material), u64> = BTreeMap::new();
    for stick in &whole.sticks.sticks {
        let material = &whole.sticks.order.stock[stick.stock].material;
        let own = stick.pieces.first().map(|piece| &whole.sticks.order.parts[piece.part].material);
        let told = !material.wood.is_empty() && !material.section.is_empty();
        let material = if told { material } else { own.unwrap_or(material) };
        *sticks.entry((whole.rows[stick.stock], material.clone())).or_default() += 1;
    }
    rows.extend(sticks.into_iter().map(|((row, material), count)| taken(&whole.rack.items[row], &material, count)));
    let mut others: BTreeMap<usize, u64> = BTreeMap::new();
    whole.boards.boards.iter().for_each(|board| *others.entry(board.item).or_default() += 1);
    for sheeting in &whole.sheeting {
        let items = sheeting.plan.layouts.iter().map(|layout| sheeting.items[layout.sheet]);
        items.for_each(|item| *others.entry(item).or_default() += 1);
    }
    rows.extend(others.into_iter().map(|(row, count)| {
        let item = &whole.rack.items[row];
        taken(item, &item.material, count)
    }));
    let inches = |inches: &Real| exactly(&Quantity::inches(inches.clone()));
    let mut pieces: BTreeMap<(Material, String, String), u64> = BTreeMap::new();
    for lacking in whole.lacking() {
        let (length, count) = (inches(lacking.length), u64::from(lacking.quantity));
        match lacking.width {
            Some(width) => *pieces.entry((lacking.material.clone(), length, inches(width))).or_default() += count,
            None => rows.push(missing("part", count, [length, String::new()], lacking.material)),
        }
    }
    let planned = |row: usize| whole.sheeting.iter().any(|one| one.rows.contains(&row));
    let wanted = whole.sheets.iter().enumerate().filter(|(row, _)| !planned(*row));
    for (_, sheet) in wanted {
        let key = (sheet.material.clone(), inches(&sheet.height), inches(&sheet.width));
        *pieces.entry(key).or_default() += u64::from(sheet.quantity);
    }
    rows.extend(
        pieces
            .into_iter()
            .map(|((material, length, width), count)| missing("piece", count, [length, width], &material)),
    );
    table(rows)
}

fn taken(item: &Item, material: &Material, count: u64) -> Vec<String> {
    let what = WHATS.iter().find(|(_, what)| *what == item.what).map_or("", |(word, _)| word);
    let each = item.cost.filter(|_| item.what != What::Offcut).map(u64::from);
    let money = |cents: Option<u64>| cents.map_or_else(String::new, |cents| Pricing::Money.text(cents));
    let inches = |inches: &Real| exactly(&Quantity::inches(inches.clone()));
    vec![
        what.into(),
        count.to_string(),
        inches(&item.length),
        item.width.as_ref().map_or_else(String::new, inches),
        material.wood.clone(),
        material.section.clone(),
        money(each),
        money(each.map(|each| each * count)),
    ]
}

/// A piece that is to be had in its own size.
fn missing(what: &str, count: u64, [length, width]: [String; 2], material: &Material) -> Vec<String> {
    let none = String::new;
    vec![what.into(), count.to_string(), length, width, material.wood.clone(), material.section.clone(), none(), none()]
}
