//! The problem behind one conclusion: which fillings would be counterexamples.

use grid::{Cell, CellSet, DigitSet, House, Size};
use rulebook::{Claim, filling_digits};
use trail::{Cites, Trail};

use crate::Refusal;
use crate::house::{LONGEST, Lanes, and, arrange, has_empty};
use crate::page::{Asked, Page};

/// Two conditions on one house are joined if that takes no more ways than this, or than one of them
/// has.
const MOST_JOINED: usize = 500;

/// A set of houses: bit 0 stands for the first. A board has at most 48.
pub(crate) type Houses = u64;

/// Conditions on a filling of some cells.
///
/// Cells and houses are known by their places in `cells` and `houses`.
#[derive(Debug)]
pub(crate) struct Problem {
    /// The cells to fill, in reading order.
    pub(crate) cells: Vec<Cell>,
    /// The digits that conditions on single cells leave to each cell.
    pub(crate) start: Vec<DigitSet>,
    /// Houses that hold each digit once, as the places of their cells: the first `side` of each count.
    pub(crate) houses: Vec<[u8; LONGEST]>,
    /// Which of all houses of the board they are.
    names: Houses,
    /// What else has to hold, by house.
    pub(crate) conditions: Vec<Condition>,
    /// The digits of the board.
    pub(crate) all: DigitSet,
    /// How many cells a house has.
    pub(crate) side: usize,
}

/// The places of a problem's cells, by [`Cell::slot`].
struct Places([u8; Cell::SLOTS]);

impl Places {
    /// The place of one of the cells.
    fn of(&self, cell: Cell) -> usize {
        usize::from(self.0[cell.slot()])
    }
}

/// What a claim and its citations are about.
#[derive(Debug)]
pub(crate) struct Scope {
    /// The houses whose digits are used to be different: those cited, and those of clues and claims.
    houses: Houses,
    /// The cells of claims about one cell.
    singles: CellSet,
}

impl Scope {
    /// # Errors
    ///
    /// If the claim or a citation is not of this puzzle.
    pub(crate) fn new(page: &Page, trail: &Trail, claim: &Claim, cites: &Cites) -> Result<Scope, Refusal> {
        let size = page.size();
        let (mut houses, mut singles): (Houses, CellSet) = (0, CellSet::EMPTY);
        for id in &cites.clues {
            let clue = page.puzzle.clue(*id).ok_or(Refusal::UnknownClue(*id))?;
            houses |= 1 << size.house_index(clue.line);
        }
        for house in &cites.houses {
            if !is_house_of(size, *house) {
                return Err(Refusal::NotOnPage);
            }
            houses |= 1 << size.house_index(*house);
        }
        let facts = cites.facts.iter().map(|it| trail.fact(*it).claim());
        for it in facts.chain([*claim]) {
            if !is_of_board(page, &it) {
                return Err(Refusal::NotOnPage);
            }
            singles.extend(it.cell());
            houses |= it.house().map_or(0, |it| 1 << size.house_index(it));
        }
        Ok(Scope { houses, singles })
    }
}

/// A condition on the cells of one house.
#[derive(Debug)]
pub(crate) struct Condition {
    /// The house's place in [`Problem::houses`].
    pub(crate) house: usize,
    /// The ways to meet the condition: for each cell of the house, in its order, the digits it may
    /// hold.
    pub(crate) ways: Vec<Lanes>,
}

impl Problem {
    /// The problem whose solutions are the counterexamples to `claim`: everything cited holds and the
    /// claim does not. `scope` is what the two are about.
    pub(crate) fn counter_to(
        page: &Page,
        trail: &Trail,
        claim: &Claim,
        cites: &Cites,
        scope: &Scope,
    ) -> Problem {
        let size = page.size();
        let facts = || cites.facts.iter().map(|it| trail.fact(*it).claim());
        let (mut problem, places) = Problem::of_cells(page, scope);
        let mut demands: Vec<(House, Asked)> = Vec::new();
        let clues = cites.clues.iter().filter_map(|id| Some((page.puzzle.clue(*id)?.line, Asked::Clue(*id))));
        demands.extend(clues);
        for fact in facts() {
            match fact.leaves(size) {
                Some((cell, digits)) => problem.narrow(places.of(cell), digits),
                None => demands.extend(fact.house().map(|it| (it, Asked::Fact(fact)))),
            }
        }
        match claim.leaves(size) {
            Some((cell, digits)) => problem.narrow(places.of(cell), size.digits() - digits),
            None => demands.extend(claim.house().map(|it| (it, Asked::Denial(*claim)))),
        }
        problem.demand(page, &demands);
        problem
    }

    /// The houses and some single cells, with nothing said about them yet.
    fn of_cells(page: &Page, &Scope { houses: names, singles }: &Scope) -> (Problem, Places) {
        let size = page.size();
        let touched = each(names).fold(singles, |all, it| all | page.members(it));
        let mut cells: Vec<Cell> = Vec::with_capacity(touched.len());
        let mut places = Places([0; Cell::SLOTS]);
        for cell in touched.iter() {
            // A board has at most 256 cells, so a place fits.
            places.0[cell.slot()] = cells.len() as u8;
            cells.push(cell);
        }
        let mut houses = Vec::with_capacity(names.count_ones() as usize);
        houses.extend(each(names).map(|house| {
            let mut of_house = [0; LONGEST];
            of_house.iter_mut().zip(page.cells_of(house)).for_each(|(it, cell)| *it = places.0[cell.slot()]);
            of_house
        }));
        let problem = Problem {
            start: vec![size.digits(); cells.len()],
            houses,
            names,
            conditions: Vec::new(),
            all: size.digits(),
            side: usize::from(size.side()),
            cells,
        };
        (problem, places)
    }

