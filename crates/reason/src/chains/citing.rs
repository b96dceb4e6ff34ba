//! Why each link of a chain holds: its reason, and what to cite for it.

use grid::{Cell, CellSet, Digit, DigitSet, House};
use rulebook::Claim;
use trail::{Cites, Follows, Inference};

use super::chain::Chain;
use super::graph::{Graph, Literal, opposite};

/// A conclusion with what it rests on.
type Cited = (Claim, Cites);

/// The links of the chain with their reasons, and its conclusions with what they rest on. None if
/// something cannot be cited, which does not happen.
pub(super) fn cited(graph: &Graph, chain: &Chain) -> Option<(Vec<Inference>, Vec<Cited>)> {
    let mut citing = Citing { graph, cites: Cites::default(), absent: Vec::new() };
    let mut links = Vec::new();
    for link in chain.path.windows(2) {
        let because = citing.link(link[0], link[1])?;
        links.push(Inference { then: graph.stated(link[1]), because });
    }
    let Citing { mut cites, absent, .. } = citing;
    graph.view.why_none(absent.into_iter(), &mut cites).then_some(())?;
    let (first, last) = (chain.path[0], chain.path[chain.path.len() - 1]);
    let conclude = |it: &Literal| {
        let mut citing = Citing { graph, cites: cites.clone(), absent: Vec::new() };
        if last != opposite(first) {
            citing.link(opposite(first), *it)?;
            citing.link(last, *it)?;
        }
        Some((graph.claim(*it)?, citing.cites))
    };
    let conclusions = chain.concludes.iter().map(conclude).collect::<Option<_>>()?;
    Some((links, conclusions))
}

/// Citations while they are gathered.
struct Citing<'g, 'v, 'a> {
    graph: &'g Graph<'v, 'a>,
    cites: Cites,
    /// Digits that are not in cells, for which reasons are still to be cited.
    absent: Vec<(Cell, Digit)>,
}

impl Citing<'_, '_, '_> {
    /// Adds what the link from one literal to the next rests on.
    fn link(&mut self, from: Literal, to: Literal) -> Option<Follows> {
        match self.graph.plain.has(from, to) {
            true => self.plain(from, to),
            false => self.through_clue(from, to),
        }
    }

    fn plain(&mut self, from: Literal, to: Literal) -> Option<Follows> {
        let view = self.graph.view;
        let [a, b] = [from, to].map(|it| self.graph.thing(it));
        // Of two things, one is so; otherwise, not both are.
        let decides = from & 1 == 0;
        if a.cells == b.cells {
            let cell = a.cells.first()?;
            let others = view.size().digits() - (a.digits | b.digits);
            self.absent.extend(others.iter().filter(|_| decides).map(|it| (cell, it)));
            return Some(Follows::Cell);
        }
        let (cells, digit) = (a.cells | b.cells, a.digits.single()?);
        let fits = |house: &House| {
            let members = view.members(*house);
            cells.is_subset(&members) && (!decides || view.places(*house, digit) == cells)
        };
        let houses = view.size().houses_of(cells.first()?);
        let house = houses.into_iter().filter(fits).min_by_key(|it| !self.cites.houses.contains(it))?;
        self.cites.houses.insert(house);
        if decides {
            let others: CellSet = view.members(house) - cells;
            self.absent.extend(others.iter().map(|it| (it, digit)));
        }
        Some(Follows::House(house))
    }

    fn through_clue(&mut self, from: Literal, to: Literal) -> Option<Follows> {
        let supposed = [from, opposite(to)].map(|it| self.digits_of(it));
        let supposed = supposed.into_iter().collect::<Option<Vec<_>>>()?;
        self.graph.lines.iter().find_map(|line| {
            let mut cites = self.cites.clone();
            line.cite_against(&supposed, &mut cites)?;
            self.cites = cites;
            Some(line.follows())
        })
    }

    /// A cell, and the digits that it holds one of.
    fn digits_of(&self, it: Literal) -> Option<(Cell, DigitSet)> {
        let thing = self.graph.thing(it);
        let digits = match it & 1 == 1 {
            true => thing.digits,
            false => self.graph.view.size().digits() - thing.digits,
        };
        Some((thing.cells.first()?, digits))
    }
}
