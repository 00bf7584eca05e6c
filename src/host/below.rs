//! Files below a granted folder, reached name by name.
//!
//! Every folder on the way is opened by name inside the one before, and no name may be a link. The file that is read or
//! written is the file that was opened: no rename or link in the meantime leads elsewhere, because no name is looked up
//! twice. The framer names the folder itself, which may be reached by links.

use std::ffi::OsStr;
use std::io::{self, Read, Write};
use std::path::{Component, Path, PathBuf};

use super::{Trouble, text_of};

/// The names along a path.
///
/// # Errors
/// The path is empty, goes up, or starts elsewhere.
pub fn parts(path: &Path) -> Result<Vec<&OsStr>, Trouble> {
    let mut parts = Vec::new();
    for component in path.components() {
        match component {
            Component::Normal(part) => parts.push(part),
            Component::CurDir => {}
            Component::ParentDir | Component::RootDir | Component::Prefix(_) => return Err(Trouble::Outside),
        }
    }
    if parts.is_empty() { Err(Trouble::Outside) } else { Ok(parts) }
}

/// A folder without a leading `.`.
pub fn plain(folder: &Path) -> PathBuf {
    folder.components().filter(|part| *part != Component::CurDir).collect()
}

/// The text of a file below a folder, of at most `most` bytes.
///
/// # Errors
/// As [`super::Host::read_below`].
pub fn read(folder: &Path, path: &Path, most: usize) -> Result<String, Trouble> {
    let parts = parts(path)?;
    let (name, folders) = parts.split_last().ok_or(Trouble::Outside)?;
    let file = within::Folder::below(folder, folders, false)?.file(name)?;
    let mut bytes = Vec::new();
    // A file may grow while it is read, so the reader is bounded too.
    let bound = u64::try_from(most).unwrap_or(u64::MAX).saturating_add(1);
    file.take(bound).read_to_end(&mut bytes).map_err(|error| other(&error))?;
    if bytes.len() > most { Err(Trouble::Larger(most)) } else { text_of(bytes) }
}

/// Writes a text to a file below a folder, whole or not at all.
///
/// # Errors
/// As [`super::Host::write_below`].
pub fn write(folder: &Path, path: &Path, text: &str, replace: bool) -> Result<(), Trouble> {
    let parts = parts(path)?;
    let (name, folders) = parts.split_last().ok_or(Trouble::Outside)?;
    std::fs::create_dir_all(folder).map_err(|error| other(&error))?;
    let folder = within::Folder::below(folder, folders, true)?;
    folder.may_write(name, replace)?;
    let (fresh, mut file) = folder.fresh()?;
    let written = file.write_all(text.as_bytes()).and_then(|()| file.sync_all()).map_err(|error| other(&error));
    let placed = written.and_then(|()| folder.place(&fresh, name, replace));
    if placed.is_err() {
        // Nobody wants half a file.
        folder.drop_fresh(&fresh);
    }
    placed
}

fn other(error: &io::Error) -> Trouble {
    let kind = error.kind();
    if kind == io::ErrorKind::NotFound {
        Trouble::Missing
    } else if kind == io::ErrorKind::AlreadyExists {
        Trouble::There
    } else {
        Trouble::Other(error.to_string())
    }
}

/// A name for a file in progress, which no one else should have.
pub(super) fn fresh_name(count: u32) -> String {
    format!(".benchrule-{}-{count}.new", std::process::id())
}

/// The most names to try for a file in progress.
pub(super) const TRIES: u32 = 100;

#[cfg(unix)]
mod within {
    use std::ffi::OsStr;
    use std::fs::File;
    use std::io;
    use std::os::fd::OwnedFd;
    use std::path::Path;

    use rustix::fs::{AtFlags, FileType, Mode, OFlags, Stat, fstat, mkdirat, open, openat, renameat, statat, unlinkat};
    use rustix::io::Errno;

    use super::{TRIES, Trouble, fresh_name, other};

    /// An open folder.
    pub struct Folder(OwnedFd);

    fn trouble(error: Errno) -> Trouble {
        other(&io::Error::from(error))
    }

