//! Arguments in, exit code out.

use std::process::ExitCode;

fn main() -> ExitCode {
    benchrule::start::start(std::env::args_os())
}
