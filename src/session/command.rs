//! The words of the prompt: the one table that the reader, help, completion and the reference page are read from.

use crate::lang::Takes;
use crate::word::{self, Arg, Form, Kind, Part, Tested, arg};

/// A word of the prompt.
pub type Word = word::Word<Action>;

/// What a form of a word makes the session do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Action {
    NewDesign,
    Clear,
    Sheet,
    SheetPage,
    Why,
    Aim,
    Figures,
    Figure,
    Tape,
    Parts,
    Plan,
    PlanTake,
    PlanPutBack,
    Stock,
    StockAdd,
    StockDrop,
    StockUnitIn,
    StockUnitMm,
    Fixings,
    Cautions,
    Hang,
    Movement,
    MovementBetween,
    Tolerance,
    StyleCheck,
    Style,
    Styles,
    RunScript,
    Undo,
    Redo,
    Keep,
    Open,
    Book,
    BookExport,
    BookImport,
    BookBackup,
    FindIf,
    Find,
    Revisions,
    Compare,
    Retire,
    Restore,
    Rename,
    Copy,
    Label,
    Shop,
    ShopSave,
    ShopShow,
    ShopSet,
    Help,
    HelpStyle,
    HelpOn,
    Quit,
}

/// A form that changes nothing but the bench, and soon ends.
const fn form(parts: &'static [Part], action: Action) -> Form<Action> {
    Form { parts, action, tested: Tested::ByRunning }
}

/// A form that writes files or the book, changes the shop, or takes long.
const fn writes(parts: &'static [Part], action: Action) -> Form<Action> {
    Form { parts, action, tested: Tested::ByReading }
}

/// A form whose success depends on stock, files or scripts.
const fn depends(parts: &'static [Part], action: Action) -> Form<Action> {
    Form { parts, action, tested: Tested::Never }
}

const fn literal(text: &'static str, doc: &'static str) -> Part {
    Part::Literal(text, doc)
}

const GIVEN_FIELD: Arg = arg(Kind::GivenField, "FIELD", "the name of a field", "reveal");
const FIGURE: Arg = arg(Kind::Figure, "FIGURE", "the name of a field or figure", "outside.width");
const DESIGN: Arg = arg(Kind::Design, "DESIGN", "the name of a design", "moth-07");
const REVISION: Arg = arg(Kind::Revision, "DESIGN[@REVISION]", "the name of a design", "moth-07");
const OTHER: Arg = arg(Kind::Revision, "DESIGN[@REVISION]", "a second design to compare it with", "moth-07@1");
const NEW_NAME: Arg = arg(Kind::NewDesign, "NEW-NAME", "a new name", "moth-08");
const TEMPERATURE: Arg = arg(Kind::Temperature, "TEMPERATURE", "a temperature", "70degF");
const HUMIDITY: Arg = arg(Kind::Humidity, "HUMIDITY", "a relative humidity", "35%");
const TEMPERATURE_AFTER: Arg = arg(Kind::Temperature, "TEMPERATURE", "a temperature", "75degF");
const HUMIDITY_AFTER: Arg = arg(Kind::Humidity, "HUMIDITY", "a relative humidity", "65%");
const SETTING: Arg = arg(Kind::Setting, "SETTING", "the name of a setting", "unit");
const TABLE_FILE: Arg = arg(Kind::File, "FILE", "a file name", "parts.csv");
const BOOK_FILE: Arg = arg(Kind::File, "FILE", "a file name", "book.jsonl");
const EXPORTED_FILE: Arg = arg(Kind::SourceFile, "FILE", "a file name", "book.jsonl");
const COPY_FILE: Arg = arg(Kind::File, "FILE", "a file name", "book-copy.db");

/// Every design, or those named.
const DESIGNS: Part = Part::Maybe(&[&[literal("all", "every design in the book")], &[Part::Many(DESIGN, ",")]]);

