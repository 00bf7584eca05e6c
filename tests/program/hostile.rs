//! Scripts of strangers that would take everything: `tests/program/hostile/*.rhai`, each run by the program in a process of its
//! own, as a script and as a style.
//!
//! A script begins with `// ends: MESSAGE`, what it is stopped with; where a style is stopped with something else,
//! `// as a style: MESSAGE` follows, and `// as a style: fine` where a style comes to its end. Work is counted in steps here, and
//! the clock has no say; `benches/hostile.sh` holds the same scripts against the clock.

use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::Mutex;
use std::thread;

use tempfile::TempDir;

use crate::long::{report, times};

/// The shop's own limits: few steps, no clock, memory as usual; in a long run steps and clock are as usual too.
fn settings() -> &'static str {
    if times() > 1 { "[script]\nwritten = 4\n" } else { "[script]\nsteps = 300000\nseconds = 3600\nwritten = 4\n" }
}

/// What is promised, in KiB.
const MEMORY: u64 = 256 << 10;

/// A folder `here` to work in, a home with styles, and `outside`, which nothing may reach.
struct Place(TempDir);

impl Place {
    fn new() -> Self {
        let place = Self(tempfile::tempdir().unwrap());
        let chain = |n: u32| format!("import \"chain{}\" as s;", n + 1);
        let looping = "fn build_for(art, asks) { loop { } }\nloop { }";
        let again = "fn build_for(art, asks) { styled(new_design(), \"again\") }";
        let mut files = vec![
            ("outside/secret.txt".to_string(), "secret".to_string()),
            ("outside/secret.rhai".into(), "const SECRET = 1;".into()),
            ("here/kept.txt".into(), "kept".into()),
            ("here/large.txt".into(), "x".repeat(5 << 20)),
            ("here/works.csv".into(), format!("name,width\n{}", "moth,16 3/8\"\n".repeat(5000))),
            ("here/folder/a.txt".into(), "a".into()),
            ("home/shop.toml".into(), settings().into()),
            ("home/styles/circle.rhai".into(), "import \"circle\" as s;".into()),
            ("home/styles/plain.rhai".into(), "const X = 1;".into()),
            ("home/styles/looping.rhai".into(), looping.into()),
            ("home/styles/again.rhai".into(), again.into()),
        ];
        files.extend((0..20).map(|n| (format!("home/styles/chain{n}.rhai"), chain(n))));
        for (path, text) in files {
            let path = place.path(&path);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, text).unwrap();
        }
        links(&place);
        place
    }

    fn path(&self, path: &str) -> PathBuf {
        self.0.path().join(path)
    }

    fn command(&self) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_benchrule"));
        for name in ["BENCHRULE_HOME", "NO_COLOR", "COLUMNS"] {
            command.env_remove(name);
        }
        command.current_dir(self.path("here")).arg("--home").arg(self.path("home"));
        command.stdout(Stdio::piped()).stderr(Stdio::piped());
        command
    }

    /// The folder that nothing may reach is as it was, and so is what is kept.
    fn is_untouched(&self) {
        let mut names: Vec<_> =
            fs::read_dir(self.path("outside")).unwrap().map(|one| one.unwrap().file_name()).collect();
        names.sort();
        assert_eq!(names, ["secret.rhai", "secret.txt"]);
        assert_eq!(fs::read_to_string(self.path("outside/secret.txt")).unwrap(), "secret");
        assert_eq!(fs::read_to_string(self.path("here/kept.txt")).unwrap(), "kept");
        assert_eq!(fs::read_to_string(self.path("home/shop.toml")).unwrap(), settings());
        assert!(!Path::new("/tmp/benchrule-hostile.txt").exists());
    }
}

#[cfg(unix)]
fn links(place: &Place) {
    use std::os::unix::fs::symlink;
    symlink(place.path("outside/secret.txt"), place.path("here/link.txt")).unwrap();
    symlink("..", place.path("here/up")).unwrap();
    symlink(place.path("outside/secret.rhai"), place.path("home/styles/link.rhai")).unwrap();
    fs::write(place.path("here/first.txt"), "first").unwrap();
    fs::hard_link(place.path("here/first.txt"), place.path("here/second.txt")).unwrap();
    let pipe = rustix::fs::FileType::Fifo;
    rustix::fs::mknodat(rustix::fs::CWD, place.path("here/pipe"), pipe, rustix::fs::Mode::RWXU, 0).unwrap();
}

#[cfg(not(unix))]
fn links(_: &Place) {}

/// A hostile script.
struct Script {
    name: String,
    text: String,
    ends: String,
    as_a_style: String,
}

