//! One session at the bench: a line in, an outcome out, without a terminal.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::rc::Rc;

use super::command::{WORDS, takes, word};
use super::files::Grants;
use super::handle::{Handle, reading};
use super::made_plan::MadePlan;
use super::question::Question;
use super::reply::{Changed, Done, Faults, Reply, StyleRow};
use super::scripts::Scripts;
use super::shelf::Shelf;
use super::shop_rules;
use super::style;
use super::trail::{Framed, Trail};
use super::workshop::Paper;
use crate::diag::{Diagnostic, Fix, Span, codes, near, says};
use crate::host::Host;
use crate::lang::builtin::counting_in;
use crate::lang::{DESIGN, Line, Listener, Names, Takes, Value, lone_name, read_line, unknown_name};
use crate::measure::write::Manner;
use crate::measure::{Graduation, Unit};
use crate::rules::book::SHOP;
use crate::rules::{BUILD, Design, Finding, Input, NameKind, Refusal, Type, Wall};
use crate::shop::caution::SHEET;
use crate::shop::settings::FILE;
use crate::shop::{Settings, cautions, parts};
use crate::word::{Args, Kind, Value as Given};

/// The result of a line.
#[derive(Debug)]
pub struct Outcome {
    /// Lines that a script printed.
    pub printed: Vec<String>,
    /// The reply, or all faults of the line.
    pub reply: Result<Reply, Vec<Diagnostic>>,
    /// Whether a design was shown that cannot be built as specified.
    pub stopped: bool,
}

/// A bench with a design on it, the steps that led there, variables, and the settings of the shop.
pub struct Session {
    pub(super) host: Rc<dyn Host>,
    pub(super) settings: Settings,
    pub(super) bench: Rc<Handle>,
    pub(super) scripts: Scripts,
    pub(super) trail: Trail,
    pub(super) shelf: Rc<Shelf>,
    /// The last plan that was made, for `plan take`.
    pub(super) planned: Option<MadePlan>,
}

impl Session {
    /// A fresh bench in a shop with these settings.
    pub fn new(host: Rc<dyn Host>, settings: Settings, paper: Rc<dyn Paper>) -> Self {
        let bench = Rc::new(Handle::new(settings.fresh()));
        let shelf = Rc::new(Shelf::new(host.clone()));
        let scripts = Scripts::new(host.clone(), paper, bench.clone(), shelf.clone(), &settings);
        let trail = Trail::new(&bench.framed());
        Self { host, settings, bench, scripts, trail, shelf, planned: None }
    }

    /// Reads the rules and the settings of the shop from its config folder, or uses the defaults. A file with faults is
    /// not used.
    pub fn settings(host: &dyn Host) -> (Settings, Vec<Diagnostic>) {
        let (rules, mut found) = shop_rules::rules(host);
        let usual = || Settings::by(rules.clone());
        let Some(file) = host.config().map(|folder| folder.join(FILE)) else {
            return (usual(), found);
        };
        let read = match host.read(&file) {
            Ok(text) => Settings::read(&text, rules.clone()),
            Err(fault) if fault.trouble == crate::host::Trouble::Missing => Ok(usual()),
            Err(fault) => Err(vec![fault.into()]),
        };
        let settings = read.unwrap_or_else(|faults| {
            found.extend(faults);
            usual()
        });
        (settings, found)
    }

    /// Lets scripts read and write these folders, and no others.
    pub fn grant(&self, grants: Grants) {
        self.scripts.grant(grants);
    }

    /// Passes what scripts report while they run on to `listener`.
    pub fn listen(&self, listener: Listener) {
        self.scripts.listen(listener);
    }

    /// Calls `opening` before the design book is opened.
    pub fn before_opening_book(&self, opening: Box<dyn Fn()>) {
        self.shelf.before_opening(opening);
    }

    /// How quantities are shown.
    pub fn manner(&self) -> Manner {
        self.settings.manner()
    }

    /// A fresh bench with the settings of the shop.
    pub fn fresh_bench(&self) -> Design {
        self.settings.fresh()
    }

    /// The wall of the bench, which outlives its designs.
    pub(super) fn wall(&self) -> Wall {
        self.bench.look(Wall::of)
    }

