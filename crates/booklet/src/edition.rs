//! What a booklet says of itself beside what the pack says.

use pack::{Day, Form};

/// A printing of the booklet.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Edition {
    /// The day it is issued, printed on the title page and written into the file; none leaves both
    /// without a date. It comes from the caller, because nothing here reads a clock.
    pub issued: Option<Day>,
    /// How it is laid out and printed.
    pub form: Form,
}
