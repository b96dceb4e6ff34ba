//! The documents that `--json` prints, format 1: mirrors of what was found out, described in
//! `docs/json.md`. Nothing here decides anything.

mod lessons;
mod making;
mod orders;
mod recordings;
mod repairs;
mod season;
mod teaches;

use serde::Serialize;
use study::{Account, Finding, MinutesRange};

use crate::outcome::Failure;
use crate::trouble::Trouble;

pub(crate) use lessons::{Calibrated, Fingerprint, SolveFile};
pub(crate) use making::{
    BeyondUnique, Drill, DrillCell, DrillHouse, Drills, Gap, Gaps, Made, Making, Missed, PassedOver,
    TeachingMoment, Variant, Varying,
};
pub(crate) use orders::{Aside, Costs, Flaw, Moved, Order, Place, Proposed};
pub(crate) use recordings::{
    CaptionFault, Chapter, Cut, Misheard, NewHere, OrphanedNote, Pictured, PlacedStep, Planned,
    PlannedPassage, PlannedStep, Question, RanLong, ReachedStep, Recorded, RecordingPart, RecordingPlan,
    Reviewed, SayTogether, Slip, SpokenAt, Stumble, TaughtBefore,
};
pub(crate) use repairs::{
    Conflict, Irreducible, Mend, Mending, Printed, Settled, Spared, Towards, differences, verdict_on,
};

pub(crate) use season::{Season, SeasonPuzzle, SeasonStage, ToRecord, Waiting};
pub(crate) use teaches::{Meant, Teaches, TechniqueWorth};

/// The number of the format of every document.
pub(crate) const FORMAT: u8 = 1;

/// A puzzle of which nothing is to be said.
#[derive(Serialize, Debug)]
pub(crate) struct Nothing {}

/// The document as text.
pub(crate) fn text(document: &impl Serialize) -> String {
    // A document holds texts, numbers, lists and fixed names only, so there is nothing that cannot be
    // written.
    let text = serde_json::to_string_pretty(document);
    text.unwrap_or_else(|it| unreachable!("a document that cannot be written: {it}")) + "\n"
}

/// The document as one line of text, where many stand below each other.
pub(crate) fn line(document: &impl Serialize) -> String {
    let text = serde_json::to_string(document);
    text.unwrap_or_else(|it| unreachable!("a document that cannot be written: {it}")) + "\n"
}

/// Something wrong with a file or a puzzle.
#[derive(Serialize, Debug)]
pub(crate) struct Problem {
    code: &'static str,
    severity: &'static str,
    file: String,
    line: Option<usize>,
    column: Option<usize>,
    message: String,
    why: Option<String>,
    help: Option<String>,
}

impl From<&Trouble> for Problem {
    fn from(it: &Trouble) -> Problem {
        Problem {
            code: it.code,
            severity: if it.is_error { "error" } else { "warning" },
            file: it.file.clone(),
            line: it.at.map(|at| at.line),
            column: it.at.map(|at| at.column),
            message: it.message.clone(),
            why: it.why.clone(),
            help: it.help.clone(),
        }
    }
}

/// How many solutions: `one`, `none`, `many`, `undecided`.
pub(crate) fn verdict(finding: Finding) -> &'static str {
    match finding {
        Finding::One => "one",
        Finding::None => "none",
        Finding::Many => "many",
        Finding::Undecided => "undecided",
    }
}

/// The verdict on a file that is no puzzle.
pub(crate) const UNREADABLE: &str = "unreadable";

/// What `check` prints.
#[derive(Serialize, Debug)]
pub(crate) struct Check {
    pub(crate) format: u8,
    pub(crate) puzzles: Vec<CheckedPuzzle>,
    pub(crate) problems: Vec<Problem>,
}

