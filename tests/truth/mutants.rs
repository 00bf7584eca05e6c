//! Mistakes put into the rules one at a time: numbers, operators, names, rounding, digits of tables. Some row must notice.
//!
//! `cargo test` draws a few, `.ci/long` more, `benches/mutants.sh` takes all. A mistake that changes nothing that anyone
//! could see is in `equivalent.txt` with its proof.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use benchrule::measure::{Kind, Real, Toward};
use benchrule::rules::book::{Book, Cell, Slot, Type};
use benchrule::rules::entry::{CutRule, PieceRule};
use benchrule::rules::node::{Func, Node};
use benchrule::rules::term::Op;
use benchrule::rules::unpack;
use num_traits::{One, Signed, ToPrimitive};

use crate::long::{report, times};
use crate::row::{folder, rows};
use crate::runner::{cases, is_noticed};

/// A mistake.
pub struct Mutant {
    /// What is changed, and to what.
    name: String,
    /// The subject of the rows that are asked first.
    subject: String,
    change: Change,
}

enum Change {
    /// Another expression in place of one: which tree, which of its nodes.
    Node(usize, usize, Node),
    /// Another way to round: which rule.
    Round(usize, Option<Toward>),
    /// Another amount in a cell: table, column, row.
    Cell(usize, usize, usize, Real),
}

impl Mutant {
    fn book(&self) -> Book {
        let mut book = unpack();
        match &self.change {
            Change::Node(tree, node, other) => {
                let mut at = 0;
                let mut put = |one: &mut Node| {
                    if at == *node {
                        *one = other.clone();
                    }
                    at += 1;
                };
                walk(trees(&mut book).swap_remove(*tree).1, &mut put);
            }
            Change::Round(rule, toward) => book.rules[*rule].toward = *toward,
            Change::Cell(table, column, row, amount) => {
                book.tables[*table].columns[*column].cells[*row] = Some(Cell::Amount(amount.clone()));
            }
        }
        book
    }
}

/// What an expression decides.
#[derive(Clone)]
pub struct Owner {
    pub name: String,
    pub subject: String,
    /// The build and the slot, where it is a name that follows from it.
    pub of: Option<(u8, Slot)>,
}

impl Owner {
    fn new(name: String, subject: &str) -> Self {
        Self { name, subject: subject.into(), of: None }
    }
}

/// For each rule the first build that has it, and its name there.
pub fn owners(book: &Book) -> BTreeMap<usize, Owner> {
    let mut owners = BTreeMap::new();
    for (build, one) in (0..).zip(&book.builds) {
        for (slot, rule) in (0..).zip(&one.rules) {
            let Some(rule) = rule else { continue };
            let name = &book.name(slot).text;
            let owner = || Owner { of: Some((build, slot)), ..Owner::new(format!("{name} of {}", one.name), name) };
            owners.entry(usize::from(*rule)).or_insert_with(owner);
        }
    }
    owners
}

/// Every expression that decides a value, a check, a piece or a caution.
fn trees(book: &mut Book) -> Vec<(Owner, &mut Node)> {
    let owners = owners(book);
    let mut all = Vec::new();
    for (place, rule) in book.rules.iter_mut().enumerate() {
        let Some(owner) = owners.get(&place) else { continue };
        let of = |what: &str| Owner { name: format!("{}{what}", owner.name), ..owner.clone() };
        all.extend(rule.value.as_mut().map(|node| (of(""), node)));
        all.extend(rule.when.as_mut().map(|node| (of(" when"), node)));
        all.extend(rule.low.as_mut().map(|(node, _)| (of(" least"), node)));
        all.extend(rule.high.as_mut().map(|node| (of(" most"), node)));
    }
    for check in &mut book.checks {
        let name = format!("check {}", check.name);
        all.push((Owner::new(name.clone(), &name), &mut check.test));
        all.extend(check.mend.as_mut().map(|(_, node, _)| (Owner::new(format!("{name} mend"), &name), node)));
    }
    for piece in &mut book.pieces {
        let subject = format!("piece {}: ", piece.name);
        let owner = |detail: &str| Owner::new(format!("{subject}{detail}"), &subject);
        all.extend(details(piece).into_iter().map(|(detail, node)| (owner(detail), node)));
    }
    all
}

