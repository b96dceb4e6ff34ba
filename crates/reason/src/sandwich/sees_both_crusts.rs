//! Sees both crusts: a cell that can hold neither crust, because it sees both or is known to differ
//! from them, is filling.
//!
//! ```text
//! 1 . . | f . . | . . .
//! . . . | . . . | . . .      f sees the 1 in its row and the 9 in its column
//! . . . | 9 . . | . . .
//! ```

use grid::{CellSet, House};
use rulebook::{Claim, crusts};
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::has_sandwiches;
use crate::{Technique, View};

pub(crate) struct SeesBothCrusts;

impl Technique for SeesBothCrusts {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("sees-both-crusts") }
    }

    fn weight(&self) -> u32 {
        9
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        &[]
    }

    /// One step a row, since the eye runs along it.
    fn find(&self, view: &View) -> Vec<Proposal> {
        if !has_sandwiches(view) {
            return Vec::new();
        }
        let rows = view.lines().iter().take(usize::from(view.size().side()));
        rows.filter_map(|row| self.in_row(view, *row)).collect()
    }
}

impl SeesBothCrusts {
    fn in_row(&self, view: &View, row: House) -> Option<Proposal> {
        let (one, last) = crusts(view.size());
        let neither = view.members(row) - view.places(row, one) - view.places(row, last);
        let mut cells = CellSet::EMPTY;
        let mut conclusions = Vec::new();
        for cell in (neither - view.known_filling()).iter() {
            let mut cites = Cites::default();
            if view.why_not(cell, one, &mut cites) && view.why_not(cell, last, &mut cites) {
                cells.insert(cell);
                conclusions.push((Claim::Filling(cell), cites));
            }
        }
        (!conclusions.is_empty()).then(|| Proposal {
            technique: self.id(),
            argument: Argument::SeesBothCrusts { cells },
            conclusions,
        })
    }
}
