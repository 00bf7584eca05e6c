//! A page for a terminal with colors: the only file that writes escape codes.

use nu_ansi_term::{Color, Style};

use super::text::Text;
use super::theme::{Look, look};

/// The lines, each with its line end. Every stretch ends its own look, so that each line is complete by itself.
pub fn write(lines: &[Text]) -> String {
    let mut written = String::new();
    for line in lines {
        for piece in line.printed().pieces() {
            written.push_str(&style(look(piece.label)).paint(piece.text).to_string());
        }
        written.push('\n');
    }
    written
}

fn style(look: Look) -> Style {
    let mut style = Style::new();
    if let Some(colour) = look.colour {
        style = style.fg(Color::Fixed(colour));
    }
    if look.bold {
        style = style.bold();
    }
    if look.underlined {
        style = style.underline();
    }
    style
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::show::text::Label;

    #[test]
    fn looks_are_put_on_and_taken_off() {
        let line = Text::of(Label::Plain, "is ").and(Label::Value, "11\u{a0}3/8\"").and(Label::Plain, "  ");
        assert_eq!(write(&[line, Text::new()]), "is \u{1b}[1m11 3/8\"\u{1b}[0m\n\n");
    }

    #[test]
    fn the_letters_are_those_of_the_plain_page() {
        let lines: Vec<Text> =
            Label::ALL.iter().map(|label| Text::of(*label, "  16 3/4\"  ").and(Label::Plain, " ")).collect();
        let written = write(&lines);
        let mut parts = written.split("\u{1b}[");
        let mut bare = parts.next().unwrap_or_default().to_string();
        parts.for_each(|part| bare.push_str(part.split_once('m').unwrap().1));
        assert_eq!(bare, super::super::page::plain(&lines));
    }
}
