//! The rules as the program uses them: names looked up, kinds known, order sound.

use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

use serde::{Deserialize, Serialize};

use super::entry::{CautionRule, LabelRule, PieceRule};
pub use super::node::{FUNCS, Func, Node, Slot, Type};
use super::term::{Level, Piece, Way};
use crate::measure::{Real, Toward};

/// All rules of all builds, packed into the program when it is built.
#[derive(Debug, Default, Serialize, Deserialize)]
pub struct Book {
    /// Every field, figure and gathered name, in the order of the files.
    pub names: Vec<Name>,
    /// The slots in the order of their texts, for looking up.
    pub sorted: Vec<Slot>,
    /// Headings of the sheet, in order.
    pub groups: Vec<Group>,
    /// Lists of words.
    pub tables: Vec<Table>,
    /// Formulas, defaults and ranges.
    pub rules: Vec<Rule>,
    /// Conditions of a design.
    pub checks: Vec<Check>,
    /// Ways to build a frame.
    pub builds: Vec<Build>,
    /// The field that names the build of a design.
    pub build_field: Option<Slot>,
    /// The build of a design that names none, a place in `builds`.
    pub usual_build: u8,
    /// Pages of one matter: name, and what the page shows.
    pub pages: Vec<(String, String)>,
    /// Pieces to make, in the order of the bench.
    pub pieces: Vec<PieceRule>,
    /// Cautions, in their order.
    pub cautions: Vec<CautionRule>,
    /// Lines of labels and lists.
    pub labels: Vec<LabelRule>,
    /// What was read on top of the shipped rules.
    #[serde(skip)]
    pub added: Added,
}

/// What a book was read from besides the shipped rules.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Added {
    /// Rules files of the shop: what messages call them, and their texts, in the order read.
    pub files: Vec<(String, String)>,
    /// Figures of one design alone: by their names, the formula behind `NAME = `.
    pub figures: BTreeMap<String, String>,
}

/// A heading of the sheet.
#[derive(Debug, Serialize, Deserialize)]
pub struct Group {
    /// As the sheet has it.
    pub name: String,
    /// The page of its own that shows it as well; a set line does not report what changes there.
    pub page: Option<String>,
}

/// A field, a figure, or a name that stands for several fields.
#[derive(Debug, Serialize, Deserialize)]
pub struct Name {
    /// As it is typed.
    pub text: String,
    /// What it is, in one line.
    pub doc: String,
    /// What its values are.
    pub of: Type,
    /// Whether a person sets it, in one build at least.
    pub role: Role,
    /// Its heading, a place in [`Book::groups`].
    pub group: u8,
}

/// The field that names the build of a design, and decides which rules it follows.
pub const BUILD: &str = "build";

/// How the rules call what belongs to the wall and not to a design.
pub const WALL: &str = "wall.";

/// How the rules call what belongs to the shop and not to a design.
pub const SHOP: &str = "shop.";

impl Name {
    /// Whether it belongs to the shop and not to a design.
    pub fn is_of_the_shop(&self) -> bool {
        self.text.starts_with(SHOP)
    }

    /// Whether it belongs to the wall and not to a design.
    pub fn is_of_the_wall(&self) -> bool {
        self.text.starts_with(WALL)
    }
}

/// What a name is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Role {
    /// A person sets it.
    Field,
    /// It comes of others.
    Figure,
    /// It comes of others unless a person gives it.
    Either,
    /// It stands for several fields.
    Gather,
}

/// What a name stands for where a line is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NameKind {
    /// It is worked out.
    Figure,
    /// A person sets it, to a value.
    Value,
    /// A person sets it, to a word.
    Word,
    /// A person sets it, to any text.
    Text,
}

