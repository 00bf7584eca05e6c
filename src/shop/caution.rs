//! The cautions that apply to a design and its parts. Their texts and conditions are rules: `cautions.rules`.

use std::sync::Arc;

use super::{Part, Shape};
use crate::measure::{Quantity, Real};
use crate::rules::book::{Book, Cell, Slot, Type};
use crate::rules::entry::{About, CautionRule, Materials, Words};
use crate::rules::term::Pieces;
use crate::rules::{Datum, Design, Pass};

/// A caution with the values of a design in its texts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caution {
    /// Its name in the rules.
    pub name: String,
    /// One line: the hazard and what to do.
    pub short: String,
    /// The whole text.
    pub full: String,
    /// Where it is from.
    pub source: String,
}

/// The page that shows every caution in full.
pub const SHEET: &str = "sheet";

/// A piece that is cut, as far as cautions ask.
#[derive(Clone, Copy, Debug)]
pub struct Cut<'a> {
    /// What it is made of.
    pub material: &'a str,
    /// Of a stick: its length between the short points. Nothing for a sheet.
    pub short: Option<&'a Real>,
}

impl<'a> From<&'a Part> for Cut<'a> {
    fn from(part: &'a Part) -> Self {
        let short = match &part.shape {
            Shape::Stick(stick) => Some(&stick.short.amount),
            Shape::Sheet(_) => None,
        };
        Self { material: &part.material, short }
    }
}

/// The cautions that apply to a design and its parts: those of a page, or of all pages for [`SHEET`].
pub fn cautions(design: &Design, parts: &[Part], page: &str) -> Vec<Caution> {
    cautions_for(design, &parts.iter().map(Cut::from).collect::<Vec<_>>(), page)
}

/// The cautions of several designs on one page, each once.
pub fn cautions_of_all<'a>(designs: impl Iterator<Item = &'a Design>, page: &str) -> Vec<Caution> {
    let mut found: Vec<Caution> = Vec::new();
    for caution in designs.flat_map(|design| cautions(design, &super::parts(design), page)) {
        if !found.contains(&caution) {
            found.push(caution);
        }
    }
    found
}

/// The same for pieces of any table; the design is then an empty one, with the settings of the shop.
pub fn cautions_for(design: &Design, pieces: &[Cut], page: &str) -> Vec<Caution> {
    if pieces.is_empty() {
        return Vec::new();
    }
    let book = design.book();
    let on_page = |caution: &&CautionRule| page == SHEET || caution.pages.iter().any(|one| one == page);
    let here = book.cautions.iter().filter(|caution| caution.builds.contains(&design.build())).filter(on_page);
    here.flat_map(|caution| of_rule(caution, design, pieces)).collect()
}

/// Whether a piece so long between its short points must not be held by hand at a saw: it is less than `limit`, the
/// setting `shop.short` (common practice, no source).
pub fn is_short(short: &Real, limit: &Real) -> bool {
    short < limit
}

fn of_rule(caution: &CautionRule, design: &Design, pieces: &[Cut]) -> Vec<Caution> {
    let applies = caution
        .when
        .as_ref()
        .is_none_or(|when| design.evaluate(|evaluator| evaluator.holds(when, Pass::Cut)) == Ok(true));
    if !applies {
        return Vec::new();
    }
    let matters = match &caution.about {
        Some(about) => matters(about, design, pieces),
        None => vec![Matter::default()],
    };
    let mut found: Vec<Caution> = Vec::new();
    for matter in matters {
        let text = |words: &[Words]| words.iter().map(|word| text(word, &matter, design)).collect::<String>();
        let one = Caution {
            name: caution.name.clone(),
            short: text(&caution.says),
            full: text(&caution.full),
            source: caution.source.clone(),
        };
        // What differs in nothing is said once, however many pieces it is about.
        if !found.contains(&one) {
            found.push(one);
        }
    }
    found
}

/// What a caution is about: a material, and what its table has for it.
#[derive(Default)]
struct Matter {
    material: String,
    cell: String,
}

fn matters(about: &About, design: &Design, pieces: &[Cut]) -> Vec<Matter> {
    let book = design.book();
    let limit =
        about.under.as_ref().and_then(|under| design.evaluate(|evaluator| evaluator.amount(under, Pass::Cut)).ok());
    let fits = |piece: &&Cut| match (piece.short, about.shape) {
        (Some(_), Pieces::Sheets) | (None, Pieces::Sticks) => false,
        (Some(short), _) => about.under.is_none() || limit.as_ref().is_some_and(|limit| is_short(short, limit)),
        (None, _) => about.under.is_none(),
    };
    let of_pieces = pieces.iter().filter(fits).map(|piece| piece.material.to_string());
    let named = about.or.iter().filter_map(|slot| word(design, *slot)).map(|word| word.to_string());
    let mut found: Vec<Matter> = Vec::new();
    for material in of_pieces.chain(named) {
        if let Some(matter) = matter(about.of.as_ref(), book, material)
            && !found.iter().any(|one| one.material == matter.material)
        {
            found.push(matter);
        }
    }
    found
}

fn matter(of: Option<&Materials>, book: &Book, material: String) -> Option<Matter> {
    // A table of parts may write a material in capitals, or by another name.
    let typed = material.to_lowercase();
    let cell = match of {
        None => String::new(),
        Some(Materials::Word(word)) => {
            (typed == **word).then_some(())?;
            String::new()
        }
        Some(Materials::Table(table)) => {
            book.tables.get(usize::from(*table))?.meant(&typed)?;
            String::new()
        }
        Some(Materials::Column(columns)) => columns.iter().find_map(|(table, column)| {
            let table = book.tables.get(usize::from(*table))?;
            match table.cell(*column, table.meant(&typed)?)? {
                Cell::Word(word) => Some(word.to_string()),
                Cell::Amount(_) => None,
            }
        })?,
    };
    Some(Matter { material, cell })
}

fn word(design: &Design, slot: Slot) -> Option<Arc<str>> {
    match design.known(slot).ok()?.drawn {
        Datum::Word(word) => Some(word),
        Datum::Amount(_) | Datum::Truth(_) | Datum::List(_) | Datum::Record(_) => None,
    }
}

fn text(words: &Words, matter: &Matter, design: &Design) -> String {
    match words {
        Words::Plain(plain) => plain.clone(),
        Words::Material => matter.material.clone(),
        Words::Cell => matter.cell.clone(),
        Words::Value(node, of) => match design.evaluate(|evaluator| evaluator.value(node, Pass::Cut)) {
            Ok(Datum::Amount(amount)) if *of == Type::Quantity(crate::measure::Kind::LENGTH) => {
                design.manner().about(&Quantity::inches(amount))
            }
            Ok(value) => design.show(&value, *of),
            Err(_) => "?".into(),
        },
    }
}
