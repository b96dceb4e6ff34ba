//! Crust places: a house has two crusts, so if only two of its cells can be crusts, both are.
//!
//! ```text
//! f f . | f f f | f . f      the two open cells are the crusts
//! ```

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

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("crusts-found")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        if !has_sandwiches(view) {
            return Vec::new();
        }
        let mut found = Vec::new();
        for &house in view.houses() {
            let filling = view.members(house) & view.known_filling();
            let cells = view.members(house) - filling;
            let news = cells - view.known_crusts();
            let mut cites = Cites::default();
            if news.is_empty()
                || cells.len() != 2
                || !filling.iter().all(|it| view.why_filling(it, &mut cites))
            {
                continue;
            }
            cites.houses.insert(house);
            found.push(Proposal {
                technique: self.id(),
                argument: Argument::CrustPlaces { house, cells },
                conclusions: news.iter().map(|it| (Claim::Crust(it), cites.clone())).collect(),
            });
        }
        found
    }
}
