//! Partners in the sum: a digit whose cell is between the crusts needs partners that make the clue
//! with it, and one whose cell is outside needs partners that make the rest.
//!
//! ```text
//! 12 | C a b c C . . . .      with 8 in a, the others share 4 and cannot: two digits hold 5 or more
//! ```
//!
//! First where the places of the crusts are known, then wherever the crusts can be.

use rulebook::Claim;
use trail::{Proposal, TechniqueId};

use super::misfits::Misfits;
use crate::{Technique, View};

pub(crate) static SUM_PARTNERS: Partners =
    Partners { most_pairs: 1, name: "sum-partners", weight: 38, needs: &[TechniqueId::new("filling-sets")] };
pub(crate) static PARTNERS_ANYWHERE: Partners = Partners {
    most_pairs: usize::MAX,
    name: "partners-anywhere",
    weight: 45,
    needs: &[TechniqueId::new("crust-reach"), TechniqueId::new("sum-partners")],
};

pub(crate) struct Partners {
    /// How many pairs of places the crusts have at most.
    most_pairs: usize,
    name: &'static str,
    weight: u32,
    needs: &'static [TechniqueId],
}

impl Technique for Partners {
    fn id(&self) -> TechniqueId {
        TechniqueId::new(self.name)
    }

    fn weight(&self) -> u32 {
        self.weight
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        self.needs
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        let is_wanted = |it: &Claim| is_about_filling(view, it) && is_wanted(it);
        self.lines(view).flat_map(|it| it.steps(self.id(), is_wanted)).collect()
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        Some(self.lines(view).flat_map(|it| it.open_claims(|it| is_about_filling(view, it))).collect())
    }
}

impl Partners {
    fn lines<'v>(&self, view: &'v View<'_>) -> impl Iterator<Item = Misfits<'v, 'v>> {
        let lines = view.clued_lines().iter().map(|it| Misfits::of_sum(view, it));
        lines.filter(|it| it.n_pairs() <= self.most_pairs)
    }
}

fn is_about_filling(view: &View, claim: &Claim) -> bool {
    matches!(claim, Claim::IsNot(_, digit) if view.filling_digits().contains(*digit))
}
