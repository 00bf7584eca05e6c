//! From the command line to the task: settings, terminal, exit code.

use std::ffi::OsString;
use std::io::{self, IsTerminal, Write};
use std::path::PathBuf;
use std::process::ExitCode;
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use crate::args::{Args, Task};
use crate::batch::HostMaker;
use crate::batch::facts::REPLIES;
use crate::book;
use crate::diag::Diagnostic;
use crate::drive::{Driver, Manners, Next};
use crate::host::{Disk, Host};
use crate::lang::{Aside, Limits, with_room};
use crate::measure::Graduation;
use crate::session::{Grants, Session};
use crate::shell;
use crate::shop::Settings;
use crate::show::fact::schema::schema;
use crate::show::{Press, json, plain_text};

mod batch;
mod plan;

/// Exit status of a run in which a line failed.
const FAILED: u8 = 1;
/// Exit status of wrong usage.
const USAGE: u8 = 2;
/// Exit status of a run that was interrupted twice.
const INTERRUPTED: i32 = 130;
/// Columns without a terminal.
const COLUMNS: usize = 80;

/// Runs a command line, whose first word is the program's name.
pub fn start(words: impl IntoIterator<Item = OsString>) -> ExitCode {
    let args = match Args::read(words) {
        Ok(args) => args,
        Err(error) => {
            // Help and version are not mistakes and go to standard output.
            let code = if error.use_stderr() { USAGE } else { 0 };
            let _ = error.print();
            return ExitCode::from(code);
        }
    };
    // A panic becomes an error of the line; its message is not for the framer.
    std::panic::set_hook(Box::new(|_| {}));
    match in_room(&args) {
        Ok(false) => ExitCode::SUCCESS,
        Ok(true) => ExitCode::from(FAILED),
        // The reader of our answers has closed the pipe.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => ExitCode::SUCCESS,
        Err(error) => {
            let _ = writeln!(io::stderr(), "error: {error}");
            ExitCode::from(FAILED)
        }
    }
}

/// Runs the task on a thread whose stack is large enough for any script. Gives whether anything failed.
fn in_room(args: &Args) -> io::Result<bool> {
    let home = args.home.clone().or_else(|| std::env::var_os("BENCHRULE_HOME").map(PathBuf::from));
    let home = home.filter(|home| !home.as_os_str().is_empty());
    let settings = Session::settings(&Disk::new(home.clone()));
    let memory = Limits::of(&settings.0).memory;
    with_room(memory, move || perform(args, home, settings))?
}

/// Runs the task. Gives whether anything failed.
fn perform(args: &Args, home: Option<PathBuf>, (settings, found): (Settings, Vec<Diagnostic>)) -> io::Result<bool> {
    let host = Rc::new(Disk::new(home.clone()));
    let mut out = io::BufWriter::new(io::stdout());
    let mut err = io::stderr();
    let interactive = args.task == Task::Lines && io::stdin().is_terminal() && io::stdout().is_terminal();
    let mut driver = Driver::new(&mut out, &mut err, manners(args));
    // Faulty settings and rules never keep anyone from the bench; they are reported and not used.
    for one in &found {
        driver.complain(one, "")?;
        driver.fail();
    }
    let mut session = Session::new(host.clone(), settings, Rc::new(Press { width: width() }));
    if let Some(graduation) = asked_graduation(args, &session) {
        session.set_graduation(graduation);
    }
    session.grant(grants(args));
    session.listen(Rc::new(say));
    if !interactive && matches!(args.task, Task::Lines | Task::Say(_)) {
        session.before_opening_book(Box::new(close_on_interrupt));
    }
    match &args.task {
        Task::Lines if interactive => {
            shell::run(session, &mut driver, host.data(), width)?;
            // Failures at the prompt were shown there.
            return Ok(false);
        }
        Task::Lines => driver.pipe(&mut session, io::stdin().lock())?,
        Task::Say(lines) => {
            for line in lines {
                if driver.block(&mut session, line)? == Next::Quit {
                    break;
                }
            }
        }
        Task::Run(file, words) => {
            stop_on_interrupt(session.stop_flag())?;
            let outcome = session.run(file, words);
            driver.answer(&session, "", &outcome)?;
        }
        Task::Schema => {
            let schema = schema(&[json::replies(), REPLIES.to_vec()].concat());
            driver.text(format!("{schema:#}\n").as_bytes())?;
        }
        Task::Plan(asked) => {
            let stop = session.stop_flag();
            stop_on_interrupt(stop.clone())?;
            plan::plan(asked, &*host, &session.fresh_bench(), &stop, &mut driver)?;
        }
        Task::Batch(asked) => {
            let stop = session.stop_flag();
            stop_on_interrupt(stop.clone())?;
            let home = home.clone();
            let host: HostMaker = Box::new(move || Rc::new(Disk::new(home.clone())));
            batch::batch(asked, session.in_force().clone(), host, &stop, &mut driver)?;
        }
    }
    let failed = driver.failed();
    out.flush()?;
    Ok(failed)
}

