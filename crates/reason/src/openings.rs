//! Where a puzzle can be opened: the first things that anybody could write down.

use replay::{Cap, Checked};
use rulebook::{Claim, Puzzle};
use trail::FactId;

use crate::proof::{Near, Search};
use crate::trim::Trimmer;
use crate::{Known, View, order};

/// Whoever finds the nearest opening does not look for one that takes so many times its effort.
const FARTHEST: u64 = 3;

/// So often what is nearest is taken before it counts as settled that nothing more is near.
const MOST_ROUNDS: usize = 30;

/// Ways from the page to a digit or a crust, the least effort first: each with nothing that it does not need, of
/// `most_steps` at most and replayed. Two may have steps in common.
pub fn openings(puzzle: &Puzzle, known: Known, most_steps: usize, cap: Cap) -> Vec<Checked> {
    let page = View::new(puzzle);
    let mut search = Search::new(page.clone(), known, Near::Effort);
    let mut openings = Vec::new();
    let mut farthest = u64::MAX;
    for _ in 0..MOST_ROUNDS {
        let steps = search.take_nearest(farthest);
        if steps.is_empty() {
            break;
        }
        let trail = search.view.trail();
        let concluded = steps.iter().flat_map(|it| trail.step(*it).concludes());
        let settled = concluded.copied().filter(|it| {
            matches!(trail.fact(*it).claim(), Claim::Is(..) | Claim::Crust(_))
                && search.n_steps_to(*it) <= most_steps
        });
        let settled: Vec<FactId> = settled.collect();
        if let (u64::MAX, Some(first)) = (farthest, settled.first()) {
            farthest = FARTHEST * effort_to(&search, *first);
        }
        openings.extend(settled.into_iter().filter_map(|it| checked(&page, &search, it, cap)));
    }
    openings
}

fn effort_to(search: &Search<'_>, fact: FactId) -> u64 {
    let way = search.view.trail().needed_for([fact]);
    way.steps().map(|(it, _)| order::weight(&way, it)).sum()
}

/// The way to the fact, in order, without what is cited to spare. None for a fault of a technique, which `explain`
/// reports.
fn checked(page: &View<'_>, search: &Search<'_>, fact: FactId, cap: Cap) -> Option<Checked> {
    let claim = search.view.trail().fact(fact).claim();
    let trimmed = Trimmer::new(page, cap).trimmed(&search.view.trail().needed_for([fact])).ok()?;
    let goal = trimmed.facts().find(|(_, it)| it.claim() == claim)?.0;
    replay::replay(page.puzzle(), order::arrange(page.size(), trimmed.needed_for([goal])), cap).ok()
}
