//! Side holds: a digit that must lie between the crusts (or must lie outside) is confined to the
//! cells of that side that can take it.
//!
//! ```text
//! 31 | 1 a . . . . . . 9 b      wait for the box: 4 lies outside, so it is in b
//! ```
//!
//! Offered only where the cells lie in one box too, so that a held digit can act there.

use grid::{Cell, CellSet, Digit, DigitSet, House};
use rulebook::{Claim, SANDWICH, filling_digits};
use trail::{Argument, Cites, Proposal, Side, TechniqueId};

use super::line::Line;
use crate::{Technique, View};

pub(crate) struct SideHolds;

impl Technique for SideHolds {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("side-holds") }
    }

    fn weight(&self) -> u32 {
        30
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let mut found = Vec::new();
        for house in view.size().lines() {
            let line = Line::new(view, house);
            let Some((between, outside, base)) = sure_sides(view, &line) else { continue };
            for (side, digits) in [(Side::Between, between), (Side::Outside, outside)] {
                found.extend(digits.iter().filter_map(|it| self.hold(view, &line, side, it, &base)));
            }
        }
        found
    }
}

/// The digits that lie between the crusts for certain, those that lie outside, and why.
fn sure_sides(view: &View, line: &Line) -> Option<(DigitSet, DigitSet, Cites)> {
    let all = filling_digits(view.size());
    if let Some((fact, filling)) = view.spent(line.line) {
        return Some((filling, all - filling, Cites::default().fact(fact)));
    }
    let (clue, sum) = view.clue(&SANDWICH, line.line)?;
    let sets = line.sets(sum);
    let mut base = Cites::default().clue(clue);
    let shown = !sets.left.is_empty() && line.why_excluded(&sets.excluded, &mut base);
    shown.then(|| (sets.in_all(), all - sets.in_some(), base))
}

impl SideHolds {
    fn hold(&self, view: &View, line: &Line, side: Side, digit: Digit, base: &Cites) -> Option<Proposal> {
        let cells: CellSet = (0..line.cells.len())
            .filter(|at| line.can_hold(side, *at, digit))
            .map(|at| line.cells[at])
            .collect();
        let claim = Claim::DigitAmong { house: line.line, digit, cells };
        let first = cells.first()?;
        let placed = line.cells.iter().any(|it| view.digit(*it) == Some(digit));
        if placed || !view.is_news(claim) || !acts_somewhere(view, line.line, first, cells, digit) {
            return None;
        }
        let mut cites = base.clone();
        let mut elsewhere = (0..line.cells.len()).filter(|at| !cells.contains(line.cells[*at]));
        elsewhere.all(|at| line.why_cannot_hold(side, at, digit, &mut cites)).then(|| Proposal {
            technique: self.id(),
            argument: Argument::SideHolds { line: line.line, side, digit, cells },
            conclusions: vec![(claim, cites)],
        })
    }
}

/// Whether holding the digit would take a candidate from some cell.
fn acts_somewhere(view: &View, line: House, first: Cell, cells: CellSet, digit: Digit) -> bool {
    view.size().houses_of(first).into_iter().any(|house| {
        let members: CellSet = view.size().cells_of(house).into_iter().collect();
        (house == line || cells.is_subset(&members)) && !(view.places(house, digit) - cells).is_empty()
    })
}
