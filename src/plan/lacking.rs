//! Parts that a plan leaves out, and why.

use super::job::{Cutting, Left, Why};
use super::material::Material;
use super::sheets::Sheeting;
use super::whole::Whole;
use super::work::LeftRow;
use crate::fact::{Datum, Fact, Field, Kind, Level, field};
use crate::measure::write::Manner;
use crate::measure::{Quantity, Real, Unit};

/// Parts that were to come out of stock and do not.
#[derive(Clone, Copy, Debug)]
pub enum Lacking<'a> {
    /// Parts that no stick or board gives.
    Part(&'a Cutting, &'a Left),
    /// Pieces that no sheet gives: the plan of their material, and which of its rows they are.
    Piece(&'a Whole, &'a Sheeting, usize),
    /// What a row of a table asks for that is left out as a whole.
    Row(&'a LeftRow),
}

impl<'a> Lacking<'a> {
    /// What they are called.
    pub fn name(self) -> &'a str {
        match self {
            Self::Part(cutting, left) => &cutting.order.parts[left.part].name,
            Self::Piece(whole, sheeting, row) => &whole.sheets[sheeting.rows[row]].name,
            Self::Row(row) => &row.name,
        }
    }

    /// How long each is, in inches; of a piece of a sheet its height.
    pub fn length(self) -> Option<&'a Real> {
        match self {
            Self::Part(cutting, left) => Some(&cutting.order.parts[left.part].length),
            Self::Piece(whole, sheeting, row) => Some(&whole.sheets[sheeting.rows[row]].height),
            Self::Row(_) => None,
        }
    }

    /// The width of a piece of a sheet, in inches.
    pub fn width(self) -> Option<&'a Real> {
        match self {
            Self::Part(..) | Self::Row(_) => None,
            Self::Piece(whole, sheeting, row) => Some(&whole.sheets[sheeting.rows[row]].width),
        }
    }

    /// How many are left out.
    pub fn quantity(self) -> Option<u32> {
        match self {
            Self::Part(_, left) => Some(left.quantity),
            Self::Piece(_, sheeting, row) => Some(sheeting.plan.left[row]),
            Self::Row(_) => None,
        }
    }

    /// What they are made of.
    pub fn material(self) -> Option<&'a Material> {
        match self {
            Self::Part(cutting, left) => Some(&cutting.order.parts[left.part].material),
            Self::Piece(whole, sheeting, row) => Some(&whole.sheets[sheeting.rows[row]].material),
            Self::Row(_) => None,
        }
    }

    /// The reason in words.
    pub fn because(self, manner: &Manner) -> String {
        let length = |inches: &Real| manner.short(&Quantity::inches(inches.clone()));
        match self {
            Self::Part(cutting, left) => of_part(cutting, left, manner),
            Self::Row(row) => row.because.clone(),
            Self::Piece(whole, sheeting, row) => {
                let wanted = &whole.sheets[sheeting.rows[row]];
                let material = wanted.material.words();
                if sheeting.holds(row) {
                    return left_over(
                        sheeting.plan.left[row],
                        wanted.quantity,
                        &format!("every sheet of {material} is used up"),
                    );
                }
                let size = format!("{} x {}", length(&wanted.width), length(&wanted.height));
                format!("it is {size}, and no sheet of {material} in stock is large enough")
            }
        }
    }
}

/// Why some of the parts are left out, or all.
fn left_over(left: u32, wanted: u32, why: &str) -> String {
    if left < wanted { format!("{left} of {wanted} are left over: {why}") } else { why.into() }
}

fn of_part(cutting: &Cutting, left: &Left, manner: &Manner) -> String {
    let length = |inches: &Real| manner.short(&Quantity::inches(inches.clone()));
    let part = &cutting.order.parts[left.part];
    let long = length(&part.length);
    match &left.why {
        Why::NoStock => match part.material.words().as_str() {
            "" => "there is no stock to cut it from".into(),
            words => {
                let bare = Unit::named(if manner.graduation.metric { "mm" } else { "in" });
                let turned = cutting.order.stock.iter().find(|held| held.material.is_turned(&part.material, bare));
                let turned = turned
                    .map(|held| format!("; {} lies the other way, and a profile has a face", held.material.section));
                format!("there is no stock of {words}{}", turned.unwrap_or_default())
            }
        },
        Why::TooLong(longest) => {
            format!("it is {long}, and the longest stick for it gives {} between the trims", length(longest))
        }
        Why::UsedUp => left_over(left.quantity, part.quantity, "every stick long enough is used up"),
        Why::UnderKerf => {
            format!("it is {long}, and a cut takes as much or more: the kerf is {}", length(&cutting.saw.kerf))
        }
        Why::Unchecked => "its plan did not pass the check, and is not shown".into(),
    }
}

impl Whole {
    /// What is left out as a whole, and what neither sticks nor boards nor sheets give. Pieces of a sheet material that is
    /// not in stock are not among them: those are bought in their own size.
    pub fn lacking(&self) -> impl Iterator<Item = Lacking<'_>> {
        let parts = self.sticks.left.iter().map(|left| Lacking::Part(&self.sticks, left));
        let pieces = self.sheeting.iter().flat_map(move |one| {
            let rows = one.plan.left.iter().enumerate().filter(|(_, left)| **left > 0);
            rows.map(move |(row, _)| Lacking::Piece(self, one, row))
        });
        self.left_rows.iter().map(Lacking::Row).chain(parts).chain(pieces)
    }
}

/// Parts and works that a plan leaves out.
pub struct Unplanned;

impl Fact for Unplanned {
    type Of<'a> = Lacking<'a>;
    const NAME: &'static str = "unplanned";
    const DOC: &'static str = "Parts and works that a plan leaves out.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "name of the part or the work", |of, _| Datum::text(of.name()))
            .at(Level::Key),
        field::<Self>("length", Kind::LENGTH, "length of the part, or height of the piece of a sheet", |of, _| {
            Datum::maybe(of.length(), Datum::inches)
        })
        .optional(),
        field::<Self>("width", Kind::LENGTH, "width of the piece of a sheet", |of, _| {
            Datum::maybe(of.width(), Datum::inches)
        })
        .optional(),
        field::<Self>("quantity", Kind::Count, "how many are left out, where the table says so", |of, _| {
            Datum::maybe(of.quantity(), |quantity| Datum::Count(quantity.into()))
        })
        .optional()
        .at(Level::Key),
        field::<Self>("because", Kind::Text, "the reason", |of, manner| Datum::text(of.because(manner))).at(Level::Key),
    ];
}
