//! Modules use only those before them.

use crate::source::{named_behind, root, sources};

/// Every module, in the order in which one may use another.
const ORDER: &[&str] = &[
    "diag", "host", "measure", "table", "fact", "frame", "rules", "shop", "cut", "plan", "book", "word", "lang",
    "session", "show", "batch", "drive", "shell", "args", "start", "main",
];

fn place(module: &str) -> usize {
    ORDER.iter().position(|one| *one == module).unwrap_or_else(|| panic!("{module} has no place in the order"))
}

#[test]
fn modules_use_only_those_before_them() {
    let mut wrong = Vec::new();
    for source in sources().iter().filter(|source| source.path != "lib.rs") {
        let own = place(source.module());
        for mark in ["crate::", "benchrule::"] {
            for used in named_behind(&source.code, mark) {
                // Macros and names of the crate's root are not modules.
                if place(used) > own {
                    wrong.push(format!("{} uses {used}", source.path));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_module_is_reached_from_above() {
    for source in sources().iter().filter(|source| source.path != "lib.rs") {
        let climb = "super::".repeat(source.depth());
        assert!(!source.code.contains(&climb), "{} climbs out of its module", source.path);
    }
}

/// The parts of the program that anyone may take: no scripts, no files, no colour.
#[test]
fn rules_and_shop_know_nothing_of_what_comes_after() {
    let plain = ["measure", "frame", "rules", "shop", "cut", "plan"];
    for source in sources().iter().filter(|source| plain.contains(&source.module())) {
        for word in ["rhai", "std::fs", "nu_ansi_term", "rustyline", "std::io", "std::env"] {
            assert!(!source.code.contains(word), "{} knows {word}", source.path);
        }
    }
}

/// Geometry is approximate from the start and counts in plain numbers; whoever calls it turns quantities into them.
#[test]
fn frame_knows_no_quantities() {
    for source in sources().iter().filter(|source| source.module() == "frame") {
        assert!(!source.code.contains("crate::measure"), "{} knows quantities", source.path);
    }
}

#[test]
fn every_module_is_on_the_map() {
    let map = std::fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    for module in ORDER {
        let (file, folder) = (format!("  {module}.rs "), format!("  {module}/ "));
        assert!(map.contains(&file) || map.contains(&folder), "{module}");
    }
    let order = ORDER.iter().filter(|module| **module != "args").copied().collect::<Vec<_>>().join(" ");
    assert!(map.contains(&order), "{order}");
}
