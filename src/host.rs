//! The world outside: files, folders, the clock. Everything else is handed a [`Host`] and never looks around itself.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::io::{self, BufRead, BufReader, BufWriter, Cursor, Read, Write};
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::time::{SystemTime, UNIX_EPOCH};

use crate::diag::codes::file;
use crate::diag::{Code, Fault, Says, says};

mod below;

/// The largest file that is read as a script or as settings, and the longest line of a pipe.
pub const LARGEST: u64 = 4 << 20;

/// What the program may ask of the machine it runs on.
pub trait Host {
    /// The whole text of a file.
    ///
    /// # Errors
    /// It is missing, a folder, empty of text, too large, not readable.
    fn read(&self, path: &Path) -> Result<String, FileFault>;

    /// The text of a file below a folder, of at most so many bytes, reached through no link whatever happens meanwhile.
    ///
    /// # Errors
    /// A path that leads out of the folder, a link, no plain file, too large, no text, not there.
    fn read_below(&self, folder: &Path, path: &Path, most: usize) -> Result<String, FileFault>;

    /// Puts a text in a file below a folder, whole or not at all, through no link; folders on the way are made. A file that
    /// is there is left alone unless it is to be replaced.
    ///
    /// # Errors
    /// A path that leads out of the folder, a link, no plain file, a file that is there, no room.
    fn write_below(&self, folder: &Path, path: &Path, text: &str, replace: bool) -> Result<(), FileFault>;

    /// Puts a text in a file, whole or not at all, making its folder if need be.
    ///
    /// # Errors
    /// It cannot be written.
    fn write(&self, path: &Path, text: &str) -> Result<(), FileFault>;

    /// Keeps others who ask for the same file waiting until the hold is let go: a file that is read, changed and written
    /// is not changed by another in between.
    ///
    /// # Errors
    /// The folder cannot be written to.
    fn hold(&self, path: &Path) -> Result<Hold, FileFault>;

    /// The names of the files and folders in a folder, in order; of a missing folder none.
    fn list(&self, folder: &Path) -> Vec<String>;

    /// Whether there is a folder.
    fn is_folder(&self, path: &Path) -> bool;

    /// Whether a file of a folder lies elsewhere, by way of a link.
    fn leads_out(&self, folder: &Path, file: &Path) -> bool;

    /// The folder of settings and styles.
    fn config(&self) -> Option<PathBuf>;

    /// The folder of what is kept: the design book, benches, the history of lines.
    fn data(&self) -> Option<PathBuf>;

    /// The file of the design book, as its database opens it.
    fn book(&self) -> Option<PathBuf> {
        self.data().map(|folder| folder.join(BOOK))
    }

    /// Seconds since the beginning of 1970, universal time.
    fn now(&self) -> i64;

    /// The clock for times.
    fn zone(&self) -> Zone;

    /// A text to be read bit by bit, however long.
    ///
    /// # Errors
    /// It is missing, a folder, not readable.
    fn reading(&self, path: &Path) -> Result<Box<dyn BufRead>, FileFault>;

    /// The size of a file in bytes, if that is known before reading.
    fn size(&self, path: &Path) -> Option<u64>;

    /// Appends to a file, or begins it; what was written survives a kill of the program.
    ///
    /// # Errors
    /// It cannot be written.
    fn adding(&self, path: &Path) -> Result<Box<dyn Write>, FileFault>;

    /// Puts in a file what `work` writes, whole or not at all, and safe on disk when this returns.
    ///
    /// # Errors
    /// It cannot be written; what `work` fails with.
    fn writing(&self, path: &Path, work: &mut dyn FnMut(&mut dyn Write) -> io::Result<()>) -> Result<(), FileFault>;
}