/// One puzzle of [`Check`].
#[derive(Serialize, Debug)]
pub(crate) struct CheckedPuzzle {
    pub(crate) id: String,
    pub(crate) file: String,
    pub(crate) title: Option<String>,
    /// None if the file cannot be read: nobody knows.
    pub(crate) sealed: Option<bool>,
    pub(crate) verdict: &'static str,
    pub(crate) solution: Option<String>,
    pub(crate) problems: Vec<Problem>,
}

/// What `check` prints for a line of a list.
#[derive(Serialize, Debug)]
pub(crate) struct CheckedLine {
    pub(crate) format: u8,
    /// From 1.
    pub(crate) line: usize,
    pub(crate) verdict: &'static str,
    pub(crate) solution: Option<String>,
    pub(crate) problem: Option<Problem>,
}

/// What a command prints that says something of each puzzle, for the one that was named.
#[derive(Serialize, Debug)]
pub(crate) struct OfOne<T> {
    pub(crate) format: u8,
    #[serde(flatten)]
    pub(crate) puzzle: OfPuzzle<T>,
}

/// The same for a pack.
#[derive(Serialize, Debug)]
pub(crate) struct OfAll<T> {
    pub(crate) format: u8,
    pub(crate) puzzles: Vec<OfPuzzle<T>>,
    pub(crate) problems: Vec<Problem>,
}

/// What is said of one puzzle.
#[derive(Serialize, Debug)]
pub(crate) struct OfPuzzle<T> {
    pub(crate) id: String,
    pub(crate) title: Option<String>,
    pub(crate) sealed: Option<bool>,
    #[serde(flatten)]
    pub(crate) it: T,
    pub(crate) problems: Vec<Problem>,
}

/// What `explain` says of a puzzle: its walkthrough; without steps if there is none, or it is kept back.
#[derive(Serialize, Debug, Default)]
pub(crate) struct Explanation {
    pub(crate) complete: bool,
    /// None without `--knows`, and where there is no walkthrough to show.
    pub(crate) knowing: Option<Knowing>,
    pub(crate) minutes: Option<Minutes>,
    pub(crate) limit_reached: bool,
    pub(crate) ways_in: Vec<String>,
    pub(crate) passages: Vec<Passage>,
    pub(crate) landmarks: Vec<Landmark>,
    pub(crate) steps: Vec<Step>,
}

/// What makes a step of a walkthrough stand out.
#[derive(Serialize, Debug)]
pub(crate) struct Landmark {
    pub(crate) step: usize,
    pub(crate) kind: &'static str,
    /// How many steps lead on there that are no harder; none for the break-in.
    pub(crate) open: Option<usize>,
}

/// How far the techniques go that a solver is said to know.
#[derive(Serialize, Debug)]
pub(crate) struct Knowing {
    pub(crate) enough: bool,
    pub(crate) opens: Option<&'static str>,
    pub(crate) missing: Vec<&'static str>,
}

/// Expected minutes.
#[derive(Serialize, Debug)]
pub(crate) struct Minutes {
    from: u32,
    to: u32,
    /// Whether they are corrected by logged solves.
    calibrated: bool,
    /// By how many.
    solves: usize,
}

impl From<MinutesRange> for Minutes {
    fn from(it: MinutesRange) -> Minutes {
        Minutes { from: it.from, to: it.to, calibrated: it.n_solves > 0, solves: it.n_solves }
    }
}

/// What `grade` says of a puzzle. Without a walkthrough to show, all but `minutes` is null or empty.
#[derive(Serialize, Debug, Default)]
pub(crate) struct Graded {
    pub(crate) knowing: Option<Knowing>,
    /// For a regular.
    pub(crate) minutes: Option<Minutes>,
    solvers: Vec<SolverTimes>,
    why: Vec<String>,
    narrow: Vec<NarrowPlace>,
    techniques: Vec<TechniqueTime>,
    curve: Vec<CurvePoint>,
}

/// Seconds that one kind of solver takes: one solve in ten, half of them, nine in ten are quicker.
#[derive(Serialize, Debug)]
struct SolverTimes {
    solver: &'static str,
    tenth: u64,
    median: u64,
    ninetieth: u64,
}

