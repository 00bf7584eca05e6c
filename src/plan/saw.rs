//! The saw and the tape of a plan: what a cut takes, and whole ticks.

use crate::measure::{Real, Turn};
use crate::rules::Design;

/// What goes for every stick: kerf, trim, what is kept of a rest; all lengths in inches.
#[derive(Clone, Debug)]
pub struct Saw {
    /// Whether ticks are tenths of a millimeter, and else 64ths of an inch.
    pub metric: bool,
    /// What a square cut takes.
    pub kerf: Real,
    /// What is cut off each end of a stick before it is used, that cut's own kerf in it.
    pub trim: Real,
    /// The shortest rest that is kept.
    pub offcut: Real,
    /// A part shorter than this between its short points is not held by hand.
    pub short: Real,
}

/// The longest length in ticks: some thirteen kilometers.
const MOST_TICKS: i64 = 1 << 27;

impl Saw {
    /// As the settings of the shop have it, for the tape of a bench.
    pub fn of(shop: &Design) -> Self {
        let setting = |name: &str| shop.made(name).map_or(Real::ZERO, |length| length.amount);
        Self {
            metric: shop.manner().graduation.metric,
            kerf: setting("shop.kerf"),
            trim: setting("shop.trim"),
            offcut: setting("shop.offcut"),
            short: setting("shop.short"),
        }
    }

    /// Ticks in an inch.
    fn fineness(&self) -> Real {
        Real::whole(if self.metric { 254 } else { 64 })
    }

    /// So many inches in ticks, rounded up; none if that is more than any stick has.
    pub fn up(&self, inches: &Real) -> Option<u32> {
        ticks(&(inches.clone() * self.fineness()).ceil())
    }

    /// So many inches in ticks, rounded down, not below 0; none if that is more than any stick has.
    pub fn down(&self, inches: &Real) -> Option<u32> {
        let whole = (inches.clone() * self.fineness()).floor();
        if whole.is_negative() { Some(0) } else { ticks(&whole) }
    }

    /// So many ticks in inches.
    pub fn inches(&self, ticks: u32) -> Real {
        Real::whole(i64::from(ticks)) / self.fineness()
    }

    /// What a cut takes along a part with this miter and tilt: `kerf / (cos miter · cos tilt)`. Source: frame maths §4.
    pub fn along(&self, mitre: &Real, tilt: &Real) -> Real {
        self.kerf.clone() / (Turn::Cosine.of_degrees(mitre) * Turn::Cosine.of_degrees(tilt))
    }

    /// What two neighbors share that are turned end for end: `width · tan mitre`. Source: frame maths §4.
    pub fn shared(width: &Real, mitre: &Real) -> Real {
        width.clone() * Turn::Tangent.of_degrees(mitre)
    }
}

fn ticks(whole: &Real) -> Option<u32> {
    whole.to_whole().filter(|ticks| *ticks <= MOST_TICKS).and_then(|ticks| u32::try_from(ticks).ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Second method: cuts on sloped rails meet in the same upright planes as those on flat ones, so that a kerf takes as
    /// much of the length. `cos mitre · cos tilt = cos(180°/n)` for any slope `s`, with `tan mitre = tan(180°/n) · cos s`
    /// and `sin tilt = sin(180°/n) · sin s` (compound angles of a regular frame, from memory).
    #[test]
    fn a_kerf_takes_the_same_at_any_slope() {
        let eighth = Real::ratio(1, 8);
        let (trim, offcut, short) = (Real::ZERO, Real::ZERO, Real::ZERO);
        let saw = Saw { metric: false, kerf: eighth, trim, offcut, short };
        for sides in 3..=12 {
            let half = std::f64::consts::PI / f64::from(sides);
            for slope in 0..=60 {
                let slope = f64::from(slope).to_radians();
                let mitre = (half.tan() * slope.cos()).atan().to_degrees();
                let tilt = (half.sin() * slope.sin()).asin().to_degrees();
                let along = saw.along(&Real::approximate(mitre), &Real::approximate(tilt)).to_f64();
                assert!((along - 0.125 / half.cos()).abs() < 1e-9, "{sides} {slope} {along}");
            }
        }
    }
}
