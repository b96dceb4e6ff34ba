//! Crust places: a house has two crusts, so if only two of its cells can be crusts, both are.
//!
//! ```text
//! f f . | f f f | f . f      the two open cells are the crusts
//! ```

use grid::{CellSet, House};
use rulebook::{Claim, RuleId};
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::has_sandwiches;
use crate::{Part, Technique, View};

pub(crate) struct CrustPlaces;

impl Technique for CrustPlaces {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crust-places") }
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        15
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("crusts-found")] }
    }

    fn looks_at(&self) -> &'static [Part] {
        &[Part::Kinds]
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        let open = open_houses(view).filter(|it| it.2.iter().any(|it| is_wanted(&Claim::Crust(it))));
        let offer = |(house, cells, news): (House, CellSet, CellSet)| {
            let mut cites = Cites::default().house(house);
            let mut filling = (view.members(house) - cells).iter();
            filling.all(|it| view.why_filling(it, &mut cites)).then(|| Proposal {
                technique: self.id(),
                argument: Argument::CrustPlaces { house, cells },
                conclusions: news.iter().map(|it| (Claim::Crust(it), cites.clone())).collect(),
            })
        };
        open.filter_map(offer).collect()
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        Some(open_houses(view).map(|it| it.2.iter().map(Claim::Crust).collect()).collect())
    }
}

/// Each house in which two cells are left for the crusts, with those and the ones not known to be crusts yet.
fn open_houses<'v>(view: &'v View<'_>) -> impl Iterator<Item = (House, CellSet, CellSet)> + 'v {
    let houses = view.houses().iter().filter(|_| has_sandwiches(view));
    let left = houses.map(|it| (*it, view.members(*it) - view.known_filling())).filter(|it| it.1.len() == 2);
    left.map(|(it, cells)| (it, cells, cells - view.known_crusts())).filter(|it| !it.2.is_empty())
}
