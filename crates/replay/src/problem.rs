//! The problem behind one conclusion: which fillings would be counterexamples.

use grid::{Cell, CellSet, DigitSet, House, Size};
use rulebook::{Claim, Puzzle, Way, Ways, filling_digits};
use trail::{Cites, Trail};

use crate::Refusal;
use crate::house::{LONGEST, Lanes, and, arrange};

/// Two conditions on one house are joined if that takes no more ways than this, or than one of them
/// has.
const MOST_JOINED: usize = 500;

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
    /// Which houses they are, rising.
    names: Vec<House>,
    /// What else has to hold, by house.
    pub(crate) conditions: Vec<Condition>,
    /// The digits of the board.
    pub(crate) all: DigitSet,
    /// How many cells a house has.
    pub(crate) side: usize,
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
    /// claim does not.
    ///
    /// # Errors
    ///
    /// If the claim or a citation is not of this puzzle.
    pub(crate) fn counter_to(
        puzzle: &Puzzle,
        trail: &Trail,
        claim: &Claim,
        cites: &Cites,
    ) -> Result<Problem, Refusal> {
        let size = puzzle.size();
        let clue = |id| puzzle.clue(id).ok_or(Refusal::UnknownClue(id));
        let clues = cites.clues.iter().map(|id| clue(*id)).collect::<Result<Vec<_>, _>>()?;
        let facts: Vec<Claim> = cites.facts.iter().map(|id| trail.fact(*id).claim()).collect();
        let claims = || facts.iter().chain([claim]);
        if !claims().all(|it| is_of_board(size, it)) || !cites.houses.iter().all(|it| is_house_of(size, *it))
        {
            return Err(Refusal::NotOnPage);
        }

        let own = clues.iter().map(|it| it.line).chain(claims().filter_map(Claim::house));
        let mut houses: Vec<House> = cites.houses.iter().copied().chain(own).collect();
        houses.sort_unstable();
        houses.dedup();
        let mut problem = Problem::of_cells(size, houses, claims().filter_map(Claim::cell));
        for clue in clues {
            problem.demand(clue.line, &puzzle.ways(clue));
        }
        for fact in &facts {
            match (fact.leaves(size), fact.house()) {
                (Some((cell, digits)), _) => problem.narrow(cell, digits),
                (None, Some(house)) => problem.demand(house, &ways_of(size, fact)),
                (None, None) => unreachable!("a claim is about a cell or about a house"),
            }
        }
        match (claim.leaves(size), claim.house()) {
            (Some((cell, digits)), _) => problem.narrow(cell, size.digits() - digits),
            (None, Some(house)) => problem.demand(house, &claim.denials(size)),
            (None, None) => unreachable!("a claim is about a cell or about a house"),
        }
        problem.join();
        Ok(problem)
    }

    /// The houses and some single cells, with nothing said about them yet.
    fn of_cells(size: Size, houses: Vec<House>, singles: impl Iterator<Item = Cell>) -> Problem {
        let of_houses: Vec<Vec<Cell>> = houses.iter().map(|it| size.cells_of(*it)).collect();
        let touched: CellSet = singles.chain(of_houses.iter().flatten().copied()).collect();
        let cells: Vec<Cell> = touched.iter().collect();
        let mut place = [0; Cell::SLOTS];
        // A board has at most 256 cells, so a place fits.
        cells.iter().enumerate().for_each(|(at, cell)| place[cell.slot()] = at as u8);
        let places = |cells: &Vec<Cell>| {
            let mut places = [0; LONGEST];
            places.iter_mut().zip(cells).for_each(|(it, cell)| *it = place[cell.slot()]);
            places
        };
        Problem {
            start: vec![size.digits(); cells.len()],
            houses: of_houses.iter().map(places).collect(),
            names: houses,
            conditions: Vec::new(),
            all: size.digits(),
            side: usize::from(size.side()),
            cells,
        }
    }

    /// The places of the house's cells.
    pub(crate) fn cells_of(&self, house: usize) -> impl Iterator<Item = usize> + Clone + use<'_> {
        self.houses[house][..self.side].iter().map(|it| usize::from(*it))
    }

    /// What `left` has for each cell of the house.
    pub(crate) fn lanes(&self, house: usize, left: &[DigitSet]) -> Lanes {
        let mut lanes = [DigitSet::EMPTY; LONGEST];
        lanes.iter_mut().zip(self.cells_of(house)).for_each(|(it, cell)| *it = left[cell]);
        lanes
    }

    /// The place of a cell.
    fn place(&self, cell: &Cell) -> usize {
        self.cells.binary_search(cell).unwrap_or_else(|_| unreachable!("{cell} is touched"))
    }

    /// Leaves only these digits to the cell.
    fn narrow(&mut self, cell: Cell, digits: DigitSet) {
        let at = self.place(&cell);
        self.start[at] = self.start[at] & digits;
    }

    /// Adds the condition that the filling lies in one of `ways`, which speak of cells of `house`.
    fn demand(&mut self, house: House, ways: &Ways) {
        if let (1, Some(only)) = (ways.len(), ways.iter().next()) {
            // A single way leaves nothing to choose: it narrows its cells once and for all.
            ways.cells().iter().zip(only).for_each(|(cell, digits)| self.narrow(*cell, *digits));
            return;
        }
        let house = self.names.binary_search(&house);
        let house =
            house.unwrap_or_else(|_| unreachable!("the house of a condition is one of the problem's"));
        let places: Vec<usize> = ways.cells().iter().map(|it| self.place(it)).collect();
        let mut widest = [DigitSet::EMPTY; LONGEST];
        widest[..self.side].fill(self.all);
        let lane_of = |place: &usize| self.cells_of(house).position(|it| it == *place);
        let lanes: Vec<Option<usize>> = places.iter().map(lane_of).collect();
        let widened = |way: &Way| {
            let mut widened = widest;
            lanes.iter().zip(way).for_each(|(lane, digits)| {
                if let Some(lane) = lane {
                    widened[*lane] = *digits;
                }
            });
            widened
        };
        self.conditions.push(Condition { house, ways: ways.iter().map(widened).collect() });
    }

    /// Makes one condition of those on the same house, where that does not take too many ways.
    ///
    /// What two conditions on a line say together (this sum, but another number of cells) is then seen
    /// at once, without trying the ways of one in turn.
    fn join(&mut self) {
        let mut apart: Vec<Vec<Vec<Lanes>>> = vec![Vec::new(); self.houses.len()];
        for condition in std::mem::take(&mut self.conditions) {
            let possible = self.possible(condition.house, condition.ways);
            apart[condition.house].push(possible);
        }
        for (house, mut apart) in apart.into_iter().enumerate() {
            apart.sort_by_key(Vec::len);
            let mut joined: Vec<Vec<Lanes>> = Vec::new();
            for ways in apart {
                let both = joined.last().and_then(|last| self.both(house, last, &ways));
                match (both, joined.last_mut()) {
                    (Some(both), Some(last)) => *last = both,
                    _ => joined.push(ways),
                }
            }
            self.conditions.extend(joined.into_iter().map(|ways| Condition { house, ways }));
        }
    }

    /// The ways in which two conditions on a house hold at once; none if there are too many.
    fn both(&self, house: usize, a: &[Lanes], b: &[Lanes]) -> Option<Vec<Lanes>> {
        let most = MOST_JOINED.max(a.len()).max(b.len());
        let mut both: Vec<Lanes> = Vec::new();
        for a in a {
            let meets = b.iter().map(|b| and(a, b)).filter(|it| !it[..self.side].contains(&DigitSet::EMPTY));
            both.extend(self.possible(house, meets));
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

    /// The ways that the start and the house leave possible, cut down to what they leave of them.
    fn possible(&self, house: usize, ways: impl IntoIterator<Item = Lanes>) -> Vec<Lanes> {
        let start = self.lanes(house, &self.start);
        let cut = ways.into_iter().map(|it| and(&it, &start));
        cut.filter_map(|mut it| arrange(&mut it[..self.side]).then_some(it)).collect()
    }
}

/// The ways in which a cited fact holds.
fn ways_of(size: Size, fact: &Claim) -> Ways {
    match *fact {
        // A house has each digit once, so the digit is among these cells exactly if it is not among the
        // others; and that has one way only.
        Claim::DigitAmong { house, digit, cells } => {
            let others = size.cells_of(house).into_iter().filter(|it| !cells.contains(*it)).collect();
            Claim::DigitAmong { house, digit, cells: others }.denials(size)
        }
        _ => fact.ways(size),
    }
}

/// Whether the claim has a meaning on this board: it is about cells, houses and digits of the board,
/// about cells of its own house, and about digits that can be filling where it says what the filling
/// is.
fn is_of_board(size: Size, claim: &Claim) -> bool {
    let on_board = |cell: Cell| size.cell(cell.row(), cell.column()).is_some();
    let in_house = |house, cells: CellSet| {
        is_house_of(size, house) && cells.is_subset(&size.cells_of(house).into_iter().collect())
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
