//! Side holds: a digit that must lie between the crusts (or must lie outside) is confined to the
//! cells of that side that can take it.
//!
//! ```text
//! 31 | 1 a . . . . . . 9 b      wait for the box: 4 lies outside, so it is in b
//! ```
//!
//! Offered only where holding the digit takes it from some cell, so that a held digit can act there.
//! That the digit is not on the other side is for filling sets, outside digits and spent clue to say.

use grid::{CellSet, Digit, DigitSet};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, Side, TechniqueId};

use super::line::{Line, Sets};
use crate::{Technique, View};

pub(crate) struct SideHolds;

impl Technique for SideHolds {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("side-holds") }
    }

    fn weight(&self) -> u32 {
        30
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const {
            &[
                TechniqueId::new("hidden-single"),
                TechniqueId::new("outside-digits"),
                TechniqueId::new("filling-sets"),
            ]
        }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        let mut found = Vec::new();
        for (line, sure, held) in open_lines(view) {
            let mut wanted = held.into_iter().filter(|it| is_wanted(&it.claim(&line))).peekable();
            // Why the digits are sure is worked out only where it serves something.
            let Some(base) = wanted.peek().is_some().then(|| sure.why(&line)).flatten() else { continue };
            found.extend(wanted.filter_map(|it| self.offer(&line, it, &base)));
        }
        found
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        let lines = open_lines(view);
        let claims = lines.flat_map(|(line, _, held)| held.into_iter().map(move |it| vec![it.claim(&line)]));
        Some(claims.collect())
    }
}

/// Each line of which something is sure, with the digits that holding takes from some cell.
fn open_lines<'v, 'a>(view: &'v View<'a>) -> impl Iterator<Item = (Line<'v, 'a>, Sure<'v>, Vec<Held>)> {
    view.lines().iter().filter_map(|house| {
        let line = Line::new(view, *house);
        let sure = Sure::of(view, &line)?;
        let held: Vec<Held> = sure.digits().filter_map(|it| Held::new(view, &line, it)).collect();
        (!held.is_empty()).then_some((line, sure, held))
    })
}

impl SideHolds {
    fn offer(&self, line: &Line, held: Held, base: &Cites) -> Option<Proposal> {
        let &Held { side, digit, cells } = &held;
        let mut cites = base.clone();
        let mut elsewhere = (0..line.cells.len()).filter(|at| !cells.contains(line.cells[*at]));
        elsewhere.all(|at| line.why_cannot_hold(side, at, digit, &mut cites)).then(|| Proposal {
            technique: self.id(),
            argument: Argument::SideHolds { line: line.line, side, digit, cells },
            conclusions: vec![(held.claim(line), cites)],
        })
    }
}

/// The digits that lie between a line's crusts for certain, and those that lie outside.
struct Sure<'v> {
    between: DigitSet,
    outside: DigitSet,
    /// What the fact of a spent clue rests on, or the clue itself with the sets it excludes.
    base: Cites,
    sets: Option<&'v Sets>,
}

impl<'v> Sure<'v> {
    fn of(view: &View, line: &Line<'v, '_>) -> Option<Sure<'v>> {
        let all = view.filling_digits();
        if let Some((fact, between)) = view.spent(line.line) {
            let base = Cites::default().fact(fact);
            return Some(Sure { between, outside: all - between, base, sets: None });
        }
        let clued = view.clued_lines().iter().find(|it| it.line == line.line)?;
        let sets = line.sets(clued);
        let base = Cites::default().clue(clued.clue);
        (!sets.left.is_empty()).then(|| Sure {
            between: sets.in_all(),
            outside: all - sets.in_some(),
            base,
            sets: Some(sets),
        })
    }

    fn digits(&self) -> impl Iterator<Item = (Side, Digit)> {
        let between = self.between.iter().map(|it| (Side::Between, it));
        between.chain(self.outside.iter().map(|it| (Side::Outside, it)))
    }

    fn why(self, line: &Line) -> Option<Cites> {
        let mut cites = self.base;
        let shown = self.sets.is_none_or(|it| line.why_excluded(&it.excluded, &mut cites));
        shown.then_some(cites)
    }
}

/// A digit that is sure to be on a side, and the cells of that side that can hold it.
struct Held {
    side: Side,
    digit: Digit,
    cells: CellSet,
}

impl Held {
    /// None if that is no news, or takes the digit from no cell.
    fn new(view: &View, line: &Line, (side, digit): (Side, Digit)) -> Option<Held> {
        let on_side = (0..line.cells.len()).filter(|at| line.can_hold(side, *at, digit));
        let cells: CellSet = on_side.map(|at| line.cells[at]).collect();
        let is_placed = view.placed_in(line.line, digit).is_some();
        let held = Held { side, digit, cells };
        (!is_placed && held.acts(view, line) && view.is_news(held.claim(line))).then_some(held)
    }

    /// That the digit is in one of the cells; if there is only one, in that.
    fn claim(&self, line: &Line) -> Claim {
        let Held { digit, cells, .. } = *self;
        match cells.first() {
            Some(cell) if cells.len() == 1 => Claim::Is(cell, digit),
            _ => Claim::DigitAmong { house: line.line, digit, cells },
        }
    }

    /// Whether holding the digit would take it from some cell. Cells on the other side for certain do
    /// not count: that a sure digit is not there needs no holding.
    fn acts(&self, view: &View, line: &Line) -> bool {
        let other = match self.side {
            Side::Between => Side::Outside,
            Side::Outside => Side::Between,
        };
        let plain = line.sure_cells(other);
        let mut houses = self.cells.first().into_iter().flat_map(|it| view.size().houses_of(it));
        houses.any(|house| {
            let reaches = self.cells.is_subset(&view.members(house));
            reaches && !(view.places(house, self.digit) - self.cells - plain).is_empty()
        })
    }
}
