//! Entries → book: names looked up, kinds inferred, twice-defined and circular rules refused.

use std::collections::{HashMap, HashSet};

use super::book::{BUILD, Book, Build, FUNCS, Func, Group, MEANS, Means, Name, Node, Role, Rule, Slot, Table, Type};
use super::data;
use super::native::{NATIVES, native};
use super::term::{Body, Drafted, Entry, Form, GatherEntry, PIECES, Placed, RuleEntry, Takes, Term, Way};
use crate::diag::{Diagnostic, Span, codes, list, near, says};
use crate::measure::Kind;

/// A rules file: its name, its text, its entries.
pub struct Sheet<'a> {
    /// As messages call it.
    pub name: &'a str,
    /// The whole text.
    pub text: &'a str,
    /// What it says.
    pub entries: Vec<Entry>,
}

impl Sheet<'_> {
    /// A finding about this file, unless it is about another already.
    pub fn inside(&self, found: Diagnostic) -> Diagnostic {
        if found.source.is_some() { found } else { found.inside(self.name, self.text) }
    }
}

/// Makes a book of the sheets.
///
/// # Errors
/// Unknown names with near ones, unlike kinds, a name defined twice, a name with two kinds, a circle: the first found,
/// with its file and place.
pub fn resolve(sheets: &[Sheet], data: &[(&str, &str)]) -> Result<Book, Diagnostic> {
    let mut maker = Maker {
        data,
        listed: HashMap::new(),
        book: Book::default(),
        sheets,
        index: HashMap::new(),
        homes: Vec::new(),
        has: HashSet::new(),
        typed: HashSet::new(),
        pieces: Vec::new(),
    };
    for sheet in sheets {
        maker.builds(sheet).map_err(|found| sheet.inside(found))?;
    }
    let builds = Table::of_builds(&maker.book.builds);
    maker.book.tables.push(builds);
    for sheet in sheets {
        maker.declare(sheet).map_err(|found| sheet.inside(found))?;
    }
    for (home, sheet) in sheets.iter().enumerate() {
        for entry in &sheet.entries {
            let Body::Piece(piece) = &entry.body else { continue };
            let drafted =
                maker.scope(entry).and_then(|builds| maker.draft(home, piece, (&entry.span, builds, entry.instead)));
            drafted.map_err(|found| sheet.inside(found))?;
        }
    }
    maker.name_pieces()?;
    for (home, sheet) in sheets.iter().enumerate() {
        maker.define(home, sheet).map_err(|found| sheet.inside(found))?;
    }
    maker.no_circles()?;
    maker.type_pieces()?;
    maker.infer()?;
    for sheet in sheets {
        maker.checks(sheet).map_err(|found| sheet.inside(found))?;
        maker.cautions(sheet).map_err(|found| sheet.inside(found))?;
        maker.labels(sheet).map_err(|found| sheet.inside(found))?;
    }
    Ok(maker.finish())
}

/// A book in the making.
pub(super) struct Maker<'a> {
    pub(super) book: Book,
    pub(super) sheets: &'a [Sheet<'a>],
    pub(super) index: HashMap<String, Slot>,
    /// For each rule: its file and its entry, for messages about it.
    pub(super) homes: Vec<(usize, RuleEntry)>,
    /// The files of data, by name.
    data: &'a [(&'a str, &'a str)],
    /// The table that the words of a name are from.
    pub(super) listed: HashMap<String, String>,
    /// Which build has which name.
    has: HashSet<(Slot, u8)>,
    /// What has its kind already, by build.
    pub(super) typed: HashSet<(u8, Slot)>,
    /// The pieces, as the files have them.
    pub(super) pieces: Vec<Drafted>,
}

/// Words that an expression reads in a sense of their own.
const TAKEN: [&str; 4] = ["idle", "missing", "given", PIECES];

/// Functions that look a column or a record up.
pub(super) const LOOKUPS: [&str; 5] = ["smallest", "largest", "every", "failed", "fault"];

fn too_many() -> Diagnostic {
    Diagnostic::of(&codes::rules::SYNTAX, "too many names")
}

/// A slot that the rules files name and the book lacks, with what comes near.
pub(super) fn unknown<'a>(what: &str, (name, place): &Placed, known: impl Iterator<Item = &'a str>) -> Diagnostic {
    let found = Diagnostic::of(&codes::rules::NAME_UNKNOWN, says!("there is no {} {}", what, name)).at(place.clone());
    near(name, known).into_iter().fold(found, Diagnostic::instead)
}

