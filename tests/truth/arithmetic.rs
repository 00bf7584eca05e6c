//! Arithmetic of its own: fractions are exact, roots and angles are floats. Nothing here comes from the program.

use std::iter::Peekable;
use std::str::Chars;

use num_bigint::BigInt;
use num_rational::BigRational;
use num_traits::{One, Signed, ToPrimitive, Zero};

/// A value: exact, or as near as a float comes.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A fraction.
    Exact(BigRational),
    /// What a root or an angle gives.
    Float(f64),
}

impl Value {
    /// As a float.
    pub fn float(&self) -> f64 {
        match self {
            Self::Exact(exact) => exact.to_f64().unwrap_or(f64::NAN),
            Self::Float(float) => *float,
        }
    }

    fn map(&self, exact: impl FnOnce(&BigRational) -> BigRational, float: impl FnOnce(f64) -> f64) -> Self {
        match self {
            Self::Exact(value) => Self::Exact(exact(value)),
            Self::Float(value) => Self::Float(float(*value)),
        }
    }

    fn with(
        &self,
        other: &Self,
        exact: impl FnOnce(&BigRational, &BigRational) -> BigRational,
        float: impl FnOnce(f64, f64) -> f64,
    ) -> Self {
        match (self, other) {
            (Self::Exact(a), Self::Exact(b)) => Self::Exact(exact(a, b)),
            _ => Self::Float(float(self.float(), other.float())),
        }
    }
}

/// A number as it is printed in a table or a handbook: `16 55/64`, `-1 1/2`, `0.075`, `1/8`.
pub fn printed(text: &str) -> Option<BigRational> {
    let (sign, text) = match text.strip_prefix('-') {
        Some(rest) => (-BigRational::one(), rest),
        None => (BigRational::one(), text),
    };
    let mut sum = BigRational::zero();
    for part in text.split_whitespace() {
        sum += match part.split_once('/') {
            Some((above, below)) => BigRational::new(above.parse().ok()?, nonzero(below.parse().ok()?)?),
            None => decimal(part)?,
        };
    }
    (!text.is_empty()).then(|| sign * sum)
}

fn nonzero(number: BigInt) -> Option<BigInt> {
    (!number.is_zero()).then_some(number)
}

fn decimal(text: &str) -> Option<BigRational> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits: BigInt = format!("{whole}{part}").parse().ok()?;
    Some(BigRational::new(digits, BigInt::from(10).pow(u32::try_from(part.len()).ok()?)))
}

/// Works an expression out: `+ - * / ^`, parentheses, `a < b` and the like (1 where it holds, else 0), and the functions
/// below. Angles are in degrees. `name = … ;` before it names a part of the working.
///
/// Functions: `max min abs floor ceil sqrt sin cos tan asin acos atan pi()`; `up(x, step)`, `down(x, step)` and
/// `near(x, step)` round to a mark of the tape, `near` away from zero where it is half way; `if(c, a, b)`.
///
/// # Errors
/// It cannot be read, or is a number and nothing else: that is not a working.
pub fn worked(text: &str) -> Result<Value, String> {
    let mut names: Vec<(String, Value)> = Vec::new();
    let mut steps = 0;
    let mut last = Err("there is not a working".to_string());
    for step in text.split(';').map(str::trim).filter(|step| !step.is_empty()) {
        let named = step.split_once('=').filter(|(name, rest)| is_name(name.trim()) && !rest.starts_with('='));
        let (name, formula) = named.map_or((None, step), |(name, rest)| (Some(name.trim()), rest));
        let mut reader = Reader { text: formula.chars().peekable(), names: &names, steps: 0 };
        let value = reader.comparison()?;
        reader.blanks();
        if let Some(letter) = reader.text.peek() {
            return Err(format!("`{letter}` does not belong in {formula}"));
        }
        steps += reader.steps;
        if let Some(name) = name {
            names.push((name.into(), value.clone()));
        }
        last = Ok(value);
    }
    if steps == 0 || printed(text.trim()).is_some() {
        return Err(format!("{text} is a number, not a working"));
    }
    last
}

