//! The kinds of arguments: what each names, and how its text is found in a line.

/// What an argument is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A design of the book.
    Design,
    /// A design that is retired.
    Retired,
    /// A design or one revision of it: `moth-07@3`.
    Revision,
    /// The name of a design to save: a new one, or one that gets a new revision.
    Saved,
    /// A name that no design has yet.
    NewDesign,
    /// A way to build a frame.
    Build,
    /// A page of the sheet.
    Page,
    /// A field.
    Field,
    /// A field that was given.
    GivenField,
    /// A field or a figure.
    Figure,
    /// A name for a figure of one design.
    NewFigure,
    /// A setting of the shop.
    Setting,
    /// A value for the setting before it.
    SettingValue,
    /// A house style.
    Style,
    /// A house style, or the file of one.
    StyleOrFile,
    /// `KEY=VALUE`: the answer to a question of the style before it, or a field.
    Answer,
    /// A length, or a formula that gives one.
    Length,
    /// A value for the figure before it.
    Amount,
    /// A temperature.
    Temperature,
    /// A relative humidity.
    Humidity,
    /// A formula.
    Formula,
    /// A condition on designs.
    Condition,
    /// Words to look for.
    Words,
    /// A note in quotes.
    Note,
    /// Anything that has help.
    Topic,
    /// A script.
    Script,
    /// Text handed to a script.
    ScriptText,
    /// A file to write, with which the line ends.
    File,
    /// A file to read, with which the line ends.
    SourceFile,
    /// The number of a row of the stock.
    Row,
    /// The cells of a row of the stock.
    Cells,
}

/// How the text of an argument is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Shape {
    /// One word without blanks, or anything in quotes; it ends before any of these letters as well.
    Name(&'static str),
    /// A word or more, as many as leave enough for what follows.
    Several,
    /// A whole number.
    Number,
    /// `KEY=VALUE`, up to the next key.
    Pair,
    /// Text in quotes, to the end of the line.
    Quoted,
    /// The rest of the line, quoted or not.
    RestOrQuoted,
    /// The rest of the line.
    Rest,
}

impl Kind {
    pub(super) const fn shape(self) -> Shape {
        match self {
            Self::Design
            | Self::Retired
            | Self::Revision
            | Self::Saved
            | Self::NewDesign
            | Self::Build
            | Self::Page
            | Self::Field
            | Self::GivenField
            | Self::Figure
            | Self::Style
            | Self::Script
            | Self::ScriptText => Shape::Name(""),
            Self::NewFigure | Self::Setting => Shape::Name("="),
            Self::Amount | Self::Temperature | Self::Humidity => Shape::Several,
            Self::Row => Shape::Number,
            Self::Answer => Shape::Pair,
            Self::Note => Shape::Quoted,
            Self::File | Self::SourceFile | Self::StyleOrFile => Shape::RestOrQuoted,
            Self::Length
            | Self::SettingValue
            | Self::Formula
            | Self::Condition
            | Self::Words
            | Self::Topic
            | Self::Cells => Shape::Rest,
        }
    }

    /// Whether an argument of this kind may begin so: no name of the rules begins with a digit.
    pub(super) fn may_begin(self, text: &str) -> bool {
        let is_of_the_rules = matches!(self, Self::Field | Self::GivenField | Self::Figure);
        !is_of_the_rules || !text.starts_with(|first: char| first.is_ascii_digit())
    }

    /// Whether it holds an amount, which nobody can offer in place of the one that is missing.
    pub const fn is_amount(self) -> bool {
        matches!(
            self,
            Self::Length
                | Self::Amount
                | Self::Temperature
                | Self::Humidity
                | Self::Formula
                | Self::Condition
                | Self::SettingValue
                | Self::Answer
                | Self::Row
                | Self::Cells
        )
    }

    /// Whether the name of a design is meant, or may be.
    pub const fn names_a_design(self) -> bool {
        matches!(self, Self::Design | Self::Retired | Self::Revision | Self::Saved | Self::NewDesign | Self::Words)
    }

    /// Whether a literal that fits the same place goes before it.
    ///
    /// Help has a topic called like each of its literals, and a formula begins with anything.
    pub(super) const fn yields(self) -> bool {
        matches!(self.shape(), Shape::Name(_)) || matches!(self, Self::Words | Self::StyleOrFile | Self::Amount)
    }
}
