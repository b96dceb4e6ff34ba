//! Why the desk cannot do something, for people.

use std::fmt;
use std::io;
use std::path::Path;

/// What went wrong, and what to do next. Both are lower case without a final dot.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Failure {
    /// What was found.
    pub message: String,
    /// The next move.
    pub help: String,
}

impl Failure {
    pub(crate) fn new(message: impl Into<String>, help: impl Into<String>) -> Failure {
        Failure { message: message.into(), help: help.into() }
    }

    /// What was read has brought Galley down.
    pub(crate) fn fault() -> Failure {
        Failure::new(
            "the pack could not be looked through, which is a fault of Galley's",
            "send what was said where the desk was started, and the pack, to Galley's makers; whenever a file changes it is \
             tried again",
        )
    }

    /// Of something that was asked of the system and refused: `did` is what could not be done, as in `cannot be read`.
    pub(crate) fn of_file(path: &Path, did: &str, error: &io::Error) -> Failure {
        let help = match error.kind() {
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => {
                "the disk is full: make room and try again; the file is as it was"
            }
            io::ErrorKind::PermissionDenied => "look whether you may read and write there",
            io::ErrorKind::NotFound => "look whether it was moved or taken away",
            _ => "look whether its folder is there and may be written to",
        };
        Failure::new(format!("{} {did}: {}", shown(path), reason(error)), help)
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}\nhelp: {}", self.message, self.help)
    }
}

impl std::error::Error for Failure {}

/// Why the system refused, in its own words without its number.
fn reason(error: &io::Error) -> String {
    let words = error.to_string();
    words.split(" (os error").next().unwrap_or_default().to_lowercase()
}

/// A path between marks; its control characters written out, for it may hold anything.
pub(crate) fn shown(path: &Path) -> String {
    let shown: String = (path.to_string_lossy().chars())
        .flat_map(|it| if it.is_control() { it.escape_default().collect() } else { vec![it] })
        .collect();
    format!("`{shown}`")
}
