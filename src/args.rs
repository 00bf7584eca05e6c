//! The command line.

use std::path::PathBuf;
use std::time::Duration;

use clap::builder::PossibleValuesParser;
use clap::{Arg, ArgAction, ArgMatches, Command, value_parser};

/// A command line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Args {
    /// The task.
    pub task: Task,
    /// The one folder for all files of the program.
    pub home: Option<PathBuf>,
    /// The bench unit for this run.
    pub unit: Option<String>,
    /// When to use color: `auto`, `always`, `never`.
    pub color: String,
    /// Whether each line is answered with a JSON object.
    pub json: bool,
    /// Folders that scripts may read; the current one if there are none.
    pub read: Vec<PathBuf>,
    /// Folders that scripts may write.
    pub write: Vec<PathBuf>,
}

/// A task.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Task {
    /// The shell, or lines from a pipe.
    Lines,
    /// These lines in order.
    Say(Vec<String>),
    /// A script with its arguments.
    Run(PathBuf, Vec<String>),
    /// A cutting plan from tables.
    Plan(PlanArgs),
    /// A table of works, framed row by row.
    Batch(BatchArgs),
    /// The JSON Schema of all replies.
    Schema,
}

/// The arguments of `batch`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BatchArgs {
    /// The table of works; `-` is standard input.
    pub jobs: PathBuf,
    /// The name of a style or its file, for rows that name none.
    pub style: Option<String>,
    /// The folder that everything is written to.
    pub out: Option<PathBuf>,
    /// Whether all rows are planned together.
    pub plan: bool,
    /// Whether the designs are saved in the book.
    pub keep: bool,
    /// Whether rows that an earlier run finished are skipped.
    pub resume: bool,
    /// The number of threads; by default, one for each core.
    pub threads: usize,
}

/// The arguments of `plan`. Lengths are as typed, because the bench unit is not known yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlanArgs {
    /// The table of parts; `-` is standard input.
    pub parts: PathBuf,
    /// The table of stock, `-` for standard input; none for the stock of the shop.
    pub stock: Option<PathBuf>,
    /// The width that a cut removes.
    pub kerf: Option<String>,
    /// The waste at each end of a stick.
    pub trim: Option<String>,
    /// The shortest offcut worth keeping.
    pub offcut: Option<String>,
    /// How long the search may take.
    pub limit: Duration,
    /// Where the plan goes as a table.
    pub out: Option<PathBuf>,
}

fn command() -> Command {
    let shared = |name: &'static str| Arg::new(name).long(name).global(true);
    Command::new("benchrule")
        .version(env!("CARGO_PKG_VERSION"))
        .about("Frame maths at the bench: exact dimensions, frame builds, house styles.")
        .after_help("Without a command: starts the shell, or runs the lines of a pipe.")
        .arg(
            Arg::new("line")
                .short('e')
                .value_name("LINE")
                .action(ArgAction::Append)
                .allow_hyphen_values(true)
                .help("Runs this line; may be repeated"),
        )
        .arg(
            shared("home")
                .value_name("DIR")
                .value_parser(value_parser!(PathBuf))
                .help("Keeps all files of the program under one folder"),
        )
        .arg(
            shared("unit")
                .value_name("in|mm")
                .value_parser(PossibleValuesParser::new(["in", "mm"]))
                .help("Unit of numbers without a unit, in this run"),
        )
        .arg(
            shared("color")
                .value_name("WHEN")
                .value_parser(PossibleValuesParser::new(["auto", "always", "never"]))
                .default_value("auto")
                .help("When to use color"),
        )
        .arg(folders("read").help("Lets scripts read below this folder instead of the current one; may be repeated"))
        .arg(folders("write").help("Lets scripts write below this folder; may be repeated"))
        .arg(shared("json").action(ArgAction::SetTrue).help("Answers each line with one JSON object"))
        .subcommand(
            Command::new("run")
                .about("Runs a script")
                .arg(
                    Arg::new("out")
                        .long("out")
                        .value_name("DIR")
                        .value_parser(value_parser!(PathBuf))
                        .help("Folder that the script writes to"),
                )
                .arg(Arg::new("file").value_name("FILE").required(true).value_parser(value_parser!(PathBuf)))
                .arg(
                    Arg::new("args")
                        .value_name("ARGS")
                        .num_args(0..)
                        .trailing_var_arg(true)
                        .allow_hyphen_values(true)
                        .help("Texts that the script finds in `args`"),
                ),
        )
        .subcommand(plan_command())
        .subcommand(batch_command())
        .subcommand(Command::new("schema").about("Prints the JSON Schema of everything that --json answers"))
}

