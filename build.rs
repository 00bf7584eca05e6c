//! Reads and checks the shipped rules, and packs them for the program; a fault fails the build with its place.

#![allow(dead_code, missing_docs, unused_imports, unused_macros, clippy::disallowed_methods)]

#[macro_use]
extern crate uom;

#[path = "src/diag/mod.rs"]
mod diag;
#[path = "src/measure/mod.rs"]
mod measure;
#[path = "src/rules"]
mod rules {
    pub mod added;
    pub mod book;
    mod caution;
    mod circle;
    mod data;
    pub mod entry;
    mod judge;
    mod kinds;
    mod label;
    mod lookup;
    pub mod native;
    pub mod node;
    mod once;
    mod piece;
    pub mod reader;
    pub mod resolve;
    pub mod sheets;
    pub mod term;
}

use std::fmt::Write;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::Path;

fn main() {
    let watched = ["build.rs", "grammar", "src/diag", "src/data", "src/measure", "src/rules"];
    for place in watched {
        println!("cargo::rerun-if-changed={place}");
    }
    println!(
        "cargo::rustc-env=BENCHRULE_RULES_READER={:016x}",
        watched.iter().fold(0, |mark, place| marked(mark, place.as_ref()))
    );
    let book = match rules::sheets::read_book(rules::sheets::SHIPPED) {
        Ok(book) => book,
        Err(fault) => {
            let place = match (&fault.source, &fault.span) {
                (Some(source), Some(span)) => {
                    let (line, column) = diag::line_column(&source.text, span.start);
                    format!("src/rules/{}:{line}:{column}: ", source.name)
                }
                (Some(source), None) => format!("src/rules/{}: ", source.name),
                _ => String::new(),
            };
            let hint = fault.fixed("").first().map(|line| format!(" (try: {line})")).unwrap_or_default();
            println!("cargo::error={place}{}{hint}", fault.says.text());
            return;
        }
    };
    let packed = postcard::to_stdvec(&book).expect("every part of a book can be packed");
    let out = std::env::var("OUT_DIR").expect("set for build scripts");
    let write = |name: &str, bytes: &[u8]| {
        std::fs::write(Path::new(&out).join(name), bytes).expect("the build folder can be written");
    };
    write("rules.bin", &packed);
    write("names.rs", names(&book).as_bytes());
}

/// A mark of the files at a place, and of a mark before: what reads rules is another where it is another.
fn marked(before: u64, place: &Path) -> u64 {
    let mut inside: Vec<_> = std::fs::read_dir(place).into_iter().flatten().flatten().map(|one| one.path()).collect();
    inside.sort();
    let bytes = std::fs::read(place).unwrap_or_default();
    let mut hasher = DefaultHasher::new();
    (before, bytes).hash(&mut hasher);
    inside.iter().fold(hasher.finish(), |mark, place| marked(mark, place))
}

/// Every name of the book with its kind, as a list in Rust.
fn names(book: &rules::book::Book) -> String {
    let mut list = String::from("&[\n");
    for slot in &book.sorted {
        let name = &book.name(*slot).text;
        let kind = book.kind(name).expect("a name of the book");
        writeln!(list, "    ({name:?}, NameKind::{kind:?}),").expect("texts take what is written");
    }
    list + "]\n"
}
