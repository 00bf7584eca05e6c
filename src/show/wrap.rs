//! Breaking labelled text into lines.

use std::borrow::Cow;

use super::columns::clusters;
use super::keep::together;
use super::text::{Label, Text};

/// Breaks `text` into lines of at most `width` columns, the later ones indented by `hang`.
///
/// Lines are broken at spaces, never inside a quantity and never at U+00A0. A word longer than a line is broken between
/// letters: nothing is left out.
pub fn wrap(text: &Text, width: usize, hang: usize) -> Vec<Text> {
    let width = width.max(1);
    // Most lines fit as they are.
    if text.width() <= width {
        return vec![text.clone()];
    }
    // A hang that leaves hardly any room would make a column of single letters.
    let hang = if hang + 8 > width { 0 } else { hang };
    let mut lines = Lines { done: Vec::new(), line: Text::new(), used: 0, width, hang };
    for chunk in chunks(text) {
        lines.put(&chunk);
    }
    lines.finish()
}

/// Letters of one label, and their columns.
type Run<'t> = (Label, &'t str, usize);

/// A word or a quantity, which is not broken, and the spaces before it.
#[derive(Default)]
struct Chunk<'t> {
    blanks: Vec<Run<'t>>,
    letters: Vec<Run<'t>>,
}

impl<'t> Chunk<'t> {
    fn width(runs: &[Run]) -> usize {
        runs.iter().map(|run| run.2).sum()
    }

    /// The last word in it, for what may follow.
    fn last_word(&self) -> Cow<'t, str> {
        let letters = match self.letters.as_slice() {
            [(_, letters, _)] => Cow::Borrowed(*letters),
            runs => runs.iter().map(|run| run.1).collect::<String>().into(),
        };
        match letters {
            Cow::Borrowed(letters) => letters.rsplit(' ').next().unwrap_or_default().into(),
            Cow::Owned(letters) => letters.rsplit(' ').next().unwrap_or_default().to_string().into(),
        }
    }
}

/// Words and the blanks before them, words that belong together in one.
fn chunks(text: &Text) -> Vec<Chunk<'_>> {
    let mut chunks: Vec<Chunk> = Vec::new();
    for word in words(text) {
        let joins = chunks.last().is_some_and(|last| {
            Chunk::width(&word.blanks) == 1
                && !last.letters.is_empty()
                && together(&last.last_word(), &word.last_word())
        });
        match chunks.last_mut() {
            Some(last) if joins => last.letters.extend(word.blanks.into_iter().chain(word.letters)),
            _ => chunks.push(word),
        }
    }
    chunks
}

fn words(text: &Text) -> Vec<Chunk<'_>> {
    let mut words = vec![Chunk::default()];
    for piece in text.pieces() {
        for (letters, width) in runs(piece.text) {
            let blank = letters.bytes().all(|byte| byte == b' ');
            if blank && words.last().is_some_and(|word| !word.letters.is_empty()) {
                words.push(Chunk::default());
            }
            if let Some(word) = words.last_mut() {
                let run = (piece.label, letters, width);
                if blank { word.blanks.push(run) } else { word.letters.push(run) }
            }
        }
    }
    words
}

/// Blanks in a row, and plain letters in a row, each with their columns; any other letter comes by itself, with its marks.
fn runs(text: &str) -> impl Iterator<Item = (&str, usize)> {
    let mut rest = text;
    std::iter::from_fn(move || {
        let plain = rest.bytes().take_while(|byte| matches!(byte, b' '..=b'~')).count();
        // Marks that follow belong to the last plain letter.
        let plain = if plain < rest.len() { plain.saturating_sub(1) } else { plain };
        let blank = rest.starts_with(' ');
        let (run, width) = match rest.bytes().take(plain).take_while(|byte| (*byte == b' ') == blank).count() {
            0 => clusters(rest).next()?,
            count => (rest.get(..count)?, count),
        };
        rest = rest.get(run.len()..)?;
        Some((run, width))
    })
}

/// The lines so far, and the one being filled.
struct Lines {
    done: Vec<Text>,
    line: Text,
    used: usize,
    width: usize,
    hang: usize,
}

