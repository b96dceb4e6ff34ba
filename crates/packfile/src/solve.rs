//! Reading one test solve, `solves/*.json`.

pub(crate) mod values;

use grade::{Entry, Mismatch, Outcome, Solve, Solver};
use pack::Entry as PuzzleEntry;
use serde::Deserialize;

use crate::json::{problem, read_json};
use crate::phrases::quoted;
use crate::{Code, Problem, SourceFile, fingerprint};
use values::{At, CellName, DigitNumber, Line, Seconds, Span, in_order};

/// A solve, and what its file says of where it comes from.
#[derive(Clone, PartialEq, Debug)]
pub struct LoggedSolve {
    /// The file, as the caller named it.
    pub file: String,
    /// The solve.
    pub solve: Solve,
    /// The fingerprint that the puzzle had then, if it was noted.
    pub fingerprint: Option<String>,
    /// When it began, as the file says it.
    pub started: Option<String>,
}

/// Reads one test solve. A file with any fault is none, for times that are half right are wrong.
pub fn read_solve(file: &SourceFile) -> Result<LoggedSolve, Problem> {
    let it: Written = read_json(file, "a test solve")?;
    let solve = Solve {
        puzzle: it.puzzle.0,
        solver: it.solver.0,
        kind: it.kind.into(),
        is_aloud: it.aloud,
        entries: it.entries.into_iter().map(Entry::from).collect(),
        hints: it.hints.into_iter().map(|it| it.at.0).collect(),
        pauses: it.pauses.into_iter().map(|it| [it.from.0, it.to.0]).collect(),
        outcome: it.outcome.into(),
    };
    let started = it.started.map(|it| it.0);
    Ok(LoggedSolve { file: file.path.clone(), solve, fingerprint: it.fingerprint, started })
}

impl LoggedSolve {
    /// Checks that it is a solve of this puzzle as it is now. `entry` is the pack's puzzle of that id, if it has one.
    ///
    /// # Errors
    ///
    /// Why it is of no use.
    pub fn check(&self, entry: Option<&PuzzleEntry>) -> Result<(), Problem> {
        let Some(entry) = entry else {
            let message = format!("the pack has no puzzle {}", quoted(&self.solve.puzzle));
            return Err(self.skipped(
                Code::SolveUnknown,
                message,
                "it is kept for when the puzzle comes back",
            ));
        };
        match &self.fingerprint {
            Some(it) if *it != fingerprint(&entry.puzzle) => {
                Err(self.outdated("a given or a clue is another"))
            }
            _ => Ok(()),
        }
    }

    /// The problem of a solve that does not go with its puzzle's solution.
    pub fn mismatched(&self, it: Mismatch) -> Problem {
        self.outdated(&it.to_string())
    }

    /// The problem of a solve that there is nothing to hold against, and why.
    pub fn not_held(&self, why: &str) -> Problem {
        let message = format!("{} {why}", quoted(&self.solve.puzzle));
        self.skipped(Code::SolveNotHeld, message, "it is kept, and counts as soon as that changes")
    }

    fn outdated(&self, why: &str) -> Problem {
        let message = format!("{} has changed since it was solved: {why}", quoted(&self.solve.puzzle));
        self.skipped(Code::SolveOutdated, message, "it is kept; have the puzzle solved again as it is now")
    }

    fn skipped(&self, code: Code, message: String, help: &str) -> Problem {
        let file = SourceFile::new(&*self.file, "");
        Problem { help: Some(help.to_owned()), ..problem(code, &file, message) }
    }
}

/// The file as it is written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    #[serde(rename = "format")]
    _format: u64,
    puzzle: Line,
    fingerprint: Option<String>,
    solver: Line,
    kind: Kind,
    #[serde(default)]
    aloud: bool,
    started: Option<Line>,
    #[serde(deserialize_with = "in_order")]
    entries: Vec<WrittenEntry>,
    #[serde(default, deserialize_with = "in_order")]
    hints: Vec<WrittenHint>,
    #[serde(default, deserialize_with = "in_order")]
    pauses: Vec<WrittenPause>,
    outcome: WrittenOutcome,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenEntry {
    at: Seconds,
    cell: CellName,
    #[serde(deserialize_with = "values::digit_or_null")]
    digit: Option<DigitNumber>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenHint {
    at: Seconds,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenPause {
    from: Seconds,
    to: Seconds,
}

#[derive(Deserialize)]
enum Kind {
    #[serde(rename = "newcomer")]
    Newcomer,
    #[serde(rename = "regular")]
    Regular,
    #[serde(rename = "old hand")]
    OldHand,
}

#[derive(Deserialize)]
enum WrittenOutcome {
    #[serde(rename = "solved")]
    Solved,
    #[serde(rename = "gave up")]
    GaveUp,
    #[serde(rename = "left")]
    Left,
}

impl From<Kind> for Solver {
    fn from(it: Kind) -> Solver {
        match it {
            Kind::Newcomer => grade::NEWCOMER,
            Kind::Regular => grade::REGULAR,
            Kind::OldHand => grade::OLD_HAND,
        }
    }
}

impl From<WrittenOutcome> for Outcome {
    fn from(it: WrittenOutcome) -> Outcome {
        match it {
            WrittenOutcome::Solved => Outcome::Solved,
            WrittenOutcome::GaveUp => Outcome::GaveUp,
            WrittenOutcome::Left => Outcome::Left,
        }
    }
}

impl From<WrittenEntry> for Entry {
    fn from(it: WrittenEntry) -> Entry {
        Entry { at: it.at.0, cell: it.cell.0, digit: it.digit.map(|it| it.0) }
    }
}

impl At for WrittenEntry {
    fn span(&self) -> Span {
        Span { from: self.at.0, to: self.at.0 }
    }
}

impl At for WrittenHint {
    fn span(&self) -> Span {
        Span { from: self.at.0, to: self.at.0 }
    }
}

impl At for WrittenPause {
    fn span(&self) -> Span {
        Span { from: self.from.0, to: self.to.0 }
    }
}
