//! Crusts against the sum: a cell that has a crust only where the cells between cannot make the clue is
//! no crust.
//!
//! ```text
//! 16 | . a . . b . . . .      two cells between a and b: 16 is too much for them
//! ```

use rulebook::Claim;
use trail::{Proposal, TechniqueId};

use super::misfits::Misfits;
use crate::{Technique, View};

pub(crate) struct CrustSums;

impl Technique for CrustSums {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crust-sums") }
    }

    fn weight(&self) -> u32 {
        36
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("filling-sets"), TechniqueId::new("crust-reach")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        let is_wanted = |it: &Claim| is_about_crusts(view, it) && is_wanted(it);
        let lines = view.clued_lines().iter().map(|it| Misfits::of_sum(view, it));
        lines.flat_map(|it| it.steps(self.id(), is_wanted)).collect()
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        let lines = view.clued_lines().iter().map(|it| Misfits::of_sum(view, it));
        Some(lines.flat_map(|it| it.open_claims(|it| is_about_crusts(view, it))).collect())
    }
}

fn is_about_crusts(view: &View, claim: &Claim) -> bool {
    match claim {
        Claim::IsNot(_, digit) => !view.filling_digits().contains(*digit),
        _ => true,
    }
}
