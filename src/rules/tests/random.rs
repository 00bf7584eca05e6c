//! Designs at random, from a fixed seed: the same ones on every machine.

use super::try_set;
use crate::measure::write::exactly;
use crate::measure::{Kind, Quantity, Real};
use crate::rules::{Design, Slot, Type};

/// A linear congruential generator; its upper bits are good enough to choose by.
pub(super) struct Dice(u64);

impl Dice {
    pub(super) fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    pub(super) fn below(&mut self, count: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from((self.0 >> 33) % u64::try_from(count).unwrap()).unwrap()
    }

    pub(super) fn one_in(&mut self, count: usize) -> bool {
        self.below(count) == 0
    }

    pub(super) fn pick<T: Clone>(&mut self, list: &[T]) -> T {
        list[self.below(list.len())].clone()
    }

    fn whole(&mut self, from: i64, to: i64) -> i64 {
        from + i64::try_from(self.below(usize::try_from(to - from + 1).unwrap())).unwrap()
    }
}

/// Names that a person sets in this build, but for the build itself.
pub(super) fn fields(design: &Design) -> Vec<Slot> {
    let order = &design.book().builds[usize::from(design.build())].order;
    let build = design.book().build_field;
    let order = order.iter().copied().filter(|slot| Some(*slot) != build);
    order.filter(|slot| design.rule(*slot).is_some_and(|rule| rule.given)).collect()
}

/// Some value for a field, mostly one that a framer would give, now and then one that is refused.
pub(super) fn value(dice: &mut Dice, design: &Design, slot: Slot) -> String {
    let name = design.book().name(slot);
    let large = name.text.starts_with("art.") && !name.text.contains("bulk") || name.text.starts_with("built");
    let large = large || name.text.starts_with("image");
    match name.of {
        Type::Quantity(Kind::LENGTH) => {
            let sixteenths = if large { dice.whole(16, 480) } else { dice.whole(0, 48) };
            match dice.below(12) {
                0 => format!("{}mm", sixteenths * 2),
                1 => format!("{sixteenths}/17in"),
                2 => "0in".into(),
                3 => format!("-{sixteenths}/16in"),
                _ => format!("{sixteenths}/16in"),
            }
        }
        Type::Quantity(Kind::ANGLE) => format!("{}°", dice.pick(&[0, 0, 0, 30, 45, 77, 90, 100])),
        Type::Quantity(kind) => exactly(&Quantity::new(Real::whole(dice.whole(1, 9)), kind)),
        Type::Share => format!("{}%", dice.whole(0, 110)),
        Type::Whole => dice.pick(&[0, 1, 2, 3, 4, 4, 4, 4, 6, 8]).to_string(),
        Type::Size => format!("{}/8in x {}/8in x {}/16in", dice.whole(30, 300), dice.whole(30, 300), dice.whole(1, 40)),
        Type::List(_) => format!("{}/8in, {}/8in", dice.whole(2, 20), dice.whole(2, 20)),
        Type::Text | Type::Truth | Type::Nothing | Type::Record(_) => "a word".into(),
        Type::Word => {
            let rule = design.rule(slot).unwrap();
            design.book().words(rule).map_or("none".into(), |words| dice.pick(words))
        }
    }
}

/// One change at random: a field set or cleared, or another build.
pub(super) fn change(dice: &mut Dice, design: &mut Design) {
    match dice.below(20) {
        0 => {
            let builds: Vec<String> = design.book().builds.iter().map(|build| build.name.to_string()).collect();
            try_set(design, "build", &dice.pick(&builds)).unwrap();
        }
        1..=5 => {
            let slot = dice.pick(&fields(design));
            let name = design.book().name(slot).text.clone();
            design.clear(&name).unwrap();
        }
        _ => {
            let slot = dice.pick(&fields(design));
            let text = value(dice, design, slot);
            let name = design.book().name(slot).text.clone();
            let _ = try_set(design, &name, &text);
        }
    }
}

/// A design that has its art, and many fields given besides.
pub(super) fn design(dice: &mut Dice) -> Design {
    let mut design = super::bench();
    let builds: Vec<String> = design.book().builds.iter().map(|build| build.name.to_string()).collect();
    try_set(&mut design, "build", &dice.pick(&builds)).unwrap();
    let art = design.book().slot("art").unwrap();
    let size = value(dice, &design, art);
    try_set(&mut design, "art", &size).unwrap();
    try_set(&mut design, "art.across", "12 3/16in").unwrap();
    for slot in fields(&design) {
        if dice.one_in(3) {
            let name = design.book().name(slot).text.clone();
            let text = value(dice, &design, slot);
            let _ = try_set(&mut design, &name, &text);
        }
    }
    design
}