/// The expressions of a piece, by the names of its details.
pub fn details(piece: &mut PieceRule) -> Vec<(&'static str, &mut Node)> {
    let of_cut = match &mut piece.cut {
        CutRule::Stick { long, short, mitre, tilt, shows: _, profile } => vec![
            ("long", Some(long)),
            ("short", short.as_mut()),
            ("mitre", mitre.as_mut()),
            ("tilt", tilt.as_mut()),
            ("profile", profile.as_mut()),
        ],
        CutRule::Sheet { height } => vec![("height", Some(height))],
    };
    let of_all = [
        ("when", piece.when.as_mut()),
        ("count", piece.count.as_mut()),
        ("material", Some(&mut piece.material)),
        ("width", Some(&mut piece.width)),
        ("thickness", Some(&mut piece.thickness)),
    ];
    of_all.into_iter().chain(of_cut).filter_map(|(detail, node)| Some((detail, node?))).collect()
}

fn walk(node: &mut Node, see: &mut dyn FnMut(&mut Node)) {
    see(node);
    match node {
        Node::Negative(of)
        | Node::Not(of)
        | Node::Column(_, _, of)
        | Node::Smallest(_, _, of)
        | Node::Part(of, _)
        | Node::Failed(of)
        | Node::Fault(of) => walk(of, see),
        Node::Pair(_, both) => {
            walk(&mut both.0, see);
            walk(&mut both.1, see);
        }
        Node::Choice(ways) => {
            walk(&mut ways.0, see);
            walk(&mut ways.1, see);
            walk(&mut ways.2, see);
        }
        Node::Call(_, args) | Node::Native(_, args) => args.iter_mut().for_each(|arg| walk(arg, see)),
        Node::Amount(..)
        | Node::Word(_)
        | Node::Slot(_)
        | Node::Idle
        | Node::Missing
        | Node::Given(_)
        | Node::Common(_)
        | Node::Several(_)
        | Node::Largest(..)
        | Node::Every(..) => {}
    }
}

/// Every mistake that there may be.
pub fn mutants() -> Vec<Mutant> {
    let mut book = unpack();
    let names = Names::new(&book);
    let mut all = Vec::new();
    for (tree, (owner, root)) in trees(&mut book).into_iter().enumerate() {
        let mut at = 0;
        walk(root, &mut |node| {
            for (what, other) in names.others(node, owner.of) {
                let name = format!("{} [{at}]: {what}", owner.name);
                all.push(Mutant { name, subject: owner.subject.clone(), change: Change::Node(tree, at, other) });
            }
            at += 1;
        });
    }
    for (place, owner) in owners(&book) {
        let other = match book.rules[place].toward {
            Some(Toward::Up) => Toward::Down,
            Some(Toward::Down | Toward::Nearest) => Toward::Up,
            None => continue,
        };
        let name = format!("{}: rounds {other:?}", owner.name);
        all.push(Mutant { name, subject: owner.subject, change: Change::Round(place, Some(other)) });
    }
    for (table, one) in book.tables.iter().enumerate() {
        for (column, of) in one.columns.iter().enumerate() {
            for (row, cell) in of.cells.iter().enumerate() {
                let Some(Cell::Amount(amount)) = cell else { continue };
                let subject = format!("cell {}.{}: {}", one.name, of.name, one.words[row]);
                for (what, other) in digits(amount) {
                    let change = Change::Cell(table, column, row, other);
                    all.push(Mutant { name: format!("{subject} {what}"), subject: subject.clone(), change });
                }
            }
        }
    }
    all
}

/// The amount with each of its digits off by one, or a fraction off by one part.
fn digits(amount: &Real) -> Vec<(String, Real)> {
    let Some(exact) = amount.to_big() else { return vec![] };
    let places = (0..7_u32).find(|places| (&exact * num_bigint::BigInt::from(10).pow(*places)).is_integer());
    let below = exact.denom().to_i64().unwrap_or(0);
    if !exact.denom().is_one() && (below & (below - 1)) == 0 && below <= 128 {
        return vec![(format!("+ 1/{below}"), amount.clone() + Real::ratio(1, below))];
    }
    let Some(places) = places else {
        return vec![("* 1.01".into(), amount.clone() * Real::ratio(101, 100))];
    };
    let digits = (exact.abs() * num_bigint::BigInt::from(10).pow(places)).to_integer().to_string().len();
    (0..digits)
        .map(|digit| {
            let power = i64::try_from(digit).unwrap() - i64::from(places);
            let ten = |power: i64| 10_i64.pow(u32::try_from(power).unwrap());
            let step = if power >= 0 { Real::whole(ten(power)) } else { Real::ratio(1, ten(-power)) };
            (format!("+ 10^{power}"), amount.clone() + step)
        })
        .collect()
}

