//! What holds for every file of the project.

use crate::source::{below, files, root};

/// Every text of the project but this one, which must name what it forbids.
fn texts() -> Vec<(String, String)> {
    files(root())
        .into_iter()
        .map(|path| (below(&path, root()), std::fs::read_to_string(&path).unwrap_or_default()))
        .filter(|(path, _)| path != "tests/tidy/project.rs" && path != "Cargo.lock")
        .collect()
}

#[test]
fn nothing_is_left_for_later() {
    for (path, text) in texts() {
        for word in ["TODO", "FIXME", "XXX", "todo!(", "unimplemented!(", "#[ignore", "should_panic"] {
            assert!(!text.contains(word), "{path} has {word}");
        }
    }
}

#[test]
fn no_test_waits() {
    for (path, text) in texts().iter().filter(|(path, _)| path.starts_with("tests/") && !path.ends_with("powers.rs")) {
        for word in ["thread::sleep", "Instant::now", "TcpStream", "UdpSocket"] {
            assert!(!text.contains(word), "{path} has {word}");
        }
    }
}

#[test]
fn no_file_knows_a_machine() {
    for (path, text) in texts() {
        for word in ["/work/", "/root/", "/Users/", "/home/user", ":\\Users"] {
            assert!(!text.contains(word), "{path} has {word}");
        }
    }
}

#[test]
fn texts_are_tidy() {
    for (path, text) in texts() {
        assert!(!text.contains('\t') || path.ends_with(".tsv"), "{path} has a tab");
        assert!(!text.contains('\r'), "{path} has a carriage return");
        assert!(text.is_empty() || text.ends_with('\n'), "{path} does not end its last line");
        // What is shown may end in blanks; what is written may not.
        if path.ends_with(".rs") || path.ends_with(".rules") || path.ends_with(".rhai") || path.ends_with(".md") {
            assert!(text.lines().all(|line| line.trim_end() == line), "{path} has blanks at the end of a line");
        }
    }
}

#[test]
fn versions_are_pinned() {
    let lock = std::fs::read_to_string(root().join("Cargo.lock")).unwrap();
    assert!(lock.contains("name = \"benchrule\""));
    let ignored = std::fs::read_to_string(root().join(".gitignore")).unwrap_or_default();
    assert!(!ignored.contains("Cargo.lock") && !ignored.contains("*.lock"));
}

#[test]
fn every_script_language_file_of_rules_is_shipped() {
    let shipped: Vec<&str> = benchrule::rules::SHIPPED.iter().map(|(name, _)| *name).collect();
    for path in files(&root().join("src/rules")) {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if name.ends_with(".rules") {
            assert!(shipped.contains(&name.as_str()), "{name}");
        }
    }
}
