//! Text of a rules file → entries.

// The grammar decides which of its many rules can come where; the rest of each match is never reached.
#![allow(clippy::wildcard_enum_match_arm)]

mod pieces;

use pest::Parser;
use pest::iterators::{Pair, Pairs};

use super::term::{
    Body, CheckEntry, Entry, Form, GatherEntry, Level, OPS, Op, Piece, Placed, RuleEntry, Takes, Term, Way,
};
use crate::diag::{Diagnostic, Span, codes, list};
use crate::measure::{Toward, read};

/// The parser that the grammar of rules files becomes; a module of its own, since what is derived has no docs.
mod grammar {
    #![allow(missing_docs)]

    #[derive(pest_derive::Parser)]
    #[grammar = "../grammar/rules.pest"]
    pub struct RulesParser;
}

use grammar::{Rule, RulesParser};

/// The longest formula, in bytes.
const LONGEST_FORMULA: usize = 2000;

/// How many records an entry with a `#` in its name is written for.
const RECORDS: u8 = 3;

/// Reads a rules file called `name`.
///
/// # Errors
/// The first place that is not an entry, with file, line and column.
pub fn read_sheet(name: &str, text: &str) -> Result<Vec<Entry>, Diagnostic> {
    let inside = |finding: Diagnostic| finding.inside(name, text);
    let sheet = RulesParser::parse(Rule::sheet, text)
        .map_err(|error| inside(no_entry(text, &error)))?
        .next()
        .ok_or_else(|| Diagnostic::of(&codes::rules::SYNTAX, "an empty rules file"))?;
    let mut reader = Reader { scope: Vec::new(), group: String::new(), source: String::new(), entries: Vec::new() };
    for pair in sheet.into_inner() {
        reader.thing(pair).map_err(inside)?;
    }
    Ok(reader.entries)
}

/// Reads an expression by itself.
///
/// # Errors
/// The place where it stops being one.
pub(super) fn read_alone(text: &str) -> Result<Term, Diagnostic> {
    let mut parsed = RulesParser::parse(Rule::alone, text).map_err(|error| no_value(text, &error))?;
    parsed.next().map(term).unwrap_or_else(|| Err(Diagnostic::of(&codes::rules::SYNTAX, "a condition is missing")))
}

/// How each entry is written, by its first word.
const ENTRIES: &[(&str, &str)] = &[
    ("build", "build NAME -- TEXT"),
    ("for", "for BUILD, BUILD"),
    ("group", "group \"HEADING\""),
    ("source", "source \"WHERE THE DEFAULTS THAT FOLLOW ARE PUBLISHED\""),
    ("table", "table NAME: \"WORD\", \"WORD\", or table NAME from \"FILE\""),
    ("field", "field NAME KIND = DEFAULT"),
    ("around", "around NAME = FIELD, FIELD, FIELD, FIELD"),
    ("size", "size NAME = FIELD, FIELD, FIELD"),
    ("with", "with NAME = FIELD, FIELD"),
    ("row", "row NAME = FIELD, FIELD"),
    ("either", "either NAME = FORMULA or NAME = FORMULA else NAME = VALUE, a line each"),
    ("instead", "instead field …, instead NAME = FORMULA, or instead before a check"),
    ("page", "page NAME -- TEXT"),
    (
        "piece",
        "piece \"NAME\" stick material WOOD width WIDTH thickness THICKNESS long LENGTH, or a sheet with a height",
    ),
    ("caution", "caution NAME on PAGE says TEXT, full TEXT, source TEXT, a line each"),
    ("label", "label \"WORD\" on PAGE = NAME x NAME"),
    ("stop", "stop NAME if CONDITION says TEXT"),
    ("warn", "warn NAME if CONDITION says TEXT"),
    ("note", "note NAME if CONDITION says TEXT"),
];

