//! What `season` prints.

use serde::Serialize;

use super::{Problem, UnreadableFile};

/// What `season` prints.
#[derive(Serialize, Debug)]
pub(crate) struct Season {
    pub(crate) format: u8,
    pub(crate) puzzles: Vec<SeasonPuzzle>,
    pub(crate) to_record: Vec<ToRecord>,
    pub(crate) unreadable: Vec<UnreadableFile>,
    pub(crate) problems: Vec<Problem>,
}

/// A puzzle of it.
#[derive(Serialize, Debug)]
pub(crate) struct SeasonPuzzle {
    pub(crate) id: String,
    pub(crate) title: String,
    pub(crate) stages: Vec<SeasonStage>,
    pub(crate) approved: String,
    pub(crate) waiting: Vec<Waiting>,
    pub(crate) breaks: Vec<String>,
}

/// A stage of its way.
#[derive(Serialize, Debug)]
pub(crate) struct SeasonStage {
    pub(crate) stage: &'static str,
    pub(crate) reached: &'static str,
    pub(crate) on: Option<String>,
    pub(crate) says: String,
}

/// Somebody who is waited for.
#[derive(Serialize, Debug)]
pub(crate) struct Waiting {
    pub(crate) who: &'static str,
    pub(crate) what: String,
}

/// A puzzle to record.
#[derive(Serialize, Debug)]
pub(crate) struct ToRecord {
    pub(crate) id: String,
    pub(crate) says: String,
}
