//! Runs over tables of works, as others meet them: tables with faults, folders in the way, runs that are stopped.

mod folders;
mod golden;
mod left_out;
mod resumed;
mod shows;
mod styles;
mod tables;
#[cfg(unix)]
mod terminal;

use std::collections::BTreeMap;
use std::path::Path;

use crate::program::Home;

/// Three styles of these tests, in the folder of styles of a home.
fn shop() -> Home {
    let home = Home::new();
    std::fs::create_dir(home.path().join("styles")).unwrap();
    for (name, text) in [
        ("thin-edge", include_str!("styles/thin-edge.rhai")),
        ("dark-well", include_str!("styles/dark-well.rhai")),
        ("paper-lip", include_str!("styles/paper-lip.rhai")),
    ] {
        home.file(&format!("styles/{name}.rhai"), text);
    }
    home
}

/// Every file below a folder with what is in it.
fn contents(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut waiting = vec![folder.to_path_buf()];
    while let Some(at) = waiting.pop() {
        for entry in std::fs::read_dir(at).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                waiting.push(path);
            } else {
                let name = path.strip_prefix(folder).unwrap().to_string_lossy().replace('\\', "/");
                found.insert(name, std::fs::read(path).unwrap());
            }
        }
    }
    found
}
