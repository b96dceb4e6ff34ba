//! Naked single: a cell has one digit left.
//!
//! ```text
//! 1 2 . | . 5 6 | . . x      x sees 1, 2, 5 and 6 in its row, 3, 4 and 8 in its column
//!                            and 9 in its box: it is 7
//! ```

use grid::{Cell, Digit};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use crate::{Part, Technique, View};

pub(crate) struct NakedSingle;

impl Technique for NakedSingle {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("naked-single") }
    }

    fn weight(&self) -> u32 {
        14
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("last-empty-cell")] }
    }

    fn looks_at(&self) -> &'static [Part] {
        &[Part::Digits, Part::Candidates]
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        let offer = |(cell, digit)| {
            let mut cites = Cites::default();
            let others = view.size().digits().without(digit);
            view.why_none_of(cell, others, &mut cites).then(|| Proposal {
                technique: self.id(),
                argument: Argument::OneDigit { cell, digit },
                conclusions: vec![(Claim::Is(cell, digit), cites)],
            })
        };
        open(view).filter(|it| is_wanted(&Claim::Is(it.0, it.1))).filter_map(offer).collect()
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        Some(open(view).map(|(cell, digit)| vec![Claim::Is(cell, digit)]).collect())
    }
}

/// Each open cell that can hold one digit only, with that digit.
fn open(view: &View) -> impl Iterator<Item = (Cell, Digit)> {
    view.open_cells().filter_map(|it| Some((it, view.candidates(it).single()?)))
}
