//! Who is waited for, and for what.

use pack::State;
use study::{Finding, Study};

use crate::{Approved, Reached, Stage, Standing};

/// Somebody who is waited for.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Who {
    /// Who set the puzzle.
    Setter,
    /// Somebody who solves it.
    Tester,
    /// Who edits the pack.
    Editor,
}

impl Who {
    /// What they are called.
    pub fn name(self) -> &'static str {
        match self {
            Who::Setter => "setter",
            Who::Tester => "tester",
            Who::Editor => "editor",
        }
    }
}

/// What is waited for.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Waiting {
    /// Whom it is up to.
    pub who: Who,
    /// What they are to do, in a few words.
    pub what: String,
}

/// What can be done next: nothing that something else has to come before. Of a puzzle that was put aside, nothing.
pub(crate) fn waiting(study: &Study, standings: &[Standing], approved: Approved) -> Vec<Waiting> {
    let entry = study.entry();
    if matches!(entry.state, State::Later | State::Declined) {
        return Vec::new();
    }
    let reached = |stage| standings.iter().any(|it| it.stage == stage && it.reached == Reached::Yes);
    let mut waits = Vec::new();
    let mut wait = |who, what: &str| waits.push(Waiting { who, what: what.to_owned() });
    match study.finding() {
        Finding::None => wait(Who::Setter, "mend it: it has no solution"),
        Finding::Many => wait(Who::Setter, "settle it: it has several solutions"),
        Finding::Undecided => wait(Who::Editor, "see why it could not be decided"),
        Finding::One => match approved {
            Approved::No => wait(Who::Setter, "approve it"),
            Approved::Outdated(_) => wait(Who::Setter, "approve it again: it has changed since"),
            Approved::Yes(_) => {}
        },
    }
    if !reached(Stage::Sound) {
        return waits;
    }
    if !reached(Stage::TestSolved) {
        wait(Who::Tester, "solve it");
    }
    let of_editor = [
        (Stage::Placed, "give it a place in the order"),
        (Stage::Rehearsed, "rehearse it"),
        (Stage::Recorded, "record it"),
        (Stage::Captioned, "put captions under the recording"),
        (Stage::Published, "bring the recording out"),
    ];
    // What was recorded needs no rehearsal any more.
    let is_needed = |stage| !(stage == Stage::Rehearsed && reached(Stage::Recorded));
    let next = of_editor.into_iter().find(|it| !reached(it.0) && is_needed(it.0));
    if let Some((_, what)) = next {
        wait(Who::Editor, what);
    }
    waits
}
