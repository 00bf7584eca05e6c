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
    mod piece;
    pub mod reader;
    pub mod resolve;
    pub mod sheets;
    pub mod term;
}

use std::path::Path;

fn main() {
    for watched in ["build.rs", "grammar", "src/diag", "src/data", "src/measure", "src/rules"] {
        println!("cargo::rerun-if-changed={watched}");
    }
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
    std::fs::write(Path::new(&out).join("rules.bin"), packed).expect("the build folder can be written");
}
