//! The table of codes: every kind of finding, by area.

use std::fmt;

/// A kind of finding.
#[derive(Debug, PartialEq, Eq)]
pub struct Code {
    area: &'static str,
    name: &'static str,
    /// When it is raised.
    pub doc: &'static str,
}

/// `area.name`, in small letters with dashes: `word.value-missing`.
impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{}", self.area, self.name.to_lowercase().replace('_', "-"))
    }
}

/// Codes of one area each, and the list of all.
///
/// A macro, so that a code is written once: constants beside a list of them would be two tables to keep alike.
macro_rules! codes {
    ($($area:ident { $($name:ident: $doc:literal,)+ })+) => {
        $(
            #[doc = concat!("Findings about ", stringify!($area), ".")]
            pub mod $area {
                $(
                    #[doc = $doc]
                    pub static $name: super::Code = super::Code { area: stringify!($area), name: stringify!($name), doc: $doc };
                )+
            }
        )+
        /// Every code.
        pub static ALL: &[&Code] = &[$($(&$area::$name,)+)+];
    };
}

/// A fault of the program itself, which no line is meant to raise.
pub static BROKEN: Code = Code { area: "program", name: "BROKEN", doc: "An error inside the program." };

codes! {
    word {
        VALUE_MISSING: "A word or a field is typed without what it takes.",
        FORM: "A word is typed in a form that it does not have.",
        NOTHING_TO_UNDO: "There is no step to undo or to redo.",
        NO_HELP: "There is no help on a name.",
        PAGE: "`sheet` is asked for a page that the rules do not have.",
        NOT_TAKEN: "A word is followed by something that it does not take.",
    }
    book {
        UNKNOWN: "There is no design of that name.",
        NONE: "The book has no design yet.",
        REVISION_UNKNOWN: "The design has no revision of that number.",
        NAME: "A text cannot be the name of a design.",
        NAME_TAKEN: "Another design has the name.",
        RETIRED: "The design is retired.",
        NOT_RETIRED: "A design that is to be restored is not retired.",
        NOTE: "A note is too long or holds what no text holds.",
        EMPTY: "The design that is to be saved has no field set.",
        NO_WORDS: "`find` is typed without words or a condition.",
        IMPORT: "A file that is to be imported is damaged.",
        FILE_EXISTS: "An export or a backup would overwrite another file.",
        COPY: "A copy of the book cannot be written.",
        DATABASE: "The book cannot be used: it is locked, full, read-only, damaged or of a newer program.",
    }
    file {
        MISSING: "There is no such file or folder.",
        EXISTS: "A file exists and is not overwritten.",
        TOO_LARGE: "A file is larger than a script may read.",
        NOT_TEXT: "A file is not plain text.",
        OUTSIDE: "A path leads outside the folders that scripts may reach.",
        OTHER: "The system refuses a file.",
    }
    field {
        UNKNOWN: "There is no field or figure of that name.",
        OTHER_BUILD: "Other builds have the field, this one does not.",
        KIND: "A field is given another kind of value than it takes.",
        RANGE: "A value is outside the range of its field.",
        WORD_UNKNOWN: "A field is given a word that its table does not have.",
        NOT_WHOLE: "A field that counts is given a fraction.",
        NOT_SET: "A field that may be left out is asked for and is not set.",
        IDLE: "A field does not apply to the design.",
        DIFFER: "A name that stands for several fields is asked for, and they differ.",
        COUNT: "A field is given more values than it takes.",
        TOO_LONG: "A text is too long for its field.",
    }
    value {
        NOTATION: "A dimension cannot be read, or can be read two ways.",
        KIND: "Two values of different kinds are put together.",
        ARITHMETIC: "A calculation has no answer: it divides by zero, or is too large.",
        SIZE: "A size is given where one value is needed.",
    }
    setting {
        UNKNOWN: "There is no setting of that name.",
        VALUE: "A setting does not take the value.",
        CLASH: "The tape is not marked in the unit of the shop.",
        FILE: "A settings file cannot be read.",
    }
    tape {
        RANGE: "A tape cannot show the value: it is not a length, is below 0, or is too long.",
    }
    stock {
        NOT_RECORDED: "Stock is asked for and none is recorded.",
        ROW: "The stock has no such row.",
        UNIT: "The lengths in an old stock table have no unit, or have one already.",
        CUT_SHORT: "`plan take` was interrupted, and the stock has changed since.",
        PLAN: "`plan take` has no plan, `plan put back` has no take, or the shop has changed since.",
    }
    plan {
        NOTHING: "There is nothing to cut.",
        LEFT_OUT: "A plan leaves parts out.",
    }
    style {
        UNKNOWN: "There is no style of that name.",
        NO_WORK: "A style is asked to frame before the work is set.",
        NOT_FOR: "The style is not for a work of this size or kind.",
        ANSWER: "A style is answered with what it does not take.",
        SHAPE: "A function of a style gives what it should not.",
        FAULT: "`style check` finds a fault.",
    }
    wall {
        HANGING: "The pieces do not hang on the wall as it is.",
    }
    figure {
        NO_TOLERANCE: "A name that is not a size has no tolerance.",
        AIM: "No value of the field brings the figure to what is wanted.",
        NOT_SET: "A figure is worked out and cannot be set.",
        NOT_KNOWN: "A figure is asked for before the fields that it needs are set.",
        BROKEN: "A figure cannot be worked out.",
        IN_USE: "A figure of the design cannot be cleared: another uses it.",
    }
    rules {
        SYNTAX: "A rules file, a file of data, a formula or a condition cannot be read.",
        NAME_UNKNOWN: "A formula names what no rules file has.",
        WORD_UNKNOWN: "A formula compares a name with a word that it never is.",
        CONDITION_WANTED: "A formula needs a condition and has a value.",
        UNIT_MISSING: "A formula puts a quantity and a bare number together.",
        KIND: "A formula puts values of different kinds together.",
        CALL: "A function in a formula is called with what it does not take.",
        DEFINED: "A name is defined twice, or replaces one that does not exist.",
        NAME_TAKEN: "A name has a meaning already.",
        OTHER_BUILD: "A formula for one build uses a name of another.",
        RANGE: "A range or `optional` is written where it means nothing.",
        CIRCLE: "Formulas need one another in a circle.",
        FIGURE: "The formula of a design's own figure is more than a formula.",
    }
    table {
        SHAPE: "A table is empty, uneven, or has quotes or headings that cannot be read.",
        HEADING: "A column of a table is not read.",
        CELL: "A cell does not hold what its column takes.",
        JSON: "A line is not a JSON object of names and values.",
    }
    batch {
        COLUMN: "A column of a batch sets nothing.",
        ROW: "A row of a batch cannot be framed, or its design cannot be saved.",
        FOLDER: "The folder of a batch cannot be used.",
    }
    script {
        SYNTAX: "A script cannot be read.",
        NAME_UNKNOWN: "A script uses a name that nothing has.",
        COUNT: "A function is called with too many or too few values.",
        ARGUMENT: "A function is called with a value that it does not take.",
        KIND: "A script puts values of different kinds together.",
        THROWN: "A script gives up with words of its own.",
        ENGINE: "A script fails in any other way.",
        JSON: "A text is not JSON, or a value cannot be written as JSON.",
        IMPORT: "A script that is imported cannot be used.",
        NOT_HERE: "A function is called where it cannot work.",
        TOO_LONG: "A script uses up what it may: steps, time, memory, depth.",
        RENAMED: "A script reads a field of a map under its former name.",
    }
}
