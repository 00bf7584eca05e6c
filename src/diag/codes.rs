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

/// A finding that has no row yet.
pub static UNSORTED: Code = Code { area: "any", name: "UNSORTED", doc: "A finding that has no code yet." };

codes! {
    word {
        VALUE_MISSING: "A word or a field is typed without what it takes.",
        NOT_TAKEN: "A word is followed by something that it does not take.",
    }
    book {
        UNKNOWN: "There is no design of that name.",
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
        SIZE: "A size is given where one value is needed.",
    }
    setting {
        UNKNOWN: "There is no setting of that name.",
        VALUE: "A setting does not take the value.",
        CLASH: "The tape is not marked in the unit of the shop.",
        FILE: "A settings file cannot be read.",
    }
    wall {
        HANGING: "The pieces do not hang on the wall as it is.",
    }
    figure {
        AIM: "No value of the field brings the figure to what is wanted.",
        NOT_SET: "A figure is worked out and cannot be set.",
        NOT_KNOWN: "A figure is asked for before the fields that it needs are set.",
        BROKEN: "A figure cannot be worked out.",
        IN_USE: "A figure of the design cannot be cleared: another uses it.",
    }
    rules {
        SYNTAX: "A line of a rules file, a formula or a condition cannot be read.",
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
        TOO_MANY: "The rules have more names than fit.",
        DATA: "A file of data is not written as one.",
        FIGURE: "The formula of a design's own figure is more than a formula.",
    }
    script {
        TOO_LONG: "A script uses up what it may: steps, time, memory, depth.",
        RENAMED: "A script reads a field of a map under its former name.",
    }
}
