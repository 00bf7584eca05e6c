//! What a half-typed word may become.

use super::command::{BookDeed, Deed, WORDS, Word, word};
use super::session::Session;
use crate::lang::builtins;
use crate::rules::{Design, Type};

/// Where the word before the cursor begins, and what it may become, in order.
pub fn complete(session: &mut Session, line: &str, cursor: usize) -> (usize, Vec<String>) {
    let before = line.get(..cursor).unwrap_or(line);
    let start = before
        .rfind(|letter: char| !(letter.is_alphanumeric() || matches!(letter, '_' | '.' | '-')))
        .map_or(0, |at| at + before[at..].chars().next().map_or(1, char::len_utf8));
    let typed = &before[start..];
    let first = before[..start].trim();
    let mut candidates = candidates(session, first, typed);
    candidates.retain(|candidate| candidate.starts_with(typed));
    // Functions only where nothing of the bench fits: a framer reaches for fields.
    if candidates.iter().any(|candidate| !candidate.ends_with('(')) {
        candidates.retain(|candidate| !candidate.ends_with('('));
    }
    candidates.sort();
    candidates.dedup();
    (start, candidates)
}

fn candidates(session: &mut Session, first: &str, typed: &str) -> Vec<String> {
    let design = session.design();
    if first.is_empty() {
        let words = WORDS.iter().map(|word| word.name.to_string());
        return words.chain(names(&design)).chain(functions()).collect();
    }
    if let Some(word) = word(first) {
        return match word.deed {
            Deed::New => builds(&design),
            Deed::Clear | Deed::Why | Deed::Aim | Deed::Tolerance => names(&design),
            Deed::Style => session.style_rows().into_iter().map(|style| style.name).collect(),
            Deed::Shop => {
                let settings = session.settings.all().into_iter();
                settings.map(|setting| setting.name.into()).chain(["save".to_string()]).collect()
            }
            Deed::Help => WORDS
                .iter()
                .map(|word| word.name.to_string())
                .chain(names(&design))
                .chain(functions())
                .chain(builds(&design))
                .collect(),
            Deed::Sheet
            | Deed::Cautions
            | Deed::Parts
            | Deed::Page
            | Deed::Styles
            | Deed::Undo
            | Deed::Redo
            | Deed::Quit => Vec::new(),
            Deed::Hang | Deed::Plan | Deed::Stock => Vec::new(),
            Deed::Movement => vec!["from".into()],
            Deed::Tape | Deed::Run | Deed::Figure => names(&design),
            Deed::Book(deed) => of_the_book(session, deed, typed),
        };
    }
    // The second name of `compare` and its like.
    if let Some(Word { deed: Deed::Book(deed @ (BookDeed::Compare | BookDeed::Rename | BookDeed::Copy)), .. }) =
        first.split_whitespace().next().and_then(word)
    {
        return of_the_book(session, *deed, typed);
    }
    if first == "build" {
        return builds(&design);
    }
    match design.slot(first) {
        Ok(slot) if design.book().name(slot).of == Type::Word => {
            design.rule(slot).and_then(|rule| design.book().words(rule)).unwrap_or_default().to_vec()
        }
        _ => names(&design).into_iter().chain(functions()).collect(),
    }
}

/// What may stand behind a word of the design book.
fn of_the_book(session: &Session, deed: BookDeed, typed: &str) -> Vec<String> {
    match deed {
        BookDeed::Book => ["all", "retired", "export", "import", "backup"].map(Into::into).into(),
        BookDeed::Find => {
            let mut names = session.design_names(typed);
            names.push("if".into());
            names
        }
        BookDeed::Keep
        | BookDeed::Open
        | BookDeed::Revisions
        | BookDeed::Compare
        | BookDeed::Retire
        | BookDeed::Restore
        | BookDeed::Rename
        | BookDeed::Copy
        | BookDeed::Label => session.design_names(typed),
    }
}

fn builds(design: &Design) -> Vec<String> {
    design.book().builds.iter().map(|build| build.name.to_string()).collect()
}

/// The names that this build has.
fn names(design: &Design) -> Vec<String> {
    let order = &design.book().builds[usize::from(design.build())].order;
    order.iter().map(|slot| design.book().name(*slot).text.clone()).chain(["build".to_string()]).collect()
}

fn functions() -> Vec<String> {
    builtins().map(|one| format!("{}(", one.name)).collect()
}