/// A step that is waited for.
#[derive(Serialize, Debug)]
struct NarrowPlace {
    step: usize,
    technique: &'static str,
    wait: u64,
    open: usize,
}

/// The seconds that go to a technique.
#[derive(Serialize, Debug)]
struct TechniqueTime {
    technique: &'static str,
    seconds: u64,
}

/// How many cells are filled after so many seconds.
#[derive(Serialize, Debug)]
struct CurvePoint {
    seconds: u64,
    filled: usize,
}

impl Graded {
    /// Adds what the estimate says.
    pub(crate) fn fill(&mut self, account: &Account) {
        let (estimate, trail) = (&account.estimate, account.explained.walkthrough().trail());
        let whole = |it: f64| it.round() as u64;
        let solvers = estimate.solvers().map(|(solver, it)| SolverTimes {
            solver: solver.name,
            tenth: whole(it.tenth),
            median: whole(it.median),
            ninetieth: whole(it.ninetieth),
        });
        let narrow = estimate.narrow_places().into_iter().map(|it| NarrowPlace {
            step: it.step.number(),
            technique: trail.step(it.step).technique().name(),
            wait: whole(it.wait),
            open: it.open,
        });
        self.solvers = solvers.collect();
        self.why = tell::why_minutes(trail, estimate).to_vec();
        self.narrow = narrow.collect();
        let techniques = estimate.by_technique.iter();
        self.techniques = techniques
            .map(|(id, seconds)| TechniqueTime { technique: id.name(), seconds: whole(*seconds) })
            .collect();
        let curve = estimate.curve().into_iter();
        self.curve = curve.map(|(seconds, filled)| CurvePoint { seconds: whole(seconds), filled }).collect();
    }
}

/// Steps that are told together.
#[derive(Serialize, Debug)]
pub(crate) struct Passage {
    pub(crate) title: String,
    pub(crate) steps: Vec<usize>,
}

/// One step.
#[derive(Serialize, Debug)]
pub(crate) struct Step {
    pub(crate) number: usize,
    pub(crate) technique: &'static str,
    pub(crate) small_argument: bool,
    pub(crate) says: String,
    pub(crate) cites: Vec<usize>,
    pub(crate) concludes: Vec<Conclusion>,
}

