//! Captions as they come: WebVTT, SubRip as it is commonly written, and plain text with times in brackets.
//!
//! Reading never fails. [`read`] takes bytes and gives every caption that could be read, in order of time, and says what is
//! wrong with the file, each fault at its line. What is said twice because captions roll up (a caption begins with
//! the lines of the one before it) is read once. SubRip has no standard; what is read of it is common practice, no
//! source. Left out: how captions look and where they stand on the picture.

mod bytes;
mod cues;
mod fault;
mod stamped;
pub(crate) mod stamps;
mod tidied;

pub use fault::{Fault, ReadFault};

use crate::Caption;

/// How a file of captions is written.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Form {
    /// The W3C's format.
    WebVtt,
    /// Numbered captions, each with a line of two times.
    SubRip,
    /// Paragraphs, each with a time in brackets before it.
    Stamped,
}

/// What a file of captions holds.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ReadCaptions {
    /// How it is written.
    pub form: Form,
    /// What is said, in order of time, none shown for less than no time. They may overlap.
    pub captions: Vec<Caption>,
    /// The line that each caption's time stands in, counted from 1.
    pub lines: Vec<usize>,
    /// What is wrong with it, in order of lines.
    pub faults: Vec<ReadFault>,
}

/// Reads a file of captions, whatever its form.
pub fn read(bytes: &[u8]) -> ReadCaptions {
    let (text, mut faults) = bytes::decoded(bytes);
    let lines: Vec<&str> = lines(&text);
    let form = form(&lines);
    let found = match form {
        Form::WebVtt | Form::SubRip => cues::found(&lines, form, &mut faults),
        Form::Stamped => stamped::found(&lines, &mut faults),
    };
    let (captions, lines): (Vec<Caption>, Vec<usize>) =
        tidied::tidied(found, &mut faults).into_iter().unzip();
    if !speaks(&captions) {
        faults.push(ReadFault { line: 1, fault: Fault::NothingSpoken });
    }
    faults.sort_by_key(|it| it.line);
    ReadCaptions { form, captions, lines, faults }
}

/// Lines end in any of the three ways.
fn lines(text: &str) -> Vec<&str> {
    let mut lines = Vec::new();
    for line in text.split('\n') {
        lines.extend(line.strip_suffix('\r').unwrap_or(line).split('\r'));
    }
    lines
}

fn form(lines: &[&str]) -> Form {
    let first = lines.iter().find(|it| !it.trim().is_empty());
    if first.is_some_and(|it| it.trim_start().starts_with("WEBVTT")) {
        Form::WebVtt
    } else if lines.iter().any(|it| it.contains("-->")) {
        Form::SubRip
    } else {
        Form::Stamped
    }
}

/// Whether anything is said: what stands in brackets (`[music]`) is heard, but not spoken.
fn speaks(captions: &[Caption]) -> bool {
    let spoken = |text: &str| {
        let mut depth = 0_u32;
        text.chars().any(|it| {
            match it {
                '[' | '(' => depth += 1,
                ']' | ')' => depth = depth.saturating_sub(1),
                _ => {}
            }
            depth == 0 && it.is_alphanumeric()
        })
    };
    captions.iter().any(|it| spoken(&it.text))
}

/// A text found under a time, before the times are looked at together.
#[derive(Clone, PartialEq, Eq, Debug)]
struct Found {
    line: usize,
    from: crate::Time,
    /// None where the file does not say it.
    to: Option<crate::Time>,
    text: String,
}

#[cfg(test)]
mod tests;
