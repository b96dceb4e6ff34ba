//! Line and box share a set: cells where a line crosses a box, some of the rest of the line and some of
//! the rest of the box, in all as many cells as digits they can hold; and no digit can be both in the part of
//! the line and in the part of the box. So each of the digits is in one of the cells: what cannot be in the
//! part of the box is in the line, which loses it elsewhere, and the other way round.
//!
//! ```text
//! a{2 3 5} a{3 5 7} . | . l{2 5} .      a, a, l and b can hold 2, 3, 5 and 7, four cells four digits,
//! .        .        b{3 7} | .          and l and b have none in common:
//! .        .        .      | .          2 and 5 are at a or l, so nowhere else in the row;
//!                                       3 and 7 are at a or b, so nowhere else in the box
//! ```
//!
//! Left out are parts of four cells and more outside the crossing.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, Digit, DigitSet, House, HouseKind};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::each_part_has_room;
use crate::{Technique, View};

/// The most cells of the line outside the box, and of the box outside the line.
const MOST_OUTSIDE: usize = 3;

pub(crate) struct LineAndBox;

impl Technique for LineAndBox {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("line-and-box-share-a-set") }
    }

    fn weight(&self) -> u32 {
        117
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("locked-candidates"), TechniqueId::new("naked-quad")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let mut shared = Vec::new();
        let boxes = || view.houses().iter().filter(|it| it.kind() == HouseKind::Box);
        for &line in view.lines() {
            for &the_box in boxes() {
                shared.extend(at_crossing(view, line, the_box));
            }
        }
        shared.sort_by_key(Shared::n_cells);
        // What fewer cells show is not said of more, which would rest on more than they need.
        let mut said = BTreeSet::new();
        let offer = |it: Shared| {
            let new: Vec<Lost> =
                it.lost(view).into_iter().filter(|it| said.insert((it.cell, it.digit))).collect();
            it.offer(view, self.id(), &new)
        };
        shared.into_iter().filter_map(offer).collect()
    }
}

/// A digit that a cell of the line or the box loses.
struct Lost {
    cell: Cell,
    digit: Digit,
    /// Whether the line holds it elsewhere, or else the box.
    of_line: bool,
}

/// Some cells with the digits that they can hold between them.
#[derive(Clone, Copy)]
struct Part {
    cells: CellSet,
    digits: DigitSet,
}

impl Part {
    /// Every choice of as few to as many of the cells that are open.
    fn of(view: &View, cells: CellSet, n_cells: std::ops::RangeInclusive<usize>) -> Vec<Part> {
        let open: Vec<Cell> = cells.iter().filter(|it| view.digit(*it).is_none()).collect();
        let chosen = (0u32..1 << open.len()).filter(|it| n_cells.contains(&(it.count_ones() as usize)));
        let part = |choice: u32| {
            let cells = (0..open.len()).filter(|it| choice >> it & 1 == 1).map(|it| open[it]);
            let digits = cells.clone().fold(DigitSet::EMPTY, |all, it| all | view.candidates(it));
            Part { cells: cells.collect(), digits }
        };
        chosen.map(part).collect()
    }

    /// How many more cells it has than digits that are not among these: so many digits it takes from them.
    fn takes(&self, digits: DigitSet) -> Option<usize> {
        self.cells.len().checked_sub((self.digits - digits).len()).filter(|it| *it > 0)
    }
}

/// A line and a box with cells that hold a set of digits between them.
struct Shared {
    line: House,
    the_box: House,
    crossing: Part,
    of_line: Part,
    of_box: Part,
}

