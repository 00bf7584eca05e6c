//! Why parts are not planned, in words.

use super::job::{Cutting, Left, Why};
use crate::measure::write::Manner;
use crate::measure::{Quantity, Real, Unit};

/// Why parts are not planned: what is missing.
pub fn because(cutting: &Cutting, left: &Left, manner: &Manner) -> String {
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
        Why::UsedUp if left.quantity < part.quantity => {
            format!("{} of {} are left over: every stick long enough is used up", left.quantity, part.quantity)
        }
        Why::UsedUp => "every stick long enough is used up".into(),
        Why::UnderKerf => {
            format!("it is {long}, and a cut takes as much or more: the kerf is {}", length(&cutting.saw.kerf))
        }
        Why::Unchecked => "its plan did not pass the check, and is not shown".into(),
    }
}
