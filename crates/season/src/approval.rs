//! Whether the setter has approved the puzzle as it is.

use pack::{Day, Entry};
use packfile::fingerprint;

/// What there is of a setter's approval.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Approved {
    /// None is noted.
    No,
    /// The puzzle has changed since it was approved on that day.
    Outdated(Day),
    /// It was approved on that day as it is.
    Yes(Day),
}

impl Approved {
    /// Of that puzzle.
    pub fn of(entry: &Entry) -> Approved {
        match &entry.approved {
            None => Approved::No,
            Some(it) if it.fingerprint() == fingerprint(&entry.puzzle) => Approved::Yes(it.on),
            Some(it) => Approved::Outdated(it.on),
        }
    }

    /// The same as a sentence.
    pub fn says(self) -> String {
        match self {
            Approved::No => "Not approved by its setter.".to_owned(),
            Approved::Yes(on) => format!("Approved by its setter on {}.", tell::day(on)),
            Approved::Outdated(on) => {
                format!("Changed since approved: its setter approved it on {} as it was then.", tell::day(on))
            }
        }
    }
}
