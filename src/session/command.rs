//! The words of the prompt: the one table that the reader, help, completion and the reference page are read from.

use crate::lang::Takes;

/// A word that begins a line.
#[derive(Debug)]
pub struct Word {
    /// As it is typed.
    pub name: &'static str,
    /// What may follow.
    pub takes: Takes,
    /// How it is written.
    pub usage: &'static str,
    /// What it does, in one line.
    pub brief: &'static str,
    /// Lines typed on an empty bench one after another, and the beginning of what the last one answers.
    pub example: (&'static [&'static str], &'static str),
    /// What the session does.
    pub deed: Deed,
}

/// What a word makes the session do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Deed {
    New,
    Clear,
    Sheet,
    Why,
    Aim,
    Figure,
    Tape,
    Parts,
    Plan,
    Stock,
    Page,
    Cautions,
    Hang,
    Movement,
    Tolerance,
    Style,
    Styles,
    Run,
    Undo,
    Redo,
    Book(BookDeed),
    Shop,
    Help,
    Quit,
}

/// What a word makes the session do with the design book.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum BookDeed {
    Keep,
    Open,
    Book,
    Find,
    Revisions,
    Compare,
    Retire,
    Restore,
    Rename,
    Copy,
    Label,
}

impl BookDeed {
    /// The word that does it.
    pub fn word(self) -> &'static str {
        WORDS.iter().find(|word| word.deed == Deed::Book(self)).map_or("", |word| word.name)
    }
}

