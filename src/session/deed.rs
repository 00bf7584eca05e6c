//! What each form of a word does: the one place where a row of the table meets the session.

use super::command::Deed;
use super::reply::{Faults, Reply};
use super::session::Session;
use crate::word::Args;

impl Session {
    /// Does what a form says, with what the line gives it.
    pub(super) fn deed(&mut self, deed: Deed, args: &Args) -> Result<Reply, Faults> {
        match deed {
            Deed::NewDesign => self.new_design(args),
            Deed::Clear => self.clear(args),
            Deed::Sheet => self.sheet(args),
            Deed::Why => self.why(args),
            Deed::Aim => self.aim(args),
            Deed::Figures => self.figures(args),
            Deed::Figure => self.figure(args),
            Deed::Tape => self.tape(args),
            Deed::Parts => self.parts(args),
            Deed::Plan => self.plan(args),
            Deed::PlanTake => self.plan_take(args),
            Deed::PlanPutBack => self.plan_put_back(args),
            Deed::Stock => self.stock(args),
            Deed::StockAdd => self.stock_add(args),
            Deed::StockDrop => self.stock_drop(args),
            Deed::Fixings => self.fixings(args),
            Deed::Cautions => self.cautions(args),
            Deed::Hang => self.hang(args),
            Deed::Movement => self.movement(args),
            Deed::MovementBetween => self.movement_between(args),
            Deed::Tolerance => self.tolerance(args),
            Deed::StyleCheck => self.style_check(args),
            Deed::Style => self.style(args),
            Deed::Styles => self.styles(args),
            Deed::RunScript => self.run_script(args),
            Deed::Undo => self.undo(args),
            Deed::Redo => self.redo(args),
            Deed::Keep => self.keep(args),
            Deed::Open => self.open(args),
            Deed::Book => self.book(args),
            Deed::BookExport => self.book_export(args),
            Deed::BookImport => self.book_import(args),
            Deed::BookBackup => self.book_backup(args),
            Deed::FindIf => self.find_if(args),
            Deed::Find => self.find(args),
            Deed::Revisions => self.revisions(args),
            Deed::Compare => self.compare(args),
            Deed::Retire => self.retire(args),
            Deed::Restore => self.restore(args),
            Deed::Rename => self.rename(args),
            Deed::Copy => self.copy(args),
            Deed::Label => self.label(args),
            Deed::Shop => self.shop(args),
            Deed::ShopSave => self.shop_save(args),
            Deed::ShopShow => self.shop_show(args),
            Deed::ShopSet => self.shop_set(args),
            Deed::Help => self.help(args),
            Deed::HelpStyle => self.help_style(args),
            Deed::HelpOn => self.help_on(args),
            Deed::Quit => self.quit(args),
        }
    }
}
