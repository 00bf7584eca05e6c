//! What each form of a word does: the one place where a row of the table meets the session.

use super::command::Action;
use super::reply::{Faults, Reply};
use super::session::Session;
use crate::word::Args;

impl Session {
    /// Does what a form says, with what the line gives it.
    pub(super) fn action(&mut self, action: Action, args: &Args) -> Result<Reply, Faults> {
        match action {
            Action::NewDesign => self.new_design(args),
            Action::Clear => self.clear(args),
            Action::Sheet => self.sheet(args),
            Action::SheetPage => self.sheet_page(args),
            Action::Why => self.why(args),
            Action::Aim => self.aim(args),
            Action::Figures => self.figures(args),
            Action::Figure => self.figure(args),
            Action::Tape => self.tape(args),
            Action::Parts => self.parts(args),
            Action::Plan => self.plan(args),
            Action::PlanTake => self.plan_take(args),
            Action::PlanPutBack => self.plan_put_back(args),
            Action::Stock => self.stock(args),
            Action::StockAdd => self.stock_add(args),
            Action::StockDrop => self.stock_drop(args),
            Action::StockUnitIn => self.stock_unit("in"),
            Action::StockUnitMm => self.stock_unit("mm"),
            Action::Fixings => self.fixings(args),
            Action::Cautions => self.cautions(args),
            Action::Hang => self.hang(args),
            Action::Movement => self.movement(args),
            Action::MovementBetween => self.movement_between(args),
            Action::Tolerance => self.tolerance(args),
            Action::StyleCheck => self.style_check(args),
            Action::Style => self.style(args),
            Action::Styles => self.styles(args),
            Action::RunScript => self.run_script(args),
            Action::Undo => self.undo(args),
            Action::Redo => self.redo(args),
            Action::Keep => self.keep(args),
            Action::Open => self.open(args),
            Action::Book => self.book(args),
            Action::BookExport => self.book_export(args),
            Action::BookImport => self.book_import(args),
            Action::BookBackup => self.book_backup(args),
            Action::FindIf => self.find_if(args),
            Action::Find => self.find(args),
            Action::Revisions => self.revisions(args),
            Action::Compare => self.compare(args),
            Action::Retire => self.retire(args),
            Action::Restore => self.restore(args),
            Action::Rename => self.rename(args),
            Action::Copy => self.copy(args),
            Action::Label => self.label(args),
            Action::Shop => self.shop(args),
            Action::ShopSave => self.shop_save(args),
            Action::ShopShow => self.shop_show(args),
            Action::ShopSet => self.shop_set(args),
            Action::Help => self.help(args),
            Action::HelpStyle => self.help_style(args),
            Action::HelpOn => self.help_on(args),
            Action::Quit => self.quit(args),
        }
    }
}
