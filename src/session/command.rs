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
    Tape,
    Parts,
    Page,
    Movement,
    Tolerance,
    Style,
    Styles,
    Run,
    Undo,
    Redo,
    Shop,
    Help,
    Quit,
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
        name: "tape",
        takes: Takes::Value,
        usage: "tape LENGTH",
        brief: "Draws that stretch of the tape with the mark pointed out.",
        example: (&["tape 15 7/16"], "15 7/16\""),
        deed: Deed::Tape,
    },
    Word {
        name: "parts",
        takes: Takes::Nothing,
        usage: "parts",
        brief: "Lists every piece to make: how many, section, lengths, angles.",
        example: (&["art 16 x 20 x 3/4", "parts"], "piece"),
        deed: Deed::Parts,
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
        takes: Takes::Nothing,
        usage: "hang",
        brief: "Tells the weight part by part, wire, hangers and hooks, and where the hook goes.",
        example: (&["art 16 x 20 x 3/4", "hang"], "Weight"),
        deed: Deed::Page,
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
        usage: "style NAME [KEY=VALUE …]",
        brief: "Frames the work at the bench by a house style.",
        example: (&["art 16 x 20 x 3/4", "style narrow-float", "build"], "float"),
        deed: Deed::Style,
    },
    Word {
        name: "styles",
        takes: Takes::Nothing,
        usage: "styles",
        brief: "Lists the house styles and where they come from.",
        example: (&["styles"], "deep-well"),
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