fn batch_command() -> Command {
    let flag = |name: &'static str, help: &'static str| Arg::new(name).long(name).action(ArgAction::SetTrue).help(help);
    Command::new("batch")
        .about("Frames a table of works, one a row")
        .after_help(
            "Columns are fields such as art and quantity, style, and answers to the questions of styles; an empty cell \
             sets nothing. JSON objects work too, one a line.",
        )
        .arg(
            Arg::new("jobs")
                .value_name("JOBS")
                .required(true)
                .value_parser(value_parser!(PathBuf))
                .help("The table of works, with commas, semicolons or tabs; - reads a pipe"),
        )
        .arg(
            Arg::new("style")
                .long("style")
                .value_name("NAME|FILE")
                .help("Style for rows that name no style; `none` in a row means no style"),
        )
        .arg(
            Arg::new("out")
                .long("out")
                .value_name("DIR")
                .value_parser(value_parser!(PathBuf))
                .help("Writes sheets, JSON and tables of the run to a new or empty folder"),
        )
        .arg(flag("plan", "Plans the cutting of all rows together"))
        .arg(flag("keep", "Saves each design in the design book under its name"))
        .arg(
            flag("resume", "Continues a run in its folder; finished rows that have not changed are not framed again")
                .requires("out"),
        )
        .arg(
            Arg::new("threads")
                .long("threads")
                .value_name("COUNT")
                .value_parser(value_parser!(u16).range(1..=256))
                .help("How many rows to frame at once; by default, the number of cores"),
        )
}

fn folders(name: &'static str) -> Arg {
    Arg::new(name)
        .long(name)
        .global(true)
        .value_name("DIR")
        .action(ArgAction::Append)
        .value_parser(value_parser!(PathBuf))
}

fn plan_command() -> Command {
    let file = |name: &'static str| Arg::new(name).value_name("FILE").value_parser(value_parser!(PathBuf));
    let length = |name: &'static str, help: &'static str| {
        Arg::new(name).long(name).value_name("LENGTH").allow_hyphen_values(true).help(help)
    };
    Command::new("plan")
        .about("Plans how parts are cut from sticks, boards and sheets at the least cost")
        .arg(
            file("parts")
                .value_name("PARTS")
                .required(true)
                .help("A table with name,length,quantity and, if needed, wood,section,joint,miter; - reads a pipe"),
        )
        .arg(
            file("stock")
                .long("stock")
                .help("A table of stock with what,length,width,count,cost,wood,section, or length,count,cost for sticks; by default, the shop's stock"),
        )
        .arg(length("kerf", "Width that a square cut removes; by default, shop.kerf"))
        .arg(length("trim", "Waste at each end of a stick; by default, shop.trim"))
        .arg(length("offcut", "Shortest offcut worth keeping; by default, shop.offcut"))
        .arg(
            Arg::new("limit")
                .long("limit")
                .value_name("SECONDS")
                .value_parser(seconds)
                .default_value("10")
                .help("How long to search for a better plan"),
        )
        .arg(file("out").long("out").help("Writes the plan to a table"))
}

/// A time from 0 up to a year.
fn seconds(text: &str) -> Result<Duration, String> {
    const YEAR: f64 = 365.0 * 86_400.0;
    let seconds = text.parse::<f64>().ok().filter(|seconds| (0.0..=YEAR).contains(seconds));
    seconds.map(Duration::from_secs_f64).ok_or_else(|| "give a number of seconds, such as 10 or 0.5".into())
}

impl Args {
    /// Reads the words of a command line, the program's name first.
    ///
    /// # Errors
    /// What clap says: wrong usage, or a call for help.
    pub fn read(words: impl IntoIterator<Item = std::ffi::OsString>) -> Result<Self, clap::Error> {
        let matches = command().try_get_matches_from(words)?;
        let task = match matches.subcommand() {
            Some(("run", run)) => Task::Run(
                run.get_one::<PathBuf>("file").cloned().unwrap_or_default(),
                run.get_many::<String>("args").unwrap_or_default().cloned().collect(),
            ),
            Some(("plan", plan)) => Task::Plan(plan_args(plan)),
            Some(("batch", batch)) => Task::Batch(batch_args(batch)),
            Some(("schema", _)) => Task::Schema,
            _ => match matches.get_many::<String>("line") {
                Some(lines) => Task::Say(lines.cloned().collect()),
                None => Task::Lines,
            },
        };
        let home = path(&matches, "home");
        let out = matches.subcommand().filter(|(word, _)| *word == "run").and_then(|(_, run)| path(run, "out"));
        Ok(Self {
            task,
            home,
            unit: matches.get_one::<String>("unit").cloned(),
            color: matches.get_one::<String>("color").cloned().unwrap_or_else(|| "auto".into()),
            json: matches.get_flag("json"),
            read: paths(&matches, "read"),
            write: out.into_iter().chain(paths(&matches, "write")).collect(),
        })
    }
}

