//! Which value of a field gives a figure the value that is wanted: by the figure's own slope where it is a straight line,
//! otherwise by looking along the field's range and closing in.

use super::book::{Slot, Type};
use super::datum::Datum;
use super::design::Design;
use super::evaluate::Pass;
use super::term::Way;
use crate::diag::{Diagnostic, codes, list};
use crate::measure::{Kind, Quantity, Real, Toward, Unit, to_step};

mod offer;

/// How near a field brings a figure to what is wanted.
#[derive(Clone, Debug)]
pub struct Aimed {
    /// What the figure is then, as drawn.
    pub reached: Real,
    /// By how much that is over what was wanted; exactly nothing where it is hit.
    pub off: Real,
    /// What the figure is.
    pub of: Type,
}

/// A value of a field, and by how much the figure is over what is wanted there; nothing where it has no value.
type Place = (f64, Option<f64>);

/// Why a field does not bring a figure to what is wanted.
enum Miss {
    /// The field has no number, or does not apply.
    NoNumber,
    /// The figure stays as it is wherever the field goes.
    Unmoved,
    /// The value that would do it is past the field's range.
    Beyond(Diagnostic),
    /// None of the values that were looked at does it.
    OutOfReach(Vec<Place>),
    /// Anything else.
    Other(Diagnostic),
}

/// The kind of what could be aimed at.
fn kind_of(of: Type) -> Option<Kind> {
    match of {
        Type::Quantity(kind) => Some(kind),
        Type::Whole | Type::Share => Some(Kind::NUMBER),
        Type::Word | Type::Text | Type::List(_) | Type::Record(_) | Type::Truth | Type::Size | Type::Nothing => None,
    }
}

/// How many places of a range are looked at before closing in.
const PLACES: i32 = 160;

/// How often the stretch between two places is halved.
const HALVINGS: usize = 48;

/// The most of anything that is named in a message.
const NAMED: usize = 6;

/// The widest range that a field is looked through where the rules set no bound: ten feet.
const FARTHEST: f64 = 120.0;

