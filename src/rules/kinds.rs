//! What the values of each name are, inferred from the formulas; what does not go together is refused.

// Of the forms looked up, each question is about a few.
#![allow(clippy::wildcard_enum_match_arm)]

use super::book::{FUNCS, Func, Node, Slot, Type};
use super::native::{NATIVES, native};
use super::resolve::{LOOKUPS, Maker};
use super::term::{Form, Op, RuleEntry, Term};
use crate::diag::{Diagnostic, Span, codes, near, says};
use crate::measure::Kind;

impl Maker<'_> {
    /// Gives every name its kind.
    pub(super) fn infer(&mut self) -> Result<(), Diagnostic> {
        for build in (0_u8..).take(self.book.builds.len()) {
            for slot in self.book.builds[usize::from(build)].order.clone() {
                self.type_of(build, slot, &mut Vec::new())?;
            }
        }
        Ok(())
    }

    fn type_of(&mut self, build: u8, slot: Slot, path: &mut Vec<Slot>) -> Result<Type, Diagnostic> {
        let known = self.book.name(slot).of;
        let Some(place) = self.book.builds[usize::from(build)].rules[usize::from(slot)].map(usize::from) else {
            return Ok(known);
        };
        if path.contains(&slot) || self.typed.contains(&(build, slot)) {
            return Ok(known);
        }
        path.push(slot);
        let (home, entry) = self.homes[place].clone();
        let found = match &self.book.rules[place].value {
            Some(Node::Common(slots) | Node::Several(slots)) if known == Type::Nothing => {
                match slots.first().copied() {
                    Some(first) => self.type_of(build, first, path),
                    None => Ok(known),
                }
            }
            Some(Node::Common(_) | Node::Several(_)) => Ok(known),
            _ => self.type_of_rule(build, slot, &entry, path),
        };
        let found = found.map_err(|found| self.sheets[home].inside(found))?;
        self.book.names[usize::from(slot)].of = found;
        path.pop();
        self.typed.insert((build, slot));
        Ok(found)
    }

    fn type_of_rule(
        &mut self,
        build: u8,
        slot: Slot,
        entry: &RuleEntry,
        path: &mut Vec<Slot>,
    ) -> Result<Type, Diagnostic> {
        let known = self.book.name(slot).of;
        let name = self.book.name(slot).text.clone();
        let mut found = known;
        if let Some(value) = &entry.value {
            let got = self.type_of_term(build, value, path)?;
            if !alike(known, got) && known != Type::Nothing {
                let message =
                    format!("{name} is {}, but its formula gives {}", known.with_article(), got.with_article());
                return Err(Diagnostic::of(&codes::rules::KIND, message).at(value.span.clone()));
            }
            if known == Type::Nothing {
                found = got;
            }
            self.only_listed_words(build, slot, value)?;
        }
        self.book.names[usize::from(slot)].of = found;
        if let Some(when) = &entry.when {
            let got = self.type_of_term(build, when, path)?;
            if got != Type::Truth {
                let message = format!("`when` wants a condition, not {}", got.with_article());
                return Err(Diagnostic::of(&codes::rules::CONDITION_WANTED, message).at(when.span.clone()));
            }
        }
        for bound in entry.low.iter().map(|(low, _)| low).chain(&entry.high) {
            let got = self.type_of_term(build, bound, path)?;
            if !alike(found, got) || kind_of(found).is_none() {
                let message = format!("{name} is {}, and this bound {}", found.with_article(), got.with_article());
                return Err(Diagnostic::of(&codes::rules::KIND, message).at(bound.span.clone()));
            }
        }
        if let Some((_, place)) = &entry.toward
            && !matches!(found, Type::Quantity(Kind::LENGTH) | Type::List(Kind::LENGTH))
        {
            let message = format!("only a length is rounded to the tape, and {name} is {}", found.with_article());
            return Err(Diagnostic::of(&codes::rules::KIND, message).at(place.clone()));
        }
        Ok(found)
    }

    /// The type of a term in a build.
    pub(super) fn type_of_term(&mut self, build: u8, term: &Term, path: &mut Vec<Slot>) -> Result<Type, Diagnostic> {
        let fault = |says: String| Diagnostic::of(&codes::rules::KIND, says).at(term.span.clone());
        match &term.form {
            Form::Literal(quantity) => Ok(Type::Quantity(quantity.kind)),
            Form::Word(_) => Ok(Type::Word),
            Form::This => Ok(Type::Whole),
            Form::Name(name) if name == "idle" || name == "missing" => Ok(Type::Nothing),
            Form::Name(name) => {
                let slot = self.look_up(&(name.clone(), term.span.clone()), &[build]);
                // A name of another build has a kind all the same; here it is idle.
                match slot.or_else(|found| self.index.get(name).copied().ok_or(found)) {
                    Ok(slot) => self.type_of(build, slot, path),
                    Err(found) => Err(found),
                }
            }
            Form::Negative(of) => match self.type_of_term(build, of, path)? {
                got @ (Type::Quantity(_) | Type::Whole | Type::Share | Type::Nothing) => Ok(got),
                got @ (Type::Word | Type::Text | Type::Truth | Type::Size | Type::List(_) | Type::Record(_)) => {
                    Err(fault(format!("cannot negate {}", got.with_article())))
                }
            },
            Form::Not(of) => {
                let got = self.type_of_term(build, of, path)?;
                let refused = || fault(format!("`!` wants a condition, not {}", got.with_article()));
                if got == Type::Truth { Ok(got) } else { Err(refused()) }
            }
            Form::Pair(op, left, right) => {
                let types = (self.type_of_term(build, left, path)?, self.type_of_term(build, right, path)?);
                if let (Form::Name(name), Form::Word(_)) = (&left.form, &right.form) {
                    self.listed(build, name, right)?;
                }
                pair_type(*op, types.0, types.1).map_err(|says| {
                    let bare = |of: Type| kind_of(of) == Some(Kind::NUMBER);
                    let other = |of: Type| kind_of(of).is_some_and(|kind| kind != Kind::NUMBER);
                    let lacks_unit = bare(types.0) && other(types.1) || other(types.0) && bare(types.1);
                    let code = if lacks_unit { &codes::rules::UNIT_MISSING } else { &codes::rules::KIND };
                    Diagnostic { code, ..fault(says) }
                })
            }
            Form::Choice(test, then, other) => {
                let test = (self.type_of_term(build, test, path)?, test.span.clone());
                if test.0 != Type::Truth {
                    let message = format!("a choice wants a condition, not {}", test.0.with_article());
                    return Err(Diagnostic::of(&codes::rules::CONDITION_WANTED, message).at(test.1));
                }
                let then = self.type_of_term(build, then, path)?;
                let other = self.type_of_term(build, other, path)?;
                either(then, other).ok_or_else(|| {
                    fault(format!("the two ways are {} and {}", then.with_article(), other.with_article()))
                })
            }
            Form::Call(name, _) if name == "given" => Ok(Type::Truth),
            Form::Call(name, args) if LOOKUPS.contains(&name.as_str()) => {
                self.type_of_lookup(build, name, args, &term.span, path)
            }
            Form::Call(name, args) if native(name).is_some() => self.type_of_native(build, name, args, path),
            Form::Of(..) => {
                let node = self.node(term, &[build]).or_else(|_| self.node(term, &self.everywhere()))?;
                Ok(self.book.type_found(&node))
            }
            Form::Call(name, args) => {
                let types =
                    args.iter().map(|arg| self.type_of_term(build, arg, path)).collect::<Result<Vec<_>, _>>()?;
                call_type(name, &types).map_err(fault)
            }
        }
    }

    fn everywhere(&self) -> Vec<u8> {
        (0_u8..).take(self.book.builds.len()).collect()
    }

    fn type_of_lookup(
        &mut self,
        build: u8,
        name: &str,
        args: &[Term],
        span: &Span,
        path: &mut Vec<Slot>,
    ) -> Result<Type, Diagnostic> {
        let node = self.lookup(name, args, span, &self.everywhere())?;
        match node {
            Node::Smallest(table, column, _) => {
                let wanted = self.book.type_found(&Node::Largest(table, column));
                if let Some(arg) = args.get(1) {
                    let got = self.type_of_term(build, arg, path)?;
                    if !alike(wanted, got) {
                        let message = format!("the column has {}, not {}", wanted.with_article(), got.with_article());
                        return Err(Diagnostic::of(&codes::rules::KIND, message).at(arg.span.clone()));
                    }
                }
                Ok(Type::Word)
            }
            Node::Largest(..) => Ok(self.book.type_found(&node)),
            Node::Every(table, column) => Ok(match self.book.type_found(&Node::Largest(table, column)) {
                Type::Quantity(kind) => Type::List(kind),
                other => other,
            }),
            Node::Failed(_) => Ok(Type::Truth),
            _ => Ok(Type::Text),
        }
    }

    fn type_of_native(
        &mut self,
        build: u8,
        name: &str,
        args: &[Term],
        path: &mut Vec<Slot>,
    ) -> Result<Type, Diagnostic> {
        let place = native(name).unwrap_or_default();
        for (arg, (called, wanted, _)) in args.iter().zip(NATIVES[usize::from(place)].takes) {
            let got = self.type_of_term(build, arg, path)?;
            if !alike(*wanted, got) {
                let message =
                    format!("{name} takes {} as its {called}, not {}", wanted.with_article(), got.with_article());
                return Err(Diagnostic::of(&codes::rules::KIND, message).at(arg.span.clone()));
            }
        }
        Ok(Type::Record(place))
    }

    /// Refuses a default that is not one of the words that the field takes.
    fn only_listed_words(&self, build: u8, slot: Slot, value: &Term) -> Result<(), Diagnostic> {
        match &value.form {
            Form::Word(_) => {
                let name = self.book.name(slot).text.clone();
                self.listed(build, &name, value)
            }
            Form::Choice(_, one, other) | Form::Pair(Op::Else, one, other) => {
                self.only_listed_words(build, slot, one)?;
                self.only_listed_words(build, slot, other)
            }
            Form::Literal(_)
            | Form::Name(_)
            | Form::This
            | Form::Negative(_)
            | Form::Not(_)
            | Form::Pair(..)
            | Form::Of(..)
            | Form::Call(..) => Ok(()),
        }
    }

    /// Refuses a word that a name never has.
    fn listed(&self, build: u8, name: &str, term: &Term) -> Result<(), Diagnostic> {
        let Form::Word(word) = &term.form else {
            return Ok(());
        };
        let words =
            self.index.get(name).and_then(|slot| self.book.rule(build, *slot)).and_then(|rule| self.book.words(rule));
        let Some(words) = words.filter(|words| !words.contains(word)) else { return Ok(()) };
        let says = says!("{} is never \"{}\"", name, word);
        let found = Diagnostic::of(&codes::rules::WORD_UNKNOWN, says).at(term.span.clone());
        Err(match near(word, words.iter().map(String::as_str)).first() {
            Some(first) => found.instead(format!("\"{first}\"")),
            None => found,
        })
    }
}

