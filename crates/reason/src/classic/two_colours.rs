//! Two-colour chain: cells joined two by two by houses in which a digit has no other places hold it in
//! turn, as if in two colours. What sees both colours loses the digit; and a colour that comes twice
//! in one house holds it nowhere.
//!
//! ```text
//! A . . | . b . | . . .      5 has two places in row 1, in column 5 and in row 4:
//! . . . | . . . | . . .      it is at A and A, or at b and b
//! . . . | . . . | . . .
//! ------+-------+------      x sees an A and a b
//! x . . | . A . | . b .
//! ```

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use grid::{Cell, CellSet, Digit, House};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::crossing_lines::all_of;
use super::each_pair;
use crate::{Technique, View};

/// A chain of fewer links says what locked candidates say.
const FEWEST_LINKS: usize = 3;

pub(crate) struct TwoColours;

impl Technique for TwoColours {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("two-colour-chain") }
    }

    fn weight(&self) -> u32 {
        88
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("hidden-single"), TechniqueId::new("locked-candidates")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let mut found = Vec::new();
        for digit in view.size().digits().iter() {
            let links = links(view, digit);
            if links.len() < FEWEST_LINKS {
                continue;
            }
            let mut left: CellSet = links.iter().flat_map(|it| it.0).collect();
            while let Some(start) = left.first() {
                let part = Part::around(start, &links);
                left = left - part.cells;
                found.extend(seen_both_ways(view, digit, &part));
                found.extend(twice_in_a_house(view, digit, &part));
            }
        }
        found
    }
}

/// Steps of cells that see both colours: one for each two cells they see.
fn seen_both_ways(view: &View, digit: Digit, part: &Part) -> Vec<Proposal> {
    let mut by_ends: BTreeMap<[Cell; 2], Vec<Cell>> = BTreeMap::new();
    let open: CellSet = view.open_cells().collect();
    for cell in (view.places_among(open, digit) - part.cells).iter() {
        let seen: Vec<Cell> = (part.cells & view.peers(cell)).iter().collect();
        let chains = each_pair(&seen).filter(|it| part.n_links(*it) % 2 == 1);
        if let Some(ends) = chains.min_by_key(|it| part.n_links(*it)) {
            by_ends.entry(ends).or_default().push(cell);
        }
    }
    let offer = |(ends, lost): ([Cell; 2], Vec<Cell>)| {
        let chain = part.chain(ends).filter(|it| it.houses.len() >= FEWEST_LINKS)?;
        let conclude = |cell: &Cell| {
            let mut sight = Cites::default();
            ends.iter().for_each(|it| view.cite_sight(*cell, *it, &mut sight));
            // Where the first cell is not the digit, the second is, the third is not, the fourth is.
            Some((Claim::IsNot(*cell, digit), chain.cites(view, digit, sight, |link| link % 2 == 0)?))
        };
        Some(Proposal {
            technique: TwoColours.id(),
            conclusions: lost.iter().map(conclude).collect::<Option<_>>()?,
            argument: Argument::TwoColours { digit, cells: chain.cells, houses: chain.houses, clash: None },
        })
    };
    by_ends.into_iter().filter_map(offer).collect()
}

/// The step of a colour that comes twice in a house, by the shortest chain.
fn twice_in_a_house(view: &View, digit: Digit, part: &Part) -> Option<Proposal> {
    let cells: Vec<Cell> = part.cells.iter().collect();
    let alike = |[a, b]: &[Cell; 2]| view.peers(*a).contains(*b) && part.n_links([*a, *b]).is_multiple_of(2);
    let ends = each_pair(&cells).filter(alike).min_by_key(|it| part.n_links(*it))?;
    let chain = part.chain(ends).filter(|it| it.houses.len() > FEWEST_LINKS)?;
    let clash = view.size().shared_house(ends[0], ends[1])?;
    // Where a cell is the digit, its neighbours are not, and those beyond are, to both ends.
    let conclude = |at: usize| {
        let decides = |link: usize| {
            if link < at { (at - link).is_multiple_of(2) } else { !(link - at).is_multiple_of(2) }
        };
        Some((
            Claim::IsNot(chain.cells[at], digit),
            chain.cites(view, digit, Cites::default(), decides)?.house(clash),
        ))
    };
    Some(Proposal {
        technique: TwoColours.id(),
        conclusions: (0..chain.cells.len()).step_by(2).map(conclude).collect::<Option<_>>()?,
        argument: Argument::TwoColours {
            digit,
            cells: chain.cells,
            houses: chain.houses,
            clash: Some(clash),
        },
    })
}

