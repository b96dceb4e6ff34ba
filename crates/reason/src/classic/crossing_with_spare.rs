//! X-wing, swordfish and jellyfish with a spare cell or a few, all in one box: either a spare cell holds
//! the digit, or the lines cross as if there were none. A cell of the box that loses the digit both ways
//! loses it.
//!
//! ```text
//! . . a | . . . | s b .      but for s, 5 has no other places in rows 1 and 4 than a, b, c and d:
//! . . . | . . . | . x .      x sees s, and is not 5 without it either
//! . . . | . . . | . x .
//! ------+-------+------
//! . . c | . . . | . d .
//! ```

use std::collections::BTreeSet;

use grid::{CellSet, Digit, House, HouseKind};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::crossing_lines::{Line, all_of, both_ways, open_lines};
use super::{each_part_has_room, places_of};
use crate::{Technique, View};

pub(crate) static X_WING_WITH_SPARE: CrossingWithSpare =
    CrossingWithSpare { n: 2, name: "x-wing-with-spare", weight: 76, needs: &[TechniqueId::new("x-wing")] };
pub(crate) static SWORDFISH_WITH_SPARE: CrossingWithSpare = CrossingWithSpare {
    n: 3,
    name: "swordfish-with-spare",
    weight: 92,
    needs: &[TechniqueId::new("x-wing-with-spare"), TechniqueId::new("swordfish")],
};
pub(crate) static JELLYFISH_WITH_SPARE: CrossingWithSpare = CrossingWithSpare {
    n: 4,
    name: "jellyfish-with-spare",
    weight: 116,
    needs: &[TechniqueId::new("swordfish-with-spare"), TechniqueId::new("jellyfish")],
};

pub(crate) struct CrossingWithSpare {
    n: usize,
    name: &'static str,
    weight: u32,
    needs: &'static [TechniqueId],
}

impl Technique for CrossingWithSpare {
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
        for digit in view.size().digits().iter() {
            for (lines, crossing) in both_ways(view) {
                let open = open_lines(view, lines, digit);
                if open.len() <= self.n {
                    continue;
                }
                for &corner in view.houses().iter().filter(|it| it.kind() == HouseKind::Box) {
                    let elsewhere: Vec<u16> = open.iter().map(|it| outside(view, *it, corner)).collect();
                    // Some line of the base has spare cells, and few other places.
                    let mut both = open.iter().zip(&elsewhere);
                    if both.any(|(it, out)| it.places != *out && out.count_ones() as usize <= self.n) {
                        let look =
                            Look { technique: self, view, digit, lines: &open, elsewhere, crossing, corner };
                        look.extend(&mut Vec::with_capacity(self.n), 0, &mut found);
                    }
                }
            }
        }
        found
    }
}

/// The line's places outside the box.
fn outside(view: &View, line: Line, corner: House) -> u16 {
    let in_box = view.members(corner) & view.members(line.line);
    match in_box.is_empty() {
        true => line.places,
        false => line.places & !places_of(view.cells_of(line.line), in_box),
    }
}

/// A look for steps of one digit whose spare cells lie in one box.
struct Look<'a> {
    technique: &'a CrossingWithSpare,
    view: &'a View<'a>,
    digit: Digit,
    lines: &'a [Line],
    /// By line: its places outside the box.
    elsewhere: Vec<u16>,
    crossing: &'a [House],
    corner: House,
}

impl Look<'_> {
    /// Tries every base that goes on from these lines; `cover` holds the places they have elsewhere than
    /// in the box.
    fn extend(&self, base: &mut Vec<usize>, cover: u16, found: &mut Vec<Proposal>) {
        if base.len() == self.technique.n {
            if cover.count_ones() as usize == self.technique.n {
                found.extend(self.offer(base, cover));
            }
            return;
        }
        for at in base.last().map_or(0, |it| it + 1)..self.lines.len() {
            let with = cover | self.elsewhere[at];
            if with.count_ones() as usize <= self.technique.n {
                base.push(at);
                self.extend(base, with, found);
                base.pop();
            }
        }
    }

    /// The step of that base and cover; none if it says nothing new.
    fn offer(&self, base: &[usize], cover: u16) -> Option<Proposal> {
        let Look { view, digit, corner, .. } = *self;
        // A digit in the box and in this line of the cover leaves the base too few other places; and
        // to no part of the base, which would be a step of its own.
        let is_lean = |at: &usize| {
            let left: Vec<u16> = base.iter().map(|it| self.elsewhere[*it] & !(1 << *at)).collect();
            each_part_has_room(&left, 0)
        };
        let covering = || (0..self.crossing.len()).filter(|it| cover >> it & 1 == 1);
        let reached = covering().filter(is_lean).map(|it| view.members(self.crossing[it]));
        let reached = reached.fold(CellSet::EMPTY, |all, it| all | it);
        let base: BTreeSet<House> = base.iter().map(|it| self.lines[*it].line).collect();
        let cover: BTreeSet<House> = covering().map(|it| self.crossing[it]).collect();
        let [within, crossed] = [&base, &cover].map(|it| all_of(view, it));
        let lost = view.places_among((reached & view.members(corner)) - within, digit);
        let lost: Vec<Claim> =
            lost.iter().map(|it| Claim::IsNot(it, digit)).filter(|it| view.is_news(*it)).collect();
        let cells = view.places_among(within & crossed, digit);
        let spare = view.places_among(within - crossed, digit);
        if lost.is_empty() || spare.is_empty() {
            return None;
        }
        let houses = base.iter().chain(&cover).chain([&corner]);
        let mut cites = houses.fold(Cites::default(), |cites, it| cites.house(*it));
        // In the box it does not matter whether the digit can be there.
        let excluded = (within - crossed) - view.members(corner);
        view.why_nowhere(excluded, digit, &mut cites).then(|| Proposal {
            technique: self.technique.id(),
            argument: Argument::Crossing { digit, base, cover, cells, spare },
            conclusions: lost.into_iter().map(|it| (it, cites.clone())).collect(),
        })
    }
}
