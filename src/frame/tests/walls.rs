//! Pieces on a wall: figures worked by hand (common practice, no source), and what must hold of every row and grid.

use proptest::prelude::*;

use super::{cases, near};
use crate::frame::Point;
use crate::frame::wall::{Gaps, Hanging, Piece, Wall, WallFault, grid, row};

const WALL: Wall = Wall { width: 120.0, height: 96.0, centre: 57.0 };

/// A piece on one hook in its middle.
fn piece(width: f64, height: f64, drop: f64) -> Piece {
    Piece { width, height, hooks: vec![width / 2.0], drop }
}

#[test]
fn three_pieces_with_equal_gaps() {
    // By hand: 120 less 18, 24 and 18 leaves 60, four gaps of 15.
    let pieces = [piece(18.0, 22.0, 3.0), piece(24.0, 30.0, 4.0), piece(18.0, 22.0, 3.0)];
    let found = row(&WALL, &pieces, Gaps::Equal).unwrap();
    assert_eq!((found.gap, found.end), (15.0, 15.0));
    let edges: Vec<_> = found.pieces.iter().map(|hung| (hung.left, hung.right)).collect();
    assert_eq!(edges, [(15.0, 33.0), (48.0, 72.0), (87.0, 105.0)]);
    assert_eq!((found.pieces[0].bottom, found.pieces[0].top), (46.0, 68.0));
    let hooks: Vec<_> = found.pieces.iter().flat_map(|hung| hung.hooks.clone()).collect();
    assert_eq!(hooks, [Point::new(24.0, 65.0), Point::new(60.0, 68.0), Point::new(96.0, 65.0)]);
}

#[test]
fn a_given_gap_is_centred() {
    // By hand: 18 + 4 + 24 takes 46 of 120, so that 37 is left on either side. Two hooks on the wider piece.
    let wide = Piece { hooks: vec![6.0, 18.0], ..piece(24.0, 30.0, 4.0) };
    let found = row(&WALL, &[piece(18.0, 22.0, 3.0), wide], Gaps::Given(4.0)).unwrap();
    assert_eq!((found.gap, found.end), (4.0, 37.0));
    assert_eq!(found.pieces[1].hooks, [Point::new(65.0, 68.0), Point::new(77.0, 68.0)]);
}

#[test]
fn a_grid_by_hand() {
    // Five pieces in two rows: columns of 20, 16, 12 and rows of 24 and 16 with gaps of 4: 56 across, 44 up.
    let sizes = [(20.0, 24.0), (16.0, 20.0), (12.0, 12.0), (10.0, 16.0), (16.0, 8.0)];
    let pieces = sizes.map(|(width, height)| piece(width, height, 2.0));
    let found = grid(&WALL, &pieces, Gaps::Given(4.0), Some(2)).unwrap();
    assert_eq!(found.end, 32.0);
    let places: Vec<_> = found.pieces.iter().map(|hung| (hung.row, hung.column, hung.left, hung.top)).collect();
    // The grid reaches from 35 to 79; the second row from 35 to 51.
    assert_eq!(
        places,
        [(0, 0, 32.0, 79.0), (0, 1, 56.0, 77.0), (0, 2, 76.0, 73.0), (1, 0, 37.0, 51.0), (1, 1, 56.0, 47.0),]
    );
}

#[test]
fn rows_are_chosen_where_none_are_given() {
    // By hand: six of 30 with gaps of 2 take 190, in two rows of three 94.
    let pieces = vec![piece(30.0, 20.0, 2.0); 6];
    let found = grid(&WALL, &pieces, Gaps::Given(2.0), None).unwrap();
    assert_eq!(found.pieces.last().map(|hung| (hung.row, hung.column)), Some((1, 2)));
    assert_eq!(found.end, 13.0);
    let found = grid(&WALL, &pieces[..3], Gaps::Given(2.0), None).unwrap();
    assert!(found.pieces.iter().all(|hung| hung.row == 0));
}

