//! What the scripts of one session have in common: settings, designs, styles, and where their output goes.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::mem::take;
use std::path::PathBuf;
use std::rc::{Rc, Weak};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use super::files::Grants;
use super::handle::Handle;
use super::house::ReadStyle;
use super::reply::Planned;
use super::shelf::Shelf;
use super::style::FOLDER;
use super::trail::Framed;
use crate::host::Host;
use crate::lang::{self, Engine, Limits, Listener, Powers, Watch};
use crate::measure::write::Manner;
use crate::rules::Design;
use crate::shop::Settings;

/// What puts a design on paper for scripts that print one.
pub trait Paper {
    /// The whole sheet as plain text.
    fn sheet(&self, design: &Design) -> String;
    /// A cutting plan as plain text.
    fn plan(&self, planned: &Planned, manner: &Manner) -> String;
}

/// The workshop that the scripts of one session share.
pub(super) struct Workshop {
    /// Itself, for the engine of styles.
    pub(super) me: Weak<Workshop>,
    pub(super) host: Rc<dyn Host>,
    pub(super) shelf: Rc<Shelf>,
    pub(super) paper: Rc<dyn Paper>,
    /// The design at the bench, whose own figures have names at the prompt.
    pub(super) bench: Rc<Handle>,
    pub(super) settings: RefCell<Settings>,
    /// The folders that scripts may read and write.
    pub(super) grants: RefCell<Grants>,
    /// Who hears what scripts report while they run.
    pub(super) listener: RefCell<Option<Listener>>,
    pub(super) output: RefCell<Output>,
    /// Stops what is running when it is raised.
    pub(super) stop: Arc<AtomicBool>,
    /// Holds the framer's scripts and the styles that they ask for to one set of limits.
    pub(super) watch: Rc<Watch>,
    /// The variables of the prompt.
    pub(super) variables: RefCell<Vec<String>>,
    /// Designs beside the one at the bench, as long as a script holds them.
    handles: RefCell<Vec<Weak<Handle>>>,
    pub(super) styles: Styles,
}

/// What scripts printed since it was last taken.
#[derive(Default)]
pub(super) struct Output {
    pub(super) lines: Vec<String>,
    /// Whether a sheet was made of a design that cannot be made as it is.
    pub(super) stopped: bool,
}

/// The house styles of a session.
#[derive(Default)]
pub(super) struct Styles {
    /// Their engine, made when one is first asked for.
    pub(super) engine: RefCell<Option<Rc<Engine>>>,
    /// Those that were read before, by name.
    pub(super) read: RefCell<BTreeMap<String, Rc<ReadStyle>>>,
    /// Name and text of one that was handed over, before all others of its name.
    pub(super) handed: RefCell<Option<(String, String)>>,
    /// The design that a running style frames; a fresh one begins with its work.
    pub(super) work: RefCell<Option<Design>>,
    /// How many styles run, one inside the other.
    pub(super) depth: Cell<usize>,
}

impl Workshop {
    /// For a bench; nothing is made yet.
    pub(super) fn new(
        host: Rc<dyn Host>,
        paper: Rc<dyn Paper>,
        bench: Rc<Handle>,
        shelf: Rc<Shelf>,
        settings: &Settings,
    ) -> Rc<Self> {
        let stop = Arc::<AtomicBool>::default();
        Rc::new_cyclic(|me| Self {
            me: me.clone(),
            host,
            shelf,
            paper,
            bench,
            settings: RefCell::new(settings.clone()),
            grants: RefCell::default(),
            listener: RefCell::default(),
            output: RefCell::default(),
            watch: Rc::new(Watch::new(Limits::of(settings), Arc::clone(&stop))),
            stop,
            variables: RefCell::default(),
            handles: RefCell::default(),
            styles: Styles::default(),
        })
    }

    /// What an engine with these powers is made with.
    pub(super) fn engine_settings(&self, powers: Rc<dyn Powers>) -> lang::Settings {
        let settings = self.settings.borrow();
        lang::Settings {
            limits: Limits::of(&settings),
            watch: Some(Rc::clone(&self.watch)),
            manner: settings.manner(),
            powers: Some(powers),
            stop: Arc::clone(&self.stop),
        }
    }

    /// Applies other settings.
    pub(super) fn refit(&self, settings: &Settings) {
        *self.settings.borrow_mut() = settings.clone();
        // Styles keep nothing between two runs, so their engine is simply made again.
        *self.styles.engine.borrow_mut() = None;
        self.styles.read.borrow_mut().clear();
        self.watch.set_limits(Limits::of(settings));
    }

    /// Lines printed since they were last taken, and whether a design was shown that cannot be made.
    pub(super) fn take_printed(&self) -> (Vec<String>, bool) {
        let Output { lines, stopped } = take(&mut *self.output.borrow_mut());
        (lines, stopped)
    }

    /// A design of a script's own.
    pub(super) fn hold(&self, framed: Framed) -> Rc<Handle> {
        let handle = Rc::new(Handle::of(framed));
        self.handles.borrow_mut().push(Rc::downgrade(&handle));
        handle
    }

    /// Every design that a script still holds, as it is now, so that a line that fails can be undone.
    pub(super) fn designs(&self) -> Vec<(Rc<Handle>, Framed)> {
        let mut handles = self.handles.borrow_mut();
        handles.retain(|handle| handle.strong_count() > 0);
        handles.iter().filter_map(Weak::upgrade).map(|handle| (handle.clone(), handle.framed())).collect()
    }

    /// The folder of the shop's own styles.
    pub(super) fn folder(&self) -> Option<PathBuf> {
        self.host.config().map(|folder| folder.join(FOLDER))
    }
}