/// Every word, in the order of the help screen.
pub const WORDS: &[Word] = &[
    Word {
        name: "new",
        brief: "Clears the bench for a new design.",
        forms: &[form(
            &[Part::Maybe(&[&[Part::Arg(arg(Kind::Build, "BUILD", "a build", "float"))]])],
            Action::NewDesign,
        )],
        example: (&["new shadowbox", "build"], "shadowbox"),
    },
    Word {
        name: "clear",
        brief: "Clears a value; the default applies again.",
        forms: &[form(&[Part::Arg(GIVEN_FIELD)], Action::Clear)],
        example: (&["reveal 3/8", "clear reveal", "reveal"], "1/4\"   6.4 mm"),
    },
    Word {
        name: "sheet",
        brief: "Shows the whole design: the values given, every size to make, parts, checks, cautions.",
        forms: &[
            form(&[], Action::Sheet),
            form(&[Part::Arg(arg(Kind::Page, "PAGE", "a page of the rules", "hang"))], Action::SheetPage),
        ],
        example: (&["art 16 x 20 x 3/4", "sheet"], "float"),
    },
    Word {
        name: "why",
        brief: "Shows how a number is worked out, step by step, from the values given.",
        forms: &[form(&[Part::Arg(FIGURE)], Action::Why)],
        example: (&["art 16 x 20", "why outside.width"], "outside.width  18\""),
    },
    Word {
        name: "aim",
        brief: "Sets a field so that a figure comes out as wanted.",
        forms: &[form(
            &[
                Part::Arg(FIGURE),
                Part::Quiet("to"),
                Part::Arg(arg(Kind::Amount, "VALUE", "the value wanted", "20\"")),
                literal("by", "the field to change comes next"),
                Part::Arg(arg(Kind::Field, "FIELD", "the field to change", "reveal")),
            ],
            Action::Aim,
        )],
        example: (&["art 16 x 20 x 3/4", "aim outside.width 20 by reveal"], "reveal  1 1/4\""),
    },
    Word {
        name: "figure",
        brief: "Adds a figure to this design alone, or lists the figures added.",
        forms: &[
            form(&[], Action::Figures),
            form(
                &[
                    Part::Arg(arg(Kind::NewFigure, "NAME", "a name for the figure", "own.width")),
                    literal("=", "a formula comes next"),
                    Part::Arg(arg(Kind::Formula, "FORMULA", "a formula", "outside.width + 3in")),
                ],
                Action::Figure,
            ),
        ],
        example: (&["art 16 x 20", "figure own.width = outside.width + 3in", "own.width"], "21\""),
    },
    Word {
        name: "tape",
        brief: "Draws the tape around a length and points to its mark.",
        forms: &[form(&[Part::Arg(arg(Kind::Length, "LENGTH", "a length", "15 7/16\""))], Action::Tape)],
        example: (&["tape 15 7/16"], "15 7/16\""),
    },
    Word {
        name: "parts",
        brief: "Lists every piece to make, for one design or several; or writes the list to a file.",
        forms: &[writes(
            &[DESIGNS, Part::Maybe(&[&[literal("to", "writes the list to a file"), Part::Arg(TABLE_FILE)]])],
            Action::Parts,
        )],
        example: (&["art 16 x 20 x 3/4", "parts"], "name"),
    },
    Word {
        name: "cautions",
        brief: "Shows every caution for this design in full, with its source.",
        forms: &[form(&[], Action::Cautions)],
        example: (&["art 16 x 20 x 3/4", "cautions"], "Cautions"),
    },
    Word {
        name: "plan",
        brief: "Plans the cutting of one design or several from stock; `take` books the stock out, `put back` undoes that.",
        forms: &[
            writes(&[DESIGNS], Action::Plan),
            depends(&[literal("take", "books what the last plan uses out of stock")], Action::PlanTake),
            depends(
                &[literal("put", "undoes the last `plan take`"), literal("back", "undoes the last `plan take`")],
                Action::PlanPutBack,
            ),
        ],
        example: (&["art 16 x 20 x 3/4", "plan"], "plan"),
    },
    Word {
        name: "stock",
        brief: "Shows the stock: sticks, offcuts, boards, sheets; adds or drops a row; gives lengths a unit.",
        forms: &[
            writes(&[], Action::Stock),
            writes(
                &[
                    literal("add", "adds a row"),
                    Part::Arg(arg(
                        Kind::Cells,
                        "WHAT, LENGTH, WIDTH, COUNT, COST, WOOD, SECTION",
                        "the cells of a row, with commas between",
                        "stick, 8ft, , 4, 12.50, cherry, 3/4 x 1 1/2",
                    )),
                ],
                Action::StockAdd,
            ),
            depends(
                &[literal("drop", "removes a row"), Part::Arg(arg(Kind::Row, "ROW", "the number of a row", "1"))],
                Action::StockDrop,
            ),
            writes(
                &[literal("unit", "gives lengths without a unit one"), literal("in", "inches")],
                Action::StockUnitIn,
            ),
            writes(
                &[literal("unit", "gives lengths without a unit one"), literal("mm", "millimeters")],
                Action::StockUnitMm,
            ),
        ],
        example: (&["stock"], "no stock on record"),
    },
    Word {
        name: "fixings",
        brief: "Shows screws, brads and glue, or points and dust cover: which, how many, where, and why.",
        forms: &[form(&[], Action::Fixings)],
        example: (&["art 16 x 20 x 3/4", "fixings"], "Screws"),
    },
    Word {
        name: "hang",
        brief: "Shows the weight part by part, wire, hangers, hooks and where the hooks go; on a wall, a row or a grid.",
        forms: &[form(&[DESIGNS], Action::Hang)],
        example: (&["art 16 x 20 x 3/4", "hang"], "Weight"),
    },
    Word {
        name: "movement",
        brief: "Shows how wood moves with the air, how rails bend, and the blanks to mill.",
        forms: &[
            form(&[], Action::Movement),
            form(
                &[
                    literal("from", "the air before and after"),
                    Part::Arg(TEMPERATURE),
                    Part::Arg(HUMIDITY),
                    literal("to", "the air after comes next"),
                    Part::Arg(TEMPERATURE_AFTER),
                    Part::Arg(HUMIDITY_AFTER),
                ],
                Action::MovementBetween,
            ),
        ],
        example: (&["art 16 x 20 x 3/4", "movement from 70degF 35% to 75degF 65%"], "Wood"),
    },
    Word {
        name: "tolerance",
        brief: "Shows the tolerance of each size and the effect of saw errors.",
        forms: &[form(&[Part::Maybe(&[&[Part::Arg(FIGURE)]])], Action::Tolerance)],
        example: (&["art 16 x 20 x 3/4", "tolerance outside.width"], "outside.width"),
    },
    Word {
        name: "style",
        brief: "Frames the work by a house style, or checks a style by its name or file.",
        forms: &[
            writes(
                &[
                    literal("check", "finds the faults of a style"),
                    Part::Arg(arg(Kind::StyleOrFile, "STYLE", "the name or file of a house style", "narrow-float")),
                ],
                Action::StyleCheck,
            ),
            form(
                &[
                    Part::Arg(arg(Kind::Style, "STYLE", "the name of a house style", "narrow-float")),
                    Part::Maybe(&[&[Part::Many(
                        arg(Kind::Answer, "KEY=VALUE", "pairs such as face=3/4", "face=3/4"),
                        "",
                    )]]),
                ],
                Action::Style,
            ),
        ],
        example: (&["art 16 x 20 x 3/4", "style narrow-float", "build"], "float"),
    },
    Word {
        name: "styles",
        brief: "Lists the house styles and where they come from.",
        forms: &[form(&[], Action::Styles)],
        example: (&["styles"], "canted-tray"),
    },
    Word {
        name: "run",
        brief: "Runs a script on the design at the bench.",
        forms: &[depends(
            &[
                Part::Arg(arg(Kind::Script, "FILE", "a script file", "show.rhai")),
                Part::Maybe(&[&[Part::Many(arg(Kind::ScriptText, "TEXT", "text for the script", "spring"), "")]]),
            ],
            Action::RunScript,
        )],
        example: (&["run shows/spring.rhai"], "error: there is no file shows/spring.rhai"),
    },
    Word {
        name: "undo",
        brief: "Undoes the last change to the design.",
        forms: &[form(&[], Action::Undo)],
        example: (&["reveal 3/8", "undo", "reveal"], "1/4\"   6.4 mm"),
    },
    Word {
        name: "redo",
        brief: "Makes an undone change again.",
        forms: &[form(&[], Action::Redo)],
        example: (&["reveal 3/8", "undo", "redo", "reveal"], "3/8\"   9.5 mm"),
    },
    Word {
        name: "keep",
        brief: "Saves the design; an existing name gets a new revision.",
        forms: &[writes(
            &[
                Part::Arg(arg(Kind::Saved, "NAME", "a name for the design", "moth-07")),
                Part::Maybe(&[&[Part::Arg(arg(Kind::Note, "\"NOTE\"", "a note in quotes", "\"a first try\""))]]),
            ],
            Action::Keep,
        )],
        example: (&["art 16 x 20", "keep moth-07"], "moth-07@1"),
    },
    Word {
        name: "open",
        brief: "Puts a saved design on the bench.",
        forms: &[form(&[Part::Arg(REVISION)], Action::Open)],
        example: (&["art 16 x 20", "keep moth-07", "new", "open moth-07"], "moth-07@1"),
    },
    Word {
        name: "book",
        brief: "Lists saved designs, newest first; exports, imports or backs up the design book.",
        forms: &[
            form(
                &[Part::Maybe(&[
                    &[literal("all", "every design, however many")],
                    &[literal("retired", "designs hidden from lists")],
                ])],
                Action::Book,
            ),
            writes(&[literal("export", "writes the book to a text file"), Part::Arg(BOOK_FILE)], Action::BookExport),
            depends(
                &[literal("import", "adds the designs of an exported file"), Part::Arg(EXPORTED_FILE)],
                Action::BookImport,
            ),
            writes(&[literal("backup", "copies the book to a file"), Part::Arg(COPY_FILE)], Action::BookBackup),
        ],
        example: (&["art 16 x 20", "keep moth-07", "book"], "moth-07"),
    },
    Word {
        name: "find",
        brief: "Finds saved designs by words of their name, client or note, or by a condition.",
        forms: &[
            form(&[Part::Arg(arg(Kind::Words, "WORDS", "words to look for", "moth"))], Action::Find),
            form(
                &[
                    literal("if", "a condition comes next"),
                    Part::Arg(arg(Kind::Condition, "CONDITION", "a condition", "opening.width > 20in")),
                ],
                Action::FindIf,
            ),
        ],
        example: (&["art 16 x 20", "keep moth-07", "find if art.width < 20in"], "moth-07"),
    },
    Word {
        name: "revisions",
        brief: "Lists the revisions of a design and what each changed.",
        forms: &[form(&[Part::Arg(DESIGN)], Action::Revisions)],
        example: (&["art 16 x 20", "keep moth-07", "revisions moth-07"], "moth-07"),
    },
    Word {
        name: "compare",
        brief: "Shows two designs or revisions side by side and marks what differs.",
        forms: &[form(&[Part::Arg(REVISION), Part::Arg(OTHER)], Action::Compare)],
        example: (&["art 16 x 20", "keep moth-07", "compare moth-07 moth-07@1"], "moth-07@1"),
    },
    Word {
        name: "retire",
        brief: "Hides a design from lists; all its revisions stay in the book.",
        forms: &[writes(&[Part::Arg(DESIGN)], Action::Retire)],
        example: (&["art 16 x 20", "keep moth-07", "retire moth-07"], "retired moth-07"),
    },
    Word {
        name: "restore",
        brief: "Shows a retired design in lists again.",
        forms: &[writes(
            &[Part::Arg(arg(Kind::Retired, "DESIGN", "the name of a retired design", "moth-07"))],
            Action::Restore,
        )],
        example: (&["art 16 x 20", "keep moth-07", "retire moth-07", "restore moth-07"], "restored moth-07"),
    },
    Word {
        name: "rename",
        brief: "Renames a design and all its revisions.",
        forms: &[writes(&[Part::Arg(DESIGN), Part::Arg(NEW_NAME)], Action::Rename)],
        example: (&["art 16 x 20", "keep moth-07", "rename moth-07 lantern"], "moth-07 is now lantern"),
    },
    Word {
        name: "copy",
        brief: "Copies a design under a new name.",
        forms: &[writes(&[Part::Arg(REVISION), Part::Arg(NEW_NAME)], Action::Copy)],
        example: (&["art 16 x 20", "keep moth-07", "copy moth-07 moth-08"], "moth-08@1"),
    },
    Word {
        name: "label",
        brief: "Prints a small label: name, sizes, wood, hanger, date.",
        forms: &[form(&[Part::Arg(REVISION)], Action::Label)],
        example: (&["art 16 x 20", "keep moth-07", "label moth-07"], "moth-07@1"),
    },
    Word {
        name: "shop",
        brief: "Shows the shop's settings, sets one for this session, or saves them all.",
        forms: &[
            form(&[], Action::Shop),
            writes(&[literal("save", "saves the settings for later sessions")], Action::ShopSave),
            form(&[Part::Arg(SETTING)], Action::ShopShow),
            writes(
                &[
                    Part::Arg(SETTING),
                    Part::Quiet("="),
                    Part::Arg(arg(Kind::SettingValue, "VALUE", "a value for the setting", "mm")),
                ],
                Action::ShopSet,
            ),
        ],
        example: (&["shop unit mm", "11 3/8\""], "289 mm - 0.075 mm   11.375\""),
    },
    Word {
        name: "help",
        brief: "Explains a word, field, figure, build, check, function, unit, style or setting.",
        forms: &[
            form(&[], Action::Help),
            form(
                &[
                    literal("style", "the name of a house style comes next"),
                    Part::Arg(arg(Kind::Style, "STYLE", "the name of a house style", "narrow-float")),
                ],
                Action::HelpStyle,
            ),
            form(&[Part::Arg(arg(Kind::Topic, "NAME", "anything that has a name", "reveal"))], Action::HelpOn),
        ],
        example: (&["help reveal"], "reveal"),
    },
    Word { name: "quit", brief: "Ends the session.", forms: &[writes(&[], Action::Quit)], example: (&["quit"], "") },
];

/// The word of that name.
pub fn word(name: &str) -> Option<&'static Word> {
    WORDS.iter().find(|word| word.name == name)
}

/// What the reader of lines must know of a word: whether it has a formula, whether it is text.
pub(super) fn takes(word: &Word) -> Takes {
    let args = word.args();
    let any = |wanted: &[Kind]| args.iter().any(|arg| wanted.contains(&arg.kind));
    match args.as_slice() {
        [] => Takes::Nothing,
        [only] if only.kind == Kind::Length => Takes::Value,
        _ if any(&[Kind::Amount, Kind::Formula]) => Takes::Formula,
        _ if args.iter().all(|arg| matches!(arg.kind, Kind::Build | Kind::GivenField | Kind::Figure)) => Takes::Name,
        _ => Takes::Text,
    }
}
