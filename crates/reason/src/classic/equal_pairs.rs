//! Chain of equal pairs: cells that can all hold the same two digits, each in sight of the next, hold them in
//! turn. Where a chain has an odd number of links, its ends differ: one holds the one digit, one the other, and
//! what sees both ends loses both.
//!
//! ```text
//! a{2 7} .      . | . b{2 7} .      if a is 2, b is 7, c is 2 and d is 7; if a is 7, d is 2
//! .      x      . | . .      .
//! ------------------+-----------
//! x      .      . | . .      .      each x sees a and d: it is neither 2 nor 7
//! .      d{2 7} . | . c{2 7} .
//! ```

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use grid::{Cell, CellSet, DigitSet};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::each_pair;
use crate::{Technique, View};

/// A chain of one link is a naked pair.
const FEWEST_LINKS: usize = 3;

pub(crate) struct EqualPairs;

impl Technique for EqualPairs {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("chain-of-equal-pairs") }
    }

    fn weight(&self) -> u32 {
        90
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("naked-pair"), TechniqueId::new("two-colour-chain")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let mut alike: BTreeMap<DigitSet, CellSet> = BTreeMap::new();
        for cell in view.cells_with(2).iter() {
            alike.entry(view.candidates(cell)).or_default().insert(cell);
        }
        // A chain of three links has four cells.
        alike.retain(|_, cells| cells.len() > FEWEST_LINKS);
        alike.iter().flat_map(|(digits, cells)| self.among(view, *digits, *cells)).collect()
    }
}

impl EqualPairs {
    /// The steps of chains through these cells, which can all hold the same two digits: one for each two ends.
    fn among(&self, view: &View, digits: DigitSet, cells: CellSet) -> Vec<Proposal> {
        let ways: BTreeMap<Cell, Ways> = cells.iter().map(|it| (it, ways_from(view, it, cells))).collect();
        let mut by_ends: BTreeMap<[Cell; 2], Vec<Cell>> = BTreeMap::new();
        for cell in view.open_cells().filter(|it| !(view.candidates(*it) & digits).is_empty()) {
            let seen: Vec<Cell> = (cells & view.peers(cell)).iter().collect();
            let n_links = |[a, b]: &[Cell; 2]| ways[a].get(b).map_or(0, |it| it.0);
            let chains = each_pair(&seen).filter(|it| n_links(it) % 2 == 1);
            // What sees both cells of a naked pair loses both digits to it.
            if let Some(ends) = chains.min_by_key(n_links).filter(|it| n_links(it) >= FEWEST_LINKS) {
                by_ends.entry(ends).or_default().push(cell);
            }
        }
        let offer = |(ends, lost): ([Cell; 2], Vec<Cell>)| {
            let chain = chain(&ways[&ends[0]], ends[1]);
            self.offer(view, digits, &chain, &lost)
        };
        by_ends.into_iter().filter_map(offer).collect()
    }

    /// The step of a chain whose ends the lost cells see.
    fn offer(&self, view: &View, digits: DigitSet, chain: &[Cell], lost: &[Cell]) -> Option<Proposal> {
        let (first, last) = (*chain.first()?, *chain.last()?);
        let mut cites = Cites::default();
        chain.windows(2).for_each(|it| view.cite_sight(it[0], it[1], &mut cites));
        let others = view.size().digits() - digits;
        let elsewhere = chain.iter().flat_map(|cell| others.iter().map(move |it| (*cell, it)));
        if !view.why_none(elsewhere, &mut cites) {
            return None;
        }
        let of_cell = |cell: &Cell| {
            let cell = *cell;
            let mut cites = cites.clone();
            [first, last].into_iter().for_each(|it| view.cite_sight(cell, it, &mut cites));
            digits.iter().map(move |it| (Claim::IsNot(cell, it), cites.clone()))
        };
        let mut conclusions: Vec<(Claim, Cites)> = lost.iter().flat_map(of_cell).collect();
        conclusions.retain(|(claim, _)| view.is_news(*claim));
        Some(Proposal {
            technique: self.id(),
            argument: Argument::EqualPairs { digits, cells: chain.to_vec() },
            conclusions,
        })
    }
}

/// By last cell: the number of links to it, and the cell before it.
type Ways = BTreeMap<Cell, (usize, Option<Cell>)>;

/// The shortest way from a cell to each of the others that links lead to.
fn ways_from(view: &View, start: Cell, cells: CellSet) -> Ways {
    let mut ways = BTreeMap::from([(start, (0, None))]);
    let mut waiting = std::collections::VecDeque::from([(start, 0)]);
    while let Some((cell, n_links)) = waiting.pop_front() {
        for next in (cells & view.peers(cell)).iter() {
            if let Entry::Vacant(way) = ways.entry(next) {
                way.insert((n_links + 1, Some(cell)));
                waiting.push_back((next, n_links + 1));
            }
        }
    }
    ways
}

/// The cells from the start of the ways to `end`, both included.
fn chain(ways: &Ways, end: Cell) -> Vec<Cell> {
    let mut chain = vec![end];
    while let Some(before) = ways.get(&chain[chain.len() - 1]).and_then(|it| it.1) {
        chain.push(before);
    }
    chain.reverse();
    chain
}
