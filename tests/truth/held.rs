//! What is held is measured: each rule is shifted by itself, and some row must fail.

use std::collections::BTreeSet;
use std::fs;

use benchrule::measure::{Kind, Real};
use benchrule::rules::book::{Book, Cell, Role, Type};
use benchrule::rules::entry::PieceRule;
use benchrule::rules::node::Node;
use benchrule::rules::term::Op;
use benchrule::rules::unpack;

use crate::long::report;
use crate::mutants::{Owner, details, owners};
use crate::row::{folder, rows};
use crate::runner::{cases, is_noticed};

/// One place of the rules that is shifted.
struct Shift {
    /// What a contributor calls it.
    name: String,
    /// The subject of the rows that are asked first.
    subject: String,
    /// Shifts it.
    change: Box<dyn Fn(&mut Book)>,
}

/// A length is off by a graduation, everything else by a hundredth: enough to be seen, and too little to be refused.
fn shifted(node: &Node, of: Type) -> Option<Node> {
    // What is never there is there.
    if let (Node::Idle, Type::Quantity(kind)) = (node, of) {
        return Some(Node::Amount(Real::ONE, kind));
    }
    let amount = |op: Op, by: Real, kind: Kind| Some(Node::Pair(op, Box::new((node.clone(), Node::Amount(by, kind)))));
    match of {
        Type::Quantity(Kind::LENGTH) => amount(Op::Add, Real::ratio(1, 16), Kind::LENGTH),
        Type::Quantity(_) | Type::Share => amount(Op::Multiply, Real::ratio(101, 100), Kind::NUMBER),
        Type::Whole => amount(Op::Add, Real::ONE, Kind::NUMBER),
        Type::Truth => Some(Node::Not(Box::new(node.clone()))),
        Type::Word | Type::Text | Type::List(_) | Type::Record(_) | Type::Size | Type::Nothing => None,
    }
}

/// Each word of a table turned into the one behind it, and a word of none into another.
fn neighbour(node: &Node, book: &Book) -> Node {
    let word = |word: &str| Node::Word(word.into());
    let mut seen = BTreeSet::new();
    let pairs = book.tables.iter().flat_map(|table| table.words.iter().zip(table.words.iter().cycle().skip(1)));
    pairs.filter(|(is, next)| is != next && seen.insert(is.as_str())).fold(word("other"), |rest, (is, next)| {
        let test = Node::Pair(Op::Equal, Box::new((node.clone(), word(is))));
        Node::Choice(Box::new((test, word(next), rest)))
    })
}

/// Every place of the rules that a row must hold.
fn shifts(book: &mut Book) -> Vec<Shift> {
    let mut all = Vec::new();
    for (place, Owner { name, subject, of }) in owners(book) {
        let Some((_, slot)) = of else { continue };
        let known = book.name(slot);
        let is_worked_out = matches!(known.role, Role::Figure | Role::Either);
        let Some(value) = book.rules[place].value.as_ref().filter(|_| is_worked_out) else { continue };
        let changed = if known.of == Type::Word { Some(neighbour(value, book)) } else { shifted(value, known.of) };
        let Some(changed) = changed else { continue };
        let change = Box::new(move |book: &mut Book| book.rules[place].value = Some(changed.clone()));
        all.push(Shift { name, subject, change });
    }
    for (place, check) in book.checks.iter().enumerate() {
        all.push(Shift {
            name: format!("check {}", check.name),
            subject: format!("check {}", check.name),
            change: Box::new(move |book| book.checks[place].fires_if = !book.checks[place].fires_if),
        });
    }
    for place in 0..book.pieces.len() {
        let piece = &mut book.pieces[place];
        let subject = format!("piece {}: ", piece.name);
        let sizes = details(piece).into_iter().filter_map(|(detail, _)| Some((detail, size(detail)?)));
        for (detail, of) in sizes {
            let name = format!("{subject}{detail}");
            let change = Box::new(move |book: &mut Book| shift_piece(&mut book.pieces[place], detail, of));
            all.push(Shift { subject: name.clone(), name, change });
        }
    }
    for (place, table) in book.tables.iter().enumerate() {
        for (at, column) in table.columns.iter().enumerate() {
            if !column.cells.iter().flatten().any(|cell| matches!(cell, Cell::Amount(_))) {
                continue;
            }
            all.push(Shift {
                name: format!("column {}.{}", table.name, column.name),
                subject: format!("cell {}.{}", table.name, column.name),
                change: Box::new(move |book| {
                    for cell in book.tables[place].columns[at].cells.iter_mut().flatten() {
                        if let Cell::Amount(amount) = cell {
                            *amount = amount.clone() * Real::ratio(101, 100);
                        }
                    }
                }),
            });
        }
    }
    all
}

/// What a detail of a piece measures, if it measures anything.
fn size(detail: &str) -> Option<Type> {
    match detail {
        "width" | "thickness" | "height" | "long" | "short" => Some(Type::Quantity(Kind::LENGTH)),
        "mitre" | "tilt" => Some(Type::Quantity(Kind::ANGLE)),
        _ => None,
    }
}

fn shift_piece(piece: &mut PieceRule, detail: &str, of: Type) {
    for (_, node) in details(piece).into_iter().filter(|(name, _)| *name == detail) {
        *node = shifted(node, of).expect("an amount can be shifted");
    }
}

/// The file of what no row holds yet, one name a line.
const NOT_HELD: &str = "not-held.txt";

#[test]
fn every_rule_is_held() {
    let rows = rows();
    let cases = cases(&rows);
    let all = shifts(&mut unpack());
    let loose: BTreeSet<String> = all
        .iter()
        .filter(|shift| {
            let mut book = unpack();
            (shift.change)(&mut book);
            !is_noticed(&cases, &shift.subject, book)
        })
        .map(|shift| shift.name.clone())
        .collect();
    let text = loose.iter().fold(String::new(), |text, name| text + name.as_str() + "\n");
    if std::env::var_os("BLESS").is_some() {
        fs::write(folder().join(NOT_HELD), &text).unwrap();
        return;
    }
    let wanted = fs::read_to_string(folder().join(NOT_HELD)).unwrap();
    let wanted: BTreeSet<&str> = wanted.lines().collect();
    let new: Vec<&String> = loose.iter().filter(|name| !wanted.contains(name.as_str())).collect();
    assert!(new.is_empty(), "no row fails where these are shifted; each wants a row in tests/truth/*.tsv: {new:#?}");
    let held: Vec<&&str> = wanted.iter().filter(|name| !loose.contains(**name)).collect();
    assert!(held.is_empty(), "these are held now; take them off tests/truth/not-held.txt: {held:#?}");
    report(&format!("{} of {} places of the rules are held", all.len() - loose.len(), all.len()));
}