/// A list of words.
#[derive(Debug, Serialize, Deserialize)]
pub struct Table {
    /// Its name, empty for a list written in place.
    pub name: String,
    /// What it holds, in one line.
    pub doc: String,
    /// Its words.
    pub words: Vec<String>,
    /// Other words for them: what is typed, and the place in `words` of what is meant.
    pub also: Vec<(String, u16)>,
    /// What is known of each word.
    pub columns: Vec<Column>,
    /// Where what is known of each word was found, in the order of `words`.
    pub sources: Vec<String>,
}

impl Table {
    /// A list of words of which nothing more is known.
    pub fn of_words(name: &str, words: Vec<String>) -> Self {
        Self {
            name: name.into(),
            doc: String::new(),
            words,
            also: Vec::new(),
            columns: Vec::new(),
            sources: Vec::new(),
        }
    }

    /// The builds as words of the field that names one.
    pub fn of_builds(builds: &[Build]) -> Self {
        let cells = builds.iter().map(|build| Some(Cell::Word(build.doc.as_str().into()))).collect();
        Self {
            doc: "ways to build a frame".into(),
            columns: vec![Column { cells, ..Column::new("meaning", Type::Text) }],
            sources: builds.iter().map(|_| "common practice, no source".into()).collect(),
            ..Self::of_words("builds", builds.iter().map(|build| build.name.to_string()).collect())
        }
    }

    /// What the word of a row means, where the table explains its words.
    pub fn meaning(&self, row: usize) -> Option<&str> {
        let column = self.columns.iter().find(|column| column.of == Type::Text)?;
        match column.cells.get(row)?.as_ref()? {
            Cell::Word(text) => Some(text),
            Cell::Amount(_) => None,
        }
    }

    /// The word that is meant by what was typed, in small letters and with single blanks.
    pub fn meant(&self, typed: &str) -> Option<&str> {
        if let Some(word) = self.words.iter().find(|word| *word == typed) {
            return Some(word);
        }
        let (_, place) = self.also.iter().find(|(other, _)| other == typed)?;
        self.words.get(usize::from(*place)).map(String::as_str)
    }

    /// Whether a word is offered for a field: its cell in the column `for` lists the field, or what the field is a part
    /// of. Without such a column or cell it is offered for every field that takes words of the table.
    pub fn is_for(&self, word: &str, field: &str) -> bool {
        let row = self.meant(word).and_then(|meant| self.words.iter().position(|one| one == meant));
        let cell = row.zip(self.column("for")).and_then(|(row, column)| column.cells.get(row)?.as_ref());
        let Some(Cell::Word(fields)) = cell else { return true };
        fields.split(", ").any(|one| field.split('.').next() == Some(one))
    }

    /// The column of that name.
    pub fn column(&self, name: &str) -> Option<&Column> {
        self.columns.iter().find(|column| column.name == name)
    }

    /// Where the value of a column is published for the word of a row.
    pub fn source<'a>(&'a self, column: &'a Column, row: usize) -> &'a str {
        let elsewhere = column.elsewhere.iter().find(|(one, _)| usize::from(*one) == row);
        let of_column = Some(&column.source).filter(|source| !source.is_empty());
        elsewhere.map(|(_, source)| source).or(of_column).or(self.sources.get(row)).map_or("", String::as_str)
    }

    /// What a column holds for a word.
    pub fn cell(&self, column: u16, word: &str) -> Option<&Cell> {
        let row = self.words.iter().position(|one| one == word)?;
        self.columns.get(usize::from(column))?.cells.get(row)?.as_ref()
    }
}

/// One thing that is known of each word of a table.
#[derive(Debug, Serialize, Deserialize)]
pub struct Column {
    /// As a formula asks for it: `density of wood`.
    pub name: String,
    /// What its values are.
    pub of: Type,
    /// One for each word; nothing where it is not known.
    pub cells: Vec<Option<Cell>>,
    /// Where its values are published; empty where each row says so.
    pub source: String,
    /// The rows whose value is published elsewhere.
    pub elsewhere: Vec<(u16, String)>,
}

