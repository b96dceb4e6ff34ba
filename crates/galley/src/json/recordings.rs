//! Documents about recordings. All times are in seconds.

use serde::Serialize;

/// What `plan` prints of a puzzle.
#[derive(Serialize, Debug)]
pub(crate) struct Planned {
    pub(crate) plan: Option<RecordingPlan>,
}

#[derive(Serialize, Debug)]
pub(crate) struct RecordingPlan {
    pub(crate) words_a_minute: u64,
    pub(crate) learned_from_steps: usize,
    pub(crate) total: f64,
    pub(crate) opening: Vec<String>,
    pub(crate) opening_takes: f64,
    pub(crate) passages: Vec<PlannedPassage>,
    pub(crate) close: String,
    pub(crate) close_takes: f64,
    pub(crate) new: Vec<NewHere>,
    pub(crate) taught: Vec<TaughtBefore>,
    pub(crate) questions: Vec<Question>,
    pub(crate) stumbles: Vec<Stumble>,
    pub(crate) orphaned_notes: Vec<OrphanedNote>,
    pub(crate) target: Option<f64>,
    pub(crate) say_together: Vec<SayTogether>,
    pub(crate) over: f64,
    pub(crate) parts: Vec<RecordingPart>,
}

#[derive(Serialize, Debug)]
pub(crate) struct PlannedPassage {
    pub(crate) title: String,
    pub(crate) starts: f64,
    pub(crate) takes: f64,
    pub(crate) steps: Vec<PlannedStep>,
}

#[derive(Serialize, Debug)]
pub(crate) struct PlannedStep {
    pub(crate) step: usize,
    pub(crate) key: String,
    pub(crate) says: String,
    pub(crate) takes: f64,
    pub(crate) note: Option<String>,
}

#[derive(Serialize, Debug)]
pub(crate) struct NewHere {
    pub(crate) technique: &'static str,
    pub(crate) step: usize,
    pub(crate) says: String,
    pub(crate) figures: Vec<String>,
}

#[derive(Serialize, Debug)]
pub(crate) struct TaughtBefore {
    pub(crate) technique: &'static str,
    /// The title of the puzzle; none for what is known from the start.
    pub(crate) by: Option<String>,
}

#[derive(Serialize, Debug)]
pub(crate) struct Question {
    pub(crate) step: Option<usize>,
    pub(crate) asks: String,
}

#[derive(Serialize, Debug)]
pub(crate) struct Stumble {
    pub(crate) step: usize,
    pub(crate) why: String,
}

#[derive(Serialize, Debug)]
pub(crate) struct OrphanedNote {
    pub(crate) key: String,
    pub(crate) says: String,
}

#[derive(Serialize, Debug)]
pub(crate) struct SayTogether {
    pub(crate) steps: Vec<usize>,
    pub(crate) saves: f64,
}

#[derive(Serialize, Debug)]
pub(crate) struct RecordingPart {
    /// The first and the last, counted from 1.
    pub(crate) passages: [usize; 2],
    pub(crate) takes: f64,
}

/// What `recording` prints.
#[derive(Serialize, Debug)]
pub(crate) struct Recorded {
    pub(crate) format: u8,
    pub(crate) puzzle: String,
    pub(crate) total: f64,
    pub(crate) total_after_cuts: f64,
    pub(crate) reached: Vec<ReachedStep>,
    pub(crate) chapters: Vec<Chapter>,
    pub(crate) cuts: Vec<Cut>,
    pub(crate) ran_long: Vec<RanLong>,
    /// Numbers of steps; 0 for opening and close.
    pub(crate) captions_shortened: Vec<usize>,
    pub(crate) captions_left_out: Vec<usize>,
    /// Keys of steps in the log that the walkthrough no longer has.
    pub(crate) steps_gone: Vec<String>,
    pub(crate) title: String,
    pub(crate) left_out_of_text: Vec<String>,
    pub(crate) text_over: usize,
    pub(crate) written: Vec<String>,
    pub(crate) problems: Vec<super::Problem>,
}

#[derive(Serialize, Debug)]
pub(crate) struct ReachedStep {
    /// None for opening and close.
    pub(crate) step: Option<usize>,
    pub(crate) from: f64,
    pub(crate) to: f64,
    pub(crate) away: f64,
}

#[derive(Serialize, Debug)]
pub(crate) struct Chapter {
    pub(crate) at: f64,
    pub(crate) title: String,
}

#[derive(Serialize, Debug)]
pub(crate) struct Cut {
    pub(crate) from: f64,
    pub(crate) to: f64,
    pub(crate) why: String,
}

#[derive(Serialize, Debug)]
pub(crate) struct RanLong {
    pub(crate) title: String,
    pub(crate) at: f64,
    pub(crate) planned: f64,
    pub(crate) took: f64,
}

/// What `picture` prints.
#[derive(Serialize, Debug)]
pub(crate) struct Pictured {
    pub(crate) format: u8,
    pub(crate) puzzle: String,
    pub(crate) written: Vec<String>,
    pub(crate) problems: Vec<super::Problem>,
}

/// What `review` prints.
#[derive(Serialize, Debug)]
pub(crate) struct Reviewed {
    pub(crate) format: u8,
    pub(crate) puzzle: String,
    /// `yes`, `no` or `unknown`.
    pub(crate) matches: &'static str,
    pub(crate) total: f64,
    pub(crate) steps: Vec<PlacedStep>,
    pub(crate) chapters: Vec<Chapter>,
    pub(crate) slips: Vec<Slip>,
    pub(crate) silences: Vec<[f64; 2]>,
    pub(crate) misheard: Vec<Misheard>,
    pub(crate) cuts: Vec<Cut>,
    pub(crate) faults: Vec<CaptionFault>,
    pub(crate) written: Vec<String>,
    pub(crate) problems: Vec<super::Problem>,
}

#[derive(Serialize, Debug)]
pub(crate) struct PlacedStep {
    pub(crate) step: usize,
    /// `sure`, `unsure` or `not-spoken`.
    pub(crate) placed: &'static str,
    pub(crate) from: Option<f64>,
    pub(crate) to: Option<f64>,
    pub(crate) sure: Option<f64>,
}

#[derive(Serialize, Debug)]
pub(crate) struct Slip {
    pub(crate) at: f64,
    pub(crate) quote: String,
    pub(crate) said: u16,
    pub(crate) right: u16,
    pub(crate) because: String,
    pub(crate) corrected: Option<f64>,
    pub(crate) note: String,
}

#[derive(Serialize, Debug)]
pub(crate) struct Misheard {
    pub(crate) at: f64,
    pub(crate) heard: String,
    pub(crate) say: String,
}

#[derive(Serialize, Debug)]
pub(crate) struct CaptionFault {
    pub(crate) line: usize,
    pub(crate) says: String,
}

/// What `why --at` prints.
#[derive(Serialize, Debug)]
pub(crate) struct SpokenAt {
    pub(crate) format: u8,
    pub(crate) puzzle: String,
    pub(crate) at: f64,
    /// None where it is not sure what is spoken there.
    pub(crate) step: Option<usize>,
    pub(crate) sure: Option<f64>,
    /// The last step surely placed before, and the first after, where it is not sure.
    pub(crate) between: [Option<usize>; 2],
    pub(crate) answer: Option<String>,
    pub(crate) address: Option<String>,
    pub(crate) picture: Option<String>,
    pub(crate) problems: Vec<super::Problem>,
}
