//! What an editor has noted for the recording of a puzzle's walkthrough.

use captions::Time;

/// The notes of one puzzle, `notes/ID.toml`.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Notes {
    /// How long the recording should be.
    pub target: Option<Time>,
    /// The editor's own words a minute.
    pub words_a_minute: Option<u64>,
    /// Said before the credit line; empty for nothing.
    pub opening: String,
    /// Said after the last step, in place of Galley's own; empty for that.
    pub close: String,
    /// Questions to put to viewers, in place of Galley's own; none for those.
    pub questions: Vec<String>,
    /// Notes on steps, each with the step's key, in the order of the file.
    pub steps: Vec<StepNote>,
}

/// A note on one step of a walkthrough.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct StepNote {
    /// The name by which the step is known again when the walkthrough has changed: its technique and what it concludes.
    pub key: String,
    /// The note.
    pub says: String,
}
