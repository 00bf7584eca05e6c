//! Boards worked out by hand.

use super::*;
use crate::cut::Limits;
use crate::measure::read;
use crate::plan::{Joint, Material, Rack, Ripping, Saw, What};

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
    let rack = Rack::read("stock.csv", table, Unit::named("in"), &mut found).unwrap();
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
        ends: Real::whole(2),
        yields: vec![("4/4".into(), Real::ratio(13, 16)), ("8/4".into(), Real::ratio(7, 4))],
    };
    let items: Vec<(usize, &Item)> = rack.of(What::Board).collect();
    let limits = Limits::steps(1_000_000);
    let yard = Yard { saw: &saw, ripping: &ripping, natures: &[], bare: Unit::named("in"), limits: &limits };
    let made = boarding(parts, &items, rack.pricing(), &yard);
    (made, rack)
}

/// Worked by hand: blanks of 42 in by 1 5/8 in (2 in and 1/8 in left on them) with a kerf of 1/8 in go three times into
/// 5 3/4 in across (5 1/8, and 1 3/4 more does not fit) and twice into 96 in along: 12 of them are 2 boards, 8 board feet.
#[test]
fn boards_are_ripped_and_cut() {
    let table = "what,length,width,count,cost,wood,section\nboard,96,6,,36,walnut,4/4\n";
    let (made, rack) = planned(vec![part(40, 12, "3/4 x 1 1/2")], table);
    assert_eq!((made.boards.len(), made.cost, made.bound), (2, 7200, 7200));
    assert!(made.left.is_empty());
    let blanks: Vec<&Block> = made.blocks().filter(|block| matches!(block.cut, Cut::Part(_))).collect();
    let inches = |text: &str| read::quantity(text, Unit::named("in")).unwrap().amount;
    assert!(blanks.iter().all(|block| block.length == inches("42") && block.width == inches("1 5/8")));
    assert_eq!(blanks.len(), 12);
    assert_eq!(made.feet(&rack.items).to_text(), "8");
    // Three in a row leave nothing to keep; one leaves 96 - 42 - 1/8, of which milling takes 2 in.
    let (made, _) = planned(vec![part(40, 1, "3/4 x 1 1/2")], table);
    let offcuts: Vec<&Cut> =
        made.blocks().map(|block| &block.cut).filter(|cut| matches!(cut, Cut::Offcut(..))).collect();
    assert!(matches!(offcuts[..], [Cut::Offcut(0, long)] if *long == inches("51 7/8")), "{offcuts:?}");
}

/// Worked by hand: a rail of 4 in by 60 in leaves 36 in of its strip, and a thinner part of 30 in by 1 1/2 in comes out of
/// that; by strips of one width each it would take a second board.
#[test]
fn a_narrower_part_comes_out_of_the_rest_of_a_wider_strip() {
    let table = "what,length,width,count,cost,wood,section\nboard,96,6,,36,walnut,4/4\n";
    let (made, _) = planned(vec![part(60, 1, "3/4 x 4 7/8"), part(30, 1, "3/4 x 1 1/2")], table);
    assert_eq!((made.boards.len(), made.cost, made.bound), (1, 3600, 3600));
}

/// Every block is what its blocks and the cuts between them are at most, so that each can be sawn.
fn check_blocks(whole: &Block, kerf: &Real) {
    let (Cut::Ripped(blocks) | Cut::Crosscut(blocks)) = &whole.cut else { return };
    let is_ripped = matches!(whole.cut, Cut::Ripped(_));
    let mut sum = Real::ZERO;
    for (at, block) in blocks.iter().enumerate() {
        let (along, across) = if is_ripped { (&block.width, &block.length) } else { (&block.length, &block.width) };
        assert!(*across == if is_ripped { whole.length.clone() } else { whole.width.clone() }, "{whole:?}");
        sum = sum + along.clone() + if at == 0 { Real::ZERO } else { kerf.clone() };
        check_blocks(block, kerf);
    }
    assert!(sum <= if is_ripped { whole.width.clone() } else { whole.length.clone() }, "{whole:?}");
}

