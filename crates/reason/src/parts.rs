//! The parts of what is known, so that a technique that found nothing is asked again only after something has changed
//! that it looks at.

use crate::{TECHNIQUES, View};

/// A part of what is known about a position.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Part {
    /// The digits that facts place.
    Digits,
    /// The cells known to be crusts, and those known to be filling.
    Kinds,
    /// How many cells and which digits lie between the crusts of a line.
    Lines,
    /// The digits that a cell can still hold.
    Candidates,
}

impl Part {
    /// Every part, and with them everything else that a technique may look at.
    pub const ALL: &'static [Part] = &[Part::Digits, Part::Kinds, Part::Lines, Part::Candidates];
}

/// When each part last changed, by the number of facts there were then.
#[derive(Clone, Copy, Default, Debug)]
pub(crate) struct Changes([usize; Part::ALL.len()]);

impl Changes {
    /// The part has changed with the last of so many facts.
    pub(crate) fn note(&mut self, part: Part, n_facts: usize) {
        self.0[part as usize] = n_facts;
    }

    /// Whether one of the parts has changed since there were so many facts.
    pub(crate) fn any_since(&self, n_facts: usize, parts: &[Part]) -> bool {
        parts.iter().any(|it| self.0[*it as usize] > n_facts)
    }
}

/// The techniques that offered nothing when they were last asked in the course of one solve.
#[derive(Debug)]
pub(crate) struct InVain {
    /// By the place of a technique: how many facts there were then.
    asked: [Option<usize>; TECHNIQUES.len()],
}

impl InVain {
    /// None has been asked yet.
    pub(crate) fn new() -> InVain {
        InVain { asked: [None; TECHNIQUES.len()] }
    }

    /// Whether the technique at that place would offer nothing again.
    pub(crate) fn is_certain(&self, place: usize, view: &View) -> bool {
        let parts = TECHNIQUES[place].looks_at();
        // What is none of the parts may change with any fact.
        parts != Part::ALL && self.asked[place].is_some_and(|since| !view.has_changed(since, parts))
    }

    /// The technique has been asked in vain.
    pub(crate) fn note(&mut self, place: usize, view: &View) {
        self.asked[place] = Some(view.trail().n_facts());
    }
}
