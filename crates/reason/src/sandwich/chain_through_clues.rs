//! Chain through clues: a chain some of whose links are what the clue of one line says of two of its
//! cells.
//!
//! ```text
//!     0
//! 0 | a b C C . . . . .      row 1 has its crusts in a and b or in the cells C: if a is 1, b is 9,
//!     c . . .                and by column 1's clue c is 9 too
//!     C . . .                b and c lie in one box: a is not 1
//!     C . . .
//! ```

use rulebook::Claim;
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

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("crust-reach"), TechniqueId::new("sum-partners"), TechniqueId::new("chain")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        if has_sandwiches(view) { chains::through_clues(view, self.id(), is_wanted) } else { Vec::new() }
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        Some(if has_sandwiches(view) { chains::claims_through_clues(view) } else { Vec::new() })
    }
}
