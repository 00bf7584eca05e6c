//! Notation in a script: each stretch becomes a call that constructs the exact value.

use super::lex::Lexed;
use super::names::Names;
use super::srcmap::Edit;
use super::token::{Token, TokenKind, is_keyword, joins};
use crate::diag::says;
use crate::measure::read::{Misread, Reading, Size, Stretch, below_zero, beside, unknown_unit};
use crate::measure::{Kind, Quantity, Real, Unit};

/// The constructors of the common kinds; the others share one that takes the name of the kind.
const MAKERS: &[(Kind, &str)] = &[
    (Kind::NUMBER, "__num"),
    (Kind::LENGTH, "__len"),
    (Kind::MASS, "__mass"),
    (Kind::ANGLE, "__ang"),
    (Kind::TIME, "__time"),
];

/// The edits that turn notation into calls, and the faults of notation in its context.
pub(super) fn edits(text: &str, lexed: &Lexed, names: &dyn Names) -> (Vec<Edit>, Vec<Misread>) {
    let mut pass = Pass { text, lexed, names, edits: Vec::new(), faults: Vec::new() };
    for (index, token) in lexed.tokens.iter().enumerate() {
        if let TokenKind::Number(number) = token.kind {
            let stretch = lexed.numbers.get(number).and_then(Option::as_ref);
            pass.number(index, token, stretch);
        } else if token.kind == TokenKind::Op && token.of(text) == "−" {
            pass.edits.push(Edit { typed: token.span.clone(), script: "-".into() });
        } else if token.kind == TokenKind::Other {
            pass.faults.extend(typeset(text, token));
        }
    }
    (pass.edits, pass.faults)
}

/// Signs pasted from a printed page, each with the sign that it stands for, if that is a single one.
const TYPESET: &[(&str, &str)] = &[
    ("×", "*"),
    ("·", "*"),
    ("÷", "/"),
    ("–", "-"),
    ("—", "-"),
    ("≤", "<="),
    ("≥", ">="),
    ("≠", "!="),
    ("“", ""),
    ("”", ""),
    ("„", ""),
    ("‘", ""),
    ("’", ""),
];

fn typeset(text: &str, token: &Token) -> Option<Misread> {
    let (sign, meant) = TYPESET.iter().find(|row| row.0 == token.of(text))?;
    let misread = Misread::new(token.span.clone(), says!("{} is a printer's sign, which means nothing here", sign));
    Some(if meant.is_empty() { misread } else { misread.or(*meant) })
}

struct Pass<'a> {
    text: &'a str,
    lexed: &'a Lexed,
    names: &'a dyn Names,
    edits: Vec<Edit>,
    faults: Vec<Misread>,
}