    /// An empty design with the settings of the shop and the wall of the bench.
    pub(super) fn blank(&self) -> Design {
        let mut design = self.settings.fresh();
        self.wall().put_behind(&mut design);
        design
    }

    /// A flag that stops a running script when it is raised.
    pub fn stop_flag(&self) -> std::sync::Arc<std::sync::atomic::AtomicBool> {
        self.scripts.stop_flag()
    }

    /// Changes the tape of the bench for this session.
    pub fn set_graduation(&mut self, graduation: Graduation) {
        self.settings.graduation = graduation;
        self.refit();
    }

    /// The settings of the shop.
    pub fn in_force(&self) -> &Settings {
        &self.settings
    }

    /// Runs a line. One that fails, or panics, leaves the bench as it was.
    pub fn line(&mut self, text: &str) -> Outcome {
        let before = self.bench.framed();
        let result = catch_unwind(AssertUnwindSafe(|| self.dispatch(text)));
        let reply = result
            .unwrap_or_else(|_| Err(vec![Diagnostic::of(&codes::BROKEN, "internal error; your design is unchanged")]));
        self.outcome(text, before, reply)
    }

    /// Runs a script file with its arguments on the bench.
    pub fn run(&mut self, file: &Path, args: &[String]) -> Outcome {
        let before = self.bench.framed();
        let result = catch_unwind(AssertUnwindSafe(|| self.scripts.run_file(file, args)));
        let reply = match result {
            Ok(Ok(value)) => Ok(after_script(value)),
            Ok(Err(found)) => Err(found),
            Err(_) => {
                Err(vec![Diagnostic::of(&codes::BROKEN, "internal error in the script; your design is unchanged")])
            }
        };
        self.outcome(&format!("run {}", file.display()), before, reply)
    }

    fn outcome(&mut self, line: &str, before: Framed, mut reply: Result<Reply, Vec<Diagnostic>>) -> Outcome {
        let (mut printed, shown_stopped) = self.scripts.take_printed();
        printed.splice(0..0, self.shelf.take_remarks().into_iter().map(|remark| format!("warn: {remark}")));
        let stopped = shown_stopped || reply.as_ref().is_ok_and(Reply::is_stopped);
        match &mut reply {
            Err(found) => {
                self.bench.replace(before);
                found.iter_mut().for_each(|one| self.keep_what_works(line, one));
            }
            Ok(Reply::Changed(changed)) if matches!(changed.done, Done::Undo(_) | Done::Redo(_)) => {}
            // A change of settings is not a step of the design.
            Ok(Reply::Shop { .. }) => {}
            Ok(_) => self.remember(line, &before),
        }
        Outcome { printed, reply, stopped }
    }

    /// Records a line as a step, if it changed the design.
    fn remember(&mut self, line: &str, before: &Framed) {
        let framed = self.bench.framed();
        if !framed.same(before) {
            self.trail.remember(line, &framed);
        }
    }

    pub(super) fn dispatch(&mut self, text: &str) -> Result<Reply, Vec<Diagnostic>> {
        // A design that was opened from the book, or changed by a script, has not been judged yet.
        self.scripts.judge();
        let line = read_line(text, self).map_err(|found| vec![found])?;
        match line {
            Line::Blank => Ok(Reply::Nothing),
            Line::Set { field, at, value } => self.set(text, (field, at), value),
            Line::Show { name, at } => self.show(name).map_err(|found| vec![found.at(at)]),
            Line::Command { word, at, rest } => self.command(text, (word, at), rest),
            Line::Expression => self.expression(text),
        }
    }

    fn show(&self, name: &str) -> Result<Reply, Diagnostic> {
        let answer = self.bench.look(|design| design.answer(name))?;
        Ok(Reply::Known { name: name.into(), answer })
    }

