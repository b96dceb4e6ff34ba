//! Something tried and followed: a digit or a kind is supposed of a cell, and followed from house to house until one
//! of them has no way left.
//!
//! What makes this a thought that can be held in mind is its bound: at most [`MOST_LOOKS`] looks at houses are taken. A
//! look says what one house, or its clue, leaves to its cells after the looks before. No look branches: nothing else
//! is ever supposed.
//!
//! The fewest houses in which anything ends come first, by trying all connected ones ([`search`]); what is found is
//! cut down to what its looks rest on and told link by link ([`told`]). What is known of houses beyond their clues
//! (distances, digits held) is left out, as are suppositions of two cells at once: those are for small arguments.

mod looks;
mod search;
mod told;

use rulebook::Claim;
use trail::Proposal;

use crate::View;
use looks::Looks;

/// How often a house is looked at from the supposition to its end, and so how many houses at most.
pub(crate) const MOST_LOOKS: usize = 6;

/// Steps of the same few houses are alike; of all there are, so many are of interest.
const MOST_OFFERED: usize = 6;

/// The steps with the fewest houses that end anything; none of them says what those before it say.
pub(crate) fn steps(view: &View) -> Vec<Proposal> {
    let looks = Looks::new(view);
    let mut said: Vec<Claim> = Vec::new();
    let mut steps = Vec::new();
    for found in search::fewest(view, &looks) {
        if steps.len() == MOST_OFFERED {
            break;
        }
        let is_news = |claim: &Claim| !said.contains(claim) && view.is_news(*claim);
        let Some(step) = told::told(view, &looks, &found, is_news) else { continue };
        said.extend(step.conclusions.iter().map(|it| it.0));
        steps.push(step);
    }
    steps
}
