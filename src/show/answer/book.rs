//! Pages of the design book.

use super::super::finding::findings;
use super::super::table::Cell;
use super::super::text::{Label as Paint, Text};
use super::super::{Page, spoken};
use crate::book::text::{self, Difference};
use crate::book::{Entry, Imported};
use crate::diag::count;
use crate::measure::write::Manner;
use crate::rules::{Answer, BUILD, Design};
use crate::session::Booked;
use crate::session::booked::{Label, Opened, Past, PickedUp, Side};

/// How many remarks of an import are shown.
const REMARKS: usize = 20;

pub(super) fn page(booked: &Booked, manner: &Manner) -> Page {
    match booked {
        Booked::Kept { name, number, written } => {
            let head = Text::of(Paint::Heading, address(name, *number));
            Page::new().text(if *written { head } else { head.and(Paint::Dim, "   is saved already; nothing changed") })
        }
        Booked::Opened(opened) => opened_page(opened),
        Booked::List { entries, count, all, none } => list(entries, *count, *all, none, manner),
        Booked::Revisions(name, past) => revisions(name, past),
        Booked::Compared { names, rows } => compared(names, rows),
        Booked::Done { said, back } => done(said).fixed(Text::of(Paint::Dim, "  to undo: ").and(Paint::Plain, back)),
        Booked::Exported { file, counts } => done(&format!("{} written to {file}", in_all(*counts))),
        Booked::Imported(file, imported) => imported_page(file, imported),
        Booked::BackedUp(file) => done(&format!("copied to {file}")),
        Booked::Label(label) => label_page(label),
        Booked::PickedUp(picked_up) => picked_up_page(picked_up),
    }
}

fn address(name: &str, number: u32) -> String {
    format!("{name}@{number}")
}

fn done(said: &str) -> Page {
    Page::new().text(Text::of(Paint::Good, said))
}

fn in_all((designs, revisions): (usize, usize)) -> String {
    format!("{}, {}", count(designs, "design"), count(revisions, "revision"))
}

fn try_line(page: Page, line: &str) -> Page {
    page.text(Text::from("  ").and(Paint::Hint, "try: ").and(Paint::Plain, line))
}

/// Build, work and outside size, as far as they are known.
fn in_short(design: &Design) -> String {
    let lines = design.lines_of("bench").into_iter().map(|(word, values)| format!("{word} {values}"));
    std::iter::once(design.build_name().to_string()).chain(lines).collect::<Vec<_>>().join(", ")
}

fn opened_page(opened: &Opened) -> Page {
    let design = &opened.design;
    let mut head = Text::of(Paint::Heading, address(&opened.name, opened.number))
        .and(Paint::Dim, format!("   saved {}", opened.when));
    if opened.retired {
        head.push(Paint::Warn, "   retired");
    }
    let mut page = Page::new().text(head);
    if !opened.note.is_empty() {
        page = page.hanging(Text::from("  ").and(Paint::Plain, &opened.note), 2);
    }
    page = page.hanging(Text::from("  ").and(Paint::Plain, in_short(design)), 2);
    for left in &opened.left_out {
        page = page.said(Paint::Warn, &format!("{} {} is left out: {}", left.name, left.value, spoken(&left.why)));
    }
    if let Some(tape) = &opened.tape {
        page = page.said(
            Paint::Note,
            &format!(
                "saved for a tape marked in {tape}; made sizes follow the tape of the bench, {}",
                design.manner().graduation.name
            ),
        );
    }
    if !opened.wall.is_empty() {
        page = page.said(Paint::Note, "saved for another wall; the figures follow the wall as it is now:");
        let differences: Vec<Difference> = opened.wall.iter().map(|(difference, _)| difference.clone()).collect();
        page = changes(page, &differences, &|name, value| text::shown(design, name, value));
        page = opened.wall.iter().fold(page, |page, (_, line)| try_line(page, line));
    }
    if !opened.differences.is_empty() {
        page = page.said(
            Paint::Warn,
            &format!(
                "figures saved by benchrule {} differ in this version, {}:",
                opened.program,
                env!("CARGO_PKG_VERSION")
            ),
        );
        page = changes(page, &opened.differences, &|name, value| text::shown(design, name, value));
    }
    findings(page, &opened.findings)
}

/// Names with their values before and after.
fn changes(page: Page, changes: &[Difference], shown: &dyn Fn(&str, &str) -> String) -> Page {
    changes.iter().fold(page, |page, change| {
        let side = |value: &Option<String>| value.as_ref().map_or("none".into(), |value| shown(&change.name, value));
        page.row([
            Cell::of(Paint::Name, format!("  {}", change.name)),
            Cell::right(Text::of(Paint::Dim, side(&change.was))),
            Cell::flowing(Text::of(Paint::Dim, "→ ").and(Paint::Value, side(&change.is))),
        ])
    })
}

fn list(entries: &[Entry], count: usize, all: Option<&str>, none: &(&str, &str), manner: &Manner) -> Page {
    if entries.is_empty() {
        return try_line(Page::new().text(none.0), none.1);
    }
    let rules = crate::rules::shipped();
    let sizes: Vec<Vec<&str>> = rules.lines_of("book").map(|(_, names)| names).collect();
    let page = entries.iter().fold(Page::new(), |page, entry| page.row(row(entry, &sizes, manner)));
    let Some(more) = count.checked_sub(entries.len()).filter(|more| *more > 0) else {
        return page;
    };
    match all {
        Some(all) => try_line(page.text(Text::of(Paint::Dim, format!("  and {more} more"))), all),
        None => page.text(Text::of(Paint::Dim, format!("  and {more} more; add words to find fewer"))),
    }
}

