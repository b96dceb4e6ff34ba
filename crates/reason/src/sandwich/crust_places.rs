//! Crust places: a house has two crusts, so if only two of its cells can be crusts, both are.
//!
//! ```text
//! f f . | f f f | f . f      the two open cells are the crusts
//! ```

use grid::{Cell, CellSet};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::has_sandwiches;
use crate::{Technique, View};

pub(crate) struct CrustPlaces;

impl Technique for CrustPlaces {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crust-places") }
    }

    fn weight(&self) -> u32 {
        15
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        if !has_sandwiches(view) {
            return Vec::new();
        }
        let mut found = Vec::new();
        for house in view.size().houses() {
            let (filling, places): (Vec<Cell>, Vec<Cell>) =
                view.size().cells_of(house).into_iter().partition(|it| view.is_filling(*it));
            let mut cites = Cites::default().house(house);
            if places.len() != 2 || !filling.iter().all(|it| view.why_filling(*it, &mut cites)) {
                continue;
            }
            let crusts = places.iter().map(|it| Claim::Crust(*it)).filter(|it| view.is_news(*it));
            let crusts: Vec<_> = crusts.map(|it| (it, cites.clone())).collect();
            if !crusts.is_empty() {
                let cells: CellSet = places.into_iter().collect();
                found.push(Proposal {
                    technique: self.id(),
                    argument: Argument::CrustPlaces { house, cells },
                    conclusions: crusts,
                });
            }
        }
        found
    }
}
