//! Plays rows of truth against any book of rules.

use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet};

use benchrule::diag::{Diagnostic, codes};
use benchrule::measure::Graduation;
use benchrule::measure::write::Manner;
use benchrule::rules::book::{Book, Cell, Slot};
use benchrule::rules::{Datum, Design, Finding, Rules};
use benchrule::shop::{Part, Shape, parts};

use crate::arithmetic::Value;
use crate::row::{Row, meets};

/// What a figure is in a design.
pub enum Is {
    /// A number, or yes or no.
    Number(Value),
    /// A word.
    Word(String),
    /// Nothing, and why.
    Nothing(String),
}

impl Is {
    /// Whether it is what a row says.
    fn is(&self, text: &str) -> bool {
        match self {
            Self::Number(value) => meets(text, value),
            Self::Word(word) => word == text,
            Self::Nothing(_) => text == "nothing",
        }
    }
}

/// Rows with the same design, which is set once.
pub struct Case<'r> {
    /// The rows.
    pub rows: Vec<&'r Row>,
}

/// Rows by their design, in the order of the files.
pub fn cases(rows: &[Row]) -> Vec<Case<'_>> {
    let mut cases: Vec<Case> = Vec::new();
    let mut places: BTreeMap<&str, usize> = BTreeMap::new();
    for row in rows {
        let place = *places.entry(&row.design).or_insert_with(|| {
            cases.push(Case { rows: Vec::new() });
            cases.len() - 1
        });
        cases[place].rows.push(row);
    }
    cases
}

/// The design of a row, by any rules.
///
/// # Errors
/// A field cannot be set so.
pub fn design(row: &Row, rules: &Rules) -> Result<Design, String> {
    let (tape, fields) = row.fields();
    let graduation = match tape {
        Some(name) => Graduation::all().find(|one| one.name == name).ok_or(format!("there is no tape {name}"))?,
        None => Graduation::sixteenths(),
    };
    let mut design = Design::new(rules.clone(), Manner { graduation });
    for (name, text) in fields {
        set(&mut design, name, text)?;
    }
    Ok(design)
}

fn set(design: &mut Design, name: &str, text: &str) -> Result<(), String> {
    let mut sums = |text: &str| Err(Diagnostic::of(&codes::value::NOTATION, format!("no sums here: {text}")));
    let input = design.read_input(name, text, &mut sums).map_err(|found| format!("{name} {text}: {found:?}"))?;
    design.set(name, input).map_err(|refusal| format!("{name} {text}: {refusal:?}"))
}

/// What the subject of a row is, as drawn and as made: a figure, `check NAME`, `mend CHECK: FIELD`, `set FIELD: TEXT` (taken or
/// refused), `piece NAME: DETAIL`, `item LIST: PLACE`, `cell TABLE.COLUMN: WORD`.
fn answers(subject: &str, asked: &Asked) -> [Is; 2] {
    let design = &asked.design;
    if let Some(name) = subject.strip_prefix("check ") {
        let fires = asked.findings().iter().any(|finding| finding.name == name);
        return [fires, fires].map(|fires| Is::Number(exact(if fires { "1" } else { "0" })));
    }
    if let Some((name, field)) = subject.strip_prefix("mend ").and_then(|rest| rest.split_once(": ")) {
        return [(), ()].map(|()| mend(asked, name, field));
    }
    if let Some((name, text)) = subject.strip_prefix("set ").and_then(|rest| rest.split_once(": ")) {
        let answer = if set(&mut design.clone(), name, text).is_ok() { "taken" } else { "refused" };
        return [answer, answer].map(|word| Is::Word(word.into()));
    }
    if let Some((name, detail)) = subject.strip_prefix("piece ").and_then(|rest| rest.split_once(": ")) {
        let part = asked.parts().iter().find(|part| part.name == name);
        return [(), ()].map(|()| part.map_or(Is::Nothing("there is no such piece".into()), |one| of(one, detail)));
    }
    if let Some((list, place)) = subject.strip_prefix("item ").and_then(|rest| rest.split_once(": ")) {
        return item(design, list, place);
    }
    if let Some((column, word)) = subject.strip_prefix("cell ").and_then(|rest| rest.split_once(": ")) {
        return [(), ()].map(|()| cell(design, column, word));
    }
    let Some(slot) = design.book().slot(subject) else {
        return [(), ()].map(|()| Is::Nothing("there is no such figure".into()));
    };
    match design.known(slot) {
        Ok(known) => [&known.drawn, known.made()].map(datum),
        Err(why) => [(), ()].map(|()| Is::Nothing(format!("{why:?}"))),
    }
}

