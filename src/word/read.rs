//! Reads what follows a word: the first form that fits all of it, or how far any came.

use super::args::{Args, Given, Value};
use super::expected::{Expected, Next};
use super::form::{Arg, Form, Item, Word, sequences};
use super::kind::{Kind, Shape};
use super::stuck::Stuck;
use crate::diag::Span;

impl<D> Word<D> {
    /// The form that fits `rest` of `line`, and its arguments.
    ///
    /// # Errors
    /// No form does; how far one came, and what fits there.
    pub fn read<'t>(&self, line: &'t str, rest: Span) -> Result<(&Form<D>, Args<'t>), Stuck<'t>> {
        let mut reader = Reader::new(self, line, rest);
        for (form, sequence) in reader.all.clone() {
            if reader.fits(&sequence, 0, reader.rest.start) {
                return Ok((&self.forms[form], reader.args));
            }
        }
        Err(Stuck::new(reader.expected, line, reader.rest.end))
    }

    /// Everything that fits some place of `rest`, which may be the beginning of what is meant.
    pub fn expected<'t>(&self, line: &'t str, rest: Span) -> Vec<Expected<'t>> {
        let mut reader = Reader { only_farthest: false, ..Reader::new(self, line, rest) };
        for (_, sequence) in reader.all.clone() {
            let begin = reader.rest.start;
            // What fits is one way to go on; the other forms are others.
            reader.probe(&sequence, 0, begin);
        }
        reader.expected
    }
}

/// The literals that could stand where an item of a sequence does, typed after the same: by the sequences of a word.
pub(super) fn beside(all: &[(usize, Vec<Item>)], sequence: &[Item], at: usize) -> Vec<&'static str> {
    let same = all.iter().map(|(_, other)| other).filter(|other| other.get(..at) == sequence.get(..at));
    same.filter_map(|other| literal(other.get(at)?)).collect()
}

/// The literals that fit after an item of a sequence: where another of several fits.
pub(super) fn behind(all: &[(usize, Vec<Item>)], sequence: &[Item], at: usize) -> Vec<&'static str> {
    beside(all, sequence, at + 1)
}

fn literal(item: &Item) -> Option<&'static str> {
    if let Item::Literal(text, _) | Item::Quiet(text) = item { Some(text) } else { None }
}

struct Reader<'t> {
    line: &'t str,
    rest: Span,
    all: Vec<(usize, Vec<Item>)>,
    args: Args<'t>,
    head: Vec<&'static str>,
    expected: Vec<Expected<'t>>,
    only_farthest: bool,
    /// How many parts were read where something else was expected last, and the place.
    reach: (usize, usize),
}

impl<'t> Reader<'t> {
    fn new<D>(word: &Word<D>, line: &'t str, rest: Span) -> Self {
        let all = word.forms.iter().enumerate();
        let all = all.flat_map(|(at, form)| sequences(form.parts).into_iter().map(move |items| (at, items))).collect();
        Self {
            line,
            args: Args::new(rest.clone()),
            rest,
            all,
            head: vec![word.name],
            expected: Vec::new(),
            only_farthest: true,
            reach: (0, 0),
        }
    }

    /// Whether the items from `at` on fit the line from `start` on, to its end.
    fn fits(&mut self, items: &[Item], at: usize, start: usize) -> bool {
        let start = self.behind_blanks(start);
        let ended = start >= self.rest.end;
        let Some(item) = items.get(at) else {
            if !ended {
                self.expect(start, Next::End, &[]);
            }
            return ended;
        };
        match *item {
            Item::Quiet(literal) => {
                let end = self.literal(start, literal);
                end.is_some_and(|end| self.fits(items, at + 1, end))
            }
            Item::Literal(literal, doc) => {
                self.expect(start, Next::Literal(literal, doc), &items[at + 1..]);
                let Some(end) = self.literal(start, literal) else { return false };
                self.args.push_literal(literal);
                self.head.push(literal);
                let fits = self.fits(items, at + 1, end);
                if !fits {
                    self.args.pop_literal();
                    self.head.pop();
                }
                fits
            }
            Item::Arg(arg) => {
                self.expect(start, Next::Arg(arg), &items[at + 1..]);
                let rivals = self.rivals(arg.kind, items, at);
                for (end, given) in self.found(arg, start, "", &rivals) {
                    self.args.push(given);
                    if self.fits(items, at + 1, end) {
                        return true;
                    }
                    self.args.pop();
                }
                false
            }
            Item::Many(arg, sign) => self.several(items, at, start, (arg, sign)),
        }
    }

    /// Where a literal at `start` ends; a sign needs no blanks around it.
    fn literal(&self, start: usize, literal: &str) -> Option<usize> {
        let text = self.text(start);
        let end = if literal.starts_with(char::is_alphanumeric) { token(text, "") } else { literal.len() };
        (text.get(..end) == Some(literal)).then_some(start + end)
    }

    /// One argument after another, as many as there are.
    fn several(&mut self, items: &[Item], at: usize, start: usize, (arg, sign): (&'static Arg, &str)) -> bool {
        let mut rivals = self.rivals(arg.kind, items, at);
        let (mut start, mut count) = (start, 0);
        loop {
            start = self.behind_signs(start, sign);
            let found = self.found(arg, start, sign, &rivals).into_iter().next();
            if found.is_none() || !self.only_farthest {
                self.expect(start, Next::Arg(arg), &items[at + 1..]);
            }
            let Some((end, given)) = found else { break };
            self.args.push(given);
            (start, count) = (end, count + 1);
            rivals = if arg.kind.yields() { behind(&self.all, items, at) } else { Vec::new() };
            if !self.only_farthest {
                self.probe(items, at + 1, start);
            }
        }
        if count > 0 && self.fits(items, at + 1, start) {
            return true;
        }
        (0..count).for_each(|_| self.args.pop());
        false
    }

    /// Goes on from a place only to see what fits there.
    fn probe(&mut self, items: &[Item], at: usize, start: usize) {
        let (args, head) = (self.args.clone(), self.head.len());
        let _ = self.fits(items, at, start);
        self.args = args;
        self.head.truncate(head);
    }

    fn rivals(&self, kind: Kind, items: &[Item], at: usize) -> Vec<&'static str> {
        if kind.yields() { beside(&self.all, items, at) } else { Vec::new() }
    }

