//! XY-wing and XYZ-wing: whichever digit a cell, the pivot, takes of its two, one of two other cells is left
//! with the same third digit. What sees both of these loses it. The pivot of an XYZ-wing can hold that
//! digit too, so what loses it has to see the pivot as well.
//!
//! ```text
//! p{2 7} . . | . q{2 4} .      if p is 2, q is 4; if p is 7, r is 4:
//! .      . . | . .      .      x sees both, so it is not 4
//! -----------+-----------
//! r{4 7} . . | . x      .
//! ```

use grid::{Cell, CellSet, DigitSet};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::{each_pair, sights};
use crate::{Technique, View};

pub(crate) static XY_WING: Wing =
    Wing { n_digits: 2, name: "xy-wing", weight: 80, needs: &[TechniqueId::new("naked-pair")] };
pub(crate) static XYZ_WING: Wing =
    Wing { n_digits: 3, name: "xyz-wing", weight: 100, needs: &[TechniqueId::new("xy-wing")] };

pub(crate) struct Wing {
    /// How many digits the pivot can hold.
    n_digits: usize,
    name: &'static str,
    weight: u32,
    needs: &'static [TechniqueId],
}

impl Technique for Wing {
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
        let mut found = Vec::new();
        let pairs = view.cells_with(2);
        for pivot in view.cells_with(self.n_digits).iter() {
            let digits = view.candidates(pivot);
            let near: Vec<Cell> = (view.peers(pivot) & pairs).iter().collect();
            for ends in each_pair(&near) {
                let [a, b] = ends.map(|it| view.candidates(it));
                let Some(digit) = (a & b).single() else { continue };
                let fits = match digits.contains(digit) {
                    true => digits == a | b,
                    false => digits == (a | b).without(digit),
                };
                if fits && !is_in_one_house(view, [pivot, ends[0], ends[1]]) {
                    found.extend(self.offer(view, pivot, ends, digits, digit));
                }
            }
        }
        found
    }
}

impl Wing {
    fn offer(
        &self,
        view: &View,
        pivot: Cell,
        ends: [Cell; 2],
        digits: DigitSet,
        digit: grid::Digit,
    ) -> Option<Proposal> {
        let mut holders = ends.to_vec();
        if digits.contains(digit) {
            holders.push(pivot);
        }
        let seen = holders.iter().map(|it| view.peers(*it)).reduce(|a, b| a & b)?;
        let lost = view.places_among(seen - [pivot].into_iter().collect::<CellSet>(), digit);
        let lost: Vec<Cell> = lost.iter().filter(|it| view.is_news(Claim::IsNot(*it, digit))).collect();
        if lost.is_empty() {
            return None;
        }
        let mut cites = Cites::default();
        ends.iter().for_each(|it| view.cite_sight(pivot, *it, &mut cites));
        let known = [pivot, ends[0], ends[1]];
        let elsewhere = known.into_iter().flat_map(|cell| {
            let others = view.size().digits() - view.candidates(cell);
            others.iter().map(move |it| (cell, it)).collect::<Vec<_>>()
        });
        view.why_none(elsewhere, &mut cites).then(|| Proposal {
            technique: self.id(),
            argument: Argument::Wing { pivot, digits, ends: ends.map(|it| (it, view.candidates(it))), digit },
            conclusions: sights(view, &lost, &holders, digit, &cites),
        })
    }
}

/// Whether a house holds all three cells: they are a naked triple then.
fn is_in_one_house(view: &View, cells: [Cell; 3]) -> bool {
    let houses = view.size().houses_of(cells[0]);
    houses.iter().any(|it| cells.iter().all(|cell| view.members(*it).contains(*cell)))
}
