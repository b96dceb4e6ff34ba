//! Naked pairs, triples and quads: two (three, four) cells of a house with only as many digits between
//! them keep those digits; the rest of the house loses them.
//!
//! ```text
//! a{2 7} . . | b{2 7} . x{2 5 7} | . . .      2 and 7 are at a and b, so x is 5
//! ```

use grid::{Cell, CellSet, DigitSet};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::each_crowd;
use crate::{Technique, View};

pub(crate) static NAKED_PAIR: SharedDigits =
    SharedDigits { n: 2, name: "naked-pair", weight: 34, needs: &[TechniqueId::new("naked-single")] };
pub(crate) static NAKED_TRIPLE: SharedDigits =
    SharedDigits { n: 3, name: "naked-triple", weight: 50, needs: &[TechniqueId::new("naked-pair")] };
pub(crate) static NAKED_QUAD: SharedDigits =
    SharedDigits { n: 4, name: "naked-quad", weight: 72, needs: &[TechniqueId::new("naked-triple")] };

pub(crate) struct SharedDigits {
    n: usize,
    name: &'static str,
    weight: u32,
    needs: &'static [TechniqueId],
}

impl Technique for SharedDigits {
    fn id(&self) -> TechniqueId {
        TechniqueId::new(self.name)
    }

    fn weight(&self) -> u32 {
        self.weight
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        self.needs
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let size = view.size();
        let mut found = Vec::new();
        for &house in view.houses() {
            let cells = view.cells_of(house).iter().copied();
            let open: Vec<Cell> = cells.filter(|it| view.digit(*it).is_none()).collect();
            let is_short = |it: &Cell| (2..=self.n).contains(&view.candidates(*it).len());
            let few: Vec<Cell> = open.iter().copied().filter(is_short).collect();
            let of_each: Vec<u16> = few.iter().map(|it| view.candidates(*it).bits()).collect();
            each_crowd(&of_each, self.n, &mut |chosen| {
                let cells: CellSet = chosen.iter().map(|it| few[*it]).collect();
                let digits = cells.iter().fold(DigitSet::EMPTY, |all, it| all | view.candidates(it));
                let others = open.iter().filter(|it| !cells.contains(**it));
                let lost: Vec<Claim> = others
                    .flat_map(|cell| digits.iter().map(|it| Claim::IsNot(*cell, it)))
                    .filter(|it| view.is_news(*it))
                    .collect();
                if lost.is_empty() {
                    return;
                }
                let mut cites = Cites::default().house(house);
                let outside = size.digits() - digits;
                let elsewhere = cells.iter().flat_map(|cell| outside.iter().map(move |it| (cell, it)));
                if !view.why_none(elsewhere, &mut cites) {
                    return;
                }
                found.push(Proposal {
                    technique: self.id(),
                    argument: Argument::SharedDigits { house, cells, digits },
                    conclusions: lost.into_iter().map(|it| (it, cites.clone())).collect(),
                });
            });
        }
        found
    }
}
