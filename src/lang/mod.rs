//! The bench language: from a typed line to a value, or to a finding with its place.
//!
//! [`line`] finds what sort of line it is and turns the trade's notation into plain script; [`script`] runs that.

pub mod line;
pub mod script;

pub use line::{
    Growing, Line, Mode, Names, Takes, assigned, calls_of, is_complete, lone_name, prepass, read_line, read_of,
    unknown_name,
};
pub use script::builtin::{self, Builtin, all as builtins};
pub use script::{
    Aside, BookHandle, DESIGN, Design, DesignHandle, Engine, FileHandle, Limits, Listener, Memory, Places, Powers,
    Prepared, Reached, Script, Settings, Sort, Value, Watch, Workshop, settle, stack_for, with_room,
};
