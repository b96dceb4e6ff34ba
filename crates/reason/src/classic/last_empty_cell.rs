//! Last empty cell: a house with one cell open takes the digit it lacks.
//!
//! ```text
//! 4 1 7 | 3 . 9 | 8 2 5      the open cell is 6
//! ```

use grid::{Cell, Digit, House};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use crate::{Part, Technique, View};

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

    fn looks_at(&self) -> &'static [Part] {
        &[Part::Digits]
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        let open = open(view).filter(|it| is_wanted(&Claim::Is(it.1, it.2)));
        let offer = |(house, cell, digit): (House, Cell, Digit)| {
            let others = view.cells_of(house).iter();
            let filled = others.filter_map(|it| view.fact(Claim::Is(*it, view.digit(*it)?)));
            let cites = filled.fold(Cites::default().house(house), Cites::fact);
            Proposal {
                technique: self.id(),
                argument: Argument::LastCell { house, cell, digit },
                conclusions: vec![(Claim::Is(cell, digit), cites)],
            }
        };
        open.map(offer).collect()
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        Some(open(view).map(|(_, cell, digit)| vec![Claim::Is(cell, digit)]).collect())
    }
}

/// Each house with one empty cell, that cell, and the digit that is missing.
fn open<'v>(view: &'v View<'_>) -> impl Iterator<Item = (House, Cell, Digit)> + 'v {
    view.houses().iter().filter_map(|house| {
        let digit = (view.size().digits() - view.digits_placed_in(*house)).single()?;
        let cell = (view.members(*house) & view.open()).single()?;
        Some((*house, cell, digit))
    })
}
