//! The packages that `Cargo.lock` pins.

use std::collections::{BTreeMap, BTreeSet};

use toml_edit::{DocumentMut, Item, Table};

use crate::source::root;

/// Name and version of a package.
pub type Package = (String, String);

fn read(file: &str) -> DocumentMut {
    std::fs::read_to_string(root().join(file)).unwrap().parse().unwrap()
}

fn text(table: &Table, key: &str) -> String {
    table.get(key).and_then(Item::as_str).unwrap_or_default().to_string()
}

/// Every package of the lock file but this one, with what it depends on, as the lock file writes it: `NAME` or
/// `NAME VERSION`.
pub fn locked() -> BTreeMap<Package, Vec<String>> {
    let lock = read("Cargo.lock");
    let packages = lock.get("package").and_then(Item::as_array_of_tables).unwrap();
    let wants = |package: &Table| {
        let list = package.get("dependencies").and_then(Item::as_array);
        list.into_iter().flatten().filter_map(|one| one.as_str().map(String::from)).collect()
    };
    packages
        .iter()
        .map(|package| ((text(package, "name"), text(package, "version")), wants(package)))
        .filter(|((name, _), _)| name != "benchrule")
        .collect()
}

/// The packages that the program is built from on any system: all but those that only tests and benches use.
pub fn shipped() -> BTreeSet<Package> {
    let manifest = read("Cargo.toml");
    let direct = |item: &Item| -> Vec<String> {
        ["dependencies", "build-dependencies"]
            .iter()
            .filter_map(|kind| item.get(kind)?.as_table())
            .flat_map(|table| table.iter().map(|(name, _)| name.to_string()))
            .collect()
    };
    let systems = manifest.get("target").and_then(Item::as_table).unwrap();
    let mut waiting = direct(manifest.as_item());
    waiting.extend(systems.iter().flat_map(|(_, system)| direct(system)));
    let locked = locked();
    let mut found = BTreeSet::new();
    while let Some(wanted) = waiting.pop() {
        let (name, version) = wanted.split_once(' ').unwrap_or((&wanted, ""));
        let fits = |package: &&Package| package.0 == name && (version.is_empty() || package.1 == version);
        for package in locked.keys().filter(fits) {
            if found.insert(package.clone()) {
                waiting.extend(locked[package].iter().cloned());
            }
        }
    }
    found
}

#[test]
fn shipped_packages_leave_out_those_of_tests() {
    let names: BTreeSet<String> = shipped().into_iter().map(|(name, _)| name).collect();
    for name in ["rhai", "libsqlite3-sys", "pest_generator", "linux-raw-sys", "windows-sys"] {
        assert!(names.contains(name), "{name}");
    }
    for name in ["proptest", "divan", "microlp", "libtest-mimic", "benchrule"] {
        assert!(!names.contains(name), "{name}");
    }
}
