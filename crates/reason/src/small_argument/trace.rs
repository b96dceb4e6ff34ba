//! Works an argument out as cases that a person can follow.
//!
//! Inside a case, digits are forced by the premises alone: a cell with one digit left, a digit with
//! one place left in a house held in view, a clue or a known fact with no other way, and, where none of
//! these helps, what all digits of a house leave to each other. Where nothing is forced, one cell is
//! split into cases of its own: the one that leaves the fewest of them open. Consequences that the
//! end of a case does not rest on are left out.

use std::collections::{BTreeMap, BTreeSet};

use grid::{Cell, CellSet, Digit, DigitSet, House};
use rulebook::{Way, Ways};
use trail::{Because, Branch, Cites, End, Link};

use super::premise::{self, Goal, Premise};
use crate::View;
use crate::layouts::fitting;

/// The argument as one branch: the goal's denial, and why it cannot be, from what is cited and
/// nothing else. None if it takes more than `cases` cases.
pub(super) fn trace(view: &View, goal: Goal, cites: &Cites, cases: usize) -> Option<Branch> {
    let scene = Scene::new(view, goal, cites);
    let mut position = Position::new(view, cites);
    let mut tracer = Tracer { scene: &scene, n_links: 0, cases_left: cases };
    position.suppose(goal.cell, goal.denied);
    let (branch, _) = tracer.refute(position, goal.cell, goal.denied)?;
    Some(branch)
}

/// How many cases it takes to see from the premises and all that is known of their cells that the goal's
/// opposite cannot be; none if more than `cases`.
pub(super) fn n_cases(view: &View, goal: Goal, premises: &[Premise], cases: usize) -> Option<usize> {
    let scene = Scene::of(view, premises, premise::touched(view, premises, goal));
    let mut position = Position::nothing_known(view);
    scene.cells.iter().for_each(|it| position.suppose(it, view.candidates(it)));
    let mut tracer = Tracer { scene: &scene, n_links: 0, cases_left: cases };
    position.suppose(goal.cell, goal.denied);
    tracer.refute(position, goal.cell, goal.denied)?;
    Some(cases - tracer.cases_left)
}

/// The premises, ready to compute with.
struct Scene {
    cells: CellSet,
    houses: Vec<(House, Vec<Cell>)>,
    ways: Vec<(Premise, Ways)>,
    /// By [`Cell::slot`]: the other cells that share a house held in view.
    peers: Vec<CellSet>,
    digits: DigitSet,
}

impl Scene {
    fn new(view: &View, goal: Goal, cites: &Cites) -> Scene {
        let premises = premise::cited(view, cites);
        Scene::of(view, &premises, premise::touched(view, &premises, goal))
    }

    fn of(view: &View, premises: &[Premise], cells: CellSet) -> Scene {
        let size = view.size();
        let houses: BTreeSet<House> = premises.iter().map(|it| it.house()).collect();
        let houses: Vec<_> = houses.into_iter().map(|it| (it, size.cells_of(it))).collect();
        let mut peers = vec![CellSet::EMPTY; Cell::SLOTS];
        for (_, cells) in &houses {
            for cell in cells {
                peers[cell.slot()].extend(cells.iter().copied().filter(|it| it != cell));
            }
        }
        Scene {
            cells,
            houses,
            ways: premises.iter().filter_map(|it| Some((*it, it.ways(view)?))).collect(),
            peers,
            digits: size.digits(),
        }
    }
}

/// Which consequence took a digit from a cell: none of them if it was so from the start.
type Cause = Option<usize>;

/// The cells' digits inside a case, and for each digit lost the consequence that took it.
#[derive(Clone)]
struct Position {
    left: Vec<DigitSet>,
    /// By [`Cell::slot`] and digit.
    taken_by: Vec<[Cause; 16]>,
    /// Cells whose single digit has been taken from their peers.
    placed: CellSet,
    /// Cells whose single digit has been said: it is cited, supposed, or a consequence.
    said: BTreeMap<Cell, Cause>,
}

/// A cell of the way that cannot hold any of the way's digits, with those digits.
fn blocked(position: &Position, ways: &Ways, way: &Way) -> Option<(Cell, DigitSet)> {
    let mut cells = ways.cells().iter().copied().zip(way.iter().copied());
    cells.find(|(cell, digits)| (position.left(*cell) & *digits).is_empty())
}

/// A contradiction: how it shows, and the consequences it rests on.
struct Clash {
    end: End,
    rests_on: BTreeSet<usize>,
}

