//! The shortest way from each literal to its opposite.

use super::graph::{Graph, Literal, opposite};

/// A chain of more links is not taught: the supposition and the conclusion apart, nobody follows it.
const MOST_LINKS: usize = 9;

/// A way from a literal to its opposite, both included.
pub(super) type Path = Vec<Literal>;

/// The shortest way from each literal to its opposite, where that says something new and is short enough.
pub(super) fn paths(graph: &Graph) -> Vec<Path> {
    let mut look = Look::new(graph.n_literals());
    let is_news = |it: Literal| graph.claim(opposite(it)).is_some_and(|it| graph.view.is_news(it));
    graph.starts().filter(|it| is_news(*it)).filter_map(|it| look.path(graph, it)).collect()
}

/// A search, with room that is used again for the next.
struct Look {
    /// Which literals are reached.
    reached: Vec<u64>,
    /// In how many links.
    distance: Vec<u8>,
    /// Those reached, in order.
    queue: Vec<Literal>,
}

impl Look {
    fn new(n_literals: usize) -> Look {
        Look {
            reached: vec![0; n_literals.div_ceil(64)],
            distance: vec![0; n_literals],
            queue: Vec::with_capacity(n_literals),
        }
    }

    fn path(&mut self, graph: &Graph, start: Literal) -> Option<Path> {
        let meeting = self.meeting(graph, start)?;
        let mut path = self.way(graph, start, meeting)?;
        // What leads to the opposite leads on from here, the other way round.
        let back = self.way(graph, start, opposite(meeting))?;
        path.extend(back.into_iter().rev().skip(1).map(opposite));
        // A way that meets itself settles something else sooner.
        let is_straight = path[1..path.len() - 1].iter().all(|it| !path.contains(&opposite(*it)));
        is_straight.then_some(path)
    }

    /// Goes outwards from the start until that comes to a literal and its opposite, on the shortest way.
    ///
    /// Where it comes to both, each leads on to the opposite of the start, as links hold the other way
    /// round: so half the way is enough.
    fn meeting(&mut self, graph: &Graph, start: Literal) -> Option<Literal> {
        self.reached.fill(0);
        self.reached[start / 64] |= 1 << (start % 64);
        self.distance[start] = 0;
        self.queue.clear();
        self.queue.push(start);
        let mut best: Option<(usize, Literal)> = None;
        let mut next = 0;
        while let Some(&from) = self.queue.get(next) {
            next += 1;
            let distance = self.distance[from] + 1;
            let limit = best.map_or(MOST_LINKS + 1, |it| it.0);
            if 2 * usize::from(distance) > limit {
                break;
            }
            for (word, links) in graph.all.of(from).iter().enumerate() {
                let mut new = links & !self.reached[word];
                self.reached[word] |= new;
                while new != 0 {
                    let to = word * 64 + new.trailing_zeros() as usize;
                    new &= new - 1;
                    self.distance[to] = distance;
                    if graph.leads_on(to) {
                        self.queue.push(to);
                    }
                    if self.has(opposite(to)) {
                        let n_links = usize::from(distance + self.distance[opposite(to)]);
                        if n_links <= MOST_LINKS && best.is_none_or(|it| n_links < it.0) {
                            best = Some((n_links, to));
                        }
                    }
                }
            }
        }
        best.map(|it| it.1)
    }

    fn has(&self, it: Literal) -> bool {
        self.reached[it / 64] >> (it % 64) & 1 == 1
    }

    /// The way from the start to a literal that is reached.
    fn way(&self, graph: &Graph, start: Literal, to: Literal) -> Option<Path> {
        let mut way = vec![to];
        let mut at = to;
        while at != start {
            at = self.before(graph, start, at)?;
            way.push(at);
        }
        way.reverse();
        Some(way)
    }

    /// The literal one link before: rather by a plain link than through a clue, rather about one cell than
    /// about several.
    fn before(&self, graph: &Graph, start: Literal, at: Literal) -> Option<Literal> {
        let is_before = |it: &Literal| {
            let is_reached = self.reached[it / 64] >> (it % 64) & 1 == 1;
            is_reached
                && self.distance[*it] + 1 == self.distance[at]
                && (*it == start || self.distance[*it] > 0)
        };
        // What implies a literal is the opposite of what its opposite implies.
        let befores = |links: &[u64]| {
            let mut found = None;
            for (word, bits) in links.iter().enumerate() {
                let mut bits = *bits;
                while bits != 0 && found.is_none() {
                    let it = opposite(word * 64 + bits.trailing_zeros() as usize);
                    bits &= bits - 1;
                    found = Some(it).filter(is_before);
                }
            }
            found
        };
        befores(graph.plain.of(opposite(at))).or_else(|| befores(graph.all.of(opposite(at))))
    }
}