impl Pass<'_> {
    fn number(&mut self, index: usize, token: &Token, stretch: Option<&Stretch>) {
        let reading = match stretch.map(|stretch| &stretch.reading) {
            Some(Ok(reading)) => Some(reading),
            // This fault is already reported.
            Some(Err(_)) => return,
            None => None,
        };
        if let Some(fault) = self.neighbour(index, token, stretch) {
            self.faults.push(fault);
        } else if let Some(fault) = stretch.and_then(|stretch| self.division(index, token, stretch)) {
            self.faults.push(fault);
        }
        if let (Some(reading), false) = (reading, stretch.is_none_or(|stretch| stretch.plain)) {
            self.rewrite(index, token, reading);
        }
    }

    fn rewrite(&mut self, index: usize, token: &Token, reading: &Reading) {
        let mut typed = token.span.clone();
        let script = match reading {
            Reading::Size(size) => sized(size),
            Reading::Quantity(quantity) if quantity.kind == Kind::TEMPERATURE => match self.sign(index) {
                // A temperature below zero is not a negated temperature: degrees count from their own zero.
                Some(minus) => {
                    typed.start = minus.span.start;
                    self.edits.retain(|edit| edit.typed.start != typed.start);
                    maker(&below_zero(quantity.clone(), token.of(self.text), None))
                }
                None => maker(quantity),
            },
            Reading::Quantity(quantity) => maker(quantity),
        };
        self.edits.push(Edit { typed, script });
    }

    /// The minus before a value, if it is a sign and not a subtraction.
    fn sign(&self, index: usize) -> Option<&Token> {
        let (at, minus) = self.before(index)?;
        let is_minus = minus.kind == TokenKind::Op && matches!(minus.of(self.text), "-" | "−");
        (is_minus && self.before(at).is_none_or(|(_, token)| !ends_value(token, self.text))).then_some(minus)
    }

    /// The last token before `index` that is not a comment or a line end.
    fn before(&self, index: usize) -> Option<(usize, &Token)> {
        self.lexed.tokens.get(..index)?.iter().enumerate().rev().find(|(_, token)| token.counts())
    }

    /// The fault of a value and its neighbor on the same line.
    fn neighbour(&self, index: usize, token: &Token, stretch: Option<&Stretch>) -> Option<Misread> {
        let next = self.lexed.tokens.get(index + 1)?;
        if let Some(conversion) = self.conversion(index, token, stretch) {
            return Some(conversion);
        }
        let (shown, word) = (token.of(self.text), next.of(self.text));
        let side_by_side = || Some(beside(token.span.start..next.span.end, shown, word));
        if matches!(next.kind, TokenKind::Number(_)) {
            return side_by_side();
        }
        if next.kind != TokenKind::Word || joins(word) {
            return None;
        }
        let bare = stretch.is_none_or(|stretch| stretch.plain) || shown.ends_with(|last: char| last.is_ascii_digit());
        let unknown = unknown_unit(next.span.clone(), word);
        if bare && !unknown.instead.is_empty() && !is_keyword(word) {
            return Some(unknown);
        }
        // A word that touches a number is left to the script language.
        let touches = next.span.start == token.span.end;
        if bare && touches { None } else { side_by_side() }
    }

    /// `11 3/8" to mm` asks for what `mm(11 3/8")` does.
    fn conversion(&self, index: usize, token: &Token, stretch: Option<&Stretch>) -> Option<Misread> {
        let [joint, unit] = self.lexed.tokens.get(index + 1..index + 3)? else { return None };
        let Ok(Reading::Quantity(quantity)) = &stretch?.reading else { return None };
        let wanted = Unit::named(unit.of(self.text)).filter(|wanted| wanted.kind == quantity.kind)?;
        let function = self.names.counting_in(wanted)?;
        let is_joint = matches!(joint.of(self.text), "to" | "into" | "as");
        let shown = token.of(self.text);
        let message = says!("`{}(…)` shows {} in {}", function, quantity.kind.with_article(), unit.of(self.text));
        is_joint.then(|| Misread::new(token.span.start..unit.span.end, message).or(format!("{function}({shown})")))
    }

    /// `x/3/4in` divides by three quarters of an inch, or by 3 and by 4 in.
    fn division(&self, index: usize, token: &Token, stretch: &Stretch) -> Option<Misread> {
        let (at, slash) = self.before(index)?;
        if slash.kind != TokenKind::Op || slash.of(self.text) != "/" || stretch.plain {
            return None;
        }
        let shown = token.of(self.text);
        if stretch.fraction {
            let message = says!("{} after a / can be read two ways; put it in parentheses", shown);
            return Some(Misread::new(token.span.clone(), message).or(format!("({shown})")));
        }
        let (_, before) = self.before(at)?;
        let fraction = before.of(self.text);
        let TokenKind::Number(number) = before.kind else { return None };
        let plain = self.lexed.numbers.get(number).and_then(Option::as_ref).is_some_and(|stretch| stretch.plain);
        if !plain || !fraction.contains('/') {
            return None;
        }
        let (over, under) = fraction.split_once('/')?;
        let message = says!("{}/{} can be read two ways; put one in parentheses", fraction, shown);
        let misread = Misread::new(before.span.start..token.span.end, message);
        Some(misread.or(format!("({fraction})/{shown}")).or(format!("{over}/({under}/{shown})")))
    }
}

/// Whether a value ends with this token, so that a minus after it subtracts.
fn ends_value(token: &Token, text: &str) -> bool {
    match token.kind {
        TokenKind::Word => !is_keyword(token.of(text)) || matches!(token.of(text), "true" | "false" | "this"),
        TokenKind::Member | TokenKind::Number(_) | TokenKind::Close | TokenKind::Text => true,
        TokenKind::Dot
        | TokenKind::Open
        | TokenKind::Op
        | TokenKind::Comment
        | TokenKind::Newline
        | TokenKind::Other => false,
    }
}

fn sized(size: &Size) -> String {
    let sides: Vec<String> = size.extents().map(maker).collect();
    format!("__size({})", sides.join(","))
}

/// The call that constructs a quantity.
fn maker(quantity: &Quantity) -> String {
    let (n, d) = parts(&quantity.amount);
    match MAKERS.iter().find(|row| row.0 == quantity.kind) {
        Some((_, name)) => format!("{name}({n},{d})"),
        None => format!("__qty(\"{}\",{n},{d})", quantity.kind),
    }
}

/// Numerator and denominator in a script; a number beyond 64 bits is written as text.
fn parts(amount: &Real) -> (String, String) {
    match (amount.to_parts(), amount.to_big()) {
        (Some((n, d)), _) => (n.to_string(), d.to_string()),
        (None, Some(big)) => (format!("\"{}\"", big.numer()), format!("\"{}\"", big.denom())),
        // Notation is always exact.
        (None, None) => ("0".into(), "1".into()),
    }
}
