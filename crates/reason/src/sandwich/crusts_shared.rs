//! Crusts shared: when some cells of a house have a crust and other cells of it have one too, these are its
//! two crusts, and the rest of it is filling.
//!
//! ```text
//! a b f |      the first row has a crust at a or b, the second at c or d:
//! c d f |      with these the box has two, so x, y and z are filling
//! x y z |
//! ```

use grid::{CellSet, House};
use rulebook::{Claim, RuleId};
use trail::{Argument, Cites, FactId, Proposal, TechniqueId};

use crate::{Technique, View};

pub(crate) struct CrustsShared;

impl Technique for CrustsShared {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crusts-shared") }
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        23
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("crust-places")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let of_crust = |(fact, claim)| match claim {
            Claim::CrustAmong { cells, .. } => Some((fact, cells)),
            _ => None,
        };
        let told: Vec<(FactId, CellSet)> = view.house_facts().filter_map(of_crust).collect();
        if told.is_empty() {
            return Vec::new();
        }
        view.houses().iter().flat_map(|it| self.in_house(view, *it, &told)).collect()
    }
}

impl CrustsShared {
    fn in_house(&self, view: &View, into: House, told: &[(FactId, CellSet)]) -> Vec<Proposal> {
        let members = view.members(into);
        let inside: Vec<(FactId, CellSet)> =
            told.iter().copied().filter(|it| it.1.is_subset(&members)).collect();
        let mut found = Vec::new();
        for (at, (fact, cells)) in inside.iter().enumerate() {
            let base = Cites::default().house(into).fact(*fact);
            let known = (members & view.known_crusts()) - *cells;
            let beside_known = known.iter().filter_map(|it| {
                let mut cites = base.clone();
                view.why_crust(it, &mut cites).then(|| ([it].into_iter().collect::<CellSet>(), cites))
            });
            let beside_told = inside[..at].iter().map(|(other, cells)| (*cells, base.clone().fact(*other)));
            for (other, cites) in beside_known.chain(beside_told).filter(|it| (it.0 & *cells).is_empty()) {
                let news = members - *cells - other - view.known_filling();
                let news: Vec<Claim> = news.iter().map(Claim::Filling).collect();
                if !news.is_empty() {
                    found.push(Proposal {
                        technique: self.id(),
                        argument: Argument::CrustsShared { into, parts: [*cells, other] },
                        conclusions: news.into_iter().map(|it| (it, cites.clone())).collect(),
                    });
                }
            }
        }
        found
    }
}
