//! X-wing, swordfish and jellyfish: a digit that has its places in two (three, four) parallel lines where
//! as many others cross them takes up those others, so the rest of them loses it.
//!
//! ```text
//! . . a | . . . | . b .      5 has no other places in rows 1 and 4 than a, b, c and d:
//! . . x | . . . | . x .      the 5s of columns 3 and 8 are among these,
//! . . . | . . . | . . .      so they are at no x
//! ------+-------+------
//! . . c | . . . | . d .
//! ```

use std::collections::BTreeSet;

use grid::{CellSet, Digit, House};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::{each_crowd, places_of};
use crate::{Technique, View};

pub(crate) static X_WING: CrossingLines = CrossingLines {
    n: 2,
    name: "x-wing",
    weight: 64,
    needs: &[TechniqueId::new("hidden-single"), TechniqueId::new("locked-candidates")],
};
pub(crate) static SWORDFISH: CrossingLines =
    CrossingLines { n: 3, name: "swordfish", weight: 84, needs: &[TechniqueId::new("x-wing")] };
pub(crate) static JELLYFISH: CrossingLines =
    CrossingLines { n: 4, name: "jellyfish", weight: 108, needs: &[TechniqueId::new("swordfish")] };

pub(crate) struct CrossingLines {
    n: usize,
    name: &'static str,
    weight: u32,
    needs: &'static [TechniqueId],
}

impl Technique for CrossingLines {
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
                // Of more than half of the lines, the lines that cross the others say the same with fewer.
                if open.len() < 2 * self.n {
                    continue;
                }
                let few: Vec<Line> = open.into_iter().filter(|it| it.n_places() <= self.n).collect();
                let of_each: Vec<u16> = few.iter().map(|it| it.places).collect();
                each_crowd(&of_each, self.n, &mut |chosen| {
                    let base = chosen.iter().map(|it| few[*it]);
                    let places = base.clone().fold(0, |all, it| all | it.places);
                    let cover = crossing.iter().enumerate().filter(|it| places >> it.0 & 1 == 1);
                    let base = base.map(|it| it.line).collect();
                    found.extend(self.offer(view, digit, base, cover.map(|it| *it.1).collect()));
                });
            }
        }
        found
    }
}

impl CrossingLines {
    /// The step that the lines of `base`, whose places all lie in `cover`, make; none if it says nothing
    /// new.
    fn offer(
        &self,
        view: &View,
        digit: Digit,
        base: BTreeSet<House>,
        cover: BTreeSet<House>,
    ) -> Option<Proposal> {
        let [within, crossed] = [&base, &cover].map(|it| all_of(view, it));
        let lost = view.places_among(crossed - within, digit);
        let lost: Vec<Claim> =
            lost.iter().map(|it| Claim::IsNot(it, digit)).filter(|it| view.is_news(*it)).collect();
        if lost.is_empty() {
            return None;
        }
        let cells = view.places_among(within, digit);
        let mut cites = base.iter().chain(&cover).fold(Cites::default(), |cites, it| cites.house(*it));
        // Where the lines cross, it does not matter whether the digit can be there.
        view.why_nowhere(within - crossed, digit, &mut cites).then(|| Proposal {
            technique: self.id(),
            argument: Argument::Crossing { digit, base, cover, cells, spare: CellSet::EMPTY },
            conclusions: lost.into_iter().map(|it| (it, cites.clone())).collect(),
        })
    }
}

/// A line in which a digit is not placed yet.
#[derive(Clone, Copy)]
pub(super) struct Line {
    pub(super) line: House,
    /// The digit's places in it, counted from 0: a bit mask.
    pub(super) places: u16,
}

impl Line {
    pub(super) fn n_places(&self) -> usize {
        self.places.count_ones() as usize
    }
}

/// Rows with the columns that cross them, and columns with the rows.
pub(super) fn both_ways<'a>(view: &'a View) -> [(&'a [House], &'a [House]); 2] {
    let (rows, columns) = view.lines().split_at(usize::from(view.size().side()));
    [(rows, columns), (columns, rows)]
}

/// Those of the lines in which the digit has several places.
pub(super) fn open_lines(view: &View, lines: &[House], digit: Digit) -> Vec<Line> {
    let line = |line: &House| {
        let places = places_of(view.cells_of(*line), view.places(*line, digit));
        Line { line: *line, places }
    };
    lines.iter().map(line).filter(|it| it.n_places() > 1).collect()
}

/// The cells of the houses.
pub(super) fn all_of(view: &View, houses: &BTreeSet<House>) -> CellSet {
    houses.iter().fold(CellSet::EMPTY, |all, it| all | view.members(*it))
}
