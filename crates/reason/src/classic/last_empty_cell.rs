//! Last empty cell: a house with one cell open takes the digit it lacks.
//!
//! ```text
//! 4 1 7 | 3 . 9 | 8 2 5      the open cell is 6
//! ```

use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use crate::{Technique, View};

pub(crate) struct LastEmptyCell;

impl Technique for LastEmptyCell {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("last-empty-cell") }
    }

    fn weight(&self) -> u32 {
        3
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        &[]
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let size = view.size();
        let mut found = Vec::new();
        for &house in view.houses() {
            let cells = view.cells_of(house);
            let Some(cell) = (view.members(house) & view.open()).single() else { continue };
            let Some(digit) = (size.digits() - view.digits_placed_in(house)).single() else { continue };
            let filled = cells.iter().filter_map(|it| view.fact(Claim::Is(*it, view.digit(*it)?)));
            let cites = filled.fold(Cites::default().house(house), Cites::fact);
            found.push(Proposal {
                technique: self.id(),
                argument: Argument::LastCell { house, cell, digit },
                conclusions: vec![(Claim::Is(cell, digit), cites)],
            });
        }
        found
    }
}
