//! Hidden pairs, triples and quads: two (three, four) digits of a house with only as many places
//! between them fill those places; nothing else fits there.
//!
//! ```text
//! a{2 5 7} . . | b{2 3 7} . . | . . .      2 and 7 have no other place in the row,
//!                                          so a is not 5 and b is not 3
//! ```

use grid::{CellSet, Digit, DigitSet};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::{each_crowd, places_of};
use crate::{Technique, View};

pub(crate) static HIDDEN_PAIR: SharedCells = SharedCells {
    n: 2,
    name: "hidden-pair",
    weight: 40,
    needs: &[TechniqueId::new("hidden-single"), TechniqueId::new("naked-pair")],
};
pub(crate) static HIDDEN_TRIPLE: SharedCells = SharedCells {
    n: 3,
    name: "hidden-triple",
    weight: 60,
    needs: &[TechniqueId::new("hidden-pair"), TechniqueId::new("naked-triple")],
};
pub(crate) static HIDDEN_QUAD: SharedCells = SharedCells {
    n: 4,
    name: "hidden-quad",
    weight: 98,
    needs: &[TechniqueId::new("hidden-triple"), TechniqueId::new("naked-quad")],
};

pub(crate) struct SharedCells {
    n: usize,
    name: &'static str,
    weight: u32,
    needs: &'static [TechniqueId],
}

impl Technique for SharedCells {
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
            let places = size.digits().iter().map(|it| (it, view.places(house, it)));
            let few: Vec<(Digit, CellSet)> =
                places.filter(|(_, cells)| (2..=self.n).contains(&cells.len())).collect();
            let of_each: Vec<u16> = few.iter().map(|it| places_of(view.cells_of(house), it.1)).collect();
            each_crowd(&of_each, self.n, &mut |chosen| {
                let cells = chosen.iter().fold(CellSet::EMPTY, |all, it| all | few[*it].1);
                let digits: DigitSet = chosen.iter().map(|it| few[*it].0).collect();
                let lost: Vec<Claim> = (cells.iter())
                    .flat_map(|cell| (size.digits() - digits).iter().map(move |it| Claim::IsNot(cell, it)))
                    .filter(|it| view.is_news(*it))
                    .collect();
                if lost.is_empty() {
                    return;
                }
                let mut cites = Cites::default().house(house);
                let others = view.members(house) - cells;
                let elsewhere = others.iter().flat_map(|cell| digits.iter().map(move |it| (cell, it)));
                if !view.why_none(elsewhere, &mut cites) {
                    return;
                }
                found.push(Proposal {
                    technique: self.id(),
                    argument: Argument::SharedCells { house, cells, digits },
                    conclusions: lost.into_iter().map(|it| (it, cites.clone())).collect(),
                });
            });
        }
        found
    }
}
