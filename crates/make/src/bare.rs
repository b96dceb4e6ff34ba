//! A page with nothing to spare for its one solution that those who know so much can finish all the same.
//!
//! Most such pages are too hard for the techniques that are known, so one is changed bit by bit: something is printed
//! that was not, what can go for it goes, and what comes of it is kept if it is as good as before.

use grid::Grid;
use rand::{Rng, RngExt};
use trail::TechniqueId;

use crate::brief::{Brief, Clues, Kind};
use crate::draft::{Draft, Stop, Stopped};

/// How often a solution is cut back, by lot, before the best of what is left is changed.
const STARTS: usize = 12;

/// Exchanges that come to nothing better before another solution is tried instead; more once a page needs what is to be
/// taught, for such pages are rare, and one in so many leads to its end.
const MOST_IDLE: [usize; 2] = [40, 160];

/// How near it comes to the brief; of two the greater is nearer. What is listed first counts first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
struct Standing {
    /// Whether it has no more givens and clues than are allowed.
    is_within: bool,
    /// How many of the techniques that it is to teach lead farther: without them fewer cells can be filled.
    n_needed: usize,
    /// How many cells are filled when the techniques that are known lead no farther.
    n_filled: usize,
}

/// The page that comes nearest, of those that exchanges lead to.
pub(crate) fn bare<'b>(
    brief: &'b Brief,
    solution: &'b Grid,
    random: &mut impl Rng,
    stop: Stop,
) -> Result<Draft<'b>, Stopped> {
    let mut draft = start(brief, solution, random, stop)?;
    let mut standing = Standing::of(brief, &mut draft);
    for _ in 1..STARTS {
        if standing.is_met(brief) {
            return Ok(draft);
        }
        let mut other = start(brief, solution, random, stop)?;
        let of_other = Standing::of(brief, &mut other);
        if of_other > standing {
            (draft, standing) = (other, of_other);
        }
    }
    let mut n_idle = 0;
    while !standing.is_met(brief) && n_idle < MOST_IDLE[usize::from(standing.n_needed > 0)] {
        let Some(mut next) = draft.exchanged(random, stop)? else { break };
        let then = Standing::of(brief, &mut next);
        n_idle = if then > standing { 0 } else { n_idle + 1 };
        if then >= standing {
            (draft, standing) = (next, then);
        }
    }
    Ok(draft)
}

/// The solution cut back in one of many orders.
fn start<'b>(
    brief: &'b Brief,
    solution: &'b Grid,
    random: &mut impl Rng,
    stop: Stop,
) -> Result<Draft<'b>, Stopped> {
    let mut draft = Draft::whole(brief, solution);
    // Without many clues more givens stay, with which techniques lead farther; with many there is more to teach.
    if brief.kind == Kind::Sandwich && brief.clues == Clues::Needed {
        let n_clues = draft.n_clues();
        draft.take_clues(n_clues - (n_clues >> random.random_range(0..5)).max(1), random);
    }
    draft.cut_back(random, stop)?;
    Ok(draft)
}

impl Standing {
    /// What the draft comes to once a way through it has been looked for.
    fn of(brief: &Brief, draft: &mut Draft) -> Standing {
        let n_filled = draft.go_through();
        let leads_farther = |it: &&TechniqueId| draft.n_filled_without(**it) < n_filled;
        let n_needed = brief.teaches.iter().filter(leads_farther).count();
        Standing { is_within: draft.is_within(), n_needed, n_filled }
    }

    fn is_met(self, brief: &Brief) -> bool {
        self.is_within && self.n_filled == brief.size.n_cells() && self.n_needed == brief.teaches.len()
    }
}
