//! A grid of letters to draw on.

use super::columns;
use super::text::{Label, Text};

/// Rows of cells, each a letter of one column and its label.
#[derive(Clone, Debug)]
pub struct Canvas {
    rows: Vec<Vec<(char, Label)>>,
    width: usize,
}

impl Canvas {
    /// An empty grid of `width` columns and `height` rows.
    pub fn new(width: usize, height: usize) -> Self {
        Self { rows: vec![vec![(' ', Label::Plain); width]; height], width }
    }

    /// Draws `text` from `column`; letters outside the grid or not one column wide are left out.
    pub fn put(&mut self, row: usize, column: usize, text: &str, label: Label) {
        let Some(row) = self.rows.get_mut(row) else { return };
        let letters = text.chars().filter(|letter| columns::width(letter.encode_utf8(&mut [0; 4])) == 1);
        for (cell, letter) in row.iter_mut().skip(column).zip(letters) {
            *cell = (columns::harmless(letter), label);
        }
    }

    /// Draws `text` with its middle at `column`, moved sideways if it would leave the grid.
    pub fn put_centred(&mut self, row: usize, column: usize, text: &str, label: Label) {
        self.put(row, self.centred(column, text), text, label);
    }

    /// The first column of `text` if its middle is at `column`.
    pub fn centred(&self, column: usize, text: &str) -> usize {
        let width = columns::width(text);
        column.saturating_sub(width.saturating_sub(1) / 2).min(self.width.saturating_sub(width))
    }

    /// Whether the cells `columns` of a row, and `beside` more beyond each end, are all blank.
    pub fn is_free(&self, row: usize, columns: std::ops::Range<usize>, beside: usize) -> bool {
        let (from, to) = (columns.start.saturating_sub(beside), columns.end + beside);
        self.rows.get(row).is_some_and(|cells| cells.iter().take(to).skip(from).all(|cell| cell.0 == ' '))
    }

    /// The rows as labelled text.
    pub fn lines(&self) -> Vec<Text> {
        self.rows
            .iter()
            .map(|row| {
                let mut line = Text::new();
                row.iter().for_each(|(letter, label)| line.push(*label, letter.encode_utf8(&mut [0; 4])));
                line
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_put_where_it_is_told() {
        let mut canvas = Canvas::new(8, 2);
        canvas.put_centred(0, 4, "abc", Label::Mark);
        canvas.put_centred(1, 7, "abc", Label::Plain);
        canvas.put(5, 0, "nowhere", Label::Plain);
        let letters: Vec<String> = canvas.lines().iter().map(|text| text.letters().to_string()).collect();
        assert_eq!(letters, ["   abc  ", "     abc"]);
        assert!(canvas.is_free(0, 0..2, 1) && !canvas.is_free(0, 0..2, 2) && !canvas.is_free(1, 0..6, 0));
    }
}
