//! Public test instances of cutting stock, as their files write them.

use benchrule::cut::{Fit, Instance, Part, Stock};

fn numbers(text: &str) -> Vec<i64> {
    text.split_whitespace().map(|word| word.parse().unwrap_or_else(|_| panic!("not a number: {word}"))).collect()
}

fn count(number: i64) -> u32 {
    u32::try_from(number).unwrap()
}

/// Sticks of several lengths: `parts lengths kerf trim`, then `length cost count` for each length of stock (count below
/// 0: no limit), then `length quantity` for each length of part. Trim is taken off both ends.
pub fn sticks(text: &str) -> Instance {
    let all = numbers(text);
    let (kinds, lengths) = (usize::try_from(all[0]).unwrap(), usize::try_from(all[1]).unwrap());
    let (kerf, trim) = (count(all[2]), count(all[3]));
    let (stock, parts) = all[4..].split_at(3 * lengths);
    let stick = |row: &[i64]| Stock {
        usable: count(row[0]) - 2 * trim,
        count: (row[2] >= 0).then(|| count(row[2])),
        cost: count(row[1]),
        offcut: false,
    };
    let part = |row: &[i64]| part(count(row[0]), kerf, count(row[1]));
    let instance = Instance {
        parts: parts.chunks_exact(2).map(part).collect(),
        stock: stock.chunks_exact(3).map(stick).collect(),
        keep: 0,
    };
    assert_eq!(instance.parts.len(), kinds);
    instance
}

/// Bin packing: `pieces room`, then the size of each piece.
#[allow(dead_code)]
pub fn bins(text: &str) -> Instance {
    let all = numbers(text);
    let pieces = usize::try_from(all[0]).unwrap();
    assert_eq!(all.len(), pieces + 2);
    Instance {
        parts: all[2..].iter().map(|size| part(count(*size), 0, 1)).collect(),
        stock: vec![Stock { usable: count(all[1]), count: None, cost: 1, offcut: false }],
        keep: 0,
    }
}

pub fn part(length: u32, kerf: u32, quantity: u32) -> Part {
    Part { length, kerf, fit: Fit::Apart, quantity, group: None, short: false }
}
