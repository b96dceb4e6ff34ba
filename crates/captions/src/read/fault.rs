//! What can be wrong with a file of captions.

use std::fmt;

/// A fault and the line it is in, counted from 1.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ReadFault {
    /// The line.
    pub line: usize,
    /// What is wrong there.
    pub fault: Fault,
}

/// What is wrong, and what was done about it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Fault {
    /// It was UTF-16, which has a mark of its own at the beginning, and was read so.
    Utf16,
    /// It is not UTF-8, and was read as Windows-1252.
    Windows1252,
    /// A time that cannot be read; what stands under it is not read.
    UnreadableTime,
    /// A text that no time belongs to; not read.
    NoTime,
    /// A text before the first time; read as said from the beginning.
    BeforeFirstTime,
    /// A time with nothing said.
    NoText,
    /// It ends when it begins or before; read as ending when the next begins.
    Backward,
    /// It begins before the one above it; put in order.
    OutOfOrder,
    /// It begins before the one above it has ended.
    Overlapping,
    /// It says again what the one above it says, and nothing else; read once.
    Repeated,
    /// Nowhere in the file is anything spoken.
    NothingSpoken,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Fault::Utf16 => "the file is UTF-16, not UTF-8, and was read as that",
            Fault::Windows1252 => "the file is not UTF-8 from this line on, so it was read as Windows-1252",
            Fault::UnreadableTime => "this time cannot be read, so what stands under it is left out",
            Fault::NoTime => "no time belongs to this text, so it is left out",
            Fault::BeforeFirstTime => {
                "this text stands before the first time, so it is taken as said at 0:00"
            }
            Fault::NoText => "a time with no text under it",
            Fault::Backward => {
                "this caption does not end after it begins, so it is taken to end where the next begins"
            }
            Fault::OutOfOrder => "this caption begins before the one above it, so it is moved to its place",
            Fault::Overlapping => "this caption begins before the one above it has ended",
            Fault::Repeated => {
                "this caption says again what the one above it says, and nothing else, so it is left out"
            }
            Fault::NothingSpoken => "nothing is spoken in this file",
        })
    }
}

impl fmt::Display for ReadFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}: {}", self.line, self.fault)
    }
}
