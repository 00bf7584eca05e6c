//! Whether a field takes a value: its kind, its words, its range.

use super::book::{Slot, Table, Type};
use super::datum::Datum;
use super::design::{Design, Input};
use super::evaluate::{Pass, absurd};
use super::refusal::Refusal;
use super::term::Way;
use crate::diag::near;
use crate::measure::{Kind, Quantity, Real};

/// The most letters of a text field.
const LONGEST_TEXT: usize = 1 << 20;

/// The digits of a word: a brad of another gauge or a hook of another load is another thing, not a slip of a letter.
fn digits(word: &str) -> Vec<char> {
    word.chars().filter(char::is_ascii_digit).collect()
}

/// The words of a table that a field offers.
fn offered(table: &Table, field: &str) -> Vec<String> {
    table.words.iter().filter(|word| table.is_for(word, field)).cloned().collect()
}

/// The words of a table that a typed one may have been meant as: near to it, of the same rating, for the same purpose.
fn alike(table: &Table, field: &str, typed: &str) -> Vec<String> {
    let also = table.also.iter().map(|(other, _)| other.as_str());
    let known = table.words.iter().map(String::as_str).chain(also);
    let known = known.filter(|one| digits(one) == digits(typed) && table.is_for(one, field));
    near(typed, known).into_iter().map(Into::into).collect()
}

impl Design {
    /// Which slot gets which value.
    pub(super) fn spread(&self, slot: Slot, input: Input) -> Result<Vec<(Slot, Option<Datum>)>, Refusal> {
        let slots = self.settable(slot)?;
        let gather = self.rule(slot).and_then(|rule| rule.gather);
        let name = &self.book().name(slot).text;
        let each = |pairs: Vec<(Slot, Input)>| -> Result<Vec<_>, Refusal> {
            pairs.into_iter().map(|(slot, input)| Ok((slot, self.datum(slot, name, input)?))).collect()
        };
        match (gather, input) {
            (None, input) => each(vec![(slot, input)]),
            (Some(Way::Around), Input::List(values)) => {
                let pick: &[usize] = match values.len() {
                    1 => &[0, 0, 0, 0],
                    2 => &[0, 1, 0, 1],
                    3 => &[0, 1, 2, 1],
                    4 => &[0, 1, 2, 3],
                    _ => return Err(Refusal::Count { name: name.clone(), most: slots.len() }),
                };
                each(slots.iter().zip(pick).map(|(slot, at)| (*slot, Input::Quantity(values[*at].clone()))).collect())
            }
            (Some(Way::Around), input) => each(slots.into_iter().map(|slot| (slot, input.clone())).collect()),
            (Some(Way::Size), Input::Size(size)) => {
                let extents = [Some(size.width), Some(size.height), size.depth];
                each(
                    slots
                        .into_iter()
                        .zip(extents)
                        .filter_map(|(slot, extent)| extent.map(|extent| (slot, Input::Quantity(extent))))
                        .collect(),
                )
            }
            (Some(Way::Row), Input::List(values)) if values.len() <= slots.len() => {
                let mut values = values.into_iter().map(Input::Quantity);
                let pair = |slot: &Slot| match values.next() {
                    Some(value) => Ok((*slot, self.datum(*slot, name, value)?)),
                    None => Ok((*slot, None)),
                };
                slots.iter().map(pair).collect()
            }
            (Some(Way::Row), Input::List(_)) => Err(Refusal::Count { name: name.clone(), most: slots.len() }),
            (Some(Way::Row), input @ Input::Quantity(_)) => match slots.split_first() {
                Some((first, others)) => {
                    let first = (*first, self.datum(*first, name, input)?);
                    Ok([first].into_iter().chain(others.iter().map(|slot| (*slot, None))).collect())
                }
                None => Ok(Vec::new()),
            },
            (Some(Way::Row), Input::Text(word)) if word.trim() == "none" => {
                Ok(slots.into_iter().map(|slot| (slot, None)).collect())
            }
            (Some(Way::With), Input::With(word, quantity)) => match slots.as_slice() {
                [first, second] => each(vec![(*first, Input::Text(word)), (*second, Input::Quantity(quantity))]),
                _ => Err(Refusal::Count { name: name.clone(), most: 2 }),
            },
            // The value alone: the word stays as it is.
            (Some(Way::With), Input::Quantity(quantity)) => match slots.as_slice() {
                [_, second] => each(vec![(*second, Input::Quantity(quantity))]),
                _ => Err(Refusal::Count { name: name.clone(), most: 2 }),
            },
            (Some(Way::With), Input::Text(word)) => match slots.as_slice() {
                // The word alone: the thickness goes back to what is usual for it.
                [first, second] => Ok(vec![(*first, self.datum(*first, name, Input::Text(word))?), (*second, None)]),
                _ => Err(Refusal::Count { name: name.clone(), most: 2 }),
            },
            (Some(_), input) => Err(Refusal::Kind {
                name: name.clone(),
                wants: self.book().name(slot).of.with_article(),
                got: self.describe(&input),
                value: None,
            }),
        }
    }

