//! What a puzzle should be like.

use grid::Size;
use trail::TechniqueId;

/// Which rules a puzzle has beside the classic one.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Kind {
    /// None: givens only.
    Classic,
    /// Sandwich clues.
    Sandwich,
}

/// What the puzzle should be like. It always has exactly one solution.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Brief {
    /// The size of the board.
    pub size: Size,
    /// Its rules.
    pub kind: Kind,
    /// At most so many givens.
    pub givens: usize,
    /// At most so many clues.
    pub clues: usize,
    /// Whether the places of the givens look the same after a half turn of the board.
    pub balanced: bool,
    /// Nothing harder than this technique is needed; none if small arguments may be needed too.
    pub hardest: Option<TechniqueId>,
    /// Techniques that the walkthrough must use.
    pub teaches: Vec<TechniqueId>,
}
