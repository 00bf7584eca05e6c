//! Instances out of a row of numbers that is the same on every machine.

use benchrule::cut::{Fit, Instance, Part, Stock};

/// Numbers that look random (xorshift, Marsaglia 2003).
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    /// A number from `from` up to, not with, `to`.
    pub fn roll(&mut self, from: u32, to: u32) -> u32 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        from + u32::try_from(self.0 >> 33).unwrap() % (to - from)
    }
}

/// A small instance of any sort: joints, kerfs, limited and free stock, parts too long.
pub fn small(dice: &mut Dice) -> Instance {
    let kerfs = [dice.roll(0, 4), dice.roll(0, 4)];
    let turned = dice.roll(0, 3) == 0;
    let mut parts = Vec::new();
    let mut left = dice.roll(1, 8);
    while left > 0 {
        let quantity = dice.roll(1, 3).min(left);
        left -= quantity;
        let fit = if turned && dice.roll(0, 2) == 0 {
            Fit::Turned { overlap: 3, setting: dice.roll(0, 2) }
        } else {
            Fit::Apart
        };
        let kerf = kerfs[usize::try_from(dice.roll(0, 2)).unwrap()];
        parts.push(Part { length: dice.roll(5, 40), kerf, fit, quantity, group: Some(dice.roll(0, 3)), short: false });
    }
    let stock = (0..dice.roll(1, 4)).map(|_| Stock {
        usable: dice.roll(20, 70),
        count: (dice.roll(0, 2) == 0).then(|| dice.roll(0, 4)),
        cost: dice.roll(0, 30),
        offcut: dice.roll(0, 3) == 0,
    });
    Instance { stock: stock.collect(), parts, keep: 0 }
}

/// A small instance of one sort, the others left out: `sorts` of them, one after another.
pub fn of_sort(sort: u64, dice: &mut Dice) -> Instance {
    let mut instance = small(dice);
    let free = |stock: &mut Stock| (stock.count, stock.offcut) = (None, false);
    match sort {
        // One length of stick, and no kerf: sums that just fill a stick are many.
        0 => {
            instance.stock.truncate(1);
            instance.stock.iter_mut().for_each(free);
            instance.parts.iter_mut().for_each(|part| (part.kerf, part.fit) = (0, Fit::Apart));
        }
        // Several lengths.
        1 => instance.stock.iter_mut().for_each(free),
        // Few of each.
        2 => instance.stock.iter_mut().for_each(|stock| stock.count = Some(dice.roll(1, 4))),
        // Kerfs that differ widely.
        3 => instance.parts.iter_mut().for_each(|part| part.kerf = dice.roll(0, 12)),
        // Every part turned, at one of two settings and two overlaps.
        4 => instance.parts.iter_mut().for_each(|part| {
            part.fit = Fit::Turned { overlap: dice.roll(2, 4), setting: dice.roll(0, 2) };
        }),
        // Two frames whose parts should come from sticks that match.
        5 => instance.parts.iter_mut().for_each(|part| part.group = Some(dice.roll(0, 2))),
        _ => {}
    }
    instance
}

/// How many sorts there are.
pub const SORTS: u64 = 7;

/// An instance of `kinds` lengths of part.
pub fn large(dice: &mut Dice, kinds: u32) -> Instance {
    let kerf = dice.roll(0, 12);
    let part = |dice: &mut Dice| Part {
        length: dice.roll(100, 2500),
        kerf,
        fit: Fit::Apart,
        quantity: dice.roll(1, 9),
        group: Some(dice.roll(0, kinds)),
        short: false,
    };
    let parts = (0..kinds).map(|_| part(dice)).collect();
    let stick = |usable: u32, dice: &mut Dice| Stock {
        usable,
        count: (dice.roll(0, 3) == 0).then(|| dice.roll(0, kinds)),
        cost: usable + dice.roll(0, 400),
        offcut: false,
    };
    let stock = [2600, 3840, 4608].map(|usable| stick(usable, dice)).to_vec();
    Instance { parts, stock, keep: 0 }
}