/// Every word, in the order of the help screen.
pub const WORDS: &[Word] = &[
    Word {
        name: "new",
        takes: Takes::OptionalName,
        usage: "new [BUILD]",
        brief: "Clears the bench for a fresh design.",
        example: (&["new shadowbox", "build"], "shadowbox"),
        deed: Deed::New,
    },
    Word {
        name: "clear",
        takes: Takes::Figure,
        usage: "clear FIELD",
        brief: "Takes a given value back.",
        example: (&["reveal 3/8", "clear reveal", "reveal"], "1/4\"   6.4 mm"),
        deed: Deed::Clear,
    },
    Word {
        name: "sheet",
        takes: Takes::Nothing,
        usage: "sheet",
        brief: "Shows the whole design: what was given, every size to make, parts, checks, cautions.",
        example: (&["art 16 x 20 x 3/4", "sheet"], "float"),
        deed: Deed::Sheet,
    },
    Word {
        name: "why",
        takes: Takes::Figure,
        usage: "why FIGURE",
        brief: "Shows how a number came out, step by step, down to what was given.",
        example: (&["art 16 x 20", "why outside.width"], "outside.width  18\""),
        deed: Deed::Why,
    },
    Word {
        name: "aim",
        takes: Takes::Aim,
        usage: "aim FIGURE VALUE by FIELD",
        brief: "Finds the value of a field that gives a figure, and sets it.",
        example: (&["art 16 x 20 x 3/4", "aim outside.width 20 by reveal"], "reveal  1 1/4\""),
        deed: Deed::Aim,
    },
    Word {
        name: "figure",
        takes: Takes::Definition,
        usage: "figure [NAME = FORMULA]",
        brief: "Gives this design a figure of its own, or lists those it has.",
        example: (&["art 16 x 20", "figure own.width = outside.width + 3in", "own.width"], "21\""),
        deed: Deed::Figure,
    },
    Word {
        name: "tape",
        takes: Takes::Value,
        usage: "tape LENGTH",
        brief: "Draws that stretch of the tape with the mark pointed out.",
        example: (&["tape 15 7/16"], "15 7/16\""),
        deed: Deed::Tape,
    },
    Word {
        name: "parts",
        takes: Takes::Text,
        usage: "parts [NAME, NAME … | all] [to FILE]",
        brief: "Lists every piece to make, of one design or several; or writes them to a table.",
        example: (&["art 16 x 20 x 3/4", "parts"], "piece"),
        deed: Deed::Parts,
    },
    Word {
        name: "cautions",
        takes: Takes::Nothing,
        usage: "cautions",
        brief: "Shows every caution for this design in full, with its source.",
        example: (&["art 16 x 20 x 3/4", "cautions"], "Cautions"),
        deed: Deed::Cautions,
    },
    Word {
        name: "plan",
        takes: Takes::Text,
        usage: "plan [NAME, NAME … | all | take | put back]",
        brief: "Plans the cutting of one design or several from the shop's stock; takes the plan's stock out.",
        example: (&["art 16 x 20 x 3/4", "plan"], "plan"),
        deed: Deed::Plan,
    },
    Word {
        name: "stock",
        takes: Takes::Text,
        usage: "stock [add WHAT, LENGTH, WIDTH, COUNT, COST, WOOD, SECTION | drop ROW]",
        brief: "Shows what the shop has to cut from: sticks, offcuts, boards, sheets; adds or drops a row.",
        example: (&["stock"], "nothing"),
        deed: Deed::Stock,
    },
    Word {
        name: "fixings",
        takes: Takes::Nothing,
        usage: "fixings",
        brief: "Tells screws, brads and glue, or points and dust cover: which, how many, where, and why.",
        example: (&["art 16 x 20 x 3/4", "fixings"], "Screws"),
        deed: Deed::Page,
    },
    Word {
        name: "hang",
        takes: Takes::Text,
        usage: "hang [NAME, NAME …]",
        brief: "Tells the weight part by part, wire, hangers and hooks, and where hooks go; with a wall, for a row or grid.",
        example: (&["art 16 x 20 x 3/4", "hang"], "Weight"),
        deed: Deed::Hang,
    },
    Word {
        name: "movement",
        takes: Takes::Text,
        usage: "movement [from TEMPERATURE HUMIDITY to TEMPERATURE HUMIDITY]",
        brief: "Tells how the wood moves with the air, how rails bend, and the blanks to mill.",
        example: (&["art 16 x 20 x 3/4", "movement from 70degF 35% to 75degF 65%"], "Wood"),
        deed: Deed::Movement,
    },
    Word {
        name: "tolerance",
        takes: Takes::Figure,
        usage: "tolerance [FIGURE]",
        brief: "Tells how far sizes may be off, and what errors at the saw do.",
        example: (&["art 16 x 20 x 3/4", "tolerance outside.width"], "outside.width"),
        deed: Deed::Tolerance,
    },
    Word {
        name: "style",
        takes: Takes::Text,
        usage: "style NAME [KEY=VALUE …] | check NAME",
        brief: "Frames the work at the bench by a house style; or finds the faults of one, by its name or file.",
        example: (&["art 16 x 20 x 3/4", "style narrow-float", "build"], "float"),
        deed: Deed::Style,
    },
    Word {
        name: "styles",
        takes: Takes::Nothing,
        usage: "styles",
        brief: "Lists the house styles and where they come from.",
        example: (&["styles"], "canted-tray"),
        deed: Deed::Styles,
    },
    Word {
        name: "run",
        takes: Takes::File,
        usage: "run FILE",
        brief: "Runs a script on the design at the bench.",
        example: (&["run shows/spring.rhai"], "error: there is no file shows/spring.rhai"),
        deed: Deed::Run,
    },
    Word {
        name: "undo",
        takes: Takes::Nothing,
        usage: "undo",
        brief: "Goes one step back at the bench.",
        example: (&["reveal 3/8", "undo", "reveal"], "1/4\"   6.4 mm"),
        deed: Deed::Undo,
    },
    Word {
        name: "redo",
        takes: Takes::Nothing,
        usage: "redo",
        brief: "Goes forward again after undo.",
        example: (&["reveal 3/8", "undo", "redo", "reveal"], "3/8\"   9.5 mm"),
        deed: Deed::Redo,
    },
    Word {
        name: "keep",
        takes: Takes::Text,
        usage: "keep NAME [\"note\"]",
        brief: "Puts the design into the book under a name; a name that is there gets a new revision.",
        example: (&["art 16 x 20", "keep moth-07"], "moth-07@1"),
        deed: Deed::Book(BookDeed::Keep),
    },
    Word {
        name: "open",
        takes: Takes::Text,
        usage: "open NAME[@REV]",
        brief: "Puts a design of the book on the bench.",
        example: (&["art 16 x 20", "keep moth-07", "new", "open moth-07"], "moth-07@1"),
        deed: Deed::Book(BookDeed::Open),
    },
    Word {
        name: "book",
        takes: Takes::Text,
        usage: "book [WHAT]",
        brief: "Lists designs, newest first; WHAT is all, retired, or export, import, backup with FILE.",
        example: (&["art 16 x 20", "keep moth-07", "book"], "moth-07"),
        deed: Deed::Book(BookDeed::Book),
    },
    Word {
        name: "find",
        takes: Takes::Words,
        usage: "find WORDS | if CONDITION",
        brief: "Finds designs by words of their name, client or note, or by a condition on them.",
        example: (&["art 16 x 20", "keep moth-07", "find if art.width < 20in"], "moth-07"),
        deed: Deed::Book(BookDeed::Find),
    },
    Word {
        name: "revisions",
        takes: Takes::Text,
        usage: "revisions NAME",
        brief: "Lists the revisions of a design with what each changed.",
        example: (&["art 16 x 20", "keep moth-07", "revisions moth-07"], "moth-07"),
        deed: Deed::Book(BookDeed::Revisions),
    },
    Word {
        name: "compare",
        takes: Takes::Text,
        usage: "compare NAME NAME",
        brief: "Shows two designs or revisions side by side, what differs marked.",
        example: (&["art 16 x 20", "keep moth-07", "compare moth-07 moth-07@1"], "moth-07@1"),
        deed: Deed::Book(BookDeed::Compare),
    },
    Word {
        name: "retire",
        takes: Takes::Text,
        usage: "retire NAME",
        brief: "Hides a design from the book; nothing of it is lost.",
        example: (&["art 16 x 20", "keep moth-07", "retire moth-07"], "retired moth-07"),
        deed: Deed::Book(BookDeed::Retire),
    },
    Word {
        name: "restore",
        takes: Takes::Text,
        usage: "restore NAME",
        brief: "Shows a retired design again.",
        example: (&["art 16 x 20", "keep moth-07", "retire moth-07", "restore moth-07"], "restored moth-07"),
        deed: Deed::Book(BookDeed::Restore),
    },
    Word {
        name: "rename",
        takes: Takes::Text,
        usage: "rename NAME NAME",
        brief: "Calls a design otherwise, with all its revisions.",
        example: (&["art 16 x 20", "keep moth-07", "rename moth-07 lantern"], "moth-07 is lantern now"),
        deed: Deed::Book(BookDeed::Rename),
    },
    Word {
        name: "copy",
        takes: Takes::Text,
        usage: "copy NAME NAME",
        brief: "Begins another design with one that is there.",
        example: (&["art 16 x 20", "keep moth-07", "copy moth-07 moth-08"], "moth-08@1"),
        deed: Deed::Book(BookDeed::Copy),
    },
    Word {
        name: "label",
        takes: Takes::Text,
        usage: "label NAME",
        brief: "Prints a small label: name, sizes, wood, hanger, date.",
        example: (&["art 16 x 20", "keep moth-07", "label moth-07"], "moth-07@1"),
        deed: Deed::Book(BookDeed::Label),
    },
    Word {
        name: "shop",
        takes: Takes::Text,
        usage: "shop [SETTING VALUE | save]",
        brief: "Shows the shop's settings, sets one for this run, or saves them.",
        example: (&["shop unit mm", "11 3/8\""], "289 mm - 0.075 mm   11.375\""),
        deed: Deed::Shop,
    },
    Word {
        name: "help",
        takes: Takes::Text,
        usage: "help [WORD]",
        brief: "Explains a word, a field, a figure, a function, a unit or a style.",
        example: (&["help reveal"], "reveal"),
        deed: Deed::Help,
    },
    Word {
        name: "quit",
        takes: Takes::Nothing,
        usage: "quit",
        brief: "Leaves.",
        example: (&["quit"], ""),
        deed: Deed::Quit,
    },
];

/// The word of that name.
pub fn word(name: &str) -> Option<&'static Word> {
    WORDS.iter().find(|word| word.name == name)
}
