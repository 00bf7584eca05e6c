//! Cautions that a sheet carries where they apply. They repeat what the trade knows and replace no training: local
//! codes, licensed trades and conservators come first. Common practice, no source.

use super::Part;
use crate::measure::Real;
use crate::rules::{Datum, Design};

/// A caution and when it applies.
struct Caution {
    applies: fn(&Design, &[Part]) -> bool,
    says: &'static str,
}

const CAUTIONS: &[Caution] = &[
    Caution {
        applies: |_, _| true,
        says: "Saws: guards and riving knife on, a stop that cannot trap the offcut, hands away from the blade. \
               Dust: extraction and a fitted respirator.",
    },
    Caution {
        applies: |_, parts| parts.iter().any(is_short),
        says: "Short parts: never hold one by hand at the blade; cut it from a longer piece or in a clamped sled.",
    },
    Caution {
        applies: |design, _| is_word(design, "glazing.kind", "glass"),
        says: "Glass: cut-resistant gloves and eye protection; mind the size limit for its thickness.",
    },
    Caution {
        applies: |design, _| is_word(design, "art.kind", "paper") || is_word(design, "art.kind", "textile"),
        says: "Paper and textile: nothing that cannot be taken off again; ask a conservator where the work is of value.",
    },
];

/// Shorter than this between the points, a piece is not held by hand at a saw.
const SHORT: i64 = 8;

fn is_word(design: &Design, name: &str, word: &str) -> bool {
    let known = design.book().slot(name).and_then(|slot| design.known(slot).ok());
    matches!(known.map(|known| known.drawn), Some(Datum::Word(is)) if &*is == word)
}

fn is_short(part: &Part) -> bool {
    !part.sheet && part.short.amount < Real::whole(SHORT)
}

/// The cautions that apply to the making of a design's parts.
pub fn cautions(design: &Design, parts: &[Part]) -> Vec<&'static str> {
    if parts.is_empty() {
        return Vec::new();
    }
    CAUTIONS.iter().filter(|caution| (caution.applies)(design, parts)).map(|caution| caution.says).collect()
}
