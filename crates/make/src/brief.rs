//! What a puzzle should be like.

use grid::Size;
use reason::{Known, Settings, TECHNIQUES, rank};
use trail::TechniqueId;

/// What everybody is taken to know, however easy the technique that is to be taught: with less, what is found out
/// about crusts leads to no digit, so that no puzzle could turn on it.
const FIRST: [&str; 10] = [
    "last-empty-cell",
    "crusts-at-ends",
    "crusts-adjacent",
    "crusts-found",
    "hidden-single",
    "sees-both-crusts",
    "crust-distance",
    "naked-single",
    "crust-places",
    "crust-reach",
];

/// A technique that has nothing to go on without another that is harder: that one is known too.
const COMPANIONS: [(&str, &str); 1] = [("crusts-shared", "crust-among")];

/// Which rules a puzzle has beside the classic one.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Kind {
    /// None: givens only.
    Classic,
    /// Sandwich clues.
    Sandwich,
}

/// From so many to so many, both ends included.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Span {
    /// At least so many.
    pub least: usize,
    /// At most so many.
    pub most: usize,
}

impl Span {
    /// Whether the number lies in it.
    pub fn has(self, n: usize) -> bool {
        (self.least..=self.most).contains(&n)
    }
}

/// Which lines have a clue.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Clues {
    /// Those that are needed.
    Needed,
    /// Every row and column, needed or not.
    All,
    /// Those that are needed, but a line and the one opposite have both a clue or neither.
    Symmetric,
    /// As few as can be: clues are taken away before givens.
    Few,
    /// So many.
    Within(Span),
}

/// Where the givens are.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Look {
    /// Anywhere.
    Any,
    /// In places that look the same after a half turn of the board.
    Symmetric,
}

/// What the puzzle should be like. It always has exactly one solution, and nothing on its page is to spare: without
/// any one given or clue it would have several. Only what the look or the numbers ask for may be more, and what
/// [`Brief::is_spare_allowed`] allows.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Brief {
    /// The size of the board.
    pub size: Size,
    /// Its rules.
    pub kind: Kind,
    /// Techniques that the puzzle cannot be finished without, by a solver who knows all others that are
    /// known ([`Known::in_place_of`]).
    pub teaches: Vec<TechniqueId>,
    /// The techniques that are enough, those that it teaches among them.
    pub known: Known,
    /// How long it takes a regular who knows those, in minutes: the median; none if that does not matter.
    pub minutes: Option<Span>,
    /// How many givens.
    pub givens: Span,
    /// Which clues.
    pub clues: Clues,
    /// Where the givens are.
    pub look: Look,
    /// Whether givens and clues may stay that only those need who know no more than the brief says: without any of
    /// them they could not finish the puzzle, though it would have one solution.
    pub is_spare_allowed: bool,
}

impl Brief {
    /// The techniques that are known, and nothing else.
    pub(crate) fn settings(&self) -> Settings {
        Settings { known: self.known, ..Settings::TECHNIQUES_ALONE }
    }

    /// The same without one of them.
    pub(crate) fn without(&self, technique: TechniqueId) -> Settings {
        Settings { known: self.known.in_place_of(technique), ..Settings::TECHNIQUES_ALONE }
    }
}

/// What whoever is to learn these techniques usually knows already, and the techniques themselves: everything that is
/// easier than the hardest of them, the first techniques of all, and those that only together with these lead
/// anywhere. With none to learn, every technique but the last of all, which is for where those lead no farther.
pub fn usually_known(teaches: &[TechniqueId]) -> Known {
    let last = teaches.iter().map(|it| rank(*it)).max().unwrap_or(TECHNIQUES.len() - 2);
    let is_companion = |id: &TechniqueId| {
        COMPANIONS.iter().any(|it| it.1 == id.name() && teaches.iter().any(|taught| taught.name() == it.0))
    };
    let ids = TECHNIQUES.iter().map(|it| it.id()).enumerate();
    let is_known = |at: usize, id: &TechniqueId| at <= last || FIRST.contains(&id.name()) || is_companion(id);
    Known::only(ids.filter(|(at, id)| is_known(*at, id)).map(|it| it.1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_usually_known_is_in_the_registry() {
        let is_technique = |name: &str| TECHNIQUES.iter().any(|it| it.id().name() == name);
        assert!(FIRST.iter().all(|it| is_technique(it)));
        assert!(COMPANIONS.iter().all(|it| is_technique(it.0) && is_technique(it.1)));
        assert_eq!(usually_known(&[]).techniques().count(), TECHNIQUES.len() - 1);
        assert_eq!(usually_known(&[TECHNIQUES[0].id()]).techniques().count(), FIRST.len());
        let shared = usually_known(&[TechniqueId::new("crusts-shared")]);
        assert!(shared.has(TechniqueId::new("crust-among")) && !shared.has(TechniqueId::new("crust-held")));
    }
}
