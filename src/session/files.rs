//! The folders that scripts may read and write, which the command line grants.

use std::path::{Path, PathBuf};
use std::rc::Rc;

use crate::diag::{Diagnostic, codes, list, says};
use crate::host::{FileFault, Host, Trouble};
use crate::lang::FileHandle;

/// Folders that the framer's own scripts may read and write, as typed on the command line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Grants {
    /// Folders to read.
    pub read: Vec<PathBuf>,
    /// Folders to write.
    pub write: Vec<PathBuf>,
}

/// The current folder to read, none to write.
impl Default for Grants {
    fn default() -> Self {
        Self { read: vec![PathBuf::from(".")], write: Vec::new() }
    }
}

/// The files of a session's granted folders, for its scripts.
pub(super) struct ScriptFiles {
    pub(super) host: Rc<dyn Host>,
    pub(super) grants: Grants,
}

/// The places that a path can mean: below the granted folder that it begins with, or else below any of them.
fn places<'a>(folders: &'a [PathBuf], path: &'a Path) -> Vec<(&'a Path, &'a Path)> {
    let inside = |folder: &'a PathBuf| {
        let rest = path.strip_prefix(folder).ok().filter(|rest| !rest.as_os_str().is_empty() && folder.is_relative());
        rest.map(|rest| (folder.as_path(), rest))
    };
    match folders.iter().find_map(inside) {
        Some(place) => vec![place],
        None => folders.iter().map(|folder| (folder.as_path(), path)).collect(),
    }
}

impl FileHandle for ScriptFiles {
    fn read(&self, path: &str, most: usize) -> Result<String, Diagnostic> {
        let folders = &self.grants.read;
        let path = Path::new(path);
        for (folder, below) in places(folders, path) {
            match self.host.read_below(folder, below, most) {
                Err(fault) if fault.trouble == Trouble::Missing => {}
                read => return read.map_err(|fault| trouble_with(path, fault)),
            }
        }
        let found = trouble_with(path, FileFault { path: path.into(), trouble: Trouble::Missing });
        // The current folder needs no mention.
        if *folders == Grants::default().read {
            return Err(found);
        }
        let names: Vec<String> = folders.iter().map(|folder| folder.display().to_string()).collect();
        Err(Diagnostic { says: found.says.clone().and(says!(" in {}", list(&names, "or"))), ..found })
    }

    fn write(&self, path: &str, text: &str, replace: bool) -> Result<(), Diagnostic> {
        let folders = &self.grants.write;
        let path = Path::new(path);
        let Some((folder, below)) = places(folders, path).into_iter().next() else {
            let found =
                Diagnostic::of(&codes::file::OUTSIDE, "scripts write only below a folder given with --out or --write");
            return Err(found);
        };
        self.host.write_below(folder, below, text, replace).map_err(|fault| trouble_with(path, fault))
    }
}

/// The trouble with a file, under the path that the script uses.
fn trouble_with(path: &Path, fault: FileFault) -> Diagnostic {
    let fault = FileFault { path: path.into(), ..fault };
    let there = fault.trouble == Trouble::There;
    let found = Diagnostic::from(fault);
    if there { found.hint("#{replace: true}") } else { found }
}
