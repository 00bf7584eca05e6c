//! Wood and air: moisture content, movement across the grain, and its effect on a miter.

use std::f64::consts::FRAC_PI_2;

use super::fault::{OutOfRange, above_zero, within};
use super::wedge::{Wedge, cut_length, mitre};

/// The temperatures of the published table, in °F.
pub const TEMPERATURES: [f64; 2] = [30.0, 200.0];
/// The moisture contents that coefficients of movement hold for, in percent (Wood Handbook GTR-190 Table 13-5).
pub const COEFFICIENTS_HOLD: [f64; 2] = [6.0, 14.0];
/// The moisture content below which most woods shrink, in percent (Wood Handbook GTR-190 ch. 4).
pub const FIBER_SATURATION: f64 = 30.0;

/// The moisture content of wood in equilibrium with air, in percent of its dry weight.
///
/// `1800/W · (K h / (1 − K h) + (K₁ K h + 2 K₁ K₂ K² h²) / (1 + K₁ K h + K₁ K₂ K² h²))`, with W, K, K₁, K₂ quadratics
/// in the temperature. Takes °F within 30 to 200, and the relative humidity as a fraction. Within 0.07 of every cell of
/// Table 4-2.
///
/// Errors: humidity outside 0 to 100 %, temperatures outside the table. Source: Wood Handbook FPL-GTR-190 (2010) Eq.
/// 4-5, also Simpson, Forest Products Journal 1973; coefficients for °F as in a public program listing.
pub fn emc(temperature: f64, humidity: f64) -> Result<f64, OutOfRange> {
    within("the relative humidity", humidity * 100.0, " %", [0.0, 100.0])?;
    within("the temperature", temperature, " °F", TEMPERATURES)?;
    let by_temperature =
        |[constant, linear, square]: [f64; 3]| constant + temperature * (linear + temperature * square);
    let weight = by_temperature([330.0, 0.452, 0.004_15]);
    let wet = by_temperature([0.791, 0.000_463, -0.000_000_844]) * humidity;
    let first = by_temperature([6.34, 0.000_775, -0.000_093_5]) * wet;
    let second = by_temperature([1.09, 0.0284, -0.000_090_4]) * wet * first;
    Ok(1800.0 / weight * (wet / (1.0 - wet) + (first + 2.0 * second) / (1.0 + first + second)))
}

/// Movement across the grain, as a part of the size for each percent of moisture content.
///
/// `C = (S / 100 F) / (1 − S (F − 10) / 100 F)`: the shrinkage from green to ovendry spread evenly below fiber
/// saturation, and referred to the size at 10 % moisture content.
///
/// Takes the total shrinkage S, radial or tangential, and the moisture content F where shrinking starts, both in
/// percent. Errors: a shrinkage outside 0 to 30, a saturation outside 15 to 40. Source: recovered from Tables 4-3 and
/// 13-5 of the Wood Handbook FPL-GTR-190 (2010), which agree by it to five places.
pub fn coefficient(shrinkage: f64, saturation: f64) -> Result<f64, OutOfRange> {
    within("the total shrinkage", shrinkage, " %", [0.0, 30.0])?;
    within("the fiber saturation", saturation, " %", [15.0, 40.0])?;
    let each = shrinkage / (100.0 * saturation);
    Ok(each / (1.0 - each * (saturation - 10.0)))
}

/// The change of a size across the grain, in the unit of the size, above zero if it grows: `D · C · (to − from)`.
///
/// Takes the moisture contents in percent; the coefficients hold within `COEFFICIENTS_HOLD`. Source: Wood Handbook
/// FPL-GTR-190 (2010) ch. 13.
pub fn change(size: f64, coefficient: f64, [from, to]: [f64; 2]) -> f64 {
    size * coefficient * (to - from)
}

/// The wedge in a miter of a flat regular frame when its rails swell across the grain by the fraction `strain` (below
/// zero: shrink).
///
/// The long side of a rail stays, its width grows: the tangent of the angle between the outer edge and the cut, fresh
/// 90° − 180°/n, grows by the same fraction. Two such ends meet in a corner that stays as designed. The gap is that
/// over the length of the fresh cut.
///
/// Takes the face (in) and 3 to 12 sides. Errors: a face that is not above zero, a strain outside −1/2 to 1/2, other
/// sides. Source: geometry; that swelling opens the outside and shrinking the inside is published (Old House Journal,
/// June 2018).
pub fn swollen_mitre(face: f64, sides: u32, strain: f64) -> Result<Wedge, OutOfRange> {
    above_zero("the face", face)?;
    within("the change of the width", strain * 100.0, " %", [-50.0, 50.0])?;
    let mitre = mitre(sides)?;
    let fresh = FRAC_PI_2 - mitre;
    // The difference of the two angles by its own tangent: nothing is lost where the strain is small.
    let tangent = fresh.tan();
    let blunter = (strain * tangent).atan2(1.0 + (1.0 + strain) * tangent * tangent);
    Ok(Wedge::of(2.0 * blunter, cut_length(face, mitre)))
}
