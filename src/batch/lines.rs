//! The lines of an input, however long it is, with their numbers.

use std::collections::VecDeque;
use std::io::{self, BufRead, Read};

use crate::diag::Diagnostic;

/// The longest line that is read, in bytes.
pub(super) const LONGEST: u64 = 1 << 20;

/// A line and what is wrong with it as such.
#[derive(Debug)]
pub(super) struct Line {
    /// Counted from 1.
    pub(super) number: usize,
    /// Without its end; of a line that is no text what can be shown of it.
    pub(super) text: String,
    /// Why it cannot be read.
    pub(super) fault: Option<Diagnostic>,
}

/// Reads line by line, and takes lines back.
pub(super) struct Lines {
    input: Box<dyn BufRead>,
    number: usize,
    bytes: u64,
    back: VecDeque<Line>,
}

impl Lines {
    pub(super) fn new(input: Box<dyn BufRead>) -> Self {
        Self { input, number: 0, bytes: 0, back: VecDeque::new() }
    }

    /// Bytes read so far.
    pub(super) fn bytes(&self) -> u64 {
        self.bytes
    }

    /// The next line; none at the end.
    ///
    /// # Errors
    /// The input cannot be read.
    pub(super) fn next(&mut self) -> io::Result<Option<Line>> {
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
            let fault = Some(Diagnostic::new(message).hint("heron,16 x 20 x 3/4"));
            return Ok(Some(Line { number, text: String::new(), fault }));
        }
        Ok(Some(read_line(number, bytes)))
    }

    /// Takes lines back, to be read again in their order.
    pub(super) fn put_back(&mut self, lines: Vec<Line>) {
        for line in lines.into_iter().rev() {
            self.back.push_front(line);
        }
    }
}

fn read_line(number: usize, mut bytes: Vec<u8>) -> Line {
    while bytes.last().is_some_and(|last| matches!(last, b'\n' | b'\r')) {
        bytes.pop();
    }
    if number == 1 && bytes.starts_with(b"\xef\xbb\xbf") {
        bytes.drain(..3);
    }
    match String::from_utf8(bytes) {
        Ok(text) => Line { number, text, fault: None },
        Err(error) => {
            let at = error.utf8_error().valid_up_to();
            let text = String::from_utf8_lossy(error.as_bytes()).into_owned();
            let wide = char::REPLACEMENT_CHARACTER.len_utf8();
            let fault = Diagnostic::new("this line is not UTF-8 text: here is a byte that is part of no letter")
                .at(at..at + wide)
                .hint("save the table as UTF-8");
            Line { number, text, fault: Some(fault) }
        }
    }
}
