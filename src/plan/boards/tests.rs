//! Boards worked out by hand.

use super::*;
use crate::plan::{Joint, Material, Rack, What};

fn part(length: i64, quantity: u32, section: &str) -> Wanted {
    Wanted {
        name: format!("part {length}"),
        frame: None,
        length: Real::whole(length),
        short: Real::whole(length),
        quantity,
        material: Material::new("walnut", section),
        joint: Joint::Square,
        mitre: Real::ZERO,
        tilt: Real::ZERO,
    }
}

fn planned(parts: Vec<Wanted>, table: &str) -> (Boarding, Rack) {
    let mut found = Vec::new();
    let rack = Rack::read(table, Unit::named("in"), &mut found).unwrap();
    assert!(found.is_empty());
    let saw = Saw {
        metric: false,
        kerf: Real::ratio(1, 8),
        trim: Real::ZERO,
        offcut: Real::whole(12),
        short: Real::whole(8),
    };
    let ripping = Ripping {
        edge: Real::ratio(1, 8),
        mill: Real::ratio(1, 8),
        yields: vec![("4/4".into(), Real::ratio(13, 16)), ("8/4".into(), Real::ratio(7, 4))],
    };
    let items: Vec<(usize, &Item)> = rack.of(What::Board).collect();
    let limits = Limits::steps(1_000_000);
    let yard = Yard { saw: &saw, ripping: &ripping, natures: &[], bare: Unit::named("in"), limits: &limits };
    let made = boarding(parts, &items, rack.pricing(), &yard);
    (made, rack)
}

/// Worked by hand: strips of 1 5/8 in with a kerf of 1/8 in go three times into 5 3/4 in (5 1/8 used, 1 3/4 more does
/// not fit); two parts of 40 in to a strip of 96 in: 12 parts are 6 strips, 2 boards, 8 board feet.
#[test]
fn boards_are_ripped_and_cut() {
    let table = "what,length,width,count,cost,wood,section\nboard,96,6,,36,walnut,4/4\n";
    let (made, rack) = planned(vec![part(40, 12, "3/4 x 1 1/2")], table);
    assert_eq!((made.boards.len(), made.cost), (2, 7200));
    assert!(made.left.is_empty());
    assert!(made.boards.iter().all(|board| board.strips.len() == 3));
    assert_eq!(made.feet(&rack.items).to_text(), "8");
    assert!(made.bound <= made.cost);
}

#[test]
fn two_sections_share_a_board() {
    let table = "what,length,width,count,cost,wood,section\nboard,96,6,,36,walnut,4/4\n";
    let (made, _) = planned(vec![part(90, 2, "3/4 x 1 1/2"), part(90, 1, "3/4 x 1")], table);
    assert_eq!((made.boards.len(), made.cost, made.bound), (1, 3600, 3600));
}

#[test]
fn what_no_board_yields_is_left() {
    let table = "what,length,width,count,cost,wood,section\nboard,96,6,1,36,walnut,4/4\n";
    let (made, _) = planned(vec![part(40, 2, "1 1/2 x 2")], table);
    assert_eq!(made.left.len(), 1);
    assert!(made.boards.is_empty());
    let (made, _) = planned(vec![part(90, 9, "3/4 x 1 1/2")], table);
    assert_eq!((made.boards.len(), lacking_of(&made)), (1, 6));
}

fn lacking_of(made: &Boarding) -> u32 {
    made.left.iter().map(|left| left.quantity).sum()
}