/// What a grammar rule is called where it could have stood.
fn called(rule: Rule) -> Option<&'static str> {
    Some(match rule {
        Rule::sign | Rule::paren | Rule::choice | Rule::this | Rule::literal | Rule::expr | Rule::named | Rule::of => {
            "a value"
        }
        Rule::op => "a sign",
        Rule::name | Rule::names | Rule::ident => "a name",
        Rule::word => "a word in quotes",
        Rule::kind => "a kind such as length, or its words",
        Rule::says => "says",
        Rule::full => "full",
        Rule::cites => "source",
        Rule::shape => "stick or sheet",
        Rule::detail => "a detail such as material or long",
        Rule::about => "for sticks, for sheets or for pieces",
        Rule::pages => "a page",
        Rule::mend => "mend NAME = VALUE",
        Rule::doc => "-- and its meaning",
        Rule::toward | Rule::unless | Rule::optional | Rule::by | Rule::above | Rule::when => {
            "a clause such as up, above or when"
        }
        Rule::EOI => "the next entry",
        _ => return None,
    })
}

fn no_entry(text: &str, error: &pest::error::Error<Rule>) -> Diagnostic {
    use pest::error::{ErrorVariant, InputLocation};
    let at = match error.location {
        InputLocation::Pos(at) | InputLocation::Span((at, _)) => at,
    };
    let rest = text.get(at..).unwrap_or_default().lines().next().unwrap_or_default();
    let ErrorVariant::ParsingError { positives, .. } = &error.variant else {
        return Diagnostic::of(&codes::rules::SYNTAX, "the brackets go too deep here").at(at..at + rest.len());
    };
    if at == 0 || text.get(..at).is_some_and(|before| before.ends_with('\n')) {
        let first = rest.split_whitespace().next().unwrap_or_default();
        let message = match ENTRIES.iter().find(|(word, _)| *word == first) {
            Some((word, form)) => format!("this {word} cannot be read; it is written: {form}"),
            None if rest.starts_with([' ', '\t']) => {
                "an indented line continues an entry, but there is no entry before it".into()
            }
            None => "this is not a rule: an entry starts with a word such as field, for or stop, or is NAME = FORMULA"
                .into(),
        };
        return Diagnostic::of(&codes::rules::SYNTAX, message).at(at..at + rest.len());
    }
    let message = if positives.as_slice() == [Rule::op] {
        "something is not closed here: a bracket, or a choice without its else".to_string()
    } else {
        may_stand(positives)
    };
    Diagnostic::of(&codes::rules::SYNTAX, message).at(at..at + rest.len())
}

fn no_value(text: &str, error: &pest::error::Error<Rule>) -> Diagnostic {
    use pest::error::{ErrorVariant, InputLocation};
    let at = match error.location {
        InputLocation::Pos(at) | InputLocation::Span((at, _)) => at,
    };
    let message = match &error.variant {
        ErrorVariant::ParsingError { positives, .. } => {
            // Here the end of the text is not followed by another entry.
            let here: Vec<Rule> = positives.iter().copied().filter(|rule| *rule != Rule::EOI).collect();
            may_stand(&here)
        }
        ErrorVariant::CustomError { .. } => "the brackets go too deep here".into(),
    };
    Diagnostic::of(&codes::rules::SYNTAX, message).at(at..text.len())
}

fn may_stand(positives: &[Rule]) -> String {
    let mut names: Vec<&str> = Vec::new();
    for name in positives.iter().filter_map(|rule| called(*rule)) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    format!("this cannot be read; possible here: {}", list(&names, "or"))
}

struct Reader {
    scope: Vec<Placed>,
    group: String,
    /// Where the amounts of defaults are published.
    source: String,
    entries: Vec<Entry>,
}

fn span(pair: &Pair<Rule>) -> Span {
    pair.as_span().start()..pair.as_span().end()
}

fn text(pair: Pair<Rule>) -> String {
    pair.as_str().to_string()
}

/// The text with its place.
fn placed(pair: Pair<Rule>) -> Placed {
    (pair.as_str().to_string(), span(&pair))
}

/// The text of the next part with its place; the grammar has it there.
fn next_placed(parts: &mut Pairs<Rule>) -> Placed {
    parts.next().map(placed).unwrap_or_default()
}

/// The text behind the dashes.
fn doc(pair: Pair<Rule>) -> String {
    pair.into_inner().next().map(|line| line.as_str().trim_end().to_string()).unwrap_or_default()
}

