//! Chains: suppose something and follow what it implies, one thing from the other, to its own opposite.
//!
//! A thing is that a cell holds a digit or a crust, or that a digit lies in two or three cells of a box that
//! share a line; or the opposite of such a thing. What one of them implies by a house, by a cell or by
//! the clue of one line is worked out once for a position ([`graph`]). Then the shortest way from each thing
//! to its opposite is a step ([`search`]), told from end to end ([`chain`]) and cited exactly
//! ([`citing`]).
//!
//! Nothing here knows more than the position. A chain never branches and never rests on an earlier chain.

mod chain;
mod citing;
mod followed;
mod graph;
mod search;

use rulebook::Claim;
use trail::{Argument, Proposal, TechniqueId};

use crate::View;
use chain::Chain;
pub(crate) use followed::can_be_followed;
use graph::Graph;

/// Of the chains in a position only the shortest are of interest.
const MOST_OFFERED: usize = 12;

/// The steps, with something wanted among what they conclude, of chains that houses and cells alone make.
pub(crate) fn plain(
    view: &View,
    technique: TechniqueId,
    is_wanted: &dyn Fn(&Claim) -> bool,
) -> Vec<Proposal> {
    steps(&Graph::plain(view), technique, is_wanted)
}

/// What each of the [`plain`] chains concludes.
pub(crate) fn plain_claims(view: &View) -> Vec<Vec<Claim>> {
    claims(&Graph::plain(view))
}

/// The same of chains that need what clues imply.
pub(crate) fn through_clues(
    view: &View,
    technique: TechniqueId,
    is_wanted: &dyn Fn(&Claim) -> bool,
) -> Vec<Proposal> {
    steps(&Graph::with_clues(view), technique, is_wanted)
}

/// What each of the chains [`through_clues`] concludes.
pub(crate) fn claims_through_clues(view: &View) -> Vec<Vec<Claim>> {
    claims(&Graph::with_clues(view))
}

fn claims(graph: &Graph) -> Vec<Vec<Claim>> {
    chains(graph).iter().map(|it| it.claims(graph).collect()).collect()
}

fn steps(graph: &Graph, technique: TechniqueId, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
    let step = |chain: &Chain| {
        if !chain.claims(graph).any(|it| is_wanted(&it)) {
            return None;
        }
        let (links, conclusions) = citing::cited(graph, chain)?;
        let argument = Argument::Chain { start: graph.stated(chain.path[0]), links };
        Some(Proposal { technique, argument, conclusions })
    };
    chains(graph).iter().filter_map(step).collect()
}

/// The shortest chains, the shortest first, each giving something that those before do not.
fn chains(graph: &Graph) -> Vec<Chain> {
    let mut paths = search::paths(graph);
    paths.sort_by_key(Vec::len);
    let mut chains: Vec<Chain> = Vec::new();
    for path in paths {
        if chains.len() == MOST_OFFERED {
            break;
        }
        let goal = path[path.len() - 1];
        if !chains.iter().any(|it| it.concludes.contains(&goal)) {
            chains.extend(Chain::of(graph, path));
        }
    }
    chains
}
