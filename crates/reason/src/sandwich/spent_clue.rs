//! Spent clue: the digits between the crusts are known, so the cells between hold only those, and
//! the cells outside only the others.
//!
//! ```text
//! 31 | 4 is the outside digit: no cell between the crusts is 4
//! ```

use trail::{Argument, Cites, Proposal, Side, TechniqueId};

use super::line::Line;
use crate::{Technique, View};

pub(crate) struct SpentClue;

impl Technique for SpentClue {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("spent-clue") }
    }

    fn weight(&self) -> u32 {
        21
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("filling-sets")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let mut found = Vec::new();
        for &house in view.lines() {
            let Some((fact, filling)) = view.spent(house) else { continue };
            let line = Line::new(view, house);
            let others = view.filling_digits() - filling;
            let base = Cites::default().fact(fact);
            let conclusions = line.lost_on_sides(others, filling, &base);
            if !conclusions.is_empty() {
                let [between, outside] = [Side::Between, Side::Outside].map(|side| line.sure_cells(side));
                found.push(Proposal {
                    technique: self.id(),
                    argument: Argument::SpentSplits { line: house, filling, between, outside },
                    conclusions,
                });
            }
        }
        found
    }
}
