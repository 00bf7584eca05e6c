//! Finds the faults of a house style before anyone frames by it.
//!
//! The style is read, its names are compared with the rules, and it frames a grid of works: from 4 in to 8 ft both ways,
//! of every kind that it frames, with each question answered at its limits. Each fault is reported once, with the smallest
//! work that shows it.

use std::collections::BTreeMap;

use super::house::{ASKS, ReadStyle};
use super::question::typed;
use super::reply::Checked;
use super::style::{ENDING, first_line};
use super::stylist::Asks;
use super::workshop::Workshop;
use crate::diag::{Diagnostic, codes, near, says};
use crate::lang::{Limits, Value, assigned, read_of};
use crate::measure::{Kind, Quantity, Real};
use crate::rules::{Absent, Design, Input, Level};
use crate::shop::parts;

/// Sides of the works that are framed without answers, in 1/64 in: on and off the marks of the tape, metric as well.
const SIDES: &[i64] = &[256, 384, 513, 748, 1024, 1282, 1536, 1941, 2560, 3071, 3840, 4608, 5376, 6144];

/// Sides of the works that are framed with a question answered at a limit.
const FEW_SIDES: &[i64] = &[256, 768, 1536, 3072, 6144];

/// Depths by kind of work, in 1/64 in.
const DEPTHS: &[(&str, &[i64])] =
    &[("canvas", &[48, 96]), ("panel", &[16, 128]), ("paper", &[1]), ("textile", &[4]), ("object", &[64, 256])];

/// All designs together may use this many times the limits of one run.
const TIMES: u32 = 10;

/// A work of the grid.
struct Work {
    kind: &'static str,
    width: Real,
    height: Real,
    depth: Real,
}

/// The faults found so far.
#[derive(Default)]
struct Found {
    faults: Vec<(String, Diagnostic)>,
    designs: usize,
    seen: BTreeMap<(Level, String), usize>,
}

impl Workshop {
    /// Checks a style, by its text.
    ///
    /// # Errors
    /// The faults of the style.
    pub(super) fn check_style(&self, name: &str, text: &str) -> Result<Checked, Vec<Diagnostic>> {
        let engine = self.style_engine();
        let style = self.read_style(&engine, name, text)?;
        let blank = self.settings.borrow().fresh();
        let mut found = Found::default();
        found.read(&style, &blank);
        // One run first: a style that uses up its time would use it up a thousand times.
        let mut works = grid(&style, SIDES);
        if let Some(first) = works.first() {
            self.try_out(&style, &blank, first, &BTreeMap::new(), &mut found);
        } else {
            found.fault(
                "none",
                Diagnostic::of(&codes::style::FAULT, format!("the style {name} takes no work from 4 in to 8 ft")),
            );
        }
        let endless = |(_, fault): &(String, Diagnostic)| fault.code == &codes::script::TOO_LONG;
        if !found.faults.iter().any(endless) {
            found.designs = 0;
            found.seen.clear();
            let usual = engine.limits();
            let limits = Limits {
                steps: usual.steps.saturating_mul(TIMES.into()),
                time: usual.time.saturating_mul(TIMES),
                ..usual
            };
            let few = grid(&style, FEW_SIDES);
            let answers = ends(&style);
            let runs = works.drain(..).map(|work| (work, BTreeMap::new())).collect::<Vec<_>>();
            let more = answers.iter().flat_map(|asks| few.iter().map(move |work| (work, asks)));
            engine.within(limits, || {
                let all = runs.iter().map(|(work, asks)| (work, asks)).chain(more);
                for (count, (work, asks)) in all.enumerate() {
                    if engine.is_spent() {
                        let message =
                            format!("the style {name} is too slow to check in full; {count} designs were framed");
                        found.fault(
                            "slow",
                            Diagnostic::of(&codes::style::FAULT, message).hint("shop script.seconds 10"),
                        );
                        break;
                    }
                    self.try_out(&style, &blank, work, asks, &mut found);
                }
            });
        }
        if found.faults.is_empty() {
            let seen = found.seen.into_iter().map(|((level, name), count)| (level, name, count)).collect();
            return Ok(Checked { name: name.into(), designs: found.designs, seen });
        }
        Err(found.faults.into_iter().map(|(_, fault)| fault).collect())
    }

