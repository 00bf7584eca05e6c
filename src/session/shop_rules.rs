//! The rules of a shop: the shipped ones, with files of its own from its config folder on top.

use std::path::PathBuf;

use super::command::word;
use super::packed_rules::{keep, kept};
use crate::diag::{Diagnostic, codes};
use crate::host::Host;
use crate::lang::builtins;
use crate::measure::Unit;
use crate::rules::{Book, Rules, shipped, shipped_kind};

/// The folder of rules files, in the folder of settings.
pub const FOLDER: &str = "rules";

/// The ending of a rules file.
pub const ENDING: &str = ".rules";

/// The rules of the shop, with its files read in order of name. A file with a fault is reported and left out.
///
/// Rules without a fault are saved packed, so that they are read once and not at every start.
pub fn rules(host: &dyn Host) -> (Rules, Vec<Diagnostic>) {
    let files: Vec<(String, Result<String, Diagnostic>)> = files(host)
        .into_iter()
        .map(|file| (file.display().to_string(), host.read(&file).map_err(Diagnostic::from)))
        .collect();
    if files.is_empty() {
        return (shipped(), Vec::new());
    }
    let texts: Option<Vec<(String, String)>> =
        files.iter().map(|(name, text)| Some((name.clone(), text.as_ref().ok()?.clone()))).collect();
    if let Some(book) = texts.as_ref().and_then(|texts| kept(host, texts)).filter(|book| taken(book).is_none()) {
        return (book.into(), Vec::new());
    }
    let (rules, found) = read(files);
    if let Some(texts) = texts.filter(|_| found.is_empty()) {
        keep(host, &texts, &rules);
    }
    (rules, found)
}

/// Reads the files, each on top of those before it.
fn read(files: Vec<(String, Result<String, Diagnostic>)>) -> (Rules, Vec<Diagnostic>) {
    let (mut rules, mut found) = (shipped(), Vec::new());
    for (name, text) in files {
        let with = text.and_then(|text| {
            let book = rules.with_file(&name, &text)?;
            is_free(&book, &name, &text)?;
            Ok(book)
        });
        match with {
            Ok(book) => rules = book.into(),
            Err(fault) => {
                let says = fault.says.and("; this file is not used");
                found.push(Diagnostic { says, ..fault });
            }
        }
    }
    (rules, found)
}

fn files(host: &dyn Host) -> Vec<PathBuf> {
    let Some(folder) = host.config().map(|folder| folder.join(FOLDER)) else { return Vec::new() };
    let mut files = host.list(&folder);
    // Reading a pipe among them would never end.
    files.retain(|file| file.ends_with(ENDING) && host.size(&folder.join(file)).is_some());
    files.sort();
    files.into_iter().map(|file| folder.join(file)).collect()
}

/// The first name of the shop's own rules that means something else at the bench, with that meaning.
fn taken(book: &Book) -> Option<(&str, &'static str)> {
    let own = book.all_names().filter(|name| shipped_kind(name).is_none());
    own.filter_map(|name| Some((name, meaning(name)?))).next()
}

/// Refuses a name that can never be typed, because it means something else at the bench.
fn is_free(book: &Book, file: &str, text: &str) -> Result<(), Diagnostic> {
    match taken(book) {
        Some((name, what)) => {
            let start = text.find(name).unwrap_or(0);
            let message = format!("{name} is {what}, so it cannot be the name of a field or a figure");
            Err(Diagnostic::of(&codes::rules::NAME_TAKEN, message).at(start..start + name.len()).inside(file, text))
        }
        None => Ok(()),
    }
}

/// The meaning of a name at the bench, whatever the rules define.
pub(super) fn meaning(name: &str) -> Option<&'static str> {
    if word(name).is_some() {
        return Some("a word of the prompt");
    }
    if Unit::named(name).is_some() {
        return Some("a unit");
    }
    builtins().any(|function| function.name == name).then_some("a function")
}