impl Lines {
    fn put(&mut self, chunk: &Chunk) {
        let (blanks, letters) = (Chunk::width(&chunk.blanks), Chunk::width(&chunk.letters));
        if letters == 0 && chunk.letters.is_empty() {
            // Spaces at the end of a text are dropped.
            return;
        }
        if self.is_fresh() || self.used + blanks + letters <= self.width {
            self.put_letters(&chunk.blanks);
        } else {
            self.turn();
        }
        self.put_letters(&chunk.letters);
    }

    fn put_letters(&mut self, runs: &[Run]) {
        for (label, letters, width) in runs {
            if self.used + width <= self.width {
                self.line.push(*label, letters);
                self.used += width;
                continue;
            }
            for (cluster, width) in clusters(letters) {
                if self.used + width > self.width && !self.is_fresh() {
                    self.turn();
                }
                self.line.push(*label, cluster);
                self.used += width;
            }
        }
    }

    /// Whether nothing but the indent is on the line.
    fn is_fresh(&self) -> bool {
        self.used == if self.done.is_empty() { 0 } else { self.hang }
    }

    fn turn(&mut self) {
        self.done.push(std::mem::take(&mut self.line));
        self.line.pad(self.hang);
        self.used = self.hang;
    }

    fn finish(mut self) -> Vec<Text> {
        self.done.push(self.line);
        self.done
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[track_caller]
    fn check(text: &str, width: usize, hang: usize, expected: &[&str]) {
        let lines: Vec<String> =
            wrap(&text.into(), width, hang).iter().map(|text| text.letters().to_string()).collect();
        assert_eq!(lines, expected);
    }

    #[test]
    fn lines_break_at_blanks() {
        check("the strip is too long", 10, 0, &["the strip", "is too", "long"]);
        check("the strip is too long", 14, 2, &["the strip is", "  too long"]);
        check("  set in from the start", 14, 2, &["  set in from", "  the start"]);
        check("three   blanks", 20, 0, &["three   blanks"]);
        check("three   blanks   ", 8, 0, &["three", "blanks"]);
        check("", 10, 0, &[""]);
    }

    #[test]
    fn a_quantity_is_not_broken() {
        check("opening is 11 3/8\" wide", 15, 0, &["opening is", "11 3/8\" wide"]);
        check("left over 16 3/4\" + 1/64\"", 18, 0, &["left over", "16 3/4\" + 1/64\""]);
        check("a b\u{a0}c", 3, 0, &["a", "b\u{a0}c"]);
    }

    #[test]
    fn a_word_longer_than_the_line_goes_on() {
        check("a/very/long/path here", 8, 0, &["a/very/l", "ong/path", "here"]);
        check("額縁額縁額", 5, 0, &["額縁", "額縁", "額"]);
    }

    #[test]
    fn labels_stay_with_their_letters() {
        let text = Text::of(Label::Stop, "stop").and(Label::Plain, ": the lip").and(Label::Value, " 1/4\"");
        let lines = wrap(&text, 11, 2);
        assert_eq!(lines.len(), 2);
        assert_eq!(lines[1].letters(), "  lip 1/4\"");
        assert_eq!(lines[1].pieces().last().unwrap().label, Label::Value);
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, cases: 1000, ..ProptestConfig::default() })]

        #[test]
        fn lines_fit_and_lose_nothing(
            text in "[a-z0-9/\"額é +-]{0,60}",
            quantity in "[1-9]{1,2} [1-9]/[1-9]\"",
            width in 12..60_usize,
            hang in 0..8_usize,
        ) {
            let whole = format!("{text}. {quantity}, {text}");
            let lines: Vec<String> = wrap(&whole.as_str().into(), width, hang).iter().map(|text| text.letters().to_string()).collect();
            for line in &lines {
                prop_assert!(crate::show::columns::width(line) <= width, "{:?}", lines);
            }
            let bare = |text: &str| text.replace(' ', "");
            prop_assert_eq!(bare(&lines.concat()), bare(&whole));
            prop_assert!(lines.iter().any(|line| line.contains(&quantity)), "{:?}", lines);
        }
    }
}
