//! Values to text: on the marks of the tape for the bench, and exactly for storage.

use num_integer::Integer;

use super::{Graduation, Kind, Quantity, Real, Toward, to_step};

/// How quantities are shown: the graduation of the tape in use decides unit and step of lengths.
#[derive(Clone, Debug, PartialEq)]
pub struct Manner {
    /// The tape in use.
    pub graduation: Graduation,
}

impl Default for Manner {
    fn default() -> Self {
        Self { graduation: Graduation::sixteenths() }
    }
}

/// The mark of a value that comes from a root or a sine.
pub const ROUGHLY: &str = "~";

/// A share in percent: `50%` for 1/2. No share is known more finely than to a tenth of a percent.
pub fn percent(share: &Real) -> String {
    let about = if share.is_approximate() { ROUGHLY } else { "" };
    format!("{about}{}%", (share.clone() * Real::whole(100)).to_decimal(1))
}

impl Manner {
    /// The whole answer for a quantity: a length in the bench unit with the other unit beside it.
    pub fn answer(&self, quantity: &Quantity) -> String {
        if quantity.kind == Kind::LENGTH {
            format!("{}   {}", self.short(quantity), self.other(quantity))
        } else {
            self.short(quantity)
        }
    }

    /// In one unit: lengths as read off the tape, with the rest after the mark; everything else in the unit of the
    /// trade.
    pub fn short(&self, quantity: &Quantity) -> String {
        let rough = if quantity.amount.is_approximate() { ROUGHLY } else { "" };
        let amount = &quantity.amount;
        match quantity.kind {
            Kind::LENGTH => format!("{rough}{}", self.length(amount)),
            Kind::NUMBER => format!("{rough}{}", number(amount)),
            Kind::MASS if self.graduation.metric => format!("{rough}{}", metric_mass(amount)),
            Kind::MASS => format!("{rough}{}", mass(amount)),
            Kind::FORCE if self.graduation.metric => format!("{rough}{} N", newtons(amount).to_decimal(2)),
            Kind::ANGLE => format!("{rough}{}°", amount.to_decimal(3)),
            Kind::TIME => format!("{rough}{}", time(amount)),
            Kind::MONEY => {
                let cents = to_step(&amount.abs(), &Real::ratio(1, 100), Toward::Nearest).0;
                format!("{rough}{}${}", sign(amount, &cents), cents.to_fixed(2))
            }
            Kind::TEMPERATURE if self.graduation.metric => {
                let celsius = (amount.clone() - Real::whole(32)) * Real::ratio(5, 9);
                format!("{rough}{}°C", celsius.to_decimal(1))
            }
            Kind::TEMPERATURE => format!("{rough}{}°F", amount.to_decimal(1)),
            kind => {
                let (unit, scale) = trade_unit(kind);
                format!("{rough}{} {unit}", (amount.clone() / scale).to_decimal(3))
            }
        }
    }

    /// A length in the other unit: millimeters to a tenth, inches to a thousandth.
    pub fn other(&self, quantity: &Quantity) -> String {
        if self.graduation.metric {
            format!("{}\"", quantity.amount.to_decimal(3))
        } else {
            format!("{} mm", millimetres(&quantity.amount).to_fixed(1))
        }
    }

    /// As in a sentence: a rough length is given to the nearest mark if that is within a twentieth of it, and in
    /// decimals otherwise.
    pub fn about(&self, quantity: &Quantity) -> String {
        let amount = &quantity.amount;
        if quantity.kind != Kind::LENGTH || !amount.is_approximate() {
            return self.short(quantity);
        }
        let mark = to_step(amount, &self.graduation.step.value, Toward::Nearest).0;
        let near = (amount.clone() - mark.clone()).abs() * Real::whole(20) <= amount.abs();
        let sign = if amount.is_negative() { "-" } else { "" };
        if near {
            format!("{ROUGHLY}{}", self.mark(&mark))
        } else {
            format!("{ROUGHLY}{sign}{}", self.gap(&amount.abs()))
        }
    }