impl Design {
    /// The unit that a bare number takes where a value of this slot is wanted.
    pub fn takes_bare(&self, slot: Slot) -> Option<&'static Unit> {
        (self.book().name(slot).of == Type::Quantity(Kind::LENGTH)).then(|| self.bare_unit())
    }

    /// The design with `field` set so that `figure` is drawn as `wanted`, and how near that comes: exact where the figure is
    /// a straight line in the field, otherwise on a mark of the tape (a tenth of a degree, a hundredth of other units).
    ///
    /// # Errors
    /// A figure or a field without a number; a figure that does not change with the field; a value out of the field's
    /// range; no value that does it, or more than one.
    pub fn aim(&self, figure: Slot, wanted: &Quantity, field: Slot) -> Result<(Self, Aimed), Diagnostic> {
        let Some(kind) = kind_of(self.book().name(figure).of) else {
            return Err(Diagnostic::of(
                &codes::figure::AIM,
                format!("{} is not an amount that you can aim at", self.name_of(figure)),
            ));
        };
        if wanted.kind != kind {
            return Err(self.of_another_kind(figure, wanted, kind, field));
        }
        self.sought(figure, wanted, field).map_err(|miss| match miss {
            Miss::NoNumber => self.cannot_turn(figure, wanted, field, "has no number to turn".into()),
            Miss::Unmoved => self.cannot_turn(figure, wanted, field, format!("does not move {}", self.name_of(figure))),
            Miss::Beyond(found) => self.beyond(figure, wanted, field, found),
            Miss::OutOfReach(places) => self.out_of_reach(figure, wanted, field, &places),
            Miss::Other(found) => found,
        })
    }

    /// As [`Design::aim`], with what is in the way instead of a finding: offering something else aims again.
    fn sought(&self, figure: Slot, wanted: &Quantity, field: Slot) -> Result<(Self, Aimed), Miss> {
        let now = self.drawn(figure).map_err(Miss::Other)?;
        if !self.turns(field) {
            return Err(Miss::NoNumber);
        }
        let at = self.amount_of(field).map_err(Miss::Other)?;
        if let Some(hit) = self.by_slope(figure, wanted, field, &at, &now) {
            return hit;
        }
        self.by_looking(figure, wanted, field, &at)
    }

    /// The drawn amount of a figure.
    fn drawn(&self, slot: Slot) -> Result<Real, Diagnostic> {
        match self.known(slot) {
            Ok(known) => known.drawn.amount().cloned().ok_or_else(|| {
                Diagnostic::of(&codes::figure::AIM, format!("{} is not an amount", self.book().name(slot).text))
            }),
            Err(why) => Err(self.refusal(slot, why).into()),
        }
    }

    /// What a field is now; one of a pair that is not given counts as it follows.
    fn amount_of(&self, field: Slot) -> Result<Real, Diagnostic> {
        match self.known(field) {
            Ok(known) => Ok(known.drawn.amount().cloned().unwrap_or(Real::ZERO)),
            // Sides that differ are all moved together, from the first.
            Err(_) => {
                let first = self.rule(field).and_then(|rule| rule.reads.first().copied());
                let known = first.and_then(|first| self.known(first).ok());
                Ok(known.and_then(|known| known.drawn.amount().cloned()).unwrap_or(Real::ZERO))
            }
        }
    }

    /// Whether a field takes a number, and applies.
    fn turns(&self, field: Slot) -> bool {
        let Some(rule) = self.rule(field) else { return false };
        let numbers = matches!(self.book().name(field).of, Type::Quantity(_) | Type::Whole | Type::Share);
        let applies = rule
            .when
            .as_ref()
            .is_none_or(|when| self.evaluate(|evaluator| evaluator.holds(when, Pass::Drawn)) == Ok(true));
        numbers && rule.given && applies && rule.gather.is_none_or(|way| way == Way::Around)
    }

    /// A copy with a field, or all fields of its name, at a value; nothing where a field does not take it.
    fn with(&self, field: Slot, value: &Real) -> Option<Self> {
        let slots = self.settable(field).ok()?;
        let mut copy = self.clone();
        for slot in slots {
            self.in_range(slot, value, self.book().name(slot).of).ok()?;
            copy.put(slot, Some(Datum::Amount(value.clone())));
        }
        Some(copy)
    }

    /// One step along the slope: a straight line is hit exactly.
    fn by_slope(
        &self,
        figure: Slot,
        wanted: &Quantity,
        field: Slot,
        at: &Real,
        now: &Real,
    ) -> Option<Result<(Self, Aimed), Miss>> {
        let slope = self.slope(figure, field).ok().filter(|slope| !slope.is_approximate() && !slope.is_exact_zero())?;
        let to = (at.clone() + (wanted.amount.clone() - now.clone()) / slope.clone()).check().ok()?;
        // What has a root or a sine in it is set to a mark like everything that is looked for.
        if to.is_approximate() {
            return None;
        }
        if self.book().name(field).of == Type::Whole && to.to_whole().is_none() {
            return None;
        }
        let first = self.settable(field).ok()?.first().copied()?;
        let Some(copy) = self.with(field, &to) else {
            let refusal = self.in_range(first, &to, self.book().name(first).of).err()?;
            return Some(Err(Miss::Beyond(refusal.into())));
        };
        let reached = copy.drawn(figure).ok()?;
        // A bend on the way there, or a tie left behind, is found by looking.
        let straight = reached == wanted.amount && copy.slope(figure, field).is_ok_and(|there| there.same(&slope));
        straight.then(|| Ok((copy, self.aimed(figure, wanted, reached))))
    }

    fn aimed(&self, figure: Slot, wanted: &Quantity, reached: Real) -> Aimed {
        let off = reached.clone() - wanted.amount.clone();
        Aimed { reached, off, of: self.book().name(figure).of }
    }

    /// A field at places of its range, and by how much the figure is over what is wanted there.
    fn looked_at(&self, figure: Slot, wanted: &Quantity, field: Slot, at: &Real) -> Vec<Place> {
        let mut probe = Probe::new(self, figure, field, wanted.amount.to_f64());
        self.places(field, at).into_iter().map(|place| (place, probe.over(place))).collect()
    }

    /// Looks along the range of a field for places where the figure passes what is wanted, and closes in on them.
    fn by_looking(&self, figure: Slot, wanted: &Quantity, field: Slot, at: &Real) -> Result<(Self, Aimed), Miss> {
        let found = self.looked_at(figure, wanted, field, at);
        let mut probe = Probe::new(self, figure, field, wanted.amount.to_f64());
        let mut known = found.iter().filter_map(|(_, over)| *over);
        let first = known.next();
        if !known.any(|over| Some(over) != first) {
            return Err(Miss::Unmoved);
        }
        let step = self.step_of(field);
        let mut marks: Vec<Real> = Vec::new();
        for place in crossings(&found, |place| probe.over(place)) {
            let mark = [Toward::Down, Toward::Up]
                .map(|toward| to_step(&Real::approximate(place), &step, toward).0)
                .into_iter()
                .filter_map(|mark| Some((probe.over_at(&mark)?.abs(), mark)))
                .min_by(|one, other| one.0.total_cmp(&other.0));
            if let Some((_, mark)) = mark
                && !marks.contains(&mark)
            {
                marks.push(mark);
            }
        }
        match marks.as_slice() {
            [mark] => {
                let refused = || Miss::Other(Diagnostic::of(&codes::figure::AIM, "that value cannot be set"));
                let copy = self.with(field, mark).ok_or_else(refused)?;
                let reached = copy.drawn(figure).map_err(Miss::Other)?;
                let aimed = self.aimed(figure, wanted, reached);
                Ok((copy, aimed))
            }
            [] => Err(Miss::OutOfReach(found)),
            several => {
                let texts: Vec<String> = several.iter().map(|mark| self.field_text(field, mark)).collect();
                let texts: Vec<&str> = texts.iter().map(String::as_str).collect();
                let (name, first) = (self.name_of(field), texts.first().copied().unwrap_or_default());
                let which = match texts.as_slice() {
                    [first, .., last] if texts.len() > NAMED => {
                        format!("{} of them from {first} to {last}", texts.len())
                    }
                    few => list(few, "and"),
                };
                let message = format!(
                    "several values of {name} make {} {}: {which}; set the one that you want",
                    self.name_of(figure),
                    self.wanted_text(figure, wanted)
                );
                Err(Miss::Other(Diagnostic::of(&codes::figure::AIM, message).hint(format!("{name} {first}"))))
            }
        }
    }

    fn name_of(&self, slot: Slot) -> &str {
        &self.book().name(slot).text
    }

    /// What is wanted of a figure, as text.
    fn wanted_text(&self, figure: Slot, wanted: &Quantity) -> String {
        self.field_text(figure, &wanted.amount)
    }

    fn field_text(&self, field: Slot, value: &Real) -> String {
        self.show(&Datum::Amount(value.clone()), self.book().name(field).of)
    }

    /// The distance between the values of a field that are tried: marks of the tape for lengths, a tenth of a degree, a
    /// tenth of an ounce, whole numbers, a hundredth of anything else.
    fn step_of(&self, field: Slot) -> Real {
        match self.book().name(field).of {
            Type::Quantity(Kind::LENGTH) => self.manner().graduation.step.value.clone(),
            Type::Quantity(Kind::ANGLE | Kind::TEMPERATURE) => Real::ratio(1, 10),
            Type::Quantity(Kind::MASS) => Real::ratio(1, 160),
            Type::Whole => Real::ONE,
            Type::Quantity(_)
            | Type::Share
            | Type::Word
            | Type::Text
            | Type::List(_)
            | Type::Record(_)
            | Type::Truth
            | Type::Size
            | Type::Nothing => Real::ratio(1, 100),
        }
    }

    /// Values of a field along its range, from its least to its greatest; bounded where the rules do not bound it.
    fn places(&self, field: Slot, at: &Real) -> Vec<f64> {
        let first = self.settable(field).ok().and_then(|slots| slots.first().copied()).unwrap_or(field);
        let bound = |node| self.evaluate(|evaluator| evaluator.amount(node, Pass::Drawn)).ok();
        let rule = self.rule(first);
        let low = rule.and_then(|rule| rule.low.as_ref()).and_then(|(low, _)| bound(low)).map(|low| low.to_f64());
        let high = rule.and_then(|rule| rule.high.as_ref()).and_then(bound).map(|high| high.to_f64());
        let at = at.to_f64();
        let low = low.unwrap_or(-FARTHEST);
        let high = high.unwrap_or_else(|| FARTHEST.max(at * 4.0));
        if self.book().name(field).of == Type::Whole {
            let step = |place: &i32| f64::from(*place) >= low && f64::from(*place) <= high;
            return (0..=MOST_WHOLE).filter(step).map(f64::from).collect();
        }
        // Denser near where the field stands: a wide range would otherwise step over what lies close by.
        let spread = |from: f64, to: f64| {
            (1..=PLACES).map(move |place| {
                let share = f64::from(place) / f64::from(PLACES);
                from + (to - from) * share * share
            })
        };
        let mut places: Vec<f64> = spread(at, low).chain([at]).chain(spread(at, high)).collect();
        places.sort_by(f64::total_cmp);
        places
    }
}