/// A file that is held; let go when dropped, or when the program ends however it ends.
#[derive(Debug)]
pub struct Hold(#[allow(dead_code, reason = "an open file holds its lock")] Option<std::fs::File>);

/// Puts a table in a file that is not there yet, is empty, or has the same first line, in a folder that is there.
///
/// # Errors
/// Something else lies there; there is no such folder; it cannot be written.
pub fn write_table(host: &dyn Host, path: &Path, text: &str, what: &'static str) -> Result<(), FileFault> {
    match host.reading(path) {
        Ok(reader) => {
            let mut first = Vec::new();
            let head = text.lines().next().unwrap_or_default().as_bytes();
            let read = reader.take(LARGEST_HEAD).read_until(b'\n', &mut first);
            if read.is_err() || !(first.is_empty() || first.trim_ascii_end() == head) {
                return Err(FileFault { path: path.into(), trouble: Trouble::Unlike(what) });
            }
        }
        Err(fault) if fault.trouble == Trouble::Missing => {}
        Err(fault) => return Err(fault),
    }
    host.writing(path, &mut |out| out.write_all(text.as_bytes())).map_err(|fault| {
        if fault.trouble == Trouble::Missing { FileFault { trouble: Trouble::Nowhere, ..fault } } else { fault }
    })
}

/// The name of a table that is to be written under the name of another kind of file, where it is.
pub fn named_otherwise(path: &Path) -> Option<PathBuf> {
    let ending = path.extension()?;
    ["json", "jsonl", "txt", "md", "pdf"]
        .iter()
        .any(|other| ending.eq_ignore_ascii_case(other))
        .then(|| path.with_extension("csv"))
}

/// More than the first line of any table of the program.
const LARGEST_HEAD: u64 = 256;

/// The clock for times.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Zone {
    /// Of the place where the machine stands.
    Local,
    /// Universal.
    Universal,
}

/// The file of the design book, in the folder of what is kept.
pub const BOOK: &str = "book.db";

/// Why a file was not read or written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileFault {
    /// The file.
    pub path: PathBuf,
    /// What is the matter.
    pub trouble: Trouble,
}

/// What can be the matter with a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// Not there.
    Missing,
    /// A folder.
    Folder,
    /// Larger than [`LARGEST`].
    Large,
    /// Something else than what is to be written there: what that is.
    Unlike(&'static str),
    /// In a folder that is not there.
    Nowhere,
    /// Not UTF-8 text; the byte where it stops being so.
    NotText(usize),
    /// Larger than a script may read: so many bytes.
    Larger(usize),
    /// Not below the folder that it is looked for in.
    Outside,
    /// A link, or behind one: the part of the path that is.
    Link(String),
    /// A file with another name elsewhere, which is a link as well.
    Shared,
    /// Neither a file nor a folder.
    Special,
    /// A part of the path is not a folder.
    NoFolder(String),
    /// There already.
    There,
    /// Anything else the machine says.
    Other(String),
}

impl Fault for FileFault {
    fn code(&self) -> &'static Code {
        match self.trouble {
            Trouble::Missing | Trouble::Nowhere | Trouble::NoFolder(_) => &file::MISSING,
            Trouble::There | Trouble::Unlike(_) => &file::EXISTS,
            Trouble::Large | Trouble::Larger(_) => &file::TOO_LARGE,
            Trouble::Folder | Trouble::Special | Trouble::NotText(_) => &file::NOT_TEXT,
            Trouble::Outside | Trouble::Link(_) | Trouble::Shared => &file::OUTSIDE,
            Trouble::Other(_) => &file::OTHER,
        }
    }

    fn says(&self) -> Says {
        let path = self.path.display();
        match &self.trouble {
            Trouble::Missing => says!("there is no file {}", path),
            Trouble::Folder => says!("{} is a folder, not a file", path),
            Trouble::Unlike(what) => says!("{} exists and is not a {}; not overwritten", path, what),
            Trouble::Nowhere => {
                let folder = self.path.parent().unwrap_or(&self.path).display();
                says!("{} cannot be written: there is no folder {}", path, folder)
            }
            Trouble::Large => says!("{} is too large for a script: over {} MiB", path, LARGEST >> 20),
            Trouble::NotText(at) => says!("{} is not UTF-8 text: byte {} is not part of a letter", path, at),
            Trouble::Larger(most) => {
                says!("{} is too large: a script reads at most {} MiB", path, most >> 20)
            }
            Trouble::Outside => {
                says!("{} leads outside its folder; scripts reach only what is below it", path)
            }
            Trouble::Link(part) => says!("{} goes through the link {}; scripts do not follow links", path, part),
            Trouble::Shared => {
                says!("{} is a link: the file has a second name, and scripts do not follow links", path)
            }
            Trouble::Special => says!("{} is not a plain file", path),
            Trouble::NoFolder(part) => says!("{} cannot be reached: {} is not a folder", path, part),
            Trouble::There => says!("{} exists; not overwritten", path),
            Trouble::Other(why) => says!("{} cannot be used: {}", path, why),
        }
    }
}

/// Writes a file whole or not at all: under a name that nobody has, then renamed.
fn whole(path: &Path, work: &mut dyn FnMut(&mut std::fs::File) -> io::Result<()>) -> Result<(), FileFault> {
    let failed = |error: io::Error| fault(path, &error);
    let (fresh, mut file) = fresh_beside(path).map_err(failed)?;
    let written = work(&mut file).and_then(|()| std::fs::rename(&fresh, path));
    written.map_err(|error| {
        // Half a file helps nobody.
        let _ = std::fs::remove_file(&fresh);
        failed(error)
    })
}

