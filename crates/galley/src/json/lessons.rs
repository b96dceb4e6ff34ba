//! What `calibrate` prints.

use grade::{Calibration, Errors, Lesson, Verdict};
use serde::Serialize;

use super::Problem;

/// What the pack's test solves have taught.
#[derive(Serialize, Debug)]
pub(crate) struct Calibrated {
    pub(crate) format: u8,
    pub(crate) silent: Taught,
    pub(crate) aloud: Taught,
    pub(crate) solves: Vec<SolveFile>,
    pub(crate) puzzles: Vec<Fingerprint>,
    pub(crate) written: Option<String>,
    pub(crate) problems: Vec<Problem>,
}

/// A file of a solve.
#[derive(Serialize, Debug)]
pub(crate) struct SolveFile {
    pub(crate) file: String,
    pub(crate) puzzle: String,
    pub(crate) solver: String,
    pub(crate) kind: &'static str,
    pub(crate) aloud: bool,
    /// Whether it could be held against its puzzle.
    pub(crate) held: bool,
}

/// What a solve of a puzzle as it is now says beside its id.
#[derive(Serialize, Debug)]
pub(crate) struct Fingerprint {
    pub(crate) id: String,
    pub(crate) fingerprint: String,
}

/// What the solves of one manner have taught.
#[derive(Serialize, Debug)]
pub(crate) struct Taught {
    solves: usize,
    too_short: usize,
    puzzles: usize,
    verdict: &'static str,
    missing: Option<Missing>,
    off_before: Option<f64>,
    off_after: Option<f64>,
    kinds: Vec<Kind>,
    techniques: Vec<Technique>,
    people: Vec<Person>,
    wanted: Vec<Wanted>,
}

#[derive(Serialize, Debug)]
struct Missing {
    solves: usize,
    puzzles: usize,
}

#[derive(Serialize, Debug)]
struct Kind {
    kind: &'static str,
    ratio: f64,
    solves: usize,
}

#[derive(Serialize, Debug)]
struct Technique {
    technique: &'static str,
    ratio: f64,
    steps: usize,
}

#[derive(Serialize, Debug)]
struct Person {
    solver: String,
    kind: &'static str,
    ratio: f64,
    solves: usize,
}

#[derive(Serialize, Debug)]
struct Wanted {
    technique: &'static str,
    steps: usize,
}

impl From<&Lesson> for Taught {
    fn from(it: &Lesson) -> Taught {
        let (verdict, missing, errors) = match &it.verdict {
            Verdict::TooLittle { solves, puzzles } => {
                ("too-little", Some(Missing { solves: *solves, puzzles: *puzzles }), None)
            }
            Verdict::NoBetter(errors) => ("no-better", None, Some(*errors)),
            Verdict::Moves(errors, _) => ("moves", None, Some(*errors)),
        };
        let calibration: Calibration = it.calibration();
        let moves = matches!(it.verdict, Verdict::Moves(..));
        let kinds = calibration.paces().filter(|_| moves);
        let people = it.people.iter();
        let wanted = it.wanted.iter();
        Taught {
            solves: it.n_solves,
            too_short: it.n_too_short,
            puzzles: it.n_puzzles,
            verdict,
            missing,
            off_before: errors.map(|it: Errors| rounded(it.before)),
            off_after: errors.map(|it: Errors| rounded(it.after)),
            kinds: kinds
                .map(|(kind, it)| Kind { kind: kind.name, ratio: it.ratio, solves: it.n_solves })
                .collect(),
            techniques: (calibration.waits())
                .map(|(id, it)| Technique { technique: id.name(), ratio: it.ratio, steps: it.n_steps })
                .collect(),
            people: people
                .map(|it| Person {
                    solver: it.name.clone(),
                    kind: it.kind.name,
                    ratio: rounded(it.ratio),
                    solves: it.n_solves,
                })
                .collect(),
            wanted: wanted.map(|(id, n)| Wanted { technique: id.name(), steps: *n }).collect(),
        }
    }
}

/// In thousandths, as the calibration itself is.
fn rounded(it: f64) -> f64 {
    (it * 1000.0).round() / 1000.0
}