    /// The places of the house's cells.
    pub(crate) fn cells_of(&self, house: usize) -> impl Iterator<Item = usize> + Clone + use<'_> {
        self.houses[house][..self.side].iter().map(|it| usize::from(*it))
    }

    /// What `left` has for each cell of the house.
    pub(crate) fn lanes(&self, house: usize, left: &[DigitSet]) -> Lanes {
        let mut lanes = [self.all; LONGEST];
        lanes.iter_mut().zip(self.cells_of(house)).for_each(|(it, cell)| *it = left[cell]);
        lanes
    }

    /// Leaves only these digits to the cell at that place.
    fn narrow(&mut self, place: usize, digits: DigitSet) {
        self.start[place] = self.start[place] & digits;
    }

    /// Adds what is asked about houses, once everything about single cells is said. What has one way only
    /// leaves nothing to choose: it narrows its cells once and for all.
    ///
    /// Conditions on the same house are made one, where that does not take too many ways: what two conditions
    /// on a line say together (this sum, but another number of cells) is then seen at once, without trying
    /// the ways of one in turn.
    fn demand(&mut self, page: &Page, demands: &[(House, Asked)]) {
        let mut listed = Vec::with_capacity(demands.len());
        for (house, asked) in demands {
            let name = page.size().house_index(*house);
            let place = (self.names & ((1 << name) - 1)).count_ones() as usize;
            let Some(ways) = page.ways(*asked) else { unreachable!("{asked:?} is about a house") };
            match &*ways {
                [only] => {
                    let cells = self.houses[place];
                    cells[..self.side]
                        .iter()
                        .zip(only)
                        .for_each(|(it, left)| self.narrow(usize::from(*it), *left));
                }
                _ => listed.push((place, ways)),
            }
        }
        let mut open: Vec<(usize, Vec<Lanes>)> =
            listed.into_iter().map(|(place, ways)| (place, self.open_ways(place, &ways))).collect();
        open.sort_by_key(|(place, ways)| (*place, ways.len()));
        for (house, ways) in open {
            let last = self.conditions.last_mut().filter(|it| it.house == house);
            let joined = last.and_then(|last| Some((both(self.side, &last.ways, &ways)?, last)));
            match joined {
                Some((both, last)) => last.ways = both,
                None => self.conditions.push(Condition { house, ways }),
            }
        }
    }

    /// The ways that the start leaves open cell by cell, each cut down to what the start leaves of it.
    fn open_ways(&self, house: usize, ways: &[Lanes]) -> Vec<Lanes> {
        let start = self.lanes(house, &self.start);
        let cut = ways.iter().map(|it| and(it, &start));
        let mut open = Vec::with_capacity(ways.len());
        open.extend(cut.filter(|it| !has_empty(it)));
        open
    }
}

/// The ways in which two conditions on a house hold at once; none if there are too many.
fn both(side: usize, a: &[Lanes], b: &[Lanes]) -> Option<Vec<Lanes>> {
    let most = MOST_JOINED.max(a.len()).max(b.len());
    let mut both: Vec<Lanes> = Vec::new();
    for a in a {
        let meets = b.iter().map(|b| and(a, b)).filter(|it| !has_empty(it));
        both.extend(meets.filter_map(|mut it| arrange(&mut it[..side]).then_some(it)));
        if both.len() > most {
            // Ways that overlap often leave the same thing when they are cut down.
            both.sort();
            both.dedup();
        }
        if both.len() > most {
            return None;
        }
    }
    both.sort();
    both.dedup();
    Some(both)
}

/// The houses of a set, by their places in the list of all.
fn each(mut houses: Houses) -> impl Iterator<Item = usize> {
    std::iter::from_fn(move || {
        let first = houses.trailing_zeros() as usize;
        (houses != 0).then(|| {
            houses &= houses - 1;
            first
        })
    })
}

/// Whether the claim has a meaning on this board: it is about cells, houses and digits of the board,
/// about cells of its own house, and about digits that can be filling where it says what the filling
/// is.
fn is_of_board(page: &Page, claim: &Claim) -> bool {
    let size = page.size();
    let on_board = |cell: Cell| size.cell(cell.row(), cell.column()).is_some();
    let in_house = |house, cells: CellSet| {
        is_house_of(size, house) && cells.is_subset(&page.members(size.house_index(house)))
    };
    match *claim {
        Claim::Is(cell, digit) | Claim::IsNot(cell, digit) => on_board(cell) && size.digits().contains(digit),
        Claim::Crust(cell) | Claim::Filling(cell) => on_board(cell),
        Claim::CrustAmong { house, cells } => in_house(house, cells),
        Claim::DigitAmong { house, digit, cells } => in_house(house, cells) && size.digits().contains(digit),
        Claim::FillingCells { line, .. } => is_house_of(size, line),
        Claim::Spent { line, filling } => is_house_of(size, line) && filling.is_subset(filling_digits(size)),
    }
}

/// Whether the house is one of this board.
fn is_house_of(size: Size, house: House) -> bool {
    size.house(house.kind(), house.number()) == Some(house)
}
