//! What functions know of the engine that they run in.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fmt;
use std::rc::Rc;
use std::sync::Arc;

use rhai::{Dynamic, NativeCallContext};

use super::design::DesignHandle;
use super::trouble::Trouble;
use super::value::Value;
use super::watch::Watch;
use crate::diag::{Diagnostic, Fault};
use crate::measure::write::Manner;
use crate::rules::Book;

/// Reads a text such as `11 3/8"` as a value.
pub type Reader = Rc<dyn Fn(&str) -> Result<Value, Diagnostic>>;

/// Makes a fresh design.
pub type NewDesign = Rc<dyn Fn() -> Rc<dyn DesignHandle>>;

/// Frames the work of a design by a house style, asked for these values.
pub type Styled =
    Rc<dyn Fn(&dyn DesignHandle, &str, &BTreeMap<String, Value>) -> Result<Rc<dyn DesignHandle>, Diagnostic>>;

/// Puts a design on a sheet.
pub type Sheet = Rc<dyn Fn(&dyn DesignHandle) -> Result<String, Diagnostic>>;

/// Tells of a design what is listed of it: its parts, or what its checks say.
pub type Lister = Rc<dyn Fn(&dyn DesignHandle) -> Result<Vec<Value>, Diagnostic>>;

/// Plans the cutting of several designs, and gives the plan as text or as a map; asked now and then whether to stop looking.
pub type Planner<Given> = Rc<dyn Fn(&[Rc<dyn DesignHandle>], &dyn Fn() -> bool) -> Result<Given, Diagnostic>>;

/// The rules in force.
pub type Rules = Rc<dyn Fn() -> Arc<Book>>;

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
    /// It is not below a folder that may be written; it is there already and is not to be replaced.
    fn write(&self, path: &str, text: &str, replace: bool) -> Result<(), Diagnostic>;
}

/// What a script says while it runs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Aside {
    /// A line for whoever watches, apart from what the script answers.
    Log(String),
    /// So much is done, of so much.
    Progress(u64, u64),
}

/// Takes what a script says while it runs.
pub type Listener = Rc<dyn Fn(&Aside)>;

/// The design book, as scripts reach it.
pub trait BookHandle {
    /// Keeps a design under a name; the name with its revision.
    ///
    /// # Errors
    /// It cannot be kept, and why.
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

/// What functions reach beyond the engine; what is left out they do without.
#[derive(Clone, Default)]
pub struct Outside {
    /// Reads a text as a value.
    pub read: Option<Reader>,
    /// Makes a fresh design.
    pub new_design: Option<NewDesign>,
    /// Frames the work of a design by a house style.
    pub styled: Option<Styled>,
    /// Puts a design on a sheet.
    pub sheet: Option<Sheet>,
    /// The parts of a design.
    pub parts: Option<Lister>,
    /// What the checks of a design say.
    pub checks: Option<Lister>,
    /// Plans the cutting of several designs, and lays the plan out.
    pub plan: Option<Planner<String>>,
    /// The same plan as a map.
    pub planned: Option<Planner<Value>>,
    /// The rules of the shop; without them those that are shipped.
    pub rules: Option<Rules>,
    /// The design book.
    pub book: Option<Rc<dyn BookHandle>>,
    /// Files of the folders that were granted.
    pub files: Option<Rc<dyn FileHandle>>,
    /// Who hears what scripts say while they run.
    pub listen: Option<Listener>,
}

/// What functions know of the engine that they run in.
pub struct Bench {
    /// Holds scripts to their limits.
    pub watch: Rc<Watch>,
    /// How quantities are shown.
    pub manner: RefCell<Manner>,
    /// What functions reach beyond the engine.
    pub outside: Outside,
}

impl fmt::Debug for Bench {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Bench").field("watch", &self.watch).field("manner", &self.manner).finish_non_exhaustive()
    }
}

/// The bench as the engine carries it along.
#[derive(Clone, Debug)]
pub struct Carried(pub Rc<Bench>);

/// A function outside its engine: a mistake of ours, told instead of a panic.
#[derive(Debug)]
struct Nowhere;

impl fmt::Display for Nowhere {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("this function has no bench to work at")
    }
}

impl Fault for Nowhere {}

impl Bench {
    /// What `work` makes of the bench that the call runs at.
    ///
    /// # Errors
    /// The call runs in an engine that is not ours.
    pub fn of<T>(context: &NativeCallContext, work: impl FnOnce(&Self) -> T) -> Result<T, Trouble> {
        Self::carried(context.engine().default_tag(), work)
    }

    fn carried<T>(tag: &Dynamic, work: impl FnOnce(&Self) -> T) -> Result<T, Trouble> {
        match tag.read_lock::<Carried>() {
            Some(carried) => Ok(work(&carried.0)),
            None => Err(Nowhere.into()),
        }
    }
}