/// Names that may stand for one another.
struct Names {
    of: Vec<Type>,
    texts: Vec<String>,
    readers: Vec<Vec<Vec<Slot>>>,
    orders: Vec<Vec<Slot>>,
    words: Vec<Vec<String>>,
}

impl Names {
    fn new(book: &Book) -> Self {
        let builds = || (0..).zip(&book.builds);
        Self {
            of: book.names.iter().map(|name| name.of).collect(),
            texts: book.names.iter().map(|name| name.text.clone()).collect(),
            readers: builds().map(|(build, _)| book.readers(build).to_vec()).collect(),
            orders: builds().map(|(_, build)| build.order.clone()).collect(),
            words: book.tables.iter().map(|table| table.words.clone()).collect(),
        }
    }

    /// What may stand by mistake in place of a node, its parts left as they are.
    fn others(&self, node: &Node, of: Option<(u8, Slot)>) -> Vec<(String, Node)> {
        match node {
            Node::Amount(amount, kind) => {
                let other = match *kind {
                    Kind::LENGTH => amount.clone() + Real::ratio(1, 16),
                    _ if amount.is_exact_zero() => Real::ONE,
                    _ => amount.clone() * Real::ratio(11, 10),
                };
                vec![(format!("{} for {}", other.to_text(), amount.to_text()), Node::Amount(other, *kind))]
            }
            Node::Word(word) => self.other_word(word).into_iter().collect(),
            Node::Slot(slot) => self.other_name(*slot, of).into_iter().collect(),
            Node::Not(one) => vec![("without not".into(), (**one).clone())],
            Node::Negative(one) => vec![("without -".into(), (**one).clone())],
            Node::Pair(op, both) => self.other_pair(*op, both),
            Node::Choice(ways) => {
                let (test, yes, no) = &**ways;
                vec![("branches exchanged".into(), Node::Choice(Box::new((test.clone(), no.clone(), yes.clone()))))]
            }
            Node::Call(func, args) => {
                let other = match func {
                    Func::Greatest => Func::Least,
                    Func::Least => Func::Greatest,
                    Func::Floor => Func::Ceiling,
                    Func::Ceiling => Func::Floor,
                    Func::Sine => Func::Cosine,
                    Func::Cosine => Func::Sine,
                    Func::Size | Func::Root | Func::Tangent | Func::ArcSine | Func::ArcCosine | Func::ArcTangent => {
                        return vec![];
                    }
                };
                vec![(format!("{other:?} for {func:?}"), Node::Call(other, args.clone()))]
            }
            Node::Idle
            | Node::Missing
            | Node::Given(_)
            | Node::Common(_)
            | Node::Several(_)
            | Node::Column(..)
            | Node::Smallest(..)
            | Node::Largest(..)
            | Node::Every(..)
            | Node::Native(..)
            | Node::Part(..)
            | Node::Failed(_)
            | Node::Fault(_) => vec![],
        }
    }

    fn other_pair(&self, op: Op, both: &(Node, Node)) -> Vec<(String, Node)> {
        let is_number = |of: Type| matches!(of, Type::Whole | Type::Share | Type::Quantity(Kind::NUMBER));
        let plain = |node: &Node| {
            matches!(node, Node::Amount(_, Kind::NUMBER))
                || matches!(node, Node::Slot(slot) if is_number(self.of[usize::from(*slot)]))
        };
        let other = match op {
            Op::Add => Op::Subtract,
            Op::Subtract => Op::Add,
            // A quotient is of another kind, and does not load.
            Op::Multiply if plain(&both.1) => Op::Divide,
            Op::Divide if plain(&both.1) => Op::Multiply,
            Op::Multiply | Op::Divide => return vec![],
            Op::AtLeast => Op::Above,
            Op::Above => Op::AtLeast,
            Op::AtMost => Op::Below,
            Op::Below => Op::AtMost,
            Op::Equal => Op::Unequal,
            Op::Unequal => Op::Equal,
            Op::And => Op::Or,
            Op::Or => Op::And,
            Op::Else => return vec![("without what follows ??".into(), both.0.clone())],
        };
        let pair = |op| Node::Pair(op, Box::new(both.clone()));
        let mut all = vec![(format!("{} for {}", other.sign(), op.sign()), pair(other))];
        let turned =
            [(Op::AtLeast, Op::AtMost), (Op::AtMost, Op::AtLeast), (Op::Above, Op::Below), (Op::Below, Op::Above)];
        let turned = turned.iter().find(|(one, _)| *one == op).map(|(_, turned)| *turned);
        all.extend(turned.map(|turned| (format!("{} for {}", turned.sign(), op.sign()), pair(turned))));
        all
    }

