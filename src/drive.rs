//! Lines from arguments, files and pipes through a session, answers to where they belong.

use std::io::{self, BufRead, BufReader, Read, Write};

use crate::diag::{Diagnostic, codes};
use crate::host::LARGEST;
use crate::lang::{Growing, is_complete};
use crate::measure::Manner;
use crate::session::{Outcome, Planned, Reply, Session};
use crate::show::answer::Asked;
use crate::show::{Label, Page, answer, finding, json, plain_text};

/// How answers are written.
#[derive(Clone, Copy, Debug)]
pub struct Manners {
    /// One JSON object a line.
    pub json: bool,
    /// How many columns there are.
    pub width: usize,
    /// Whether answers are colored.
    pub colour: bool,
    /// Whether errors are.
    pub error_colour: bool,
}

/// Where answers and errors go, and how the run went so far.
pub struct Driver<'a> {
    out: &'a mut dyn Write,
    err: &'a mut dyn Write,
    manners: Manners,
    failed: bool,
}

/// Whether to go on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Next {
    /// With the next line.
    On,
    /// Someone quit.
    Quit,
}

impl<'a> Driver<'a> {
    /// Answers to `out`, errors to `err`; with JSON everything to `out`.
    pub fn new(out: &'a mut dyn Write, err: &'a mut dyn Write, manners: Manners) -> Self {
        Self { out, err, manners, failed: false }
    }

    /// Whether any line failed, or showed a design that cannot be made.
    pub fn failed(&self) -> bool {
        self.failed
    }

    /// Lays answers out for another width from now on.
    pub fn set_width(&mut self, width: usize) {
        self.manners.width = width;
    }

    /// Counts the run as failed.
    pub fn fail(&mut self) {
        self.failed = true;
    }

    /// How answers are written.
    pub fn manners(&self) -> Manners {
        self.manners
    }