fn placed_word(pair: Pair<Rule>) -> Placed {
    let place = span(&pair);
    (word(pair), place)
}

/// The words of a quoted word.
fn word(pair: Pair<Rule>) -> String {
    pair.into_inner().next().map(text).unwrap_or_default()
}

impl Reader {
    fn thing(&mut self, pair: Pair<Rule>) -> Result<(), Diagnostic> {
        let place = span(&pair);
        match pair.as_rule() {
            Rule::build | Rule::page => {
                let is_page = pair.as_rule() == Rule::page;
                let mut parts = pair.into_inner();
                let name = next_placed(&mut parts);
                let doc = parts.next().map(doc).unwrap_or_default();
                self.push(place, false, if is_page { Body::Page(name, doc) } else { Body::Build(name, doc) });
            }
            Rule::scope => {
                self.scope = pair.into_inner().map(placed).filter(|(name, _)| name != "all").collect();
                self.push(place, false, Body::Scope);
            }
            Rule::group => {
                let mut parts = pair.into_inner();
                self.group = parts.next().map(word).unwrap_or_default();
                let page = parts.next().map(placed);
                self.push(place, false, Body::Group(page));
            }
            Rule::source => self.source = pair.into_inner().next().map(word).unwrap_or_default(),
            Rule::table => {
                let mut parts = pair.into_inner();
                let name = next_placed(&mut parts);
                let rows = parts.filter(|part| part.as_rule() == Rule::word).map(placed_word).collect();
                self.push(place, false, Body::Table(name, rows));
            }
            Rule::data => {
                let mut parts = pair.into_inner();
                let name = next_placed(&mut parts);
                let file = parts.next().map(placed_word).unwrap_or_default();
                let doc = parts.next().map(doc).unwrap_or_default();
                self.push(place, false, Body::Data(name, file, doc));
            }
            Rule::instead => {
                for inner in pair.into_inner() {
                    match inner.as_rule() {
                        Rule::check => {
                            let body = Body::Check(check(inner)?);
                            self.push(place.clone(), true, body);
                        }
                        Rule::piece => self.piece(inner, true)?,
                        Rule::caution => self.push(place.clone(), true, pieces::caution(inner)?),
                        Rule::label => self.push(place.clone(), true, pieces::label(inner)),
                        _ => self.rule(inner, true)?,
                    }
                }
            }
            Rule::field | Rule::figure => self.rule(pair, false)?,
            Rule::either => self.either(pair)?,
            Rule::gather => self.gather(pair),
            Rule::check => {
                let body = Body::Check(check(pair)?);
                self.push(place, false, body);
            }
            Rule::piece => self.piece(pair, false)?,
            Rule::caution => self.push(place, false, pieces::caution(pair)?),
            Rule::label => self.push(place, false, pieces::label(pair)),
            _ => {}
        }
        Ok(())
    }

    fn push(&mut self, span: Span, instead: bool, body: Body) {
        self.entries.push(Entry { span, scope: self.scope.clone(), group: self.group.clone(), instead, body });
    }

    fn rule(&mut self, pair: Pair<Rule>, instead: bool) -> Result<(), Diagnostic> {
        let place = span(&pair);
        let mut entry = rule(pair)?;
        if entry.source.is_empty() && has_own_default(&entry) {
            entry.source.clone_from(&self.source);
        }
        if entry.names.iter().any(|(name, _)| name.contains('#')) {
            for record in 1..=RECORDS {
                self.push(place.clone(), instead, Body::Rule(Box::new(for_record(&entry, record))));
            }
        } else {
            self.push(place, instead, Body::Rule(Box::new(entry)));
        }
        Ok(())
    }