/// Whether a value of the second type may stand where the first is wanted.
pub(super) fn alike(wanted: Type, got: Type) -> bool {
    let plain = |of: Type| if matches!(of, Type::Whole | Type::Share) { Type::Quantity(Kind::NUMBER) } else { of };
    plain(wanted) == plain(got)
        || got == Type::Nothing
        || matches!((wanted, got), (Type::Text, Type::Word) | (Type::Word, Type::Text))
}

fn either(left: Type, right: Type) -> Option<Type> {
    match (left, right) {
        (Type::Nothing, other) | (other, Type::Nothing) => Some(other),
        _ if alike(left, right) => Some(if matches!(left, Type::Whole | Type::Share) && left != right {
            Type::Quantity(Kind::NUMBER)
        } else {
            left
        }),
        _ => None,
    }
}

fn kind_of(of: Type) -> Option<Kind> {
    match of {
        Type::Quantity(kind) => Some(kind),
        Type::Whole | Type::Share => Some(Kind::NUMBER),
        Type::Word | Type::Text | Type::Truth | Type::Size | Type::List(_) | Type::Record(_) | Type::Nothing => None,
    }
}

fn pair_type(op: Op, left: Type, right: Type) -> Result<Type, String> {
    let both = |verb: &str| format!("cannot {verb} {} and {}", left.with_article(), right.with_article());
    match op {
        Op::Else => either(left, right).ok_or_else(|| both("choose between")),
        Op::Or | Op::And => {
            if left == Type::Truth && right == Type::Truth {
                Ok(Type::Truth)
            } else {
                Err(both("join"))
            }
        }
        Op::Equal | Op::Unequal | Op::AtLeast | Op::AtMost | Op::Above | Op::Below => {
            let ordered = !matches!(op, Op::Equal | Op::Unequal);
            let fits = alike(left, right) && left != Type::Nothing && left != Type::Size;
            if fits && (!ordered || kind_of(left).is_some()) { Ok(Type::Truth) } else { Err(both("compare")) }
        }
        Op::Add | Op::Subtract => match (kind_of(left), kind_of(right)) {
            _ if left == Type::Share && right == Type::Share => Ok(Type::Share),
            (Some(one), Some(other)) if one == other && one != Kind::TEMPERATURE => Ok(Type::Quantity(one)),
            (None, Some(_)) if left == Type::Nothing => Ok(right),
            (Some(_), None) if right == Type::Nothing => Ok(left),
            _ => Err(both(if op == Op::Add { "add" } else { "subtract" })),
        },
        Op::Multiply | Op::Divide => match (kind_of(left), kind_of(right)) {
            (Some(one), Some(other)) => {
                let kind = if op == Op::Multiply { one * other } else { one / other };
                kind.map(Type::Quantity).ok_or_else(|| both("multiply"))
            }
            (None, Some(_)) if left == Type::Nothing => Ok(Type::Nothing),
            (Some(_), None) if right == Type::Nothing => Ok(Type::Nothing),
            _ => Err(both(if op == Op::Multiply { "multiply" } else { "divide" })),
        },
    }
}

