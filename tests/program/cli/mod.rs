//! The program as it is started: words of the command line, pipes, files, exit status.

mod files;
mod lines;
mod pipes;
mod plan;
mod scripts;
mod settings;
mod status;
mod stock;
mod tables;
mod usage;
