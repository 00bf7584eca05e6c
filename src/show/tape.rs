//! A stretch of the tape drawn to scale, with a length pointed out on it.
//!
//! The marks hang from the edge of the tape: the longer the mark, the coarser the fraction. The edge is heavy from the named
//! mark before the length to the length, and the small marks to count are those above the heavy part.

mod reading;
mod scale;
mod words;

use self::reading::Reading;
use self::scale::{LEFT, Scale};
use super::canvas::Canvas;
use super::page::Page;
use super::text::{Label, Text};
use crate::diag::Diagnostic;
use crate::measure::{Length, Manner, Quantity, Real};

/// Rows of the drawing above the marks: the length, the arrow, the edge.
const ABOVE: usize = 3;
const ARROW: usize = 1;
const EDGE: usize = 2;

/// Spaces between two numbers under the marks.
const BESIDE: usize = 2;

/// The tape around `length` to scale, in at most `width` columns, and a sentence that says where the length is.
///
/// Mark number k is in column `k × pitch`, the same whole number of columns from mark to mark; a length between
/// two marks is pointed at to scale, and shown once more between these two enlarged. Drawn for 24 columns at the least.
///
/// # Errors
/// The length is below 0 or too long for any tape.
pub fn tape(length: &Length, manner: &Manner, width: usize) -> Result<Page, Diagnostic> {
    let reading = Reading::new(length, &manner.graduation)?;
    let shown = manner.short(&Quantity::inches(length.value.clone()));
    let scale = Scale::new(&reading, width);
    let mut page = drawing(&reading, &scale, &shown).into_iter().fold(Page::new(), Page::fixed);
    if !reading.exact {
        page = enlarged(&reading, manner, width).into_iter().fold(page.blank(), Page::fixed);
    }
    Ok(page.blank().text(words::words(&reading, manner)))
}

/// The tape itself: length and arrow above the edge, marks below it, numbers below these.
fn drawing(reading: &Reading, scale: &Scale, shown: &str) -> Vec<Text> {
    let deepest = scale.ticks().map(|tick| reading.tape.reach(tick)).max().unwrap_or(0).div_ceil(2);
    let mut canvas = Canvas::new(scale.width, ABOVE + deepest + 1);
    let at = scale.column_of(&reading.ticks);
    canvas.put_centred(0, at, shown, Label::Value);
    canvas.put(ARROW, at, "▼", Label::Mark);
    edge(&mut canvas, scale, at);
    for tick in scale.ticks() {
        let reach = reading.tape.reach(tick);
        for row in 0..reach.div_ceil(2) {
            let glyph = if 2 * row + 1 == reach { "╵" } else { "│" };
            canvas.put(ABOVE + row, scale.column(tick), glyph, Label::Plain);
        }
    }
    numbers(&mut canvas, reading, scale, ABOVE + deepest);
    canvas.lines()
}

/// The edge of the tape, heavy from the mark that the length is counted from to the arrow.
fn edge(canvas: &mut Canvas, scale: &Scale, at: usize) {
    let heavy = scale.column(scale.start)..=at;
    let begins = if scale.first == 0 { LEFT } else { LEFT - 1 };
    let ends = scale.column(scale.last) + 1;
    for column in begins..=ends {
        let (glyph, label) = if heavy.contains(&column) { ("━", Label::Mark) } else { ("─", Label::Plain) };
        canvas.put(EDGE, column, glyph, label);
    }
    for tick in scale.ticks() {
        let column = scale.column(tick);
        let (glyph, label) = match (tick, heavy.contains(&column)) {
            (0, true) => ("┍", Label::Mark),
            (0, false) => ("┌", Label::Plain),
            (_, true) => ("┯", Label::Mark),
            (_, false) => ("┬", Label::Plain),
        };
        canvas.put(EDGE, column, glyph, label);
    }
}

/// The numbers, and as many fractions between them as there is room for, the coarsest first.
fn numbers(canvas: &mut Canvas, reading: &Reading, scale: &Scale, row: usize) {
    let tape = &reading.tape;
    let mut put = |tick: i64, named: bool| {
        let text = words::number(tape, tick, named);
        let column = canvas.centred(scale.column(tick), &text);
        if canvas.is_free(row, column..column + text.chars().count(), BESIDE) {
            canvas.put(row, column, &text, if named { Label::Name } else { Label::Dim });
        }
    };
    put(scale.start, true);
    let numbered = tape.numbered();
    for level in tape.levels.iter().take(if tape.metric { 2 } else { 4 }).filter(|level| **level > 1) {
        scale.ticks().filter(|tick| tick % level == 0).for_each(|tick| put(tick, tick % numbered == 0));
    }
}

/// The two marks around a length, far apart, and where between them it lies.
fn enlarged(reading: &Reading, manner: &Manner, width: usize) -> Vec<Text> {
    let apart = if width >= 40 { 32 } else { 16 };
    let mut canvas = Canvas::new(LEFT + apart + 1, 3);
    let part = reading.ticks.clone() - Real::whole(reading.below);
    let at = LEFT + scale::rounded(&(part * Real::whole(i64::try_from(apart).unwrap_or(0))));
    canvas.put(0, at, "▼", Label::Mark);
    canvas.put(1, LEFT, &"─".repeat(apart), Label::Plain);
    canvas.put(1, LEFT, &"━".repeat(at - LEFT), Label::Mark);
    canvas.put(1, LEFT, "┝", Label::Mark);
    canvas.put(1, LEFT + apart, "┤", Label::Plain);
    let name = |tick: i64| manner.mark(&reading.tape.inches(tick));
    canvas.put(2, LEFT, &name(reading.below), Label::Dim);
    let upper = name(reading.below + 1);
    canvas.put(2, (LEFT + apart + 1).saturating_sub(upper.chars().count()), &upper, Label::Dim);
    canvas.lines()
}

#[cfg(test)]
mod properties;
#[cfg(test)]
mod tests;