    fn set(&mut self, text: &str, (field, at): (&str, Span), value: Span) -> Result<Reply, Vec<Diagnostic>> {
        let given = text.get(value.clone()).unwrap_or_default();
        let before = self.bench.design();
        let scripts = &mut self.scripts;
        let mut evaluate =
            |formula: &str| scripts.formula(formula).map_err(|mut found| found.remove(0)).and_then(reading);
        let input = before.read_input(field, given, &mut evaluate).map_err(|found| {
            let found = before.in_line(field, given, found, &mut evaluate);
            // A refusal of the field itself has no place in the value.
            vec![if found.span.is_some() { found.shifted(value.start) } else { found.at(at.clone()) }]
        })?;
        let at = if value.is_empty() { at } else { value };
        self.bench
            .work(|design| design.set(field, input))
            .map_err(|refusal| vec![placed(refusal, text.get(at.clone()).unwrap_or_default(), at)])?;
        let asleep = self.bench.look(|design| is_asleep(design, field));
        Ok(self.changed(Done::Set { name: field.into(), asleep }, &before))
    }

    /// The differences from `before`, as a reply.
    pub(super) fn changed(&self, done: Done, before: &Design) -> Reply {
        self.scripts.judge();
        let design = self.bench.design();
        // Figures on a page of their own are shown only if a field of that page was set.
        let set = match &done {
            Done::Set { name, .. } | Done::Clear(name) | Done::Aimed { name, .. } => design.book().slot(name),
            Done::New | Done::Figure(_) | Done::Undo(_) | Done::Redo(_) | Done::Script => None,
        };
        let page = set.and_then(|slot| design.book().group(slot)).and_then(|group| group.page.clone());
        let mut changed = design.changes(before, page.as_deref());
        if let Done::Set { name, .. } | Done::Clear(name) | Done::Aimed { name, .. } | Done::Figure(name) = &done {
            changed.retain(|(slot, _)| design.book().name(*slot).text != *name);
        }
        let old: Vec<Finding> = before.findings();
        let findings: Vec<(Finding, bool)> = design
            .findings()
            .into_iter()
            .map(|finding| {
                let news = !old.contains(&finding);
                (finding, news)
            })
            .collect();
        let mended = old
            .into_iter()
            .map(|finding| finding.name)
            .filter(|name| findings.iter().all(|(finding, _)| finding.name != *name))
            .collect();
        Reply::Changed(Box::new(Changed { done, design, changed, findings, mended }))
    }

    fn command(&mut self, text: &str, (name, at): (&str, Span), rest: Span) -> Result<Reply, Vec<Diagnostic>> {
        let Some(word) = word(name) else {
            return self.expression(text);
        };
        let (form, args) = word.read(text, rest.clone()).map_err(|stuck| vec![self.unread(&stuck, word)])?;
        let place = if rest.is_empty() { at } else { rest };
        self.action(form.action, &args)
            .map_err(|Faults(found)| found.into_iter().map(|one| style::place_at(one, place.clone())).collect())
    }

    pub(super) fn sheet(&mut self, _: &Args) -> Result<Reply, Faults> {
        Ok(Reply::Sheet(self.bench.design(), None))
    }

    pub(super) fn sheet_page(&mut self, args: &Args) -> Result<Reply, Faults> {
        let name = args.text(Kind::Page);
        let design = self.bench.design();
        if design.book().headed_pages().any(|(page, _)| page == name) {
            return Ok(Reply::Page(design, name.into()));
        }
        let pages = || design.book().headed_pages().map(|(page, _)| page);
        let found = Diagnostic::of(&codes::word::PAGE, says!("there is no page called {}", name));
        let near = near(name, pages());
        let fix = near
            .first()
            .map_or_else(|| Fix::Choices(pages().map(Into::into).collect()), |page| Fix::Value((*page).into()));
        let place = args.one(Kind::Page).map_or(0..0, |page| page.span.clone());
        Err(Diagnostic { fixes: vec![fix], ..found.at(place) }.into())
    }

    pub(super) fn fixings(&mut self, _: &Args) -> Result<Reply, Faults> {
        Ok(Reply::Page(self.bench.design(), "fixings".into()))
    }

    pub(super) fn cautions(&mut self, _: &Args) -> Result<Reply, Faults> {
        Ok(Reply::Cautions(self.bench.look(|design| cautions(design, &parts(design), SHEET))))
    }

    pub(super) fn quit(&mut self, _: &Args) -> Result<Reply, Faults> {
        Ok(Reply::Quit)
    }

