//! What has a name of its own and is defined once for each build: checks, pieces, cautions.

use super::book::Build;
use super::term::Placed;
use crate::diag::{Diagnostic, codes};

/// An entry on its way into a book.
pub(super) struct Once<'a> {
    /// What it is, for messages.
    pub what: &'static str,
    /// Its name.
    pub name: &'a Placed,
    /// The builds that it is for.
    pub builds: &'a [u8],
    /// Whether it replaces an entry of that name.
    pub instead: bool,
}

impl Once<'_> {
    /// Takes the builds of this entry away from the one that it replaces; `view` gives the name and the builds of an
    /// entry of the book, `all` are the builds of the book.
    ///
    /// # Errors
    /// A second entry of the name that does not say `instead`; one that says so and replaces nothing.
    pub fn make_room<T>(
        &self,
        book: &mut Vec<T>,
        view: fn(&mut T) -> (&str, &mut Vec<u8>),
        all: &[Build],
    ) -> Result<(), Diagnostic> {
        let (what, (name, place)) = (self.what, self.name);
        for build in self.builds {
            let same = book.iter_mut().map(view).filter(|(one, _)| one == name);
            let old = same.map(|(_, builds)| builds).find(|builds| builds.contains(build));
            let message = match (old, self.instead) {
                (Some(old), true) => {
                    old.retain(|one| one != build);
                    continue;
                }
                (None, false) => continue,
                (Some(_), false) => {
                    format!("the {what} \"{name}\" is defined twice; write `instead` before the one that counts")
                }
                (None, true) => {
                    let build = &all[usize::from(*build)].name;
                    format!("there is no {what} \"{name}\" for {build} to replace")
                }
            };
            return Err(Diagnostic::of(&codes::rules::DEFINED, message).at(place.clone()));
        }
        book.retain_mut(|one| !view(one).1.is_empty());
        Ok(())
    }
}
