//! Crusts found: a house has two crusts, so once both are known its other cells are filling.
//!
//! ```text
//! . C f | f f C | f f f
//! ```

use grid::{CellSet, House};
use rulebook::{Claim, RuleId};
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::has_sandwiches;
use crate::{Part, Technique, View};

pub(crate) struct CrustsFound;

impl Technique for CrustsFound {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crusts-found") }
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        6
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        &[]
    }

    fn looks_at(&self) -> &'static [Part] {
        &[Part::Kinds]
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        let open = open_houses(view).filter(|it| it.2.iter().any(|it| is_wanted(&Claim::Filling(it))));
        let offer = |(house, crusts, rest): (House, CellSet, CellSet)| {
            let mut cites = Cites::default().house(house);
            crusts.iter().all(|it| view.why_crust(it, &mut cites)).then(|| Proposal {
                technique: self.id(),
                argument: Argument::CrustsFound { house, crusts },
                conclusions: rest.iter().map(|it| (Claim::Filling(it), cites.clone())).collect(),
            })
        };
        open.filter_map(offer).collect()
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        Some(open_houses(view).map(|it| it.2.iter().map(Claim::Filling).collect()).collect())
    }
}

/// Each house whose crusts are known, with those and the cells not known to be filling yet.
fn open_houses<'v>(view: &'v View<'_>) -> impl Iterator<Item = (House, CellSet, CellSet)> + 'v {
    let houses = view.houses().iter().filter(|_| has_sandwiches(view));
    let found = houses.map(|it| (*it, view.members(*it) & view.known_crusts())).filter(|it| it.1.len() == 2);
    let open = found.map(|(it, crusts)| (it, crusts, view.members(it) - crusts - view.known_filling()));
    open.filter(|it| !it.2.is_empty())
}