impl Maker<'_> {
    /// Before all else: the builds, which entries of any file may be for.
    fn builds(&mut self, sheet: &Sheet) -> Result<(), Diagnostic> {
        for entry in &sheet.entries {
            let Body::Build((name, place), doc) = &entry.body else {
                continue;
            };
            if self.book.build(name).is_some() {
                return Err(Diagnostic::of(&codes::rules::DEFINED, format!("the build {name} is defined twice"))
                    .at(place.clone()));
            }
            self.book.builds.push(Build {
                name: name.as_str().into(),
                doc: doc.clone(),
                rules: Vec::new(),
                order: Vec::new(),
                readers: std::sync::OnceLock::new(),
            });
        }
        Ok(())
    }

    /// First round: tables, headings and names.
    fn declare(&mut self, sheet: &Sheet) -> Result<(), Diagnostic> {
        for entry in &sheet.entries {
            if !self.book.groups.iter().any(|group| group.name == entry.group) {
                self.book.groups.push(Group { name: entry.group.clone(), page: None });
            }
            match &entry.body {
                Body::Table(name, words) => {
                    let words = distinct(words)?;
                    self.table(name, Table::of_words(&name.0, words))?;
                }
                Body::Data(name, file, doc) => {
                    let table = data::table(&name.0, file, self.data)?;
                    self.table(name, Table { doc: doc.clone(), ..table })?;
                }
                Body::Rule(rule) => {
                    let role = match (&rule.takes, rule.given) {
                        (Some(_), _) => Role::Field,
                        (None, true) => Role::Either,
                        (None, false) => Role::Figure,
                    };
                    let of = match (&rule.takes, &rule.value) {
                        (Some(takes), _) => taken(takes),
                        (None, Some(value)) => record(value).unwrap_or(Type::Nothing),
                        (None, None) => Type::Nothing,
                    };
                    if let Some(table) = table_of(rule) {
                        self.listed.extend(rule.names.iter().map(|(name, _)| (name.clone(), table.to_string())));
                    }
                    for name in &rule.names {
                        self.name(entry, name, &rule.doc, role, of)?;
                    }
                }
                Body::Gather(gather) => {
                    let of = match gather.way {
                        Way::Size => Type::Size,
                        Way::Row => Type::List(Kind::NUMBER),
                        Way::Around | Way::With => Type::Nothing,
                    };
                    self.name(entry, &gather.name, &gather.doc, Role::Gather, of)?;
                }
                Body::Scope => {
                    self.scope(entry)?;
                }
                Body::Group(Some(page)) => {
                    self.known_pages(std::slice::from_ref(page))?;
                    if let Some(group) = self.book.groups.iter_mut().find(|group| group.name == entry.group) {
                        group.page = Some(page.0.clone());
                    }
                }
                Body::Page(name, doc) => self.page(name, doc)?,
                Body::Build(..)
                | Body::Check(_)
                | Body::Group(None)
                | Body::Piece(_)
                | Body::Caution(_)
                | Body::Label(_) => {}
            }
        }
        Ok(())
    }

    fn table(&mut self, (name, place): &Placed, table: Table) -> Result<(), Diagnostic> {
        if self.book.tables.iter().any(|table| table.name == *name) {
            return Err(
                Diagnostic::of(&codes::rules::DEFINED, format!("the table {name} is defined twice")).at(place.clone())
            );
        }
        self.book.tables.push(table);
        Ok(())
    }

    fn name(
        &mut self,
        entry: &Entry,
        (text, place): &Placed,
        doc: &str,
        role: Role,
        of: Type,
    ) -> Result<(), Diagnostic> {
        if TAKEN.contains(&text.as_str()) {
            let message = format!("{text} has a meaning of its own and cannot be a name");
            return Err(Diagnostic::of(&codes::rules::NAME_TAKEN, message).at(place.clone()));
        }
        let builds = self.scope(entry)?;
        if let Some(&slot) = self.index.get(text) {
            self.has.extend(builds.iter().map(|build| (slot, *build)));
            let old = &mut self.book.names[usize::from(slot)];
            if of != Type::Nothing && old.of != Type::Nothing && old.of != of {
                let message = format!("{text} is {} here and {} elsewhere", of.with_article(), old.of.with_article());
                return Err(Diagnostic::of(&codes::rules::DEFINED, message).at(place.clone()));
            }
            if old.of == Type::Nothing {
                old.of = of;
            }
            if old.role != role && old.role != Role::Gather {
                old.role = if old.role == Role::Field || role == Role::Field { Role::Field } else { Role::Either };
            }
            return Ok(());
        }
        let group = self.book.groups.iter().position(|group| group.name == entry.group).unwrap_or(0);
        let group = u8::try_from(group).map_err(|_| too_many())?;
        let slot = Slot::try_from(self.book.names.len()).map_err(|_| too_many())?;
        self.index.insert(text.clone(), slot);
        self.has.extend(builds.iter().map(|build| (slot, *build)));
        self.book.names.push(Name { text: text.clone(), doc: doc.to_string(), of, role, group });
        Ok(())
    }

    /// The builds that an entry is for.
    pub(super) fn scope(&self, entry: &Entry) -> Result<Vec<u8>, Diagnostic> {
        if entry.scope.is_empty() {
            return Ok((0..self.book.builds.len()).filter_map(|place| u8::try_from(place).ok()).collect());
        }
        let build = |name: &Placed| {
            let known = self.book.builds.iter().map(|build| &*build.name);
            self.book.build(&name.0).ok_or_else(|| unknown("build", name, known))
        };
        entry.scope.iter().map(build).collect()
    }

    /// Second round: formulas, with every name known.
    fn define(&mut self, home: usize, sheet: &Sheet) -> Result<(), Diagnostic> {
        let count = self.book.names.len();
        for build in &mut self.book.builds {
            build.rules.resize(count, None);
        }
        for entry in &sheet.entries {
            let scope = self.scope(entry)?;
            let (made, written) = match &entry.body {
                Body::Rule(rule) => {
                    let written = RuleEntry {
                        value: rule.value.as_ref().map(|value| self.with_pieces(value)),
                        ..(**rule).clone()
                    };
                    (self.rule(&written, &scope)?, written)
                }
                Body::Gather(gather) => self.gather(gather, &scope)?,
                Body::Build(..)
                | Body::Scope
                | Body::Table(..)
                | Body::Data(..)
                | Body::Check(_)
                | Body::Group(_)
                | Body::Page(..)
                | Body::Piece(_)
                | Body::Caution(_)
                | Body::Label(_) => continue,
            };
            let place = u16::try_from(self.book.rules.len()).map_err(|_| too_many())?;
            self.book.rules.push(made);
            for name in &written.names {
                self.put(entry.instead, &scope, name, place)?;
            }
            self.homes.push((home, written));
        }
        Ok(())
    }

    fn put(&mut self, instead: bool, scope: &[u8], name: &Placed, place: u16) -> Result<(), Diagnostic> {
        let slot = self.look_up(name, scope)?;
        for build in scope {
            let there = &mut self.book.builds[usize::from(*build)];
            if there.rules[usize::from(slot)].is_some() != instead {
                let (name, at) = name;
                let message = if instead {
                    format!("there is no {name} for {} to replace", there.name)
                } else {
                    format!("{name} is defined twice for {}; write `instead` before the one that counts", there.name)
                };
                return Err(Diagnostic::of(&codes::rules::DEFINED, message).at(at.clone()));
            }
            there.rules[usize::from(slot)] = Some(place);
            if !instead {
                there.order.push(slot);
            }
        }
        Ok(())
    }

    fn gather(&self, entry: &GatherEntry, scope: &[u8]) -> Result<(Rule, RuleEntry), Diagnostic> {
        let slots = entry.parts.iter().map(|part| self.look_up(part, scope)).collect::<Result<Vec<_>, _>>()?;
        let value = match entry.way {
            Way::Around => Node::Common(slots.clone()),
            Way::Size | Way::With | Way::Row => Node::Several(slots.clone()),
        };
        let rule = Rule {
            value: Some(value),
            toward: None,
            when: None,
            given: true,
            optional: false,
            aside: false,
            by: None,
            low: None,
            high: None,
            words: None,
            gather: Some(entry.way),
            reads: slots,
            source: String::new(),
        };
        let written = RuleEntry {
            names: vec![entry.name.clone()],
            takes: None,
            value: None,
            toward: None,
            when: None,
            given: true,
            optional: None,
            aside: false,
            by: None,
            low: None,
            high: None,
            source: String::new(),
            doc: entry.doc.clone(),
        };
        Ok((rule, written))
    }

    fn rule(&mut self, entry: &RuleEntry, scope: &[u8]) -> Result<Rule, Diagnostic> {
        if let Some(fault) = idle_clause(entry) {
            return Err(fault);
        }
        let node = |term: &Option<Term>| term.as_ref().map(|term| self.node(term, scope)).transpose();
        let value = node(&entry.value)?;
        let when = node(&entry.when)?;
        let high = node(&entry.high)?;
        let low = match &entry.low {
            Some((low, strict)) => Some((self.node(low, scope)?, *strict)),
            None => None,
        };
        let mut reads = Vec::new();
        for node in value.iter().chain(&when) {
            node.each_slot(&mut |slot| {
                if !reads.contains(&slot) {
                    reads.push(slot);
                }
            });
        }
        let words = match &entry.takes {
            Some(Takes::Words(words)) => {
                self.book.tables.push(Table::of_words("", words.clone()));
                Some(self.book.tables.len() - 1)
            }
            Some(Takes::From(table)) => {
                let tables = &self.book.tables;
                let known = tables.iter().map(|one| one.name.as_str()).filter(|name| !name.is_empty());
                let place = tables.iter().position(|one| one.name == table.0);
                Some(place.ok_or_else(|| unknown("table", table, known))?)
            }
            Some(Takes::Plain(_)) | None => None,
        };
        Ok(Rule {
            value,
            toward: entry.toward.as_ref().map(|(toward, _)| *toward),
            when,
            given: entry.given,
            optional: entry.optional.is_some(),
            aside: entry.aside,
            by: entry.by.as_ref().map(means).transpose()?,
            low,
            high,
            words: words.map(u16::try_from).transpose().map_err(|_| too_many())?,
            gather: None,
            reads,
            source: entry.source.clone(),
        })
    }

    /// The slot of a name that one at least of the builds has.
    pub(super) fn look_up(&self, name: &Placed, scope: &[u8]) -> Result<Slot, Diagnostic> {
        let (text, place) = name;
        if text.contains('#') {
            return Err(Diagnostic::of(&codes::rules::SYNTAX, "`#` works only in an entry with `#` in its name")
                .at(place.clone()));
        }
        let Some(&slot) = self.index.get(text) else {
            return Err(unknown("name", name, self.index.keys().map(String::as_str)));
        };
        if scope.iter().any(|build| self.has.contains(&(slot, *build))) {
            return Ok(slot);
        }
        let names = |wanted: &dyn Fn(u8) -> bool| -> Vec<&str> {
            let builds = (0..).zip(&self.book.builds);
            builds.filter(|(place, _)| wanted(*place)).map(|(_, build)| &*build.name).collect()
        };
        let here = names(&|build| scope.contains(&build));
        let there = names(&|build| self.has.contains(&(slot, build)));
        let message = format!("{text} is for {}, and this is for {}", list(&there, "and"), list(&here, "and"));
        Err(Diagnostic::of(&codes::rules::OTHER_BUILD, message).at(place.clone()))
    }

    /// A term with its names looked up.
    pub(super) fn node(&self, term: &Term, scope: &[u8]) -> Result<Node, Diagnostic> {
        let inner = |term: &Term| self.node(term, scope).map(Box::new);
        let fault = |message: &'static str| Diagnostic::of(&codes::rules::CALL, message).at(term.span.clone());
        Ok(match &term.form {
            Form::Literal(quantity) => Node::Amount(quantity.amount.clone(), quantity.kind),
            Form::Word(word) => Node::Word(word.as_str().into()),
            Form::This => return Err(fault("`#` works only in an entry with `#` in its name")),
            Form::Name(name) if name == "idle" => Node::Idle,
            Form::Name(name) if name == "missing" => Node::Missing,
            Form::Name(name) => Node::Slot(self.look_up(&(name.clone(), term.span.clone()), scope)?),
            Form::Negative(of) => Node::Negative(inner(of)?),
            Form::Not(of) => Node::Not(inner(of)?),
            Form::Pair(op, left, right) => {
                Node::Pair(*op, Box::new((self.node(left, scope)?, self.node(right, scope)?)))
            }
            Form::Choice(test, then, other) => {
                Node::Choice(Box::new((self.node(test, scope)?, self.node(then, scope)?, self.node(other, scope)?)))
            }
            Form::Call(name, args) if name == "given" => match args.as_slice() {
                [Term { form: Form::Name(field), span }] => self.given(field, span, scope)?,
                _ => return Err(fault("given takes the name of a field")),
            },
            Form::Call(name, args) if LOOKUPS.contains(&name.as_str()) => self.lookup(name, args, &term.span, scope)?,
            Form::Call(name, args) if native(name).is_some() => self.native(name, args, &term.span, scope)?,
            Form::Of(part, whole) => self.part(part, whole, scope)?,
            Form::Call(name, args) => {
                let func = self.func(name, args.len(), &term.span)?;
                Node::Call(func, args.iter().map(|arg| self.node(arg, scope)).collect::<Result<_, _>>()?)
            }
        })
    }

    fn given(&self, field: &str, span: &Span, scope: &[u8]) -> Result<Node, Diagnostic> {
        let slot = self.look_up(&(field.to_string(), span.clone()), scope)?;
        let what = match self.book.name(slot).role {
            Role::Field | Role::Either => return Ok(Node::Given(slot)),
            Role::Figure => "is worked out",
            Role::Gather => "stands for several",
        };
        Err(Diagnostic::of(&codes::rules::CALL, format!("given takes the name of a field, and {field} {what}"))
            .at(span.clone()))
    }

    fn func(&self, name: &str, count: usize, span: &Span) -> Result<Func, Diagnostic> {
        let Some((_, func)) = FUNCS.iter().find(|(one, _)| *one == name) else {
            let natives = NATIVES.iter().map(|native| native.name);
            let known = FUNCS.iter().map(|(one, _)| *one).chain(["given"]).chain(natives);
            return Err(unknown("function", &(name.to_string(), span.start..span.start + name.len()), known));
        };
        let several = matches!(func, Func::Greatest | Func::Least);
        if !several && count != 1 {
            return Err(
                Diagnostic::of(&codes::rules::CALL, format!("{name} takes one argument, not {count}")).at(span.clone())
            );
        }
        Ok(*func)
    }

    /// The build of a design that names none: the default of the field.
    fn usual_build(&self) -> u8 {
        let rule = self.book.build_field.and_then(|slot| self.book.rule(0, slot));
        match rule.and_then(|rule| rule.value.as_ref()) {
            Some(Node::Word(word)) => self.book.build(word).unwrap_or_default(),
            _ => 0,
        }
    }

    fn finish(mut self) -> Book {
        let mut sorted: Vec<Slot> = self.index.values().copied().collect();
        sorted.sort_by(|left, right| self.book.name(*left).text.cmp(&self.book.name(*right).text));
        self.book.sorted = sorted;
        for build in &mut self.book.builds {
            let names = &self.book.names;
            build.order.sort_by_key(|slot| (names[usize::from(*slot)].group, *slot));
        }
        self.book.build_field = self.book.slot(BUILD);
        self.book.usual_build = self.usual_build();
        self.book
    }
}