/// The sets that a line and a box share; none if they do not cross.
fn at_crossing(view: &View, line: House, the_box: House) -> Vec<Shared> {
    let both = view.members(line) & view.members(the_box);
    let mut found = Vec::new();
    // One cell that can hold three digits is the pivot of a wing.
    for crossing in Part::of(view, both, 2..=usize::MAX) {
        let n = crossing.cells.len();
        // Each part outside takes one digit at least.
        let Some(surplus) =
            crossing.digits.len().checked_sub(n).filter(|it| (2..=2 * MOST_OUTSIDE).contains(it))
        else {
            continue;
        };
        let parts = |house: House| {
            let parts = Part::of(view, view.members(house) - both, 1..=MOST_OUTSIDE);
            let taking = parts.into_iter().filter_map(|it| Some((it, it.takes(crossing.digits)?)));
            taking.filter(|it| it.1 < surplus).collect::<Vec<_>>()
        };
        let of_box = parts(the_box);
        for (of_line, n_taken) in parts(line) {
            let fits =
                |it: &&(Part, usize)| n_taken + it.1 == surplus && (of_line.digits & it.0.digits).is_empty();
            for (of_box, _) in of_box.iter().filter(fits) {
                let shared = Shared { line, the_box, crossing, of_line, of_box: *of_box };
                if shared.is_lean(view) {
                    found.push(shared);
                }
            }
        }
    }
    found
}

impl Shared {
    fn n_cells(&self) -> usize {
        self.cells().len()
    }

    fn cells(&self) -> CellSet {
        self.crossing.cells | self.of_line.cells | self.of_box.cells
    }

    fn digits(&self) -> DigitSet {
        self.crossing.digits | self.of_line.digits | self.of_box.digits
    }

    /// Whether no fewer of the cells have as few digits, so that all are needed.
    fn is_lean(&self, view: &View) -> bool {
        let of_each: Vec<u16> = self.cells().iter().map(|it| view.candidates(it).bits()).collect();
        each_part_has_room(&of_each, 1)
    }

    /// The digits that are sure to be in these cells of the line, and of the box.
    fn held(&self) -> [DigitSet; 2] {
        [self.of_box, self.of_line].map(|other| self.digits() - other.digits)
    }

    /// What the rest of the line and of the box lose.
    fn lost(&self, view: &View) -> Vec<Lost> {
        let [in_line, in_box] = self.held();
        let of_house = |of_line: bool| {
            let (house, held) = if of_line { (self.line, in_line) } else { (self.the_box, in_box) };
            let rest = view.members(house) - self.cells();
            let lost =
                rest.iter().flat_map(move |cell| held.iter().map(move |digit| Lost { cell, digit, of_line }));
            lost.filter(|it| view.is_news(Claim::IsNot(it.cell, it.digit)))
        };
        of_house(true).chain(of_house(false)).collect()
    }

    fn offer(&self, view: &View, technique: TechniqueId, lost: &[Lost]) -> Option<Proposal> {
        if lost.is_empty() {
            return None;
        }
        let conclude = |it: &Lost| Some((Claim::IsNot(it.cell, it.digit), self.cites(view, it.of_line)?));
        Some(Proposal {
            technique,
            argument: Argument::LineAndBox {
                houses: [self.line, self.the_box],
                crossing: (self.crossing.cells, self.crossing.digits),
                parts: [self.of_line, self.of_box].map(|it| (it.cells, it.digits)),
                held: self.held(),
            },
            conclusions: lost.iter().map(conclude).collect::<Option<_>>()?,
        })
    }

    /// What a loss in the line, or in the box, rests on: that no digit is left over, none can be in both
    /// parts, and none but those left to it in the part of the other house.
    fn cites(&self, view: &View, of_line: bool) -> Option<Cites> {
        let (own, other) = if of_line { (self.of_line, self.of_box) } else { (self.of_box, self.of_line) };
        let all = view.size().digits();
        let outside = all - self.digits();
        let parts = [
            (self.crossing.cells, outside),
            (own.cells, outside | other.digits),
            (other.cells, all - other.digits),
        ];
        let others = parts.into_iter().flat_map(|(cells, none_of)| {
            cells.iter().flat_map(move |cell| none_of.iter().map(move |it| (cell, it)))
        });
        let mut cites = Cites::default().house(self.line).house(self.the_box);
        view.why_none(others, &mut cites).then_some(cites)
    }
}