impl Position {
    /// What the cited facts leave to each cell.
    fn new(view: &View, cites: &Cites) -> Position {
        let size = view.size();
        let mut position = Position::nothing_known(view);
        for claim in cites.facts.iter().map(|it| view.trail().fact(*it).claim()) {
            if let Some((cell, digits)) = claim.leaves(size) {
                position.suppose(cell, digits);
            }
        }
        position
    }

    fn nothing_known(view: &View) -> Position {
        Position {
            left: vec![view.size().digits(); Cell::SLOTS],
            taken_by: vec![[None; 16]; Cell::SLOTS],
            placed: CellSet::EMPTY,
            said: BTreeMap::new(),
        }
    }

    fn left(&self, cell: Cell) -> DigitSet {
        self.left[cell.slot()]
    }

    /// Keeps only `digits` in the cell: a fact or a supposition, which has no cause.
    fn suppose(&mut self, cell: Cell, digits: DigitSet) {
        self.left[cell.slot()] = self.left(cell) & digits;
        if digits.len() == 1 {
            self.said.insert(cell, None);
        }
    }

    fn take(&mut self, cell: Cell, digits: DigitSet, cause: Cause) {
        let lost = self.left(cell) & digits;
        self.left[cell.slot()] = self.left(cell) - digits;
        for digit in lost.iter() {
            self.taken_by[cell.slot()][usize::from(digit.get()) - 1] = cause;
        }
    }

    /// A consequence that leaves the cell only `digits`.
    fn narrow(&mut self, cell: Cell, all: DigitSet, digits: DigitSet, consequence: usize) {
        self.take(cell, all - digits, Some(consequence));
        if digits.len() == 1 {
            self.said.insert(cell, Some(consequence));
        }
    }

    /// The consequences behind every loss of those digits in the cells.
    fn all_causes(&self, cells: &[Cell], digits: DigitSet) -> BTreeSet<usize> {
        cells.iter().flat_map(|it| self.causes(*it, digits)).collect()
    }

    /// The consequences behind the loss of those digits.
    fn causes(&self, cell: Cell, digits: DigitSet) -> impl Iterator<Item = usize> {
        let taken_by = &self.taken_by[cell.slot()];
        (digits - self.left(cell)).iter().filter_map(move |it| taken_by[usize::from(it.get()) - 1])
    }
}

/// A consequence with what it rests on.
struct Forced {
    number: usize,
    link: Link,
    rests_on: BTreeSet<usize>,
}

/// Cells with more digits than this are split only if no other cell is open.
const MOST_DIGITS: usize = 4;

struct Tracer<'s> {
    scene: &'s Scene,
    n_links: usize,
    cases_left: usize,
}

