//! Files below a folder, on the machine's own disk.

use std::fs;
use std::os::unix::fs::symlink;

use tempfile::TempDir;

use super::*;

/// A folder `in` that is granted, with `a.txt` and `deep/b.txt`, and a folder `out` beside it with `secret.txt`.
struct Place(TempDir);

impl Place {
    fn new() -> Self {
        let place = Self(tempfile::tempdir().unwrap());
        fs::create_dir_all(place.granted().join("deep")).unwrap();
        fs::create_dir(place.outside()).unwrap();
        fs::write(place.granted().join("a.txt"), "a").unwrap();
        fs::write(place.granted().join("deep/b.txt"), "b").unwrap();
        fs::write(place.outside().join("secret.txt"), "secret").unwrap();
        place
    }

    fn granted(&self) -> PathBuf {
        self.0.path().join("in")
    }

    fn outside(&self) -> PathBuf {
        self.0.path().join("out")
    }

    fn read(&self, path: &str) -> Result<String, Trouble> {
        read(&self.granted(), Path::new(path), 100)
    }

    fn write(&self, path: &str, replace: bool) -> Result<(), Trouble> {
        write(&self.granted(), Path::new(path), "new", replace)
    }

    /// What lies in both folders, link targets unread.
    fn names(&self) -> Vec<String> {
        let list = |folder: PathBuf| fs::read_dir(folder).unwrap().map(|one| one.unwrap().file_name());
        let mut names: Vec<String> =
            list(self.granted()).chain(list(self.outside())).map(|name| name.into_string().unwrap()).collect();
        names.sort();
        names
    }
}

#[test]
fn what_lies_below_is_read() {
    let place = Place::new();
    for (path, text) in [("a.txt", "a"), ("deep/b.txt", "b"), ("./deep/./b.txt", "b")] {
        assert_eq!(place.read(path).as_deref(), Ok(text), "{path}");
    }
    assert_eq!(place.read("none.txt"), Err(Trouble::Missing));
    assert_eq!(place.read("none/a.txt"), Err(Trouble::Missing));
    assert_eq!(place.read("deep"), Err(Trouble::Folder));
    assert_eq!(place.read("a.txt/b"), Err(Trouble::NoFolder("a.txt".into())));
}

#[test]
fn no_path_leads_out() {
    let place = Place::new();
    let absolute = place.outside().join("secret.txt");
    for path in ["../out/secret.txt", "deep/../../out/secret.txt", "..", "", ".", "/", absolute.to_str().unwrap()] {
        assert_eq!(place.read(path), Err(Trouble::Outside), "{path}");
        assert_eq!(place.write(path, true), Err(Trouble::Outside), "{path}");
    }
    // Not even where it would come back.
    assert_eq!(place.read("deep/../a.txt"), Err(Trouble::Outside));
}

#[test]
fn no_link_is_followed() {
    let place = Place::new();
    let here = |name: &str| place.granted().join(name);
    symlink(place.outside().join("secret.txt"), here("file")).unwrap();
    symlink(place.outside(), here("folder")).unwrap();
    symlink("a.txt", here("inside")).unwrap();
    symlink("nowhere", here("broken")).unwrap();
    fs::hard_link(place.outside().join("secret.txt"), here("second")).unwrap();
    let link = |part: &str| Trouble::Link(part.into());
    for (path, part) in [("file", "file"), ("folder/secret.txt", "folder"), ("inside", "inside"), ("broken", "broken")]
    {
        assert_eq!(place.read(path), Err(link(part)), "{path}");
        assert_eq!(place.write(path, true), Err(link(part)), "{path}");
        assert_eq!(place.write(path, false), Err(link(part)), "{path}");
    }
    assert_eq!(place.write("folder/new/x.txt", false), Err(link("folder")));
    assert_eq!(place.read("second"), Err(Trouble::Shared));
    // What replaces a second name leaves the first as it was.
    assert_eq!(place.write("second", true), Ok(()));
    assert_eq!(fs::read_to_string(place.outside().join("secret.txt")).unwrap(), "secret");
    assert_eq!(fs::read_dir(place.outside()).unwrap().count(), 1);
}

/// A name that becomes a link after it was opened leads nowhere else: the open folder is what counts.
#[test]
fn a_change_on_the_way_leads_nowhere() {
    let place = Place::new();
    let deep = within::Folder::below(&place.granted(), &[OsStr::new("deep")], false).unwrap();
    fs::rename(place.granted().join("deep"), place.granted().join("moved")).unwrap();
    symlink(place.outside(), place.granted().join("deep")).unwrap();
    assert!(matches!(deep.file(OsStr::new("secret.txt")), Err(Trouble::Missing)));
    let mut text = String::new();
    deep.file(OsStr::new("b.txt")).unwrap().read_to_string(&mut text).unwrap();
    assert_eq!(text, "b");
    // A file that appears between the check and the write is not overwritten.
    let (fresh, _) = deep.fresh().unwrap();
    assert_eq!(deep.may_write(OsStr::new("c.txt"), false), Ok(()));
    fs::write(place.granted().join("moved/c.txt"), "theirs").unwrap();
    assert_eq!(deep.place(&fresh, OsStr::new("c.txt"), false), Err(Trouble::There));
    assert_eq!(fs::read_to_string(place.granted().join("moved/c.txt")).unwrap(), "theirs");
}

#[test]
fn what_is_there_is_replaced_only_if_asked() {
    let place = Place::new();
    assert_eq!(place.write("a.txt", false), Err(Trouble::There));
    assert_eq!(place.read("a.txt").as_deref(), Ok("a"));
    assert_eq!(place.write("a.txt", true), Ok(()));
    assert_eq!(place.write("new/and/deep.txt", false), Ok(()));
    assert_eq!(place.read("new/and/deep.txt").as_deref(), Ok("new"));
    assert_eq!(place.write("deep", true), Err(Trouble::Folder));
    assert_eq!(place.write("a.txt/b", true), Err(Trouble::NoFolder("a.txt".into())));
    assert_eq!(place.names(), ["a.txt", "deep", "new", "secret.txt"]);
}

#[test]
fn only_plain_files_of_text_are_read() {
    let place = Place::new();
    let fifo = place.granted().join("pipe");
    rustix::fs::mknodat(rustix::fs::CWD, &fifo, rustix::fs::FileType::Fifo, rustix::fs::Mode::RWXU, 0).unwrap();
    assert_eq!(place.read("pipe"), Err(Trouble::Special));
    assert_eq!(place.write("pipe", true), Err(Trouble::Special));
    fs::write(place.granted().join("latin.txt"), b"caf\xe9").unwrap();
    assert_eq!(place.read("latin.txt"), Err(Trouble::NotText(3)));
    fs::write(place.granted().join("long.txt"), "x".repeat(101)).unwrap();
    assert_eq!(place.read("long.txt"), Err(Trouble::Larger(100)));
    fs::write(place.granted().join("marked.txt"), "\u{feff}a").unwrap();
    assert_eq!(place.read("marked.txt").as_deref(), Ok("a"));
}

/// A folder that nothing can be made in.
#[test]
fn what_cannot_be_written_leaves_nothing() {
    let place = Place::new();
    let long = "x".repeat(300);
    assert!(matches!(place.write(&long, false), Err(Trouble::Other(_))));
    assert!(matches!(place.write("nul\0.txt", false), Err(Trouble::Other(_))));
    assert_eq!(place.names(), ["a.txt", "deep", "secret.txt"]);
}
