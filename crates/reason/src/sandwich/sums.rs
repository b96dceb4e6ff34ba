//! Filling sets and outside digits: the sets of digits that make a clue's sum between the crusts, or
//! what the clue leaves outside them, looked at from whichever side has fewer cells.
//!
//! ```text
//! 29 | 35 - 29 = 6 is left outside: 6, or 2 + 4
//! ```
//!
//! A digit that every set has is not on the other side; a digit that no set has is on the other side;
//! when one set is left, the clue is spent.

use grid::DigitSet;
use rulebook::{Claim, ClueId, filling_total};
use trail::{Argument, Cites, Proposal, Side, TechniqueId};

use super::line::{Line, Sets};
use crate::view::CluedLine;
use crate::{Technique, View};

pub(crate) static FILLING_SETS: Sums = Sums {
    side: Side::Between,
    name: "filling-sets",
    weight: 20,
    needs: &[TechniqueId::new("crust-distance")],
};
pub(crate) static OUTSIDE_DIGITS: Sums = Sums {
    side: Side::Outside,
    name: "outside-digits",
    weight: 18,
    needs: &[TechniqueId::new("last-outside")],
};

pub(crate) struct Sums {
    side: Side,
    name: &'static str,
    weight: u32,
    needs: &'static [TechniqueId],
}

impl Technique for Sums {
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
        let open = view.clued_lines().iter().filter(|it| view.spent(it.line).is_none());
        open.filter_map(|it| self.in_line(view, it)).collect()
    }
}

impl Sums {
    fn in_line(&self, view: &View, clued: &CluedLine) -> Option<Proposal> {
        let size = view.size();
        let line = Line::new(view, clued.line);
        let (fewest, most) = line.spread()?;
        let room = usize::from(size.side()) - 2;
        let fewer_outside = fewest + most > room;
        if fewer_outside != (self.side == Side::Outside) {
            return None;
        }
        let sets = line.sets(clued);
        let conclusions = conclusions(view, &line, &sets, clued.clue)?;
        // Told from the outside, a set is what the filling leaves over.
        let shown = |set: DigitSet| match self.side {
            Side::Between => set,
            Side::Outside => view.filling_digits() - set,
        };
        let excluded = sets.excluded.iter().filter_map(|(set, digit)| Some((shown(*set), (*digit)?)));
        let mut left: Vec<DigitSet> = sets.left.iter().map(|it| shown(*it)).collect();
        left.sort_by_key(|it| it.len());
        Some(Proposal {
            technique: self.id(),
            argument: Argument::Sets {
                clue: clued.clue,
                line: clued.line,
                side: self.side,
                sum: if fewer_outside { filling_total(size) - clued.sum } else { clued.sum },
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

/// What follows from the sets that are left; none if nothing new does.
fn conclusions(view: &View, line: &Line, sets: &Sets, clue: ClueId) -> Option<Vec<(Claim, Cites)>> {
    let never_between = view.filling_digits() - sets.in_some();
    let never_outside = sets.in_all();
    let loses = |side, lost: DigitSet| {
        let open = line.sure_cells(side).iter().filter(|it| view.digit(*it).is_none());
        open.into_iter().any(|it| !(view.candidates(it) & lost).is_empty())
    };
    let is_news = match sets.left.len() {
        0 => false,
        1 => true,
        _ => loses(Side::Between, never_between) || loses(Side::Outside, never_outside),
    };
    let mut base = Cites::default().clue(clue);
    if !is_news || !line.why_excluded(&sets.excluded, &mut base) {
        return None;
    }
    let conclusions = match sets.left[..] {
        [filling] => vec![(Claim::Spent { line: line.line, filling }, base)],
        _ => line.lost_on_sides(never_between, never_outside, &base),
    };
    (!conclusions.is_empty()).then_some(conclusions)
}
