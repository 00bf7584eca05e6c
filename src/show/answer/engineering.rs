//! The pages fixings, hang, movement and tolerance. Each shows its headings of the rules, the reasons for choices, its
//! checks and its cautions.

use super::super::Page;
use super::super::finding::findings;
use super::super::table::Cell;
use super::super::text::{Label, Text};
use super::cautions::cautioned;
use super::sheet::{Stands, lines, row};
use super::value::shown;
use crate::diag::Fault;
use crate::measure::write::{Manner, ROUGHLY};
use crate::measure::{Kind, Quantity, Real};
use crate::rules::book::Group;
use crate::rules::{Datum, Design, Slot, Tolerance};
use crate::shop::{Places, cautions, cautions_of_all, parts};
use crate::show::spoken;

/// The page of this name.
pub(super) fn page(design: &Design, name: &str) -> Page {
    let page = headings(Page::new(), design, name);
    let page = findings(page, &design.findings_of(name));
    if page.is_empty() {
        return page.said(Label::Note, "nothing to show yet; set the work first, as in: art 16\" x 20\" x 3/4\"");
    }
    cautioned(page, &cautions(design, &parts(design), name))
}

/// How a design hangs and its place on the wall; of several designs only the places.
pub(super) fn hang(designs: &[Design], places: Option<&Places>, manner: &Manner) -> Page {
    let alone = if let [design] = designs { Some(design) } else { None };
    let Some(places) = places else {
        return alone.map_or_else(Page::new, |design| page(design, "hang"));
    };
    let short = |quantity: &Quantity| manner.short(quantity);
    let head = ["on the wall", "left", "right", "top", "nail from left", "nail from floor"];
    let mut table = alone
        .map_or_else(Page::new, |design| headings(Page::new(), design, "hang"))
        .heading("Places")
        .row(head.map(|word| Cell::right(Text::of(Label::Dim, word))));
    for place in &places.pieces {
        for (at, [across, up]) in place.hooks.iter().enumerate() {
            let first = at == 0;
            let edge = |quantity: &Quantity| if first { short(quantity) } else { String::new() };
            let name = if first { place.name.clone() } else { String::new() };
            table = table.row([
                Cell::of(Label::Name, format!("  {name}")),
                Cell::right(Text::of(Label::Value, edge(&place.left))),
                Cell::right(Text::of(Label::Value, edge(&place.right))).yielding(2),
                Cell::right(Text::of(Label::Value, edge(&place.top))).yielding(1),
                Cell::right(Text::of(Label::Value, short(across))),
                Cell::right(Text::of(Label::Value, short(up))),
            ]);
        }
    }
    let gaps = format!(
        "  {} between pieces, {} at each end; measured from the left corner and the floor",
        short(&places.gap),
        short(&places.end)
    );
    let found = alone.map(|design| design.findings_of("hang")).unwrap_or_default();
    let page = findings(table.text(Text::of(Label::Dim, gaps)), &found);
    cautioned(page, &cautions_of_all(designs.iter(), "hang"))
}

fn headings(mut page: Page, design: &Design, name: &str) -> Page {
    let book = design.book();
    let stands = Stands::of(design);
    for (place, group) in book.groups.iter().enumerate().filter(|(_, group)| group.page.as_deref() == Some(name)) {
        let slots = || {
            let order = book.builds[usize::from(design.build())].order.iter().copied();
            order.filter(move |slot| usize::from(book.name(*slot).group) == place)
        };
        // Results come first, with their reasons; details that a sheet leaves out come after.
        let rows: Vec<[Cell; 4]> = slots().filter_map(|slot| row(design, slot, &stands, false)).collect();
        let aside = slots().filter(|slot| row(design, *slot, &stands, false).is_none());
        let aside: Vec<[Cell; 4]> = aside.filter_map(|slot| row(design, slot, &stands, true)).collect();
        let reasons = design.reasons(slots());
        if rows.is_empty() && aside.is_empty() && reasons.is_empty() {
            continue;
        }
        let (rows, aside) = if rows.is_empty() { (aside, rows) } else { (rows, aside) };
        page = rows.into_iter().fold(page.heading(&*group.name), Page::row);
        page = lines(page, design, slots(), true);
        for reason in reasons {
            page = page.hanging(Text::of(Label::Dim, format!("  {reason}")), 4);
        }
        if !aside.is_empty() {
            page = page.heading(format!("{}, in detail", group.name));
        }
        page = aside.into_iter().fold(page, Page::row);
    }
    page
}