    /// A value for one slot, checked; nothing where `none` clears an optional field.
    fn datum(&self, slot: Slot, name: &str, input: Input) -> Result<Option<Datum>, Refusal> {
        let of = self.book().name(slot).of;
        let rule = self.rule(slot);
        let own = &self.book().name(slot).text;
        let kind_refusal = |got: String, value: Option<String>| Refusal::Kind {
            name: name.into(),
            wants: of.with_article(),
            got,
            value,
        };
        match (of, input) {
            (_, Input::Text(word)) if word.trim() == "none" && rule.is_some_and(|rule| rule.optional) => Ok(None),
            // A count may be `none` where its range includes zero.
            (Type::Whole, Input::Text(word))
                if word.trim() == "none" && self.in_range(slot, &Real::ZERO, of).is_ok() =>
            {
                Ok(Some(Datum::Amount(Real::ZERO)))
            }
            (Type::Text, Input::Text(text)) => {
                if text.len() > LONGEST_TEXT {
                    return Err(Refusal::Long { name: own.clone() });
                }
                Ok(Some(Datum::Word(text.as_str().into())))
            }
            (Type::Word, Input::Text(word)) => {
                let table = rule.and_then(|rule| self.book().word_table(rule));
                let wanted = word.trim().trim_matches('"');
                let folded: Vec<&str> = wanted.split_whitespace().collect();
                let folded = folded.join(" ").to_lowercase();
                match table.and_then(|table| table.meant(&folded)) {
                    Some(one) => Ok(Some(Datum::Word(one.into()))),
                    None => Err(Refusal::Word {
                        name: own.clone(),
                        word: wanted.into(),
                        near: table.map_or_else(Vec::new, |table| alike(table, own, &folded)),
                        words: table.map_or_else(Vec::new, |table| offered(table, own)),
                    }),
                }
            }
            (Type::List(_), Input::Text(word)) if word.trim() == "none" => Ok(Some(Datum::List([].into()))),
            (Type::List(kind), Input::Quantity(one)) => self.list(slot, kind, vec![one]).map(Some),
            (Type::List(kind), Input::List(several)) => self.list(slot, kind, several).map(Some),
            (Type::Quantity(kind), Input::Quantity(quantity)) => {
                let quantity = self.with_unit(kind, quantity);
                if quantity.kind != kind {
                    // The unit that is missing, unless that is past the range.
                    let meant = Quantity::new(quantity.amount.clone(), kind);
                    let fits = quantity.kind == Kind::NUMBER && self.in_range(slot, &meant.amount, of).is_ok();
                    let value = fits.then(|| format!("{}{}", self.manner().short(&quantity), kind.unit()));
                    return Err(kind_refusal(quantity.kind.with_article(), value));
                }
                let amount = quantity
                    .amount
                    .check()
                    .map_err(|why| Refusal::Broken { name: own.clone(), why: why.to_string() })?;
                self.in_range(slot, &amount, of)?;
                Ok(Some(Datum::Amount(amount)))
            }
            (Type::Share, Input::Quantity(quantity)) => {
                if quantity.kind != Kind::NUMBER {
                    return Err(kind_refusal(quantity.kind.with_article(), None));
                }
                self.in_range(slot, &quantity.amount, of)?;
                Ok(Some(Datum::Amount(quantity.amount)))
            }
            (Type::Whole, Input::Quantity(quantity)) => {
                if quantity.kind != Kind::NUMBER {
                    return Err(kind_refusal(quantity.kind.with_article(), None));
                }
                if quantity.amount.to_whole().is_none() {
                    return Err(Refusal::Whole { name: own.clone(), value: self.manner().short(&quantity) });
                }
                self.in_range(slot, &quantity.amount, of)?;
                Ok(Some(Datum::Amount(quantity.amount)))
            }
            (_, input) => Err(kind_refusal(self.describe(&input), None)),
        }
    }