/// A new file beside another, under a name that is nobody's.
fn fresh_beside(path: &Path) -> io::Result<(PathBuf, std::fs::File)> {
    for count in 0..below::TRIES {
        let fresh = path.with_file_name(below::fresh_name(count));
        match std::fs::File::create_new(&fresh) {
            Ok(file) => return Ok((fresh, file)),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
            Err(error) => return Err(error),
        }
    }
    Err(io::ErrorKind::AlreadyExists.into())
}

fn fault(path: &Path, error: &std::io::Error) -> FileFault {
    let trouble = if error.kind() == std::io::ErrorKind::NotFound {
        Trouble::Missing
    } else if error.kind() == std::io::ErrorKind::IsADirectory {
        Trouble::Folder
    } else {
        Trouble::Other(error.to_string())
    };
    FileFault { path: path.into(), trouble }
}

/// Bytes as text, without a byte-order mark.
fn text_of(bytes: Vec<u8>) -> Result<String, Trouble> {
    let text = String::from_utf8(bytes).map_err(|error| Trouble::NotText(error.utf8_error().valid_up_to()))?;
    Ok(text.strip_prefix('\u{feff}').map(str::to_string).unwrap_or(text))
}

/// The machine's own disk.
#[derive(Debug, Default)]
pub struct Disk {
    home: Option<PathBuf>,
}

/// What the program's folders are called.
const FOLDER: &str = "benchrule";

impl Disk {
    /// With everything under one folder, or where the platform wants it.
    pub fn new(home: Option<PathBuf>) -> Self {
        Self { home }
    }
}

impl Host for Disk {
    fn read(&self, path: &Path) -> Result<String, FileFault> {
        let own = |trouble| FileFault { path: path.into(), trouble };
        let file = std::fs::File::open(path).map_err(|error| fault(path, &error))?;
        let about = file.metadata().map_err(|error| fault(path, &error))?;
        if about.is_dir() {
            return Err(own(Trouble::Folder));
        }
        if about.len() > LARGEST {
            return Err(own(Trouble::Large));
        }
        let mut bytes = Vec::new();
        // A pipe or a device has no length to look at, so the reading itself is bounded too.
        file.take(LARGEST + 1).read_to_end(&mut bytes).map_err(|error| fault(path, &error))?;
        if u64::try_from(bytes.len()).unwrap_or(u64::MAX) > LARGEST {
            return Err(own(Trouble::Large));
        }
        text_of(bytes).map_err(own)
    }

    fn read_below(&self, folder: &Path, path: &Path, most: usize) -> Result<String, FileFault> {
        below::read(folder, path, most).map_err(|trouble| FileFault { path: path.into(), trouble })
    }

    fn write_below(&self, folder: &Path, path: &Path, text: &str, replace: bool) -> Result<(), FileFault> {
        below::write(folder, path, text, replace).map_err(|trouble| FileFault { path: path.into(), trouble })
    }

    fn write(&self, path: &Path, text: &str) -> Result<(), FileFault> {
        if let Some(folder) = path.parent() {
            std::fs::create_dir_all(folder).map_err(|error| fault(path, &error))?;
        }
        // Not waited for until it is on the disk: a run over thousands of works would wait for minutes.
        whole(path, &mut |file| file.write_all(text.as_bytes()))
    }

    fn hold(&self, path: &Path) -> Result<Hold, FileFault> {
        let failed = |error: io::Error| fault(path, &error);
        if let Some(folder) = path.parent() {
            std::fs::create_dir_all(folder).map_err(failed)?;
        }
        // The file itself is replaced when it is written, and a lock with it; so the lock is on one beside it.
        let beside = path.with_extension("lock");
        let file = std::fs::File::options().create(true).truncate(false).write(true).open(beside).map_err(failed)?;
        match file.lock() {
            Ok(()) => Ok(Hold(Some(file))),
            // A disk without locks is still used.
            Err(error) if error.kind() == io::ErrorKind::Unsupported => Ok(Hold(None)),
            Err(error) => Err(failed(error)),
        }
    }

    fn reading(&self, path: &Path) -> Result<Box<dyn BufRead>, FileFault> {
        let file = std::fs::File::open(path).map_err(|error| fault(path, &error))?;
        if file.metadata().is_ok_and(|about| about.is_dir()) {
            return Err(FileFault { path: path.into(), trouble: Trouble::Folder });
        }
        Ok(Box::new(BufReader::new(file)))
    }

