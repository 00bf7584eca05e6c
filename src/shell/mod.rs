//! The interactive shell: a line editor around a session.

mod editor;
mod saved;

use std::io;
use std::path::PathBuf;
use std::rc::Rc;
use std::sync::atomic::Ordering;

use rustyline::error::ReadlineError;
use rustyline::history::FileHistory;
use rustyline::{CompletionType, Config, Editor};

use self::saved::Saved;
use crate::drive::{Driver, Next};
use crate::session::{Outcome, Session};

/// The file of the lines that were typed.
const LINES: &str = "lines";
/// How many of them are kept.
const KEPT: usize = 10_000;
/// The prompt.
const PROMPT: &str = "> ";

/// Reads lines from the terminal until someone quits.
///
/// # Errors
/// The terminal cannot be read or written.
pub fn run(
    mut session: Session,
    driver: &mut Driver,
    folder: Option<PathBuf>,
    width: impl Fn() -> usize + 'static,
) -> io::Result<()> {
    let stop = session.stop_flag();
    // Ctrl-C at the prompt belongs to the editor; while a script runs it stops the script.
    let handler = {
        let stop = stop.clone();
        move || stop.store(true, Ordering::Relaxed)
    };
    ctrlc::set_handler(handler).map_err(io::Error::other)?;
    let (mut saved, found) = Saved::take(folder.as_deref(), &mut session);
    match found {
        Ok(None) => {}
        Ok(Some(reply)) => {
            let outcome = Outcome { printed: Vec::new(), reply: Ok(reply), stopped: false };
            driver.answer(&session, "", &outcome)?;
        }
        Err(found) => driver.complain(&found, "")?,
    }
    driver.flush()?;
    let session = Rc::new(std::cell::RefCell::new(session));
    let config = Config::builder()
        .auto_add_history(false)
        .completion_type(CompletionType::List)
        .max_history_size(KEPT)
        .and_then(|builder| builder.history_ignore_dups(true))
        .map_err(io::Error::other)?
        .build();
    let mut editor: Editor<editor::Bench, FileHistory> = Editor::with_config(config).map_err(io::Error::other)?;
    let width: Rc<dyn Fn() -> usize> = Rc::new(width);
    editor.set_helper(Some(editor::Bench::new(session.clone(), width.clone())));
    let file = folder.map(|folder| folder.join(LINES));
    if let Some(file) = &file {
        // Without a history the shell is as good as with one.
        let _ = editor.load_history(file);
    }
    loop {
        match editor.readline(PROMPT) {
            Ok(line) => {
                // Kept before it runs, so that nothing typed is lost whatever the line does.
                keep(&mut editor, &line, file.as_ref());
                stop.store(false, Ordering::Relaxed);
                driver.set_width(width());
                let next = driver.block(&mut session.borrow_mut(), &line)?;
                driver.flush()?;
                if let Err(found) = saved.follow(&session.borrow()) {
                    driver.complain(&found, "")?;
                }
                if next == Next::Quit {
                    return Ok(());
                }
            }
            // A line given up is given up; the shell goes on.
            Err(ReadlineError::Interrupted) => {}
            Err(ReadlineError::Eof) => return Ok(()),
            Err(error) => return Err(io::Error::other(error)),
        }
    }
}

fn keep(editor: &mut Editor<editor::Bench, FileHistory>, line: &str, file: Option<&PathBuf>) {
    if line.trim().is_empty() {
        return;
    }
    let _ = editor.add_history_entry(line);
    if let Some(file) = file {
        if let Some(folder) = file.parent() {
            let _ = std::fs::create_dir_all(folder);
        }
        let _ = editor.append_history(file);
    }
}