/// The folders that scripts may read and write.
fn grants(args: &Args) -> Grants {
    let usual = Grants::default();
    Grants { read: if args.read.is_empty() { usual.read } else { args.read.clone() }, write: args.write.clone() }
}

/// Shows what a script reports while it runs. Progress is shown at a terminal only, in one line that is overwritten until
/// all is done.
fn say(said: &Aside) {
    let mut err = io::stderr();
    // The script continues even if nobody can read this.
    let _ = match said {
        Aside::Log(text) => writeln!(err, "{}", plain_text(text)),
        Aside::Progress(done, of) if err.is_terminal() => {
            let end = if done == of { "\n" } else { "" };
            write!(err, "\r{done} of {of}{end}")
        }
        Aside::Progress(..) => Ok(()),
    };
}

/// Lets Ctrl-C end a script with an error, and a plan with the best so far; a second Ctrl-C ends the program.
fn stop_on_interrupt(stop: Arc<AtomicBool>) -> io::Result<()> {
    let handler = move || {
        if stop.swap(true, Ordering::Relaxed) {
            end_by_interrupt();
        }
    };
    ctrlc::set_handler(handler).map_err(io::Error::other)
}

/// Lets Ctrl-C end the program with its design book closed.
///
/// Lines from arguments and pipes need a handler only for that, so it is set up when a book is opened: a sum starts sooner
/// without it.
fn close_on_interrupt() {
    // A second book finds the handler set. Without a handler, the next program to open the book repairs it after an interrupt.
    let _ = ctrlc::set_handler(end_by_interrupt);
}

fn end_by_interrupt() {
    book::close_all();
    std::process::exit(INTERRUPTED);
}

/// The tape for the unit of the command line, if the shop's tape has the other unit.
fn asked_graduation(args: &Args, session: &Session) -> Option<Graduation> {
    let metric = args.unit.as_deref()? == "mm";
    let is_metric = session.manner().graduation.metric;
    (metric != is_metric).then(|| if metric { Graduation::millimetres() } else { Graduation::sixteenths() })
}

fn manners(args: &Args) -> Manners {
    let colour = |terminal: bool| match args.color.as_str() {
        "always" => true,
        "never" => false,
        _ => terminal && std::env::var_os("NO_COLOR").is_none_or(|value| value.is_empty()),
    };
    Manners {
        json: args.json,
        width: width(),
        colour: colour(io::stdout().is_terminal()),
        error_colour: colour(io::stderr().is_terminal()),
    }
}

/// The columns of the terminal, else of `COLUMNS`, else 80.
fn width() -> usize {
    let terminal = if io::stdout().is_terminal() { terminal_size::terminal_size() } else { None };
    let said = || std::env::var("COLUMNS").ok()?.parse().ok().filter(|columns| *columns > 0);
    terminal.map(|(columns, _)| usize::from(columns.0)).or_else(said).unwrap_or(COLUMNS)
}