    /// A bare number takes the bench unit where a length is wanted.
    fn with_unit(&self, kind: Kind, quantity: Quantity) -> Quantity {
        match (kind, quantity.kind) {
            (Kind::LENGTH, Kind::NUMBER) => Quantity::new(self.bare_unit().to_storage(quantity.amount), Kind::LENGTH),
            _ => quantity,
        }
    }

    /// Several quantities of a kind, the least first, each above nothing.
    fn list(&self, slot: Slot, kind: Kind, several: Vec<Quantity>) -> Result<Datum, Refusal> {
        let name = &self.book().name(slot).text;
        let mut amounts = Vec::with_capacity(several.len());
        for quantity in several.into_iter().map(|one| self.with_unit(kind, one)) {
            if quantity.kind != kind || !quantity.amount.is_positive() {
                return Err(Refusal::Kind {
                    name: name.clone(),
                    wants: format!("{kind}s above 0"),
                    got: self.manner().short(&quantity),
                    value: None,
                });
            }
            amounts.push(quantity.amount);
        }
        amounts.sort_by(|one, other| one.partial_cmp(other).unwrap_or(std::cmp::Ordering::Equal));
        amounts.dedup();
        Ok(Datum::List(amounts.into()))
    }

    pub(super) fn in_range(&self, slot: Slot, amount: &Real, of: Type) -> Result<(), Refusal> {
        let name = &self.book().name(slot).text;
        let kind = if let Type::Quantity(kind) = of { kind } else { Kind::NUMBER };
        let text = |amount: &Real| self.show(&Datum::Amount(amount.clone()), of);
        if absurd(amount, kind) {
            return Err(Refusal::Absurd { name: name.clone(), value: text(amount) });
        }
        let Some(rule) = self.rule(slot) else {
            return Ok(());
        };
        // A bound that cannot be worked out yet binds nothing yet.
        let bound = |node| self.evaluate(|evaluator| evaluator.amount(node, Pass::Drawn)).ok();
        let refuse = |bound: String| Err(Refusal::Range { name: name.clone(), value: text(amount), bound });
        if let Some((low, strict)) = &rule.low
            && let Some(low) = bound(low)
            && (*amount < low || (*strict && *amount == low))
        {
            return refuse(format!("{} {}", if *strict { "above" } else { "at least" }, text(&low)));
        }
        if let Some(high) = &rule.high
            && let Some(high) = bound(high)
            && *amount > high
        {
            return refuse(format!("at most {}", text(&high)));
        }
        Ok(())
    }

    pub(super) fn describe(&self, input: &Input) -> String {
        match input {
            Input::Quantity(quantity) => quantity.kind.with_article(),
            Input::Size(_) => "a size".into(),
            Input::Text(_) => "text".into(),
            Input::List(_) => "a list".into(),
            Input::With(..) => "a word and a value".into(),
        }
    }
}