    fn length(&self, inches: &Real) -> String {
        let step = &self.graduation.step.value;
        let (mark, exact) = to_step(inches, step, Toward::Nearest);
        let dust = inches.is_approximate() && (inches.clone() - mark.clone()).abs() < Real::ratio(1, 10_000);
        if exact || dust {
            return self.mark(&mark);
        }
        // Halfway between two marks a person reads on from the lower; the nearest is then the upper.
        let halfway = (mark.clone() - inches.clone()) * Real::whole(2) == *step;
        let mark = if halfway { mark - step.clone() } else { mark };
        let shown = self.mark(&mark);
        let rest = inches.clone() - mark.clone();
        let sign = if rest.is_negative() { '-' } else { '+' };
        let rest = self.gap(&rest.abs());
        match (mark.is_exact_zero() && !rest.starts_with("under"), sign) {
            (false, _) => format!("{shown} {sign} {rest}"),
            (true, '-') => format!("-{rest}"),
            (true, _) => rest,
        }
    }

    /// A length that lies on a mark of the tape.
    pub fn mark(&self, inches: &Real) -> String {
        if self.graduation.metric {
            format!("{} mm", millimetres(inches).to_decimal(1))
        } else {
            format!("{}\"", mixed(inches))
        }
    }

    /// A short length that need not be on a mark, such as an error.
    pub fn fine(&self, inches: &Real) -> String {
        if inches.abs() < Real::ONE { self.gap(inches) } else { self.short(&Quantity::inches(inches.clone())) }
    }

    /// The rest between a value and a mark: a finer fraction if it is one, or else decimals.
    pub fn gap(&self, inches: &Real) -> String {
        if self.graduation.metric {
            let rest = millimetres(inches);
            return if rest < Real::ratio(1, 1000) {
                "under 0.001 mm".into()
            } else {
                format!("{} mm", rest.to_decimal(3))
            };
        }
        match inches.to_parts() {
            Some((n, d)) if d <= 1024 && d & (d - 1) == 0 => format!("{n}/{d}\""),
            _ if *inches < Real::ratio(1, 10_000) => "under 0.0001\"".into(),
            _ => format!("{}\"", inches.to_decimal(4)),
        }
    }
}

/// Inches in millimeters.
pub fn millimetres(inches: &Real) -> Real {
    inches.clone() * Real::ratio(127, 5)
}

/// A plain number: mixed where it lies on a rule, `11 3/8`; a decimal where one ends soon, `288.925`; another fraction,
/// `1/3`; what is longer than that is cut off with a mark, `0.142857…`.
pub fn number(value: &Real) -> String {
    const LONGEST: i64 = 9999;
    match value.to_parts() {
        Some((_, d)) if d <= 1024 && d & (d - 1) == 0 => mixed(value),
        _ if value.ends_within(6) => value.to_decimal(6),
        Some((_, d)) if d <= LONGEST => mixed(value),
        _ if value.is_approximate() => value.to_decimal(6),
        _ => format!("{}…", value.to_fixed(6)),
    }
}

/// A mixed number, exactly: `11 3/8`, `-1 1/2`.
fn mixed(value: &Real) -> String {
    let Some((n, d)) = value.abs().to_parts() else {
        return value.to_text();
    };
    let sign = if value.is_negative() { "-" } else { "" };
    let (whole, rest) = n.div_rem(&d);
    match (whole, rest) {
        (whole, 0) => format!("{sign}{whole}"),
        (0, rest) => format!("{sign}{rest}/{d}"),
        (whole, rest) => format!("{sign}{whole} {rest}/{d}"),
    }
}

/// The sign of a shown value: dropped if all digits are zero.
fn sign(value: &Real, shown: &Real) -> &'static str {
    if value.is_negative() && !shown.is_exact_zero() { "-" } else { "" }
}

/// Pounds and ounces: `12 lb 4 oz`, ounces to a tenth.
fn mass(pounds: &Real) -> String {
    let tenths = to_step(&(pounds.abs() * Real::whole(16)), &Real::ratio(1, 10), Toward::Nearest).0;
    let sign = sign(pounds, &tenths);
    let whole = (tenths.clone() / Real::whole(16)).floor();
    let ounces = tenths - whole.clone() * Real::whole(16);
    match (whole.is_exact_zero(), ounces.is_exact_zero()) {
        (false, true) => format!("{sign}{} lb", whole.to_decimal(0)),
        (true, _) => format!("{sign}{} oz", ounces.to_decimal(1)),
        (false, false) => format!("{sign}{} lb {} oz", whole.to_decimal(0), ounces.to_decimal(1)),
    }
}