#[test]
fn what_does_not_fit_is_said() {
    let wide = [piece(70.0, 20.0, 2.0), piece(60.0, 20.0, 2.0)];
    let said = |wall: &Wall, pieces: &[Piece], gaps, rows| grid(wall, pieces, gaps, rows).unwrap_err().to_string();
    let one = Some(1);
    let too_wide = "the pieces and their gaps take 130 in, 10 in more than the wall's 120 in";
    assert_eq!(said(&WALL, &wide, Gaps::Equal, one), too_wide);
    let too_wide = "the pieces and their gaps take 134 in, 14 in more than the wall's 120 in";
    assert_eq!(said(&WALL, &wide, Gaps::Given(4.0), one), too_wide);
    let tall = [piece(20.0, 90.0, 2.0)];
    assert_eq!(said(&WALL, &tall, Gaps::Equal, one), "the highest edge comes 6 in above the ceiling");
    let low = Wall { centre: 40.0, ..WALL };
    assert_eq!(said(&low, &tall, Gaps::Equal, one), "the lowest edge comes 5 in below the floor");
    assert_eq!(said(&WALL, &[], Gaps::Equal, one), "there is nothing to hang");
    assert_eq!(said(&WALL, &wide, Gaps::Equal, Some(3)), "3 rows for 2 pieces; from 1 to 2 would do");
    assert_eq!(said(&WALL, &wide, Gaps::Given(-1.0), one), "the gap is -1 in, and must be 0 in or more");
    let off = [Piece { hooks: vec![21.5], ..piece(20.0, 20.0, 2.0) }];
    assert_eq!(said(&WALL, &off, Gaps::Equal, one), "piece 1: a hook lies 1.5 in outside of it");
    let unknown = [Piece { hooks: vec![f64::NAN], ..piece(20.0, 20.0, 2.0) }];
    assert!(grid(&WALL, &unknown, Gaps::Equal, one).is_err());
    let flat = [piece(20.0, 20.0, 2.0), piece(20.0, 0.0, 0.0)];
    assert_eq!(said(&WALL, &flat, Gaps::Equal, one), "piece 2: its height is 0 in, and must be above 0 in");
    // What just fits does.
    assert_eq!(
        row(&WALL, &[piece(70.0, 96.0, 2.0), piece(50.0, 20.0, 2.0)], Gaps::Equal).unwrap_err().to_string(),
        "the highest edge comes 9 in above the ceiling"
    );
    assert_eq!(row(&WALL, &[piece(70.0, 78.0, 2.0), piece(50.0, 20.0, 2.0)], Gaps::Equal).unwrap().gap, 0.0);
    // Not even one below the other.
    assert_eq!(
        said(&WALL, &[piece(130.0, 20.0, 2.0), piece(60.0, 20.0, 2.0)], Gaps::Equal, None),
        "the pieces and their gaps take 130 in, 10 in more than the wall's 120 in"
    );
}

fn pieces() -> impl Strategy<Value = Vec<Piece>> {
    let one = (4.0..40.0, 4.0..40.0, 0.0..1.0, 0.0..1.0).prop_map(|(width, height, across, down)| Piece {
        width,
        height,
        hooks: vec![width * across, width * (1.0 - across)],
        drop: height * down,
    });
    prop::collection::vec(one, 1..12)
}

/// No two pieces over one another, none off the wall, hooks where they are on the piece.
fn holds(wall: &Wall, pieces: &[Piece], found: &Hanging) {
    assert_eq!(found.pieces.len(), pieces.len());
    for (at, (hung, piece)) in found.pieces.iter().zip(pieces).enumerate() {
        near(hung.right - hung.left, piece.width, 1e-9);
        near(hung.top - hung.bottom, piece.height, 1e-9);
        assert!(hung.left >= found.end - 1e-9 && hung.right <= wall.width - found.end + 1e-9);
        assert!(hung.bottom >= -1e-9 && hung.top <= wall.height + 1e-9);
        for (hook, across) in hung.hooks.iter().zip(&piece.hooks) {
            near(hook.x - hung.left, *across, 1e-9);
            near(hung.top - hook.y, piece.drop, 1e-9);
        }
        for other in &found.pieces[..at] {
            let gap = found.gap - 1e-9;
            let beside = hung.left >= other.right + gap || other.left >= hung.right + gap;
            let above = hung.bottom >= other.top + gap || other.bottom >= hung.top + gap;
            assert!(beside || above, "{hung:?}, {other:?}");
        }
    }
}

proptest! {
    #![proptest_config(cases(1000))]

    #[test]
    fn a_hanging_fits_its_wall(
        pieces in pieces(),
        width in 40.0..300.0,
        rows in prop::option::of(1_usize..6),
        gap in prop::option::of(0.0..12.0),
    ) {
        let wall = Wall { width, height: 120.0, centre: 58.0 };
        let gaps = gap.map_or(Gaps::Equal, Gaps::Given);
        match grid(&wall, &pieces, gaps, rows) {
            Ok(found) => holds(&wall, &pieces, &found),
            Err(WallFault::TooWide { takes, wall: width }) => prop_assert!(takes > width),
            Err(WallFault::BelowFloor { by } | WallFault::AboveCeiling { by }) => prop_assert!(by > 0.0),
            Err(WallFault::Rows { rows, pieces }) => prop_assert!(rows > pieces),
            Err(WallFault::Range(fault) | WallFault::Piece { fault, .. }) => prop_assert!(false, "{fault}"),
            Err(fault @ (WallFault::NoPieces | WallFault::HookOff { .. })) => prop_assert!(false, "{fault}"),
        }
    }

    #[test]
    fn equal_gaps_are_equal(pieces in pieces()) {
        let wall = Wall { width: 600.0, height: 120.0, centre: 58.0 };
        let found = row(&wall, &pieces, Gaps::Equal).unwrap();
        let mut last = 0.0;
        for hung in &found.pieces {
            near(hung.left - last, found.gap, 1e-9);
            near(f64::midpoint(hung.bottom, hung.top), 58.0, 1e-9);
            last = hung.right;
        }
        near(wall.width - last, found.gap, 1e-9);
        near(found.end, found.gap, 1e-9);
    }
}