    fn try_out(
        &self,
        style: &ReadStyle,
        blank: &Design,
        work: &Work,
        asks: &BTreeMap<String, Value>,
        found: &mut Found,
    ) {
        let Some(design) = work.on(blank) else { return };
        let example = || {
            let manner = blank.manner();
            let size = |length: &Real| manner.short(&Quantity::inches(length.clone()));
            let answers = style.questions.iter().flatten().filter_map(|question| {
                let answer = typed(asks.get(&question.name)?, manner);
                Some(format!(", {}={answer}", question.name))
            });
            let (width, height, depth) = (size(&work.width), size(&work.height), size(&work.depth));
            format!("{} {width} x {height} x {depth}{}", work.kind, answers.collect::<String>())
        };
        let framed = match self.framed_by(style, &design, Asks::Values(asks)) {
            Ok(framed) => framed.design,
            Err(fault) => {
                let key = match (&fault.span, &fault.source) {
                    (Some(span), Some(_)) => format!("{span:?}"),
                    _ => format!("{:?}", fault.says),
                };
                let says = fault.says.clone().and(says!("; with {}", example()));
                found.fault(&key, Diagnostic { says, ..fault });
                return;
            }
        };
        found.designs += 1;
        for finding in framed.findings() {
            match finding.level {
                Level::Stop => {
                    let says = finding.says.within(says!("{}", finding.name)).and(says!("; with {}", example()));
                    found.fault(&finding.name, Diagnostic::of(&codes::style::FAULT, says));
                }
                Level::Warn | Level::Note => {
                    *found.seen.entry((finding.level, finding.name)).or_default() += 1;
                }
            }
        }
        if let Some(field) = wanting(&framed) {
            let message = format!("{field} is not set, and sizes depend on it; with {}", example());
            found.fault(&format!("unset {field}"), Diagnostic::of(&codes::style::FAULT, message));
        } else if parts(&framed).is_empty() {
            found.fault(
                "empty",
                Diagnostic::of(&codes::style::FAULT, format!("the design has no parts; with {}", example())),
            );
        }
    }
}

impl Found {
    /// Adds a fault, unless there is one of its sort already: works come smallest first.
    fn fault(&mut self, key: &str, fault: Diagnostic) {
        if self.faults.iter().all(|(known, _)| known != key) {
            self.faults.push((key.into(), fault));
        }
    }

    /// Reads the text alone, before anything runs.
    fn read(&mut self, style: &ReadStyle, blank: &Design) {
        let file = format!("{}{ENDING}", style.name);
        if !style.has("about", 0) || first_line(&style.text).is_empty() {
            let message = format!("the style {} needs a function about() that describes it in one line", style.name);
            self.fault("about", Diagnostic::of(&codes::style::FAULT, message));
        }
        let book = blank.book();
        for (name, span) in assigned(&style.text).into_iter().filter(|(name, _)| book.slot(name).is_none()) {
            let close = near(&name, book.all_names());
            let message = match close.first() {
                Some(close) => format!("there is no field or figure called {name}; did you mean {close}?"),
                None => format!("there is no field or figure called {name}"),
            };
            self.fault(
                &name,
                Diagnostic::of(&codes::style::FAULT, message).at(span).inside(file.clone(), style.text.clone()),
            );
        }
        let questions: Vec<&str> = style.questions.iter().flatten().map(|question| question.name.as_str()).collect();
        for (name, span) in read_of(&style.text, ASKS).into_iter().filter(|(name, _)| !questions.contains(&&**name)) {
            let message = match (near(&name, questions.iter().copied()).first(), &style.questions) {
                (Some(close), _) => format!("the style does not ask for {name}; did you mean {close}?"),
                (None, Some(_)) => format!("the style does not ask for {name}"),
                (None, None) => format!("the style uses {name}, but has no function asks() that asks for it"),
            };
            self.fault(
                &format!("asks.{name}"),
                Diagnostic::of(&codes::style::FAULT, message).at(span).inside(file.clone(), style.text.clone()),
            );
        }
    }
}

