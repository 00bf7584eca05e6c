//! Few files use one another in a circle.
//!
//! A room is a module of the crate's root with all its folders. Two files of a room may need each other, such as a type
//! and its parser; three or more are one thing that nobody can read in parts. `circles.txt` lists the circles that are
//! left, one a line. It may only shrink.

use std::collections::{BTreeMap, BTreeSet};

use crate::source::root;
use crate::uses::{Program, Uses};

/// So many files may use one another.
const MOST: usize = 2;

type Circle = BTreeSet<String>;

/// The files that a file uses, directly or through others.
fn reached<'u>(uses: &'u Uses, from: &str) -> BTreeSet<&'u str> {
    let mut reached = BTreeSet::new();
    let mut waiting: Vec<&str> = uses[from].iter().map(String::as_str).collect();
    while let Some(file) = waiting.pop() {
        if reached.insert(file) {
            waiting.extend(uses[file].iter().map(String::as_str));
        }
    }
    reached
}

/// The largest groups of files that all reach one another.
fn circles(uses: &Uses) -> BTreeSet<Circle> {
    let reach: BTreeMap<&str, BTreeSet<&str>> = uses.keys().map(|file| (file.as_str(), reached(uses, file))).collect();
    let circle = |(from, onward): (&&str, &BTreeSet<&str>)| -> Circle {
        onward.iter().filter(|file| reach[*file].contains(from)).map(|file| file.to_string()).collect()
    };
    reach.iter().map(circle).filter(|circle| circle.len() > MOST).collect()
}

fn listed() -> Vec<Circle> {
    let text = std::fs::read_to_string(root().join("tests/tidy/circles.txt")).unwrap();
    text.lines().map(|line| line.split(' ').map(String::from).collect()).collect()
}

#[test]
fn circles_only_shrink() {
    let uses = Program::read().uses();
    let (found, listed) = (circles(&uses), listed());
    let mut wrong = Vec::new();
    for circle in found.iter().filter(|circle| !listed.iter().any(|listed| circle.is_subset(listed))) {
        wrong.push(format!("new or larger circle of {} files:", circle.len()));
        for file in circle {
            let within: Vec<&str> = uses[file].intersection(circle).map(String::as_str).collect();
            wrong.push(format!("  {file} uses {}", within.join(", ")));
        }
    }
    for file in listed.iter().flatten().filter(|file| !found.iter().any(|circle| circle.contains(*file))) {
        wrong.push(format!("{file} is in no circle any more; take it out of tests/tidy/circles.txt"));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn circles_are_found() {
    let uses = [("a", "b d"), ("b", "c"), ("c", "a"), ("d", "e"), ("e", "d")];
    let files = |text: &str| text.split(' ').map(String::from).collect::<Circle>();
    let uses = uses.into_iter().map(|(file, used)| (file.to_string(), files(used))).collect();
    assert_eq!(circles(&uses), BTreeSet::from([files("a b c")]));
}
