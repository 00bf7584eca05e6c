//! Text that the program puts into a script before it runs.

use rhai::Position;

/// Where text was put into a script and how much, so that errors can point into the script as it was typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Insertions(Vec<(Position, usize)>);

impl Insertions {
    /// `script` with the texts of `marks`, which are sorted by position; notes positions in the result.
    pub fn into(script: &str, marks: &[(Position, String)]) -> (String, Self) {
        let length: usize = marks.iter().map(|(_, text)| text.len()).sum();
        let mut result = String::with_capacity(script.len() + length);
        let mut insertions = Self::default();
        let mut marks = marks.iter().peekable();
        let mut here = Place { line: 1, column: 1, shift: 0 };
        for letter in script.chars() {
            while let Some((_, text)) = marks.next_if(|(position, _)| here.is(*position)) {
                insertions.0.extend(here.shifted().map(|position| (position, text.len())));
                result.push_str(text);
                here.shift += text.len();
            }
            result.push(letter);
            here.pass(letter);
        }
        (result, insertions)
    }

    /// `position` as it was before the insertions.
    pub fn take_out(&self, position: Position) -> Position {
        let (Some(line), Some(column)) = (position.line(), position.position()) else {
            return position;
        };
        let before = |at: &Position| at.line() == Some(line) && at.position().is_some_and(|start| start <= column);
        let shift: usize = self.0.iter().filter(|(at, _)| before(at)).map(|(_, length)| length).sum();
        let column = column.saturating_sub(shift).max(1);
        match (u16::try_from(line), u16::try_from(column)) {
            (Ok(line), Ok(column)) => Position::new(line, column),
            _ => position,
        }
    }
}

/// A place in the script, and how much text its line has gained.
struct Place {
    line: usize,
    column: usize,
    shift: usize,
}

impl Place {
    fn is(&self, position: Position) -> bool {
        position.line() == Some(self.line) && position.position() == Some(self.column)
    }

    fn shifted(&self) -> Option<Position> {
        let line = u16::try_from(self.line).ok()?;
        Some(Position::new(line, u16::try_from(self.column + self.shift).ok()?))
    }

    fn pass(&mut self, letter: char) {
        if letter == '\n' {
            *self = Self { line: self.line + 1, column: 1, shift: 0 };
        } else {
            self.column += 1;
        }
    }
}
