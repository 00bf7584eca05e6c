//! What scripts ask of the program around their engine.

use std::collections::BTreeMap;
use std::rc::Rc;

use super::design::DesignHandle;
use super::source::Prepared;
use super::value::Value;
use crate::diag::{Diagnostic, codes};
use crate::lang::line::Mode;
use crate::rules::{Rules, shipped};

/// What the scripts of one engine may reach. An engine by itself reaches nothing.
pub trait Powers {
    /// What every script may ask for.
    fn workshop(&self) -> Option<Rc<dyn Workshop>> {
        None
    }

    /// The design that scripts know as `design`.
    fn bench(&self) -> Option<Rc<dyn DesignHandle>> {
        None
    }

    /// The design book.
    fn book(&self) -> Option<Rc<dyn BookHandle>> {
        None
    }

    /// The folders that were granted.
    fn files(&self) -> Option<Rc<dyn FileHandle>> {
        None
    }
}

/// What every script may ask for, whoever runs it: its text made ready, what it prints heard, designs, styles, plans.
pub trait Workshop {
    /// Makes a script of a text, a line of the prompt or a file: the notation pass.
    ///
    /// # Errors
    /// Everything that is wrong with its notation.
    fn prepare(&self, text: &str, _mode: Mode) -> Result<Prepared, Vec<Diagnostic>> {
        Ok(Prepared::plain(text))
    }

    /// The text of a script that is imported, if there is one: from the style folders, or one that is built in.
    ///
    /// Names that lead out of a folder never get here; who reads files refuses links.
    ///
    /// # Errors
    /// It cannot be read.
    fn script(&self, _name: &str) -> Result<Option<String>, Diagnostic> {
        Ok(None)
    }

    /// Takes a printed line.
    fn print(&self, _line: &str) {}

    /// Takes what a script reports while it runs.
    fn hear(&self, _aside: &Aside) {}

    /// The rules in force.
    fn rules(&self) -> Rules {
        shipped()
    }

    /// A fresh design.
    ///
    /// # Errors
    /// There are no designs here.
    fn new_design(&self) -> Result<Rc<dyn DesignHandle>, Diagnostic> {
        Err(no_designs())
    }

    /// The work of a design framed by a house style, asked for these values.
    ///
    /// # Errors
    /// There is no such style, or what goes wrong in it.
    fn styled(
        &self,
        _work: &dyn DesignHandle,
        _style: &str,
        _asks: &BTreeMap<String, Value>,
    ) -> Result<Rc<dyn DesignHandle>, Diagnostic> {
        Err(no_designs())
    }

    /// The whole sheet of a design as text.
    ///
    /// # Errors
    /// It is not a design of this workshop.
    fn sheet(&self, _design: &dyn DesignHandle) -> Result<String, Diagnostic> {
        Err(no_designs())
    }

    /// The parts of a design, each a map.
    ///
    /// # Errors
    /// It is not a design of this workshop.
    fn parts(&self, _design: &dyn DesignHandle) -> Result<Vec<Value>, Diagnostic> {
        Err(no_designs())
    }

    /// The findings of a design's checks, each a map.
    ///
    /// # Errors
    /// It is not a design of this workshop.
    fn checks(&self, _design: &dyn DesignHandle) -> Result<Vec<Value>, Diagnostic> {
        Err(no_designs())
    }

    /// A cutting plan for several designs as text; `stop` is asked now and then whether to end the search.
    ///
    /// # Errors
    /// There is nothing to cut; the stock cannot be read.
    fn plan(&self, _designs: &[Rc<dyn DesignHandle>], _stop: &dyn Fn() -> bool) -> Result<String, Diagnostic> {
        Err(no_designs())
    }

    /// The same plan as a map.
    ///
    /// # Errors
    /// As [`Workshop::plan`].
    fn planned(&self, _designs: &[Rc<dyn DesignHandle>], _stop: &dyn Fn() -> bool) -> Result<Value, Diagnostic> {
        Err(no_designs())
    }
}

fn no_designs() -> Diagnostic {
    Diagnostic::of(&codes::script::NOT_HERE, "designs are not available here")
}

/// The powers of an engine by itself.
pub struct Alone;

impl Powers for Alone {}

/// An engine by itself asks for nothing that is not built in.
impl Workshop for Alone {}

/// The design book, as scripts reach it.
pub trait BookHandle {
    /// Saves a design under a name; answers the name with its revision.
    ///
    /// # Errors
    /// It cannot be saved, and why.
    fn keep(&self, design: &dyn DesignHandle, name: &str, note: Option<&str>) -> Result<String, Diagnostic>;

    /// A design of the book, or one revision of it.
    ///
    /// # Errors
    /// There is none, and why.
    fn open(&self, name: &str) -> Result<Rc<dyn DesignHandle>, Diagnostic>;

    /// Designs, newest first, each a map; all in use, or those that are found.
    ///
    /// # Errors
    /// The book cannot be read, or the search not.
    fn list(&self, what: Option<&str>) -> Result<Vec<Value>, Diagnostic>;
}

/// The folders that were granted to scripts.
pub trait FileHandle {
    /// The text of a file, of at most so many bytes.
    ///
    /// # Errors
    /// It is not below a folder that may be read, not there, no text, too large.
    fn read(&self, path: &str, most: usize) -> Result<String, Diagnostic>;

    /// Puts a text in a file, whole or not at all.
    ///
    /// # Errors
    /// It is not below a folder that may be written; it exists and is not to be replaced.
    fn write(&self, path: &str, text: &str, replace: bool) -> Result<(), Diagnostic>;
}

/// What a script reports while it runs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Aside {
    /// A line for whoever watches, apart from what the script answers.
    Log(String),
    /// So much is done, of so much.
    Progress(u64, u64),
}

/// Takes what a script reports while it runs.
pub type Listener = Rc<dyn Fn(&Aside)>;
