//! Names that a new design may not have: a line that means the design would be read as something else.

use std::collections::BTreeSet;

use super::form::{Item, Word, sequences};
use super::read::{behind, beside};

/// The literals that could stand where the name of a design does, in any form of these words.
pub fn reserved<D>(words: &[Word<D>]) -> BTreeSet<&'static str> {
    let mut found = BTreeSet::new();
    for word in words {
        let forms = word.forms.iter().enumerate();
        let all: Vec<(usize, Vec<Item>)> =
            forms.flat_map(|(at, form)| sequences(form.parts).into_iter().map(move |items| (at, items))).collect();
        for (_, sequence) in &all {
            for (at, item) in sequence.iter().enumerate() {
                if let Item::Arg(arg) | Item::Many(arg, _) = item
                    && arg.kind.names_a_design()
                {
                    found.extend(beside(&all, sequence, at));
                    if matches!(item, Item::Many(..)) {
                        found.extend(behind(&all, sequence, at));
                    }
                }
            }
        }
    }
    found
}