#[test]
fn every_block_can_be_sawn_and_strips_are_ripped_first() {
    let table = "what,length,width,count,cost,wood,section\nboard,96,6,,36,walnut,4/4\nboard,120,9,,70,walnut,4/4\n";
    let parts = (0..12).map(|nth| {
        part(
            14 + 5 * (nth % 7),
            1 + u32::try_from(nth % 4).unwrap(),
            ["3/4 x 1 1/2", "3/4 x 2", "3/4 x 3 1/4"][nth_of(nth, 3)],
        )
    });
    let (made, _) = planned(parts.collect(), table);
    made.boards.iter().for_each(|board| check_blocks(&board.block, &Real::ratio(1, 8)));
    let blanks = made.blocks().filter(|block| matches!(block.cut, Cut::Part(_))).count();
    assert_eq!(blanks, 30);
    // Blanks of one width are in as few strips as hold them: 58 3/8 in of 95 in one.
    let (made, _) = planned(vec![part(11, 2, "3/4 x 3/4"), part(14, 2, "3/4 x 3/4"), part(40, 1, "3/4 x 3")], table);
    let Cut::Ripped(strips) = &made.boards[0].block.cut else { panic!("{made:?}") };
    assert_eq!(strips.iter().filter(|strip| !matches!(strip.cut, Cut::Rest)).count(), 2, "{strips:?}");
    // Four blanks of one width end to end: one strip, and not four crosscuts with a rip each.
    let (made, _) = planned(vec![part(20, 2, "3/4 x 3"), part(22, 2, "3/4 x 3")], table);
    let Cut::Ripped(strips) = &made.boards[0].block.cut else { panic!("{made:?}") };
    assert!(matches!(&strips[0].cut, Cut::Crosscut(blanks) if blanks.len() == 4 || blanks.len() == 5), "{strips:?}");
}

/// Many blanks are laid end to end in full strips first: by the bound, which is found without strips, at most one board is lost.
#[test]
fn many_blanks_lie_in_full_strips() {
    let table = "what,length,width,count,cost,wood,section\nboard,96,6,,36,walnut,4/4\n";
    let parts: Vec<Wanted> =
        (0..25).map(|nth| part(9 + nth, 8, ["3/4 x 3/4", "3/4 x 1 5/8"][nth_of(nth, 2)])).collect();
    let (made, _) = planned(parts, table);
    assert_eq!(made.blocks().filter(|block| matches!(block.cut, Cut::Part(_))).count(), 200);
    made.boards.iter().for_each(|board| check_blocks(&board.block, &Real::ratio(1, 8)));
    assert!(made.left.is_empty() && made.cost - made.bound <= 3600, "{} {}", made.cost, made.bound);
}

fn nth_of(number: i64, of: i64) -> usize {
    usize::try_from(number % of).unwrap()
}

/// A thick board that is needed anyway gives a thin part too, and the bound is a whole board of the thick kind.
#[test]
fn thin_parts_come_out_of_thick_boards_that_have_room() {
    let table = "what,length,width,count,cost,wood,section\nboard,96,6,,36,walnut,4/4\nboard,96,6,,80,walnut,8/4\n";
    let (made, _) = planned(vec![part(40, 1, "1 1/2 x 2"), part(40, 1, "3/4 x 1 1/2")], table);
    assert_eq!((made.boards.len(), made.cost, made.bound), (1, 8000, 8000));
    // Where it has none, each comes out of its own, and no plan costs less: worked by hand, 2 boards of each.
    let (made, _) = planned(vec![part(90, 3, "1 1/2 x 2 1/2"), part(90, 6, "3/4 x 1 1/2")], table);
    assert_eq!((made.boards.len(), made.cost, made.bound), (4, 2 * 3600 + 2 * 8000, made.cost));
    // The cheapest board that yields the section is the least that a plan costs.
    let (made, _) = planned(vec![part(40, 1, "3/4 x 1 1/2")], table);
    assert_eq!((made.cost, made.bound), (3600, 3600));
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
