//! Crusts confined: every house has two crusts, so if all places left for the crusts of one house lie in
//! another too, that other house has its two crusts there and none elsewhere.
//!
//! ```text
//! f f f |           in the first box only the second row is left for crusts:
//! . . . | f f f     both crusts of that row are in the box, and the rest of the row is filling
//! f f f |
//! ```

use grid::House;
use rulebook::{Claim, RuleId};
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::has_sandwiches;
use crate::{Part, Technique, View};

pub(crate) struct CrustsConfined;

impl Technique for CrustsConfined {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crusts-confined") }
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        25
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("crust-places")] }
    }

    fn looks_at(&self) -> &'static [Part] {
        &[Part::Kinds]
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        if !has_sandwiches(view) {
            return Vec::new();
        }
        let mut found = Vec::new();
        for &of in view.houses() {
            let Some(first) = (view.members(of) - view.known_filling()).first() else { continue };
            let others = view.size().houses_of(first).into_iter().filter(|it| *it != of);
            found.extend(others.filter_map(|into| self.in_houses(view, of, into)));
        }
        found
    }
}

impl CrustsConfined {
    fn in_houses(&self, view: &View, of: House, into: House) -> Option<Proposal> {
        let cells = view.members(of) - view.known_filling();
        let news = view.members(into) - cells - view.known_filling();
        if !cells.is_subset(&view.members(into)) || news.is_empty() {
            return None;
        }
        let mut cites = Cites::default().house(of).house(into);
        let away = view.members(of) - view.members(into);
        let shown = away.iter().all(|it| view.why_filling(it, &mut cites));
        shown.then(|| Proposal {
            technique: self.id(),
            argument: Argument::CrustsConfined { of, into, cells },
            conclusions: news.iter().map(|it| (Claim::Filling(it), cites.clone())).collect(),
        })
    }
}
