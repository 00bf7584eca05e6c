//! Imported scripts: their names, what is loaded and what is loading.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fmt;
use std::rc::Rc;

use rhai::{Module, Shared};

use super::limits::Reached;
use super::powers::Workshop;
use super::source::Source;
use super::trouble::Trouble;
use crate::diag::Fault;

/// The scripts that are loaded, and those that are loading.
#[derive(Default)]
pub struct Imports {
    loading: RefCell<Vec<String>>,
    loaded: RefCell<BTreeMap<String, Imported>>,
}

/// A loaded script, and what must live as long as it.
struct Imported {
    text: String,
    module: Shared<Module>,
    // Errors of its functions are shown in its text.
    _source: Rc<Source>,
}

/// Why a script cannot be imported.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Refused {
    /// The name leads elsewhere.
    Name(String),
    /// The script imports itself, by way of these.
    Circle(Vec<String>),
    /// There is no such script.
    Missing(String),
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Name(name) => {
                write!(f, "`{name}` is not a script name; use letters, digits, `_`, `-` and `/`")
            }
            Self::Circle(names) => write!(f, "these scripts import one another: {}", names.join(", ")),
            Self::Missing(name) => write!(f, "there is no script `{name}`"),
        }
    }
}

impl Fault for Refused {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::IMPORT
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

impl Imports {
    /// The text of the script `name` as the workshop has it, to be imported at most `most` deep.
    pub fn text(&self, workshop: &dyn Workshop, name: &str, most: usize) -> Result<String, Trouble> {
        check(name)?;
        let loading = self.loading.borrow();
        if loading.iter().any(|one| one == name) {
            return Err(Refused::Circle(loading.clone()).into());
        }
        if loading.len() >= most {
            return Err(Reached::Imports(most).into());
        }
        Ok(workshop.script(name)?.ok_or_else(|| Refused::Missing(name.to_string()))?)
    }

    /// The module of the script `name`, if it was loaded from this very text.
    pub fn loaded(&self, name: &str, text: &str) -> Option<Shared<Module>> {
        let loaded = self.loaded.borrow();
        loaded.get(name).filter(|known| known.text == text).map(|known| Shared::clone(&known.module))
    }

    /// Loads the script `name` by `load`, during which it cannot be imported again.
    pub fn load(
        &self,
        name: &str,
        text: String,
        load: impl FnOnce(&str) -> Result<(Shared<Module>, Rc<Source>), Trouble>,
    ) -> Result<Shared<Module>, Trouble> {
        self.loading.borrow_mut().push(name.to_string());
        let made = load(&text);
        self.loading.borrow_mut().pop();
        let (module, source) = made?;
        let imported = Imported { text, module: Shared::clone(&module), _source: source };
        self.loaded.borrow_mut().insert(name.to_string(), imported);
        Ok(module)
    }
}

/// Checks that a name stays within the folders of scripts, on every kind of machine.
fn check(name: &str) -> Result<(), Refused> {
    let letter = |letter: char| letter.is_alphanumeric() || matches!(letter, '_' | '-' | ' ');
    let part = |part: &str| !part.is_empty() && part.chars().all(letter) && part.trim() == part;
    let fine = name.len() <= 200 && name.split('/').all(part);
    if fine { Ok(()) } else { Err(Refused::Name(name.to_string())) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_stay_in_their_folder() {
        for fine in ["float", "gallery/float frame", "größe", "a-b_c/d2"] {
            assert_eq!(check(fine), Ok(()), "{fine}");
        }
        let bad = ["", "..", "../a", "a/../b", "/a", "a//b", "a/", "C:a", "a\\b", "a.rhai", ".", "~/a", " a", "a\0"];
        for name in bad {
            assert_eq!(check(name), Err(Refused::Name(name.into())), "{name}");
        }
    }
}