    /// The next word of the first table that has it.
    fn other_word(&self, word: &str) -> Option<(String, Node)> {
        let words = self.words.iter().find(|words| words.len() > 1 && words.iter().any(|one| one == word))?;
        let at = words.iter().position(|one| one == word)?;
        let other = &words[(at + 1) % words.len()];
        Some((format!("{other} for {word}"), Node::Word(other.as_str().into())))
    }

    /// The next name of the same kind that the build has, and that does not follow from what is worked out.
    fn other_name(&self, slot: Slot, of: Option<(u8, Slot)>) -> Option<(String, Node)> {
        let (build, from) = of.map_or((0, None), |(build, from)| (usize::from(build), Some(from)));
        let mut later: BTreeSet<Slot> = from.into_iter().collect();
        let mut open: Vec<Slot> = later.iter().copied().collect();
        while let Some(one) = open.pop() {
            let readers = &self.readers[build][usize::from(one)];
            open.extend(readers.iter().copied().filter(|reader| later.insert(*reader)));
        }
        let order = &self.orders[build];
        let at = order.iter().position(|one| *one == slot)?;
        let same = |one: &&Slot| self.of[usize::from(**one)] == self.of[usize::from(slot)] && !later.contains(one);
        let other = order.iter().cycle().skip(at + 1).take(order.len() - 1).find(same)?;
        let text = |slot: Slot| &self.texts[usize::from(slot)];
        Some((format!("{} for {}", text(*other), text(slot)), Node::Slot(*other)))
    }
}

/// Mistakes that change nothing that anyone could see: name, two blanks, proof.
const EQUIVALENT: &str = "equivalent.txt";

/// Mistakes that rows do not notice yet, by their names; the list may only shrink.
const SURVIVORS: &str = "survivors.txt";

/// So many are drawn in `cargo test`.
const FEW: u64 = 30;

#[test]
fn mistakes_in_the_rules_are_noticed() {
    let every = std::env::var_os("MUTANTS").is_some();
    let rows = rows();
    let cases = cases(&rows);
    let all = mutants();
    let count = if every { all.len() } else { usize::try_from(FEW * times()).unwrap().min(all.len()) };
    // A step that shares no factor with the number of mistakes comes by each of them once.
    let seed: usize = std::env::var("SEED").ok().and_then(|seed| seed.parse().ok()).unwrap_or(0);
    let drawn = (0..count).map(|at| &all[(seed + at * 7919) % all.len()]);
    let alive: BTreeSet<&str> = drawn
        .filter(|mutant| !is_noticed(&cases, &mutant.subject, mutant.book()))
        .map(|mutant| mutant.name.as_str())
        .collect();
    let read = |file: &str| fs::read_to_string(folder().join(file)).unwrap_or_default();
    let (equivalent, known) = (read(EQUIVALENT), read(SURVIVORS));
    let equivalent: BTreeSet<&str> = equivalent.lines().filter_map(|line| Some(line.split_once("  ")?.0)).collect();
    let alive: BTreeSet<&str> = alive.difference(&equivalent).copied().collect();
    report(&format!("{} of {count} mistakes in the rules noticed, out of {}", count - alive.len(), all.len()));
    if every && std::env::var_os("BLESS").is_some() {
        let text = alive.iter().fold(String::new(), |text, name| text + *name + "\n");
        fs::write(folder().join(SURVIVORS), text).unwrap();
        return;
    }
    let known: BTreeSet<&str> = known.lines().collect();
    let new: Vec<&&str> = alive.iter().filter(|name| !known.contains(**name)).collect();
    assert!(new.is_empty(), "no row of tests/truth notices these mistakes: {new:#?}");
}
