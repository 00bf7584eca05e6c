//! The workshop for scripts: designs, styles, sheets and plans.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::rc::Rc;

use super::handle::{design_of, framed_of};
use super::names::Known;
use super::reply::Planned;
use super::stylist::Asks;
use super::trail::Framed;
use super::workshop::Workshop;
use super::{planning, stock};
use crate::diag::Diagnostic;
use crate::fact::fact;
use crate::lang::{self, Aside, DesignHandle, Mode, Prepared, Value, prepass};
use crate::plan::{Saw, Whole};
use crate::rules::{Design, Finding, Rules};
use crate::shop::Part;

impl Workshop {
    /// A plan for designs of a script, within a fixed number of steps.
    fn planned(&self, designs: &[Rc<dyn DesignHandle>], stop: &dyn Fn() -> bool) -> Result<Planned, Diagnostic> {
        let named = designs.iter().map(|design| {
            let design = design_of(&**design)?;
            Ok((planning::name_of(&design), Design::clone(&design)))
        });
        let named = named.collect::<Result<Vec<_>, Diagnostic>>()?;
        let mut found = Vec::new();
        let shop = self.settings.borrow().fresh();
        let rack = stock::read_rack(&*self.host, &shop, &mut found)?;
        let limits = crate::cut::Limits { steps: planning::SCRIPT_STEPS, stop };
        let planned = Planned::of(planning::work_of(&named)?, rack, &shop, &Saw::of(&shop), &limits);
        let stops = planning::stops(&named, named.len() > 1);
        // A plan within fixed steps is the same on any machine, and so takes no time.
        Ok(Planned { seconds: 0.0, found, stops, ..planned })
    }
}

impl lang::Workshop for Workshop {
    fn prepare(&self, text: &str, mode: Mode) -> Result<Prepared, Vec<Diagnostic>> {
        // At the prompt, figures added to the design are names too.
        let rules = match mode {
            Mode::Prompt => self.bench.look(|design| design.book().clone()),
            Mode::Script => self.settings.borrow().rules.clone(),
        };
        let variables = self.variables.borrow();
        let names = Known { rules: &rules, variables: &variables };
        let rewritten = prepass(text, mode, &names)?;
        Ok(Prepared { script: rewritten.script, places: Rc::new(rewritten.map) })
    }

    fn script(&self, name: &str) -> Result<Option<String>, Diagnostic> {
        self.style_or_none(name)
    }

    fn print(&self, line: &str) {
        self.output.borrow_mut().lines.push(line.into());
    }

    fn hear(&self, aside: &Aside) {
        if let Some(listener) = &*self.listener.borrow() {
            listener(aside);
        }
    }

    fn rules(&self) -> Rules {
        self.settings.borrow().rules.clone()
    }

    fn new_design(&self) -> Result<Rc<dyn DesignHandle>, Diagnostic> {
        Ok(self.hold(Framed { design: self.fresh().into(), style: None }))
    }

    fn styled(
        &self,
        work: &dyn DesignHandle,
        style: &str,
        asks: &BTreeMap<String, Value>,
    ) -> Result<Rc<dyn DesignHandle>, Diagnostic> {
        let work = design_of(work)?;
        let framed = self.styled(style, &work, Asks::Values(asks));
        Ok(self.hold(framed.map_err(|mut found| found.remove(0))?))
    }

    fn sheet(&self, design: &dyn DesignHandle) -> Result<String, Diagnostic> {
        let mut framed = framed_of(design)?;
        self.judge(&mut framed);
        self.output.borrow_mut().stopped |= framed.design.is_stopped();
        Ok(self.paper.sheet(&framed.design))
    }

    fn parts(&self, design: &dyn DesignHandle) -> Result<Vec<Value>, Diagnostic> {
        let design = design_of(design)?;
        let (parts, manner) = (crate::shop::parts(&design), self.settings.borrow().manner());
        Ok(parts.iter().map(|part| Value::of_fact(&*fact::<Part>(part), &manner)).collect())
    }

    fn checks(&self, design: &dyn DesignHandle) -> Result<Vec<Value>, Diagnostic> {
        let mut framed = framed_of(design)?;
        self.judge(&mut framed);
        let (findings, manner) = (framed.design.findings(), self.settings.borrow().manner());
        let value = |one| Value::of_fact(&*fact::<Finding>(Cow::Borrowed(one)), &manner);
        Ok(findings.iter().map(value).collect())
    }

    fn plan(&self, designs: &[Rc<dyn DesignHandle>], stop: &dyn Fn() -> bool) -> Result<String, Diagnostic> {
        let planned = self.planned(designs, stop)?;
        Ok(self.paper.plan(&planned, &self.settings.borrow().manner()))
    }

    fn planned(&self, designs: &[Rc<dyn DesignHandle>], stop: &dyn Fn() -> bool) -> Result<Value, Diagnostic> {
        let planned = self.planned(designs, stop)?;
        let manner = self.settings.borrow().manner();
        Ok(Value::of_fact(&*fact::<Whole>((&planned.whole, planned.seconds)), &manner))
    }
}