fn plan_args(matches: &ArgMatches) -> PlanArgs {
    let text = |name: &str| matches.get_one::<String>(name).cloned();
    PlanArgs {
        parts: path(matches, "parts").unwrap_or_default(),
        stock: path(matches, "stock"),
        kerf: text("kerf"),
        trim: text("trim"),
        offcut: text("offcut"),
        limit: matches.get_one::<Duration>("limit").copied().unwrap_or_default(),
        out: path(matches, "out"),
    }
}

fn batch_args(matches: &ArgMatches) -> BatchArgs {
    BatchArgs {
        jobs: path(matches, "jobs").unwrap_or_default(),
        style: matches.get_one::<String>("style").cloned(),
        out: path(matches, "out"),
        plan: matches.get_flag("plan"),
        keep: matches.get_flag("keep"),
        resume: matches.get_flag("resume"),
        threads: matches.get_one::<u16>("threads").map_or(0, |threads| usize::from(*threads)),
    }
}

fn paths(matches: &ArgMatches, name: &str) -> Vec<PathBuf> {
    matches.get_many::<PathBuf>(name).unwrap_or_default().cloned().collect()
}

fn path(matches: &ArgMatches, name: &str) -> Option<PathBuf> {
    matches.get_one::<PathBuf>(name).cloned()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(line: &str) -> Result<Args, clap::Error> {
        Args::read(line.split(' ').map(Into::into))
    }

    #[test]
    fn options_stand_before_or_after_the_task() {
        let before = read("benchrule --unit mm --json run a.rhai x -y").unwrap();
        let after = read("benchrule run --unit mm --json a.rhai x -y").unwrap();
        assert_eq!(before, after);
        assert_eq!(before.task, Task::Run("a.rhai".into(), vec!["x".into(), "-y".into()]));
    }

    #[test]
    fn folders_are_granted() {
        let args = read("benchrule --read a run --out b --write c --read d show.rhai --read e x --read f").unwrap();
        let paths = |names: &[&str]| names.iter().map(PathBuf::from).collect::<Vec<_>>();
        assert_eq!(args.write, paths(&["b", "c"]));
        // Options after the task count; options after an argument of the script belong to the script.
        assert_eq!(args.read, paths(&["d", "e"]));
        assert_eq!(args.task, Task::Run("show.rhai".into(), vec!["x".into(), "--read".into(), "f".into()]));
        let args = read("benchrule --write c -e 1").unwrap();
        assert_eq!((args.read, args.write), (paths(&[]), paths(&["c"])));
    }

    #[test]
    fn lines_come_in_order() {
        assert_eq!(read("benchrule -e 1 -e -2").unwrap().task, Task::Say(vec!["1".into(), "-2".into()]));
        assert_eq!(read("benchrule").unwrap().task, Task::Lines);
    }

    #[test]
    fn a_plan_is_told_its_tables() {
        let Task::Plan(plan) = read("benchrule plan p.csv --stock s.csv --kerf 1/8 --limit 0.5").unwrap().task else {
            panic!("a plan");
        };
        assert_eq!((plan.parts, plan.stock), ("p.csv".into(), Some("s.csv".into())));
        assert_eq!((plan.kerf.as_deref(), plan.trim, plan.limit), (Some("1/8"), None, Duration::from_millis(500)));
        let Task::Plan(plan) = read("benchrule plan p.csv").unwrap().task else { panic!("a plan") };
        assert_eq!(plan.stock, None);
        assert!(read("benchrule plan").is_err());
        assert!(read("benchrule plan p.csv --stock s.csv --limit -1").is_err());
        assert!(read("benchrule plan p.csv --stock s.csv --limit soon").is_err());
    }

    #[test]
    fn a_batch_is_told_what_to_make() {
        let Task::Batch(batch) =
            read("benchrule batch j.csv --style a --out o --plan --resume --threads 3").unwrap().task
        else {
            panic!("a batch");
        };
        assert_eq!((batch.jobs.to_str(), batch.style.as_deref(), batch.threads), (Some("j.csv"), Some("a"), 3));
        assert_eq!((batch.plan, batch.keep, batch.resume), (true, false, true));
        assert!(read("benchrule batch").is_err());
        // Without a folder there is nothing to resume.
        assert!(read("benchrule batch j.csv --resume").is_err());
        assert!(read("benchrule batch j.csv --threads 0").is_err());
    }

    #[test]
    fn wrong_usage_is_refused() {
        assert!(read("benchrule --unit ell").is_err());
        assert!(read("benchrule dance").is_err());
        assert!(read("benchrule run").is_err());
    }
}
