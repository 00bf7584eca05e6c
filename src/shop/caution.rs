//! Cautions that a sheet carries where they apply. They repeat what the trade knows and replace no training: local
//! codes, licensed trades and conservators come first. Common practice, no source.

use super::{Part, Shape};
use crate::measure::Real;
use crate::rules::{Datum, Design};

/// A caution, the page of its own that it belongs to, and when it applies.
struct Caution {
    page: &'static str,
    applies: fn(&Design, &[Part]) -> bool,
    says: &'static str,
}

const CAUTIONS: &[Caution] = &[
    Caution {
        page: "parts",
        applies: |_, _| true,
        says: "Saws: guards and riving knife on, a stop that cannot trap the offcut, hands away from the blade. \
               Dust: extraction and a fitted respirator.",
    },
    Caution {
        page: "parts",
        applies: |design, parts| {
            let limit = design.made("shop.short").map(|limit| limit.amount);
            limit.is_some_and(|limit| parts.iter().any(|part| is_part_short(part, &limit)))
        },
        says: "Short parts: never hold one by hand at the blade; cut it from a longer piece or in a clamped sled.",
    },
    Caution {
        page: "parts",
        applies: |design, _| is_word(design, "glazing.kind", "glass"),
        says: "Glass: cut-resistant gloves and eye protection; mind the size limit for its thickness.",
    },
    Caution {
        page: "fixings",
        applies: |design, _| is_word(design, "art.kind", "paper") || is_word(design, "art.kind", "textile"),
        says: "Paper and textile: nothing that cannot be taken off again; ask a conservator where the work is of value.",
    },
    Caution {
        page: "fixings",
        applies: |design, _| is_known(design, "screw.length"),
        says: "Screws: try one in scrap of the same thickness first, with a stop on the drill; average loads, side grain.",
    },
    Caution {
        page: "hang",
        applies: |design, _| is_known(design, "weight"),
        says: "Hanging: know the wall, use rated hardware, take extra care over beds, seats and walkways. Ask a licensed \
               trade where the wall or the load calls for one.",
    },
    Caution {
        page: "movement",
        applies: |design, _| is_known(design, "moisture.change"),
        says: "Movement: averages of a species; one board may differ a good deal. Ask a conservator where the work is of \
               value.",
    },
    Caution {
        page: "movement",
        applies: |design, _| DUSTS.iter().any(|wood| is_word(design, "wood", wood)),
        says: "Dust of this wood: oak and beech are known to cause cancer, birch, mahogany and walnut may; cedar and redwood \
               make asthma worse. NIOSH asks for less than 1 mg in a cubic metre of air.",
    },
];

/// Woods whose dust is named by health bodies: oak and beech A1; birch, mahogany, walnut A2 (ACGIH, read at a university's
/// extension page); cedar, redwood and oak for asthma (the same).
const DUSTS: &[&str] = &[
    "red oak",
    "white oak",
    "beech",
    "birch",
    "paper birch",
    "mahogany",
    "walnut",
    "red cedar",
    "eastern red cedar",
    "redwood",
];

fn is_word(design: &Design, name: &str, word: &str) -> bool {
    let known = design.book().slot(name).and_then(|slot| design.known(slot).ok());
    matches!(known.map(|known| known.drawn), Some(Datum::Word(is)) if &*is == word)
}

/// Whether a piece so long between its short points must not be held by hand at a saw: it is less than `limit`, the
/// setting `shop.short` (common practice, no source).
pub fn is_short(short: &Real, limit: &Real) -> bool {
    short < limit
}

fn is_part_short(part: &Part, limit: &Real) -> bool {
    matches!(&part.shape, Shape::Stick(stick) if is_short(&stick.short.amount, limit))
}

fn is_known(design: &Design, name: &str) -> bool {
    design.book().slot(name).is_some_and(|slot| design.known(slot).is_ok())
}

/// The cautions that apply to the making of a design's parts; those of one page, or all.
pub fn cautions(design: &Design, parts: &[Part], page: Option<&str>) -> Vec<&'static str> {
    if parts.is_empty() {
        return Vec::new();
    }
    CAUTIONS
        .iter()
        .filter(|caution| page.is_none_or(|page| caution.page == page) && (caution.applies)(design, parts))
        .map(|caution| caution.says)
        .collect()
}
