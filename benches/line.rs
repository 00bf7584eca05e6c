//! How long a line takes: read, run and laid out; and what an engine costs.

#![allow(missing_docs, clippy::unwrap_used)]

use std::io;
use std::rc::Rc;

use benchrule::drive::{Driver, Manners};
use benchrule::host::Memory;
use benchrule::lang::{Engine, Mode, Settings as EngineSettings, prepass, read_line};
use benchrule::session::Session;
use benchrule::shop::Settings;
use benchrule::show::Press;
use divan::{Bencher, black_box};

fn main() {
    divan::main();
}

const WIDTH: usize = 80;
const MANNERS: Manners = Manners { json: false, width: WIDTH, colour: false, error_colour: false };

fn session() -> Session {
    let mut session = Session::new(Rc::new(Memory::default()), Settings::default(), Rc::new(Press { width: WIDTH }));
    assert!(session.line("art 16 1/64 x 20 x 1 1/4").reply.is_ok());
    assert!(session.line("1 + 1").reply.is_ok());
    session
}

/// The lines in turn, each as a pipe does it: read, run, laid out, written.
fn answered(bencher: Bencher, manners: Manners, lines: [&str; 2]) {
    let mut session = session();
    let (mut out, mut err) = (io::sink(), io::sink());
    let mut driver = Driver::new(&mut out, &mut err, manners);
    let mut turn = 0;
    bencher.bench_local(move || {
        turn = 1 - turn;
        driver.line(&mut session, lines[turn]).unwrap()
    });
}

#[divan::bench]
fn a_sum(bencher: Bencher) {
    answered(bencher, MANNERS, ["11 3/8\" + 2*5/8\"", "11 5/8\" + 2*3/8\""]);
}

#[divan::bench]
fn a_field_that_changes_the_design(bencher: Bencher) {
    answered(bencher, MANNERS, ["reveal 3/8", "reveal 7/16"]);
}

#[divan::bench]
fn a_sheet(bencher: Bencher) {
    answered(bencher, MANNERS, ["sheet", "sheet"]);
}

#[divan::bench]
fn a_design_in_json(bencher: Bencher) {
    answered(bencher, Manners { json: true, ..MANNERS }, ["sheet", "sheet"]);
}

#[divan::bench]
fn an_error(bencher: Bencher) {
    answered(bencher, MANNERS, ["reveel 3/8", "11 3/8\" + 2lb"]);
}

#[divan::bench(args = ["11 + 2*5/8", "11 3/8\" + 2*5/8\""])]
fn reading_and_rewriting(bencher: Bencher, line: &str) {
    let session = session();
    bencher.bench_local(|| {
        black_box(read_line(black_box(line), &session).unwrap());
        black_box(prepass(black_box(line), Mode::Prompt, &session).unwrap().script.len())
    });
}

#[divan::bench]
fn an_engine(bencher: Bencher) {
    bencher.bench_local(|| black_box(Engine::new(EngineSettings::default())));
}

#[divan::bench]
fn a_session(bencher: Bencher) {
    bencher.bench_local(|| {
        black_box(Session::new(Rc::new(Memory::default()), Settings::default(), Rc::new(Press { width: WIDTH })))
    });
}
