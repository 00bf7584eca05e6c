//! The rules of a shop: those that ship, and files of its own in its config folder on top.

use std::path::PathBuf;
use std::sync::Arc;

use super::command::word;
use crate::diag::Diagnostic;
use crate::host::Host;
use crate::lang::builtins;
use crate::measure::Unit;
use crate::rules::{Book, shipped};

/// The folder of rules files, in the folder of settings.
pub const FOLDER: &str = "rules";

/// The ending of a rules file.
pub const ENDING: &str = ".rules";

/// The rules of the shop, its files read in the order of their names. A file with a fault in it is told and left out; the
/// shipped rules and the other files hold.
pub fn rules(host: &dyn Host) -> (Arc<Book>, Vec<Diagnostic>) {
    let (mut rules, mut found) = (shipped(), Vec::new());
    for file in files(host) {
        let name = file.display().to_string();
        let read = host.read(&file).map_err(Diagnostic::from);
        let with = read.and_then(|text| {
            let book = rules.with_file(&name, &text)?;
            no_word_of_the_bench(&rules, &book, &name, &text)?;
            Ok(book)
        });
        match with {
            Ok(book) => rules = Arc::new(book),
            Err(fault) => {
                let says = fault.says.and("; nothing of this file is used");
                found.push(Diagnostic { says, ..fault });
            }
        }
    }
    (rules, found)
}

fn files(host: &dyn Host) -> Vec<PathBuf> {
    let Some(folder) = host.config().map(|folder| folder.join(FOLDER)) else { return Vec::new() };
    let mut files = host.list(&folder);
    // A pipe among them would be waited for without end.
    files.retain(|file| file.ends_with(ENDING) && host.size(&folder.join(file)).is_some());
    files.sort();
    files.into_iter().map(|file| folder.join(file)).collect()
}

/// Refuses a name that could never be typed, since it means something else at the bench.
fn no_word_of_the_bench(before: &Book, after: &Book, file: &str, text: &str) -> Result<(), Diagnostic> {
    let added = after.all_names().filter(|name| before.slot(name).is_none());
    match added.filter_map(|name| Some((name, meaning(name)?))).next() {
        Some((name, what)) => {
            let start = text.find(name).unwrap_or(0);
            let message = format!("{name} is {what}, so it cannot be the name of a field or a figure");
            Err(Diagnostic::new(message).at(start..start + name.len()).inside(file, text))
        }
        None => Ok(()),
    }
}

/// What a name means at the bench whatever the rules say.
pub(super) fn meaning(name: &str) -> Option<&'static str> {
    if word(name).is_some() {
        return Some("a word of the bench");
    }
    if Unit::named(name).is_some() {
        return Some("a unit");
    }
    builtins().any(|function| function.name == name).then_some("a function")
}