    fn size(&self, path: &Path) -> Option<u64> {
        std::fs::metadata(path).ok().filter(std::fs::Metadata::is_file).map(|about| about.len())
    }

    fn adding(&self, path: &Path) -> Result<Box<dyn Write>, FileFault> {
        let file = std::fs::File::options().append(true).create(true).open(path);
        file.map(|file| -> Box<dyn Write> { Box::new(file) }).map_err(|error| fault(path, &error))
    }

    fn writing(&self, path: &Path, work: &mut dyn FnMut(&mut dyn Write) -> io::Result<()>) -> Result<(), FileFault> {
        if path.is_dir() {
            return Err(FileFault { path: path.into(), trouble: Trouble::Folder });
        }
        whole(path, &mut |file| {
            let mut out = BufWriter::new(&mut *file);
            work(&mut out)?;
            out.flush()?;
            drop(out);
            file.sync_all()
        })?;
        // The new name must be on disk as well; not every system lets a folder be synced.
        if let Some(folder) = path.parent() {
            let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
            let _ = std::fs::File::open(folder).and_then(|folder| folder.sync_all());
        }
        Ok(())
    }

    fn now(&self) -> i64 {
        let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
        i64::try_from(since.as_secs()).unwrap_or(i64::MAX)
    }

    fn zone(&self) -> Zone {
        Zone::Local
    }

    fn list(&self, folder: &Path) -> Vec<String> {
        let Ok(entries) = std::fs::read_dir(folder) else {
            return Vec::new();
        };
        let mut names: Vec<String> =
            entries.flatten().filter_map(|entry| entry.file_name().into_string().ok()).collect();
        names.sort();
        names
    }

    fn is_folder(&self, path: &Path) -> bool {
        path.is_dir()
    }

    fn leads_out(&self, folder: &Path, file: &Path) -> bool {
        match (folder.canonicalize(), file.canonicalize()) {
            (Ok(folder), Ok(file)) => !file.starts_with(folder),
            // What is not there leads nowhere.
            _ => false,
        }
    }

    fn config(&self) -> Option<PathBuf> {
        self.home.clone().or_else(|| dirs::config_dir().map(|folder| folder.join(FOLDER)))
    }

    fn data(&self) -> Option<PathBuf> {
        self.home.clone().or_else(|| dirs::data_dir().map(|folder| folder.join(FOLDER)))
    }
}

/// A machine in memory, for tests and trials.
#[derive(Debug, Default)]
pub struct Memory {
    files: Rc<RefCell<BTreeMap<PathBuf, String>>>,
    /// Minutes that went by; one each time someone looks at the clock.
    minutes: Cell<i64>,
    /// So many more writes are done; all that follow fail, as when the program is killed.
    writes: Cell<Option<u32>>,
}

impl Memory {
    /// With these files.
    pub fn with(files: &[(&str, &str)]) -> Self {
        let files = files.iter().map(|(path, text)| (PathBuf::from(path), (*text).to_string())).collect();
        Self { files: Rc::new(RefCell::new(files)), ..Self::default() }
    }

    /// Does so many more writes and fails all that follow, as if the program were killed there; none ends that.
    pub fn stop_after(&self, writes: Option<u32>) {
        self.writes.set(writes);
    }
}

/// Writes at the end of a file of the memory machine.
struct Adding {
    files: Rc<RefCell<BTreeMap<PathBuf, String>>>,
    path: PathBuf,
}

impl Write for Adding {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let mut files = self.files.borrow_mut();
        files.entry(self.path.clone()).or_default().push_str(&String::from_utf8_lossy(bytes));
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// When the clock of the memory machine begins: noon of 2 March 2026, universal time.
const MEMORY_BEGINS: i64 = 1_772_452_800;

/// Where the memory machine keeps settings.
pub const MEMORY_HOME: &str = "/home";

impl Host for Memory {
    fn read(&self, path: &Path) -> Result<String, FileFault> {
        let files = self.files.borrow();
        files.get(path).cloned().ok_or_else(|| {
            let folder = files.keys().any(|file| file.starts_with(path));
            FileFault { path: path.into(), trouble: if folder { Trouble::Folder } else { Trouble::Missing } }
        })
    }

    fn read_below(&self, folder: &Path, path: &Path, most: usize) -> Result<String, FileFault> {
        let own = |trouble| FileFault { path: path.into(), trouble };
        let file = below::parts(path).map_err(own)?.iter().fold(below::plain(folder), |file, part| file.join(part));
        let text = self.read(&file).map_err(|fault| own(fault.trouble))?;
        if text.len() > most { Err(own(Trouble::Larger(most))) } else { Ok(text) }
    }

