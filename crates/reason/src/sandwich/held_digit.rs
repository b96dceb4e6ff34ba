//! Held digit: a digit confined to some cells of a line is lost to every cell that shares a house
//! with all of them.
//!
//! ```text
//! the row's outside 4 is at a or b, both in the first box: no other cell of that box is 4
//! ```

use rulebook::{Claim, RuleId};
use trail::{Argument, Cites, Proposal, TechniqueId};

use crate::{Technique, View};

pub(crate) struct HeldDigit;

impl Technique for HeldDigit {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("held-digit") }
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        32
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("locked-candidates"), TechniqueId::new("side-holds")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let mut found = Vec::new();
        for (fact, claim) in view.house_facts() {
            let Claim::DigitAmong { house: line, digit, cells } = claim else { continue };
            let Some(first) = cells.first() else { continue };
            let mut conclusions = Vec::new();
            for house in view.size().houses_of(first) {
                if !cells.is_subset(&view.members(house)) {
                    continue;
                }
                let cites = Cites::default().fact(fact).house(house);
                let lost = (view.places(house, digit) - cells).iter().map(|it| Claim::IsNot(it, digit));
                for claim in lost.filter(|it| view.is_news(*it)) {
                    if !conclusions.iter().any(|(it, _)| *it == claim) {
                        conclusions.push((claim, cites.clone()));
                    }
                }
            }
            if !conclusions.is_empty() {
                found.push(Proposal {
                    technique: self.id(),
                    argument: Argument::HeldActs { line, digit, cells },
                    conclusions,
                });
            }
        }
        found
    }
}
