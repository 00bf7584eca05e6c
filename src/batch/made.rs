//! One row made into a design, and all that is written about it.

use super::facts::{Failed, Frame, Framed};
use super::journal::Done;
use super::row::{Cell, Row, STYLE, State};
use super::summary::{SummaryLine, line};
use crate::book::{Draft, Mark, text};
use crate::diag::{Diagnostic, Fix, codes, list, numbers, says};
use crate::fact::fact;
use crate::measure::Manner;
use crate::rules::{BUILD, Design, FIGURE, Finding, Level, Way};
use crate::session::{self, Framer};
use crate::shop::{Caution, Part, cautions, parts};
use crate::show::fact::json::{Manners, Reply};
use crate::show::{Memo, answer, spoken};
use std::collections::BTreeMap;

/// A style cell that says so takes no style, whatever the run asks for.
const NONE: &str = "none";
/// How wide a page is that is written to a file.
pub const COLUMNS: usize = 80;
/// So many bytes an object takes, about.
const OBJECT: usize = 24 << 10;
/// What a thread frames works with.
pub(super) struct Hand {
    pub(super) framer: Framer,
    pub(super) memo: Memo,
}

/// What is wanted of every row.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Wants {
    /// The JSON object of its design.
    pub json: bool,
    /// The same of rows that were done before.
    pub json_again: bool,
    /// Its sheet.
    pub sheet: bool,
    /// Its lines of the tables of the run.
    pub tables: bool,
    /// Its design, for the book.
    pub draft: bool,
    /// The text of its fields, by which it is made again without its style.
    pub fields: bool,
}

/// What came of a row.
#[derive(Debug)]
pub struct Made {
    /// The number of the row.
    pub number: u64,
    /// What the design is called.
    pub name: String,
    /// How it came out.
    pub state: State,
    /// What is wrong with the row.
    pub found: Vec<Diagnostic>,
    /// Its JSON object with a line end, if wanted.
    pub json: Vec<u8>,
    /// Its sheet, if wanted.
    pub sheet: String,
    /// Its line of the summary.
    pub line: SummaryLine,
    /// Its pieces, if wanted.
    pub parts: Vec<Part>,
    /// The cautions for cutting them.
    pub cautions: Vec<Caution>,
    /// The design as the book keeps it, if wanted.
    pub draft: Option<Draft>,
    /// Its fields as text, if wanted.
    pub fields: String,
    /// The mark of the row.
    pub mark: u64,
    /// The style that framed it.
    pub style: String,
    /// The mark of all texts that this style hangs on; empty unless the fields are wanted.
    pub style_version: String,
}

impl Made {
    /// The row as it is noted in the journal, its files under the name `file`.
    pub fn done(&self, file: &str, kept: bool) -> Done {
        Done {
            row: self.number,
            mark: format!("{:016x}", self.mark),
            file: file.into(),
            style: self.style.clone(),
            version: self.style_version.clone(),
            kept,
            fields: self.fields.clone(),
        }
    }
}

/// Makes the design of a row; `source` is what the table is called, `usual` the style of rows that name none.
pub(super) fn make(row: &Row, hand: &mut Hand, source: &str, usual: &str, wants: Wants) -> Made {
    let framer = &mut hand.framer;
    match design(row, framer, usual) {
        Ok(framed) => reported(row, &framed, hand, source, wants),
        Err(found) => failed(row, found, source, wants),
    }
}

/// A row whose design was made before, from the text of its fields; the house judges it anew. None where
/// the rules do not take all of that text.
pub(super) fn remake(row: &Row, hand: &mut Hand, done: &Done, source: &str, wants: Wants) -> Option<Made> {
    let build = text::value(&done.fields, BUILD).unwrap_or_default();
    let (design, left_out) = text::design(&done.fields, hand.framer.blank(build).ok()?);
    if !left_out.is_empty() {
        return None;
    }
    let mark = Mark { name: done.style.clone(), version: done.version.clone() };
    let mut framed = session::Framed { design: design.into(), style: Some(mark).filter(|mark| !mark.name.is_empty()) };
    hand.framer.judge(&mut framed);
    Some(reported(row, &framed, hand, source, wants))
}

/// The style that a row is framed by; empty for none.
pub(super) fn style_of<'a>(row: &'a Row, usual: &'a str) -> &'a str {
    match row.cell(STYLE) {
        Some(cell) if cell.text == NONE => "",
        Some(cell) => &cell.text,
        None => usual,
    }
}