/// Kilograms to a hundredth, less than one in grams: `2.21 kg`, `740 g`. A pound is 0.45359237 kg by definition.
fn metric_mass(pounds: &Real) -> String {
    let grams = pounds.clone() * Real::ratio(45_359_237, 100_000);
    if grams.abs() < Real::whole(1000) {
        format!("{} g", grams.to_decimal(1))
    } else {
        format!("{} kg", (grams / Real::whole(1000)).to_decimal(2))
    }
}

/// Pounds of force in newtons; one is 4.4482216152605 N by definition.
fn newtons(pounds: &Real) -> Real {
    pounds.clone() * Real::ratio(8_896_443_230_521, 2_000_000_000_000)
}

/// Hours and minutes: `2 h 30 min`, minutes to a tenth.
fn time(minutes: &Real) -> String {
    let tenths = to_step(&minutes.abs(), &Real::ratio(1, 10), Toward::Nearest).0;
    let sign = sign(minutes, &tenths);
    let hours = (tenths.clone() / Real::whole(60)).floor();
    let rest = tenths - hours.clone() * Real::whole(60);
    match (hours.is_exact_zero(), rest.is_exact_zero()) {
        (false, true) => format!("{sign}{} h", hours.to_decimal(0)),
        (true, _) => format!("{sign}{} min", rest.to_decimal(1)),
        (false, false) => format!("{sign}{} h {} min", hours.to_decimal(0), rest.to_decimal(1)),
    }
}

/// The unit in which the trade shows a kind, and its factor.
fn trade_unit(kind: Kind) -> (String, Real) {
    match kind {
        Kind::DENSITY => ("lb/ft3".into(), Real::ratio(1, 1728)),
        Kind::GRAMMAGE => ("lb/ft2".into(), Real::ratio(1, 144)),
        Kind::SPREAD => ("ft2/gal".into(), Real::ratio(144, 231)),
        other => (other.unit(), Real::ONE),
    }
}

/// A quantity as text that reads back exactly, for storage and for scripts.
///
/// An approximate value is written as its shortest decimal, and reads back as exact.
pub fn exactly(quantity: &Quantity) -> String {
    let amount = &quantity.amount;
    match quantity.kind {
        Kind::NUMBER => plain(amount),
        Kind::LENGTH => match (amount.abs().to_parts(), millimetres(amount)) {
            (Some((_, d)), _) if d <= 1024 && d & (d - 1) == 0 => format!("{}\"", mixed(amount)),
            (_, metric) if metric.abs().to_parts().is_some() && metric.ends_within(6) => {
                format!("{}mm", metric.to_decimal(6))
            }
            _ => format!("{}in", with_unit(amount)),
        },
        Kind::MONEY => {
            if amount.is_negative() {
                format!("-${}", with_unit(&amount.abs()))
            } else {
                format!("${}", with_unit(amount))
            }
        }
        // A unit with only a denominator follows the number directly: 3/in4.
        kind => format!("{}{}", with_unit(amount), kind.unit().trim_start_matches('1')),
    }
}

fn plain(value: &Real) -> String {
    if value.ends_within(6) { value.to_decimal(6) } else { value.to_text() }
}

