//! Which file of the program uses which, read from the paths in the text.

use std::collections::{BTreeMap, BTreeSet};

use crate::source::{Source, sources};

/// The parts of a path: `measure`, `kind`, `Kind`.
type Parts = Vec<String>;

/// A file of the program as a module.
struct Module {
    file: String,
    /// What its `use` lines bring in, by the name that it has here.
    names: BTreeMap<String, Parts>,
    /// Every path that its code writes out.
    paths: Vec<Parts>,
}

/// Every module by its path from the root of the crate.
pub struct Program(BTreeMap<Parts, Module>);

/// The files that each file uses.
pub type Uses = BTreeMap<String, BTreeSet<String>>;

impl Program {
    /// The program as it is in `src`.
    pub fn read() -> Self {
        Self::of(sources())
    }

    fn of(sources: Vec<Source>) -> Self {
        Self(sources.into_iter().map(|source| (module_path(&source.path), Module::read(source))).collect())
    }

    /// For each file the files that hold what it names. A name that a module passes on with `pub use` counts for the
    /// file that defines it. Methods are not seen: their calls name no path.
    pub fn uses(&self) -> Uses {
        let used = |(path, module): (&Parts, &Module)| {
            let named = module.paths.iter().chain(module.names.values());
            let files = named.filter_map(|named| self.file(&self.absolute(path, named)?));
            (module.file.clone(), files.filter(|file| *file != module.file).map(String::from).collect())
        };
        self.0.iter().map(used).collect()
    }

    /// A path from the root of the crate; none if it leads out of the crate.
    fn absolute(&self, module: &[String], path: &[String]) -> Option<Parts> {
        let (first, rest) = path.split_first()?;
        let joined = |start: &[String]| [start, rest].concat();
        match first.as_str() {
            "crate" => Some(rest.to_vec()),
            "self" => self.within(module, rest),
            "super" => self.within(&module[..module.len().checked_sub(1)?], rest),
            _ if self.0.contains_key(&[module, &path[..1]].concat()) => Some([module, path].concat()),
            _ => {
                let brought = self.0.get(module)?.names.get(first).filter(|brought| brought[0] != *first)?;
                self.absolute(module, &joined(brought))
            }
        }
    }

    /// A path after `self::` or `super::`, which may continue with `super::`.
    fn within(&self, module: &[String], rest: &[String]) -> Option<Parts> {
        if rest.first().is_some_and(|part| part == "super") {
            return self.absolute(module, rest);
        }
        Some([module, rest].concat())
    }

    /// The file that defines what is at the end of a path.
    fn file(&self, path: &[String]) -> Option<&str> {
        let modules = (0..=path.len()).take_while(|parts| self.0.contains_key(&path[..*parts])).last()?;
        let (own, rest) = path.split_at(modules);
        let module = &self.0[own];
        match rest.split_first().and_then(|(name, rest)| Some((module.names.get(name)?, rest))) {
            Some((passed, rest)) => self.file(&self.absolute(own, &[passed, rest].concat())?),
            None => Some(&module.file),
        }
    }
}

impl Module {
    fn read(source: Source) -> Self {
        let (mut names, mut code) = (Vec::new(), String::new());
        let mut rest = source.code.as_str();
        while let Some(start) = use_line(rest) {
            let end = start + rest[start..].find(';').unwrap_or(rest.len() - start);
            code += &rest[..start];
            let tree = rest[start..end].split_once("use ").map_or("", |(_, tree)| tree);
            brought(tree, &[], &mut names);
            rest = &rest[end..];
        }
        code += rest;
        Self { file: source.path, names: names.into_iter().collect(), paths: paths(&code) }
    }
}

/// `show/answer/mod.rs` is `show`, `answer`.
fn module_path(file: &str) -> Parts {
    let parts = file.trim_end_matches(".rs").split('/');
    parts.filter(|part| !["mod", "lib"].contains(part)).map(String::from).collect()
}

/// Where the next line begins that brings in names.
fn use_line(text: &str) -> Option<usize> {
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        let words = line.trim_start();
        let words = words
            .strip_prefix("pub")
            .map_or(words, |rest| rest.trim_start_matches(|letter| letter != ' ').trim_start());
        if words.starts_with("use ") {
            return Some(start);
        }
        start += line.len();
    }
    None
}

/// The names that a tree of a `use` line brings in, each with its path.
fn brought(tree: &str, before: &[String], names: &mut Vec<(String, Parts)>) {
    let tree = tree.trim();
    if let Some((start, list)) = tree.split_once('{') {
        let before = [before, &parts(start)].concat();
        let list = list.trim_end_matches(|letter| letter != '}');
        let list = list.strip_suffix('}').unwrap_or(list);
        let mut depth = 0_u32;
        let ends = |letter: char| {
            match letter {
                '{' => depth += 1,
                '}' => depth -= 1,
                _ => {}
            }
            letter == ',' && depth == 0
        };
        list.split(ends).filter(|branch| !branch.trim().is_empty()).for_each(|branch| brought(branch, &before, names));
        return;
    }
    let (path, name) = tree.split_once(" as ").map_or((tree, None), |(path, name)| (path, Some(name)));
    let mut path = [before, &parts(path)].concat();
    if path.last().is_some_and(|part| part == "self") {
        path.pop();
    }
    if let Some(last) = path.last().cloned() {
        names.push((name.map_or(last, String::from), path));
    }
}

fn parts(path: &str) -> Parts {
    path.split("::").map(str::trim).filter(|part| !part.is_empty()).map(String::from).collect()
}

/// Every path of two parts or more in the code.
fn paths(code: &str) -> Vec<Parts> {
    // `pub(in crate::lang)` says who may use a name, and uses nothing.
    let code = code.replace("(in crate::", "(in ");
    let inside = |letter: char| letter.is_alphanumeric() || letter == '_' || letter == ':';
    let words = code.split(|letter| !inside(letter)).filter(|word| word.contains("::"));
    words.map(parts).filter(|path| path.len() > 1).collect()
}

#[test]
fn trees_of_use_lines_are_taken_apart() {
    let mut names = Vec::new();
    brought("super::{a::{self, B}, c as D}", &[], &mut names);
    let found: Vec<String> = names.iter().map(|(name, path)| format!("{name}={}", path.join("/"))).collect();
    assert_eq!(found, ["a=super/a", "B=super/a/B", "D=super/c"]);
}

#[test]
fn files_are_found_through_what_modules_pass_on() {
    let source = |path: &str, code: &str| Source { path: path.into(), code: code.into() };
    let uses = Program::of(vec![
        source("lib.rs", "pub mod a;\n"),
        source("a/mod.rs", "mod b;\nmod c;\npub use b::B;\n"),
        source("a/b.rs", "pub struct B;\n"),
        source("a/c.rs", "use std::fmt;\nuse super::B;\nfn f() { crate::a::d::g(fmt::w()) }\n"),
        source("a/d.rs", "use crate::a::{\n    c,\n};\nfn g() { c::f() }\n"),
    ])
    .uses();
    let of = |file: &str| uses[file].iter().cloned().collect::<Vec<_>>().join(" ");
    assert_eq!(of("a/mod.rs"), "a/b.rs");
    assert_eq!(of("a/c.rs"), "a/b.rs a/d.rs");
    assert_eq!(of("a/d.rs"), "a/c.rs");
}