    fn write_below(&self, folder: &Path, path: &Path, text: &str, replace: bool) -> Result<(), FileFault> {
        let own = |trouble| FileFault { path: path.into(), trouble };
        let file = below::parts(path).map_err(own)?.iter().fold(below::plain(folder), |file, part| file.join(part));
        if !replace && self.files.borrow().contains_key(&file) {
            return Err(own(Trouble::There));
        }
        self.write(&file, text)
    }

    fn write(&self, path: &Path, text: &str) -> Result<(), FileFault> {
        match self.writes.get() {
            Some(0) => return Err(FileFault { path: path.into(), trouble: Trouble::Other("stopped".into()) }),
            left => self.writes.set(left.map(|left| left - 1)),
        }
        self.files.borrow_mut().insert(path.into(), text.into());
        Ok(())
    }

    fn hold(&self, _: &Path) -> Result<Hold, FileFault> {
        Ok(Hold(None))
    }

    fn book(&self) -> Option<PathBuf> {
        // A database of its own for each who opens it.
        Some(":memory:".into())
    }

    fn reading(&self, path: &Path) -> Result<Box<dyn BufRead>, FileFault> {
        Ok(Box::new(Cursor::new(self.read(path)?)))
    }

    fn size(&self, path: &Path) -> Option<u64> {
        self.files.borrow().get(path).and_then(|text| u64::try_from(text.len()).ok())
    }

    fn adding(&self, path: &Path) -> Result<Box<dyn Write>, FileFault> {
        self.files.borrow_mut().entry(path.into()).or_default();
        Ok(Box::new(Adding { files: Rc::clone(&self.files), path: path.into() }))
    }

    fn writing(&self, path: &Path, work: &mut dyn FnMut(&mut dyn Write) -> io::Result<()>) -> Result<(), FileFault> {
        let mut bytes = Vec::new();
        work(&mut bytes).map_err(|error| fault(path, &error))?;
        self.write(path, &String::from_utf8_lossy(&bytes))
    }

    fn now(&self) -> i64 {
        self.minutes.set(self.minutes.get() + 1);
        MEMORY_BEGINS + 60 * self.minutes.get()
    }

    fn zone(&self) -> Zone {
        Zone::Universal
    }

    fn list(&self, folder: &Path) -> Vec<String> {
        let folder = folder.strip_prefix(".").unwrap_or(folder);
        let files = self.files.borrow();
        let below = files.keys().filter_map(|file| file.strip_prefix(folder).ok()?.iter().next()?.to_str());
        below.map(String::from).collect::<std::collections::BTreeSet<_>>().into_iter().collect()
    }

    fn is_folder(&self, path: &Path) -> bool {
        let path = path.strip_prefix(".").unwrap_or(path);
        self.files.borrow().keys().any(|file| file != path && file.starts_with(path))
    }

    fn leads_out(&self, _: &Path, _: &Path) -> bool {
        false
    }

    fn config(&self) -> Option<PathBuf> {
        Some(MEMORY_HOME.into())
    }

    fn data(&self) -> Option<PathBuf> {
        Some(MEMORY_HOME.into())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_script_is_said() {
        let folder = tempfile::tempdir().unwrap();
        let disk = Disk::default();
        let trouble = |path: &Path| disk.read(path).unwrap_err().trouble;
        assert_eq!(trouble(&folder.path().join("none.rhai")), Trouble::Missing);
        assert_eq!(trouble(folder.path()), Trouble::Folder);
        let latin = folder.path().join("latin.rhai");
        std::fs::write(&latin, b"caf\xe9").unwrap();
        assert_eq!(trouble(&latin), Trouble::NotText(3));
        let large = folder.path().join("large.rhai");
        // A gigabyte of nothing takes no room on disk.
        std::fs::File::create(&large).unwrap().set_len(1 << 30).unwrap();
        assert_eq!(trouble(&large), Trouble::Large);
        let marked = folder.path().join("marked.rhai");
        std::fs::write(&marked, "\u{feff}1").unwrap();
        assert_eq!(disk.read(&marked).unwrap(), "1");
    }

    #[test]
    fn a_written_file_is_read_back() {
        let folder = tempfile::tempdir().unwrap();
        let disk = Disk::new(Some(folder.path().into()));
        let path = disk.config().unwrap().join("deep").join("shop.toml");
        disk.write(&path, "unit = \"mm\"").unwrap();
        assert_eq!(disk.read(&path).unwrap(), "unit = \"mm\"");
        assert_eq!(disk.list(path.parent().unwrap()), ["shop.toml"]);
    }
}
