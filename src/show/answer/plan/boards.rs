//! The boards of a plan: each in a line, and its cuts in the order of the saw.

use super::super::super::Page;
use super::super::super::fact::page::line;
use super::super::super::text::{Label, Text};
use super::section::{headed, length};
use crate::fact::fact;
use crate::measure::Real;
use crate::measure::write::Manner;
use crate::plan::{Block, Board, Boarding, Cut, Whole};

/// The boards under their heading.
pub(super) fn boards(page: Page, whole: &Whole, manner: &Manner) -> Page {
    let boards = &whole.boards;
    if boards.boards.is_empty() {
        return page;
    }
    boards.boards.iter().enumerate().fold(headed(page, "Boards", false), |page, (at, board)| {
        let head = line(&*fact::<Board>((whole, at, board)), manner);
        block(page.hanging(head, 2), boards, &board.block, 2, manner)
    })
}

/// What becomes of a block of a board, a line a cut; cuts of what a cut gave are set in.
fn block(page: Page, boards: &Boarding, whole: &Block, indent: usize, manner: &Manner) -> Page {
    let each = |page: Page, word: &str, blocks: &[Block], size: fn(&Block) -> &Real| {
        blocks.iter().filter(|block| !matches!(block.cut, Cut::Rest)).fold(page, |page, one| {
            let head = Text::from(" ".repeat(indent)).and(Label::Dim, format!("{word} "));
            under(page, head.and(Label::Value, length(size(one), manner)), boards, one, indent, manner)
        })
    };
    match &whole.cut {
        Cut::Ripped(blocks) => each(page, "rip", blocks, |block| &block.width),
        Cut::Crosscut(blocks) if is_cut_again(whole) => each(page, "crosscut", blocks, |block| &block.length),
        Cut::Crosscut(_) | Cut::Part(_) | Cut::Offcut(..) | Cut::Rest => {
            page.hanging(blanks(Text::from(" ".repeat(indent)), boards, whole, manner), indent + 2)
        }
    }
}

/// Whether a block is ripped, or crosscut into blocks that are.
fn is_cut_again(block: &Block) -> bool {
    match &block.cut {
        Cut::Ripped(_) => true,
        Cut::Crosscut(blocks) => blocks.iter().any(|block| matches!(block.cut, Cut::Ripped(_))),
        Cut::Part(_) | Cut::Offcut(..) | Cut::Rest => false,
    }
}

/// A cut and what comes of it: blanks in the same line, or more cuts under it.
fn under(page: Page, head: Text, boards: &Boarding, one: &Block, indent: usize, manner: &Manner) -> Page {
    if is_cut_again(one) {
        return block(page.hanging(head, indent + 2), boards, one, indent + 2, manner);
    }
    page.hanging(blanks(head.and(Label::Plain, ": "), boards, one, manner), indent + 2)
}

/// The blanks of a block in a line, each with its length in the rough, and what is left.
fn blanks(mut line: Text, boards: &Boarding, whole: &Block, manner: &Manner) -> Text {
    let mut comma = "";
    for one in whole.each() {
        let (label, name, long) = match &one.cut {
            Cut::Part(part) => (Label::Name, boards.parts[*part].name.as_str(), &one.length),
            Cut::Offcut(_, milled) => (Label::Good, "offcut", milled),
            Cut::Rest | Cut::Ripped(_) | Cut::Crosscut(_) => continue,
        };
        line = line.and(Label::Plain, comma).and(label, name).and(Label::Plain, " ");
        line = line.and(Label::Value, length(long, manner));
        comma = ", ";
    }
    line
}
