//! The end of a run: tables and plan in its folder, and the summary.

use std::io;

use super::folder::Folder;
use super::{Count, Task, refuse};
use crate::batch::facts::Ended;
use crate::batch::{COLUMNS, Tables};
use crate::diag::{Diagnostic, count};
use crate::drive::Driver;
use crate::fact::fact;
use crate::measure::write::Manner;
use crate::plan::{buy_csv, plan_csv};
use crate::session::{Planned, Reply};
use crate::shop::Caution;
use crate::show::{Label, Page, answer, json};

impl Task<'_> {
    /// Writes the tables of the run and the summary.
    pub(super) fn end(
        &self,
        count: Count,
        tables: &Tables,
        planned: Option<Result<Planned, Diagnostic>>,
        (folder, notes): (Option<Folder>, &[String]),
        driver: &mut Driver,
    ) -> io::Result<()> {
        let manner = self.shop.settings.manner();
        let planned = match planned.transpose() {
            Ok(planned) => planned,
            Err(found) => {
                driver.no_plan(&[found])?;
                None
            }
        };
        if planned.as_ref().is_some_and(|planned| planned.whole.lacking().next().is_some()) {
            driver.fail();
        }
        let is_out = folder.is_some();
        let mut left = Vec::new();
        if let Some(folder) = folder {
            match self.files(tables, planned.as_ref(), folder, &manner) {
                Ok(unowned) => left = unowned,
                Err(found) => return refuse(driver, &[self.with_resume(found)]),
            }
        }
        let ended = self.ended(count, tables, left, notes);
        let reply = planned.map(|planned| Reply::Plan(Box::new(planned)));
        if driver.manners().json {
            json::write(driver.answers(), &*fact::<Ended>(&ended), &[], &manner)?;
            return match reply {
                Some(reply) => json::write(driver.answers(), &*reply.fact(), &[], &manner),
                None => Ok(()),
            };
        }
        if !is_out {
            driver.page(&tables.page().blank())?;
        }
        driver.page(&closing(&ended, &manner))?;
        match reply.filter(|_| !is_out) {
            Some(reply) => {
                driver.page(&Page::new().blank().append(answer::page(&reply, &manner, driver.manners().width)))
            }
            None => Ok(()),
        }
    }

    /// The summary of the run.
    fn ended(&self, count: Count, tables: &Tables, left: Vec<String>, notes: &[String]) -> Ended {
        let (weight, unweighed) = tables.weight();
        Ended {
            rows: count.all,
            before: count.before,
            stopped: count.stopped,
            failed: count.failed,
            weight,
            unweighed,
            notes: notes.to_vec(),
            folder: self.asked.out.as_ref().map(|out| out.display().to_string()),
            left,
        }
    }

    /// Writes the tables of the run, and gives the files of the folder that belong to no row.
    fn files(
        &self,
        tables: &Tables,
        planned: Option<&Planned>,
        folder: Folder,
        manner: &Manner,
    ) -> Result<Vec<String>, Diagnostic> {
        folder.table("summary.csv", &tables.summary_csv())?;
        let remarks = tables.remarks();
        folder.table("parts.csv", &(tables.parts_csv() + remarks.as_str()))?;
        folder.table("weights.csv", &(tables.weights_csv() + remarks.as_str()))?;
        if let Some(planned) = planned {
            let cautions = planned.cautions.iter().cloned().map(Caution::in_full).collect();
            let in_full = Reply::Plan(Box::new(Planned { cautions, ..planned.clone() }));
            folder.table("plan.txt", &answer::page(&in_full, manner, COLUMNS).render(COLUMNS, false))?;
            let reply = Reply::Plan(Box::new(planned.clone()));
            folder.table("plan.json", &json::line(&*reply.fact(), manner))?;
            folder.table("plan.csv", &plan_csv(&planned.whole, manner))?;
            folder.table("buy.csv", &(buy_csv(&planned.whole, manner) + remarks.as_str()))?;
        }
        folder.end(&self.shop.settings)
    }
}

/// The summary of the run in words.
fn closing(ended: &Ended, manner: &Manner) -> Page {
    let mut text = count(ended.rows, "row");
    let parts =
        [(ended.before, "done before"), (ended.stopped, "that cannot be made as they are"), (ended.failed, "failed")];
    for (number, what) in parts.iter().filter(|(number, _)| *number > 0) {
        text += &format!(", {number} {what}");
    }
    let least = if ended.unweighed.is_empty() { "" } else { "at least " };
    text += &format!("; {least}{} in all", manner.short(&ended.weight));
    let mut page = ended.notes.iter().fold(Page::new().text(text), |page, note| page.said(Label::Note, note));
    if let Some(first) = ended.unweighed.first() {
        let named = named(first, ended.unweighed.len());
        page = page.said(Label::Warn, &format!("the weight leaves out objects that have none given: {named}"));
    }
    if let Some(folder) = &ended.folder {
        page = page.said(Label::Good, &format!("written to {folder}"));
    }
    if let Some(first) = ended.left.first() {
        let named = named(first, ended.left.len());
        page = page.said(Label::Warn, &format!("left over from an earlier run, for no row of this one: {named}"));
    }
    page
}

/// The first of several names, and how many more there are.
fn named(first: &str, count: usize) -> String {
    if count > 1 { format!("{first} and {} more", count - 1) } else { first.into() }
}
