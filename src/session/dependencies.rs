//! The texts that a style depends on, so that a run knows whether its finished rows are still current.

use std::path::Path;

use super::style::{ENDING, hash};
use super::workshop::Workshop;
use crate::diag::Diagnostic;

/// Words by which a script uses another: an import, and the function that frames by another style.
const USES: [&str; 2] = ["import", "styled"];
/// The deepest folder inside the folder of styles to look into; a link may lead in a circle.
const DEEP: usize = 8;

impl Workshop {
    /// A hash of the texts that a style depends on: its own, and all styles of the shop if it uses another, because the
    /// name of an import may be known only when the script runs. Shipped styles belong to the version of the program.
    pub(super) fn style_mark(&self, name: &str) -> Result<String, Diagnostic> {
        let mut all = self.style_text(name)?;
        if USES.iter().any(|word| all.contains(word)) {
            if let Some((name, text)) = &*self.styles.handed.borrow() {
                all += &format!("{name}={text:?};");
            }
            if let Some(folder) = self.folder() {
                self.add_texts(&folder, "", DEEP, &mut all);
            }
        }
        Ok(format!("{:016x}", hash(all.bytes())))
    }

    /// Adds all scripts below a folder, whose path inside the folder of styles is `within`.
    fn add_texts(&self, folder: &Path, within: &str, deep: usize, all: &mut String) {
        for file in self.host.list(folder) {
            let (path, name) = (folder.join(&file), format!("{within}/{file}"));
            if name.ends_with(ENDING) {
                // A script that cannot be read differs from one that is gone.
                let text = self.host.read(&path).unwrap_or_default();
                *all += &format!("{name}={text:?};");
            } else if deep > 0 {
                self.add_texts(&path, &name, deep - 1, all);
            }
        }
    }
}
