//! The questions of a house style, which its `asks()` lists, and the check of answers.

use std::collections::BTreeMap;

use crate::diag::{Diagnostic, codes, list, near, says};
use crate::lang::Value;
use crate::measure::write::Manner;
use crate::measure::{Kind, Quantity, Unit, read};
use crate::rules::design::bare_unit;

/// A question of a style.
#[derive(Clone, Debug)]
pub struct Question {
    /// The name: `gap` in `style narrow-float gap=3/8`.
    pub name: String,
    /// What the question is about, in one line.
    pub about: String,
    /// The kind of the answer.
    pub wants: Wants,
    /// The default answer; without it the style decides by the work.
    pub default: Option<Value>,
    /// The least answer, if there is one.
    pub least: Option<Quantity>,
    /// The greatest answer, if there is one.
    pub most: Option<Quantity>,
}

/// The kind of an answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wants {
    /// A quantity of this kind.
    Quantity(Kind),
    /// A number without a fraction.
    Whole,
    /// One of these.
    Word(Vec<String>),
    /// Any text.
    Text,
    /// Yes or no.
    Truth,
}

/// The names that the map of a question may have.
const KEYS: &[&str] = &["kind", "about", "usual", "least", "most", "words"];

/// Kinds of quantity that a shop asks for.
const KINDS: &[&str] = &["length", "number", "mass", "angle", "area", "money", "time"];

impl Question {
    /// Reads the result of `asks()`: a map of questions by name, each of them a map.
    ///
    /// # Errors
    /// A value is not a question; the message has its name.
    pub fn read_all(given: Value) -> Result<Vec<Self>, Diagnostic> {
        if matches!(given, Value::Nothing) {
            return Ok(Vec::new());
        }
        let Value::Map(questions) = given else {
            let message = format!("asks() must return a map of questions, not {}", given.what());
            return Err(Diagnostic::of(&codes::style::SHAPE, message));
        };
        let each = questions.into_iter().map(|(name, one)| Self::read(&name, one).map_err(|found| found.about(name)));
        each.collect()
    }

    fn read(name: &str, given: Value) -> Result<Self, Diagnostic> {
        let Value::Map(mut parts) = given else {
            let message =
                format!("the question {name} must be a map such as #{{ kind: \"length\" }}, not {}", given.what());
            return Err(Diagnostic::of(&codes::style::SHAPE, message));
        };
        if let Some(other) = parts.keys().find(|key| !KEYS.contains(&key.as_str())) {
            let close = near(other, KEYS.iter().copied());
            let message = match close.first() {
                Some(close) => format!("the question {name} has no `{other}`; did you mean `{close}`?"),
                None => format!("the question {name} has no `{other}`; its names are {}", list(KEYS, "and")),
            };
            return Err(Diagnostic::of(&codes::style::SHAPE, message));
        }
        let wants = Self::wants(name, &mut parts)?;
        let mut question =
            Self { name: name.into(), about: String::new(), wants, default: None, least: None, most: None };
        if let Some(Value::Text(about)) = parts.remove("about") {
            question.about = about;
        }
        let mut bound = |key: &str| match (parts.remove(key), &question.wants) {
            (None | Some(Value::Nothing), _) => Ok(None),
            (Some(Value::Quantity(bound)), Wants::Quantity(kind)) if bound.kind == *kind => Ok(Some(bound)),
            (Some(Value::Quantity(bound)), Wants::Whole) if bound.amount.to_whole().is_some() => Ok(Some(bound)),
            (Some(other), wants) => Err(Diagnostic::of(
                &codes::style::ANSWER,
                format!("{key} of {name} must be {}, not {}", wants.with_article(), other.what()),
            )),
        };
        (question.least, question.most) = (bound("least")?, bound("most")?);
        if let (Some(least), Some(most)) = (&question.least, &question.most)
            && least.amount > most.amount
        {
            return Err(Diagnostic::of(&codes::style::ANSWER, format!("the least {name} is more than the most")));
        }
        question.default = match parts.remove("usual") {
            None | Some(Value::Nothing) => None,
            Some(value) => Some(question.answer(value, &Manner::default()).map_err(|found| {
                Diagnostic::of(&codes::style::SHAPE, found.says.within("the usual answer is not allowed"))
            })?),
        };
        Ok(question)
    }

