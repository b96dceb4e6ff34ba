//! Crust reach: from the places left for the two crusts of a line, cells that no placement uses, and
//! cells between the crusts in every placement, are filling; a cell that every placement uses is a
//! crust.
//!
//! ```text
//! 24 | . . . . f . . . .      four or five cells between: the middle is always one of them
//! ```

use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::has_sandwiches;
use super::line::Line;
use crate::view::{Pair, uses};
use crate::{Technique, View};

pub(crate) struct CrustReach;

impl Technique for CrustReach {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crust-reach") }
    }

    fn weight(&self) -> u32 {
        22
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("crust-distance")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        if !has_sandwiches(view) {
            return Vec::new();
        }
        let mut found = Vec::new();
        for &house in view.lines() {
            let line = Line::new(view, house);
            let conclusions = self.conclusions(view, &line);
            let cells = |(left, right): &Pair| (line.cells[*left], line.cells[*right]);
            let Some((fewest, most)) = line.spread() else { continue };
            if !conclusions.is_empty() {
                found.push(Proposal {
                    technique: self.id(),
                    argument: Argument::Reach {
                        line: house,
                        fewest: fewest as u8,
                        most: most as u8,
                        pairs: line.crusts.pairs().iter().map(cells).collect(),
                    },
                    conclusions,
                });
            }
        }
        found
    }
}

impl CrustReach {
    fn conclusions(&self, view: &View, line: &Line) -> Vec<(Claim, Cites)> {
        let mut conclusions = Vec::new();
        for (at, &cell) in line.cells.iter().enumerate() {
            let claim = if line.crusts.must_be_crust(at) {
                Claim::Crust(cell)
            } else if !line.crusts.may_be_crust(at) {
                Claim::Filling(cell)
            } else {
                continue;
            };
            let breaks_it = |pair: Pair| uses(pair, at) != (claim == Claim::Crust(cell));
            let mut cites = Cites::default();
            if view.is_news(claim) && line.why_no_pair(breaks_it, &mut cites) {
                conclusions.push((claim, cites));
            }
        }
        conclusions
    }
}
