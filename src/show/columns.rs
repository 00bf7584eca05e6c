//! Text in terminal columns: its width, where it can be split, and letters that must not reach a terminal raw.

use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

/// A space that no line is broken at; printed as a plain space.
pub const NO_BREAK: char = '\u{a0}';

/// The width of `text` in terminal columns.
pub fn width(text: &str) -> usize {
    // Most text is plain letters of one column each.
    if text.bytes().all(|byte| matches!(byte, b' '..=b'~')) {
        return text.len();
    }
    clusters(text).map(|(_, width)| width).sum()
}

/// The letters of `text`, each with its marks and its columns.
pub fn clusters(text: &str) -> impl Iterator<Item = (&str, usize)> {
    text.graphemes(true).map(|cluster| (cluster, cluster.width()))
}

/// As much of `text` as fits into `columns`, with `…` for the rest.
pub fn cut(text: &str, columns: usize) -> String {
    let text = plain_text(text).replace('\n', " ");
    if width(&text) <= columns {
        return text;
    }
    let mut used = 1;
    let kept = clusters(&text).take_while(|(_, width)| {
        used += width;
        used <= columns
    });
    kept.map(|(cluster, _)| cluster).collect::<String>() + "…"
}

/// The letter, or a visible stand-in of one column if a terminal would act on it.
///
/// Control letters have pictures; letters that change the direction of writing or take no room are shown as unreadable, so
/// that no text looks like another.
pub fn harmless(letter: char) -> char {
    const UNREADABLE: char = '\u{fffd}';
    match letter {
        '\0'..='\u{1f}' => char::from_u32(0x2400 + u32::from(letter)).unwrap_or(UNREADABLE),
        '\u{7f}' => '\u{2421}',
        '\u{80}'..='\u{9f}'
        | '\u{ad}'
        | '\u{61c}'
        | '\u{200b}'
        | '\u{200e}'
        | '\u{200f}'
        | '\u{2028}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}'
        | '\u{feff}'
        | '\u{fff9}'..='\u{fffb}' => UNREADABLE,
        other => other,
    }
}

/// Text of scripts for a terminal: tabs and line ends stay, control letters become pictures.
pub fn plain_text(text: &str) -> String {
    text.chars().map(|letter| if matches!(letter, '\n' | '\t') { letter } else { harmless(letter) }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_what_a_terminal_takes() {
        assert_eq!(width("11 3/8\""), 7);
        assert_eq!(width("額縁"), 4);
        assert_eq!(width("e\u{301}t\u{e9}"), 3);
        assert_eq!(width("🖼️"), 2);
        assert_eq!(width(""), 0);
    }

    #[test]
    fn no_letter_acts_on_the_terminal() {
        for code in 0..=0x1_0000_u32 {
            let Some(letter) = char::from_u32(code) else { continue };
            assert!(!harmless(letter).is_control(), "{code:x}");
        }
        assert_eq!(harmless('\u{1b}'), '␛');
        assert_eq!(plain_text("a\tb\n\u{1b}[2J"), "a\tb\n␛[2J");
        assert_eq!(harmless('\u{202e}'), '\u{fffd}');
        assert_eq!(harmless('é'), 'é');
    }
}