fn is_name(text: &str) -> bool {
    text.starts_with(char::is_alphabetic) && text.chars().all(|letter| letter.is_alphanumeric() || letter == '_')
}

struct Reader<'t> {
    text: Peekable<Chars<'t>>,
    names: &'t [(String, Value)],
    steps: usize,
}

impl Reader<'_> {
    fn blanks(&mut self) {
        while self.text.next_if(|letter| letter.is_whitespace()).is_some() {}
    }

    fn takes(&mut self, sign: char) -> bool {
        self.blanks();
        self.text.next_if_eq(&sign).is_some()
    }

    fn comparison(&mut self) -> Result<Value, String> {
        let first = self.sum()?;
        self.blanks();
        let Some(sign) = self.text.next_if(|letter| "<>=!".contains(*letter)) else { return Ok(first) };
        let equal = self.text.next_if_eq(&'=').is_some();
        let second = self.sum()?;
        self.steps += 1;
        let (a, b) = (first.float(), second.float());
        let holds = match (sign, equal) {
            ('<', false) => a < b,
            ('<', true) => a <= b,
            ('>', false) => a > b,
            ('>', true) => a >= b,
            ('=', true) => first == second,
            ('!', true) => first != second,
            _ => return Err(format!("`{sign}` compares nothing")),
        };
        Ok(Value::Exact(if holds { BigRational::one() } else { BigRational::zero() }))
    }

    fn sum(&mut self) -> Result<Value, String> {
        let mut value = self.product()?;
        loop {
            if self.takes('+') {
                value = value.with(&self.product()?, |a, b| a + b, |a, b| a + b);
            } else if self.takes('-') {
                value = value.with(&self.product()?, |a, b| a - b, |a, b| a - b);
            } else {
                return Ok(value);
            }
            self.steps += 1;
        }
    }

    fn product(&mut self) -> Result<Value, String> {
        let mut value = self.power()?;
        loop {
            if self.takes('*') {
                value = value.with(&self.power()?, |a, b| a * b, |a, b| a * b);
            } else if self.takes('/') {
                let below = self.power()?;
                if below.float() == 0.0 {
                    return Err("division by nothing".into());
                }
                value = value.with(&below, |a, b| a / b, |a, b| a / b);
            } else {
                return Ok(value);
            }
            self.steps += 1;
        }
    }

    fn power(&mut self) -> Result<Value, String> {
        let value = self.value()?;
        if !self.takes('^') {
            return Ok(value);
        }
        let exponent = self.value()?;
        self.steps += 1;
        match (&value, &exponent) {
            (Value::Exact(base), Value::Exact(power)) if power.is_integer() => {
                let power = power.to_integer().to_i32().ok_or("too great a power")?;
                Ok(Value::Exact(base.pow(power)))
            }
            _ => Ok(Value::Float(value.float().powf(exponent.float()))),
        }
    }

    fn value(&mut self) -> Result<Value, String> {
        self.blanks();
        if self.takes('-') {
            return Ok(self.value()?.map(|a| -a, |a| -a));
        }
        if self.takes('(') {
            let value = self.comparison()?;
            return if self.takes(')') { Ok(value) } else { Err("a `)` is missing".into()) };
        }
        if self.text.peek().is_some_and(char::is_ascii_digit) {
            let number = self.word(|letter| letter.is_ascii_digit() || letter == '.');
            return decimal(&number).map(Value::Exact).ok_or(format!("{number} is not a number"));
        }
        let name = self.word(|letter| letter.is_alphanumeric() || letter == '_');
        if self.takes('(') {
            let mut given = Vec::new();
            while !self.takes(')') {
                given.push(self.comparison()?);
                if !self.takes(',') && !matches!(self.text.peek(), Some(')')) {
                    return Err(format!("a `)` is missing behind {name}"));
                }
            }
            self.steps += 1;
            return called(&name, &given);
        }
        let known = self.names.iter().rev().find(|(known, _)| *known == name);
        known.map(|(_, value)| value.clone()).ok_or(format!("there is no {name}"))
    }

    fn word(&mut self, belongs: impl Fn(char) -> bool) -> String {
        let mut word = String::new();
        while let Some(letter) = self.text.next_if(|letter| belongs(*letter)) {
            word.push(letter);
        }
        word
    }
}

