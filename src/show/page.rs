//! A page of labelled text, laid out only when it is rendered.

use super::ansi;
use super::columns::NO_BREAK;
use super::table::{Cell, Table};
use super::text::{Label, Text};
use super::wrap::wrap;

/// The least width that a page is laid out for.
const LEAST_WIDTH: usize = 12;

#[derive(Clone, Debug, PartialEq, Eq)]
enum Block {
    /// Broken into lines; later lines are indented by this many columns.
    Text(Text, usize),
    /// A line of a drawing, or one to be pasted: never broken.
    Fixed(Text),
    Table(Table),
    Blank,
}

/// Blocks of labelled text, from top to bottom.
///
/// ```
/// use benchrule::show::{Cell, Page};
///
/// let page = Page::new()
///     .heading("opening")
///     .row([Cell::left("width"), Cell::right("11 3/8\"")])
///     .row([Cell::left("height"), Cell::right("14\"")]);
/// assert_eq!(page.render(80, false), "opening\nwidth   11 3/8\"\nheight      14\"\n");
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Page {
    blocks: Vec<Block>,
}

impl Page {
    /// An empty page.
    pub const fn new() -> Self {
        Self { blocks: Vec::new() }
    }

    /// Whether the page is empty.
    pub fn is_empty(&self) -> bool {
        self.blocks.is_empty()
    }

    fn with(mut self, block: Block) -> Self {
        self.blocks.push(block);
        self
    }

    /// A heading, with an empty line before it.
    #[must_use]
    pub fn heading(self, text: impl AsRef<str>) -> Self {
        let page = if self.is_empty() { self } else { self.blank() };
        page.with(Block::Text(Text::of(Label::Heading, text), 0))
    }

    /// Running text, broken at spaces.
    #[must_use]
    pub fn text(self, text: impl Into<Text>) -> Self {
        self.with(Block::Text(text.into(), 0))
    }

    /// Running text whose later lines are indented by `hang` columns.
    #[must_use]
    pub fn hanging(self, text: impl Into<Text>, hang: usize) -> Self {
        self.with(Block::Text(text.into(), hang))
    }

    /// `text` after the label's word, `stop: …`, with later lines under the text. Each line of `text` is a paragraph.
    #[must_use]
    pub fn said(self, label: Label, text: &str) -> Self {
        let mut before = Text::new();
        if let Some(word) = label.word() {
            before = before.and(label, word).and(Label::Plain, ": ");
        }
        let hang = before.width();
        let mut page = self;
        for (at, line) in text.lines().enumerate() {
            let mut whole = if at == 0 { before.clone() } else { Text::of(Label::Plain, " ".repeat(hang)) };
            whole.push(Label::Plain, line);
            page = page.with(Block::Text(whole, hang));
        }
        if text.is_empty() { page.with(Block::Text(before, hang)) } else { page }
    }

    /// A row of a table. Consecutive rows share their columns.
    #[must_use]
    pub fn row(mut self, cells: impl IntoIterator<Item = Cell>) -> Self {
        if let Some(Block::Table(table)) = self.blocks.last_mut() {
            table.push(cells);
            return self;
        }
        self.table(Table::new().row(cells))
    }

    /// A table of its own.
    #[must_use]
    pub fn table(self, table: Table) -> Self {
        self.with(Block::Table(table))
    }

    /// A line that is never broken: part of a drawing made for the width, or a line to paste.
    #[must_use]
    pub fn fixed(self, text: impl Into<Text>) -> Self {
        self.with(Block::Fixed(text.into()))
    }

    /// An empty line.
    #[must_use]
    pub fn blank(self) -> Self {
        self.with(Block::Blank)
    }

    /// This page with another below it.
    #[must_use]
    pub fn append(mut self, other: Self) -> Self {
        self.blocks.extend(other.blocks);
        self
    }

    /// The lines of the page in a terminal of `width` columns.
    pub fn lines(&self, width: usize) -> Vec<Text> {
        let width = width.max(LEAST_WIDTH);
        let mut lines = Vec::new();
        for block in &self.blocks {
            match block {
                Block::Text(text, hang) => lines.extend(wrap(text, width, *hang)),
                Block::Fixed(text) => lines.push(text.clone()),
                Block::Table(table) => lines.extend(table.lines(width)),
                Block::Blank => lines.push(Text::new()),
            }
        }
        lines
    }

    /// The page as text for a terminal of `width` columns, every line with its line end.
    pub fn render(&self, width: usize, colour: bool) -> String {
        let lines = self.lines(width);
        if colour { ansi::write(&lines) } else { plain(&lines) }
    }
}

/// Lines without color, each with its line end.
pub(super) fn plain(lines: &[Text]) -> String {
    let mut written = String::new();
    for line in lines {
        let letters = line.letters().trim_end_matches([' ', NO_BREAK]);
        if letters.contains(NO_BREAK) {
            written.push_str(&letters.replace(NO_BREAK, " "));
        } else {
            written.push_str(letters);
        }
        written.push('\n');
    }
    written
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page() -> Page {
        Page::new()
            .heading("opening")
            .row([Cell::left("opening.width"), Cell::right("16 13/16\""), Cell::right("427.0 mm")])
            .row([Cell::left("opening.height"), Cell::right("20\""), Cell::right("508.0 mm")])
            .heading("checks")
            .said(Label::Stop, "the lip covers the art by 3/16\" at the least, and 1/4\" is wanted")
            .said(Label::Note, "one\ntwo")
    }

    #[test]
    fn a_page_fits_eighty_columns() {
        let expected = "\
opening
opening.width   16 13/16\"  427.0 mm
opening.height        20\"  508.0 mm

checks
stop: the lip covers the art by 3/16\" at the least, and 1/4\" is wanted
note: one
      two
";
        assert_eq!(page().render(80, false), expected);
    }

    #[test]
    fn a_page_folds_into_forty_columns() {
        let expected = "\
opening
opening.width   16 13/16\"  427.0 mm
opening.height        20\"  508.0 mm

checks
stop: the lip covers the art by 3/16\" at
      the least, and 1/4\" is wanted
note: one
      two
";
        assert_eq!(page().render(40, false), expected);
    }

    #[test]
    fn colour_adds_codes_and_changes_no_letter() {
        let coloured = page().render(40, true);
        assert!(coloured.contains("\u{1b}[1;38;5;161mstop\u{1b}[0m: the lip"), "{coloured:?}");
        assert!(!page().render(40, false).contains('\u{1b}'));
    }
}
