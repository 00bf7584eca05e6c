//! Which value of a field gives a figure the value that is wanted: by the figure's own slope where it is a straight line,
//! otherwise by looking along the field's range and closing in.

use super::book::{Role, Slot, Type};
use super::design::Design;
use super::evaluate::{Datum, Pass};
use super::term::Way;
use crate::diag::{Diagnostic, list};
use crate::measure::{Kind, Quantity, Real, Toward, Unit, to_step};

/// How near a field brings a figure to what is wanted.
#[derive(Clone, Debug)]
pub struct Aimed {
    /// What the figure is then, as drawn.
    pub reached: Quantity,
    /// By how much that is over what was wanted; exactly nothing where it is hit.
    pub off: Quantity,
}

/// How many places of a range are looked at before closing in.
const PLACES: i32 = 160;

/// How often the stretch between two places is halved.
const HALVINGS: usize = 48;

/// The most fields named as ones that could be turned.
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
        let text = |slot: Slot| self.book().name(slot).text.as_str();
        let Type::Quantity(kind) = self.book().name(figure).of else {
            return Err(Diagnostic::new(format!("{} is no amount that could be aimed at", text(figure))));
        };
        if wanted.kind != kind {
            let (name, amount) = (text(figure), self.manner().short(wanted));
            let message = format!("{name} is {}, and {amount} is {}", kind.with_article(), wanted.kind.with_article());
            let meant = crate::measure::write::exactly(&Quantity::new(wanted.amount.clone(), kind));
            return Err(Diagnostic::new(message).hint(format!("aim {name} {meant} by {}", text(field))));
        }
        let now = self.drawn(figure)?;
        if !self.turns(field) {
            return Err(self.cannot_turn(figure, wanted, field, "has no number to turn"));
        }
        let at = self.amount_of(field)?;
        if let Some(hit) = self.by_slope(figure, wanted, field, &at, &now) {
            return hit;
        }
        self.by_looking(figure, wanted, field, &at)
    }

    /// The drawn amount of a figure.
    fn drawn(&self, slot: Slot) -> Result<Real, Diagnostic> {
        match self.known(slot) {
            Ok(known) => known
                .drawn
                .amount()
                .cloned()
                .ok_or_else(|| Diagnostic::new(format!("{} is no amount", self.book().name(slot).text))),
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

    fn cannot_turn(&self, figure: Slot, wanted: &Quantity, field: Slot, why: &str) -> Diagnostic {
        let text = |slot: Slot| self.book().name(slot).text.as_str();
        let others = self.turning(figure, field);
        let message = if others.is_empty() {
            format!("{} {why}, and no field moves {}", text(field), text(figure))
        } else {
            format!("{} {why}; {} follows {}", text(field), text(figure), list(&others, "and"))
        };
        let found = Diagnostic::new(message);
        match others.first() {
            Some(first) => {
                found.hint(format!("aim {} {} by {first}", text(figure), crate::measure::write::exactly(wanted)))
            }
            None => found,
        }
    }

    /// Fields that move a figure as the design stands, those that move it most first.
    fn turning(&self, figure: Slot, but: Slot) -> Vec<&str> {
        let order = &self.book().builds[usize::from(self.build())].order;
        let mut found: Vec<(f64, Slot)> = order
            .iter()
            .filter(|slot| **slot != but && **slot != figure && self.turns(**slot))
            // What is measured is not turned, and settings of the shop are not the design's.
            .filter(|slot| self.book().name(**slot).role != Role::Figure)
            .filter(|slot| !self.book().name(**slot).is_of_the_shop())
            .filter_map(|slot| Some((self.slope(figure, *slot).ok()?.to_f64().abs(), *slot)))
            .filter(|(slope, _)| *slope > 0.0)
            .collect();
        found.sort_by(|one, other| other.0.total_cmp(&one.0));
        found.into_iter().take(NAMED).map(|(_, slot)| self.book().name(slot).text.as_str()).collect()
    }

    /// A copy with a field, or all that stand under its name, at a value; nothing where it may not stand there.
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
    ) -> Option<Result<(Self, Aimed), Diagnostic>> {
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
            let names = (&self.book().name(figure).text, self.manner().short(wanted));
            let found: Diagnostic = refusal.into();
            let message = format!("for {} {}: {}", names.0, names.1, found.message);
            return Some(Err(Diagnostic { message, ..found }));
        };
        let reached = copy.drawn(figure).ok()?;
        // A bend on the way there, or a tie left behind, is found by looking.
        let straight = reached == wanted.amount && copy.slope(figure, field).is_ok_and(|there| there.same(&slope));
        straight.then(|| Ok((copy, self.aimed(wanted, reached))))
    }

    fn aimed(&self, wanted: &Quantity, reached: Real) -> Aimed {
        let off = reached.clone() - wanted.amount.clone();
        Aimed { reached: Quantity::new(reached, wanted.kind), off: Quantity::new(off, wanted.kind) }
    }

    /// Looks along the range of a field for places where the figure passes what is wanted, and closes in on them.
    fn by_looking(&self, figure: Slot, wanted: &Quantity, field: Slot, at: &Real) -> Result<(Self, Aimed), Diagnostic> {
        let mut probe = Probe::new(self, figure, field, wanted.amount.to_f64());
        let places = self.places(field, at);
        let found: Vec<(f64, Option<f64>)> = places.iter().map(|place| (*place, probe.over(*place))).collect();
        let mut known = found.iter().filter_map(|(_, over)| *over);
        let first = known.next();
        if !known.any(|over| Some(over) != first) {
            return Err(self.cannot_turn(figure, wanted, field, &format!("does not move {}", self.name_of(figure))));
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
                let copy = self.with(field, mark).ok_or_else(|| Diagnostic::new("that value cannot be set"))?;
                let reached = copy.drawn(figure)?;
                let aimed = self.aimed(wanted, reached);
                Ok((copy, aimed))
            }
            [] => Err(self.out_of_reach(figure, wanted, field, &found)),
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
                    self.manner().short(wanted)
                );
                Err(Diagnostic::new(message).hint(format!("{name} {first}")))
            }
        }
    }

    fn name_of(&self, slot: Slot) -> &str {
        &self.book().name(slot).text
    }

    fn field_text(&self, field: Slot, value: &Real) -> String {
        self.show(&Datum::Amount(value.clone()), self.book().name(field).of)
    }

    /// No value does it: where it comes nearest.
    fn out_of_reach(&self, figure: Slot, wanted: &Quantity, field: Slot, found: &[(f64, Option<f64>)]) -> Diagnostic {
        let (figure_name, name) = (self.name_of(figure), self.name_of(field));
        let known = found.iter().filter_map(|(place, over)| Some((over.as_ref()?.abs(), *place)));
        let message = format!("no value of {name} makes {figure_name} {}", self.manner().short(wanted));
        let Some((_, nearest)) = known.min_by(|one, other| one.0.total_cmp(&other.0)) else {
            return Diagnostic::new(message);
        };
        let mark = to_step(&Real::approximate(nearest), &self.step_of(field), Toward::Nearest).0;
        let reached = self.with(field, &mark).and_then(|copy| copy.drawn(figure).ok());
        let Some(reached) = reached else { return Diagnostic::new(message) };
        let reached = self.manner().short(&Quantity::new(reached, wanted.kind));
        let value = self.field_text(field, &mark);
        Diagnostic::new(format!("{message}; it comes nearest at {name} {value}, with {reached}"))
            .hint(format!("{name} {value}"))
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
fn crossings(found: &[(f64, Option<f64>)], mut over: impl FnMut(f64) -> Option<f64>) -> Vec<f64> {
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
