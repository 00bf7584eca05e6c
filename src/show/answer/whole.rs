//! A plan for everything: sticks, boards, sheets, and what nothing in the shop gives.

use super::super::Page;
use super::super::finding::findings;
use super::super::table::Cell;
use super::super::text::{Label, Text};
use super::cautions::cautioned;
use super::plan::{Asked, length, money, plan_pages, unplanned};
use crate::diag::{Diagnostic, line_column};
use crate::measure::Real;
use crate::measure::write::Manner;
use crate::plan::{Block, Boarding, Cut, Rack, Sheeting, WHATS, WantedSheet, Whole};
use crate::session::Planned;
use crate::show::spoken;

/// The page of a plan in a terminal of `width` columns.
pub(super) fn page(planned: &Planned, manner: &Manner, width: usize) -> Page {
    let whole = &planned.whole;
    let mut page = Page::new();
    for found in &planned.found {
        page = page.said(Label::Warn, &left_out(found));
    }
    page = pages(whole, manner, width).fold(page, Page::append);
    let missing = unplanned(whole, Asked::Bench, manner);
    if !missing.is_empty() {
        page = page.heading("Not planned");
        for one in &missing {
            page = page.said(Label::Stop, &spoken(&one.says));
        }
        if let Some(line) = missing.iter().find_map(|one| one.line()) {
            page = page.text(Text::from("  ").and(Label::Hint, "try: ").and(Label::Plain, line));
        }
    }
    page = cautioned(page, &planned.cautions);
    if !planned.stops.is_empty() {
        page = findings(page.blank(), &planned.stops);
    }
    unsaid(page, whole, manner)
}

/// The plan itself, page by page: sticks, boards, sheets.
pub fn pages<'a>(whole: &'a Whole, manner: &'a Manner, width: usize) -> impl Iterator<Item = Page> + use<'a> {
    let sticks = (!whole.sticks.sticks.is_empty()).then(|| plan_pages(&whole.sticks, manner, width));
    let rest = std::iter::once_with(move || sheets(boards(Page::new(), whole, manner), whole, manner));
    sticks.into_iter().flatten().chain(rest)
}

/// What was taken for granted where the shop has recorded no stock.
pub fn unsaid(mut page: Page, whole: &Whole, manner: &Manner) -> Page {
    if !whole.is_said {
        let each = whole.rack.items.first().map(|item| length(&item.length, manner)).unwrap_or_default();
        page = page.blank().said(Label::Note, &format!("no stock recorded; {each} sticks assumed, as many as needed"));
        page = page.text(
            Text::from("  ")
                .and(Label::Hint, "try: ")
                .and(Label::Plain, "stock add stick, 8ft, , 4, 12.50, cherry, 3/4 x 1 1/2"),
        );
    }
    page
}

/// What is wrong with a table of stock, where it stands, and what came of it: `stock.csv, line 3: …`.
fn left_out(found: &Diagnostic) -> String {
    let Some(source) = &found.source else { return spoken(&found.says) };
    let (below, _) = line_column(&source.text, found.span.as_ref().map_or(0, |span| span.start));
    let line = source.line + below - 1;
    // Of a fault in the first line no row is left out.
    let row = if line > 1 { "; the row is left out" } else { "" };
    format!("{}, line {line}: {}{row}", source.name, spoken(&found.says))
}

fn boards(page: Page, whole: &Whole, manner: &Manner) -> Page {
    let boards = &whole.boards;
    if boards.boards.is_empty() {
        return page;
    }
    let cost = |amount: u64| if boards.pricing.is_money() { money(amount, manner) } else { format!("{amount} boards") };
    let head = Text::of(Label::Heading, "boards")
        .and(Label::Plain, "  ")
        .and(Label::Value, format!("{} for {}", boards.boards.len(), cost(boards.cost)));
    let proof = if boards.cost == boards.bound {
        // Thin parts might share a board that is sawn through its thickness, which no plan here does.
        Text::of(Label::Good, "  proven best")
            .and(Label::Plain, ": cutting these boards for less without resawing is impossible")
    } else {
        let above = cost(boards.cost - boards.bound);
        let text = format!(": at most {above} more than the best there can be without resawing");
        Text::of(Label::Warn, "  not proven best").and(Label::Plain, text)
    };
    let feet = boards.feet(&whole.rack.items);
    let used = boards.used();
    let share =
        if feet.is_positive() { (used.clone() * Real::whole(100) / feet.clone()).to_fixed(1) } else { "0".into() };
    let told = format!("  {} board feet bought, {} in parts, {share} %", feet.to_decimal(2), used.to_decimal(2));
    let page =
        page.blank().hanging(head, 2).hanging(proof, 2).hanging(Text::of(Label::Plain, told), 2).heading("Boards");
    boards.boards.iter().enumerate().fold(page, |page, (at, board)| {
        let item = &whole.rack.items[board.item];
        let size = item.width.as_ref().map_or_else(String::new, |width| format!(" x {}", length(width, manner)));
        let head = Text::of(Label::Name, (at + 1).to_string())
            .and(Label::Plain, "  ")
            .and(Label::Value, format!("{}{size}", length(&item.length, manner)))
            .and(Label::Plain, "  ")
            .and(Label::Plain, item.material.words());
        block(page.hanging(head, 2), boards, &board.block, 2, manner)
    })
}