/// Tolerances: of one size with the share of each cause, or of all sizes with the effect of saw errors.
pub(super) fn tolerance(design: &Design, about: Option<Slot>) -> Page {
    match about {
        Some(slot) => match design.tolerance(slot) {
            Ok(tolerance) => one(design, slot, &tolerance),
            Err(why) => Page::new().said(Label::Note, &spoken(&design.refusal(slot, why).says())),
        },
        None => all(design),
    }
}

pub(super) fn amount(design: &Design, slot: Slot, value: &Real) -> String {
    match design.kind(slot) {
        Kind::LENGTH => design.manner().fine(value),
        Kind::MASS if !value.is_exact_zero() && *value < Real::ratio(1, 320) => {
            if design.manner().graduation.metric { "under 2 g" } else { "under 0.1 oz" }.into()
        }
        kind => {
            let text = design.manner().short(&Quantity::new(value.clone(), kind));
            // A tolerance is approximate by nature.
            text.trim_start_matches(ROUGHLY).into()
        }
    }
}

fn one(design: &Design, slot: Slot, tolerance: &Tolerance) -> Page {
    let name = &design.book().name(slot).text;
    let value = design.shown(slot).unwrap_or_default();
    let page = Page::new().text(Text::of(Label::Name, name).and(Label::Plain, "  ").and(Label::Value, value));
    if tolerance.shares.is_empty() {
        return page.text(Text::of(Label::Dim, "  depends on nothing measured or cut, so it has no tolerance"));
    }
    let page = page
        .row([
            Cell::of(Label::Name, "  at worst"),
            Cell::right(Text::of(Label::Value, format!("± {}", amount(design, slot, &tolerance.worst)))),
        ])
        .row([
            Cell::of(Label::Name, "  likely"),
            Cell::right(Text::of(Label::Value, format!("± {}", amount(design, slot, &tolerance.likely)))),
        ])
        .heading("Shares");
    // Causes of less than a thousandth are left out.
    let least = tolerance.worst.clone() / Real::whole(1000);
    tolerance.shares.iter().filter(|(_, share)| *share >= least).fold(page, |page, (source, share)| {
        page.row([
            Cell::of(Label::Name, format!("  {}", design.book().name(*source).text)),
            Cell::right(Text::of(Label::Value, amount(design, slot, share))),
            Cell::of(Label::Dim, design.means(*source).unwrap_or_default()),
        ])
    })
}

fn all(design: &Design) -> Page {
    let book = design.book();
    let mut page = Page::new();
    let stands = Stands::of(design);
    for (place, group) in book.groups.iter().enumerate().filter(|(_, group)| listed(group)) {
        let order = book.builds[usize::from(design.build())].order.iter();
        let slots = order.filter(|slot| usize::from(book.name(**slot).group) == place);
        let rows: Vec<[Cell; 4]> = slots
            .filter(|slot| design.rule(**slot).is_some_and(|rule| rule.gather.is_none() && !rule.aside))
            .filter(|slot| !stands.elsewhere(**slot) && !book.name(**slot).is_of_the_shop())
            .filter_map(|slot| tolerance_row(design, *slot))
            .collect();
        if !rows.is_empty() {
            page = rows.into_iter().fold(page.heading(&*group.name), Page::row);
        }
    }
    let page = headings(page, design, "tolerance");
    let page = findings(page, &design.findings_of("tolerance"));
    if page.is_empty() {
        return page.said(Label::Note, "nothing to show yet; set the work first, as in: art 16\" x 20\" x 3/4\"");
    }
    page
}

/// Whether the sizes under a heading are made or measured; the page shows its own headings whole.
fn listed(group: &Group) -> bool {
    group.page.as_deref() != Some("tolerance")
}

fn tolerance_row(design: &Design, slot: Slot) -> Option<[Cell; 4]> {
    let known = design.known(slot).ok()?;
    let Datum::Amount(_) = &known.drawn else { return None };
    let tolerance = design.tolerance(slot).ok().filter(|tolerance| !tolerance.shares.is_empty())?;
    Some([
        Cell::of(Label::Name, format!("  {}", design.book().name(slot).text)),
        Cell::right(Text::of(Label::Value, shown(design, slot, &known).value)),
        Cell::right(Text::of(Label::Value, format!("± {}", amount(design, slot, &tolerance.worst)))),
        Cell::right(Text::of(Label::Dim, format!("likely {}", amount(design, slot, &tolerance.likely)))).yielding(1),
    ])
}
