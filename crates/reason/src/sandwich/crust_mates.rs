//! Crust mates: the two crusts of a line are a 1 and a largest digit at a known distance, so a cell can
//! be the one only if a cell at that distance can be the other.
//!
//! ```text
//! two cells between the crusts: a can be 1 only if b can be 9
//! . a . . b . . . .
//! ```

use rulebook::Claim;
use trail::{Proposal, TechniqueId};

use super::misfits::Misfits;
use crate::{Technique, View};

pub(crate) struct CrustMates;

impl Technique for CrustMates {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crust-mates") }
    }

    fn weight(&self) -> u32 {
        24
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("crust-reach")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        lines(view).flat_map(|it| it.steps(self.id(), is_wanted)).collect()
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        Some(lines(view).flat_map(|it| it.open_claims(|_| true)).collect())
    }
}

fn lines<'v>(view: &'v View<'_>) -> impl Iterator<Item = Misfits<'v, 'v>> {
    view.lines().iter().filter_map(|it| Misfits::of_distance(view, *it))
}