    /// `either a = … or b = … else b = …`: each may be given; given neither, b takes the last value and a follows.
    fn either(&mut self, pair: Pair<Rule>) -> Result<(), Diagnostic> {
        let place = span(&pair);
        let mut parts = pair.into_inner();
        let (Some(one), Some(other), Some(_name), Some(default)) =
            (parts.next(), parts.next(), parts.next(), parts.next())
        else {
            return Ok(());
        };
        let mut one = rule(one)?;
        let mut other = rule(other)?;
        one.given = true;
        other.given = true;
        let one_name = one.names.first().map(|(name, _)| name.clone()).unwrap_or_default();
        let default = term(default)?;
        let given = Term {
            span: default.span.clone(),
            form: Form::Call("given".into(), vec![Term { span: default.span.clone(), form: Form::Name(one_name) }]),
        };
        other.value = other.value.take().map(|value| Term {
            span: value.span.clone(),
            form: Form::Choice(Box::new(given), Box::new(value), Box::new(default)),
        });
        self.push(place.clone(), false, Body::Rule(Box::new(one)));
        self.push(place, false, Body::Rule(Box::new(other)));
        Ok(())
    }

    fn gather(&mut self, pair: Pair<Rule>) {
        let place = span(&pair);
        let mut parts = pair.into_inner();
        let way = match parts.next().map(text).as_deref() {
            Some("size") => Way::Size,
            Some("with") => Way::With,
            Some("row") => Way::Row,
            _ => Way::Around,
        };
        let name = next_placed(&mut parts);
        let names = parts.next().map(|names| names.into_inner().map(placed).collect()).unwrap_or_default();
        let doc = parts.next().map(doc).unwrap_or_default();
        self.push(place, false, Body::Gather(GatherEntry { way, name, parts: names, doc }));
    }
}

/// Whether a field has a default with an amount in it that somebody chose: more than a count, or the value of another.
fn has_own_default(entry: &RuleEntry) -> bool {
    let counts = matches!(&entry.takes, Some(Takes::Plain(kind)) if kind == "whole");
    let value = entry.value.as_ref().filter(|value| !(counts && matches!(value.form, Form::Literal(_))));
    entry.takes.is_some() && value.is_some_and(has_amount)
}

/// Whether an amount other than nothing is written out in a term.
fn has_amount(term: &Term) -> bool {
    match &term.form {
        Form::Literal(quantity) => !quantity.amount.is_exact_zero(),
        Form::Negative(of) | Form::Not(of) | Form::Of(_, of) => has_amount(of),
        Form::Pair(_, one, other) => has_amount(one) || has_amount(other),
        Form::Choice(test, one, other) => [test, one, other].into_iter().any(|part| has_amount(part)),
        Form::Call(_, args) => args.iter().any(has_amount),
        Form::Word(_) | Form::Name(_) | Form::This => false,
    }
}

fn rule(pair: Pair<Rule>) -> Result<RuleEntry, Diagnostic> {
    let is_field = pair.as_rule() == Rule::field;
    let mut entry = RuleEntry {
        names: Vec::new(),
        takes: None,
        value: None,
        toward: None,
        when: None,
        given: is_field,
        optional: None,
        aside: false,
        by: None,
        low: None,
        high: None,
        source: String::new(),
        doc: String::new(),
    };
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::names => {
                entry.names = part.into_inner().map(placed).collect();
            }
            Rule::kind => entry.takes = part.into_inner().next().map(takes),
            Rule::expr => entry.value = Some(term(part)?),
            Rule::toward => entry.toward = Some((toward(part.as_str()), span(&part))),
            Rule::unless => entry.given = true,
            Rule::optional => entry.optional = Some(span(&part)),
            Rule::aside => entry.aside = true,
            Rule::by => entry.by = part.into_inner().next().map(placed),
            Rule::above => entry.low = only(part)?.map(|low| (low, true)),
            Rule::at_least => entry.low = only(part)?.map(|low| (low, false)),
            Rule::at_most => entry.high = only(part)?,
            Rule::range => {
                let mut ends = part.into_inner();
                entry.low = ends.next().map(term).transpose()?.map(|low| (low, false));
                entry.high = ends.next().map(term).transpose()?;
            }
            Rule::when => entry.when = only(part)?,
            Rule::source => entry.source = part.into_inner().next().map(word).unwrap_or_default(),
            Rule::doc => entry.doc = doc(part),
            _ => {}
        }
    }
    Ok(entry)
}

fn only(pair: Pair<Rule>) -> Result<Option<Term>, Diagnostic> {
    pair.into_inner().next().map(term).transpose()
}