/// What becomes of a block of a board, a line a cut, those within another set in.
fn block(page: Page, boards: &Boarding, whole: &Block, indent: usize, manner: &Manner) -> Page {
    match &whole.cut {
        Cut::Ripped(blocks) => blocks.iter().filter(|block| !matches!(block.cut, Cut::Rest)).fold(page, |page, one| {
            let head =
                Text::from(" ".repeat(indent)).and(Label::Dim, "rip ").and(Label::Value, length(&one.width, manner));
            under(page, head, boards, one, indent, manner)
        }),
        Cut::Crosscut(blocks) if blocks.iter().any(|block| matches!(block.cut, Cut::Ripped(_))) => {
            blocks.iter().filter(|block| !matches!(block.cut, Cut::Rest)).fold(page, |page, one| {
                let head = Text::from(" ".repeat(indent))
                    .and(Label::Dim, "crosscut ")
                    .and(Label::Value, length(&one.length, manner));
                under(page, head, boards, one, indent, manner)
            })
        }
        Cut::Crosscut(_) | Cut::Part(_) | Cut::Offcut(..) | Cut::Rest => {
            let line = listed(Text::from(" ".repeat(indent)), boards, whole, manner);
            page.hanging(line, indent + 2)
        }
    }
}

/// A cut and what comes of it: blanks in the same line, or more cuts under it.
fn under(page: Page, head: Text, boards: &Boarding, one: &Block, indent: usize, manner: &Manner) -> Page {
    let is_cut_again = match &one.cut {
        Cut::Ripped(_) => true,
        Cut::Crosscut(blocks) => blocks.iter().any(|block| matches!(block.cut, Cut::Ripped(_))),
        Cut::Part(_) | Cut::Offcut(..) | Cut::Rest => false,
    };
    if is_cut_again {
        return block(page.hanging(head, indent + 2), boards, one, indent + 2, manner);
    }
    page.hanging(listed(head.and(Label::Plain, ": "), boards, one, manner), indent + 2)
}

/// The blanks of a block in a line, each with its length in the rough, and what is left.
fn listed(mut line: Text, boards: &Boarding, whole: &Block, manner: &Manner) -> Text {
    let mut comma = "";
    for one in whole.each() {
        let (label, name, long) = match &one.cut {
            Cut::Part(part) => (Label::Name, boards.parts[*part].name.as_str(), &one.length),
            Cut::Offcut(_, milled) => (Label::Good, "offcut", milled),
            Cut::Rest | Cut::Ripped(_) | Cut::Crosscut(_) => continue,
        };
        line = line.and(Label::Plain, comma).and(label, name).and(Label::Plain, " ");
        line = line.and(Label::Value, length(long, manner));
        comma = ", ";
    }
    line
}

/// Sheets with what is cut from them, and pieces of which the shop has no sheets.
fn sheets(page: Page, whole: &Whole, manner: &Manner) -> Page {
    let page = whole.sheeting.iter().fold(page, |page, one| sheeting(page, whole, one, manner));
    let planned = |row: usize| whole.sheeting.iter().any(|one| one.rows.contains(&row));
    let missing: Vec<&WantedSheet> =
        whole.sheets.iter().enumerate().filter(|(row, _)| !planned(*row)).map(|(_, sheet)| sheet).collect();
    if missing.is_empty() {
        return page;
    }
    let is_first = page.is_empty() && whole.sticks.sticks.is_empty();
    let page = if is_first { page } else { page.blank() }.text(Text::of(Label::Heading, "Sheets to get"));
    missing.into_iter().fold(page, |page, sheet| {
        let size = format!("{} x {}", length(&sheet.width, manner), length(&sheet.height, manner));
        page.row([
            Cell::of(Label::Name, format!("  {}", sheet.name)),
            Cell::right(Text::of(Label::Value, sheet.quantity.to_string())),
            Cell::right(Text::of(Label::Value, size)),
            Cell::of(Label::Plain, sheet.material.words()).yielding(1),
        ])
    })
}