/// What a field takes, as the type of its values.
fn taken(takes: &Takes) -> Type {
    match takes {
        Takes::Words(_) | Takes::From(_) => Type::Word,
        Takes::Plain(kind) => match kind.as_str() {
            "text" => Type::Text,
            "whole" => Type::Whole,
            "share" => Type::Share,
            "lengths" => Type::List(Kind::LENGTH),
            other => Type::Quantity(Kind::named(other).unwrap_or_default()),
        },
    }
}

/// A list of words in which none stands twice.
fn distinct(words: &[Placed]) -> Result<Vec<String>, Diagnostic> {
    let mut list: Vec<String> = Vec::new();
    for (word, place) in words {
        if list.contains(word) {
            return Err(
                Diagnostic::of(&codes::rules::DEFINED, format!("\"{word}\" is in its table twice")).at(place.clone())
            );
        }
        list.push(word.clone());
    }
    Ok(list)
}

/// A clause that could never do anything.
fn idle_clause(entry: &RuleEntry) -> Option<Diagnostic> {
    let name = entry.names.first().map_or("", |(name, _)| name);
    if let Some(place) = &entry.optional
        && (entry.value.is_some() || !entry.given)
    {
        return Some(
            Diagnostic::of(&codes::rules::RANGE, format!("{name} has a value, so it is never left out"))
                .at(place.clone()),
        );
    }
    let bound = entry.low.as_ref().map(|(low, _)| low).or(entry.high.as_ref());
    if let Some(bound) = bound
        && !entry.given
    {
        let message = format!("only what a person gives has a range, and {name} is worked out");
        return Some(Diagnostic::of(&codes::rules::RANGE, message).at(bound.span.clone()));
    }
    None
}

/// What a name is measured or made with.
fn means((name, place): &Placed) -> Result<Means, Diagnostic> {
    match MEANS.iter().find(|(one, ..)| one == name) {
        Some((_, means, _)) => Ok(*means),
        None => Err(unknown("means", &(name.clone(), place.clone()), MEANS.iter().map(|(one, ..)| *one))),
    }
}

/// What a formula finds, if it is a function of the program.
fn record(value: &Term) -> Option<Type> {
    let Form::Call(name, _) = &value.form else { return None };
    native(name).map(Type::Record)
}

/// The table that the words of a rule are from.
fn table_of(rule: &RuleEntry) -> Option<&str> {
    if let Some(Takes::From((table, _))) = &rule.takes {
        return Some(table);
    }
    let Form::Call(name, args) = &rule.value.as_ref()?.form else { return None };
    let Form::Name(path) = &args.first()?.form else { return None };
    path.split_once('.').filter(|_| name == "smallest").map(|(table, _)| table)
}