fn scripts() -> Vec<Script> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/program/hostile");
    let mut files: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|one| one.unwrap().path()).collect();
    files.sort();
    let script = |file: PathBuf| {
        let text = fs::read_to_string(&file).unwrap();
        let name = file.file_stem().unwrap().to_str().unwrap().to_string();
        let line = |number: usize, mark: &str| text.lines().nth(number)?.strip_prefix(mark).map(str::to_string);
        let ends = line(0, "// ends: ").unwrap_or_else(|| panic!("{name} does not say how it ends"));
        let as_a_style = line(1, "// as a style: ").unwrap_or_else(|| ends.clone());
        Script { name, text, ends, as_a_style }
    };
    files.into_iter().map(script).collect()
}

/// Does `work` with each script, two at a time, and says everything that is wrong.
fn each(work: impl Fn(&Place, &Script) -> Result<(), String> + Sync) {
    let scripts = scripts();
    assert!(scripts.len() >= 100, "{}", scripts.len());
    if times() > 1 {
        report(&format!("{} hostile scripts with the usual limits", scripts.len()));
    }
    let (next, wrong) = (Mutex::new(scripts.iter()), Mutex::new(Vec::new()));
    thread::scope(|scope| {
        for _ in 0..2 {
            scope.spawn(|| {
                let place = Place::new();
                loop {
                    let Some(script) = next.lock().unwrap().next() else { break };
                    if let Err(found) = work(&place, script) {
                        wrong.lock().unwrap().push(format!("{}: {found}", script.name));
                    }
                    place.is_untouched();
                }
            });
        }
    });
    let wrong = wrong.into_inner().unwrap();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// One message that begins as it should, and nothing that broke. With the usual limits the clock, or what a script may
/// print, can end it before the limit that it was written for.
fn one_message(err: &str, wanted: &str) -> Result<(), String> {
    let messages = err.lines().filter(|line| line.starts_with("error: ")).count();
    let all = err.split_whitespace().collect::<Vec<_>>().join(" ");
    let begins = |wanted: &str| all.contains(&format!("error: {wanted}"));
    let limited = times() > 1 && (begins("stopped ") || begins("a script prints at most "));
    match messages {
        0 if wanted == "fine" => Ok(()),
        1 if begins(wanted) || limited => Ok(()),
        _ => Err(format!("wanted `{wanted}`, got `{}`", err.get(..400.min(err.len())).unwrap_or("?"))),
    }
}

/// As `run`, on a bench that waits for more afterwards, and reports the most that it held.
#[test]
fn each_ends_as_a_script_and_holds_little() {
    each(|place, script| {
        let file = place.path("here/script.rhai");
        fs::write(&file, &script.text).unwrap();
        let (err, status) = held(place, "run script.rhai\n")?;
        one_message(&err, &script.ends)?;
        if status == Some(1) { Ok(()) } else { Err(format!("{status:?}")) }
    });
}

/// The same as styles.
#[test]
fn each_ends_as_a_style_and_holds_little() {
    each(|place, script| {
        let style = format!("{}\n;\nfn build_for(art, asks) {{ new_design() }}\n", script.text);
        fs::write(place.path("home/styles/hostile.rhai"), style).unwrap();
        let (err, status) = held(place, "art 16 x 20 x 1\nstyle hostile\n")?;
        one_message(&err, &script.as_a_style)?;
        let wanted = i32::from(script.as_a_style != "fine");
        if status == Some(wanted) { Ok(()) } else { Err(format!("{status:?}")) }
    });
}

/// Has lines done by a bench, then looks at most that it ever held while it waits for more. What it complains of, and
/// how it ends.
fn held(place: &Place, lines: &str) -> Result<(String, Option<i32>), String> {
    let mut child = place.command().args(["--write", "."]).stdin(Stdio::piped()).spawn().unwrap();
    let mut err = child.stderr.take().unwrap();
    let complaints = thread::spawn(move || {
        let mut bytes = Vec::new();
        err.read_to_end(&mut bytes).unwrap();
        String::from_utf8_lossy(&bytes).into_owned()
    });
    let mut input = child.stdin.take().unwrap();
    input.write_all(format!("{lines}\"all done\"\n").as_bytes()).unwrap();
    let mut out = BufReader::new(child.stdout.take().unwrap());
    let mut line = Vec::new();
    while line != b"all done\n" {
        line.clear();
        if out.read_until(b'\n', &mut line).unwrap() == 0 {
            break;
        }
    }
    let most = peak(&child);
    drop(input);
    let status = child.wait().unwrap().code();
    let complaints = complaints.join().unwrap();
    match most {
        Some(most) if most > MEMORY => Err(format!("held {most} KiB")),
        Some(_) | None => Ok((complaints, status)),
    }
}

/// The most that a process ever held, in KiB, where the system reports it.
fn peak(child: &Child) -> Option<u64> {
    let status = fs::read_to_string(format!("/proc/{}/status", child.id())).ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    line.split_whitespace().next()?.parse().ok()
}