fn takes(pair: Pair<Rule>) -> Takes {
    match pair.as_rule() {
        Rule::words => Takes::Words(pair.into_inner().map(word).collect()),
        Rule::keys => Takes::From(next_placed(&mut pair.into_inner())),
        _ => Takes::Plain(text(pair)),
    }
}

fn toward(text: &str) -> Toward {
    match text {
        "up" => Toward::Up,
        "down" => Toward::Down,
        _ => Toward::Nearest,
    }
}

fn check(pair: Pair<Rule>) -> Result<CheckEntry, Diagnostic> {
    let place = span(&pair);
    let mut entry = CheckEntry {
        level: Level::Note,
        name: Placed::default(),
        fires_if: true,
        test: Term { span: place, form: Form::Word(String::new()) },
        says: Vec::new(),
        mend: None,
    };
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::level => {
                entry.level = match part.as_str() {
                    "stop" => Level::Stop,
                    "warn" => Level::Warn,
                    _ => Level::Note,
                }
            }
            Rule::name => entry.name = placed(part),
            Rule::sense => entry.fires_if = part.as_str() == "if",
            Rule::expr => entry.test = term(part)?,
            Rule::says => entry.says = says(part)?,
            Rule::mend => entry.mend = Some(mend(part)?),
            _ => {}
        }
    }
    Ok(entry)
}

fn says(pair: Pair<Rule>) -> Result<Vec<Piece<Term>>, Diagnostic> {
    let mut pieces = Vec::new();
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::text => pieces.push(Piece::Words(part.as_str().to_string())),
            Rule::fold => pieces.push(Piece::Words(" ".into())),
            Rule::hole => {
                if let Some(value) = only(part)? {
                    pieces.push(Piece::Value(value));
                }
            }
            _ => {}
        }
    }
    if let Some(Piece::Words(last)) = pieces.last_mut() {
        last.truncate(last.trim_end().len());
    }
    Ok(pieces)
}

fn mend(pair: Pair<Rule>) -> Result<(Placed, Term, Option<Toward>), Diagnostic> {
    let place = span(&pair);
    let mut name = Placed::default();
    let mut value = Term { span: place, form: Form::Word(String::new()) };
    let mut way = None;
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::name => name = placed(part),
            Rule::expr => value = term(part)?,
            Rule::toward => way = Some(toward(part.as_str())),
            _ => {}
        }
    }
    Ok((name, value, way))
}

/// A flat run of operands and operators, climbed by strength.
fn term(pair: Pair<Rule>) -> Result<Term, Diagnostic> {
    // What reads, checks and works a formula out goes down into it: a tree too deep would end the program.
    if pair.as_str().len() > LONGEST_FORMULA {
        let place = span(&pair);
        let message = "this formula is too long to be read; give a part of it a name of its own";
        return Err(Diagnostic::of(&codes::rules::SYNTAX, message).at(place.start..place.start + 1));
    }
    let mut parts = pair.into_inner();
    climb(&mut parts, 0)
}

fn climb(parts: &mut Pairs<Rule>, least: u8) -> Result<Term, Diagnostic> {
    let mut left = operand(parts)?;
    while let Some(op) = parts.peek().and_then(|next| operator(&next)) {
        if op.strength() < least {
            break;
        }
        parts.next();
        let right = climb(parts, op.strength() + 1)?;
        left = Term { span: left.span.start..right.span.end, form: Form::Pair(op, Box::new(left), Box::new(right)) };
    }
    Ok(left)
}

fn operator(pair: &Pair<Rule>) -> Option<Op> {
    (pair.as_rule() == Rule::op).then(|| OPS.iter().find(|(sign, _)| *sign == pair.as_str()).map(|(_, op)| *op))?
}