    fn wants(name: &str, parts: &mut BTreeMap<String, Value>) -> Result<Wants, Diagnostic> {
        let known = || KINDS.iter().copied().chain(["whole", "word", "text", "yes/no"]);
        let words = parts.remove("words");
        let kind = match parts.remove("kind") {
            Some(Value::Text(kind)) => kind,
            Some(other) => {
                return Err(Diagnostic::of(
                    &codes::style::SHAPE,
                    format!("the kind of {name} must be a text such as \"length\", not {}", other.what()),
                ));
            }
            None if words.is_some() => "word".into(),
            None => {
                let all: Vec<&str> = known().collect();
                return Err(Diagnostic::of(&codes::style::SHAPE, format!("{name} needs a kind: {}", list(&all, "or"))));
            }
        };
        match (kind.as_str(), words) {
            ("word", Some(Value::List(words))) if !words.is_empty() => {
                let word = |word: Value| if let Value::Text(word) = word { Some(word) } else { None };
                let words: Option<Vec<String>> = words.into_iter().map(word).collect();
                words
                    .map(Wants::Word)
                    .ok_or_else(|| Diagnostic::of(&codes::style::SHAPE, format!("the words of {name} must be texts")))
            }
            ("word", _) => Err(Diagnostic::of(
                &codes::style::SHAPE,
                format!("{name} is a word, so it needs a list of `words` to choose from"),
            )),
            (_, Some(_)) => Err(Diagnostic::of(
                &codes::style::SHAPE,
                format!("{name} has words to choose from, so its kind must be \"word\""),
            )),
            ("whole", None) => Ok(Wants::Whole),
            ("text", None) => Ok(Wants::Text),
            ("yes/no", None) => Ok(Wants::Truth),
            (kind, None) => match Kind::named(kind).filter(|_| KINDS.contains(&kind)) {
                Some(kind) => Ok(Wants::Quantity(kind)),
                None => {
                    let (all, close) = (known().collect::<Vec<_>>(), near(kind, known()));
                    let message = match close.first() {
                        Some(close) => {
                            format!("{name} has the kind {kind}, which does not exist; did you mean \"{close}\"?")
                        }
                        None => {
                            format!("{name} has the kind {kind}, which does not exist; kinds are {}", list(&all, "and"))
                        }
                    };
                    Err(Diagnostic::of(&codes::style::SHAPE, message))
                }
            },
        }
    }

    /// Reads an answer that was typed.
    ///
    /// # Errors
    /// The answer has another kind or is outside the limits; the message begins with the name.
    pub fn read_answer(&self, text: &str, manner: &Manner) -> Result<Value, Diagnostic> {
        let text = text.trim();
        let plain = text.trim_matches('"');
        let value = match &self.wants {
            Wants::Text | Wants::Word(_) => Value::Text(plain.into()),
            Wants::Truth => match plain {
                "yes" | "true" => Value::Truth(true),
                "no" | "false" => Value::Truth(false),
                other => {
                    let message = format!("{} is yes or no, not {other}", self.name);
                    return Err(Diagnostic::of(&codes::style::ANSWER, message).hint(format!("{}=yes", self.name)));
                }
            },
            Wants::Whole => Value::from(read::read(text, None).map_err(|found| self.unread(found))?),
            Wants::Quantity(kind) => {
                let bare = Some(bare_unit(manner)).filter(|unit: &&Unit| unit.kind == *kind);
                Value::from(read::read(text, bare).map_err(|found| self.unread(found))?)
            }
        };
        self.answer(value, manner)
    }

    fn unread(&self, found: Diagnostic) -> Diagnostic {
        Diagnostic::of(
            &codes::style::ANSWER,
            found.says.within(says!("{} is {}", self.name, self.wants.with_article())),
        )
        .about(self.name.as_str())
    }