/// Two cells that are the only places of a digit in a house.
type Joint = ([Cell; 2], House);

/// The joints of a digit; of two houses with the same two places the first only.
fn links(view: &View, digit: Digit) -> Vec<Joint> {
    let mut links: Vec<Joint> = Vec::new();
    for &house in view.houses() {
        let places: Vec<Cell> = view.places(house, digit).iter().collect();
        if let [a, b] = places[..]
            && !links.iter().any(|it| it.0 == [a, b])
        {
            links.push(([a, b], house));
        }
    }
    links
}

/// Cells that are joined to each other, and the way from each to each.
struct Part {
    cells: CellSet,
    /// By first cell.
    ways: BTreeMap<Cell, Ways>,
}

/// By last cell: the number of links to it, and the link that leads there last.
type Ways = BTreeMap<Cell, (usize, Option<(Cell, House)>)>;

impl Part {
    /// The cells that joints lead to from `start`.
    fn around(start: Cell, links: &[Joint]) -> Part {
        let cells: CellSet = ways_from(start, links).keys().copied().collect();
        Part { cells, ways: cells.iter().map(|it| (it, ways_from(it, links))).collect() }
    }

    /// How many links lie between two cells of the part.
    fn n_links(&self, [from, to]: [Cell; 2]) -> usize {
        self.ways[&from][&to].0
    }

    /// A shortest chain between two cells of the part.
    fn chain(&self, [from, to]: [Cell; 2]) -> Option<Chain> {
        let ways = self.ways.get(&from)?;
        let mut chain = Chain { cells: vec![to], houses: Vec::new() };
        let mut at = to;
        while let Some((before, house)) = ways.get(&at)?.1 {
            chain.cells.push(before);
            chain.houses.push(house);
            at = before;
        }
        chain.cells.reverse();
        chain.houses.reverse();
        Some(chain)
    }
}

/// The shortest way to each cell that joints lead to.
fn ways_from(start: Cell, links: &[Joint]) -> Ways {
    let mut ways = BTreeMap::from([(start, (0, None))]);
    let mut waiting = std::collections::VecDeque::from([(start, 0)]);
    while let Some((cell, n_links)) = waiting.pop_front() {
        for (ends, house) in links.iter().filter(|it| it.0.contains(&cell)) {
            let other = if ends[0] == cell { ends[1] } else { ends[0] };
            if let Entry::Vacant(way) = ways.entry(other) {
                way.insert((n_links + 1, Some((cell, *house))));
                waiting.push_back((other, n_links + 1));
            }
        }
    }
    ways
}

/// Cells of which each next one is joined to the one before.
struct Chain {
    cells: Vec<Cell>,
    houses: Vec<House>,
}

impl Chain {
    /// Why the digit cannot be in two neighbours, and, where `decides` says so of the link between them,
    /// must be in one.
    ///
    /// It goes on from why the digit cannot be in some houses, cited already: no need to say it again.
    fn cites(
        &self,
        view: &View,
        digit: Digit,
        mut cites: Cites,
        decides: impl Fn(usize) -> bool,
    ) -> Option<Cites> {
        let said = all_of(view, &cites.houses);
        cites.houses.extend(&self.houses);
        let deciding = self.houses.iter().enumerate().filter(|it| decides(it.0)).map(|it| *it.1);
        let elsewhere = deciding.map(|it| view.members(it) - view.places(it, digit));
        let elsewhere = elsewhere.fold(CellSet::EMPTY, |all, it| all | it) - said;
        view.why_nowhere(elsewhere, digit, &mut cites).then_some(cites)
    }
}