fn design(row: &Row, framer: &mut Framer, usual: &str) -> Result<session::Framed, Vec<Diagnostic>> {
    let (style, cells) = (style_of(row, usual), row.cells.as_slice());
    let build = row.cell(BUILD).filter(|_| style.is_empty());
    let blank = framer.blank(build.map_or("", |cell| &cell.text));
    let mut work = blank.map_err(|found| vec![build.map_or(found.clone(), |cell| cell.placed(found))])?;
    let mut asks = BTreeMap::new();
    // Of a row with faults the other cells are read too: all that is wrong with it is reported at once.
    let mut found = row.faults.clone();
    let (own, given): (Vec<&Cell>, Vec<&Cell>) = cells.iter().partition(|cell| cell.key.starts_with(FIGURE));
    let is_set = |cell: &&Cell| &*cell.key != STYLE && (&*cell.key != BUILD || !style.is_empty());
    let given: Vec<&Cell> = given.into_iter().filter(is_set).collect();
    for cell in wholes_first(&given, &work) {
        if style.is_empty() || framer.book().is_of_the_work(&cell.key) {
            let set = twice(&work, cell, &given).map_or_else(|| set(&mut work, cell, framer), Err);
            found.extend(set.err());
        } else {
            asks.insert(cell.key.to_string(), cell.text.clone());
        }
    }
    if !found.is_empty() {
        found.sort_by_key(|one| one.span.as_ref().map(|span| span.start));
        return Err(found);
    }
    let mut framed = if style.is_empty() {
        session::Framed { design: work.into(), style: None }
    } else {
        framer
            .framed(style, &work, &asks)
            .map_err(|found| found.into_iter().map(|one| at_cell(one, cells)).collect::<Vec<_>>())?
    };
    for cell in own {
        let name = cell.key.trim_start_matches(FIGURE);
        let with_figure = framed.design.with_figure(name, &cell.text);
        framed.design = with_figure.map_err(|found| vec![cell.placed(found)])?.into();
    }
    // With a figure of its own it is another design, which the house has not judged yet.
    framer.judge(&mut framed);
    whole(&framed.design)?;
    Ok(framed)
}

/// The cells of a row, those of a name that gathers others before the cells of its parts: `reveal` sets all sides, and
/// `reveal.bottom` then one of them, in whatever order their columns stand.
fn wholes_first<'a>(cells: &[&'a Cell], design: &Design) -> Vec<&'a Cell> {
    let is_whole = |cell: &&Cell| cells.iter().any(|part| gathers(design, &cell.key, &part.key).is_some());
    let (wholes, others): (Vec<&Cell>, Vec<&Cell>) = cells.iter().partition(|cell| is_whole(cell));
    wholes.into_iter().chain(others).collect()
}

/// How a name gathers another, if it does.
fn gathers(design: &Design, whole: &str, part: &str) -> Option<Way> {
    let (rule, part) = (design.rule(design.slot(whole).ok()?)?, design.slot(part).ok()?);
    rule.gather.filter(|_| rule.reads.contains(&part))
}

/// The finding about a cell whose value another cell of the row gives already: a size has its width.
fn twice(design: &Design, cell: &Cell, cells: &[&Cell]) -> Option<Diagnostic> {
    let is_whole = |other: &&&Cell| gathers(design, &other.key, &cell.key).is_some_and(|way| way != Way::Around);
    let whole = cells.iter().find(is_whole)?;
    design.given(design.slot(&cell.key).ok()?)?;
    let message = format!("{} is set twice in this row: here, and as a part of {}", cell.key, whole.key);
    Some(Diagnostic::of(&codes::batch::ROW, message).at(cell.span.clone()))
}

/// Sets the field of a cell.
fn set(design: &mut Design, cell: &Cell, framer: &Framer) -> Result<(), Diagnostic> {
    if !framer.is_field(&cell.key) {
        let message = format!("{} is what a style asks for, and this row has none", cell.key);
        return Err(Diagnostic::of(&codes::batch::ROW, message).at(cell.span.clone()));
    }
    let mut plain = |text: &str| {
        Err(Diagnostic::of(&codes::batch::ROW, format!("{text} is not a value; a cell takes a value, not a sum")))
    };
    let input = match design.read_input(&cell.key, &cell.text, &mut plain) {
        Ok(input) => input,
        Err(found) => return Err(cell.placed(with_cell(found, design, cell))),
    };
    design.set(&cell.key, input).map_err(|refusal| {
        let found = with_cell(Diagnostic::from(refusal), design, cell);
        found.at(cell.span.clone())
    })
}

/// A finding about a cell, with texts that work there: those that it offers, if they have the numbers of the cell and can
/// be read. Where it offers none, the form is in the message: no other work was measured so.
fn with_cell(found: Diagnostic, design: &Design, cell: &Cell) -> Diagnostic {
    let mut plain = |text: &str| Err(Diagnostic::of(&codes::batch::ROW, text));
    let mut reads = |text: &str| design.read_input(&cell.key, text.trim(), &mut plain).is_ok();
    let lines = found.fixed(&cell.text).into_iter();
    let offered = lines.map(|line| line.strip_prefix(&format!("{} ", cell.key)).unwrap_or(&line).to_string());
    let offered: Vec<String> = offered.filter(|text| numbers(text) == numbers(&cell.text) && reads(text)).collect();
    let choices = found.fixes.iter().find(|fix| matches!(fix, Fix::Choices(_))).cloned();
    if !offered.is_empty() || choices.is_some() {
        return choices.into_iter().fold(found.only(offered), Diagnostic::fix);
    }
    let form = design.slot(&cell.key).ok().map(|slot| design.example(slot));
    match form.as_deref().and_then(|line| line.split_once(' ')) {
        Some((name, form)) => {
            let says = found.says.clone().and(format!("; {name} is written as in {form}"));
            Diagnostic { says, fixes: Vec::new(), ..found }
        }
        None => found.only(None),
    }
}

