//! What is kept of a setter: how they are credited, and what they have approved.

use std::fmt;
use std::str::FromStr;

use crate::Day;

/// How a setter is credited, once for all of their puzzles.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Setter {
    /// The name to print; none for the one that their puzzles' files have.
    pub credit: Option<String>,
    /// Where more of them can be found.
    pub link: Option<String>,
    /// What they wish, in the editor's words, for nobody else's eyes.
    pub wishes: Option<String>,
}

/// A setter's approval of a puzzle as it was then.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Approval {
    /// When it was given.
    pub on: Day,
    /// The fingerprint that the puzzle had. Invariant: 16 figures of base sixteen, in small letters.
    fingerprint: String,
}

impl Approval {
    /// The approval of a puzzle with that fingerprint, if it can be one.
    pub fn new(on: Day, fingerprint: &str) -> Option<Approval> {
        let is_figure = |it: u8| matches!(it, b'0'..=b'9' | b'a'..=b'f');
        let fits = fingerprint.len() == 16 && fingerprint.bytes().all(is_figure);
        fits.then(|| Approval { on, fingerprint: fingerprint.to_owned() })
    }

    /// The fingerprint that the puzzle had.
    pub fn fingerprint(&self) -> &str {
        &self.fingerprint
    }
}

/// Prints it as a file has it: `2026-10-02 5fc199382fb2741f`.
impl fmt::Display for Approval {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.on, self.fingerprint)
    }
}

/// The text is no approval.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NoApproval;

impl fmt::Display for NoApproval {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an approval is a day and a fingerprint, such as 2026-10-02 5fc199382fb2741f")
    }
}

impl std::error::Error for NoApproval {}

impl FromStr for Approval {
    type Err = NoApproval;

    fn from_str(text: &str) -> Result<Approval, NoApproval> {
        let (on, fingerprint) = text.split_once(' ').ok_or(NoApproval)?;
        Approval::new(on.parse().map_err(|_| NoApproval)?, fingerprint).ok_or(NoApproval)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn approvals_are_read_as_they_are_printed() {
        let text = "2026-10-02 5fc199382fb2741f";
        let read: Approval = text.parse().unwrap();
        assert_eq!((read.to_string(), read.fingerprint()), (text.to_owned(), "5fc199382fb2741f"));
        for bad in [
            "",
            "2026-10-02",
            "2026-10-02 ",
            "2026-10-32 5fc199382fb2741f",
            "2026-10-02 5FC199382FB2741F",
            "2026-10-02 5fc199382fb2741",
            "2026-10-02 5fc199382fb2741fa",
            "2026-10-02  5fc199382fb2741f",
        ] {
            assert_eq!(bad.parse::<Approval>(), Err(NoApproval), "{bad}");
        }
    }
}