impl Work {
    /// The work on an empty bench, if the rules of the shop take it.
    fn on(&self, blank: &Design) -> Option<Design> {
        let mut design = blank.clone();
        let length = |length: &Real| Input::Quantity(Quantity::new(length.clone(), Kind::LENGTH));
        let measures = [
            ("art.kind", Input::Text(self.kind.into())),
            ("art.width", length(&self.width)),
            ("art.height", length(&self.height)),
            ("art.depth", length(&self.depth)),
        ];
        for (name, input) in measures {
            design.set(name, input).ok()?;
        }
        Some(design)
    }
}

/// The works to try, the smallest first.
fn grid(style: &ReadStyle, sides: &[i64]) -> Vec<Work> {
    let works = &style.works;
    let inch = |ticks: &i64| Real::ratio(*ticks, 64);
    let within = |value: &Real, least: &Option<Quantity>, most: &Option<Quantity>| {
        least.as_ref().is_none_or(|least| *value >= least.amount)
            && most.as_ref().is_none_or(|most| *value <= most.amount)
    };
    let mut lengths: Vec<Real> = sides.iter().map(inch).collect();
    lengths.extend(works.least.iter().chain(&works.most).map(|bound| bound.amount.clone()));
    lengths.retain(|side| within(side, &works.least, &works.most));
    lengths.sort_by(|one, other| one.partial_cmp(other).unwrap_or(std::cmp::Ordering::Equal));
    lengths.dedup();
    let mut all = Vec::new();
    for width in &lengths {
        for height in &lengths {
            for (kind, depths) in
                DEPTHS.iter().filter(|(kind, _)| works.kinds.is_empty() || works.kinds.iter().any(|one| one == kind))
            {
                let mut depths: Vec<Real> = depths.iter().map(inch).collect();
                depths.retain(|depth| within(depth, &works.shallow, &works.deep));
                depths.extend(works.shallow.iter().chain(&works.deep).map(|bound| bound.amount.clone()));
                let work = |depth| Work { kind, width: width.clone(), height: height.clone(), depth };
                all.extend(depths.into_iter().map(work));
            }
        }
    }
    let size = |work: &Work| work.width.clone() * work.height.clone();
    all.sort_by(|one, other| size(one).partial_cmp(&size(other)).unwrap_or(std::cmp::Ordering::Equal));
    all
}

/// Answers at the limits of the questions: each by itself, then all at their least, and all at their most.
fn ends(style: &ReadStyle) -> Vec<BTreeMap<String, Value>> {
    let questions: Vec<(&String, Vec<Value>)> =
        style.questions.iter().flatten().map(|question| (&question.name, question.ends())).collect();
    let single = questions
        .iter()
        .flat_map(|(name, ends)| ends.iter().map(move |end| BTreeMap::from([((*name).clone(), end.clone())])));
    let all = |pick: fn(&[Value]) -> Option<&Value>| -> BTreeMap<String, Value> {
        questions.iter().filter_map(|(name, ends)| Some(((*name).clone(), pick(ends)?.clone()))).collect()
    };
    let mut answers: Vec<BTreeMap<String, Value>> = single.collect();
    if questions.len() > 1 {
        answers.extend([all(|ends| ends.first()), all(|ends| ends.last())]);
    }
    answers
}

/// The first field that must still be set.
fn wanting(design: &Design) -> Option<String> {
    let book = design.book();
    book.builds[usize::from(design.build())].order.iter().find_map(|slot| match design.known(*slot) {
        Err(Absent::Missing(fields)) => fields.first().map(|field| book.name(*field).text.clone()),
        Ok(_) | Err(_) => None,
    })
}
