//! What functions know of the engine that they run in.

use std::cell::RefCell;
use std::fmt;
use std::rc::Rc;

use rhai::{Dynamic, NativeCallContext};

use super::powers::{Alone, Powers, Workshop};
use super::trouble::Trouble;
use super::watch::Watch;
use crate::diag::Fault;
use crate::measure::write::Manner;

/// What functions know of the engine that they run in.
pub struct Bench {
    /// Holds scripts to their limits.
    pub watch: Rc<Watch>,
    /// How quantities are shown.
    pub manner: RefCell<Manner>,
    /// What the scripts of this engine may reach.
    pub powers: Rc<dyn Powers>,
}

impl fmt::Debug for Bench {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Bench").field("watch", &self.watch).field("manner", &self.manner).finish_non_exhaustive()
    }
}

/// The bench as the engine carries it along.
#[derive(Clone, Debug)]
pub struct Carried(pub Rc<Bench>);

/// A function outside its engine: a mistake of ours, reported instead of a panic.
#[derive(Debug)]
struct Nowhere;

impl fmt::Display for Nowhere {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("this function has no bench to work at")
    }
}

impl Fault for Nowhere {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::NOT_HERE
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

impl Bench {
    /// What every script may ask for.
    pub fn workshop(&self) -> Rc<dyn Workshop> {
        self.powers.workshop().unwrap_or_else(|| Rc::new(Alone))
    }

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