fn row(entry: &Entry, sizes: &[Vec<&str>], manner: &Manner) -> [Cell; 4] {
    let value = |name: &&str| text::value(&entry.fields, name).map(|value| shown(name, value, manner));
    let size = |names: &Vec<&str>| names.iter().filter_map(value).collect::<Vec<_>>().join(" x ");
    let size = sizes.iter().map(size).find(|size| !size.is_empty()).unwrap_or_default();
    let build = text::value(&entry.fields, BUILD).unwrap_or_default();
    let mut said = Text::of(Paint::Plain, format!("{build} {size}").trim());
    for (word, text) in [("for ", text::words(&entry.fields, "client")), ("", entry.note.clone())] {
        if !text.is_empty() {
            said.push(Paint::Dim, &format!("  {word}{}", first_line(&text)));
        }
    }
    let day = entry.when.split(' ').next().unwrap_or_default();
    [
        Cell::of(Paint::Name, &entry.name),
        Cell::right(Text::of(Paint::Dim, format!("@{}", entry.number))),
        Cell::of(Paint::Dim, day).yielding(2),
        Cell::flowing(said).yielding(1),
    ]
}

/// A saved value as the bench shows it.
fn shown(name: &str, value: &str, manner: &Manner) -> String {
    let design = Design::new(crate::rules::shipped(), manner.clone());
    text::shown(&design, name, value)
}

/// The beginning of a long text, for a list.
fn first_line(text: &str) -> String {
    const MOST: usize = 72;
    let line = text.lines().next().unwrap_or_default();
    if line.chars().count() > MOST || text.lines().count() > 1 {
        return format!("{}…", line.chars().take(MOST).collect::<String>());
    }
    line.into()
}

fn revisions(name: &str, past: &[Past]) -> Page {
    past.iter().fold(Page::new(), |page, one| {
        let mut head = Text::of(Paint::Heading, address(name, one.number)).and(Paint::Dim, format!("   {}", one.when));
        if let Some((style, _)) = &one.style {
            head.push(Paint::Dim, &format!("   by the style {style}"));
        }
        let mut page = page.text(head);
        if !one.note.is_empty() {
            page = page.hanging(Text::from("  ").and(Paint::Plain, &one.note), 2);
        }
        if one.figures > 0 {
            let said = format!("  no field changed; {} changed by the rules or the tape", count(one.figures, "figure"));
            page = page.text(Text::of(Paint::Dim, said));
        }
        changes(page, &one.changes, &|_, value| value.into())
    })
}

fn compared(names: &[String; 2], rows: &[Side]) -> Page {
    let head = [
        Cell::of(Paint::Plain, ""),
        Cell::of(Paint::Plain, ""),
        Cell::right(Text::of(Paint::Heading, &names[0])),
        Cell::right(Text::of(Paint::Heading, &names[1])),
    ];
    // On pages of their own only differences are shown: the rest would fill screens.
    let book = crate::rules::shipped();
    let paged = |name: &str| {
        let group = book.slot(name).and_then(|slot| book.group(slot));
        group.is_some_and(|group| group.page.is_some())
    };
    let shown: Vec<&Side> = rows.iter().filter(|row| row.differs || !paged(&row.name)).collect();
    let alike = rows.len() - shown.len();
    let page = shown.into_iter().fold(Page::new().row(head), |page, row| {
        let paint = if row.differs { Paint::Value } else { Paint::Dim };
        let side =
            |value: &Option<String>| Cell::right(Text::of(paint, value.as_deref().map_or("-".into(), first_line)));
        page.row([
            // Without color the sign alone marks a difference.
            Cell::of(Paint::Mark, if row.differs { "≠" } else { "" }),
            Cell::of(Paint::Name, &row.name),
            side(&row.values[0]),
            side(&row.values[1]),
        ])
    });
    match alike {
        0 => page,
        alike => page.text(Text::of(Paint::Dim, format!("{alike} more of fixings, hanging and wood are alike"))),
    }
}

fn imported_page(file: &str, imported: &Imported) -> Page {
    let verb = if imported.designs == 1 { "is" } else { "are" };
    let (revisions, designs) = (count(imported.revisions, "revision"), count(imported.designs, "design"));
    let said = format!("{revisions} imported from {file}; {designs} {verb} new");
    let page = imported
        .remarks
        .iter()
        .take(REMARKS)
        .fold(done(&said), |page, remark| page.hanging(Text::of(Paint::Dim, format!("  {remark}")), 4));
    match imported.remarks.len().checked_sub(REMARKS) {
        Some(more) if more > 0 => page.text(Text::of(Paint::Dim, format!("  and {more} more remarks"))),
        _ => page,
    }
}

fn label_page(label: &Label) -> Page {
    let page = Page::new().text(Text::of(Paint::Heading, &label.head));
    let page = label
        .rows
        .iter()
        .fold(page, |page, (word, value)| page.row([Cell::of(Paint::Plain, word), Cell::of(Paint::Value, value)]));
    page.row([Cell::of(Paint::Plain, "date"), Cell::of(Paint::Value, &label.date)])
}

fn picked_up_page(picked_up: &PickedUp) -> Page {
    let name = match picked_up.design.answer("name") {
        Ok(Answer::Text(name)) => format!("{name}, "),
        _ => String::new(),
    };
    let said = format!("picked up the bench of {}: {name}{}", picked_up.when, in_short(&picked_up.design));
    let steps = count(picked_up.steps, "step");
    Page::new().hanging(Text::of(Paint::Good, said).and(Paint::Dim, format!("; {steps} to undo, `new` clears it")), 2)
}
