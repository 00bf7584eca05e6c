//! Replies as facts: one table for each kind of reply.

mod bench;
mod book;
mod changed;
mod help;
mod shop;

use super::booked::Booked;
use super::reply::{Done, Help, Reply};
use crate::fact::{Fact, Instance, Shape, fact};
use bench::{
    Drawn, Fixings, Hung, Movement, Named, Nothing, OtherPage, OwnFigures, Sheet, Tape, TolerancePage, Valued, Why,
};
use book::{
    BackedUp, Compared, Exported, ImportedFrom, Kept, Labelled, Listed, OpenedDesign, PickedUpBench, Revisions,
    Undoable,
};
use changed::{AimedAt, Cleared, Defined, Fresh, Redone, Scripted, Set, Undone};
use help::Topic;
pub use shop::Planning;
use shop::{BareStock, Cautioned, Checks, CutList, ShopSettings, Stock, Styles, WrittenTo};

/// Every kind of reply of a session.
pub const REPLIES: &[&dyn Shape] = &[
    Nothing::SHAPE,
    Valued::SHAPE,
    Named::SHAPE,
    Set::SHAPE,
    Cleared::SHAPE,
    AimedAt::SHAPE,
    Defined::SHAPE,
    Fresh::SHAPE,
    Undone::SHAPE,
    Redone::SHAPE,
    Scripted::SHAPE,
    Sheet::SHAPE,
    Why::SHAPE,
    Tape::SHAPE,
    Fixings::SHAPE,
    OtherPage::SHAPE,
    Movement::SHAPE,
    Hung::SHAPE,
    TolerancePage::SHAPE,
    OwnFigures::SHAPE,
    Cautioned::SHAPE,
    CutList::SHAPE,
    Planning::SHAPE,
    BareStock::SHAPE,
    Stock::SHAPE,
    WrittenTo::SHAPE,
    Checks::SHAPE,
    Styles::SHAPE,
    ShopSettings::SHAPE,
    Kept::SHAPE,
    OpenedDesign::SHAPE,
    Listed::SHAPE,
    Revisions::SHAPE,
    Compared::SHAPE,
    Undoable::SHAPE,
    Exported::SHAPE,
    ImportedFrom::SHAPE,
    BackedUp::SHAPE,
    Labelled::SHAPE,
    PickedUpBench::SHAPE,
    Topic::SHAPE,
];

impl Reply {
    /// The reply as a fact.
    pub fn fact(&self) -> Box<dyn Instance<'_> + '_> {
        match self {
            Self::Nothing | Self::Quit | Self::Ran => fact::<Nothing>(()),
            Self::Value(value) => fact::<Valued>(value),
            Self::Known { name, answer } => fact::<Named>((name, answer)),
            Self::Changed(changed) => match &changed.done {
                Done::Set { .. } => fact::<Set>(changed),
                Done::Clear(_) => fact::<Cleared>(changed),
                Done::Aimed { .. } => fact::<AimedAt>(changed),
                Done::Figure(_) => fact::<Defined>(changed),
                Done::New => fact::<Fresh>(changed),
                Done::Undo(_) => fact::<Undone>(changed),
                Done::Redo(_) => fact::<Redone>(changed),
                Done::Script => fact::<Scripted>(changed),
            },
            Self::Sheet(design, style) => fact::<Sheet>((design, style.as_deref())),
            Self::Why(design, steps) => fact::<Why>((design, steps)),
            Self::Tape(length) => fact::<Tape>(length),
            Self::Page(design, page) => match page.as_str() {
                "fixings" => fact::<Fixings>(Drawn { design, page }),
                "movement" => fact::<Movement>(Drawn { design, page }),
                _ => fact::<OtherPage>(Drawn { design, page }),
            },
            Self::Hang { designs, places } => fact::<Hung>((designs, places.as_ref())),
            Self::Tolerance(design, about) => fact::<TolerancePage>((design, *about)),
            Self::Figures(design) => fact::<OwnFigures>(design),
            Self::Parts(parts, stops, cautions) => fact::<CutList>((parts, stops, cautions)),
            Self::Cautions(cautions) => fact::<Cautioned>(cautions),
            Self::Plan(planned) => fact::<Planning>(planned),
            Self::BareStock(stock) => fact::<BareStock>(stock),
            Self::Stock { rack, said } => fact::<Stock>((rack, said.as_deref())),
            Self::Written { what, file, stops } => fact::<WrittenTo>((what, file, stops)),
            Self::Checked(checked) => fact::<Checks>(checked),
            Self::Styles(styles) => fact::<Styles>(styles),
            Self::Shop { settings, file, .. } => fact::<ShopSettings>((settings, file.as_deref())),
            Self::Book(booked) => of_booked(booked),
            Self::Help(help) => of_help(help),
        }
    }
}

fn of_booked(booked: &Booked) -> Box<dyn Instance<'_> + '_> {
    match booked {
        Booked::Kept { name, number, written } => fact::<Kept>((name, *number, *written)),
        Booked::Opened(opened) => fact::<OpenedDesign>(opened),
        Booked::List { entries, count, .. } => fact::<Listed>((entries, *count)),
        Booked::Revisions(name, past) => fact::<Revisions>((name, past)),
        Booked::Compared { names, rows } => fact::<Compared>((names, rows)),
        Booked::Done { said, back } => fact::<Undoable>((said, back)),
        Booked::Exported { file, counts } => fact::<Exported>((file, *counts)),
        Booked::Imported(file, imported) => fact::<ImportedFrom>((file, imported)),
        Booked::BackedUp(file) => fact::<BackedUp>(file),
        Booked::Label(label) => fact::<Labelled>(label),
        Booked::PickedUp(picked_up) => fact::<PickedUpBench>(picked_up),
    }
}

fn of_help(help: &Help) -> Box<dyn Instance<'_> + '_> {
    fact::<Topic>(help)
}
