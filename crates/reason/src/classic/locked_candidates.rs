//! Locked candidates: a digit confined, within one house, to cells that another house holds too is
//! lost to the rest of that other house.
//!
//! ```text
//! . . . | 2 5 . | . . .      in the first box 7 can only be at a and b, both in row 1:
//! a b . | . . . | . x .      so it is not at x
//! . . . | . . . | . . .
//! ```

use grid::{CellSet, Digit, House};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use crate::{Technique, View};

pub(crate) struct LockedCandidates;

impl Technique for LockedCandidates {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("locked-candidates") }
    }

    fn weight(&self) -> u32 {
        26
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("hidden-single")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        let open = open(view).into_iter().filter(|it| it.claims().any(|it| is_wanted(&it)));
        open.filter_map(|it| it.step(view, self.id())).collect()
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        Some(open(view).iter().map(|it| it.claims().collect()).collect())
    }
}

/// A digit whose places in a house all lie in another, which loses it elsewhere.
struct Locked {
    digit: Digit,
    from: House,
    into: House,
    cells: CellSet,
    lost: CellSet,
}

fn open(view: &View) -> Vec<Locked> {
    let size = view.size();
    let most_shared = usize::from(size.box_width().max(size.box_height()));
    let mut found = Vec::new();
    for digit in size.digits().iter() {
        for &from in view.houses() {
            let cells = view.places(from, digit);
            if view.digits_placed_in(from).contains(digit) || !(2..=most_shared).contains(&cells.len()) {
                continue;
            }
            let Some(first) = cells.first() else { continue };
            // Two houses that share more than one cell are a box and a line.
            for into in size.houses_of(first) {
                if into == from || !cells.is_subset(&view.members(into)) {
                    continue;
                }
                let lost = (view.places(into, digit) - cells) & view.open();
                if !lost.is_empty() {
                    found.push(Locked { digit, from, into, cells, lost });
                }
            }
        }
    }
    found
}

impl Locked {
    fn claims(&self) -> impl Iterator<Item = Claim> {
        self.lost.iter().map(|it| Claim::IsNot(it, self.digit))
    }

    fn step(&self, view: &View, technique: TechniqueId) -> Option<Proposal> {
        let Locked { digit, from, into, cells, .. } = *self;
        let mut cites = Cites::default().house(from).house(into);
        let mut elsewhere = (view.members(from) - cells).iter();
        elsewhere.all(|it| view.why_not(it, digit, &mut cites)).then(|| Proposal {
            technique,
            argument: Argument::Locked { digit, from, into, cells },
            conclusions: self.claims().map(|it| (it, cites.clone())).collect(),
        })
    }
}