    fn sort(about: &Stat) -> FileType {
        FileType::from_raw_mode(about.st_mode)
    }

    /// Refuses anything but a plain file.
    fn plain(about: &Stat) -> Result<(), Trouble> {
        let sort = sort(about);
        if sort == FileType::RegularFile {
            return Ok(());
        }
        Err(if sort == FileType::Directory { Trouble::Folder } else { Trouble::Special })
    }

    impl Folder {
        /// The folder below `start` that these names lead to; `make` creates missing ones.
        pub fn below(start: &Path, names: &[&OsStr], make: bool) -> Result<Self, Trouble> {
            let flags = OFlags::RDONLY | OFlags::DIRECTORY | OFlags::CLOEXEC;
            let mut folder = Self(open(start, flags, Mode::empty()).map_err(trouble)?);
            for name in names {
                if make
                    && let Err(error) = mkdirat(&folder.0, *name, Mode::from_raw_mode(0o777))
                    && error != Errno::EXIST
                {
                    return Err(trouble(error));
                }
                let inner = openat(&folder.0, *name, flags | OFlags::NOFOLLOW, Mode::empty());
                folder = Self(inner.map_err(|error| folder.trouble_at(name, error))?);
            }
            Ok(folder)
        }

        /// The trouble with a name that does not open.
        fn trouble_at(&self, name: &OsStr, error: Errno) -> Trouble {
            let shown = || name.to_string_lossy().into_owned();
            match statat(&self.0, name, AtFlags::SYMLINK_NOFOLLOW) {
                Ok(about) if sort(&about) == FileType::Symlink => Trouble::Link(shown()),
                Ok(_) if error == Errno::NOTDIR => Trouble::NoFolder(shown()),
                Ok(_) | Err(_) => trouble(error),
            }
        }

        /// The plain file of that name, opened for reading.
        pub fn file(&self, name: &OsStr) -> Result<File, Trouble> {
            // A pipe without a writer would block here forever.
            let flags = OFlags::RDONLY | OFlags::NOFOLLOW | OFlags::NONBLOCK | OFlags::NOCTTY | OFlags::CLOEXEC;
            let file = openat(&self.0, name, flags, Mode::empty()).map_err(|error| self.trouble_at(name, error))?;
            let about = fstat(&file).map_err(trouble)?;
            plain(&about)?;
            if about.st_nlink > 1 { Err(Trouble::Shared) } else { Ok(file.into()) }
        }

        /// Checks that a file of that name may be written, by what exists.
        pub fn may_write(&self, name: &OsStr, replace: bool) -> Result<(), Trouble> {
            match statat(&self.0, name, AtFlags::SYMLINK_NOFOLLOW) {
                Err(Errno::NOENT) => Ok(()),
                Err(error) => Err(trouble(error)),
                Ok(about) if sort(&about) == FileType::Symlink => {
                    Err(Trouble::Link(name.to_string_lossy().into_owned()))
                }
                Ok(about) => {
                    plain(&about)?;
                    if replace { Ok(()) } else { Err(Trouble::There) }
                }
            }
        }

        /// A new file in progress, and its name.
        pub fn fresh(&self) -> Result<(String, File), Trouble> {
            let flags = OFlags::WRONLY | OFlags::CREATE | OFlags::EXCL | OFlags::NOFOLLOW | OFlags::CLOEXEC;
            for count in 0..TRIES {
                let name = fresh_name(count);
                match openat(&self.0, &*name, flags, Mode::from_raw_mode(0o666)) {
                    Ok(file) => return Ok((name, file.into())),
                    Err(Errno::EXIST) => {}
                    Err(error) => return Err(trouble(error)),
                }
            }
            Err(trouble(Errno::EXIST))
        }

        /// Renames the finished file into place. A link there is replaced, not followed.
        pub fn place(&self, fresh: &str, name: &OsStr, replace: bool) -> Result<(), Trouble> {
            let placed = if replace { renameat(&self.0, fresh, &self.0, name) } else { self.place_new(fresh, name) };
            placed.map_err(trouble)
        }