/// One conclusion of a step.
#[derive(Serialize, Debug)]
#[serde(untagged)]
pub(crate) enum Conclusion {
    Is { cell: String, is: u8 },
    Not { cell: String, not: u8 },
    Kind { cell: String, kind: &'static str },
    Says { says: String },
}

/// What `why` prints. Everything from `asked` on is null or empty where there is no answer.
#[derive(Serialize, Debug)]
pub(crate) struct Why {
    pub(crate) asked: Option<Conclusion>,
    #[serde(flatten)]
    pub(crate) reason: Reason,
}

/// Why something is so.
#[derive(Serialize, Debug, Default)]
pub(crate) struct Reason {
    pub(crate) says: Option<String>,
    pub(crate) by: Option<Conclusion>,
    /// The house in which the cell sees the digit of `by`, if that is how it settles the question.
    pub(crate) house: Option<String>,
    pub(crate) steps: Vec<Step>,
}

/// What `judge` prints. Everything from `claim` on is null or empty where there is no answer.
#[derive(Serialize, Debug, Default)]
pub(crate) struct Judged {
    pub(crate) claim: Option<Conclusion>,
    pub(crate) board: Option<String>,
    pub(crate) within: u16,
    pub(crate) answer: Option<&'static str>,
    #[serde(flatten)]
    pub(crate) reason: Reason,
    pub(crate) missing: Vec<Conclusion>,
    pub(crate) steps_then: Option<usize>,
    pub(crate) holds: Option<u8>,
    pub(crate) open: Vec<u8>,
    pub(crate) counterexample: Option<String>,
    pub(crate) wrong: Vec<Conclusion>,
}

/// What `table` prints, and most of what `press` prints.
#[derive(Serialize, Debug)]
pub(crate) struct Table {
    pub(crate) format: u8,
    pub(crate) title: String,
    pub(crate) editor: String,
    pub(crate) by: &'static str,
    pub(crate) puzzles: Vec<Row>,
    pub(crate) aside: Vec<Aside>,
    pub(crate) coverage: Vec<Coverage>,
    pub(crate) not_taught: Vec<&'static str>,
    pub(crate) not_practised: Vec<&'static str>,
    pub(crate) unreadable: Vec<UnreadableFile>,
    pub(crate) problems: Vec<Problem>,
}

/// A puzzle of [`Table`].
#[derive(Serialize, Debug)]
pub(crate) struct Row {
    pub(crate) place: usize,
    pub(crate) id: String,
    pub(crate) title: String,
    pub(crate) setter: String,
    pub(crate) sealed: bool,
    pub(crate) verdict: &'static str,
    pub(crate) minutes: Option<Minutes>,
    pub(crate) shelf: Option<String>,
    pub(crate) new: Option<Vec<&'static str>>,
    pub(crate) practised: Option<Vec<&'static str>>,
}

/// A puzzle file that is no puzzle.
#[derive(Serialize, Debug)]
pub(crate) struct UnreadableFile {
    pub(crate) id: String,
    pub(crate) file: String,
    pub(crate) title: Option<String>,
}

/// A technique and the puzzles, not sealed, that use it.
#[derive(Serialize, Debug)]
pub(crate) struct Coverage {
    pub(crate) technique: &'static str,
    /// Whether it is known from the start.
    pub(crate) known: bool,
    pub(crate) puzzles: Vec<String>,
}

/// What `press` prints.
#[derive(Serialize, Debug)]
pub(crate) struct Pressed {
    #[serde(flatten)]
    pub(crate) table: Table,
    /// The puzzles that are in neither booklet nor site.
    pub(crate) left_out: Vec<LeftOut>,
    /// What the booklet prints otherwise than it was typed, in words.
    pub(crate) altered: Vec<String>,
    /// The files written, as paths from here; none if there was nothing to write.
    pub(crate) written: Vec<String>,
}

/// A puzzle that is not published, and why: `sealed`, `not-proved`, `not-explained`.
#[derive(Serialize, Debug)]
pub(crate) struct LeftOut {
    pub(crate) id: String,
    pub(crate) why: &'static str,
}

/// What `new` prints.
#[derive(Serialize, Debug)]
pub(crate) struct New {
    pub(crate) format: u8,
    pub(crate) pack: String,
    pub(crate) written: Vec<String>,
}

/// What `twins` prints.
#[derive(Serialize, Debug)]
pub(crate) struct Twins {
    pub(crate) format: u8,
    /// How many puzzles were compared.
    pub(crate) compared: usize,
    pub(crate) groups: Vec<TwinGroup>,
    /// Those that took too much work.
    pub(crate) undecided: Vec<Twin>,
    pub(crate) problems: Vec<Problem>,
}

/// Puzzles that have something in common: `puzzle` or `solution`.
#[derive(Serialize, Debug)]
pub(crate) struct TwinGroup {
    pub(crate) same: &'static str,
    pub(crate) puzzles: Vec<Twin>,
}

/// One of them.
#[derive(Serialize, Debug)]
pub(crate) struct Twin {
    pub(crate) id: String,
    pub(crate) file: String,
    pub(crate) title: String,
}

/// What every command prints when it could not do its work.
#[derive(Serialize, Debug)]
pub(crate) struct Failed {
    format: u8,
    error: FailedBecause,
}

#[derive(Serialize, Debug)]
struct FailedBecause {
    message: String,
    help: Option<String>,
}

impl Failed {
    /// The document of a failure.
    pub(crate) fn of(failure: &Failure) -> Failed {
        let error = FailedBecause { message: failure.message.clone(), help: failure.help.clone() };
        Failed { format: FORMAT, error }
    }
}
