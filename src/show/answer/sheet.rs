//! The whole design on one page.

use super::super::Page;
use super::super::finding::findings;
use super::super::table::Cell;
use super::super::text::{Label, Text};
use super::cautions::cautioned_in_full;
use super::parts::parts as parts_page;
use super::value::{in_short, shown, size_otherwise};
use crate::rules::book::Rule;
use crate::rules::{Answer, Design, Level, Slot, Type, Way};
use crate::shop::caution::SHEET;
use crate::shop::{cautions, parts};

/// The sheet of a design, with the name of the style that has just framed it.
pub fn sheet(design: &Design, style: Option<&str>) -> Page {
    let (stops, others): (Vec<_>, Vec<_>) =
        design.findings().into_iter().partition(|finding| finding.level == Level::Stop);
    // Stops come first, before anyone cuts by the sizes below.
    let mut page = findings(title(design, style), &stops);
    let book = design.book();
    let stands = Stands::of(design);
    for (place, group) in book.groups.iter().enumerate() {
        let order = &book.builds[usize::from(design.build())].order;
        let here = |slot: &Slot| {
            let name = book.name(*slot);
            usize::from(name.group) == place && !name.is_of_the_shop()
        };
        let slots = || order.iter().copied().filter(here);
        let rows: Vec<[Cell; 4]> = slots().filter_map(|slot| row(design, slot, &stands, false)).collect();
        if !rows.is_empty() {
            page = rows.into_iter().fold(page.heading(&*group.name), Page::row);
            page = lines(page, design, slots(), false);
        }
    }
    page = missing(page, design);
    let parts = parts(design);
    if !parts.is_empty() {
        page = page.heading("Parts").append(parts_page(&parts, design.manner()));
    }
    if !others.is_empty() {
        page = findings(page.heading("Checks"), &others);
    }
    cautioned_in_full(page, &cautions(design, &parts, SHEET))
}

/// The line at the top: name, build, client, style.
fn title(design: &Design, style: Option<&str>) -> Page {
    let word = |name: &str| match design.answer(name) {
        Ok(Answer::Text(text)) => Some(text.to_string()),
        _ => None,
    };
    let mut text = Text::of(Label::Heading, word("name").unwrap_or_else(|| format!("{} frame", design.build_name())));
    if word("name").is_some() {
        text.push(Label::Plain, &format!(", {} frame", design.build_name()));
    }
    if let Some(client) = word("client") {
        text.push(Label::Plain, &format!(", for {client}"));
    }
    if let Some(style) = style {
        text.push(Label::Dim, &format!(", by the style {style}"));
    }
    let page = Page::new().text(text);
    match word("note") {
        Some(note) => page.text(Text::of(Label::Plain, note)),
        None => page,
    }
}

/// A row of the sheet, unless the name does not apply or another row shows it; `whole` adds names that sheets leave out.
pub(super) fn row(design: &Design, slot: Slot, stands: &Stands, whole: bool) -> Option<[Cell; 4]> {
    let book = design.book();
    let name = book.name(slot);
    let gathers = design.rule(slot).is_some_and(|rule| rule.gather.is_some());
    if matches!(name.of, Type::Text | Type::Record(_)) || is_list(design, slot) && !gathers || stands.elsewhere(slot) {
        return None;
    }
    let rule = design.rule(slot)?;
    if let Some(way) = rule.gather {
        return gathered(design, slot, way);
    }
    let known = design.known(slot).ok()?;
    let shown = shown(design, slot, &known);
    let is_given = rule.given && design.given(slot).is_some();
    if rule.aside && !is_given && !whole {
        return None;
    }
    let mut remark = match (&shown.drawn, is_given) {
        (Some(drawn), _) => format!("drawn {drawn}"),
        (None, true) => "given".into(),
        (None, false) => String::new(),
    };
    let twins = stands.others(slot);
    if !twins.is_empty() {
        let and = if remark.is_empty() { "" } else { ", " };
        remark = format!("{remark}{and}{} too", twins.join(", "));
    }
    let label = if is_given { Label::Given } else { Label::Dim };
    Some([
        Cell::of(Label::Name, format!("  {}", name.text)),
        Cell::right(Text::of(Label::Value, shown.value)),
        Cell::right(Text::of(Label::Other, shown.other)).yielding(1),
        Cell::of(label, remark).yielding(2),
    ])
}

fn is_list(design: &Design, slot: Slot) -> bool {
    matches!(design.book().name(slot).of, Type::List(_))
}

