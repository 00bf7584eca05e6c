//! Files that fit a path as far as it is typed.

use std::path::Path;

use super::offer::Offer;
use super::session::Session;

impl Session {
    /// Files and folders that go on from a path; hidden ones are left out, and a name with blanks gets quotes.
    pub(super) fn files(&self, typed: &str, at: usize) -> Vec<Offer> {
        let open = typed.trim_start_matches('"');
        let (folder, begin) = open.rfind('/').map_or(("", open), |slash| open.split_at(slash + 1));
        let host = self.shelf.host();
        let place = if folder.is_empty() { Path::new(".") } else { Path::new(folder) };
        let names = host
            .list(place)
            .into_iter()
            .filter(|name| name.starts_with(begin) && !name.starts_with('.') && !name.contains(['"', '\n']));
        let offer = |name: String| {
            let is_folder = host.is_folder(&place.join(&name));
            let path = format!("{folder}{name}{}", if is_folder { "/" } else { "" });
            let text = match path.contains(char::is_whitespace) || typed.starts_with('"') {
                // What is in the folder may be typed next.
                true if is_folder => format!("\"{path}"),
                true => format!("\"{path}\""),
                false => path,
            };
            Offer::new(at, text, "")
        };
        names.map(offer).collect()
    }
}
