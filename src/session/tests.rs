//! What a line copies and unpacks.

use std::rc::Rc;

use super::*;
use crate::host::Memory;
use crate::measure::write::Manner;
use crate::rules::design::copies_in;
use crate::rules::{Design, Rules};
use crate::shop::Settings;

/// These tests print nothing.
struct NoPaper;

impl Paper for NoPaper {
    fn sheet(&self, _: &Design) -> String {
        String::new()
    }

    fn plan(&self, _: &Planned, _: &Manner) -> String {
        String::new()
    }
}

fn session() -> Session {
    Session::new(Rc::new(Memory::default()), Settings::default(), Rc::new(NoPaper))
}

/// The number of designs that a line copies.
#[track_caller]
fn copies(session: &mut Session, line: &str) -> usize {
    copies_in(|| {
        let outcome = session.line(line);
        assert!(outcome.reply.is_ok(), "{line}: {:?}", outcome.reply);
    })
}

#[test]
fn a_line_that_changes_no_design_copies_none() {
    let mut session = session();
    session.line("art 16 x 20 x 3/4");
    let lines = ["11 + 2*5/8", "let x = 3", "x * 2", "reveal", "opening.width / 2", "sheet", "why depth", "tape 3/8"];
    for line in lines.into_iter().chain(["help reveal", "tolerance", "undo", "redo", ""]) {
        assert_eq!(copies(&mut session, line), 0, "{line}");
    }
    assert_eq!(copies_in(|| assert!(session.line("shete").reply.is_err())), 0);
}

#[test]
fn a_line_that_sets_a_field_copies_one() {
    let mut session = session();
    for line in ["art 16 x 20 x 3/4", "reveal 3/8", "face 1", "design.reveal = 1/4\"", "clear reveal"] {
        assert_eq!(copies(&mut session, line), 1, "{line}");
    }
    // A design of a script is copied only while something else holds it.
    assert_eq!(copies(&mut session, "let d = new_design(); d.art = 5\" x 7\"; d.reveal = 1/8\""), 0);
}

/// A sum, or a line of names that are not fields, needs only the names of the rules.
#[test]
fn a_sum_unpacks_no_rules() {
    let rules = Rules::packed();
    let mut session = Session::new(Rc::new(Memory::default()), Settings::by(rules.clone()), Rc::new(NoPaper));
    for line in ["11 + 2*5/8", "let x = 3", "x * 2", "fn half(x) { x / 2 }", "half(11 3/8\")", "1 + "] {
        let _ = session.line(line);
        assert!(!rules.is_unpacked(), "{line}");
    }
    assert!(session.line("reveal").reply.is_ok());
    assert!(rules.is_unpacked());
}
