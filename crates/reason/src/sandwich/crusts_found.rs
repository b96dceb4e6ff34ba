//! Crusts found: a house has two crusts, so once both are known its other cells are filling.
//!
//! ```text
//! . C f | f f C | f f f
//! ```

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

    fn prerequisites(&self) -> &'static [TechniqueId] {
        &[]
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        if !has_sandwiches(view) {
            return Vec::new();
        }
        let mut found = Vec::new();
        for &house in view.houses() {
            let crusts = view.members(house) & view.known_crusts();
            let rest = view.members(house) - crusts - view.known_filling();
            let mut cites = Cites::default();
            if rest.is_empty() || crusts.len() != 2 || !crusts.iter().all(|it| view.why_crust(it, &mut cites))
            {
                continue;
            }
            cites.houses.insert(house);
            found.push(Proposal {
                technique: self.id(),
                argument: Argument::CrustsFound { house, crusts },
                conclusions: rest.iter().map(|it| (Claim::Filling(it), cites.clone())).collect(),
            });
        }
        found
    }
}
