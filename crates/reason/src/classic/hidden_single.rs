//! Hidden single: a digit has one place left in a house.
//!
//! ```text
//! . . . | . 4 . | . . .
//! . . . | . . . | . 4 .      the 4 of the first box: row 3; columns 1 and 2 have
//! a b c | . . . | . . .      a 4 further down, so it is in c
//! ```

use grid::{DigitSet, House};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use crate::{Technique, View};

pub(crate) struct HiddenSingle;

impl Technique for HiddenSingle {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("hidden-single") }
    }

    fn weight(&self) -> u32 {
        8
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("last-empty-cell")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let mut found: Vec<Proposal> = Vec::new();
        // Boxes come last among the houses and are what the eye sees best, so they go first here.
        let (lines, boxes) = view.houses().split_at(view.lines().len());
        for &house in boxes.iter().chain(lines) {
            for digit in with_one_place(view, house).iter() {
                let Some(cell) = view.places(house, digit).first() else { continue };
                let claim = Claim::Is(cell, digit);
                if !view.is_news(claim) || found.iter().any(|it| it.conclusions[0].0 == claim) {
                    continue;
                }
                let mut cites = Cites::default().house(house);
                let mut others = view.cells_of(house).iter().filter(|it| **it != cell);
                if others.all(|it| view.why_not(*it, digit, &mut cites)) {
                    found.push(Proposal {
                        technique: self.id(),
                        argument: Argument::OnePlace { house, cell, digit },
                        conclusions: vec![(claim, cites)],
                    });
                }
            }
        }
        found
    }
}

/// The digits that one cell of the house alone can hold and no fact places there.
fn with_one_place(view: &View, house: House) -> DigitSet {
    let (mut once, mut twice, mut placed) = (DigitSet::EMPTY, DigitSet::EMPTY, DigitSet::EMPTY);
    for cell in view.cells_of(house) {
        let left = view.candidates(*cell);
        twice = twice | once & left;
        once = once | left;
        if view.digit(*cell).is_some() {
            placed = placed | left;
        }
    }
    once - twice - placed
}
