//! What a style hangs on beside its own text, so that what it framed before is known to be as it would be framed now.

use std::path::Path;

use super::style::{ENDING, hash};
use super::workshop::Workshop;
use crate::diag::Diagnostic;

/// Words by which a script reaches for another: an import, and the function that frames by another style.
const REACHES: [&str; 2] = ["import", "styled"];
/// Folders inside the folder of styles are gone through so deep; a link in them may lead round.
const DEEP: usize = 8;

impl Workshop {
    /// A mark of the texts that a style hangs on: its own alone, or with it all texts of the shop where it reaches for
    /// another, for what an import is called may be worked out only when it runs. What is shipped goes with the program.
    pub(super) fn style_mark(&self, name: &str) -> Result<String, Diagnostic> {
        let mut all = self.style_text(name)?;
        if REACHES.iter().any(|word| all.contains(word)) {
            if let Some((name, text)) = &*self.styles.handed.borrow() {
                all += &format!("{name}={text:?};");
            }
            if let Some(folder) = self.folder() {
                self.add_texts(&folder, "", DEEP, &mut all);
            }
        }
        Ok(format!("{:016x}", hash(all.bytes())))
    }

    /// Adds every script below a folder, which is called `within` inside that of the styles.
    fn add_texts(&self, folder: &Path, within: &str, deep: usize, all: &mut String) {
        for file in self.host.list(folder) {
            let (path, name) = (folder.join(&file), format!("{within}/{file}"));
            if name.ends_with(ENDING) {
                // One that cannot be read is another than one that is gone.
                let text = self.host.read(&path).unwrap_or_default();
                *all += &format!("{name}={text:?};");
            } else if deep > 0 {
                self.add_texts(&path, &name, deep - 1, all);
            }
        }
    }
}
