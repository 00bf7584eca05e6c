//! The most that comes out of one sheet, against published values.

use benchrule::cut::Limits;
use benchrule::cut::sheet::{Instance, Piece, Plan, Region, Sheet, fullest, verify};

const GCUT: &str = include_str!("gcut.tsv");

fn size(text: &str) -> (u32, u32) {
    let (width, height) = text.split_once('x').unwrap();
    (width.parse().unwrap(), height.parse().unwrap())
}

/// The layout as a plan for just the pieces that are in it.
fn verified(instance: &Instance, sheet: Sheet, layout: benchrule::cut::sheet::Layout) -> u64 {
    let mut instance = Instance { sheets: vec![sheet], ..instance.clone() };
    instance.pieces.iter_mut().for_each(|piece| piece.quantity = 0);
    for region in &layout.regions {
        if let Region::Piece { piece, .. } = region {
            instance.pieces[*piece].quantity += 1;
        }
    }
    let area = |piece: &Piece| u64::from(piece.width) * u64::from(piece.height) * u64::from(piece.quantity);
    let all = instance.pieces.iter().map(area).sum();
    let left = vec![0; instance.pieces.len()];
    let plan = Plan { layouts: vec![layout], cost: 1, bound: 1, left };
    assert_eq!(verify(&instance, &plan), Ok(()));
    all
}

#[test]
fn the_fullest_sheet_is_worth_what_is_published() {
    for row in GCUT.lines().filter(|line| !line.starts_with('#')) {
        let [name, sheet, fixed, turned, pieces] = row.split('\t').collect::<Vec<_>>()[..] else {
            panic!("a row has five cells: {row}");
        };
        let (width, height) = size(sheet);
        let sheet = Sheet { width, height, count: None, cost: 1 };
        for (turns, known) in [(false, fixed), (true, turned)] {
            let piece = |(width, height)| Piece { width, height, quantity: 1, turns };
            let pieces: Vec<Piece> = pieces.split(' ').map(size).map(piece).collect();
            let worth: Vec<u64> = pieces.iter().map(|piece| u64::from(piece.width) * u64::from(piece.height)).collect();
            let instance = Instance { kerf: 0, trim: 0, pieces, sheets: Vec::new() };
            let found = fullest(&instance, &sheet, &worth, &Limits::steps(10_000_000_000)).unwrap();
            assert_eq!(found.worth, known.parse::<u64>().unwrap(), "{name}, turns: {turns}");
            assert_eq!(verified(&instance, sheet.clone(), found.layout), found.worth, "{name}, turns: {turns}");
        }
    }
}

/// The most that any rectangle up to a size is worth, cut from edge to edge: every cut of every rectangle is tried.
fn by_all_cuts(side: usize, pieces: &[(usize, usize)]) -> usize {
    let mut worth = vec![vec![0; side + 1]; side + 1];
    for width in 1..=side {
        for height in 1..=side {
            let fits = pieces.iter().filter(|(across, up)| *across <= width && *up <= height);
            let whole = fits.map(|(across, up)| across * up).max().unwrap_or(0);
            let upright = (1..=width / 2).map(|at| worth[at][height] + worth[width - at][height]).max().unwrap_or(0);
            let level = (1..=height / 2).map(|at| worth[width][at] + worth[width][height - at]).max().unwrap_or(0);
            worth[width][height] = whole.max(upright).max(level);
        }
    }
    worth[side][side]
}

/// A second method for what is published nowhere: the worth with pieces turned, on the smaller sheets.
#[test]
fn trying_every_cut_finds_the_same() {
    for row in GCUT.lines().filter(|line| line.contains("\t250x250\t")) {
        let cells: Vec<&str> = row.split('\t').collect();
        let lying: Vec<(usize, usize)> = cells[4]
            .split(' ')
            .map(size)
            .map(|(width, height)| (usize::try_from(width).unwrap(), usize::try_from(height).unwrap()))
            .collect();
        let both: Vec<(usize, usize)> = lying.iter().flat_map(|&(across, up)| [(across, up), (up, across)]).collect();
        for (pieces, known) in [(&lying, cells[2]), (&both, cells[3])] {
            assert_eq!(by_all_cuts(250, pieces), known.parse::<usize>().unwrap(), "{}", cells[0]);
        }
    }
}

/// Worked by hand: with a kerf of 1 three pieces of 3 take 11 of a side, and four would take 15; with none four take 12.
#[test]
fn a_kerf_is_lost_between_pieces() {
    let piece = Piece { width: 3, height: 3, quantity: 1, turns: false };
    let sheet = Sheet { width: 12, height: 3, count: None, cost: 1 };
    for (kerf, pieces) in [(0, 4), (1, 3)] {
        let instance = Instance { kerf, trim: 0, pieces: vec![piece.clone()], sheets: Vec::new() };
        let found = fullest(&instance, &sheet, &[5], &Limits::steps(1_000_000)).unwrap();
        assert_eq!(found.worth, 5 * pieces, "kerf {kerf}");
    }
}

#[test]
fn without_time_nothing_is_claimed() {
    let piece = |width, height| Piece { width, height, quantity: 1, turns: true };
    let instance =
        Instance { kerf: 0, trim: 0, pieces: vec![piece(7, 11), piece(13, 5), piece(3, 17)], sheets: Vec::new() };
    let sheet = Sheet { width: 400, height: 300, count: None, cost: 1 };
    assert_eq!(fullest(&instance, &sheet, &[1, 1, 1], &Limits::steps(100)), None);
}
