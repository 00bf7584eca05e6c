//! The cut list.

use super::super::Page;
use super::super::fact::page::table;
use crate::fact::fact;
use crate::measure::write::Manner;
use crate::shop::{Part, Shape};

/// The pieces, those of sticks above those of sheets: they are cut at different saws, and have different sizes.
pub(super) fn parts(parts: &[Part], manner: &Manner) -> Page {
    let is_stick = |part: &&Part| matches!(part.shape, Shape::Stick(_));
    let (sticks, sheets): (Vec<&Part>, Vec<&Part>) = parts.iter().partition(is_stick);
    let lists = [sticks, sheets].into_iter().filter(|list| !list.is_empty());
    lists.fold(Page::new(), |page, list| {
        let page = if page.is_empty() { page } else { page.blank() };
        let rows: Vec<_> = list.into_iter().map(fact::<Part>).collect();
        table(page, &rows, manner)
    })
}