fn called(name: &str, given: &[Value]) -> Result<Value, String> {
    let float = |work: fn(f64) -> f64, one: &Value| Ok(Value::Float(work(one.float())));
    match (name, given) {
        ("pi", []) => Ok(Value::Float(std::f64::consts::PI)),
        ("abs", [one]) => Ok(one.map(BigRational::abs, f64::abs)),
        ("floor", [one]) => Ok(one.map(BigRational::floor, f64::floor)),
        ("ceil", [one]) => Ok(one.map(BigRational::ceil, f64::ceil)),
        ("sqrt", [one]) => float(f64::sqrt, one),
        ("sin", [one]) => float(|degrees| degrees.to_radians().sin(), one),
        ("cos", [one]) => float(|degrees| degrees.to_radians().cos(), one),
        ("tan", [one]) => float(|degrees| degrees.to_radians().tan(), one),
        ("asin", [one]) => float(|ratio| ratio.asin().to_degrees(), one),
        ("acos", [one]) => float(|ratio| ratio.acos().to_degrees(), one),
        ("atan", [one]) => float(|ratio| ratio.atan().to_degrees(), one),
        ("exp", [one]) => float(f64::exp, one),
        ("ln", [one]) => float(f64::ln, one),
        ("up" | "down" | "near", [one, step]) => {
            let steps = one.with(step, |a, b| a / b, |a, b| a / b);
            let whole = match name {
                "up" => steps.map(BigRational::ceil, f64::ceil),
                "down" => steps.map(BigRational::floor, f64::floor),
                _ => steps.map(BigRational::round, f64::round),
            };
            Ok(whole.with(step, |a, b| a * b, |a, b| a * b))
        }
        ("if", [condition, yes, no]) => Ok(if condition.float() == 0.0 { no.clone() } else { yes.clone() }),
        ("max" | "min", [first, rest @ ..]) => Ok(rest.iter().fold(first.clone(), |best, one| {
            if (one.float() > best.float()) == (name == "max") { one.clone() } else { best }
        })),
        _ => Err(format!("there is no {name} of {} values", given.len())),
    }
}

#[test]
fn what_is_worked_is_right() {
    let exact = |text: &str| Value::Exact(printed(text).unwrap());
    for (text, value) in [
        ("16 + 2 * 1/4", "16 1/2"),
        ("up(16 + 55/64, 1/16)", "16 7/8"),
        ("near(1 + 25/64, 1/16)", "1 3/8"),
        ("near(1 + 3/32, 1/16)", "1 1/8"),
        ("down(2 + 13/32, 1/16)", "2 3/8"),
        ("o = 16 + 1/2; o + 2 * 3/4", "18"),
        ("max(1/4, 1/2, 1/8) - -1", "1 1/2"),
        ("(3 - 5) ^ 3", "-8"),
        ("if(1/2 >= 0.5, 7, 9) + 0", "7"),
        ("up(10 * 25.4, 1) / 25.4", "10"),
    ] {
        assert_eq!(worked(text), Ok(exact(value)), "{text}");
    }
    let near = |text: &str, is: f64| assert!((worked(text).unwrap().float() - is).abs() < 1e-12, "{text}");
    near("sqrt(2) * sin(45)", 1.0);
    near("atan(tan(22.5))", 22.5);
    near("4 * atan(1) - pi() * 180 / pi()", 0.0);
    for wrong in ["16 1/2", "16.5", "1/8", "x + 1", "3 +", "(3", "1/0", "sqrt(1", "", "5 5", "16 ~ 2"] {
        assert!(worked(wrong).is_err(), "{wrong}");
    }
}
