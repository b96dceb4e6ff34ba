//! Chain through clues: a chain some of whose links are what the clue of one line says of two of its
//! cells.
//!
//! ```text
//! 4 | a . . b . . . . .      the 4 takes one cell or two: if a is 1, b is not 9 ...
//!     .
//!     c                      ... and if c is not 1, a is, by column 1
//! ```

use trail::{Proposal, TechniqueId};

use super::has_sandwiches;
use crate::{Technique, View, chains};

pub(crate) struct ChainThroughClues;

impl Technique for ChainThroughClues {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("chain-through-clues") }
    }

    fn weight(&self) -> u32 {
        118
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        if has_sandwiches(view) { chains::through_clues(view, self.id()) } else { Vec::new() }
    }

    fn n_open(&self, view: &View) -> usize {
        if has_sandwiches(view) { chains::n_through_clues(view) } else { 0 }
    }
}
