//! Pieces on a wall: where each hangs and where its hooks go.

use crate::diag::{Diagnostic, codes};
use crate::frame::wall::{Gaps, Hanging, Piece, Wall, WallFault, grid};
use crate::measure::{Quantity, Real, Toward, to_step};
use crate::rules::{Datum, Design, in_unit};

/// A piece in its place: lengths from the left corner and from the floor, on the nearest marks of the tape.
#[derive(Clone, Debug)]
pub struct Place {
    /// What it is called.
    pub name: String,
    /// Its row, from 1 at the top.
    pub row: usize,
    /// Its left edge.
    pub left: Quantity,
    /// Its right edge.
    pub right: Quantity,
    /// Its upper edge.
    pub top: Quantity,
    /// Its hooks: from the left corner, from the floor.
    pub hooks: Vec<[Quantity; 2]>,
}

/// Pieces in their places, and the gaps that came of it.
#[derive(Clone, Debug)]
pub struct Places {
    /// In the order given, row by row.
    pub pieces: Vec<Place>,
    /// Between neighbors.
    pub gap: Quantity,
    /// At either end of the wall.
    pub end: Quantity,
}

fn made(design: &Design, name: &str) -> Option<Real> {
    let slot = design.book().slot(name)?;
    design.known(slot).ok()?.made().amount().cloned()
}

fn inches(design: &Design, name: &str) -> Option<f64> {
    made(design, name).map(|amount| amount.to_f64())
}

fn is_word(design: &Design, name: &str, word: &str) -> bool {
    let known = design.book().slot(name).and_then(|slot| design.known(slot).ok());
    matches!(known.map(|known| known.drawn), Some(Datum::Word(is)) if &*is == word)
}

/// The designs side by side on the wall of `wall`, each as many times as its quantity; nothing where no wall
/// was given.
///
/// # Errors
/// A design whose size is not known yet; by how much the pieces are too many for the wall.
pub fn on_wall(wall: &Design, designs: &[(String, &Design)]) -> Result<Option<Places>, Diagnostic> {
    let Some(width) = inches(wall, "wall.width") else {
        return Ok(None);
    };
    let room = Wall {
        width,
        height: inches(wall, "wall.height").unwrap_or(width),
        centre: inches(wall, "wall.centre").unwrap_or_default(),
    };
    let mut names = Vec::new();
    let mut pieces = Vec::new();
    for (name, design) in designs {
        let piece = piece(design).ok_or_else(|| {
            Diagnostic::of(&codes::figure::NOT_KNOWN, format!("{name} has no size yet; its work is not set"))
                .hint(design_line(design))
        })?;
        let count = made(design, "quantity").and_then(|count| count.to_whole()).unwrap_or(1);
        for one in 1..=count {
            names.push(if count == 1 { name.clone() } else { format!("{name} {one}") });
            pieces.push(piece.clone());
        }
    }
    let gaps = inches(wall, "wall.gap").map_or(Gaps::Equal, Gaps::Given);
    let rows = made(wall, "wall.rows").and_then(|rows| rows.to_whole()).and_then(|rows| usize::try_from(rows).ok());
    let hang = |room: &Wall| grid(room, &pieces, gaps, rows);
    let hanging = hang(&room).map_err(|fault| {
        let hint = mended(wall, &room, &fault, &|room| hang(room).is_ok());
        Diagnostic::of(&codes::wall::HANGING, in_unit(&fault.to_string(), wall.manner())).only(hint)
    })?;
    Ok(Some(places(wall, names, &hanging)))
}

/// A line about the wall with which the pieces would hang on it: wide enough in whole inches, its center line on a mark of
/// the tape, or high enough.
fn mended(wall: &Design, room: &Wall, fault: &WallFault, hangs: &dyn Fn(&Wall) -> bool) -> Option<String> {
    let centre = |value: f64, toward: Toward| {
        let mark = to_step(&Real::approximate(value), &wall.manner().graduation.step.value, toward).0;
        let line = format!("wall.centre {}", wall.manner().short(&Quantity::inches(mark.clone())));
        (line, Wall { centre: mark.to_f64(), ..*room })
    };
    let ways = match fault {
        WallFault::TooWide { takes, .. } => {
            vec![(format!("wall.width {}in", takes.ceil()), Wall { width: takes.ceil(), ..*room })]
        }
        WallFault::BelowFloor { by } => vec![centre(room.centre + by, Toward::Up)],
        WallFault::AboveCeiling { by } => {
            let height = (room.height + by).ceil();
            let higher = (format!("wall.height {height}in"), Wall { height, ..*room });
            vec![centre(room.centre - by, Toward::Down), higher]
        }
        WallFault::Range(_)
        | WallFault::Piece { .. }
        | WallFault::NoPieces
        | WallFault::Rows { .. }
        | WallFault::HookOff { .. } => Vec::new(),
    };
    ways.into_iter().find(|(_, wall)| hangs(wall)).map(|(line, _)| line)
}