impl Column {
    /// A column without values.
    pub fn new(name: &str, of: Type) -> Self {
        Self { name: name.into(), of, cells: Vec::new(), source: String::new(), elsewhere: Vec::new() }
    }
}

/// What is known of a word.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub enum Cell {
    /// In storage units.
    Amount(Real),
    /// A word.
    Word(Arc<str>),
}

/// A way to build a frame.
#[derive(Debug, Serialize, Deserialize)]
pub struct Build {
    /// As it is typed.
    pub name: Arc<str>,
    /// What it is, in one line.
    pub doc: String,
    /// By slot: the rule that holds in this build, a place in [`Book::rules`].
    pub rules: Vec<Option<u16>>,
    /// The slots that this build has, in the order of the sheet.
    pub order: Vec<Slot>,
    /// By slot: the slots that read it; filled when first asked for.
    #[serde(skip)]
    pub readers: OnceLock<Vec<Vec<Slot>>>,
}

/// How a name comes by its value.
#[derive(Debug, Serialize, Deserialize)]
pub struct Rule {
    /// Formula or default.
    pub value: Option<Node>,
    /// Which way it is rounded when made.
    pub toward: Option<Toward>,
    /// When it applies.
    pub when: Option<Node>,
    /// Whether a person may give it.
    pub given: bool,
    /// Whether it may be left out.
    pub optional: bool,
    /// Whether a sheet leaves it out unless it is given.
    pub aside: bool,
    /// What it is measured or made with.
    pub by: Option<Means>,
    /// Least value, and whether it is itself excluded.
    pub low: Option<(Node, bool)>,
    /// Greatest value.
    pub high: Option<Node>,
    /// The words it takes, a place in [`Book::tables`].
    pub words: Option<u16>,
    /// How it is written, if it stands for several fields.
    pub gather: Option<Way>,
    /// The slots that its value reads or asks after, each once.
    pub reads: Vec<Slot>,
    /// Where its formula or its usual value is published; empty where nothing is said.
    pub source: String,
}

/// What a size is measured or made with, which says how far it may be off.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Means {
    /// Read off the tape: half of its marks.
    Tape,
    /// Cut on the saw: `shop.saw`.
    Saw,
    /// Planed or milled: `shop.planer`.
    Planer,
}

/// Every means with its name in a rules file, and the field that says how far it may be off.
pub const MEANS: &[(&str, Means, Option<&str>)] = &[
    ("tape", Means::Tape, None),
    ("saw", Means::Saw, Some("shop.saw")),
    ("planer", Means::Planer, Some("shop.planer")),
];

/// A condition of a design.
#[derive(Debug, Serialize, Deserialize)]
pub struct Check {
    /// How bad it is.
    pub level: Level,
    /// Its name.
    pub name: String,
    /// The builds it holds for, by place in [`Book::builds`].
    pub builds: Vec<u8>,
    /// True when it holds, or when it does not.
    pub fires_if: bool,
    /// The condition.
    pub test: Node,
    /// The message, in pieces.
    pub says: Vec<Piece<(Node, Type)>>,
    /// A field and the value that would mend it.
    pub mend: Option<(Slot, Node, Option<Toward>)>,
}

impl Book {
    /// The slot of a name.
    pub fn slot(&self, name: &str) -> Option<Slot> {
        let place = self.sorted.binary_search_by(|slot| self.name(*slot).text.as_str().cmp(name)).ok()?;
        self.sorted.get(place).copied()
    }

    /// What a name stands for; a person who sets it in one build sets it.
    pub fn kind(&self, name: &str) -> Option<NameKind> {
        let slot = self.slot(name)?;
        let is_set = |build: &Build| {
            let rule = build.rules.get(usize::from(slot)).copied().flatten();
            rule.and_then(|rule| self.rules.get(usize::from(rule))).is_some_and(|rule| rule.given)
        };
        Some(match self.name(slot).of {
            _ if !self.builds.iter().any(is_set) => NameKind::Figure,
            Type::Text => NameKind::Text,
            Type::Word => NameKind::Word,
            Type::Quantity(_)
            | Type::Whole
            | Type::Share
            | Type::Truth
            | Type::Size
            | Type::List(_)
            | Type::Record(_)
            | Type::Nothing => NameKind::Value,
        })
    }

