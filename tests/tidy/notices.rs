//! `THIRD-PARTY.txt`: the licence of every package that the program is built from, with its notices.
//!
//! The test needs neither a network nor the packages. `cargo fetch`, then `BLESS=1 cargo test --test tidy notices`
//! writes the file anew from the sources that Cargo keeps.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use std::path::{Path, PathBuf};

use toml_edit::DocumentMut;

use crate::packages::{Package, shipped};
use crate::source::{files, root};

const HEAD: &str = "\
Third-party licences

benchrule is built from the packages below. Each is followed by its licence; the texts come after the list, each once
with the packages that it belongs to. Where a package may be used under one of several licences, it is used under MIT
if that is one of them. The source of each, those under the Mozilla Public License among them, is published in the
public Rust package registry under the name and version given here, and at the address beside it.

The package libsqlite3-sys contains the SQLite library, whose authors have placed it in the public domain.
Packages that only the tests and benches use are not part of the program and are not listed.
";

/// The usual text of the MIT licence, for packages that name the licence and ship no file with it.
const MIT: &str = "\
Permission is hereby granted, free of charge, to any person obtaining a copy of this software and associated
documentation files (the \"Software\"), to deal in the Software without restriction, including without limitation the
rights to use, copy, modify, merge, publish, distribute, sublicense, and/or sell copies of the Software, and to permit
persons to whom the Software is furnished to do so, subject to the following conditions:

The above copyright notice and this permission notice shall be included in all copies or substantial portions of the
Software.

THE SOFTWARE IS PROVIDED \"AS IS\", WITHOUT WARRANTY OF ANY KIND, EXPRESS OR IMPLIED, INCLUDING BUT NOT LIMITED TO THE
WARRANTIES OF MERCHANTABILITY, FITNESS FOR A PARTICULAR PURPOSE AND NONINFRINGEMENT. IN NO EVENT SHALL THE AUTHORS OR
COPYRIGHT HOLDERS BE LIABLE FOR ANY CLAIM, DAMAGES OR OTHER LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR
OTHERWISE, ARISING FROM, OUT OF OR IN CONNECTION WITH THE SOFTWARE OR THE USE OR OTHER DEALINGS IN THE SOFTWARE.
";

/// A package as its own manifest describes it.
struct Notice {
    licence: String,
    address: String,
    texts: Vec<String>,
}

/// Where Cargo keeps the sources of a package.
fn folder(package: &Package) -> PathBuf {
    let home = std::env::var_os("CARGO_HOME").map(PathBuf::from);
    let home = home.or_else(|| Some(PathBuf::from(std::env::var_os("HOME")?).join(".cargo"))).unwrap();
    let name = format!("{}-{}", package.0, package.1);
    let registries = std::fs::read_dir(home.join("registry/src")).unwrap();
    let found = registries.map(|one| one.unwrap().path().join(&name)).find(|path| path.is_dir());
    found.unwrap_or_else(|| panic!("{name} is not on this machine; run cargo fetch first"))
}

fn notice(package: &Package) -> Notice {
    let folder = folder(package);
    let manifest: DocumentMut = std::fs::read_to_string(folder.join("Cargo.toml")).unwrap().parse().unwrap();
    let about = |key: &str| manifest["package"].get(key).cloned();
    let text = |key: &str| about(key).and_then(|item| item.as_str().map(String::from)).unwrap_or_default();
    let licence = text("license").replace('/', " OR ");
    let mut texts = texts(&folder, &licence);
    if texts.is_empty() {
        let authors = about("authors").and_then(|item| item.as_array().cloned()).unwrap_or_default();
        let authors: Vec<&str> = authors.iter().filter_map(|one| one.as_str()).collect();
        // Drop the address in angle brackets.
        let names: Vec<&str> = authors.iter().filter_map(|one| one.split(" <").next()).collect();
        texts.push(match licence.as_str() {
            "BSL-1.0" => {
                format!("Copyright {}\n\nBoost Software License, version 1.0, printed below.\n", names.join(", "))
            }
            mit if mit.contains("MIT") => format!("Copyright (c) {}\n\n{MIT}", names.join(", ")),
            other => panic!("{package:?} ships no text of its licence, {other}"),
        });
    }
    Notice { licence, address: text("repository"), texts }
}

/// The licence files of a package; of several licences to choose from, the MIT one.
fn texts(folder: &Path, licence: &str) -> Vec<String> {
    let name = |path: &PathBuf| path.file_name().unwrap().to_string_lossy().to_uppercase();
    let begins = ["LICENSE", "LICENCE", "COPYING", "COPYRIGHT", "NOTICE"];
    let mut found: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.is_file() && begins.iter().any(|start| name(path).starts_with(start)))
        .collect();
    found.sort();
    if licence.contains("OR MIT") || licence.contains("MIT OR") {
        let chosen = |path: &PathBuf| name(path).contains("MIT") || name(path).contains("UNICODE");
        if found.iter().any(chosen) {
            found.retain(chosen);
        }
    }
    found.iter().map(|path| tidied(&std::fs::read_to_string(path).unwrap())).collect()
}