/// A finding about a style, at the cell that it names, or else at that of the style.
fn at_cell(found: Diagnostic, cells: &[Cell]) -> Diagnostic {
    if found.source.is_some() {
        return found;
    }
    let named = cells.iter().find(|cell| found.name.as_deref() == Some(&*cell.key));
    match named.or_else(|| cells.iter().find(|cell| &*cell.key == STYLE)) {
        Some(cell) => found.at(cell.span.clone()),
        None => found,
    }
}

/// Refuses a design with fields missing: its parts would be missing at the saw.
fn whole(design: &Design) -> Result<(), Vec<Diagnostic>> {
    let missing = design.missing();
    if missing.is_empty() {
        return Ok(());
    }
    let names: Vec<&str> = missing.iter().map(|slot| design.book().name(*slot).text.as_str()).collect();
    let verb = if names.len() == 1 { "is" } else { "are" };
    let message = format!("{} {verb} not set", list(&names, "and"));
    Err(vec![Diagnostic::of(&codes::batch::ROW, message)])
}

/// All that is wanted of a design.
fn reported(row: &Row, framed: &session::Framed, hand: &Hand, source: &str, wants: Wants) -> Made {
    let design = &framed.design;
    design.work_out();
    let style = framed.style.as_ref().map_or("", |mark| mark.name.as_str());
    let findings = design.findings();
    let stops: Vec<&Finding> = findings.iter().filter(|finding| finding.level == Level::Stop).collect();
    let stopped = !stops.is_empty();
    let state = if stopped { State::Stopped } else { State::Made };
    let name = row.called();
    let pieces = if wants.json || wants.tables { parts(design) } else { Vec::new() };
    let mut json = Vec::new();
    if wants.json {
        json.reserve(OBJECT);
        let frame = Frame { row: row.number, style, design, findings: &findings, parts: &pieces };
        let manners = Manners { manner: design.manner(), memo: Some(&hand.memo) };
        let object = Reply { fact: &*fact::<Framed>(frame), printed: &[], manners };
        // Writing to memory does not fail.
        let _ = serde_json::to_writer(&mut json, &object).map(|()| json.push(b'\n'));
    }
    let sheet = if wants.sheet {
        answer::sheet(design, Some(style).filter(|style| !style.is_empty())).render(COLUMNS, false)
    } else {
        String::new()
    };
    // What stops a design is reported like a fault of the row; the line that mends it sets a field.
    let found = stops.iter().map(|finding| {
        let says = finding.says.clone().within(says!("{} cannot be built as specified", name));
        let found = Diagnostic::of(&codes::batch::ROW, says).only(finding.mend.clone());
        placed(row, found, source)
    });
    let found = found.collect();
    let is_cut = wants.tables && !stopped;
    let line = line(row.number, &name, style, design, state, &findings);
    Made {
        number: row.number,
        state,
        found,
        json,
        sheet,
        line,
        cautions: if is_cut { cautions(design, &pieces, "plan") } else { Vec::new() },
        parts: if is_cut { pieces } else { Vec::new() },
        draft: wants.draft.then(|| framed.draft()),
        fields: if wants.fields { text::fields(design) } else { String::new() },
        mark: row.mark(),
        style: style.into(),
        // A style that framed it is there, unless it went this very moment.
        style_version: if wants.fields { hand.framer.style_mark(style).unwrap_or_default() } else { String::new() },
        name,
    }
}

/// A finding with its place in the table.
fn placed(row: &Row, found: Diagnostic, source: &str) -> Diagnostic {
    match &found.source {
        // A fault inside a style has its place there; the row is named before it.
        Some(_) => found.within(says!("{}, line {}", source, row.line)),
        None => {
            let span = found.span.clone().unwrap_or(0..row.text.len());
            found.at(span).inside_from(source, row.text.clone(), row.line)
        }
    }
}

/// A row without a design.
pub(super) fn failed(row: &Row, found: Vec<Diagnostic>, source: &str, wants: Wants) -> Made {
    let found: Vec<Diagnostic> = found.into_iter().map(|one| placed(row, one, source)).collect();
    let name = row.called();
    let mut json = Vec::new();
    if wants.json {
        let manners = Manners { manner: &Manner::default(), memo: None };
        let object = Reply { fact: &*fact::<Failed>((row, &found)), printed: &[], manners };
        // Writing to memory does not fail.
        let _ = serde_json::to_writer(&mut json, &object).map(|()| json.push(b'\n'));
    }
    let said = found.iter().map(|one| spoken(&one.says)).collect::<Vec<_>>().join("; ");
    let line = SummaryLine::failed(row.number, &name, said, row.line);
    Made {
        number: row.number,
        name,
        state: State::Failed,
        found,
        json,
        sheet: String::new(),
        line,
        parts: Vec::new(),
        cautions: Vec::new(),
        draft: None,
        fields: String::new(),
        mark: row.mark(),
        style: String::new(),
        style_version: String::new(),
    }
}
