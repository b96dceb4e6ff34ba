//! The report's own sentences, about packs, proofs and minutes.
//!
//! What steps and techniques are called, and how a step is told, is `tell`'s to say; here stands only
//! what is said about numbers of them. Functions that speak about a text of the pack return what comes
//! before it, so that the text keeps an element of its own.

use pack::State;
use study::{Finding, MinutesRange};
use trail::TechniqueId;

/// The verdict in two words, for the table.
pub(crate) fn finding(it: Finding) -> &'static str {
    match it {
        Finding::One => "one solution",
        Finding::None => "no solution",
        Finding::Many => "several solutions",
        Finding::Undecided => "undecided",
    }
}

/// The verdict as a sentence.
pub(crate) fn verdict(it: Finding) -> &'static str {
    match it {
        Finding::One => "Exactly one solution, proved.",
        Finding::None => "No solution: its givens and clues contradict one another.",
        Finding::Many => "Several solutions.",
        Finding::Undecided => "Undecided: the proof was given up at its limit of work.",
    }
}

/// The state of a puzzle that has no place.
pub(crate) fn state(state: State) -> &'static str {
    match state {
        State::Undecided | State::In => "not chosen",
        State::Pool => "in the pool",
        State::Later => "kept for later",
        State::Declined => "declined",
    }
}

/// What the head says about the pack, as sentences.
pub(crate) struct Summary {
    /// Puzzles that could be read.
    pub(crate) puzzles: usize,
    /// Those with exactly one solution.
    pub(crate) sound: usize,
    /// Those of them that have no walkthrough.
    pub(crate) unexplained: usize,
    /// Sealed puzzles.
    pub(crate) sealed: usize,
    /// Files that are no puzzle.
    pub(crate) unreadable: usize,
    /// Whether Galley proposes the order.
    pub(crate) is_proposed: bool,
}

impl Summary {
    /// The sentences.
    pub(crate) fn sentences(&self) -> Vec<String> {
        let order = if self.is_proposed { "the order Galley proposes" } else { "the editor’s order" };
        let how_many = match (self.puzzles, self.sound) {
            (0, _) => "No puzzle yet.".to_owned(),
            (1, 1) => "One puzzle, and it is sound: it has exactly one solution.".to_owned(),
            (1, _) => {
                "One puzzle, which is not sound: it is not known to have exactly one solution.".to_owned()
            }
            (all, sound) => {
                let sound = match sound {
                    0 => "none of them".to_owned(),
                    sound if sound == all => "all of them".to_owned(),
                    sound => format!("{} of them", count(sound)),
                };
                format!("{} puzzles, {sound} sound (exactly one solution), in {order}.", count(all))
            }
        };
        let mut sentences = vec![tell::capital(&how_many)];
        let mut say = |n: usize, one: &str, several: &str| match n {
            0 => {}
            1 => sentences.push(format!("One {one}.")),
            n => sentences.push(tell::capital(&format!("{} {several}.", count(n)))),
        };
        say(self.unexplained, "sound puzzle has no walkthrough", "sound puzzles have no walkthrough");
        say(self.sealed, "is sealed", "are sealed");
        say(self.unreadable, "file could not be read as a puzzle", "files could not be read as puzzles");
        sentences
    }
}

/// Whole minutes, at least one.
pub(crate) fn whole_minutes(minutes: f64) -> u32 {
    // The conversion saturates, and no walkthrough takes that long.
    minutes.round().max(1.0) as u32
}

/// `10 to 20`.
pub(crate) fn range(it: MinutesRange) -> String {
    format!("{} to {}", it.from, it.to)
}

/// The names of techniques as a list in running text.
pub(crate) fn techniques(ids: &[TechniqueId]) -> String {
    tell::list(&ids.iter().map(|it| tell::technique_name(*it)).collect::<Vec<_>>())
}

/// A number in letters up to fourteen.
pub(crate) fn count(n: usize) -> String {
    tell::count(n)
}
