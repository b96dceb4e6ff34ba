//! Crusts adjacent: the clue 0 leaves nothing between the crusts, so they stand side by side.
//!
//! ```text
//! 0 | . . . C C . . . .
//! ```
//!
//! Where along the line they stand is for crust reach to say.

use grid::DigitSet;
use rulebook::{Claim, RuleId};
use trail::{Argument, Cites, Proposal, TechniqueId};

use crate::view::CluedLine;
use crate::{Part, Technique, View};

pub(crate) struct CrustsAdjacent;

impl Technique for CrustsAdjacent {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crusts-adjacent") }
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        5
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        &[]
    }

    fn looks_at(&self) -> &'static [Part] {
        &[]
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let offer = |&CluedLine { line, clue, .. }: &CluedLine| {
            let spent = Claim::Spent { line, filling: DigitSet::EMPTY };
            view.is_news(spent).then(|| Proposal {
                technique: self.id(),
                argument: Argument::CrustsTouch { clue, line },
                conclusions: vec![(spent, Cites::default().clue(clue))],
            })
        };
        view.clued_lines().iter().filter(|it| it.sum == 0).filter_map(offer).collect()
    }
}