    fn expect(&mut self, at: usize, next: Next, rest: &[Item]) {
        // The reading that took up the most parts is meant; a value of several words may end early for it.
        let reach = (self.args.len() + self.head.len(), at);
        if self.only_farthest && self.reach != reach {
            if self.reach > reach {
                return;
            }
            self.expected.clear();
        }
        self.reach = reach;
        let same = self.expected.iter_mut().find(|other| other.at == at && other.next == next);
        match same {
            // What may be left out need not follow.
            Some(same) if same.rest.len() > rest.len() => same.rest = rest.to_vec(),
            Some(_) => {}
            None => {
                let (head, rest, args) = (self.head.clone(), rest.to_vec(), self.args.clone());
                self.expected.push(Expected { at, next, head, rest, args });
            }
        }
    }

    /// Where an argument may end, the farthest first, and what it is then.
    fn found(&self, arg: &'static Arg, start: usize, sign: &str, rivals: &[&str]) -> Vec<(usize, Given<'t>)> {
        let text = self.text(start);
        if text.is_empty() {
            return Vec::new();
        }
        let given = |span: Span, value| Given { arg, value, span: start + span.start..start + span.end };
        let plain = |span: Span| given(span.clone(), Value::Text(&text[span]));
        let all = || (self.rest.end, plain(0..text.len()));
        let yields = |end: usize| rivals.contains(&&text[..end]);
        match arg.kind.shape() {
            Shape::Name(more) => {
                let stops = format!("{sign}{more}");
                match quoted(text, &stops) {
                    Some(inner) => vec![(start + inner.end + 1, plain(inner))],
                    None if text.starts_with('"') => Vec::new(),
                    None => {
                        let end = token(text, &stops);
                        if end == 0 || yields(end) || !arg.kind.may_begin(text) {
                            Vec::new()
                        } else {
                            vec![(start + end, plain(0..end))]
                        }
                    }
                }
            }
            Shape::Several if yields(token(text, "")) => Vec::new(),
            Shape::Several => ends(text).into_iter().rev().map(|end| (start + end, plain(0..end))).collect(),
            Shape::Number => {
                let end = token(text, "");
                let number = text[..end].parse().ok();
                number.map(|number| (start + end, given(0..end, Value::Number(number)))).into_iter().collect()
            }
            Shape::Pair => pair(text).map(|(value, end)| (start + end, given(0..end, value))).into_iter().collect(),
            // A note may have quotes in it; the last one ends it.
            Shape::Quoted => match text.strip_prefix('"').and_then(|inner| inner.rfind('"')) {
                Some(end) => vec![(start + end + 2, plain(1..end + 1))],
                None => Vec::new(),
            },
            Shape::Rest | Shape::RestOrQuoted if arg.kind.yields() && yields(token(text, "")) => Vec::new(),
            Shape::RestOrQuoted => match quoted(text, "").filter(|inner| inner.end + 1 == text.len()) {
                Some(inner) => vec![(self.rest.end, plain(inner))],
                None => vec![all()],
            },
            Shape::Rest => vec![all()],
        }
    }

    fn text(&self, start: usize) -> &'t str {
        self.line.get(start..self.rest.end).unwrap_or_default()
    }

    fn behind_blanks(&self, start: usize) -> usize {
        let text = self.text(start);
        start + text.len() - text.trim_start().len()
    }

    fn behind_signs(&self, start: usize, sign: &str) -> usize {
        let text = self.text(start);
        let rest = text.trim_start_matches(|letter: char| letter.is_whitespace() || sign.contains(letter));
        start + text.len() - rest.len()
    }
}

/// How long the word is that a text begins with: up to a blank, or one of these letters.
fn token(text: &str, stops: &str) -> usize {
    text.find(|letter: char| letter.is_whitespace() || stops.contains(letter)).unwrap_or(text.len())
}

/// The text in quotes that a text begins with, if the word ends after them.
fn quoted(text: &str, stops: &str) -> Option<Span> {
    let inner = text.strip_prefix('"')?.find('"')?;
    let behind = text[inner + 2..].chars().next();
    behind.is_none_or(|letter| letter.is_whitespace() || stops.contains(letter)).then_some(1..inner + 1)
}

/// Where the words of a text end.
fn ends(text: &str) -> Vec<usize> {
    let mut ends: Vec<usize> = text
        .char_indices()
        .zip(text.chars().skip(1))
        .filter(|((_, one), next)| !one.is_whitespace() && next.is_whitespace())
        .map(|((at, one), _)| at + one.len_utf8())
        .collect();
    ends.push(text.trim_end().len());
    ends
}

/// The key and the value that a text begins with, and where the value ends: before the next key.
fn pair(text: &str) -> Option<(Value<'_>, usize)> {
    let (key, rest) = text.split_once('=')?;
    let key = key.trim_end();
    if key.is_empty() || key.contains(char::is_whitespace) {
        return None;
    }
    let value = rest.find('=').map_or(rest, |next| {
        let before = rest[..next].trim_end();
        before.rfind(char::is_whitespace).map_or("", |blank| &rest[..blank])
    });
    let end = text.len() - rest.len() + value.trim_end().len();
    Some((Value::Pair { key, value: value.trim() }, end))
}
