//! Works an argument out as cases that a person can follow.
//!
//! Inside a case, digits are forced by the premises alone: a cell with one digit left, a digit with
//! one place left in a house held in view, a clue or a known fact with no other way. Where nothing is
//! forced, the cell with the fewest digits is split into cases of its own. Consequences that the end
//! of a case does not rest on are left out.

use std::collections::{BTreeMap, BTreeSet};

use grid::{Cell, CellSet, DigitSet, House};
use rulebook::Ways;
use trail::{Because, Branch, End, Link};

use super::cores::Core;
use super::ground::Grounds;
use super::premise::{self, Premise};
use crate::View;

/// The argument as one branch: the goal's denial, and why it cannot be. None if it takes more than
/// `cases` cases.
pub(super) fn trace(view: &View, core: &Core, grounds: &Grounds, cases: usize) -> Option<Branch> {
    let scene = Scene::new(view, core);
    let mut position = Position::new(view, &scene, grounds);
    let mut tracer = Tracer { scene: &scene, n_links: 0, cases_left: cases };
    position.suppose(core.goal.cell, core.goal.denied);
    let (branch, _) = tracer.refute(position, core.goal.cell, core.goal.denied)?;
    Some(branch)
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
    fn new(view: &View, core: &Core) -> Scene {
        let size = view.size();
        let houses: BTreeSet<House> = core.premises.iter().map(|it| it.house()).collect();
        let houses: Vec<_> = houses.into_iter().map(|it| (it, size.cells_of(it))).collect();
        let mut peers = vec![CellSet::EMPTY; Cell::SLOTS];
        for (_, cells) in &houses {
            for cell in cells {
                peers[cell.slot()].extend(cells.iter().copied().filter(|it| it != cell));
            }
        }
        Scene {
            cells: premise::touched(view, &core.premises, core.goal),
            houses,
            ways: core.premises.iter().filter_map(|it| Some((*it, it.ways(view)?))).collect(),
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
    /// Cells whose single digit has been said: it is on the board, supposed, or a consequence.
    said: BTreeMap<Cell, Cause>,
}

/// A contradiction: how it shows, and the consequences it rests on.
struct Clash {
    end: End,
    rests_on: BTreeSet<usize>,
}

impl Position {
    fn new(view: &View, scene: &Scene, grounds: &Grounds) -> Position {
        let mut left = vec![view.size().digits(); Cell::SLOTS];
        for ground in &grounds.0 {
            left[ground.cell.slot()] = left[ground.cell.slot()] - ground.lost;
        }
        debug_assert!(grounds.0.iter().all(|it| scene.cells.contains(it.cell)));
        let on_board = scene.cells.iter().filter(|it| view.digit(*it).is_some());
        Position {
            left,
            taken_by: vec![[None; 16]; Cell::SLOTS],
            placed: CellSet::EMPTY,
            said: on_board.map(|it| (it, None)).collect(),
        }
    }

    fn left(&self, cell: Cell) -> DigitSet {
        self.left[cell.slot()]
    }

    /// Keeps only `digits` in the cell: a supposition, which has no cause.
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
        self.no_other_way(position)
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
            let cell = self.scene.cells.iter().find(single)?;
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
        for (premise, ways) in &self.scene.ways {
            let mut union = vec![DigitSet::EMPTY; ways.cells().len()];
            let mut rests_on = BTreeSet::new();
            for way in ways.iter() {
                let blocked =
                    ways.cells().iter().zip(way).find(|(cell, it)| (position.left(**cell) & **it).is_empty());
                match blocked {
                    Some((cell, digits)) => rests_on.extend(position.causes(*cell, *digits)),
                    None => union.iter_mut().zip(way).for_each(|(all, it)| *all = *all | *it),
                }
            }
            if union.iter().all(|it| it.is_empty()) {
                let end = match *premise {
                    Premise::Clue(clue, _) => End::NoWay(clue),
                    Premise::Fact(_, claim, _) => End::Breaks(claim),
                    Premise::House(_) => continue,
                };
                return Err(Clash { end, rests_on });
            }
            let narrowed =
                ways.cells().iter().zip(&union).find(|(cell, it)| !position.left(**cell).is_subset(**it));
            if let Some((&cell, &digits)) = narrowed {
                let leaves = position.left(cell) & digits;
                let because = match *premise {
                    Premise::Clue(clue, _) => Because::Clue(clue),
                    Premise::Fact(_, claim, _) => Because::Known(claim),
                    Premise::House(house) => Because::OnePlace(house),
                };
                let forced = self.forced(Link { cell, leaves, because }, rests_on);
                position.narrow(cell, self.scene.digits, leaves, forced.number);
                return Ok(Some(forced));
            }
        }
        Ok(None)
    }

    /// Each digit of the cell with the fewest in a case of its own. None if cases run out.
    fn split(&mut self, position: &Position) -> Option<Clash> {
        let open = self.scene.cells.iter().filter(|it| position.left(*it).len() > 1);
        let cell = open.min_by_key(|it| position.left(*it).len())?;
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