/// What a check would set a field to: `mend mitre.gapes: grain`.
fn mend(asked: &Asked, name: &str, field: &str) -> Is {
    let finding = asked.findings().iter().find(|finding| finding.name == name);
    let line = finding.and_then(|finding| finding.mend.clone());
    let Some(text) = line.as_deref().and_then(|line| line.strip_prefix(field)) else {
        return Is::Nothing(format!("{line:?}"));
    };
    let bare = text.trim().trim_end_matches(|letter: char| letter.is_alphabetic() || "\"°".contains(letter));
    match crate::arithmetic::printed(bare.trim()) {
        Some(number) => Is::Number(Value::Exact(number)),
        None => Is::Word(text.trim().into()),
    }
}

/// One of a list: `item screw.top.at: 2`.
fn item(design: &Design, list: &str, place: &str) -> [Is; 2] {
    let known = design.book().slot(list).and_then(|slot| design.known(slot).ok());
    let of = |all: &Datum| match (all, place.parse::<usize>()) {
        (Datum::List(all), Ok(place)) => all.get(place.wrapping_sub(1)).map(real),
        _ => None,
    };
    match known {
        Some(known) => [&known.drawn, known.made()]
            .map(|one| of(one).unwrap_or_else(|| Is::Nothing("there is no such item".into()))),
        None => [(), ()].map(|()| Is::Nothing("there is no such list".into())),
    }
}

/// What a column of a table holds for a word: `woods.density`, `ash`.
fn cell(design: &Design, column: &str, word: &str) -> Is {
    let found = column.split_once('.').and_then(|(table, name)| {
        let table = design.book().table(table)?;
        let row = table.words.iter().position(|one| one == word)?;
        table.column(name)?.cells.get(row)?.clone()
    });
    match found {
        Some(Cell::Amount(amount)) => real(&amount),
        Some(Cell::Word(word)) => Is::Word(word.to_string()),
        None => Is::Nothing("there is no such cell".into()),
    }
}

/// A detail of a piece.
fn of(part: &Part, detail: &str) -> Is {
    let size = match (&part.shape, detail) {
        (_, "count") => return Is::Number(exact(&part.quantity.to_string())),
        (_, "material") => return Is::Word(part.material.clone()),
        (Shape::Stick(stick), "long") => &stick.long,
        (Shape::Stick(stick), "short") => &stick.short,
        (Shape::Stick(stick), "mitre") => &stick.mitre,
        (Shape::Stick(stick), "tilt") => &stick.tilt,
        (Shape::Stick(stick), "width") => match &stick.section {
            Some((width, _)) => width,
            None => return Is::Nothing("it has no section".into()),
        },
        (Shape::Stick(stick), "thickness") => match &stick.section {
            Some((_, thickness)) => thickness,
            None => return Is::Nothing("it has no section".into()),
        },
        (Shape::Sheet(sheet), "width") => &sheet.width,
        (Shape::Sheet(sheet), "height") => &sheet.height,
        (Shape::Sheet(sheet), "thickness") => &sheet.thickness,
        _ => return Is::Nothing(format!("a piece has no {detail}")),
    };
    real(&size.amount)
}

