//! Properties of every drawing and of the sentence below it.

use proptest::prelude::*;

use super::reading::Tape;
use super::*;
use crate::measure::{Graduation, inches};

fn length() -> impl Strategy<Value = Real> {
    prop_oneof![
        (0..10_000_i64).prop_map(|n| Real::ratio(n, 64)),
        (0..10_000_i64).prop_map(|n| Real::ratio(5 * n, 254)),
        (0..1_000_000_i64, 1..997_i64).prop_map(|(n, d)| Real::ratio(n, d)),
    ]
}

fn any_graduation() -> impl Strategy<Value = Graduation> {
    prop::sample::select(Graduation::all().collect::<Vec<_>>())
}

/// A length as it is named in words or under a mark: `15 7/16"`, `288 mm`.
fn read(name: &str) -> Real {
    let (figure, unit) = match (name.strip_suffix(" mm"), name.strip_suffix('"')) {
        (Some(figure), _) => (figure, Real::ratio(5, 127)),
        (_, Some(figure)) => (figure, Real::ONE),
        _ => panic!("no unit: {name}"),
    };
    let part = |part: &str| match part.split_once('/') {
        Some((n, d)) => Real::ratio(n.parse().unwrap(), d.parse().unwrap()),
        None => Real::from_decimal(part).unwrap(),
    };
    figure.split(' ').fold(Real::ZERO, |sum, word| sum + part(word)) * unit
}

/// The number before `what`, a word or figures.
fn counted(word: &str) -> i64 {
    let words = ["nought", "one", "two", "three", "four", "five"];
    let ordinals = ["nought", "first", "second", "third", "fourth", "fifth"];
    let found = words.iter().position(|one| *one == word).or(ordinals.iter().position(|one| *one == word));
    found.map_or_else(|| word.parse().unwrap(), |found| i64::try_from(found).unwrap())
}

/// `7 sixteenths`, `one half`, `8 mm`.
fn fraction(text: &str) -> Real {
    if text.ends_with(" mm") {
        return read(text);
    }
    let (count, part) = text.split_once(' ').unwrap();
    let parts = [("hal", 2), ("quarter", 4), ("eighth", 8), ("sixteenth", 16), ("thirty-s", 32), ("sixty-f", 64)];
    Real::ratio(counted(count), parts.iter().find(|one| part.starts_with(one.0)).unwrap().1)
}

/// Holds the sentence about a mark against arithmetic: every way it gives to find the mark leads there.
fn hold(sentence: &str, step: &Real) {
    let (name, rest) = sentence.split_once(" is ").unwrap();
    let value = read(name);
    if rest == "the very end of the tape" {
        assert!(value.is_exact_zero());
        return;
    }
    if let Some(number) = rest.strip_prefix("the mark numbered ") {
        assert!(name == format!("{number}\"") || name == format!("{number} mm"));
        return;
    }
    let (first, second) = rest.split_once(", ").map_or((rest, None), |(first, second)| (first, Some(second)));
    let (number, past) = match (first.split_once(" from the end of the tape"), first.split_once(" past ")) {
        (Some((past, "")), _) => (Real::ZERO, fraction(past)),
        (_, Some((past, number))) => (read(number), fraction(past)),
        _ => panic!("{first}"),
    };
    assert!(number.clone() + past.clone() == value, "{sentence}");
    let Some(second) = second else { return };
    let named = |name: &str| match name {
        "the half" => number.floor() + Real::ratio(1, 2),
        "the quarter" => number.floor() + Real::ratio(1, 4),
        "the three quarters" => number.floor() + Real::ratio(3, 4),
        _ => match name.strip_prefix("the ") {
            Some(name) => number.floor() + read(&format!("{name}\"")),
            None => read(name),
        },
    };
    let words: Vec<&str> = second.splitn(4, ' ').collect();
    let found = match words.as_slice() {
        ["the", nth, "mark", "after it"] => number.clone() + step.clone() * Real::whole(counted(nth)),
        [count, "mark" | "marks", "past", name] => named(name) + step.clone() * Real::whole(counted(count)),
        [count, "mark" | "marks", "short", name] => {
            named(name.strip_prefix("of ").unwrap()) - step.clone() * Real::whole(counted(count))
        }
        _ => panic!("{second}"),
    };
    assert!(found == value, "{sentence}");
    assert!(
        !second.contains("one marks")
            && (second.contains("one mark") || !second.contains(" mark ") || second.starts_with("the"))
    );
}

