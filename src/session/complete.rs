//! What a half-typed line may become: what could be typed at the cursor, each with its meaning.

use super::command::{WORDS, word};
use super::offer::{Offer, functions, names};
use super::session::Session;
use crate::lang::Names;
use crate::word::Next;

/// Nobody presses Tab in a longer line.
const LONGEST: usize = 4096;

/// Where the text that is replaced begins, and what may be typed there, in order.
pub fn complete(session: &mut Session, line: &str, cursor: usize) -> (usize, Vec<Offer>) {
    let before = line.get(..cursor).filter(|before| before.len() <= LONGEST).unwrap_or_default();
    let start = before.len() - before.trim_start().len();
    let first =
        before[start..].split(|letter: char| letter.is_whitespace() || letter == '=').next().unwrap_or_default();
    let behind = start + first.len();
    let offers = if behind == before.len() {
        beginnings(session, before, start)
    } else if let Some(word) = word(first) {
        after_word(session, word, before, behind)
    } else if session.field(first).is_some() {
        let rest = &before[behind..];
        let value = rest.trim_start().strip_prefix('=').unwrap_or(rest).trim_start();
        session.values_of(first, before, before.len() - value.len())
    } else {
        session.formula(before, start)
    };
    settle(before, offers)
}

/// What may begin a line.
fn beginnings(session: &mut Session, before: &str, start: usize) -> Vec<Offer> {
    let typed = &before[start..];
    if typed.ends_with(|letter: char| !(letter.is_alphanumeric() || matches!(letter, '_' | '.' | '-'))) {
        return session.formula(before, start);
    }
    let words = WORDS.iter().map(|word| Offer::new(start, word.name, word.brief));
    let all = words.chain(names(&session.design(), start)).chain(functions(start));
    let mut fits: Vec<Offer> = all.filter(|offer| offer.text.starts_with(typed)).collect();
    // Functions only where no name of the bench fits: a framer reaches for fields.
    if fits.iter().any(|offer| !offer.text.ends_with('(')) {
        fits.retain(|offer| !offer.text.ends_with('('));
    }
    if fits.is_empty() { session.formula(before, start) } else { fits }
}

/// What may go on behind a word.
fn after_word(session: &mut Session, word: &super::command::Word, before: &str, behind: usize) -> Vec<Offer> {
    let mut offers = Vec::new();
    for expected in word.expected(before, behind..before.len()) {
        let at = expected.at;
        // What is typed next begins after a blank or a sign.
        if at == before.len() && before.ends_with(|letter: char| letter.is_alphanumeric() || letter == '"') {
            continue;
        }
        match expected.next {
            Next::Literal(text, doc) if text.starts_with(&before[at..]) => offers.push(Offer::new(at, text, doc)),
            Next::Literal(..) | Next::End => {}
            Next::Arg(arg) => offers.extend(session.offers(arg, before, at, &expected.args)),
        }
    }
    offers
}

/// The offers that begin farthest to the left, in order, each once: what more of the line speaks for.
fn settle(before: &str, mut offers: Vec<Offer>) -> (usize, Vec<Offer>) {
    let start = offers.iter().map(|offer| offer.start).min().unwrap_or(before.len());
    offers.retain(|offer| offer.start == start);
    offers.sort_by(|one, other| one.text.cmp(&other.text));
    offers.dedup_by(|one, other| one.text == other.text);
    (start, offers)
}
