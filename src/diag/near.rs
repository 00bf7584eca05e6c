//! The names nearest to one that is not known.

/// The names nearest to `word`: one, or up to three that are equally near.
///
/// A candidate counts when it differs by at most a third of its letters, or begins with `word`.
pub fn near<'a>(word: &str, names: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    let wanted = word.to_lowercase();
    let letters = wanted.chars().count();
    let mut found: Vec<(usize, &str)> = names
        .into_iter()
        .filter_map(|name| {
            let name_lower = name.to_lowercase();
            let length = name_lower.chars().count();
            let allowed = (letters.max(length) / 3).max(1);
            let begins = letters >= 3 && name_lower.starts_with(&wanted);
            // Words that differ in length by more differ by more: not looked at, be the word a million letters long.
            if letters.abs_diff(length) > allowed && !begins {
                return None;
            }
            // A part of a name is as near to it as a slip of one letter.
            let under = name_lower.strip_prefix(&wanted).is_some_and(|rest| rest.starts_with('.'));
            let distance = if under { 1 } else { distance(&wanted, &name_lower) };
            (distance <= allowed || begins).then_some((distance, name))
        })
        .collect();
    found.sort_by(|left, right| left.0.cmp(&right.0).then(left.1.cmp(right.1)));
    found.dedup_by(|left, right| left.1 == right.1);
    let best = found.first().map(|(distance, _)| *distance);
    found.retain(|(distance, _)| Some(*distance) == best);
    found.truncate(3);
    found.into_iter().map(|(_, name)| name).collect()
}

/// How many letters must be put in, taken out, changed or swapped with their neighbour.
fn distance(left: &str, right: &str) -> usize {
    let left: Vec<char> = left.chars().collect();
    let right: Vec<char> = right.chars().collect();
    let mut older = vec![0; right.len() + 1];
    let mut old: Vec<usize> = (0..=right.len()).collect();
    for (row, &a) in left.iter().enumerate() {
        let mut new = vec![row + 1; right.len() + 1];
        for (column, &b) in right.iter().enumerate() {
            let mut best = (old[column + 1] + 1).min(new[column] + 1).min(old[column] + usize::from(a != b));
            if row > 0 && column > 0 && a == right[column - 1] && left[row - 1] == b {
                best = best.min(older[column - 1] + 1);
            }
            new[column + 1] = best;
        }
        older = std::mem::replace(&mut old, new);
    }
    old[right.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn near_names_are_offered_best_first() {
        let names = ["reveal", "reveal.left", "rail.top.long", "recess"];
        assert_eq!(near("reveel", names), ["reveal"]);
        assert_eq!(near("reveal.lfet", names), ["reveal.left"]);
        assert!(near("zebra", names).is_empty());
        assert_eq!(near("rec", names), ["recess"]);
        assert!(near(&"reveal".repeat(1_000_000), names).is_empty());
    }
}
