//! Crusts found: a house has two crusts, so once both are known its other cells are filling.
//!
//! ```text
//! . C f | f f C | f f f
//! ```

use grid::{Cell, CellSet};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::has_sandwiches;
use crate::{Technique, View};

pub(crate) struct CrustsFound;

impl Technique for CrustsFound {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crusts-found") }
    }

    fn weight(&self) -> u32 {
        6
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        if !has_sandwiches(view) {
            return Vec::new();
        }
        let mut found = Vec::new();
        for house in view.size().houses() {
            let cells = view.size().cells_of(house);
            let crusts: Vec<Cell> = cells.iter().copied().filter(|it| view.is_crust(*it)).collect();
            let mut cites = Cites::default().house(house);
            if crusts.len() != 2 || !crusts.iter().all(|it| view.why_crust(*it, &mut cites)) {
                continue;
            }
            let rest = cells.into_iter().filter(|it| !crusts.contains(it)).map(Claim::Filling);
            let rest: Vec<_> = rest.filter(|it| view.is_news(*it)).map(|it| (it, cites.clone())).collect();
            if !rest.is_empty() {
                let crusts: CellSet = crusts.into_iter().collect();
                found.push(Proposal {
                    technique: self.id(),
                    argument: Argument::CrustsFound { house, crusts },
                    conclusions: rest,
                });
            }
        }
        found
    }
}
