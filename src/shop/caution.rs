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

impl Caution {
    /// With the whole text in place of the one line, for a file.
    #[must_use]
    pub fn in_full(self) -> Self {
        Self { short: self.full.clone(), ..self }
    }
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
    let pieces = shortest(pieces);
    here.flat_map(|caution| of_rule(caution, design, &pieces)).collect()
}

/// The shortest stick and one sheet of each material: no caution asks for more.
fn shortest<'a>(pieces: &[Cut<'a>]) -> Vec<Cut<'a>> {
    let mut kept: Vec<Cut> = Vec::new();
    for piece in pieces {
        let alike = |one: &&mut Cut| one.material == piece.material && one.short.is_some() == piece.short.is_some();
        match kept.iter_mut().find(alike) {
            Some(one) if piece.short < one.short => *one = *piece,
            Some(_) => {}
            None => kept.push(*piece),
        }
    }
    kept
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

#[cfg(test)]
mod tests {

    use super::*;
    use crate::measure::write::Manner;
    use crate::rules::tests::designed;
    use crate::rules::{Rules, SHIPPED, read_book, shipped};
    use crate::shop::parts;

    fn names(cautions: &[Caution]) -> Vec<&str> {
        cautions.iter().map(|caution| caution.name.as_str()).collect()
    }

    fn of(design: &Design, page: &str) -> Vec<Caution> {
        cautions(design, &parts(design), page)
    }

    /// The longest short line: what the narrowest usual terminal shows.
    const LONGEST: usize = 80;

    #[test]
    fn every_short_line_fits_a_line() {
        let book = shipped();
        let shop = Design::new(book.clone(), Manner::default());
        let tables = ["woods", "boards", "glazings"].map(|name| book.table(name).unwrap());
        for material in tables.iter().flat_map(|table| &table.words) {
            for short in [None, Some(&Real::ONE)] {
                for caution in cautions_for(&shop, &[Cut { material, short }], SHEET) {
                    assert!(caution.short.chars().count() <= LONGEST, "{}", caution.short);
                    assert!(caution.short.contains(':') && caution.short.ends_with('.'), "{}", caution.short);
                    assert!(!caution.source.is_empty(), "{}", caution.name);
                }
            }
        }
        let large = [
            ("build", "rabbeted"),
            ("art", "40 x 50 x 1"),
            ("art.kind", "paper"),
            ("glazing", "glass"),
            ("wall.centre", "80"),
        ];
        for caution in of(&designed(&large), SHEET) {
            assert!(caution.short.chars().count() <= LONGEST, "{}", caution.short);
        }
    }

    #[test]
    fn dust_of_every_wood_comes_first_then_that_of_species() {
        let pine = designed(&[("art", "16 x 20 x 1"), ("wood", "white pine")]);
        assert_eq!(names(&of(&pine, "plan")), ["dust", "saws"]);
        let oak = designed(&[("art", "16 x 20 x 1"), ("strip.wood", "white oak")]);
        assert_eq!(names(&of(&oak, "plan")), ["dust", "dust.special", "saws"]);
        assert_eq!(of(&oak, "plan")[1].short, "Dust of white oak causes nasal cancer and can cause asthma: avoid it.");
        // The stretcher is worked too: screws are driven into it.
        let art = designed(&[("art", "16 x 20 x 1"), ("art.wood", "red cedar")]);
        assert_eq!(names(&of(&art, "plan")), ["dust", "dust.special", "saws"]);
    }

    /// A caution is where the hands are, and nowhere else.
    #[test]
    fn each_page_has_the_cautions_of_its_work() {
        let glass = [
            ("build", "rabbeted"),
            ("art", "8 x 10 x 1/64"),
            ("art.kind", "paper"),
            ("glazing", "glass"),
            ("wood", "red cedar"),
        ];
        let glazed = designed(&glass);
        let at_the_saw = ["dust", "dust.special", "saws", "short", "glass", "router"];
        assert_eq!(names(&of(&glazed, "parts")), [&at_the_saw[..], &["finish"]].concat());
        assert_eq!(names(&of(&glazed, "plan")), at_the_saw);
        assert_eq!(names(&of(&glazed, "fixings")), ["glass", "paper"]);
        assert_eq!(names(&of(&glazed, "movement")), ["dust", "dust.special", "movement"]);
        assert_eq!(names(&of(&glazed, "hang")), ["hanging"]);
        for page in ["parts", "plan", "fixings", "movement", "hang"] {
            let sheet = of(&glazed, SHEET);
            assert!(of(&glazed, page).iter().all(|caution| sheet.contains(caution)), "{page}");
        }
        let oval = designed(&[("art", "16 x 20 x 1"), ("shape", "oval")]);
        assert!(names(&of(&oval, "parts")).contains(&"router") && !names(&of(&oval, "plan")).contains(&"router"));
    }

    #[test]
    fn size_and_weight_bring_cautions() {
        let at = |fields: &[(&str, &str)], page: &str| {
            let design =
                designed(&[&[("build", "rabbeted"), ("art.kind", "paper"), ("glazing", "glass")], fields].concat());
            of(&design, page).into_iter().map(|caution| caution.name).collect::<Vec<_>>()
        };
        let small = [("art", "8 x 10 x 1/64")];
        let large = [("art", "30 x 40 x 1/64")];
        assert!(!at(&small, "parts").contains(&"glass.large".to_string()));
        assert!(at(&large, "parts").contains(&"glass.large".to_string()));
        assert!(
            at(&small, "parts").contains(&"short".to_string()) && !at(&large, "parts").contains(&"short".to_string())
        );
        assert_eq!(at(&small, "hang"), ["hanging"]);
        assert_eq!(at(&[("art", "60 x 60 x 1/64"), ("wall.centre", "90")], "hang"), ["lift", "ladder", "hanging"]);
    }

    #[test]
    fn a_table_of_parts_has_cautions_without_a_design() {
        let shop = Design::new(shipped(), Manner::default());
        let long = Real::whole(20);
        let pieces = [Cut { material: "Western Red Cedar", short: Some(&long) }, Cut { material: "mdf", short: None }];
        let found = cautions_for(&shop, &pieces, "plan");
        assert_eq!(names(&found), ["dust", "dust.special", "dust.special", "saws"]);
        assert!(found[2].short.contains("mdf holds formaldehyde"), "{}", found[2].short);
        assert!(cautions_for(&shop, &[], "plan").is_empty());
    }

    #[test]
    fn a_house_adds_a_caution_or_replaces_one() {
        let own = "for all
caution shed on parts for pieces of \"cherry\"
        says Cherry burns: move the feed along.
        full Cherry scorches where it stops in the cut.
        source house rule
instead caution saws on plan
        says Saws: ask first.
        full Ask before you use a saw.
        source house rule
";
        let book = Rules::from(read_book(&[SHIPPED, &[("own.rules", own)]].concat()).unwrap());
        let design = designed(&[("art", "16 x 20 x 1"), ("wood", "cherry")]).by(book);
        assert!(names(&of(&design, "parts")).contains(&"shed"));
        assert!(!names(&of(&design, "parts")).contains(&"saws"));
        assert_eq!(of(&design, "plan").last().unwrap().full, "Ask before you use a saw.");
    }
}
