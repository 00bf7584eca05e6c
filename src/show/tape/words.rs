//! Where on the tape a length is found, in words.

use super::reading::{Reading, Tape};
use crate::measure::write::{self, millimetres};
use crate::measure::{Manner, Real};

/// The sentence below the drawing.
pub fn words(reading: &Reading, manner: &Manner) -> String {
    if reading.exact {
        return on_a_mark(&reading.tape, reading.nearest, manner);
    }
    let tape = &reading.tape;
    let name = |tick: i64| manner.mark(&tape.inches(tick));
    let gap = |ticks: Real| {
        let about = if ticks.is_approximate() { "about " } else { "" };
        format!("{about}{}", manner.gap(&(ticks * tape.step.clone())))
    };
    let past = reading.ticks.clone() - Real::whole(reading.below);
    let short = Real::ONE - past.clone();
    let (lower, upper) = (name(reading.below), name(reading.below + 1));
    let where_between = if past == short {
        format!("halfway between {lower} and {upper}, {} from each", gap(past))
    } else {
        format!("between {lower} and {upper}: {} past the first, {} short of the second", gap(past), gap(short))
    };
    format!("{where_between}; {}", on_a_mark(tape, reading.nearest, manner))
}

/// Where a mark is found: its fraction from the number before it, and its small marks from the longer mark next to it.
fn on_a_mark(tape: &Tape, tick: i64, manner: &Manner) -> String {
    let name = |tick: i64| manner.mark(&tape.inches(tick));
    let shown = name(tick);
    let (number, past) = (tick / tape.numbered() * tape.numbered(), tick % tape.numbered());
    match (number, past) {
        (0, 0) => format!("{shown} is the very end of the tape"),
        (_, 0) => format!("{shown} is the mark numbered {}", bare(tape, tick)),
        (0, _) => format!(
            "{shown} is {} from the end of the tape{}",
            fraction(tape, past, &shown),
            beside(tape, tick, manner)
        ),
        (_, _) => format!(
            "{shown} is {} past {}{}",
            fraction(tape, past, &name(past)),
            name(number),
            beside(tape, tick, manner)
        ),
    }
}

/// `7 sixteenths`, `one half`, `8 mm`.
fn fraction(tape: &Tape, past: i64, metric: &str) -> String {
    if tape.metric {
        return metric.to_string();
    }
    let (above, below) = tape.inches(past).to_parts().unwrap_or((past, 1));
    let (one, many) = match below {
        2 => ("half", "halves"),
        4 => ("quarter", "quarters"),
        8 => ("eighth", "eighths"),
        16 => ("sixteenth", "sixteenths"),
        32 => ("thirty-second", "thirty-seconds"),
        _ => ("sixty-fourth", "sixty-fourths"),
    };
    if above == 1 { format!("one {one}") } else { format!("{above} {many}") }
}

/// How many small marks from the nearest longer mark, and which that is; nothing for the longer marks themselves.
fn beside(tape: &Tape, tick: i64, manner: &Manner) -> String {
    let landmark = nearest_landmark(tape, tick);
    let off = tick - landmark;
    let count = off.unsigned_abs();
    let marks = format!("{} mark{}", counted(count), if count == 1 { "" } else { "s" });
    let name = landmark_name(tape, landmark, manner);
    match off {
        0 => String::new(),
        _ if off > 0 && landmark % tape.numbered() == 0 => format!(", the {} mark after it", ordinal(count)),
        _ if off > 0 => format!(", {marks} past {name}"),
        _ => format!(", {marks} short of {name}"),
    }
}

/// Of the marks that are easily found the nearest, of equally near ones the longer.
fn nearest_landmark(tape: &Tape, tick: i64) -> i64 {
    // On fine tapes eighths are found at a glance; on coarse ones they are counted themselves.
    let levels = match (tape.metric, tape.numbered()) {
        (true, _) => 2,
        (false, ..=16) => 3,
        (false, _) => 4,
    };
    let near = |marks: i64| {
        let below = tick / marks * marks;
        if tick - below > below + marks - tick { below + marks } else { below }
    };
    let coarse = tape.levels.iter().take(levels.min(tape.levels.len() - 1));
    let found = coarse.enumerate().map(|(level, marks)| ((tick - near(*marks)).abs(), level, near(*marks)));
    found.min().map_or(0, |(_, _, landmark)| landmark)
}

fn landmark_name(tape: &Tape, tick: i64, manner: &Manner) -> String {
    if tape.metric || tick % tape.numbered() == 0 {
        return manner.mark(&tape.inches(tick));
    }
    match tape.inches(tick % tape.numbered()).to_parts() {
        Some((1, 2)) => "the half".into(),
        Some((1, 4)) => "the quarter".into(),
        Some((3, 4)) => "the three quarters".into(),
        other => other.map_or_else(String::new, |(above, below)| format!("the {above}/{below}")),
    }
}

/// The number under a mark: `15"`, `280 mm`, between these `1/4`, `285`; with its whole inches and unit if `named`.
pub fn number(tape: &Tape, tick: i64, named: bool) -> String {
    let whole = bare(tape, tick);
    match (tape.metric, named) {
        (true, true) => format!("{whole} mm"),
        (true, false) => whole,
        (false, true) => format!("{whole}\""),
        (false, false) => bare(tape, tick % tape.numbered()),
    }
}

/// The figure of a mark without its unit.
fn bare(tape: &Tape, tick: i64) -> String {
    let inches = tape.inches(tick);
    if tape.metric { millimetres(&inches).to_decimal(1) } else { write::number(&inches) }
}

fn counted(count: u64) -> String {
    match count {
        1 => "one".into(),
        2 => "two".into(),
        3 => "three".into(),
        4 => "four".into(),
        5 => "five".into(),
        more => more.to_string(),
    }
}

fn ordinal(count: u64) -> String {
    match count {
        1 => "first".into(),
        2 => "second".into(),
        3 => "third".into(),
        4 => "fourth".into(),
        5 => "fifth".into(),
        more => format!("{more}th"),
    }
}
