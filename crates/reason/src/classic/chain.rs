//! Chain: suppose that a cell is not a digit, and follow what that implies by houses with two places for
//! a digit and by cells with two digits. If another cell holds the digit then, one of the two does, and
//! what sees both loses it; and if the supposition comes to its own opposite, that is so.
//!
//! ```text
//! A . . | . b{2 5} .      5 has two places in row 1, and in box 4, and 2 in row 4:
//! .     . . | .  .      . if A is not 5, b is 5, so c is 2, so d is not 2, so e is 2 and not 5, so F is 5
//! -------------------     x sees A and F: it is not 5
//! x F e | . c{2 5} d
//! ```

use trail::{Proposal, TechniqueId};

use crate::{Technique, View, chains};

pub(crate) struct ClassicChain;

impl Technique for ClassicChain {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("chain") }
    }

    fn weight(&self) -> u32 {
        112
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        chains::plain(view, self.id())
    }

    fn n_open(&self, view: &View) -> usize {
        chains::n_plain(view)
    }
}
