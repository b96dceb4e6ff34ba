//! Filling sets and outside digits: the sets of digits that make a clue's sum between the crusts, or
//! what the clue leaves outside them, looked at from whichever side has fewer cells.
//!
//! ```text
//! 29 | 35 - 29 = 6 is left outside: 6, or 2 + 4
//! ```
//!
//! A digit that every set has is not on the other side; a digit that no set has is on the other side;
//! when one set is left, the clue is spent.

use grid::{DigitSet, House};
use rulebook::{Claim, ClueId, filling_digits, filling_total};
use trail::{Argument, Cites, Proposal, Side, TechniqueId};

use super::clued_lines;
use super::line::{Line, Sets};
use crate::{Technique, View};

pub(crate) static FILLING_SETS: Sums = Sums { side: Side::Between, name: "filling-sets", weight: 20 };
pub(crate) static OUTSIDE_DIGITS: Sums = Sums { side: Side::Outside, name: "outside-digits", weight: 18 };

pub(crate) struct Sums {
    side: Side,
    name: &'static str,
    weight: u32,
}

impl Technique for Sums {
    fn id(&self) -> TechniqueId {
        TechniqueId::new(self.name)
    }

    fn weight(&self) -> u32 {
        self.weight
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let open = clued_lines(view).into_iter().filter(|it| view.spent(it.0).is_none());
        open.filter_map(|(line, clue, sum)| self.in_line(view, line, clue, sum)).collect()
    }
}

impl Sums {
    fn in_line(&self, view: &View, house: House, clue: ClueId, sum: u16) -> Option<Proposal> {
        let size = view.size();
        let line = Line::new(view, house);
        let counts = line.counts();
        let (fewest, most) = (*counts.first()?, *counts.last()?);
        let room = usize::from(size.side()) - 2;
        let fewer_outside = fewest + most > room;
        if fewer_outside != (self.side == Side::Outside) {
            return None;
        }
        let sets = line.sets(sum);
        let mut base = Cites::default().clue(clue);
        if sets.left.is_empty() || !line.why_excluded(&sets.excluded, &mut base) {
            return None;
        }
        let conclusions = conclusions(view, &line, &sets, &base);
        if conclusions.is_empty() {
            return None;
        }
        // Told from the outside, a set is what the filling leaves over.
        let shown = |set: DigitSet| match self.side {
            Side::Between => set,
            Side::Outside => filling_digits(size) - set,
        };
        let excluded = sets.excluded.iter().filter_map(|(set, digit)| Some((shown(*set), (*digit)?)));
        let mut left: Vec<DigitSet> = sets.left.iter().map(|it| shown(*it)).collect();
        left.sort_by_key(|it| it.len());
        Some(Proposal {
            technique: self.id(),
            argument: Argument::Sets {
                clue,
                line: house,
                side: self.side,
                sum: if fewer_outside { filling_total(size) - sum } else { sum },
                cells: match self.side {
                    Side::Between => (fewest as u8, most as u8),
                    Side::Outside => ((room - most) as u8, (room - fewest) as u8),
                },
                sets: left,
                excluded: excluded.collect(),
            },
            conclusions,
        })
    }
}

/// What follows from the sets that are left.
fn conclusions(view: &View, line: &Line, sets: &Sets, base: &Cites) -> Vec<(Claim, Cites)> {
    if let [filling] = sets.left[..] {
        return vec![(Claim::Spent { line: line.line, filling }, base.clone())];
    }
    let never_between = filling_digits(view.size()) - sets.in_some();
    let never_outside = sets.in_all();
    let mut conclusions = Vec::new();
    for (at, &cell) in line.cells.iter().enumerate() {
        for (side, lost) in [(Side::Between, never_between), (Side::Outside, never_outside)] {
            let news: Vec<Claim> =
                lost.iter().map(|it| Claim::IsNot(cell, it)).filter(|it| view.is_news(*it)).collect();
            let mut cites = base.clone();
            if !news.is_empty() && line.must_be(side, at) && line.why_must_be(side, at, &mut cites) {
                conclusions.extend(news.into_iter().map(|it| (it, cites.clone())));
            }
        }
    }
    conclusions
}
