//! Sees both crusts: a cell that can hold neither crust, because it sees both or is known to differ
//! from them, is filling.
//!
//! ```text
//! 1 . . | f . . | . . .
//! . . . | . . . | . . .      f sees the 1 in its row and the 9 in its column
//! . . . | 9 . . | . . .
//! ```

use grid::CellSet;
use rulebook::{Claim, RuleId, crusts};
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::has_sandwiches;
use crate::{Part, Technique, View};

pub(crate) struct SeesBothCrusts;

impl Technique for SeesBothCrusts {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("sees-both-crusts") }
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        9
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        &[]
    }

    fn looks_at(&self) -> &'static [Part] {
        &[Part::Kinds, Part::Candidates]
    }

    /// One step a row, since the eye runs along it.
    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        let (one, last) = crusts(view.size());
        let cite = |cell| {
            let mut cites = Cites::default();
            let shown = view.why_not(cell, one, &mut cites) && view.why_not(cell, last, &mut cites);
            shown.then_some((Claim::Filling(cell), cites))
        };
        let offer = |cells: CellSet| Proposal {
            technique: self.id(),
            argument: Argument::SeesBothCrusts { cells },
            conclusions: cells.iter().filter_map(cite).collect(),
        };
        let open = open_rows(view).filter(|it| it.iter().any(|it| is_wanted(&Claim::Filling(it))));
        open.map(offer).collect()
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        Some(open_rows(view).map(|it| it.iter().map(Claim::Filling).collect()).collect())
    }
}

/// The cells that can hold neither crust and are not known to be filling, row by row.
fn open_rows(view: &View) -> impl Iterator<Item = CellSet> {
    let (one, last) = crusts(view.size());
    let rows = view.lines().iter().take(usize::from(view.size().side())).filter(|_| has_sandwiches(view));
    let neither = rows.map(move |row| view.members(*row) - view.places(*row, one) - view.places(*row, last));
    neither.map(|it| it - view.known_filling()).filter(|it| !it.is_empty())
}
