//! What comes of a job: text to print and an exit code, or the reason why there is nothing.

use std::fmt;

/// Exit code: everything is all right.
const ALL_GOOD: u8 = 0;

/// Exit code: the work was done, and the pack has problems.
const HAS_PROBLEMS: u8 = 1;

/// Exit code: the program could not do its work. Wrong arguments end with it too.
pub(crate) const FAILED: u8 = 2;

/// What a job that did its work has to say.
#[derive(Debug, Default)]
pub(crate) struct Outcome {
    /// Problems in words; for stderr. Empty with `--json`, where the document holds them.
    pub(crate) problems: String,
    /// The result, words or one JSON document; for stdout.
    pub(crate) result: String,
    /// What was done beside the result; for stderr.
    pub(crate) note: String,
    /// Whether the pack has an error, so that the exit code says so.
    pub(crate) has_errors: bool,
}

impl Outcome {
    /// The exit code it ends with.
    pub(crate) fn exit_code(&self) -> u8 {
        if self.has_errors { HAS_PROBLEMS } else { ALL_GOOD }
    }
}

/// Why the program could not do its work, and the next move.
#[derive(Debug)]
pub(crate) struct Failure {
    /// What is wrong; lower case, without a final dot.
    pub(crate) message: String,
    /// The next move, if there is one to suggest.
    pub(crate) help: Option<String>,
}

impl Failure {
    /// A failure with a next move.
    pub(crate) fn new(message: impl Into<String>, help: impl Into<String>) -> Failure {
        Failure { message: message.into(), help: Some(help.into()) }
    }

    /// The end of a job that was interrupted.
    pub(crate) fn interrupted() -> Failure {
        Failure { message: "stopped before the work was done; nothing was written".to_owned(), help: None }
    }
}

/// Prints `error: …` and the help on a line of its own.
impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "error: {}", self.message)?;
        match &self.help {
            Some(help) => writeln!(f, "  help: {help}"),
            None => Ok(()),
        }
    }
}