/// The most that a whole number is tried at.
const MOST_WHOLE: i32 = 500;

/// A copy of a design on which values of a field are tried.
struct Probe {
    copy: Design,
    slots: Vec<Slot>,
    figure: Slot,
    goal: f64,
}

impl Probe {
    fn new(design: &Design, figure: Slot, field: Slot, goal: f64) -> Self {
        Self { copy: design.clone(), slots: design.settable(field).unwrap_or_default(), figure, goal }
    }

    /// By how much the figure is over the goal with the field at a value.
    fn over_at(&mut self, value: &Real) -> Option<f64> {
        for slot in &self.slots {
            self.copy.in_range(*slot, value, self.copy.book().name(*slot).of).ok()?;
        }
        for slot in &self.slots {
            self.copy.put(*slot, Some(Datum::Amount(value.clone())));
        }
        Some(self.copy.known(self.figure).ok()?.drawn.amount()?.to_f64() - self.goal)
    }

    fn over(&mut self, value: f64) -> Option<f64> {
        self.over_at(&Real::approximate(value))
    }
}

/// Where a curve through these places passes nothing, closed in on by halving.
fn crossings(found: &[Place], mut over: impl FnMut(f64) -> Option<f64>) -> Vec<f64> {
    let mut crossings = Vec::new();
    for (place, value) in found {
        if *value == Some(0.0) {
            crossings.push(*place);
        }
    }
    for pair in found.windows(2) {
        let [(low, Some(at_low)), (high, Some(at_high))] = pair else { continue };
        if at_low * at_high >= 0.0 {
            continue;
        }
        let (mut low, mut high) = (*low, *high);
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            match over(middle) {
                Some(value) if value * at_low > 0.0 => low = middle,
                Some(_) => high = middle,
                None => break,
            }
        }
        crossings.push(f64::midpoint(low, high));
    }
    crossings
}
