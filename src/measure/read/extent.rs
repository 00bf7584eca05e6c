//! One value with its units: `11 3/8"`, `5' 3 3/4"`, `12lb 4oz`.

use super::misread::Misread;
use super::number::{Form, Number, Pair, Rule, improper, too_large};
use crate::diag::{Span, near, says};
use crate::measure::{Kind, Quantity, Real, UNITS, Unit};

/// One value, alone or as a side of a size.
#[derive(Clone, Debug)]
pub(super) struct Extent<'i> {
    pub(super) quantity: Quantity,
    pub(super) mark: Mark<'i>,
    /// The form of the first number.
    pub(super) form: Form,
    pub(super) span: Span,
    pub(super) text: &'i str,
}

/// The mark after a number; the last one if there are two.
#[derive(Clone, Copy, Debug)]
pub(super) enum Mark<'i> {
    /// Nothing.
    Bare,
    Percent,
    /// A unit, and its name as written.
    Unit(&'static Unit, &'i str),
}

struct Part<'i> {
    number: Number<'i>,
    mark: Mark<'i>,
    span: Span,
}

/// Units written together: `5' 3"`, `12lb 4oz`, `2h 30min`.
const TOGETHER: &[(&str, &str)] = &[("ft", "in"), ("lb", "oz"), ("h", "min")];

impl<'i> Extent<'i> {
    /// The value of an `extent` node; `bare` is the unit of a number without one.
    pub(super) fn of(pair: &Pair<'i>, bare: Option<&Unit>) -> Result<Self, Misread> {
        let parts = parts(pair)?;
        let span = pair.as_span().start()..pair.as_span().end();
        let (quantity, mark) = match parts.as_slice() {
            [only] => (single(only, bare)?, only.mark),
            [first, second] => (double(first, second, &parts)?, second.mark),
            several @ [_, ..] => return Err(side_by_side(several)),
            [] => return Err(Misread::new(span, "there is no number here")),
        };
        let form = parts.first().map_or(Form::Mixed, |first| first.number.form);
        Ok(Self { quantity, mark, form, span, text: pair.as_str() })
    }
}

fn parts<'i>(pair: &Pair<'i>) -> Result<Vec<Part<'i>>, Misread> {
    let mut parts: Vec<Part> = Vec::with_capacity(2);
    for inner in pair.clone().into_inner() {
        let span = inner.as_span().start()..inner.as_span().end();
        if inner.as_rule() == Rule::value {
            parts.push(Part { number: Number::of(&inner)?, mark: Mark::Bare, span });
        } else if let Some(last) = parts.last_mut() {
            last.mark = mark(&inner)?;
            last.span.end = span.end;
        }
    }
    Ok(parts)
}

fn mark<'i>(pair: &Pair<'i>) -> Result<Mark<'i>, Misread> {
    let name = pair.as_str().trim_start();
    let span = pair.as_span().end() - name.len()..pair.as_span().end();
    match name {
        "%" => Ok(Mark::Percent),
        "''" | "′′" | "’’" => {
            Err(Misread::new(span, "two marks for feet are not the mark for inches").or("\""))
        }
        _ => Unit::named(name).map(|unit| Mark::Unit(unit, name)).ok_or_else(|| unknown_unit(span, name)),
    }
}

/// The fault of an unknown unit, with the units that it may mean.
pub fn unknown_unit(span: Span, name: &str) -> Misread {
    let names = || UNITS.iter().flat_map(|unit| unit.names.iter().copied());
    let meant =
        names().find(|unit| unit.eq_ignore_ascii_case(name)).map_or_else(|| near(name, names()), |unit| vec![unit]);
    let misread = Misread::new(span, says!("there is no unit called {}", name));
    meant.into_iter().fold(misread, Misread::or)
}

