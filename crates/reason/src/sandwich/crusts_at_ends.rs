//! Crusts at the ends: a clue that is the sum of all filling digits has all of them between the
//! crusts, so the crusts stand at the two ends.
//!
//! ```text
//! 35 | C . . . . . . . C
//! ```

use rulebook::{Claim, RuleId, filling_total};
use trail::{Argument, Cites, Proposal, TechniqueId};

use crate::view::CluedLine;
use crate::{Part, Technique, View};

pub(crate) struct CrustsAtEnds;

impl Technique for CrustsAtEnds {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crusts-at-ends") }
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        4
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        &[]
    }

    fn looks_at(&self) -> &'static [Part] {
        &[]
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let size = view.size();
        let total = filling_total(size);
        let mut found = Vec::new();
        for &CluedLine { line, clue, sum, .. } in view.clued_lines().iter().filter(|it| it.sum == total) {
            let cells = view.cells_of(line);
            let ends = [cells[0], cells[cells.len() - 1]].map(Claim::Crust);
            let inner = cells[1..cells.len() - 1].iter().map(|it| Claim::Filling(*it));
            let spent = Claim::Spent { line, filling: view.filling_digits() };
            let news: Vec<Claim> =
                ends.into_iter().chain(inner).chain([spent]).filter(|it| view.is_news(*it)).collect();
            if !news.is_empty() {
                let cites = Cites::default().clue(clue);
                found.push(Proposal {
                    technique: self.id(),
                    argument: Argument::CrustsAtEnds { clue, line, sum },
                    conclusions: news.into_iter().map(|it| (it, cites.clone())).collect(),
                });
            }
        }
        found
    }
}