    pub(super) fn new_design(&mut self, args: &Args) -> Result<Reply, Faults> {
        let mut design = self.blank();
        if let Some(build) = args.one(Kind::Build) {
            design
                .set(BUILD, Input::Text(build.text().into()))
                .map_err(|refusal| placed(refusal, build.text(), build.span.clone()))?;
        }
        let design = Rc::new(design);
        self.bench.replace(Framed { design: Rc::clone(&design), style: None });
        // On a cleared bench every value changed; their names would only fill the screen.
        let findings = design.findings().into_iter().map(|finding| (finding, true)).collect();
        let (changed, mended) = (Vec::new(), Vec::new());
        Ok(Reply::Changed(Box::new(Changed { done: Done::New, design, changed, findings, mended })))
    }

    pub(super) fn clear(&mut self, args: &Args) -> Result<Reply, Faults> {
        let name = args.text(Kind::GivenField);
        let before = self.bench.design();
        self.bench.work(|design| design.clear(name)).map_err(|refusal| {
            let near = if let Refusal::Unknown { near, .. } = &refusal { near.clone() } else { Vec::new() };
            Diagnostic::from(refusal).or_else(|| Some(clears(&before, &near)))
        })?;
        Ok(self.changed(Done::Clear(name.into()), &before))
    }

    pub(super) fn undo(&mut self, _: &Args) -> Result<Reply, Faults> {
        let (line, framed) =
            self.trail.back().ok_or_else(|| Diagnostic::of(&codes::word::NOTHING_TO_UNDO, "nothing to undo"))?;
        let before = self.bench.replace(self.with_settings(framed));
        Ok(self.changed(Done::Undo(line), &before.design))
    }

    pub(super) fn redo(&mut self, _: &Args) -> Result<Reply, Faults> {
        let (line, framed) =
            self.trail.forward().ok_or_else(|| Diagnostic::of(&codes::word::NOTHING_TO_UNDO, "nothing to redo"))?;
        let before = self.bench.replace(self.with_settings(framed));
        Ok(self.changed(Done::Redo(line), &before.design))
    }

    /// A design of another step, with the present tape.
    pub(super) fn with_settings(&self, mut framed: Framed) -> Framed {
        self.settings.fit(Rc::make_mut(&mut framed.design));
        framed
    }

    /// Applies the settings to the bench and its scripts.
    pub(super) fn refit(&mut self) {
        self.bench.work(|design| self.settings.fit(design));
        self.scripts.refit(&self.settings);
    }

    pub(super) fn run_script(&mut self, args: &Args) -> Result<Reply, Faults> {
        let texts: Vec<String> = args.all(Kind::ScriptText).map(|given| given.text().into()).collect();
        let before = self.bench.design();
        let value = self.scripts.run_file(Path::new(args.text(Kind::Script)), &texts)?;
        Ok(self.after(value, &before))
    }

    fn expression(&mut self, text: &str) -> Result<Reply, Vec<Diagnostic>> {
        if let Some(place) = lone_name(text) {
            let name = text.get(place.clone()).unwrap_or_default();
            // `d.reveal` is a part of the variable `d`.
            let whole = name.split('.').next().unwrap_or(name);
            if whole != DESIGN && !self.scripts.is_variable(whole) {
                return Err(vec![unknown_name(text, place, self)]);
            }
        }
        let before = self.bench.design();
        let value = self.scripts.line(text)?;
        Ok(self.after(value, &before))
    }

    /// The value of a script, or its changes if it has no value.
    fn after(&self, value: Value, before: &Design) -> Reply {
        let moved = !self.bench.look(|design| design.same_givens(before));
        if moved && matches!(value, Value::Nothing) { self.changed(Done::Script, before) } else { after_script(value) }
    }

    pub(super) fn styles(&mut self, _: &Args) -> Result<Reply, Faults> {
        Ok(Reply::Styles(self.style_rows()))
    }

    pub(super) fn style_check(&mut self, args: &Args) -> Result<Reply, Faults> {
        Ok(Reply::Checked(self.scripts.check_style(args.text(Kind::StyleOrFile))?))
    }

