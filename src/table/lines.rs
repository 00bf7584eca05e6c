//! The lines of an input, however long it is, with their numbers.

use std::collections::VecDeque;
use std::io::{self, BufRead, Cursor, Read};

use crate::diag::{Diagnostic, codes};

/// The longest line that is read, in bytes.
const LONGEST: u64 = 1 << 20;
/// What a remark begins with.
const REMARK: char = '#';
/// What some programs begin a text with.
const MARK: &[u8] = b"\xef\xbb\xbf";

/// A line, and what keeps it from being text.
#[derive(Debug)]
pub struct Line {
    /// Counted from 1.
    pub number: usize,
    /// Without its end; of a line that is not text, what can be shown of it.
    pub text: String,
    /// Why it cannot be read.
    pub fault: Option<Diagnostic>,
}

/// Reads line by line; lines can be put back.
pub struct Lines {
    input: Box<dyn BufRead>,
    number: usize,
    bytes: u64,
    back: VecDeque<Line>,
}

impl Lines {
    /// Those of an input.
    pub fn new(input: Box<dyn BufRead>) -> Self {
        Self { input, number: 0, bytes: 0, back: VecDeque::new() }
    }

    /// Those of a text, or of bytes that may not be text everywhere.
    pub fn of_text(text: impl AsRef<[u8]>) -> Self {
        Self::new(Box::new(Cursor::new(text.as_ref().to_vec())))
    }

    /// Bytes read so far.
    pub fn bytes(&self) -> u64 {
        self.bytes
    }

    /// The next line; none at the end.
    ///
    /// # Errors
    /// The input cannot be read.
    pub fn next_line(&mut self) -> io::Result<Option<Line>> {
        if let Some(line) = self.back.pop_front() {
            return Ok(Some(line));
        }
        let mut bytes = Vec::new();
        let mut read = self.input.by_ref().take(LONGEST).read_until(b'\n', &mut bytes)?;
        if read == 0 {
            return Ok(None);
        }
        self.number += 1;
        let is_long = u64::try_from(read).unwrap_or(u64::MAX) >= LONGEST && !bytes.ends_with(b"\n");
        if is_long {
            read += self.input.skip_until(b'\n')?;
        }
        self.bytes += u64::try_from(read).unwrap_or(u64::MAX);
        let number = self.number;
        if is_long {
            let message = format!("this line is longer than {} MiB", LONGEST >> 20);
            let fault = Some(Diagnostic::of(&codes::table::SHAPE, message).hint("heron,16 x 20 x 3/4"));
            return Ok(Some(Line { number, text: String::new(), fault }));
        }
        Ok(Some(read_line(number, bytes)))
    }

    /// The next line that is neither empty nor a remark.
    ///
    /// # Errors
    /// The input cannot be read.
    pub fn next_row(&mut self) -> io::Result<Option<Line>> {
        while let Some(line) = self.next_line()? {
            // A spreadsheet may have put quotes around a remark.
            let text = line.text.trim_start().trim_start_matches('"');
            if line.fault.is_some() || !(text.is_empty() || is_remark(text)) {
                return Ok(Some(line));
            }
        }
        Ok(None)
    }

    /// Puts lines back, to be read again in their order.
    pub fn put_back(&mut self, lines: Vec<Line>) {
        for line in lines.into_iter().rev() {
            self.back.push_front(line);
        }
    }
}

/// Whether a line is a remark: its mark has a blank behind it, another mark, or nothing. `#12` is the number of a work.
pub(super) fn is_remark(text: &str) -> bool {
    let behind = |rest: &str| rest.is_empty() || rest.starts_with(|next: char| next.is_whitespace() || next == REMARK);
    text.strip_prefix(REMARK).is_some_and(behind)
}

fn read_line(number: usize, mut bytes: Vec<u8>) -> Line {
    while bytes.last().is_some_and(|last| matches!(last, b'\n' | b'\r')) {
        bytes.pop();
    }
    if number == 1 && bytes.starts_with(MARK) {
        bytes.drain(..MARK.len());
    }
    match String::from_utf8(bytes) {
        Ok(text) => {
            let fault = text.find('\0').map(|at| {
                Diagnostic::of(
                    &codes::table::SHAPE,
                    "this line holds a NUL byte, which is not text; the file may be in UTF-16",
                )
                .at(at..at + 1)
                .hint("save the table as UTF-8")
            });
            // What cannot be shown is shown as such, a byte for a byte.
            let text = if fault.is_some() { text.replace('\0', "?") } else { text };
            Line { number, text, fault }
        }
        Err(error) => {
            let at = error.utf8_error().valid_up_to();
            let text = String::from_utf8_lossy(error.as_bytes()).replace('\0', "?");
            let wide = char::REPLACEMENT_CHARACTER.len_utf8();
            let fault = Diagnostic::of(
                &codes::table::SHAPE,
                "this line is not UTF-8 text: here is a byte that is not part of a letter",
            )
            .at(at..at + wide)
            .hint("save the table as UTF-8");
            Line { number, text, fault: Some(fault) }
        }
    }
}