/// Lists under a heading, as made, each on its own lines.
pub(super) fn lines(page: Page, design: &Design, slots: impl Iterator<Item = Slot>, whole: bool) -> Page {
    slots.filter(|slot| is_list(design, *slot)).fold(page, |page, slot| {
        let rule = design.rule(slot).filter(|rule| rule.gather.is_none() && (whole || !rule.aside));
        let (Some(_), Some(value)) = (rule, design.shown(slot)) else { return page };
        let name = &design.book().name(slot).text;
        page.hanging(Text::of(Label::Name, format!("  {name}  ")).and(Label::Value, value), 4)
    })
}

/// A gathered name whose parts agree, or that is shown as a size or a word with a value.
fn gathered(design: &Design, slot: Slot, way: Way) -> Option<[Cell; 4]> {
    let name = &design.book().name(slot).text;
    let reads = &design.rule(slot)?.reads;
    let is_given = reads.iter().any(|part| design.given(*part).is_some());
    let (value, other) = match way {
        Way::Around => {
            let known = design.known(slot).ok()?;
            let shown = shown(design, slot, &known);
            (shown.value, shown.other)
        }
        Way::Size => {
            let answer = design.answer(name).ok()?;
            let Answer::Size(extents) = &answer else { return None };
            (in_short(&answer, design.manner()), size_otherwise(extents, design.manner()))
        }
        Way::With | Way::Row => {
            let texts: Vec<String> = reads.iter().filter_map(|part| design.shown(*part)).collect();
            if texts.is_empty() {
                return None;
            }
            (texts.join(if way == Way::Row { ", " } else { " " }), String::new())
        }
    };
    let (label, remark) = if is_given { (Label::Given, "given") } else { (Label::Dim, "") };
    Some([
        Cell::of(Label::Name, format!("  {name}")),
        Cell::right(Text::of(Label::Value, value)),
        Cell::right(Text::of(Label::Other, other)).yielding(1),
        Cell::of(label, remark).yielding(2),
    ])
}

/// The names that one row of the sheet shows together.
pub(super) struct Stands<'a> {
    /// Names that a gathered name shows.
    gathered: Vec<Slot>,
    /// Names of one rule with one value, the first of them shown.
    twins: Vec<Vec<Slot>>,
    design: &'a Design,
}

impl<'a> Stands<'a> {
    pub(super) fn of(design: &'a Design) -> Self {
        let book = design.book();
        let mut gathered = Vec::new();
        let mut twins: Vec<(*const Rule, Vec<Slot>)> = Vec::new();
        for slot in &book.builds[usize::from(design.build())].order {
            let Some(rule) = design.rule(*slot) else { continue };
            let shows = match rule.gather {
                Some(Way::Around) => design.known(*slot).is_ok(),
                Some(Way::Size | Way::With | Way::Row) => design.answer(&book.name(*slot).text).is_ok(),
                None => false,
            };
            if shows {
                gathered.extend(&rule.reads);
            }
            let alike = |group: &&mut (*const Rule, Vec<Slot>)| {
                std::ptr::eq(group.0, rule) && group.1.first().is_some_and(|first| is_alike(design, *first, *slot))
            };
            match twins.iter_mut().rev().find(alike) {
                Some((_, group)) => group.push(*slot),
                None => twins.push((rule, vec![*slot])),
            }
        }
        let twins = twins.into_iter().map(|(_, group)| group).filter(|group| group.len() > 1).collect();
        Self { gathered, twins, design }
    }

    /// Whether another row shows the name.
    pub(super) fn elsewhere(&self, slot: Slot) -> bool {
        self.gathered.contains(&slot) || self.twins.iter().any(|group| group[1..].contains(&slot))
    }

    /// The other names of the row.
    fn others(&self, slot: Slot) -> Vec<&'a str> {
        let group = self.twins.iter().find(|group| group.first() == Some(&slot));
        group
            .into_iter()
            .flat_map(|group| &group[1..])
            .map(|slot| self.design.book().name(*slot).text.as_str())
            .collect()
    }
}

/// Whether two names of one rule have one value, given or not alike.
fn is_alike(design: &Design, one: Slot, other: Slot) -> bool {
    design.given(one).is_some() == design.given(other).is_some()
        && matches!((design.known(one), design.known(other)), (Ok(one), Ok(other)) if one.same(&other))
}

/// The fields still to set, and a line that sets one.
fn missing(page: Page, design: &Design) -> Page {
    let book = design.book();
    let fields = design.missing();
    if fields.is_empty() {
        return page;
    }
    let names: Vec<&str> = fields.iter().map(|slot| book.name(*slot).text.as_str()).collect();
    let page = page.heading("Still to set").text(format!("  {}", names.join(", ")));
    match fields.first() {
        Some(first) => page.text(Text::from("  ").and(Label::Hint, "try: ").and(Label::Plain, design.example(*first))),
        None => page,
    }
}
