//! How a way from a literal to its opposite is told.

use rulebook::Claim;

use super::graph::{Graph, Literal, opposite};
use super::search::Path;

/// Between the ends of a chain that others see are so many links at least: with fewer, they see the two
/// places of a digit in a house.
const FEWEST_BETWEEN: usize = 3;

/// Links in order, and what is concluded.
pub(super) struct Chain {
    /// What is supposed, and each thing that follows from the one before.
    pub(super) path: Path,
    /// What is concluded: the opposite of the supposition, or whatever both the opposite of the supposition
    /// and the last link exclude.
    pub(super) concludes: Vec<Literal>,
}

impl Chain {
    /// What is concluded, as claims.
    pub(super) fn claims(&self, graph: &Graph) -> impl Iterator<Item = Claim> {
        self.concludes.iter().filter_map(|it| graph.claim(*it))
    }

    /// The chain that tells this way from a literal to its opposite; none if something easier tells it.
    pub(super) fn of(graph: &Graph, path: Path) -> Option<Chain> {
        let n = path.len();
        let is_plain = |at: usize| graph.plain.has(path[at], path[at + 1]);
        let plain_throughout = (0..n - 1).all(is_plain);
        if plain_throughout && graph.has_lines() {
            return None;
        }
        // Where a cell sees both ends, so may others.
        let denied = path[0] & 1 == 1;
        let has_ends = denied && is_plain(0) && is_plain(n - 2) && path[1] & 1 == 0 && path[n - 2] & 1 == 1;
        if has_ends && n - 3 >= FEWEST_BETWEEN {
            let ends = [opposite(path[1]), path[n - 2]];
            let seen =
                graph.starts().filter(|it| it & 1 == 0 && ends.iter().all(|end| graph.plain.has(*end, *it)));
            let is_news = |it: &Literal| graph.claim(*it).is_some_and(|it| graph.view.is_news(it));
            let concludes = seen.filter(is_news).collect();
            return Some(Chain { path: path[1..n - 1].to_vec(), concludes });
        }
        let is_long_enough = !plain_throughout || n - 1 > FEWEST_BETWEEN;
        is_long_enough.then(|| Chain { concludes: vec![path[n - 1]], path })
    }
}
