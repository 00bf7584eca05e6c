//! A word of the prompt and its forms, and how they are written.

use super::kind::Kind;

/// A word that begins a line; `D` is what a form of it does.
#[derive(Debug)]
pub struct Word<D: 'static> {
    /// As it is typed.
    pub name: &'static str,
    /// What it does, in one line.
    pub brief: &'static str,
    /// What may follow it, the first that fits.
    pub forms: &'static [Form<D>],
    /// Lines typed on an empty bench one after another, and the beginning of what the last one answers.
    pub example: (&'static [&'static str], &'static str),
}

/// One way to go on after a word.
#[derive(Debug)]
pub struct Form<D: 'static> {
    /// Its parts, in order.
    pub parts: &'static [Part],
    /// What it does.
    pub action: D,
    /// How a line of it is tested before it is offered.
    pub tested: Tested,
}

/// How a line is tested before it is offered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tested {
    /// It is run: it changes nothing but the bench, and soon ends.
    ByRunning,
    /// It is read: it writes files or the book, changes the shop, or takes long.
    ByReading,
    /// It is not offered for a slip: whether it succeeds depends on stock, files or scripts.
    Never,
}

/// A part of a form.
#[derive(Clone, Copy, Debug)]
pub enum Part {
    /// This very word, and what it means there.
    Literal(&'static str, &'static str),
    /// A word or a sign that may be left out and that usage does not show: the `=` of `shop unit = mm`.
    Quiet(&'static str),
    /// An argument.
    Arg(Arg),
    /// An argument once or more, with blanks between, or with this sign as well.
    Many(Arg, &'static str),
    /// One of these, or nothing.
    Maybe(&'static [&'static [Part]]),
}

/// An argument of a form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Arg {
    /// What it is.
    pub kind: Kind,
    /// As usage shows it, in capitals.
    pub name: &'static str,
    /// What to type there, as a sentence has it: `a file`.
    pub doc: &'static str,
    /// Text that fits there.
    pub example: &'static str,
}

/// An argument, for a table of words.
pub const fn arg(kind: Kind, name: &'static str, doc: &'static str, example: &'static str) -> Arg {
    Arg { kind, name, doc, example }
}

/// A part of a form with all that may be left out settled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Item {
    Literal(&'static str, &'static str),
    Quiet(&'static str),
    Arg(&'static Arg),
    Many(&'static Arg, &'static str),
}

impl<D> Word<D> {
    /// How it is written: every form in one line.
    pub fn usage(&self) -> String {
        let texts: Vec<String> = self.forms.iter().map(|form| texts(form.parts)).collect();
        let some: Vec<&str> = texts.iter().map(String::as_str).filter(|text| !text.is_empty()).collect();
        let forms = some.join(" | ");
        match (some.len(), texts.len()) {
            (0, _) => self.name.to_string(),
            (some, all) if some < all => format!("{} [{forms}]", self.name),
            _ => format!("{} {forms}", self.name),
        }
    }

    /// Every argument of every form, each name once.
    pub fn args(&self) -> Vec<&'static Arg> {
        let mut args: Vec<&'static Arg> = Vec::new();
        for arg in self.forms.iter().flat_map(|form| args_of(form.parts)) {
            if !args.iter().any(|one| one.name == arg.name) {
                args.push(arg);
            }
        }
        args
    }
}

impl<D> Form<D> {
    /// How it is written after `word`.
    pub fn usage(&self, word: &str) -> String {
        format!("{word} {}", texts(self.parts)).trim_end().to_string()
    }

    /// Every way to write what follows the word, the fullest first: each part as its argument has an example of it.
    pub fn samples(&self) -> Vec<Vec<(Option<Kind>, &'static str)>> {
        let sample = |item: &Item| match item {
            Item::Literal(text, _) | Item::Quiet(text) => (None, *text),
            Item::Arg(arg) | Item::Many(arg, _) => (Some(arg.kind), arg.example),
        };
        sequences(self.parts).iter().map(|items| items.iter().map(sample).collect()).collect()
    }
}

/// Every argument of some parts, in their order.
fn args_of(parts: &'static [Part]) -> Vec<&'static Arg> {
    let of = |part: &'static Part| match part {
        Part::Literal(..) | Part::Quiet(_) => Vec::new(),
        Part::Arg(arg) | Part::Many(arg, _) => vec![arg],
        Part::Maybe(choices) => choices.iter().flat_map(|parts| args_of(parts)).collect(),
    };
    parts.iter().flat_map(of).collect()
}

fn texts(parts: &[Part]) -> String {
    let shown = parts.iter().filter_map(|part| match part {
        Part::Literal(text, _) => Some((*text).to_string()),
        Part::Quiet(_) => None,
        Part::Arg(arg) => Some(arg.name.to_string()),
        Part::Many(arg, sign) => Some(format!("{}{sign} …", arg.name)),
        Part::Maybe(choices) => {
            let choices: Vec<String> = choices.iter().map(|parts| texts(parts)).collect();
            Some(format!("[{}]", choices.join(" | ")))
        }
    });
    shown.collect::<Vec<_>>().join(" ")
}

/// The parts in every way in which what may be left out can be there, the fullest first.
pub(super) fn sequences(parts: &'static [Part]) -> Vec<Vec<Item>> {
    let mut all: Vec<Vec<Item>> = vec![Vec::new()];
    for part in parts {
        let one = |item| vec![vec![item]];
        let ways: Vec<Vec<Item>> = match part {
            Part::Literal(text, doc) => one(Item::Literal(text, doc)),
            Part::Quiet(text) => vec![vec![Item::Quiet(text)], Vec::new()],
            Part::Arg(arg) => one(Item::Arg(arg)),
            Part::Many(arg, sign) => one(Item::Many(arg, sign)),
            Part::Maybe(choices) => choices.iter().flat_map(|parts| sequences(parts)).chain([Vec::new()]).collect(),
        };
        let with = |before: Vec<Item>| {
            let ways = ways.clone();
            ways.into_iter().map(move |way| before.iter().copied().chain(way).collect::<Vec<_>>())
        };
        all = all.into_iter().flat_map(with).collect();
    }
    all
}
