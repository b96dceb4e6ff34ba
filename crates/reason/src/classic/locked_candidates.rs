//! Locked candidates: a digit confined, within one house, to cells that another house holds too is
//! lost to the rest of that other house.
//!
//! ```text
//! . . . | 2 5 . | . . .      in the first box 7 can only be at a and b, both in row 1:
//! a b . | . . . | . x .      so it is not at x
//! . . . | . . . | . . .
//! ```

use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use crate::{Technique, View};

pub(crate) struct LockedCandidates;

impl Technique for LockedCandidates {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("locked-candidates") }
    }

    fn weight(&self) -> u32 {
        26
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("hidden-single")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let size = view.size();
        let mut found = Vec::new();
        for digit in size.digits().iter() {
            for &from in view.houses() {
                let cells = view.places(from, digit);
                let Some(first) = cells.first().filter(|_| cells.len() > 1) else { continue };
                // Two houses that share more than one cell are a box and a line.
                for into in size.houses_of(first) {
                    if into == from || !cells.is_subset(&view.members(into)) {
                        continue;
                    }
                    let lost = (view.places(into, digit) - cells).iter().map(|it| Claim::IsNot(it, digit));
                    let lost: Vec<Claim> = lost.filter(|it| view.is_news(*it)).collect();
                    if lost.is_empty() {
                        continue;
                    }
                    let mut cites = Cites::default().house(from).house(into);
                    let elsewhere = view.members(from) - cells;
                    if !elsewhere.iter().all(|it| view.why_not(it, digit, &mut cites)) {
                        continue;
                    }
                    found.push(Proposal {
                        technique: self.id(),
                        argument: Argument::Locked { digit, from, into, cells },
                        conclusions: lost.into_iter().map(|it| (it, cites.clone())).collect(),
                    });
                }
            }
        }
        found
    }
}