fn design_line(design: &Design) -> String {
    design.book().slot("art").map(|slot| design.example(slot)).unwrap_or_default()
}

/// What hangs: its size, and its hooks from its left edge and top.
fn piece(design: &Design) -> Option<Piece> {
    let width = inches(design, "piece.width")?;
    let height = inches(design, "piece.height")?;
    let cover = inches(design, "hook.cover")?;
    let apart =
        if is_word(design, "hanger", "hooks") { inches(design, "hanger.span") } else { inches(design, "hook.span") };
    let middle = width / 2.0;
    let hooks = apart.map_or_else(|| vec![middle], |apart| vec![middle - apart / 2.0, middle + apart / 2.0]);
    Some(Piece { width, height, hooks, drop: cover })
}

fn places(wall: &Design, names: Vec<String>, hanging: &Hanging) -> Places {
    let step = &wall.manner().graduation.step.value;
    let mark = |value: f64| Quantity::inches(to_step(&Real::approximate(value), step, Toward::Nearest).0);
    let pieces = names
        .into_iter()
        .zip(&hanging.pieces)
        .map(|(name, hung)| Place {
            name,
            row: hung.row + 1,
            left: mark(hung.left),
            right: mark(hung.right),
            top: mark(hung.top),
            hooks: hung.hooks.iter().map(|hook| [mark(hook.x), mark(hook.y)]).collect(),
        })
        .collect();
    Places { pieces, gap: mark(hanging.gap), end: mark(hanging.end) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::Input;
    use crate::rules::tests::designed;

    /// Worked by hand: three of 18 in on 144 in leave 90 in, four gaps of 22 1/2 in; their middles at 31 1/2, 72, 112 1/2.
    #[test]
    fn a_row_has_equal_gaps_and_hooks_over_the_middles() {
        let row = designed(&[("art", "16 x 20 x 3/4"), ("quantity", "3"), ("wall.width", "144")]);
        let places = on_wall(&row, &[("frame".into(), &row)]).unwrap().unwrap();
        assert_eq!(places.gap.amount.to_text(), "45/2");
        let across: Vec<String> = places.pieces.iter().map(|place| place.hooks[0][0].amount.to_text()).collect();
        assert_eq!(across, ["63/2", "72", "225/2"]);
        assert_eq!(places.pieces[1].name, "frame 2");
        assert_eq!(made(&row, "hook.height").unwrap(), places.pieces[0].hooks[0][1].amount);
    }

    #[test]
    fn a_wall_too_short_says_by_how_much() {
        let row = designed(&[("art", "16 x 20 x 3/4"), ("quantity", "3"), ("wall.width", "40"), ("wall.rows", "1")]);
        let found = on_wall(&row, &[("frame".into(), &row)]).unwrap_err();
        assert!(found.message().contains("54\", 14\" more than the wall's 40\""), "{}", found.message());
        assert_eq!(found.offered("").as_deref(), Some("wall.width 54in"));
    }

    /// Worked by hand: 22 in high on a center line 90 in up reaches to 101 in, 5 in above a ceiling of 96 in.
    #[test]
    fn a_piece_above_the_ceiling_comes_down() {
        let mut design = designed(&[("art", "16 x 20 x 3/4"), ("wall.width", "40"), ("wall.centre", "90")]);
        let hung = |design: &Design| on_wall(design, &[("frame".into(), design)]);
        let found = hung(&design).unwrap_err();
        assert!(found.message().ends_with("5\" above the ceiling"), "{}", found.message());
        assert_eq!(found.offered("").as_deref(), Some("wall.centre 85\""));
        design.set("wall.centre", Input::Quantity(Quantity::inches(Real::whole(85)))).unwrap();
        assert!(hung(&design).is_ok());
    }
}
