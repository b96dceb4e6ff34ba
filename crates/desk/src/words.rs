//! The desk's own words about verdicts and minutes. Words for steps and techniques are `tell`'s.

use pack::State;
use prove::Verdict;
use study::{Finding, MinutesRange};
use trail::TechniqueId;

/// The verdict in two words.
pub(crate) fn finding(it: Finding) -> &'static str {
    match it {
        Finding::One => "one solution",
        Finding::None => "no solution",
        Finding::Many => "several solutions",
        Finding::Undecided => "undecided",
    }
}

/// The verdict as a program reads it.
pub(crate) fn state(it: Finding) -> &'static str {
    match it {
        Finding::One => "one",
        Finding::None => "none",
        Finding::Many => "many",
        Finding::Undecided => "undecided",
    }
}

/// The verdict as a sentence.
pub(crate) fn verdict(it: Finding) -> &'static str {
    match it {
        Finding::One => "Exactly one solution, proved.",
        Finding::None => "No solution: its givens and clues contradict one another.",
        Finding::Many => "Several solutions.",
        Finding::Undecided => "Not decided as quickly as one types.",
    }
}

/// What a verdict found.
pub(crate) fn found(it: &Verdict) -> Finding {
    match it {
        Verdict::One(_) => Finding::One,
        Verdict::None => Finding::None,
        Verdict::Many(_) => Finding::Many,
        Verdict::Undecided => Finding::Undecided,
    }
}

/// `10 to 20`.
pub(crate) fn range(it: MinutesRange) -> String {
    format!("{} to {}", it.from, it.to)
}

/// Whole minutes, at least one.
pub(crate) fn whole_minutes(minutes: f64) -> u32 {
    // The conversion saturates, and no walkthrough takes that long.
    minutes.round().max(1.0) as u32
}

/// The names of techniques as a list in running text.
pub(crate) fn techniques(ids: &[TechniqueId]) -> String {
    tell::list(&ids.iter().map(|it| tell::technique_name(*it)).collect::<Vec<_>>())
}

/// The state of a puzzle that has no place.
pub(crate) fn no_place(state: State) -> &'static str {
    match state {
        State::Undecided | State::In => "not chosen",
        State::Pool => "in the pool",
        State::Later => "kept for later",
        State::Declined => "declined",
    }
}
