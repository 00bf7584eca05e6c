//! The command line.

use std::path::PathBuf;

use clap::builder::PossibleValuesParser;
use clap::{Arg, ArgAction, ArgMatches, Command, value_parser};

/// What the command line asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Args {
    /// What to do.
    pub task: Task,
    /// One folder for everything that is kept.
    pub home: Option<PathBuf>,
    /// The bench unit for this run.
    pub unit: Option<String>,
    /// When to colour: `auto`, `always`, `never`.
    pub color: String,
    /// One JSON object a line.
    pub json: bool,
}

/// What to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Task {
    /// The shell, or lines from a pipe.
    Lines,
    /// These lines in order.
    Say(Vec<String>),
    /// A script with its arguments.
    Run(PathBuf, Vec<String>),
}

fn command() -> Command {
    let shared = |name: &'static str| Arg::new(name).long(name).global(true);
    Command::new("benchrule")
        .version(env!("CARGO_PKG_VERSION"))
        .about("Frame maths at the bench: exact dimensions, frame builds, house styles.")
        .after_help("Without a task: the shell, or lines from a pipe.")
        .arg(
            Arg::new("line")
                .short('e')
                .value_name("LINE")
                .action(ArgAction::Append)
                .allow_hyphen_values(true)
                .help("Does this line; may be given again and again"),
        )
        .arg(
            shared("home")
                .value_name("DIR")
                .value_parser(value_parser!(PathBuf))
                .help("Keeps everything under one folder"),
        )
        .arg(
            shared("unit")
                .value_name("in|mm")
                .value_parser(PossibleValuesParser::new(["in", "mm"]))
                .help("The bench unit"),
        )
        .arg(
            shared("color")
                .value_name("WHEN")
                .value_parser(PossibleValuesParser::new(["auto", "always", "never"]))
                .default_value("auto")
                .help("When to colour"),
        )
        .arg(shared("json").action(ArgAction::SetTrue).help("Answers each line with one JSON object"))
        .subcommand(
            Command::new("run")
                .about("Runs a script")
                .arg(Arg::new("file").value_name("FILE").required(true).value_parser(value_parser!(PathBuf)))
                .arg(
                    Arg::new("args")
                        .value_name("ARGS")
                        .num_args(0..)
                        .trailing_var_arg(true)
                        .allow_hyphen_values(true)
                        .help("Reach the script as texts in `args`"),
                ),
        )
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
            _ => match matches.get_many::<String>("line") {
                Some(lines) => Task::Say(lines.cloned().collect()),
                None => Task::Lines,
            },
        };
        let home = path(&matches, "home");
        Ok(Self {
            task,
            home,
            unit: matches.get_one::<String>("unit").cloned(),
            color: matches.get_one::<String>("color").cloned().unwrap_or_else(|| "auto".into()),
            json: matches.get_flag("json"),
        })
    }
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
    fn lines_come_in_order() {
        assert_eq!(read("benchrule -e 1 -e -2").unwrap().task, Task::Say(vec!["1".into(), "-2".into()]));
        assert_eq!(read("benchrule").unwrap().task, Task::Lines);
    }

    #[test]
    fn wrong_usage_is_refused() {
        assert!(read("benchrule --unit ell").is_err());
        assert!(read("benchrule dance").is_err());
        assert!(read("benchrule run").is_err());
    }
}