fn datum(datum: &Datum) -> Is {
    match datum {
        Datum::Amount(amount) => real(amount),
        Datum::Word(word) => Is::Word(word.to_string()),
        Datum::Truth(truth) => Is::Word(if *truth { "yes" } else { "no" }.into()),
        Datum::List(list) => {
            let all: Vec<String> = list.iter().map(|one| one.to_text()).collect();
            Is::Word(all.join(", "))
        }
        Datum::Record(_) => Is::Nothing("a record is read by its parts".into()),
    }
}

fn real(amount: &benchrule::measure::Real) -> Is {
    match amount.to_big() {
        Some(exact) if !amount.is_approximate() => Is::Number(Value::Exact(exact)),
        _ => Is::Number(Value::Float(amount.to_f64())),
    }
}

fn exact(text: &str) -> Value {
    crate::arithmetic::printed(text).map_or(Value::Float(f64::NAN), Value::Exact)
}

/// A design, with what several rows ask of it worked out once.
struct Asked {
    design: Design,
    findings: OnceCell<Vec<Finding>>,
    parts: OnceCell<Vec<Part>>,
}

impl Asked {
    fn new(row: &Row, rules: &Rules) -> Result<Self, String> {
        Ok(Self { design: design(row, rules)?, findings: OnceCell::new(), parts: OnceCell::new() })
    }

    fn findings(&self) -> &[Finding] {
        self.findings.get_or_init(|| self.design.findings())
    }

    fn parts(&self) -> &[Part] {
        self.parts.get_or_init(|| parts(&self.design))
    }

    /// The names that read a figure, one by way of another, and the figure itself.
    fn readers(&self, slot: Slot) -> BTreeSet<&str> {
        let book = self.design.book();
        let readers = book.readers(self.design.build());
        let (mut all, mut open) = (BTreeSet::from([slot]), vec![slot]);
        while let Some(one) = open.pop() {
            open.extend(readers[usize::from(one)].iter().copied().filter(|reader| all.insert(*reader)));
        }
        all.into_iter().map(|slot| book.name(slot).text.as_str()).collect()
    }
}

/// Why a row does not hold; nothing where it does.
fn fails(row: &Row, asked: &Asked) -> Option<String> {
    let is = answers(&row.subject, asked);
    let (is, expected) = is.iter().zip(&row.expected).find(|(is, expected)| !is.is(expected))?;
    let is = match is {
        Is::Number(value) => format!("{} ({value:?})", value.float()),
        Is::Word(word) => word.clone(),
        Is::Nothing(why) => format!("nothing: {why}"),
    };
    Some(format!("{}: {} is {is}, not {expected}", row.place, row.subject))
}

/// All rows that do not hold under these rules.
pub fn failures(rows: &[Row], rules: &Rules) -> Vec<String> {
    let each = |case: &Case| match Asked::new(case.rows[0], rules) {
        Ok(asked) => case.rows.iter().filter_map(|row| fails(row, &asked)).collect(),
        Err(why) => vec![format!("{}: {why}", case.rows[0].place)],
    };
    cases(rows).iter().flat_map(each).collect()
}

/// Whether a row fails under changed rules. Rows about the subject are asked first, and of the others those alone that what
/// was changed can reach.
pub fn is_noticed(cases: &[Case], subject: &str, book: Book) -> bool {
    let slot = book.slot(subject);
    let rules = Rules::from(book);
    let is_about = |case: &&Case| case.rows.iter().any(|row| row.subject.starts_with(subject));
    let (about, others): (Vec<&Case>, Vec<&Case>) = cases.iter().partition(is_about);
    about.into_iter().chain(others).any(|case| {
        let Ok(asked) = Asked::new(case.rows[0], &rules) else { return true };
        let readers = slot.map(|slot| asked.readers(slot));
        let is_reached = |row: &&&Row| match &readers {
            // What is not a figure may read any.
            Some(readers) => row.subject.contains(' ') || readers.contains(row.subject.as_str()),
            None => !subject.starts_with("check ") || row.subject.contains(' '),
        };
        case.rows.iter().filter(is_reached).any(|row| fails(row, &asked).is_some())
    })
}