    /// What is known of a slot.
    pub fn name(&self, slot: Slot) -> &Name {
        &self.names[usize::from(slot)]
    }

    /// The rule of a slot in a build, if the build has it.
    pub fn rule(&self, build: u8, slot: Slot) -> Option<&Rule> {
        let rule = self.builds.get(usize::from(build))?.rules.get(usize::from(slot)).copied().flatten()?;
        self.rules.get(usize::from(rule))
    }

    /// The heading of a name.
    pub fn group(&self, slot: Slot) -> Option<&Group> {
        self.groups.get(usize::from(self.name(slot).group))
    }

    /// The pages that headings are on: name, and what each shows.
    pub fn headed_pages(&self) -> impl Iterator<Item = (&str, &str)> {
        let is_headed = |page: &str| self.groups.iter().any(|group| group.page.as_deref() == Some(page));
        self.pages.iter().map(|(page, doc)| (page.as_str(), doc.as_str())).filter(move |(page, _)| is_headed(page))
    }

    /// The build of that name.
    pub fn build(&self, name: &str) -> Option<u8> {
        self.builds
            .iter()
            .position(|build| build.name.eq_ignore_ascii_case(name))
            .and_then(|place| u8::try_from(place).ok())
    }

    /// By slot: the slots of a build that read it.
    pub fn readers(&self, build: u8) -> &[Vec<Slot>] {
        let Some(here) = self.builds.get(usize::from(build)) else {
            return &[];
        };
        here.readers.get_or_init(|| {
            let mut readers = vec![Vec::new(); self.names.len()];
            for slot in &here.order {
                for read in self.rule(build, *slot).iter().flat_map(|rule| &rule.reads) {
                    readers[usize::from(*read)].push(*slot);
                }
            }
            readers
        })
    }

    /// The builds that have a name.
    pub fn builds_with(&self, slot: Slot) -> Vec<&str> {
        self.builds
            .iter()
            .filter(|build| build.rules.get(usize::from(slot)).is_some_and(Option::is_some))
            .map(|build| &*build.name)
            .collect()
    }

    /// The words that a field takes in a build.
    pub fn words(&self, rule: &Rule) -> Option<&[String]> {
        self.word_table(rule).map(|table| table.words.as_slice())
    }

    /// The list of words that a field takes in a build.
    pub fn word_table(&self, rule: &Rule) -> Option<&Table> {
        self.tables.get(usize::from(rule.words?))
    }

    /// The lines of a page: each its word and the names of its values.
    pub fn lines_of<'a>(&'a self, page: &'a str) -> impl Iterator<Item = (&'a str, Vec<&'a str>)> {
        let here = self.labels.iter().filter(move |line| line.pages.iter().any(|one| one == page));
        here.map(|line| (line.word.as_str(), line.names.iter().map(|slot| self.name(*slot).text.as_str()).collect()))
    }

    /// Whether a field, or the name it is a part of, is in the table of what belongs to the work and not to its frame.
    pub fn is_of_the_work(&self, name: &str) -> bool {
        let is_part = |word: &String| {
            name.strip_prefix(word.as_str()).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
        };
        self.table("work").is_some_and(|work| work.words.iter().any(is_part))
    }

    /// The table of that name.
    pub fn table(&self, name: &str) -> Option<&Table> {
        self.tables.iter().find(|table| table.name == name)
    }

    /// Every name, as typed.
    pub fn all_names(&self) -> impl Iterator<Item = &str> {
        self.names.iter().map(|name| name.text.as_str())
    }
}
