//! What the scripts of a session share: settings, designs, styles, and the place of their output.

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

/// Writes a design as text, for scripts that print one.
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
    /// The design at the bench.
    pub(super) bench: Rc<Handle>,
    pub(super) settings: RefCell<Settings>,
    /// The folders that scripts may read and write.
    pub(super) grants: RefCell<Grants>,
    /// The listener to what scripts report while they run.
    pub(super) listener: RefCell<Option<Listener>>,
    pub(super) output: RefCell<Output>,
    /// Stops a running script when it is raised.
    pub(super) stop: Arc<AtomicBool>,
    /// Watches the limits, which the framer's scripts share with the styles that they call.
    pub(super) watch: Rc<Watch>,
    /// The variables of the prompt.
    pub(super) variables: RefCell<Vec<String>>,
    /// Designs besides the one at the bench, as long as a script holds them.
    handles: RefCell<Vec<Weak<Handle>>>,
    pub(super) styles: Styles,
}

/// Lines that scripts printed since they were last taken.
#[derive(Default)]
pub(super) struct Output {
    pub(super) lines: Vec<String>,
    /// Whether a design was shown that cannot be built as specified.
    pub(super) stopped: bool,
}

/// The house styles of a session.
#[derive(Default)]
pub(super) struct Styles {
    /// The engine of styles, made for the first of them.
    pub(super) engine: RefCell<Option<Rc<Engine>>>,
    /// Styles that were read, by name.
    pub(super) read: RefCell<BTreeMap<String, Rc<ReadStyle>>>,
    /// Name and text of an added style, which replaces all others of its name.
    pub(super) handed: RefCell<Option<(String, String)>>,
    /// The design that a running style frames; a fresh one begins with its work.
    pub(super) work: RefCell<Option<Design>>,
    /// The number of running styles, one inside another.
    pub(super) depth: Cell<usize>,
}

impl Workshop {
    /// For a bench, without engines yet.
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

    /// The parts of an engine with these powers.
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
        // Styles keep nothing between runs, so their engine is made again.
        *self.styles.engine.borrow_mut() = None;
        self.styles.read.borrow_mut().clear();
        self.watch.set_limits(Limits::of(settings));
    }

    /// Lines printed since the last call, and whether a design was shown that cannot be made.
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

    /// A copy of every design that a script holds, to undo a line that fails.
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