fn call_type(name: &str, args: &[Type]) -> Result<Type, String> {
    let first = args.first().copied().unwrap_or(Type::Nothing);
    let wants = |what: &str| format!("{name} wants {what}, not {}", first.with_article());
    let Some((_, func)) = FUNCS.iter().find(|(one, _)| *one == name) else {
        return Err(format!("there is no function {name}"));
    };
    match func {
        Func::Greatest | Func::Least => {
            for other in args {
                if kind_of(*other) != kind_of(first) || kind_of(first).is_none() {
                    return Err(format!("cannot compare {} and {}", first.with_article(), other.with_article()));
                }
            }
            Ok(first)
        }
        Func::Floor | Func::Ceiling => {
            if kind_of(first) == Some(Kind::NUMBER) {
                Ok(first)
            } else {
                Err(wants("a number"))
            }
        }
        Func::Size => kind_of(first).map(|_| first).ok_or_else(|| wants("a quantity")),
        Func::Root => {
            kind_of(first).and_then(Kind::root).map(Type::Quantity).ok_or_else(|| wants("a number or an area"))
        }
        Func::Sine | Func::Cosine | Func::Tangent => {
            if first == Type::Quantity(Kind::ANGLE) {
                Ok(Type::Quantity(Kind::NUMBER))
            } else {
                Err(wants("an angle"))
            }
        }
        Func::ArcSine | Func::ArcCosine | Func::ArcTangent => {
            if kind_of(first) == Some(Kind::NUMBER) {
                Ok(Type::Quantity(Kind::ANGLE))
            } else {
                Err(wants("a number"))
            }
        }
    }
}