/// The texts of a line with two spaces or more between them, and the column of each middle.
fn texts(line: &str) -> Vec<(usize, &str)> {
    let mut texts = Vec::new();
    let mut at = 0;
    for part in line.split("  ") {
        let text = part.trim();
        if !text.is_empty() {
            let begins = at + part.len() - part.trim_start().len();
            texts.push((begins + (text.len() - 1) / 2, text));
        }
        at += part.len() + 2;
    }
    texts
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 1000, ..ProptestConfig::default() })]

    #[test]
    fn the_words_agree_with_arithmetic(value in length(), graduation in any_graduation()) {
        let step = graduation.step.value.clone();
        let page = tape(&inches(value.clone()), &Manner { graduation }, 80).unwrap();
        let text = page.lines(500).last().unwrap().letters().to_string();
        match text.rsplit_once("; ") {
            None => {
                hold(&text, &step);
                prop_assert!(read(text.split_once(" is ").unwrap().0) == value);
            }
            Some((between, sentence)) => {
                hold(sentence, &step);
                let marks = between.split_once("between ").unwrap().1;
                let (lower, rest) = marks.split_once(" and ").unwrap();
                let upper = rest.split_once([':', ',']).unwrap().0;
                prop_assert!(read(lower) < value && value < read(upper), "{}", text);
                prop_assert!(read(upper) - read(lower) == step, "{}", text);
                let near = read(sentence.split_once(" is ").unwrap().0);
                prop_assert!((near - value).abs() * Real::whole(2) <= step, "{}", text);
            }
        }
    }

    #[test]
    fn the_drawing_is_to_scale(value in length(), graduation in any_graduation(), width in 24..110_usize) {
        let manner = Manner { graduation: graduation.clone() };
        let step = graduation.step.value;
        let lines: Vec<String> =
            tape(&inches(value.clone()), &manner, width).unwrap().lines(width).iter().map(|text| text.letters().to_string()).collect();
        let drawing: Vec<String> = lines.iter().take_while(|line| !line.is_empty()).cloned().collect();
        for line in &drawing {
            prop_assert!(line.chars().count() <= width, "{}", line);
        }
        let column_of = |line: &str, letter: char| line.chars().position(|one| one == letter);
        let arrow = column_of(&drawing[1], '▼').unwrap();
        let ticks: Vec<usize> =
            drawing[2].chars().enumerate().filter(|(_, letter)| "┌┍┬┯".contains(*letter)).map(|(at, _)| at).collect();
        let pitch = ticks[1] - ticks[0];
        for (k, column) in ticks.iter().enumerate() {
            prop_assert_eq!(*column, ticks[0] + k * pitch);
        }
        // From every mark that is named whole the arrow is as far as the length is.
        let mut held = 0;
        for (column, name) in texts(drawing.last().unwrap()) {
            // A name at either end of the line may be moved off its mark.
            let begins = column - (name.len() - 1) / 2;
            let moved = begins == 0 || begins + name.len() >= width.min(100);
            if !name.ends_with(['"', 'm']) || moved {
                continue;
            }
            let pitches = (value.clone() - read(name)) / step.clone() * Real::whole(i64::try_from(pitch).unwrap());
            let nearest = (pitches + Real::ratio(1, 2)).floor().to_whole().unwrap();
            let off = i64::try_from(arrow).unwrap() - i64::try_from(column).unwrap();
            prop_assert_eq!(off, nearest, "{}", drawing.join("\n"));
            held += 1;
        }
        prop_assert!(held > 0 || width < 40 || value > Real::whole(1000), "no number to count from\n{}", drawing.join("\n"));
        prop_assert!(ticks[0] <= arrow && arrow <= ticks[ticks.len() - 1]);
    }

    #[test]
    fn the_longer_the_mark_the_coarser_the_fraction(graduation in any_graduation(), tick in 0..5000_i64) {
        let tape = Tape::new(&graduation);
        for level in 1..tape.levels.len() {
            let (coarse, fine) = (tape.levels[level - 1], tape.levels[level]);
            if tick % fine == 0 && tick % coarse != 0 {
                prop_assert!(tape.reach(tick) < tape.reach(tick - tick % coarse));
            }
        }
    }
}
