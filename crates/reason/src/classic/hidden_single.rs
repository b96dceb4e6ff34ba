//! Hidden single: a digit has one place left in a house.
//!
//! ```text
//! . . . | . 4 . | . . .
//! . . . | . . . | . 4 .      the 4 of the first box: row 3; columns 1 and 2 have
//! a b c | . . . | . . .      a 4 further down, so it is in c
//! ```

use grid::{Cell, Digit, House};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use crate::{Part, Technique, View};

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

    fn looks_at(&self) -> &'static [Part] {
        &[Part::Digits, Part::Candidates]
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        let open = open(view).iter().copied().filter(|it| is_wanted(&Claim::Is(it.1, it.2)));
        let offer = |(house, cell, digit): (House, Cell, Digit)| {
            let mut cites = Cites::default().house(house);
            let mut others = view.cells_of(house).iter().filter(|it| **it != cell);
            others.all(|it| view.why_not(*it, digit, &mut cites)).then(|| Proposal {
                technique: self.id(),
                argument: Argument::OnePlace { house, cell, digit },
                conclusions: vec![(Claim::Is(cell, digit), cites)],
            })
        };
        open.filter_map(offer).collect()
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        Some(open(view).iter().map(|(_, cell, digit)| vec![Claim::Is(*cell, *digit)]).collect())
    }
}

/// The open cells that alone can hold a digit in a house; of the houses that show it only the first.
fn open<'v>(view: &'v View<'_>) -> &'v [(House, Cell, Digit)] {
    view.remembered().only_places.get_or_init(|| only_places(view))
}

fn only_places(view: &View) -> Vec<(House, Cell, Digit)> {
    let mut found: Vec<(House, Cell, Digit)> = Vec::new();
    // Boxes come last among the houses and are what the eye sees best, so they go first here.
    let (lines, boxes) = view.houses().split_at(view.lines().len());
    for &house in boxes.iter().chain(lines) {
        for digit in view.digits_with_one_place(house).iter() {
            let Some(cell) = view.places(house, digit).first() else { continue };
            if !found.iter().any(|it| (it.1, it.2) == (cell, digit)) {
                found.push((house, cell, digit));
            }
        }
    }
    found
}
