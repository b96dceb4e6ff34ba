//! Chain: suppose that a cell is not a digit, and follow what that implies by houses with two places for
//! a digit and by cells with two digits. If another cell holds the digit then, one of the two does, and
//! what sees both loses it; and if the supposition comes to its own opposite, that is so.
//!
//! ```text
//! A .      . | . b      .      5 has no other places in row 1 than A and b: if A is not 5, b is,
//! . .      . | . .      .      so c is not 5 but 2, d is not 2 but 3, and e is not 3 but 5
//! -----------+-----------
//! . d{2 3} . | . c{2 5} .      x sees A and e: it is not 5
//! x e{3 5} . | . .      .
//! ```

use rulebook::Claim;
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

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("xy-wing"), TechniqueId::new("two-colour-chain")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        chains::plain(view, self.id(), is_wanted)
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        Some(chains::plain_claims(view))
    }
}
