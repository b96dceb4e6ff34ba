//! Crust distance: a sum needs at least and allows at most so many filling cells.
//!
//! ```text
//! 20 | two cells hold at most 7 + 8 = 15, so there are three or more;
//!      six cells hold at least 2 + 3 + 4 + 5 + 6 + 7 = 27, so there are five or fewer
//! ```

use grid::DigitSet;
use rulebook::{Claim, RuleId, filling_total};
use trail::{Argument, Cites, Proposal, TechniqueId};

use crate::view::CluedLine;
use crate::{Part, Technique, View};

pub(crate) struct CrustDistance;

impl Technique for CrustDistance {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crust-distance") }
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        10
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("crusts-at-ends"), TechniqueId::new("crusts-adjacent")] }
    }

    fn looks_at(&self) -> &'static [Part] {
        &[]
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let size = view.size();
        let filling = view.filling_digits();
        let mut found = Vec::new();
        for &CluedLine { line, clue, sum, ref sets } in view.clued_lines() {
            // The two ends of the range have techniques of their own.
            if sum == 0 || sum == filling_total(size) {
                continue;
            }
            let (Some(fewest), Some(most)) = (sets.first(), sets.last()) else { continue };
            let (fewest, most) = (fewest.len(), most.len());
            let claim = Claim::FillingCells { line, fewest: fewest as u8, most: most as u8 };
            if !view.is_news(claim) {
                continue;
            }
            let short: DigitSet = filling.iter().rev().take(fewest - 1).collect();
            let over: DigitSet = filling.iter().take(most + 1).collect();
            let over = if over.sum() > sum { over } else { DigitSet::EMPTY };
            found.push(Proposal {
                technique: self.id(),
                argument: Argument::CrustDistance {
                    clue,
                    line,
                    sum,
                    fewest: fewest as u8,
                    most: most as u8,
                    short,
                    over,
                },
                conclusions: vec![(claim, Cites::default().clue(clue))],
            });
        }
        found
    }
}