    /// Writes a page where answers go.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn page(&mut self, page: &Page) -> io::Result<()> {
        self.text(page.render(self.manners.width, self.manners.colour).as_bytes())
    }

    /// Writes text where answers go, as it is.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn text(&mut self, text: &[u8]) -> io::Result<()> {
        self.out.write_all(text)
    }

    /// Where answers go.
    pub fn answers(&mut self) -> &mut dyn Write {
        self.out
    }

    /// Hands on what was written so far.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn flush(&mut self) -> io::Result<()> {
        self.out.flush()
    }

    /// Does a block that was typed or pasted at once, statement by statement, as a pipe would be taken apart.
    ///
    /// # Errors
    /// An answer cannot be written.
    pub fn block(&mut self, session: &mut Session, text: &str) -> io::Result<Next> {
        let mut from = 0;
        for (at, _) in text.match_indices('\n').chain([(text.len(), "")]) {
            let statement = &text[from..at];
            if at < text.len() && !is_complete(statement, session) {
                continue;
            }
            from = (at + 1).min(text.len());
            // Blank lines of a block say nothing; a block of nothing is one blank line.
            let said = statement.trim_end_matches('\r');
            if (text.trim().is_empty() || !said.trim().is_empty()) && self.line(session, said)? == Next::Quit {
                return Ok(Next::Quit);
            }
        }
        Ok(Next::On)
    }

    /// Does one line and writes what comes of it.
    ///
    /// # Errors
    /// The answer cannot be written.
    pub fn line(&mut self, session: &mut Session, text: &str) -> io::Result<Next> {
        let outcome = session.line(text);
        self.answer(session, text, &outcome)
    }

    /// Writes what came of a line or a script.
    ///
    /// # Errors
    /// The answer cannot be written.
    pub fn answer(&mut self, session: &Session, typed: &str, outcome: &Outcome) -> io::Result<Next> {
        self.failed |= outcome.stopped || outcome.reply.is_err();
        if self.manners.json {
            self.write_json(session, typed, outcome)?;
        } else {
            self.write_pages(session, typed, outcome)?;
        }
        Ok(if matches!(outcome.reply, Ok(Reply::Quit)) { Next::Quit } else { Next::On })
    }

    fn write_json(&mut self, session: &Session, typed: &str, outcome: &Outcome) -> io::Result<()> {
        let manner = session.manner();
        let answer = json::outcome(outcome, typed);
        json::write(self.out, &*answer, &outcome.printed, &manner)
    }

    fn write_pages(&mut self, session: &Session, typed: &str, outcome: &Outcome) -> io::Result<()> {
        for line in &outcome.printed {
            writeln!(self.out, "{}", plain_text(line))?;
        }
        match &outcome.reply {
            Ok(reply) => {
                let page = answer::page(reply, &session.manner(), self.manners.width);
                self.out.write_all(page.render(self.manners.width, self.manners.colour).as_bytes())
            }
            Err(found) => {
                self.out.flush()?;
                found.iter().try_for_each(|one| self.complain(one, typed))
            }
        }
    }

    /// Writes a cutting plan, what is not planned, and what else was found wrong.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn plan(&mut self, planned: &Planned, asked: Asked, manner: &Manner) -> io::Result<()> {
        let whole = &planned.whole;
        self.failed |= !planned.found.is_empty() || whole.lacking().next().is_some();
        if self.manners.json {
            return json::write(self.out, &*json::plan(planned), &[], manner);
        }
        for page in answer::plan_pages(whole, manner, self.manners.width) {
            self.page(&page)?;
        }
        let is_shown = whole.pieces() > 0 || !whole.sheets.is_empty();
        if is_shown && !planned.cautions.is_empty() {
            self.page(&Page::new().blank())?;
        }
        let page = planned.notes.iter().fold(Page::new(), |page, note| page.said(Label::Note, note));
        self.page(&answer::assumed(answer::cautioned(page, &planned.cautions), whole, manner))?;
        self.out.flush()?;
        planned.found.iter().try_for_each(|one| self.complain(one, ""))?;
        answer::unplanned(whole, asked, manner).iter().try_for_each(|one| self.complain(one, ""))
    }

    /// Writes what kept a cutting plan from being made.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn no_plan(&mut self, found: &[Diagnostic]) -> io::Result<()> {
        self.failed = true;
        if self.manners.json {
            let manner = Manner::default();
            return json::write(self.out, &*json::failure(found, ""), &[], &manner);
        }
        found.iter().try_for_each(|one| self.complain(one, ""))
    }

    /// Writes a finding where errors go; where no one is left to hear them, the answers still are.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn complain(&mut self, found: &Diagnostic, typed: &str) -> io::Result<()> {
        let page = finding(found, typed, self.manners.width);
        match self.err.write_all(page.render(self.manners.width, self.manners.error_colour).as_bytes()) {
            Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
            written => written,
        }
    }

    /// Runs the lines of a pipe or a file; an incomplete line is joined with the next.
    ///
    /// # Errors
    /// The input cannot be read, or an answer not be written.
    pub fn pipe(&mut self, session: &mut Session, input: impl Read) -> io::Result<()> {
        let mut input = BufReader::new(input);
        let (mut text, mut growing) = (String::new(), Growing::default());
        loop {
            let line = match next_line(&mut input)? {
                Ok(Some(line)) => line,
                Ok(None) => break,
                Err(found) => {
                    self.refuse(session, found)?;
                    continue;
                }
            };
            let first = text.is_empty();
            text.push_str(if first { line.trim_start_matches('\u{feff}') } else { &line });
            let whole = text.trim_end_matches(['\n', '\r']);
            if u64::try_from(text.len()).unwrap_or(u64::MAX) > LARGEST {
                self.refuse(session, too_long())?;
            } else if !((first || growing.may_end(whole)) && is_complete(whole, session)) {
                continue;
            } else if self.line(session, whole)? == Next::Quit {
                return self.out.flush();
            }
            (text, growing) = (String::new(), Growing::default());
            // Whoever waits for an answer at the other end of the pipe gets it now.
            if !input.buffer().contains(&b'\n') {
                self.out.flush()?;
            }
        }
        if !text.is_empty() {
            self.line(session, text.trim_end_matches(['\n', '\r']))?;
        }
        self.out.flush()
    }

    /// Reports something that is not a line of text.
    fn refuse(&mut self, session: &Session, found: Diagnostic) -> io::Result<()> {
        let outcome = Outcome { printed: Vec::new(), reply: Err(vec![found]), stopped: false };
        self.answer(session, "", &outcome).map(|_| ())
    }
}

/// The next line with its end, nothing at the end of the input, or why it is not a line; that one is then skipped.
fn next_line(input: &mut impl BufRead) -> io::Result<Result<Option<String>, Diagnostic>> {
    let mut bytes = Vec::new();
    let read = input.by_ref().take(LARGEST).read_until(b'\n', &mut bytes)?;
    if u64::try_from(read).unwrap_or(u64::MAX) >= LARGEST && !bytes.ends_with(b"\n") {
        input.skip_until(b'\n')?;
        return Ok(Err(too_long()));
    }
    Ok(match String::from_utf8(bytes) {
        Ok(line) => Ok(Some(line).filter(|line| !line.is_empty())),
        Err(_) => Err(Diagnostic::of(&codes::file::OTHER, "this line is not UTF-8 text")),
    })
}

fn too_long() -> Diagnostic {
    Diagnostic::of(&codes::file::OTHER, format!("this line is longer than {} MiB", LARGEST >> 20))
}
