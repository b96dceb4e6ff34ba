//! Spent clue: the digits between the crusts are known, so the cells between hold only those, and
//! the cells outside only the others.
//!
//! ```text
//! 31 | 4 is the outside digit: no cell between the crusts is 4
//! ```

use grid::CellSet;
use rulebook::{Claim, filling_digits};
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

    fn find(&self, view: &View) -> Vec<Proposal> {
        let mut found = Vec::new();
        for house in view.size().lines() {
            let Some((fact, filling)) = view.spent(house) else { continue };
            let line = Line::new(view, house);
            let mut sides = [CellSet::EMPTY; 2];
            let mut conclusions = Vec::new();
            for (at, &cell) in line.cells.iter().enumerate() {
                let others = filling_digits(view.size()) - filling;
                for (n, (side, lost)) in
                    [(Side::Between, others), (Side::Outside, filling)].into_iter().enumerate()
                {
                    let mut cites = Cites::default().fact(fact);
                    if !line.must_be(side, at) {
                        continue;
                    }
                    sides[n].insert(cell);
                    let news: Vec<Claim> =
                        lost.iter().map(|it| Claim::IsNot(cell, it)).filter(|it| view.is_news(*it)).collect();
                    if !news.is_empty() && line.why_must_be(side, at, &mut cites) {
                        conclusions.extend(news.into_iter().map(|it| (it, cites.clone())));
                    }
                }
            }
            if !conclusions.is_empty() {
                let [between, outside] = sides;
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