fn single(part: &Part, bare: Option<&Unit>) -> Result<Quantity, Misread> {
    let Number { value, form, span, text } = &part.number;
    if let (Form::Dashed { proper: false }, Mark::Unit(..)) = (form, part.mark) {
        return Err(improper(span.clone(), text));
    }
    match (part.mark, bare) {
        (Mark::Percent, _) => Ok(Quantity::number(value.clone() / Real::whole(100))),
        (Mark::Unit(unit, _), _) | (Mark::Bare, Some(unit)) => in_unit(&part.number, unit),
        (Mark::Bare, None) => Ok(Quantity::number(value.clone())),
    }
}

/// Beyond 64 bits a number with a unit counts as a slip; a stored fraction may have up to 4096.
fn in_unit(number: &Number, unit: &Unit) -> Result<Quantity, Misread> {
    let slip = number.form != Form::Fraction && number.value > Real::whole(i64::MAX);
    match unit.to_storage(number.value.clone()).check() {
        Ok(amount) if !slip => Ok(Quantity::new(amount, unit.kind)),
        _ => Err(too_large(number.span.clone(), number.text)),
    }
}

fn double(first: &Part, second: &Part, both: &[Part]) -> Result<Quantity, Misread> {
    let Mark::Unit(great, great_name) = first.mark else {
        return Err(side_by_side(both));
    };
    let Some((_, small)) = TOGETHER.iter().find(|row| great.names.contains(&row.0)) else {
        return Err(side_by_side(both));
    };
    match second.mark {
        Mark::Unit(unit, _) if unit.names.contains(small) => {
            let (major, minor) = (single(first, None)?, single(second, None)?);
            let sum = (major.amount + minor.amount).check();
            sum.map(|amount| Quantity::new(amount, great.kind))
                .map_err(|_| too_large(first.span.clone(), first.number.text))
        }
        Mark::Unit(_, "m") if *small == "min" => {
            Err(Misread::new(second.span.clone(), "m can be read two ways here: minutes or meters")
                .or(format!("{}min", second.number.text)))
        }
        Mark::Bare => Err(no_mark(&second.number, great_name, small)),
        Mark::Unit(..) | Mark::Percent => Err(side_by_side(both)),
    }
}

/// The fault of `5' 3`: the smaller unit must be written too.
fn no_mark(number: &Number, great_name: &str, small: &str) -> Misread {
    let text = number.text;
    let (what, mark) = match great_name {
        "'" => ("mark", "\""),
        "′" => ("mark", "″"),
        "’" => ("mark", "”"),
        _ => ("unit", small),
    };
    Misread::new(number.span.clone(), format!("{text} needs its {what} {mark}")).or(format!("{text}{mark}"))
}

fn side_by_side(parts: &[Part]) -> Misread {
    let shown: Vec<String> = parts.iter().map(Part::shown).collect();
    let span = parts.first().map_or(0, |first| first.span.start)..parts.last().map_or(0, |last| last.span.end);
    let (first, second) = (shown.first().map_or("", String::as_str), shown.get(1).map_or("", String::as_str));
    let found = beside(span, first, second);
    let alike = parts.windows(2).all(|pair| pair[0].kind() == pair[1].kind());
    if alike { found.or(shown.join(" + ")) } else { found }
}

impl Part<'_> {
    fn kind(&self) -> Kind {
        match self.mark {
            Mark::Bare | Mark::Percent => Kind::NUMBER,
            Mark::Unit(unit, _) => unit.kind,
        }
    }

    /// The value without inner blanks.
    fn shown(&self) -> String {
        match self.mark {
            Mark::Bare => self.number.text.to_string(),
            Mark::Percent => format!("{}%", self.number.text),
            Mark::Unit(_, name) => format!("{}{name}", self.number.text),
        }
    }
}

/// The fault of two values without an operator.
pub(super) fn beside(span: Span, first: &str, second: &str) -> Misread {
    Misread::new(span, says!("an operator is missing between {} and {}", first, second))
}