impl Tracer<'_> {
    /// Refutes a case whose supposition is in the position already. Gives the branch and the
    /// consequences of outer cases that it rests on.
    fn refute(
        &mut self,
        mut position: Position,
        cell: Cell,
        digits: DigitSet,
    ) -> Option<(Branch, BTreeSet<usize>)> {
        self.cases_left = self.cases_left.checked_sub(1)?;
        let mut chain: Vec<Forced> = Vec::new();
        let clash = loop {
            match self.next(&mut position) {
                Ok(Some(forced)) => chain.push(forced),
                Ok(None) => break self.split(&position)?,
                Err(clash) => break clash,
            }
        };
        // Backwards from the end: keep what it rests on, and what that rests on.
        let mut needed = clash.rests_on;
        let mut kept: Vec<Link> = Vec::new();
        for forced in chain.into_iter().rev() {
            if needed.remove(&forced.number) {
                needed.extend(forced.rests_on);
                kept.push(forced.link);
            }
        }
        kept.reverse();
        Some((Branch { cell, digits, chain: kept, end: clash.end }, needed))
    }

    /// The next consequence, a contradiction, or nothing.
    fn next(&mut self, position: &mut Position) -> Result<Option<Forced>, Clash> {
        self.one_digit(position)?;
        if let Some(forced) = self.settle(position) {
            return Ok(Some(forced));
        }
        self.one_digit(position)?;
        if let Some(forced) = self.one_place(position)? {
            return Ok(Some(forced));
        }
        if let Some(forced) = self.no_other_way(position)? {
            return Ok(Some(forced));
        }
        if let Some(forced) = self.no_other_fit(position)? {
            return Ok(Some(forced));
        }
        self.no_other_fitting_way(position)
    }

    /// Fails if some cell has no digit left.
    fn one_digit(&self, position: &Position) -> Result<(), Clash> {
        match self.scene.cells.iter().find(|it| position.left(*it).is_empty()) {
            None => Ok(()),
            Some(cell) => Err(Clash {
                end: End::NoDigit(cell),
                rests_on: position.causes(cell, self.scene.digits).collect(),
            }),
        }
    }

    /// Cells with one digit left take it from their peers; gives the first that had not been said.
    fn settle(&mut self, position: &mut Position) -> Option<Forced> {
        loop {
            let single = |cell: &Cell| !position.placed.contains(*cell) && position.left(*cell).len() == 1;
            // What has been said is seen at once, so it acts before anything more is said.
            let said = self.scene.cells.iter().find(|it| single(it) && position.said.contains_key(it));
            let cell = said.or_else(|| self.scene.cells.iter().find(single))?;
            let digits = position.left(cell);
            let forced = match position.said.get(&cell) {
                Some(_) => None,
                None => {
                    let rests_on = position.causes(cell, self.scene.digits - digits).collect();
                    let link = Link { cell, leaves: digits, because: Because::OneDigit };
                    let forced = self.forced(link, rests_on);
                    position.said.insert(cell, Some(forced.number));
                    Some(forced)
                }
            };
            let cause = position.said.get(&cell).copied().flatten();
            position.placed.insert(cell);
            for peer in self.scene.peers[cell.slot()].iter() {
                position.take(peer, digits, cause);
            }
            if forced.is_some() || position.left.iter().any(|it| it.is_empty()) {
                return forced;
            }
        }
    }

    /// A digit with one place left in a house is there; with none, the case ends.
    fn one_place(&mut self, position: &mut Position) -> Result<Option<Forced>, Clash> {
        for (house, cells) in &self.scene.houses {
            for digit in self.scene.digits.iter() {
                let mut places = cells.iter().copied().filter(|it| position.left(*it).contains(digit));
                let (first, second) = (places.next(), places.next());
                let only = DigitSet::only(digit);
                let causes_but = |but: Option<Cell>| -> BTreeSet<usize> {
                    let others = cells.iter().filter(|it| Some(**it) != but);
                    others.flat_map(|it| position.causes(*it, only)).collect()
                };
                match (first, second) {
                    (None, _) => {
                        let end = End::NoPlace(*house, digit);
                        return Err(Clash { end, rests_on: causes_but(None) });
                    }
                    (Some(cell), None) if position.left(cell) != only => {
                        let rests_on = causes_but(Some(cell));
                        let link = Link { cell, leaves: only, because: Because::OnePlace(*house) };
                        let forced = self.forced(link, rests_on);
                        position.narrow(cell, self.scene.digits, only, forced.number);
                        return Ok(Some(forced));
                    }
                    _ => {}
                }
            }
        }
        Ok(None)
    }

    /// A clue or fact narrows a cell to what its remaining ways allow; with no way, the case ends.
    fn no_other_way(&mut self, position: &mut Position) -> Result<Option<Forced>, Clash> {
        let scene = self.scene;
        for (premise, ways) in &scene.ways {
            let mut union = vec![DigitSet::EMPTY; ways.cells().len()];
            let mut rests_on = BTreeSet::new();
            for way in ways.iter() {
                match blocked(position, ways, way) {
                    Some((cell, digits)) => rests_on.extend(position.causes(cell, digits)),
                    None => union.iter_mut().zip(way).for_each(|(all, it)| *all = *all | *it),
                }
            }
            if let Some(found) = self.narrowed(position, *premise, ways.cells(), &union, rests_on)? {
                return Ok(Some(found));
            }
        }
        Ok(None)
    }

    /// All digits of a house together narrow a cell; where they do not fit, the case ends.
    fn no_other_fit(&mut self, position: &mut Position) -> Result<Option<Forced>, Clash> {
        let scene = self.scene;
        for (house, cells) in &scene.houses {
            let allowed: Vec<DigitSet> = cells.iter().map(|it| position.left(*it)).collect();
            let fits = fitting(&allowed).unwrap_or_else(|| vec![DigitSet::EMPTY; cells.len()]);
            let rests_on = position.all_causes(cells, self.scene.digits);
            if let Some(found) = self.narrowed(position, Premise::House(*house), cells, &fits, rests_on)? {
                return Ok(Some(found));
            }
        }
        Ok(None)
    }

    /// A clue or fact narrows a cell to what its remaining ways allow together with the rest of the
    /// line; with no way, the case ends.
    fn no_other_fitting_way(&mut self, position: &mut Position) -> Result<Option<Forced>, Clash> {
        let scene = self.scene;
        let whole_house = |it: &&(Premise, Ways)| it.1.cells().len() == scene.digits.len();
        for (premise, ways) in scene.ways.iter().filter(whole_house) {
            let mut union = vec![DigitSet::EMPTY; ways.cells().len()];
            for way in ways.iter().filter(|it| blocked(position, ways, it).is_none()) {
                let allowed: Vec<DigitSet> =
                    ways.cells().iter().zip(way).map(|(cell, it)| position.left(*cell) & *it).collect();
                let fits = fitting(&allowed).unwrap_or_default();
                union.iter_mut().zip(fits).for_each(|(all, it)| *all = *all | it);
            }
            let rests_on = position.all_causes(ways.cells(), self.scene.digits);
            if let Some(found) = self.narrowed(position, *premise, ways.cells(), &union, rests_on)? {
                return Ok(Some(found));
            }
        }
        Ok(None)
    }

    /// The first cell that keeps fewer digits than it had, as a consequence; a contradiction if the
    /// premise leaves no digit at all.
    fn narrowed(
        &mut self,
        position: &mut Position,
        premise: Premise,
        cells: &[Cell],
        kept: &[DigitSet],
        mut rests_on: BTreeSet<usize>,
    ) -> Result<Option<Forced>, Clash> {
        if kept.iter().all(|it| it.is_empty()) {
            let end = match premise {
                Premise::Clue(clue, _) => End::NoWay(clue),
                Premise::Fact(_, claim, _) => End::Breaks(claim),
                Premise::House(house) => End::NoFit(house),
            };
            return Err(Clash { end, rests_on });
        }
        let smaller = |(cell, kept): &(&Cell, &DigitSet)| !position.left(**cell).is_subset(**kept);
        let Some((&cell, &kept)) = cells.iter().zip(kept).find(smaller) else { return Ok(None) };
        let because = match premise {
            Premise::Clue(clue, _) => Because::Clue(clue),
            Premise::Fact(_, claim, _) => Because::Known(claim),
            Premise::House(house) => Because::Fit(house),
        };
        let leaves = position.left(cell) & kept;
        // What is left is said as a whole, so it rests on what took digits before, too.
        rests_on.extend(position.causes(cell, kept));
        let forced = self.forced(Link { cell, leaves, because }, rests_on);
        position.narrow(cell, self.scene.digits, leaves, forced.number);
        Ok(Some(forced))
    }

    /// The cell to split: the one whose digits, tried one by one, leave the fewest cases open; of
    /// equals the one with the fewest digits, then the first.
    fn best_split(&mut self, position: &Position) -> Option<Cell> {
        let open = |it: &Cell| (2..=MOST_DIGITS).contains(&position.left(*it).len());
        let few: Vec<Cell> = self.scene.cells.iter().filter(open).collect();
        let fewest = self.scene.cells.iter().filter(|it| position.left(*it).len() > 1);
        let fewest = fewest.min_by_key(|it| position.left(*it).len());
        let n_links = self.n_links;
        let best = few.into_iter().min_by_key(|cell| {
            let digits = position.left(*cell);
            let still_open = digits.iter().filter(|it| !self.fails_at_once(position, *cell, *it)).count();
            (still_open, digits.len())
        });
        self.n_links = n_links;
        best.or(fewest)
    }

    /// Whether supposing the digit leads to a contradiction without further cases.
    fn fails_at_once(&mut self, position: &Position, cell: Cell, digit: Digit) -> bool {
        let mut case = position.clone();
        case.suppose(cell, DigitSet::only(digit));
        loop {
            match self.next(&mut case) {
                Ok(Some(_)) => {}
                Ok(None) => return false,
                Err(_) => return true,
            }
        }
    }

    /// Each digit of one cell in a case of its own. None if cases run out.
    fn split(&mut self, position: &Position) -> Option<Clash> {
        // An open cell has two digits at least, each a case.
        if self.cases_left < 2 {
            return None;
        }
        let cell = self.best_split(position)?;
        let mut rests_on: BTreeSet<usize> = position.causes(cell, self.scene.digits).collect();
        let mut branches = Vec::new();
        for digit in position.left(cell).iter() {
            let digits = DigitSet::only(digit);
            let mut case = position.clone();
            case.suppose(cell, digits);
            let (branch, outer) = self.refute(case, cell, digits)?;
            rests_on.extend(outer);
            branches.push(branch);
        }
        Some(Clash { end: End::Split(branches), rests_on })
    }

    fn forced(&mut self, link: Link, rests_on: BTreeSet<usize>) -> Forced {
        self.n_links += 1;
        Forced { number: self.n_links, link, rests_on }
    }
}