    /// Reads an answer of a script; text is read as if typed.
    ///
    /// # Errors
    /// As [`Question::read_answer`].
    pub fn answer(&self, value: Value, manner: &Manner) -> Result<Value, Diagnostic> {
        let Self { name, wants, .. } = self;
        match (wants, value) {
            (Wants::Quantity(kind), Value::Quantity(given)) => {
                let given = match (*kind, given.kind) {
                    // As in a field, a bare number is in the bench unit.
                    (Kind::LENGTH, Kind::NUMBER) => {
                        Quantity::new(bare_unit(manner).to_storage(given.amount), Kind::LENGTH)
                    }
                    _ => given,
                };
                if given.kind != *kind {
                    let message = format!("{name} is {}, not {}", wants.with_article(), given.kind.with_article());
                    return Err(Diagnostic::of(&codes::style::SHAPE, message));
                }
                self.within(given, manner)
            }
            (Wants::Whole, Value::Quantity(given)) if given.kind == Kind::NUMBER => match given.amount.to_whole() {
                Some(_) => self.within(given, manner),
                None => Err(Diagnostic::of(
                    &codes::style::ANSWER,
                    format!("{name} is a whole number, not {}", manner.short(&given)),
                )),
            },
            (Wants::Word(words), Value::Text(given)) => {
                let folded = given.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
                match words.iter().find(|word| word.to_lowercase() == folded) {
                    Some(word) => Ok(Value::Text(word.clone())),
                    None => {
                        let message = format!("{name} is {}, not {given}", list(words, "or"));
                        let close = near(&folded, words.iter().map(String::as_str));
                        Err(match close.first() {
                            Some(close) => {
                                Diagnostic::of(&codes::style::ANSWER, message).hint(format!("{name}={close}"))
                            }
                            None => Diagnostic::of(&codes::style::ANSWER, message),
                        })
                    }
                }
            }
            (Wants::Text, Value::Text(given)) => Ok(Value::Text(given)),
            (Wants::Truth, Value::Truth(given)) => Ok(Value::Truth(given)),
            (Wants::Quantity(_) | Wants::Whole | Wants::Truth, Value::Text(given)) => self.read_answer(&given, manner),
            (_, other) => Err(Diagnostic::of(
                &codes::style::ANSWER,
                format!("{name} is {}, not {}", wants.with_article(), other.what()),
            )),
        }
    }

    fn within(&self, given: Quantity, manner: &Manner) -> Result<Value, Diagnostic> {
        let low = self.least.as_ref().filter(|least| given.amount < least.amount);
        let high = self.most.as_ref().filter(|most| given.amount > most.amount);
        let Some(bound) = low.or(high) else { return Ok(Value::Quantity(given)) };
        let bound = manner.short(bound);
        let message = format!("{} must be {}, not {}", self.name, self.limits(manner), manner.short(&given));
        Err(Diagnostic::of(&codes::style::ANSWER, message).hint(format!("{}={bound}", self.name)))
    }

    /// The limits in words, `from 1/8" to 1/2"`; empty if there are none.
    pub fn limits(&self, manner: &Manner) -> String {
        match (&self.least, &self.most) {
            (Some(least), Some(most)) => format!("from {} to {}", manner.short(least), manner.short(most)),
            (Some(least), None) => format!("at least {}", manner.short(least)),
            (None, Some(most)) => format!("at most {}", manner.short(most)),
            (None, None) => String::new(),
        }
    }

    /// The usual answer in words.
    pub fn usual(&self, manner: &Manner) -> String {
        format!(
            "usually {}",
            self.default.as_ref().map_or_else(|| "chosen for the work".into(), |one| typed(one, manner))
        )
    }

    /// An answer that is allowed, as typed: the least, the last word, the usual one.
    pub fn example(&self, manner: &Manner) -> String {
        match (&self.wants, self.least.as_ref().or(self.most.as_ref()), &self.default) {
            (Wants::Word(words), _, _) => words.last().cloned().unwrap_or_default(),
            (Wants::Truth, _, _) => "yes".into(),
            (Wants::Text, _, Some(Value::Text(text))) => text.clone(),
            (Wants::Text, _, _) => "this".into(),
            (_, Some(bound), _) => manner.short(bound),
            (_, None, Some(Value::Quantity(usual))) => manner.short(usual),
            (wants, None, _) => {
                format!("1{}", if let Wants::Quantity(kind) = wants { kind.unit() } else { String::new() })
            }
        }
    }

    /// Every extreme answer: the least, the greatest, each word, yes and no.
    pub fn ends(&self) -> Vec<Value> {
        match &self.wants {
            Wants::Word(words) => words.iter().cloned().map(Value::Text).collect(),
            Wants::Truth => vec![Value::Truth(false), Value::Truth(true)],
            Wants::Quantity(_) | Wants::Whole | Wants::Text => {
                self.least.iter().chain(&self.most).cloned().map(Value::Quantity).collect()
            }
        }
    }
}

impl Wants {
    /// In words: `a length`, `one of oak, ash`.
    pub fn with_article(&self) -> String {
        match self {
            Self::Quantity(kind) => kind.with_article(),
            Self::Whole => "a whole number".into(),
            Self::Word(words) => format!("one of {}", list(words, "and")),
            Self::Text => "text".into(),
            Self::Truth => "yes or no".into(),
        }
    }
}

/// An answer as it is typed.
pub fn typed(answer: &Value, manner: &Manner) -> String {
    if let Value::Truth(truth) = answer {
        return if *truth { "yes" } else { "no" }.into();
    }
    let quantity = answer.quantity().map(|quantity| manner.short(quantity));
    quantity.or_else(|| answer.text().map(Into::into)).unwrap_or_default()
}
