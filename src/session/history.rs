//! The revisions of a design, and two designs side by side.

use super::booked::{Booked, Past, Side};
use super::reply::{Faults, Reply};
use super::session::Session;
use super::stored::revision;
use crate::book::Revision;
use crate::book::text::{self, Difference};
use crate::rules::{BUILD, Design, Role, Way};
use crate::word::{Args, Kind};

impl Session {
    pub(super) fn revisions(&mut self, args: &Args) -> Result<Reply, Faults> {
        let Some(given) = args.one(Kind::Design) else { return Ok(Reply::Nothing) };
        let all = self.shelf.look(|book| book.revisions(given.text()));
        let all = all.map_err(|fault| self.refused(fault, given, args))?;
        let design = self.design();
        let mut past = Vec::new();
        let mut before: Option<&Revision> = None;
        for one in &all {
            let changes = before.map_or_else(Vec::new, |before| changes(&design, before, one));
            // Figures follow from fields; where no field changed, the rules or the tape did.
            let alone = before.filter(|_| changes.is_empty());
            let figures = alone.map_or(0, |before| text::differences(&before.draft.figures, &one.draft.figures).len());
            let style = one.draft.style.clone().map(|mark| (mark.name, mark.version));
            let (when, note) = (one.when.clone(), one.note.clone());
            past.push(Past { number: one.number, when, note, style, changes, figures });
            before = Some(one);
        }
        Ok(Reply::Book(Box::new(Booked::Revisions(given.text().into(), past))))
    }

    pub(super) fn compare(&mut self, args: &Args) -> Result<Reply, Faults> {
        let mut both = Vec::new();
        for given in args.all(Kind::Revision) {
            let read = revision(&self.shelf, given.text());
            both.push(read.map_err(|fault| self.refused(fault, given, args))?);
        }
        let Ok(both) = <[Revision; 2]>::try_from(both) else { return Ok(Reply::Nothing) };
        let texts = both.each_ref().map(|one| format!("{}{}", one.draft.fields, one.draft.figures));
        let design = self.design();
        let differing = text::differences(&texts[0], &texts[1]);
        // In the order of the sheet; names that the rules no longer have come last.
        let book = design.book();
        let build = text::value(&texts[0], BUILD).and_then(|build| book.build(build)).unwrap_or_default();
        let order = &book.builds[usize::from(build)].order;
        let mut names: Vec<&str> = order.iter().map(|slot| book.name(*slot).text.as_str()).collect();
        for (name, _) in texts.iter().flat_map(|text| text::lines(text)) {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        let side = |name: &str| {
            let values =
                texts.each_ref().map(|one| text::value(one, name).map(|value| text::shown(&design, name, value)));
            let differs = differing.iter().any(|difference| difference.name == name);
            Side { name: name.into(), values, differs }
        };
        let rows = names.into_iter().map(side).filter(|side| side.values.iter().any(Option::is_some)).collect();
        let names = both.map(|one| format!("{}@{}", one.name, one.number));
        Ok(Reply::Book(Box::new(Booked::Compared { names, rows })))
    }
}

/// The fields that differ from the revision before, as the bench of `design` shows them. A field that was not set shows its
/// default of that time; sides that changed alike show their one name.
fn changes(design: &Design, before: &Revision, one: &Revision) -> Vec<Difference> {
    let value = |revision: &Revision, name: &str, given: Option<String>| {
        let usual = || text::value(&revision.draft.figures, name).map(str::to_string);
        given.or_else(usual).map(|value| text::shown(design, name, &value))
    };
    let mut changes: Vec<Difference> = text::differences(&before.draft.fields, &one.draft.fields);
    for change in &mut changes {
        change.was = value(before, &change.name, change.was.take());
        change.is = value(one, &change.name, change.is.take());
    }
    let book = design.book();
    for (slot, gathered) in (0..).zip(&book.names).filter(|(_, name)| name.role == Role::Gather) {
        let builds = book.builds_with(slot);
        let rule = builds.first().and_then(|build| book.rule(book.build(build)?, slot));
        let Some(rule) = rule.filter(|rule| rule.gather == Some(Way::Around)) else { continue };
        let parts: Vec<&str> = rule.reads.iter().map(|part| book.name(*part).text.as_str()).collect();
        let is_part = |change: &&Difference| parts.contains(&change.name.as_str());
        let sides: Vec<&Difference> = changes.iter().filter(is_part).collect();
        let Some(first) = sides.first().filter(|_| sides.len() == parts.len()) else { continue };
        if sides.iter().all(|side| (&side.was, &side.is) == (&first.was, &first.is)) {
            let whole = Difference { name: gathered.text.clone(), ..(*first).clone() };
            let place = changes.iter().position(|change| is_part(&change)).unwrap_or_default();
            changes.retain(|change| !is_part(&change));
            changes.insert(place, whole);
        }
    }
    changes
}
