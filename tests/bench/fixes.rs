//! What a finding offers is held to rules. Typed after the line that failed it succeeds and brings no new `stop`; it has the numbers that were typed and no
//! others, unless it is a mend, which brings one value that was worked out, for the one name that it sets, never for what
//! was measured.

use std::collections::BTreeSet;

use benchrule::diag::{Code, Diagnostic, codes};
use benchrule::rules::{Design, Level, Type};
use benchrule::session::{Reply, Session};
use benchrule::show::spoken;

/// Codes whose fix is a mend.
const MENDS: &[&Code] = &[&codes::figure::AIM, &codes::wall::HANGING, &codes::script::TOO_LONG];

/// What is wrong with the fixes of findings against a line, each run on a bench as it was before the line.
pub fn faults_of(bench: &dyn Fn() -> Session, line: &str, found: &[Diagnostic]) -> String {
    let mut wrong = String::new();
    // A text of its own is mended there, not at the prompt.
    for one in found.iter().filter(|one| one.source.is_none()) {
        for fix in one.fixed(line) {
            let mut session = bench();
            let before = stops(&session.design());
            let _ = session.line(line);
            let mut fault =
                |what: String| wrong += &format!("{line:.100}\n  offers {fix:.100}, {what} ({})\n", one.code);
            if let Some(why) = strange_numbers(&session.design(), line, one, &fix) {
                fault(why.into());
            }
            match session.line(&fix).reply {
                Err(found) => {
                    let says: Vec<String> = found.iter().map(|one| spoken(&one.says)).collect();
                    fault(format!("which fails: {says:?}"));
                }
                Ok(_) => {
                    let after = stops(&session.design());
                    let new: Vec<_> = after.difference(&before).collect();
                    if !new.is_empty() {
                        fault(format!("which brings {new:?}"));
                    }
                }
            }
        }
    }
    wrong
}

/// What is wrong with what the checks of the design offer after a line.
pub fn faults_of_mends(bench: &dyn Fn() -> Session, design: &Design, line: &str) -> String {
    let mut wrong = String::new();
    for finding in design.findings() {
        let Some(mend) = &finding.mend else { continue };
        let mut fault = |what: &str| wrong += &format!("{line:.100}\n  {} mends {mend}, {what}\n", finding.name);
        if !sets_one_name(mend) || is_measured(design, first_word(mend)) {
            fault("which is measured, or more than one value");
        }
        let mut session = bench();
        session.line(line);
        let before = stops(&session.design());
        if !matches!(session.line(mend).reply, Ok(Reply::Changed(_))) {
            fault("which changes nothing");
        }
        if !stops(&session.design()).is_subset(&before) {
            fault("which brings a stop");
        }
    }
    wrong
}

/// The names of the checks that stop a design.
fn stops(design: &Design) -> BTreeSet<String> {
    let stops = design.findings().into_iter().filter(|finding| finding.level == Level::Stop);
    stops.map(|finding| finding.name).collect()
}

/// Every number in a text, digit group by digit group, in order: `15 4/2"` has 15, 2 and 4; the name `moth-07` has none.
fn numbers(text: &str) -> Vec<String> {
    let words = text.split(|letter: char| letter.is_whitespace() || ",;=()[]\"".contains(letter));
    let numbers = words.filter(|word| !word.starts_with(char::is_alphabetic));
    let groups = numbers.flat_map(|word| word.split(|letter: char| !letter.is_ascii_digit()));
    let mut found: Vec<String> = groups.filter(|digits| !digits.is_empty()).map(Into::into).collect();
    found.sort();
    found
}

/// Whether a field holds an amount that was measured on the work or on what was built.
fn is_measured(design: &Design, field: &str) -> bool {
    let Some(slot) = design.book().slot(field) else { return false };
    let is_amount = matches!(design.book().name(slot).of, Type::Quantity(_) | Type::Size | Type::List(_));
    is_amount
        && (field == "art" || field.starts_with("art.") || field.starts_with("built.") || design.is_measured(slot))
}

fn first_word(line: &str) -> &str {
    line.split_whitespace().next().unwrap_or_default()
}

/// Whether a line shows what to look at, or must come before the one that was typed.
fn comes_first(line: &str, fix: &str) -> bool {
    let first = ["help ", "open ", "restore ", "revisions ", "stock unit "];
    let keeps = |text: &str| first_word(text) == "keep";
    fix.split_whitespace().count() == 1
        || first.iter().any(|word| fix.starts_with(word))
        || (keeps(fix) && !keeps(line))
}

/// Whether a line sets one name to one value: `face 3/4"`, `shop script.steps 100000`, or aims a figure by a field.
fn sets_one_name(fix: &str) -> bool {
    !fix.contains(',') && !fix.contains(" x ") && !fix.contains(';')
}

/// Why a fix may not have the numbers that it has.
fn strange_numbers(design: &Design, line: &str, found: &Diagnostic, fix: &str) -> Option<&'static str> {
    // The digits of a name are not an amount, though it cannot be a name.
    let named = found.span.clone().filter(|_| found.code == &codes::word::FORM);
    let mut amounts = line.to_string();
    amounts.replace_range(named.unwrap_or(0..0), "");
    let (typed, offered) = (numbers(&amounts), numbers(fix));
    let brings = offered.iter().any(|one| !typed.contains(one)) || offered.len() > typed.len();
    if brings && is_measured(design, first_word(fix)) {
        return Some("a value for what was measured");
    }
    if MENDS.contains(&found.code) {
        return (brings && !sets_one_name(fix)).then_some("with more than one value");
    }
    if brings {
        return Some("with other numbers");
    }
    (typed != offered && !comes_first(line, fix)).then_some("without the numbers that were typed")
}
