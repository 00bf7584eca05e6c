//! The lines of a text around a place, with carets under the place.

use std::ops::Range;

use super::columns::{clusters, harmless, width};
use super::text::{Label, Text};
use crate::diag::Span;

/// A tab ends at the next multiple of this.
const TAB: usize = 4;
/// The indent of source lines.
const INDENT: usize = 2;
/// Of more lines than this, the first ones and the last are shown.
const MOST_LINES: usize = 4;
/// The mark where a line is cut.
const MORE: &str = "…";

/// `span` within `text`: on the edges of letters, and not after the last line end.
pub fn place(text: &str, span: &Span) -> Span {
    let mut start = span.start.min(text.len());
    while !text.is_char_boundary(start) {
        start -= 1;
    }
    let mut end = span.end.clamp(start, text.len());
    while !text.is_char_boundary(end) {
        end += 1;
    }
    // Something missing at the end of a file is missing after its last word.
    let behind = text.trim_end().len();
    if start > behind && text.get(behind..start).is_some_and(|between| between.contains('\n')) {
        return behind..behind;
    }
    start..end
}

/// The source lines in which `span` lies, each with its carets below, none wider than `width`.
pub fn excerpt(text: &str, span: &Span, width: usize) -> Vec<Text> {
    let span = place(text, span);
    let lines = lines(text, &span);
    let last = lines.len().saturating_sub(1);
    let mut shown = Vec::new();
    for (at, line) in lines.iter().enumerate() {
        if lines.len() <= MOST_LINES || at < MOST_LINES - 2 || at == last {
            shown.extend(pointed(text, line, &span, width));
        } else if at == MOST_LINES - 2 {
            let left_out = lines.len() - (MOST_LINES - 1);
            shown.push(Text::of(Label::Dim, format!("  {MORE} {left_out} more lines")));
        }
    }
    shown
}

/// The lines that `span` touches, without line ends.
fn lines(text: &str, span: &Span) -> Vec<Range<usize>> {
    let mut lines = Vec::new();
    let mut start = 0;
    for line in text.split('\n') {
        let end = start + line.len();
        let first = lines.is_empty() && span.start <= end;
        if first || (!lines.is_empty() && start < span.end) {
            lines.push(start..start + line.trim_end_matches('\r').len());
        }
        start = end + 1;
    }
    lines
}

/// One source line and the carets below it: from the start of the place in its first line, from the first word in later
/// lines.
fn pointed(text: &str, line: &Range<usize>, span: &Span, width: usize) -> Vec<Text> {
    let source = text.get(line.clone()).unwrap_or_default();
    let glyphs = glyphs(source);
    let within = |at: usize| at.clamp(line.start, line.end) - line.start;
    let (mut start, mut end) = (within(span.start), within(span.end));
    if span.end > line.end {
        end = source.trim_end().len().max(start);
    }
    let first = span.start >= line.start;
    if !first {
        start = source.len() - source.trim_start().len();
    }
    let room = width.saturating_sub(INDENT).max(8);
    if !first && start >= end {
        return vec![window(&glyphs, 0..0, room)];
    }
    let run = run(&glyphs, start, end);
    let shown = window(&glyphs, run.clone(), room);
    vec![shown, carets(&glyphs, run, room)]
}

/// A letter with its marks as shown, with its bytes in the line and its columns on the terminal.
struct Glyph {
    shown: String,
    bytes: Range<usize>,
    columns: Range<usize>,
}

/// The letters of a line; tabs as spaces, control letters as pictures.
fn glyphs(line: &str) -> Vec<Glyph> {
    let mut glyphs: Vec<Glyph> = Vec::new();
    let mut column = 0;
    let mut start = 0;
    for (cluster, _) in clusters(line) {
        let shown =
            if cluster == "\t" { " ".repeat(TAB - column % TAB) } else { cluster.chars().map(harmless).collect() };
        let columns = column..column + width(&shown);
        column = columns.end;
        glyphs.push(Glyph { shown, bytes: start..start + cluster.len(), columns });
        start += cluster.len();
    }
    glyphs
}

/// The columns of the letters that the bytes from `start` to `end` touch; one column if there are no letters.
fn run(glyphs: &[Glyph], start: usize, end: usize) -> Range<usize> {
    let whole = glyphs.last().map_or(0, |last| last.columns.end);
    let mut touched = glyphs.iter().filter(|glyph| glyph.bytes.end > start && glyph.bytes.start < end);
    let first = touched.next();
    match (first, touched.next_back().or(first)) {
        (Some(first), Some(last)) => first.columns.start..last.columns.end.max(first.columns.start + 1),
        _ => {
            let at = glyphs.iter().find(|glyph| glyph.bytes.end > start).map_or(whole, |glyph| glyph.columns.start);
            at..at + 1
        }
    }
}

/// The columns of a line to show around `run`, if the line is too long.
fn cut(glyphs: &[Glyph], run: &Range<usize>, room: usize) -> Range<usize> {
    let whole = glyphs.last().map_or(0, |last| last.columns.end).max(run.end);
    if whole <= room {
        return 0..whole;
    }
    // Each end keeps a column for the mark of a cut.
    let inner = room - 2;
    let lead = inner.saturating_sub(run.len()) / 2;
    let from = run.start.saturating_sub(lead).min(whole - inner);
    from..from + inner
}

/// A line, or the part around `run` with marks where it is cut.
fn window(glyphs: &[Glyph], run: Range<usize>, room: usize) -> Text {
    let cut = cut(glyphs, &run, room);
    let mut line = Text::of(Label::Plain, " ".repeat(INDENT));
    let mut column = cut.start;
    if glyphs.first().is_some_and(|first| first.columns.start < cut.start) {
        line.push(Label::Dim, MORE);
    }
    for glyph in glyphs.iter().filter(|glyph| glyph.columns.start >= cut.start && glyph.columns.end <= cut.end) {
        line.pad(glyph.columns.start - column);
        line.push(Label::Plain, &glyph.shown);
        column = glyph.columns.end;
    }
    if glyphs.last().is_some_and(|last| last.columns.end > cut.end) {
        line.pad(cut.end - column);
        line.push(Label::Dim, MORE);
    }
    line
}

/// The carets under `run`, moved and cut like the line above.
fn carets(glyphs: &[Glyph], run: Range<usize>, room: usize) -> Text {
    let cut = cut(glyphs, &run, room);
    let mark = usize::from(cut.start > 0);
    let (from, to) = (run.start.max(cut.start), run.end.min(cut.end));
    let mut line = Text::of(Label::Plain, " ".repeat(INDENT + mark + from - cut.start));
    line.push(Label::Mark, &"^".repeat((to - from).max(1)));
    if run.end > cut.end {
        line.push(Label::Dim, MORE);
    }
    line
}

#[cfg(test)]
mod tests;