        /// The same where nothing may exist; the system itself checks.
        #[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
        fn place_new(&self, fresh: &str, name: &OsStr) -> Result<(), Errno> {
            rustix::fs::renameat_with(&self.0, fresh, &self.0, name, rustix::fs::RenameFlags::NOREPLACE)
        }

        #[cfg(not(any(target_os = "linux", target_os = "android", target_vendor = "apple")))]
        fn place_new(&self, fresh: &str, name: &OsStr) -> Result<(), Errno> {
            rustix::fs::linkat(&self.0, fresh, &self.0, name, AtFlags::empty())?;
            unlinkat(&self.0, fresh, AtFlags::empty())
        }

        /// Removes a file in progress after a failure.
        pub fn drop_fresh(&self, fresh: &str) {
            // Nothing more can be done.
            let _ = unlinkat(&self.0, fresh, AtFlags::empty());
        }
    }
}

/// For systems that cannot open a name inside an open folder: each name is checked before it is used.
#[cfg(not(unix))]
mod within {
    use std::ffi::OsStr;
    use std::fs::{self, File, OpenOptions};
    use std::path::{Path, PathBuf};

    use super::{TRIES, Trouble, fresh_name, other};

    /// A folder, by its path.
    pub struct Folder(PathBuf);

    impl Folder {
        /// The folder below `start` that these names lead to; `make` creates missing ones.
        pub fn below(start: &Path, names: &[&OsStr], make: bool) -> Result<Self, Trouble> {
            let mut folder = start.to_path_buf();
            for name in names {
                folder.push(name);
                if make && !folder.exists() {
                    fs::create_dir(&folder).map_err(|error| other(&error))?;
                }
                let about = fs::symlink_metadata(&folder).map_err(|error| other(&error))?;
                if about.is_symlink() {
                    return Err(Trouble::Link(name.to_string_lossy().into_owned()));
                }
                if !about.is_dir() {
                    return Err(Trouble::NoFolder(name.to_string_lossy().into_owned()));
                }
            }
            Ok(Self(folder))
        }

        /// The plain file of that name, opened for reading.
        pub fn file(&self, name: &OsStr) -> Result<File, Trouble> {
            self.may_write(name, true)?;
            File::open(self.0.join(name)).map_err(|error| other(&error))
        }

        /// Checks that a file of that name may be written, by what exists.
        pub fn may_write(&self, name: &OsStr, replace: bool) -> Result<(), Trouble> {
            let Ok(about) = fs::symlink_metadata(self.0.join(name)) else { return Ok(()) };
            if about.is_symlink() {
                return Err(Trouble::Link(name.to_string_lossy().into_owned()));
            }
            match (about.is_dir(), about.is_file(), replace) {
                (true, _, _) => Err(Trouble::Folder),
                (_, false, _) => Err(Trouble::Special),
                (_, true, true) => Ok(()),
                (_, true, false) => Err(Trouble::There),
            }
        }

        /// A new file in progress, and its name.
        pub fn fresh(&self) -> Result<(String, File), Trouble> {
            for count in 0..TRIES {
                let name = fresh_name(count);
                match OpenOptions::new().write(true).create_new(true).open(self.0.join(&name)) {
                    Ok(file) => return Ok((name, file)),
                    Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => {}
                    Err(error) => return Err(other(&error)),
                }
            }
            Err(Trouble::There)
        }

        /// Renames the finished file into place.
        pub fn place(&self, fresh: &str, name: &OsStr, replace: bool) -> Result<(), Trouble> {
            let (from, to) = (self.0.join(fresh), self.0.join(name));
            let placed = if replace {
                fs::rename(&from, &to)
            } else {
                fs::hard_link(&from, &to).and_then(|()| fs::remove_file(&from))
            };
            placed.map_err(|error| other(&error))
        }

        /// Removes a file in progress after a failure.
        pub fn drop_fresh(&self, fresh: &str) {
            let _ = fs::remove_file(self.0.join(fresh));
        }
    }
}

#[cfg(test)]
#[cfg(unix)]
mod tests;
