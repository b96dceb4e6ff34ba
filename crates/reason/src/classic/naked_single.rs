//! Naked single: a cell has one digit left.
//!
//! ```text
//! 1 2 . | . 5 6 | . . x      x sees 1, 2, 5 and 6 in its row, 3, 4 and 8 in its column
//!                            and 9 in its box: it is 7
//! ```

use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use crate::{Technique, View};

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

    fn find(&self, view: &View) -> Vec<Proposal> {
        let single = |cell| Some((cell, view.candidates(cell).single()?));
        let offer = |(cell, digit)| {
            let mut cites = Cites::default();
            let others = view.size().digits().without(digit);
            view.why_none_of(cell, others, &mut cites).then(|| Proposal {
                technique: self.id(),
                argument: Argument::OneDigit { cell, digit },
                conclusions: vec![(Claim::Is(cell, digit), cites)],
            })
        };
        view.open_cells().filter_map(single).filter_map(offer).collect()
    }
}
