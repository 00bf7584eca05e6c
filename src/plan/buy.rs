//! What a plan takes from the rack or from the dealer.

use std::collections::BTreeMap;

use super::lacking::Lacking;
use super::material::Material;
use super::whole::Whole;
use crate::measure::Real;

/// So many pieces of one kind that a plan takes, or that nothing in the shop gives.
#[derive(Clone, Debug)]
pub struct Purchase {
    /// `stick`, `offcut`, `board` or `sheet`; `part` or `piece` where no stock gives it.
    pub what: &'static str,
    /// How many.
    pub count: u64,
    /// How long each is, in inches.
    pub length: Real,
    /// How wide each is, in inches.
    pub width: Option<Real>,
    /// What of.
    pub material: Material,
    /// What one costs, in cents.
    pub each: Option<u64>,
}

/// All that a plan takes, row by row of the stock; then the parts and pieces that no stock gives.
pub fn purchases(whole: &Whole) -> Vec<Purchase> {
    let mut all = sticks(whole);
    let mut others: BTreeMap<usize, u64> = BTreeMap::new();
    let boards = whole.boards.boards.iter().map(|board| board.item);
    let sheets = whole.sheeting.iter().flat_map(|one| one.plan.layouts.iter().map(|layout| one.items[layout.sheet]));
    boards.chain(sheets).for_each(|row| *others.entry(row).or_default() += 1);
    all.extend(others.into_iter().map(|(row, count)| taken(whole, row, count)));
    all.extend(missing(whole));
    all
}

/// How many sticks of each row; a stick of any wood is bought in the wood that is cut from it.
fn sticks(whole: &Whole) -> Vec<Purchase> {
    let order = &whole.sticks.order;
    let mut sticks: BTreeMap<(usize, Material), (usize, u64)> = BTreeMap::new();
    for stick in &whole.sticks.sticks {
        let material = whole.sticks.material_of(stick);
        sticks.entry((whole.rows[stick.stock], material)).or_insert((stick.stock, 0)).1 += 1;
    }
    let purchase = |((_, material), (stock, count)): ((usize, Material), (usize, u64))| {
        let held = &order.stock[stock];
        let what = if held.offcut { "offcut" } else { "stick" };
        let each = held.cost.filter(|_| !held.offcut).map(u64::from);
        Purchase { what, count, length: held.length.clone(), width: None, material, each }
    };
    sticks.into_iter().map(purchase).collect()
}

/// So many boards or sheets of a row.
fn taken(whole: &Whole, row: usize, count: u64) -> Purchase {
    let item = &whole.rack.items[row];
    let what = item.what.word();
    let (length, width, material) = (item.length.clone(), item.width.clone(), item.material.clone());
    Purchase { what, count, length, width, material, each: item.cost.map(u64::from) }
}

/// Parts that no stick or board gives, and pieces of sheets that are bought in their own size.
fn missing(whole: &Whole) -> Vec<Purchase> {
    let none = |what, count, length: &Real, width: Option<&Real>, material: &Material| Purchase {
        what,
        count,
        length: length.clone(),
        width: width.cloned(),
        material: material.clone(),
        each: None,
    };
    let (mut parts, mut pieces): (Vec<Purchase>, Vec<Purchase>) = (Vec::new(), Vec::new());
    for lacking in whole.lacking() {
        let (Some(count), Some(length), Some(material)) = (lacking.quantity(), lacking.length(), lacking.material())
        else {
            continue;
        };
        let one = |what| none(what, u64::from(count), length, lacking.width(), material);
        match lacking {
            Lacking::Part(..) => parts.push(one("part")),
            Lacking::Piece(..) => pieces.push(one("piece")),
            Lacking::Row(_) => {}
        }
    }
    let to_get = whole
        .sheets_to_get()
        .map(|sheet| none("piece", u64::from(sheet.quantity), &sheet.height, Some(&sheet.width), &sheet.material));
    pieces.extend(to_get);
    parts.extend(joined(pieces));
    parts
}

/// Like pieces as one row, in the order of their material and size.
fn joined(mut pieces: Vec<Purchase>) -> Vec<Purchase> {
    let key = |one: &Purchase| (one.material.clone(), one.length.to_text(), one.width.as_ref().map(Real::to_text));
    pieces.sort_by_cached_key(key);
    let mut rows: Vec<Purchase> = Vec::new();
    for piece in pieces {
        match rows.last_mut().filter(|last| key(last) == key(&piece)) {
            Some(last) => last.count += piece.count,
            None => rows.push(piece),
        }
    }
    rows
}