    pub(super) fn style(&mut self, args: &Args) -> Result<Reply, Faults> {
        let mut asked =
            style::Asked { name: args.text(Kind::Style).into(), span: args.span(Kind::Style), pairs: Vec::new() };
        for given in args.all(Kind::Answer) {
            let Given::Pair { key, value } = given.value else { continue };
            if value.is_empty() {
                return Err(Diagnostic::of(&codes::word::VALUE_MISSING, format!("{key} has no value"))
                    .at(given.span.clone())
                    .into());
            }
            asked.pairs.push(style::Pair { key: key.into(), value: value.into(), span: given.span.clone() });
        }
        let before = self.bench.design();
        let design = self
            .scripts
            .styled(&asked, &before)
            .map_err(|found| found.into_iter().map(|one| style::place(one, &asked)).collect::<Vec<_>>())?;
        self.bench.replace(design);
        Ok(Reply::Sheet(self.bench.design(), Some(asked.name)))
    }

    /// Every house style with its first line and where it comes from.
    pub fn style_rows(&mut self) -> Vec<StyleRow> {
        self.scripts.style_rows()
    }

    /// The questions of a style.
    pub(super) fn questions(&self, name: &str) -> Result<Vec<Question>, Vec<Diagnostic>> {
        self.scripts.questions(name)
    }

    /// The design at the bench.
    pub fn design(&self) -> Rc<Design> {
        self.bench.design()
    }
}

impl Names for Session {
    fn word(&self, name: &str) -> Option<Takes> {
        word(name).map(takes)
    }

    fn field(&self, name: &str) -> Option<Takes> {
        self.bench.look(|design| super::names::field(design.book(), name))
    }

    fn counting_in(&self, unit: &Unit) -> Option<&'static str> {
        counting_in(unit)
    }

    fn is_figure(&self, name: &str) -> bool {
        self.bench.look(|design| design.book().kind(name)) == Some(NameKind::Figure)
    }

    fn is_variable(&self, name: &str) -> bool {
        self.scripts.is_variable(name)
    }

    fn below(&self, field: &str, amount: &str) -> Vec<String> {
        self.bench.look(|design| super::names::below(design, field, amount))
    }

    fn all(&self) -> Vec<String> {
        let words = WORDS.iter().map(|word| word.name.to_string());
        let names = self.bench.look(|design| design.book().all_names().map(String::from).collect::<Vec<_>>());
        words.chain(names).collect()
    }
}

/// A refusal placed in `text`, which was typed at `at`: at the unknown word, if it is about one, so that a fix keeps the
/// rest of the value.
fn placed(refusal: Refusal, text: &str, at: Span) -> Diagnostic {
    let word = if let Refusal::Word { word, .. } = &refusal { word.as_str() } else { "" };
    let place = text.find(word).filter(|_| !word.is_empty());
    let place = place.map(|start| at.start + start..at.start + start + word.len());
    let is_about_a_word = place.is_some();
    let mut found = Diagnostic::from(refusal).at(place.unwrap_or(at));
    if is_about_a_word {
        for fix in &mut found.fixes {
            if let Fix::Setting(_, meant) = fix {
                *fix = Fix::Value(std::mem::take(meant));
            }
        }
    }
    found
}

fn after_script(value: Value) -> Reply {
    if matches!(value, Value::Nothing) { Reply::Ran } else { Reply::Value(value) }
}

/// A line that clears one of `near`, or a field that is set; if none is set, `sheet` shows the fields.
fn clears(design: &Design, near: &[String]) -> String {
    let order = design.book().builds[usize::from(design.build())].order.iter();
    let given = order.filter(|slot| design.given(**slot).is_some()).map(|slot| design.book().name(*slot).text.clone());
    let given = given.filter(|name| !name.starts_with(SHOP)).last();
    let clearable = near.iter().find(|near| design.clone().clear(near).is_ok()).cloned();
    clearable.or(given).map_or_else(|| "sheet".into(), |name| format!("clear {name}"))
}

/// Whether a field is set and has no effect on the design.
fn is_asleep(design: &Design, name: &str) -> bool {
    design.slot(name).is_ok_and(|slot| {
        let gathered = design.rule(slot).is_some_and(|rule| rule.gather.is_some());
        let size = design.book().name(slot).of == Type::Size;
        !gathered && !size && design.given(slot).is_some() && design.known(slot).is_err()
    })
}
