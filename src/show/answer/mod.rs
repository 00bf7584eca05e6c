//! Replies as pages.

mod book;
mod cautions;
mod changed;
mod engineering;
mod help;
mod lists;
mod parts;
mod plan;
mod sheet;
mod stock;
mod value;
mod why;

use self::value::{of_answer, of_value};
use super::finding::findings;
use super::text::{Label, Text};
use super::{Page, tape};
use crate::measure::write::Manner;
use crate::rules::Design;
use crate::session::{Paper, Planned, Reply};

pub use cautions::cautioned;
pub use plan::{Asked, assumed, pages as plan_pages, unplanned};
pub use sheet::sheet;
pub use value::text_of;

/// The page of a reply, for a terminal of `width` columns.
///
/// A page is laid out when it is rendered; only the drawing of a tape needs the width before.
pub fn page(reply: &Reply, manner: &Manner, width: usize) -> Page {
    match reply {
        Reply::Nothing | Reply::Quit | Reply::Ran => Page::new(),
        Reply::Value(value) => of_value(value, manner),
        Reply::Known { answer, .. } => Page::new().text(of_answer(answer, manner)),
        Reply::Changed(changed) => changed::page(changed),
        Reply::Sheet(design, style) => sheet(design, style.as_deref()),
        Reply::Why(design, steps) => why::page(design, steps),
        Reply::Tape(length) => tape::tape(length, manner, width).unwrap_or_default(),
        Reply::Cautions(cautions) => cautions::page(cautions),
        Reply::Page(design, name) => engineering::page(design, name),
        Reply::Hang { designs, places } => engineering::hang(designs, places.as_ref(), manner),
        Reply::Tolerance(design, about) => engineering::tolerance(design, *about),
        Reply::Parts(parts, stops, cautions) => findings(cautioned(parts::parts(parts, manner), cautions), stops),
        Reply::Plan(planned) => plan::page(planned, manner, width),
        Reply::BareStock(stock) => stock::bare_stock(stock, manner),
        Reply::Stock { rack, said } => stock::stock(rack, said.as_deref(), manner),
        Reply::Written { what, file, stops } => {
            findings(Page::new().text(Text::of(Label::Good, format!("{what} written to {file}"))), stops)
        }
        Reply::Figures(design) => lists::figures(design),
        Reply::Checked(checked) => lists::checked(checked),
        Reply::Styles(styles) => lists::styles(styles),
        Reply::Shop { settings, shown, file } => lists::shop(settings, shown, file.as_deref()),
        Reply::Book(booked) => book::page(booked, manner),
        Reply::Help(help) => help::page(help, manner),
    }
}

/// Lays out the pages that scripts print, without color.
#[derive(Clone, Copy, Debug)]
pub struct Press {
    /// The number of columns.
    pub width: usize,
}

impl Press {
    fn print(self, page: &Page) -> String {
        page.render(self.width, false).trim_end().to_string()
    }
}

impl Paper for Press {
    fn sheet(&self, design: &Design) -> String {
        self.print(&sheet(design, None))
    }

    fn plan(&self, planned: &Planned, manner: &Manner) -> String {
        self.print(&page(&Reply::Plan(Box::new(planned.clone())), manner, self.width))
    }
}
