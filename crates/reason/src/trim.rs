//! Enough and nothing to spare: each conclusion keeps only the citations it needs.
//!
//! A technique cites what it sees, which may be more than its conclusion needs: the line of a clue
//! that is cited too, or a digit in a row that already fills a cell of the box at hand. That is easier
//! said of a whole step at the end than at each look.

use replay::{Cap, Cited};
use rulebook::{Claim, Puzzle};
use trail::{Argument, Cites, Proposal, PushError, Trail};

use crate::chains::can_be_followed;
use crate::{Technique, View, technique};

/// The same steps with the same conclusions, each citing only what it needs.
///
/// A conclusion needs what it does not follow without, and the facts without which its technique does
/// not see it: a sum may say where a crust must be, but a person who takes what is left of the sum
/// wants to know both crusts. A chain needs what its links rest on. Small arguments stay as they are: they cite nothing to spare from the
/// start, and their cases rest on each citation.
///
/// # Errors
///
/// None for a trail of this puzzle.
pub(crate) fn trimmed(puzzle: &Puzzle, trail: &Trail, cap: Cap) -> Result<Trail, PushError> {
    let page = View::new(puzzle);
    let mut trimmed = Trail::from_page(puzzle);
    for (_, step) in trail.steps() {
        let technique = technique(step.technique());
        let conclusions = step.concludes().iter().map(|id| {
            let fact = trail.fact(*id);
            let (claim, cites) = (fact.claim(), fact.cites().cloned().unwrap_or_default());
            let Some(technique) = technique else { return (claim, cites) };
            if let Argument::Chain { start, links } = step.argument() {
                // Each link rests on what it says, even if the conclusion follows from less.
                let follows = |cites: &Cites| can_be_followed(puzzle, trail, (&claim, cites), *start, links);
                let fewest = replay::citations(&cites).fold(cites.clone(), |kept, cited| {
                    Some(cited.left_out_of(&kept)).filter(&follows).unwrap_or(kept)
                });
                return (claim, fewest);
            }
            let may_go = |cited, fewer: &Cites| match cited {
                Cited::Fact(fact) if trail.fact(fact).step().is_some() => {
                    is_seen(technique, &page, trail, &claim, fewer)
                }
                _ => true,
            };
            (claim, replay::without_spare(puzzle, trail, &claim, &cites, cap, may_go))
        });
        let conclusions = conclusions.collect();
        let (technique, argument) = (step.technique(), step.argument().clone());
        // Ids stay the same, since all steps are taken in order.
        trimmed.push(Proposal { technique, argument, conclusions })?;
    }
    Ok(trimmed)
}

/// Whether the technique offers the claim to someone who knows the page and the cited facts only.
fn is_seen(technique: &dyn Technique, page: &View, trail: &Trail, claim: &Claim, cites: &Cites) -> bool {
    let known = cites.facts.iter().map(|it| trail.fact(*it)).filter(|it| it.step().is_some());
    let view = page.with(&known.map(|it| it.claim()).collect::<Vec<_>>());
    view.is_some_and(|it| !technique.find_wanted(&it, &|it| it == claim).is_empty())
}