/// A number before its unit; beyond 64 bits always a fraction, because a longer whole number is refused as a slip.
fn with_unit(value: &Real) -> String {
    match value.to_big() {
        Some(big) if value.abs().to_parts().is_none() => format!("{}/{}", big.numer(), big.denom()),
        _ => plain(value),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn shown(inches: Real, expected: &str) {
        assert_eq!(Manner::default().answer(&Quantity::inches(inches)), expected);
    }

    #[test]
    fn lengths_are_shown_on_the_tape_with_what_is_left_over() {
        shown(Real::ratio(91, 8), "11 3/8\"   288.9 mm");
        shown(Real::ratio(1073, 64), "16 3/4\" + 1/64\"   425.8 mm");
        shown(Real::ratio(2000, 127), "15 3/4\" - 0.002\"   400.0 mm");
        shown(Real::ratio(1, 64), "1/64\"   0.4 mm");
        shown(Real::ratio(-1, 8), "-1/8\"   -3.2 mm");
        shown(Real::ZERO, "0\"   0.0 mm");
        shown(Real::whole(63), "63\"   1600.2 mm");
        shown(Real::ratio(-1, 1_000_000), "0\" - under 0.0001\"   0.0 mm");
    }

    #[test]
    fn a_metric_bench_shows_millimetres_first() {
        let manner = Manner { graduation: Graduation::millimetres() };
        assert_eq!(manner.answer(&Quantity::inches(Real::ratio(91, 8))), "289 mm - 0.075 mm   11.375\"");
        assert_eq!(manner.answer(&Quantity::inches(Real::ratio(2000, 127))), "400 mm   15.748\"");
    }

    #[test]
    fn other_kinds_are_shown_as_the_trade_says_them() {
        let show = |n, d, kind| Manner::default().answer(&Quantity::new(Real::ratio(n, d), kind));
        assert_eq!(show(49, 4, Kind::MASS), "12 lb 4 oz");
        assert_eq!(show(1, 32, Kind::MASS), "0.5 oz");
        assert_eq!(show(150, 1, Kind::TIME), "2 h 30 min");
        assert_eq!(show(45, 1, Kind::ANGLE), "45°");
        assert_eq!(show(21, 5, Kind::MONEY), "$4.20");
        assert_eq!(show(-21, 5, Kind::MONEY), "-$4.20");
        assert_eq!(show(-1, 1000, Kind::MONEY), "$0.00");
        assert_eq!(show(-1, 1000, Kind::TIME), "0 min");
        assert_eq!(show(-1, 1000, Kind::MASS), "0 oz");
        assert_eq!(show(25, 1728, Kind::DENSITY), "25 lb/ft3");
        assert_eq!(show(288, 1, Kind::AREA), "288 in2");
        assert_eq!(show(1, 3, Kind::NUMBER), "1/3");
        assert_eq!(show(49, 4, Kind::NUMBER), "12 1/4");
        assert_eq!(
            Manner::default().answer(&Quantity::inches(Real::whole(2).sqrt())),
            "~1 7/16\" - 0.0233\"   35.9 mm"
        );
    }

    #[test]
    fn what_is_rough_is_told_to_a_mark() {
        let about = |inches: Real| Manner::default().about(&Quantity::inches(inches));
        assert_eq!(about(Real::whole(2).sqrt()), "~1 7/16\"");
        assert_eq!(about(Real::approximate(0.0123)), "~0.0123\"");
        assert_eq!(about(Real::approximate(-0.089)), "~-0.089\"");
        assert_eq!(about(Real::approximate(0.25099)), "~1/4\"");
        assert_eq!(about(Real::ratio(1073, 64)), "16 3/4\" + 1/64\"");
        // Rounding dust is not shown.
        assert_eq!(Manner::default().short(&Quantity::inches(Real::approximate(16.500_001))), "~16 1/2\"");
    }

    #[test]
    fn a_metric_bench_shows_kilograms_newtons_and_celsius() {
        let manner = Manner { graduation: Graduation::millimetres() };
        let show = |amount, kind| manner.short(&Quantity::new(amount, kind));
        assert_eq!(show(Real::whole(10), Kind::MASS), "4.54 kg");
        assert_eq!(show(Real::whole(1), Kind::MASS), "453.6 g");
        assert_eq!(show(Real::whole(10), Kind::FORCE), "44.48 N");
        assert_eq!(show(Real::whole(68), Kind::TEMPERATURE), "20°C");
    }

    #[test]
    fn exact_text_keeps_the_value() {
        assert_eq!(exactly(&Quantity::inches(Real::ratio(91, 8))), "11 3/8\"");
        assert_eq!(exactly(&Quantity::inches(Real::ratio(2000, 127))), "400mm");
        assert_eq!(exactly(&Quantity::inches(Real::ratio(1, 3))), "1/3in");
        assert_eq!(exactly(&Quantity::new(Real::ratio(49, 4), Kind::MASS)), "12.25lb");
    }
}
