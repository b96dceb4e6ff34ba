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
use rulebook::{Claim, ClueId, RuleId, filling_total};
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

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        self.weight
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        self.needs
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        let open = self.open_lines(view).filter(|(_, claims)| claims.iter().any(is_wanted));
        open.filter_map(|(it, _)| self.in_line(view, it)).collect()
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        Some(self.open_lines(view).map(|it| it.1.to_vec()).collect())
    }
}

impl Sums {
    /// The lines that are looked at from this side and show something new, with that.
    fn open_lines<'v>(&self, view: &'v View<'_>) -> impl Iterator<Item = (&'v CluedLine, &'v [Claim])> {
        let open = view.clued_lines().iter().filter(|it| view.spent(it.line).is_none());
        open.filter_map(|clued| {
            let line = Line::new(view, clued.line);
            let (fewest, most) = line.crusts.spread()?;
            let room = usize::from(view.size().side()) - 2;
            let fewer_outside = fewest + most > room;
            let is_ours = fewer_outside == (self.side == Side::Outside);
            let claims = is_ours.then(|| claims(view, &line, clued))?;
            (!claims.is_empty()).then_some((clued, claims))
        })
    }

    fn in_line(&self, view: &View, clued: &CluedLine) -> Option<Proposal> {
        let size = view.size();
        let line = Line::new(view, clued.line);
        let (fewest, most) = line.crusts.spread()?;
        let room = usize::from(size.side()) - 2;
        let sets = line.sets(clued);
        let conclusions = conclusions(view, &line, sets, clued.clue)?;
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
                sum: match self.side {
                    Side::Between => clued.sum,
                    Side::Outside => filling_total(size) - clued.sum,
                },
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

/// What follows from the sets that are left, as far as it is new.
fn claims<'v>(view: &View, line: &Line<'v, '_>, clued: &CluedLine) -> &'v [Claim] {
    line.on_sides().by_sets.get_or_init(|| {
        let sets = line.sets(clued);
        match sets.left[..] {
            [] => Vec::new(),
            [filling] => vec![Claim::Spent { line: line.line, filling }],
            _ => line.claims_on_sides(view.filling_digits() - sets.in_some(), sets.in_all()),
        }
    })
}

/// The same with what it rests on.
fn conclusions(view: &View, line: &Line, sets: &Sets, clue: ClueId) -> Option<Vec<(Claim, Cites)>> {
    let mut base = Cites::default().clue(clue);
    if !line.why_excluded(&sets.excluded, &mut base) {
        return None;
    }
    Some(match sets.left[..] {
        [filling] => vec![(Claim::Spent { line: line.line, filling }, base)],
        _ => line.lost_on_sides(view.filling_digits() - sets.in_some(), sets.in_all(), &base),
    })
}
