//! Pieces, cautions and lines of labels, as a rules file has them.

use pest::iterators::Pair;

use super::{RECORDS, Reader, Rule, next_placed, number, only, placed, placed_word, put_record, says, span, term};
use crate::diag::Diagnostic;
use crate::rules::term::{
    AboutEntry, Body, CautionEntry, LabelEntry, MaterialEntry, Piece, PieceEntry, Pieces, Placed, Term,
};

impl Reader {
    /// A piece; one with a `#` in its name is written once for several records.
    pub(super) fn piece(&mut self, pair: Pair<Rule>, instead: bool) -> Result<(), Diagnostic> {
        let place = span(&pair);
        let entry = piece(pair)?;
        if !entry.name.0.contains('#') {
            self.push(place, instead, Body::Piece(entry));
            return Ok(());
        }
        for record in 1..=RECORDS {
            let each = |term: &Term| put_record(term, record);
            let of_record = PieceEntry {
                name: (number(&entry.name.0, record), entry.name.1.clone()),
                details: entry.details.iter().map(|(name, value)| (name.clone(), each(value))).collect(),
                when: entry.when.as_ref().map(each),
                ..entry.clone()
            };
            self.push(place.clone(), instead, Body::Piece(of_record));
        }
        Ok(())
    }
}

fn piece(pair: Pair<Rule>) -> Result<PieceEntry, Diagnostic> {
    let mut entry =
        PieceEntry { name: Placed::default(), is_sheet: false, details: Vec::new(), when: None, doc: String::new() };
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::word => entry.name = placed_word(part),
            Rule::shape => entry.is_sheet = part.as_str() == "sheet",
            Rule::when => entry.when = only(part)?,
            Rule::detail => {
                let mut inner = part.into_inner();
                let name = next_placed(&mut inner);
                if let Some(value) = inner.next() {
                    entry.details.push((name, term(value)?));
                }
            }
            Rule::doc => entry.doc = super::doc(part),
            _ => {}
        }
    }
    Ok(entry)
}

/// A caution as an entry.
pub(super) fn caution(pair: Pair<Rule>) -> Result<Body, Diagnostic> {
    let mut entry = CautionEntry {
        name: Placed::default(),
        pages: Vec::new(),
        about: None,
        when: None,
        says: Vec::new(),
        full: Vec::new(),
        source: String::new(),
    };
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::name => entry.name = placed(part),
            Rule::pages => entry.pages = part.into_inner().map(placed).collect(),
            Rule::about => entry.about = Some(about(part)?),
            Rule::condition => entry.when = only(part)?,
            Rule::says => entry.says = says(part)?,
            Rule::full => entry.full = says(part)?,
            Rule::cites => {
                let words = says(part)?.into_iter().filter_map(|piece| match piece {
                    Piece::Words(words) => Some(words),
                    Piece::Value(_) => None,
                });
                entry.source = words.collect();
            }
            _ => {}
        }
    }
    Ok(Body::Caution(entry))
}

fn about(pair: Pair<Rule>) -> Result<AboutEntry, Diagnostic> {
    let mut about = AboutEntry { shape: Pieces::All, of: None, or: Vec::new(), under: None };
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::kind_of_piece => {
                about.shape = match part.as_str() {
                    "sticks" => Pieces::Sticks,
                    "sheets" => Pieces::Sheets,
                    _ => Pieces::All,
                }
            }
            Rule::of_word => about.of = part.into_inner().next().map(placed_word).map(MaterialEntry::Word),
            Rule::of_table => about.of = Some(MaterialEntry::Table(next_placed(&mut part.into_inner()))),
            Rule::with => about.of = Some(MaterialEntry::Column(next_placed(&mut part.into_inner()))),
            Rule::or => about.or = part.into_inner().flat_map(Pair::into_inner).map(placed).collect(),
            Rule::under => about.under = only(part)?,
            _ => {}
        }
    }
    Ok(about)
}

/// A line of a label as an entry.
pub(super) fn label(pair: Pair<Rule>) -> Body {
    let mut entry = LabelEntry { word: Placed::default(), pages: Vec::new(), names: Vec::new() };
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::word => entry.word = placed_word(part),
            Rule::pages => entry.pages = part.into_inner().map(placed).collect(),
            Rule::name => entry.names.push(placed(part)),
            _ => {}
        }
    }
    Body::Label(entry)
}