fn operand(parts: &mut Pairs<Rule>) -> Result<Term, Diagnostic> {
    let Some(pair) = parts.next() else {
        return Err(Diagnostic::of(&codes::rules::SYNTAX, "a value is missing"));
    };
    let place = span(&pair);
    let form = match pair.as_rule() {
        Rule::sign => {
            let minus = pair.as_str() == "-";
            let inner = Box::new(operand(parts)?);
            let end = inner.span.end;
            let form = if minus { Form::Negative(inner) } else { Form::Not(inner) };
            return Ok(Term { span: place.start..end, form });
        }
        Rule::literal => {
            Form::Literal(read::quantity(pair.as_str(), None).map_err(|found| found.shifted(place.start))?)
        }
        Rule::word => Form::Word(word(pair)),
        Rule::this => Form::This,
        Rule::paren => {
            return only(pair)?.ok_or_else(|| Diagnostic::of(&codes::rules::SYNTAX, "empty brackets").at(place));
        }
        Rule::named => named(pair)?,
        Rule::of => {
            let mut inner = pair.into_inner();
            let part = next_placed(&mut inner);
            let Some(whole) = inner.next() else {
                return Err(Diagnostic::of(&codes::rules::SYNTAX, "a name is missing").at(place));
            };
            let at = span(&whole);
            let form = if whole.as_rule() == Rule::word { Form::Word(word(whole)) } else { named(whole)? };
            Form::Of(part, Box::new(Term { span: at, form }))
        }
        Rule::choice => {
            let mut ways = pair.into_inner();
            let test = ways.next().map(term).transpose()?;
            let then = ways.next().map(term).transpose()?;
            let other = match ways.peek().map(|next| next.as_rule()) {
                Some(Rule::choice) => Some(operand(&mut ways)?),
                _ => ways.next().map(term).transpose()?,
            };
            match (test, then, other) {
                (Some(test), Some(then), Some(other)) => Form::Choice(Box::new(test), Box::new(then), Box::new(other)),
                _ => return Err(Diagnostic::of(&codes::rules::SYNTAX, "a choice needs both ways").at(place)),
            }
        }
        _ => return Err(Diagnostic::of(&codes::rules::SYNTAX, "a value is missing").at(place)),
    };
    Ok(Term { span: place, form })
}

/// A name, or a function of arguments.
fn named(pair: Pair<Rule>) -> Result<Form, Diagnostic> {
    let mut inner = pair.into_inner();
    let name = inner.next().map(text).unwrap_or_default();
    Ok(match inner.next() {
        Some(args) => Form::Call(name, args.into_inner().map(term).collect::<Result<_, _>>()?),
        None => Form::Name(name),
    })
}

/// A text with the number of a record in place of each `#`.
fn number(text: &str, record: u8) -> String {
    text.replace("#next", &(record + 1).to_string()).replace('#', &record.to_string())
}

/// The entry for one record: `#` becomes its number, `#next` the number behind it.
fn for_record(entry: &RuleEntry, record: u8) -> RuleEntry {
    let each = |term: &Term| put_record(term, record);
    RuleEntry {
        names: entry.names.iter().map(|(name, span)| (number(name, record), span.clone())).collect(),
        value: entry.value.as_ref().map(each),
        when: entry.when.as_ref().map(each),
        low: entry.low.as_ref().map(|(low, strict)| (each(low), *strict)),
        high: entry.high.as_ref().map(each),
        ..entry.clone()
    }
}

fn put_record(term: &Term, record: u8) -> Term {
    let inner = |term: &Term| Box::new(put_record(term, record));
    let form = match &term.form {
        Form::Name(name) if name.contains("#next") && record == RECORDS => Form::Name("idle".into()),
        Form::Name(name) => Form::Name(number(name, record)),
        Form::This => Form::Literal(crate::measure::Quantity::number(crate::measure::Real::whole(record.into()))),
        Form::Negative(of) => Form::Negative(inner(of)),
        Form::Not(of) => Form::Not(inner(of)),
        Form::Pair(op, left, right) => Form::Pair(*op, inner(left), inner(right)),
        Form::Choice(test, then, other) => Form::Choice(inner(test), inner(then), inner(other)),
        Form::Call(name, args) => Form::Call(name.clone(), args.iter().map(|arg| put_record(arg, record)).collect()),
        Form::Of(part, whole) => Form::Of(part.clone(), inner(whole)),
        Form::Literal(_) | Form::Word(_) => term.form.clone(),
    };
    Term { span: term.span.clone(), form }
}
