//! What the designs of a run weigh: a line for each, and one for all.

use super::summary::SummaryLine;
use crate::fact::{Datum, Fact, Field, Kind, Level, field};
use crate::measure::Real;

/// What one design weighs, or all of them.
#[derive(Clone, Debug)]
pub struct Weights {
    name: String,
    quantity: i64,
    /// Of one frame as it hangs and as it is packed, as the bench shows it and in pounds; none of all designs.
    one: Option<([String; 2], [Real; 2])>,
    /// The same of all frames, in pounds.
    pub(super) all: [Real; 2],
    /// Designs whose object has no weight, so that the weights are too low.
    pub(super) unweighed: Vec<String>,
}

/// Of all designs, before the first.
impl Default for Weights {
    fn default() -> Self {
        Self { name: "all".into(), quantity: 0, one: None, all: [Real::ZERO, Real::ZERO], unweighed: Vec::new() }
    }
}

impl Weights {
    /// Of a design.
    pub(super) fn of(line: &SummaryLine) -> Self {
        let texts = [line.weight.clone(), line.packed.clone()];
        let unweighed = if line.is_unweighed { vec![line.name.clone()] } else { Vec::new() };
        Self {
            name: line.name.clone(),
            quantity: line.quantity,
            one: Some((texts, line.one())),
            all: line.all(),
            unweighed,
        }
    }

    /// Adds the weight of another.
    pub(super) fn add(&mut self, other: Self) {
        self.quantity = self.quantity.saturating_add(other.quantity);
        let [hung, packed] = &mut self.all;
        let [one, more] = other.all;
        (*hung, *packed) = (hung.clone() + one, packed.clone() + more);
        self.unweighed.extend(other.unweighed);
    }

    fn text<'a>(&self, at: usize) -> Datum<'a> {
        Datum::maybe(self.one.as_ref(), |(texts, _)| Datum::text(texts[at].clone()))
    }

    fn pounds_of_one<'a>(&self, at: usize) -> Datum<'a> {
        Datum::maybe(self.one.as_ref(), |(_, pounds)| Datum::text(pounds[at].to_fixed(3)))
    }

    fn pounds<'a>(&self, at: usize) -> Datum<'a> {
        Datum::text(self.all[at].to_fixed(3))
    }
}

impl Fact for Weights {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "weights";
    const DOC: &'static str = "The weight of a design that can be made, or of all of them.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "name of the design, or `all`", |of, _| Datum::text(of.name.as_str()))
            .at(Level::Key),
        field::<Self>("quantity", Kind::Count, "how many frames", |of, _| Datum::count(of.quantity)),
        field::<Self>("weight", Kind::Text, "weight of one frame", |of, _| of.text(0)).optional(),
        field::<Self>("packed", Kind::Text, "weight of one wrapped piece", |of, _| of.text(1)).optional(),
        field::<Self>("weight_lb", Kind::Text, "weight of one frame in pounds", |of, _| of.pounds_of_one(0)).optional(),
        field::<Self>("packed_lb", Kind::Text, "weight of one wrapped piece in pounds", |of, _| of.pounds_of_one(1))
            .optional(),
        field::<Self>("all_lb", Kind::Text, "weight of all frames in pounds", |of, _| of.pounds(0)),
        field::<Self>("all_packed_lb", Kind::Text, "weight of all wrapped pieces in pounds", |of, _| of.pounds(1)),
        field::<Self>(
            "unweighed",
            Kind::Each(&Kind::Text),
            "designs whose object has no weight; the rest is weighed",
            |of, _| Datum::texts(of.unweighed.iter().map(String::as_str)),
        )
        .optional(),
    ];
}