/// Without tabs, carriage returns and blanks at line ends.
fn tidied(text: &str) -> String {
    let lines: Vec<String> = text.lines().map(|line| line.replace('\t', "    ").trim_end().to_string()).collect();
    let text = lines.join("\n");
    format!("{}\n", text.trim_matches(['\n', '\u{feff}']))
}

fn written() -> String {
    std::fs::read_to_string(root().join("THIRD-PARTY.txt")).unwrap_or_default()
}

fn generated() -> String {
    let mut text = format!("{HEAD}\n");
    let mut by_text: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for package in shipped() {
        let notice = notice(&package);
        let called = format!("{} {}", package.0, package.1);
        writeln!(text, "- {called}: {}, {}", notice.licence, notice.address).unwrap();
        for one in notice.texts {
            by_text.entry(one).or_default().push(called.clone());
        }
    }
    let mut texts: Vec<(String, Vec<String>)> = by_text.into_iter().collect();
    texts.sort_by(|one, other| one.1.cmp(&other.1));
    for (licence, packages) in texts {
        write!(text, "\n{}\n{}\n\n{licence}", "=".repeat(80), packages.join(", ")).unwrap();
    }
    text
}

#[test]
fn notices_are_those_of_the_locked_packages() {
    if std::env::var_os("BLESS").is_some() && listed(&written()) != shipped() {
        std::fs::write(root().join("THIRD-PARTY.txt"), generated()).unwrap();
    }
    let (listed, wanted) = (listed(&written()), shipped());
    let differ: Vec<&Package> = listed.symmetric_difference(&wanted).collect();
    assert!(differ.is_empty(), "THIRD-PARTY.txt is stale: cargo fetch, then BLESS=1; {differ:?}");
}

/// The packages that the file names.
fn listed(text: &str) -> BTreeSet<Package> {
    let package = |line: &str| {
        let (called, _) = line.strip_prefix("- ")?.split_once(": ")?;
        called.split_once(' ').map(|(name, version)| (name.to_string(), version.to_string()))
    };
    text.split(&"=".repeat(80)).next().unwrap_or_default().lines().filter_map(package).collect()
}

#[test]
fn every_listed_package_has_a_text() {
    let text = written();
    let texts: Vec<&str> = text.split(&"=".repeat(80)).skip(1).collect();
    for (name, version) in listed(&text) {
        let called = format!("{name} {version}");
        let has = |text: &&str| {
            text.trim_start().lines().next().is_some_and(|line| line.split(", ").any(|one| one == called))
        };
        assert!(texts.iter().any(has), "{called} has no licence text");
    }
    assert!(files(root()).iter().any(|file| file.ends_with("LICENSE")), "our own licence is missing");
}