/// The sheets of one material.
fn sheeting(page: Page, whole: &Whole, one: &Sheeting, manner: &Manner) -> Page {
    let plan = &one.plan;
    let words = one.rows.first().map_or_else(String::new, |row| whole.sheets[*row].material.words());
    let cost = |amount: u64| if one.pricing.is_money() { money(amount, manner) } else { amount.to_string() };
    let head = Text::of(Label::Heading, "sheets")
        .and(Label::Plain, format!("  {words}  "))
        .and(Label::Value, format!("{} for {}", plan.layouts.len(), cost(plan.cost)));
    let proof = if plan.is_proven() {
        Text::of(Label::Good, "  proven best").and(Label::Plain, ": cutting these pieces for less is impossible")
    } else {
        let text = format!(": at most {} more than the best there can be", cost(plan.cost - plan.bound));
        Text::of(Label::Warn, "  not proven best").and(Label::Plain, text)
    };
    let used = (one.used() * Real::whole(100)).to_fixed(1);
    let page = page.blank().hanging(head, 2).hanging(proof, 2);
    let mut page = page.hanging(Text::of(Label::Plain, format!("  pieces {used} %; cuts run from edge to edge")), 2);
    for (at, layout) in plan.layouts.iter().enumerate() {
        let item = &whole.rack.items[one.items[layout.sheet]];
        let wide = item.width.as_ref().map_or_else(String::new, |width| length(width, manner));
        let mut line = Text::of(Label::Name, (at + 1).to_string())
            .and(Label::Plain, "  ")
            .and(Label::Value, format!("{} x {wide}", length(&item.length, manner)))
            .and(Label::Plain, ": ");
        let mut comma = "";
        for (placed, [left, bottom]) in one.placed(at, &whole.sticks.saw) {
            let Some((row, turned)) = placed.piece else { continue };
            let piece = &whole.sheets[one.rows[row]];
            let turned = if turned { " on its side" } else { "" };
            line = line.and(Label::Plain, comma).and(Label::Name, &piece.name).and(Label::Plain, " ");
            line =
                line.and(Label::Value, format!("{} x {}", length(&piece.width, manner), length(&piece.height, manner)));
            line = line.and(Label::Dim, format!("{turned} at {}, {}", length(&left, manner), length(&bottom, manner)));
            comma = "; ";
        }
        page = page.hanging(line, 4);
    }
    for (row, left) in plan.left.iter().enumerate().filter(|(_, left)| **left > 0) {
        let piece = &whole.sheets[one.rows[row]];
        page = page.said(Label::Stop, &format!("{}: {left} do not come out of the sheets there are", piece.name));
    }
    page
}

/// What the shop has.
pub(super) fn stock(rack: &Rack, said: Option<&str>, manner: &Manner) -> Page {
    let mut page = Page::new();
    if let Some(said) = said {
        page = page.text(Text::of(Label::Good, said));
    }
    if rack.items.is_empty() {
        return page.text("no stock recorded").text(
            Text::from("  ")
                .and(Label::Hint, "try: ")
                .and(Label::Plain, "stock add stick, 8ft, , 4, 12.50, cherry, 3/4 x 1 1/2"),
        );
    }
    rack.items.iter().enumerate().fold(page, |page, (at, item)| {
        let what = WHATS.iter().find(|(_, what)| *what == item.what).map_or("", |(word, _)| word);
        let size = item.width.as_ref().map_or_else(String::new, |width| format!(" x {}", length(width, manner)));
        let count = item.count.map_or_else(|| "any".into(), |count| count.to_string());
        let cost = item.cost.map_or_else(String::new, |cost| format!("at {}", money(u64::from(cost), manner)));
        page.row([
            Cell::right(Text::of(Label::Name, (at + 1).to_string())),
            Cell::of(Label::Plain, what),
            Cell::right(Text::of(Label::Value, format!("{count} of"))),
            Cell::right(Text::of(Label::Value, format!("{}{size}", length(&item.length, manner)))),
            Cell::right(Text::of(Label::Value, cost)),
            Cell::of(Label::Plain, item.material.words()).yielding(1),
        ])
    })
}

/// Stock whose lengths have no unit, in both readings.
pub(super) fn bare_stock(rows: &[[Vec<String>; 2]]) -> Page {
    let page =
        Page::new().said(Label::Stop, "lengths in stock have no unit; nothing is planned from it until they have");
    let page = rows.iter().enumerate().fold(page, |page, (at, [inches, millimeters])| {
        let either = |at: usize| match (inches.get(at), millimeters.get(at)) {
            (Some(one), Some(other)) if one == other => one.clone(),
            (Some(one), Some(other)) => format!("{one} or {other}"),
            _ => String::new(),
        };
        let [what, length, width, count, _, wood, section] = std::array::from_fn(either);
        let size = if width.is_empty() { length } else { format!("{length} x {width}") };
        let count = if count.is_empty() { "any".into() } else { count };
        page.row([
            Cell::right(Text::of(Label::Name, (at + 1).to_string())),
            Cell::of(Label::Plain, if what.is_empty() { "stick" } else { &what }),
            Cell::right(Text::of(Label::Value, format!("{count} of"))),
            Cell::of(Label::Value, size),
            Cell::of(Label::Plain, format!("{wood} {section}").trim()).yielding(1),
        ])
    });
    page.text(Text::from("  ").and(Label::Hint, "try: ").and(Label::Plain, "stock unit in"))
}
