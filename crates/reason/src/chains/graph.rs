//! What each thing in a position implies at once.

use std::collections::BTreeMap;

use grid::{Cell, CellSet, Digit, DigitSet, House, HouseKind};
use rulebook::{Claim, crusts};
use trail::Stated;

use crate::View;
use crate::sandwich::Misfits;

/// A thing or its opposite: a thing's number times two, and one more if it is so.
pub(super) type Literal = usize;

/// The opposite.
pub(super) fn opposite(it: Literal) -> Literal {
    it ^ 1
}

/// That the thing is so.
fn so(thing: usize) -> Literal {
    2 * thing + 1
}

/// That the thing is not so.
fn not_so(thing: usize) -> Literal {
    2 * thing
}

/// That one of the cells holds one of the digits.
#[derive(Clone, Copy)]
pub(super) struct Thing {
    pub(super) cells: CellSet,
    pub(super) digits: DigitSet,
}

/// The things of a position and what they imply.
///
/// Invariant: where one literal implies another, the opposite of the other implies the opposite of the one.
pub(super) struct Graph<'v, 'a> {
    pub(super) view: &'v View<'a>,
    /// Single digits of cells first, then crusts, then digits in several cells.
    things: Vec<Thing>,
    /// How many of them say something about one cell.
    n_of_one_cell: usize,
    /// What houses and cells imply.
    pub(super) plain: Links,
    /// The clued lines that imply something.
    pub(super) lines: Vec<Misfits<'v, 'v>>,
    /// What plain links and lines imply.
    pub(super) all: Links,
    /// By literal: whether it implies anything at all.
    leads_on: Vec<bool>,
}

impl<'v, 'a> Graph<'v, 'a> {
    /// With what houses and cells imply.
    pub(super) fn plain(view: &'v View<'a>) -> Self {
        Builder::new(view).finish(Vec::new())
    }

    /// With what the clues imply, too.
    pub(super) fn with_clues(view: &'v View<'a>) -> Self {
        let lines = view.clued_lines().iter().map(|it| Misfits::of_sum(view, it));
        Builder::new(view).finish(lines.filter(|it| it.implied().is_some()).collect())
    }

    /// Whether chains may go through clues.
    pub(super) fn has_lines(&self) -> bool {
        !self.lines.is_empty()
    }

    pub(super) fn thing(&self, it: Literal) -> Thing {
        self.things[it / 2]
    }

    /// The literals that a chain may start from: they are about one cell.
    pub(super) fn starts(&self) -> impl Iterator<Item = Literal> + use<> {
        0..2 * self.n_of_one_cell
    }

    pub(super) fn leads_on(&self, it: Literal) -> bool {
        self.leads_on[it]
    }

    pub(super) fn n_literals(&self) -> usize {
        2 * self.things.len()
    }

    pub(super) fn stated(&self, it: Literal) -> Stated {
        let Thing { cells, digits } = self.thing(it);
        Stated { cells, digits, holds: it & 1 == 1 }
    }

    /// The literal as a claim; none if it is about several cells.
    pub(super) fn claim(&self, it: Literal) -> Option<Claim> {
        let Thing { cells, digits } = self.thing(it);
        let cell = cells.first().filter(|_| cells.len() == 1)?;
        Some(match (digits.single(), it & 1 == 1) {
            (Some(digit), true) => Claim::Is(cell, digit),
            (Some(digit), false) => Claim::IsNot(cell, digit),
            (None, true) => Claim::Crust(cell),
            (None, false) => Claim::Filling(cell),
        })
    }
}

/// Which literals imply which.
pub(super) struct Links {
    /// How many words a literal's bits take.
    n_words: usize,
    bits: Vec<u64>,
}

impl Links {
    fn none(n_literals: usize) -> Links {
        let n_words = n_literals.div_ceil(64);
        Links { n_words, bits: vec![0; n_words * n_literals] }
    }

    fn add(&mut self, from: Literal, to: Literal) {
        self.set(from, to);
        self.set(opposite(to), opposite(from));
    }

    fn set(&mut self, from: Literal, to: Literal) {
        self.bits[from * self.n_words + to / 64] |= 1 << (to % 64);
    }

    /// What the literal implies, as a bit mask.
    pub(super) fn of(&self, from: Literal) -> &[u64] {
        &self.bits[from * self.n_words..][..self.n_words]
    }

    pub(super) fn has(&self, from: Literal, to: Literal) -> bool {
        self.of(from)[to / 64] >> (to % 64) & 1 == 1
    }
}

/// A graph in the making.
struct Builder<'v, 'a> {
    view: &'v View<'a>,
    things: Vec<Thing>,
    n_of_one_cell: usize,
    /// By [`Cell::slot`] and digit from 0: the thing that the cell holds the digit.
    digits: Vec<[Option<u16>; 16]>,
    /// By [`Cell::slot`]: the thing that the cell holds a crust.
    crusts: Vec<Option<u16>>,
    /// The things that a digit is in these cells.
    groups: BTreeMap<(Digit, Vec<Cell>), usize>,
    /// Things of which one is so.
    joints: Vec<(usize, usize)>,
}

impl<'v, 'a> Builder<'v, 'a> {
    fn new(view: &'v View<'a>) -> Self {
        let n_slots = view.size().cells().map(Cell::slot).max().map_or(0, |it| it + 1);
        let mut it = Builder {
            view,
            things: Vec::new(),
            n_of_one_cell: 0,
            digits: vec![[None; 16]; n_slots],
            crusts: vec![None; n_slots],
            groups: BTreeMap::new(),
            joints: Vec::new(),
        };
        for cell in view.open_cells() {
            for digit in view.candidates(cell).iter() {
                it.digits[cell.slot()][usize::from(digit.get()) - 1] = Some(it.things.len() as u16);
                it.add_thing(cell, DigitSet::only(digit));
            }
        }
        let (one, last) = crusts(view.size());
        let both = DigitSet::only(one).with(last);
        for cell in view.open_cells().filter(|_| !view.clued_lines().is_empty()) {
            let left = view.candidates(cell);
            if both.is_subset(left) && left != both {
                it.crusts[cell.slot()] = Some(it.things.len() as u16);
                it.add_thing(cell, both);
            }
        }
        it.n_of_one_cell = it.things.len();
        it.join_places();
        it
    }

    fn add_thing(&mut self, cell: Cell, digits: DigitSet) {
        self.things.push(Thing { cells: [cell].into_iter().collect(), digits });
    }

    fn holds(&self, cell: Cell, digit: Digit) -> Option<usize> {
        self.digits[cell.slot()][usize::from(digit.get()) - 1].map(usize::from)
    }

    /// The thing that the digit is in one of these cells, of one box and line if they are several.
    fn is_in(&mut self, cells: CellSet, digit: Digit) -> Option<usize> {
        match cells.first() {
            Some(cell) if cells.len() == 1 => self.holds(cell, digit),
            _ => Some(*self.groups.entry((digit, cells.iter().collect())).or_insert_with(|| {
                self.things.push(Thing { cells, digits: DigitSet::only(digit) });
                self.things.len() - 1
            })),
        }
    }

    /// Finds the houses in which a digit has two places, a place being a cell or a few of a box and line.
    fn join_places(&mut self) {
        let view = self.view;
        let (boxes, lines): (Vec<House>, Vec<House>) =
            view.houses().iter().partition(|it| it.kind() == HouseKind::Box);
        for digit in view.size().digits().iter() {
            for &house in view.houses() {
                let places = view.places(house, digit);
                if places.len() == 1 {
                    continue;
                }
                if let [a, b] = places.iter().collect::<Vec<_>>()[..] {
                    let joint = [a, b].map(|it| [it].into_iter().collect());
                    self.join(joint, digit);
                    continue;
                }
                for across in
                    if house.is_line() { [&boxes[..], &[]] } else { lines.split_at(lines.len() / 2).into() }
                {
                    let parts =
                        across.iter().map(|it| places & view.members(*it)).filter(|it| !it.is_empty());
                    if let [a, b] = parts.collect::<Vec<_>>()[..] {
                        self.join([a, b], digit);
                    }
                }
            }
        }
    }

    fn join(&mut self, [a, b]: [CellSet; 2], digit: Digit) {
        if let (Some(a), Some(b)) = (self.is_in(a, digit), self.is_in(b, digit)) {
            self.joints.push((a, b));
        }
    }

    fn finish(self, lines: Vec<Misfits<'v, 'v>>) -> Graph<'v, 'a> {
        let mut plain = Links::none(2 * self.things.len());
        self.link_cells(&mut plain);
        self.link_places(&mut plain);
        for (a, b) in &self.joints {
            plain.add(not_so(*a), so(*b));
        }
        let mut all = Links { n_words: plain.n_words, bits: plain.bits.clone() };
        for line in &lines {
            self.link_line(line, &mut all);
        }
        let Builder { view, things, n_of_one_cell, .. } = self;
        let leads_on = (0..2 * things.len()).map(|it| all.of(it).iter().any(|it| *it != 0)).collect();
        Graph { view, things, n_of_one_cell, plain, lines, all, leads_on }
    }

    /// A cell holds one digit.
    fn link_cells(&self, links: &mut Links) {
        for cell in self.view.open_cells() {
            let left = self.view.candidates(cell);
            let mut of_cell: Vec<usize> = left.iter().filter_map(|it| self.holds(cell, it)).collect();
            of_cell.extend(self.crusts[cell.slot()].map(usize::from));
            for (at, &a) in of_cell.iter().enumerate() {
                for &b in &of_cell[at + 1..] {
                    let [of_a, of_b] = [a, b].map(|it| self.things[it].digits);
                    if (of_a & of_b).is_empty() {
                        links.add(so(a), not_so(b));
                        if of_a | of_b == left {
                            links.add(not_so(a), so(b));
                        }
                    }
                }
            }
        }
    }

    /// A digit is once in what cells see each other.
    fn link_places(&self, links: &mut Links) {
        for (a, thing) in self.things.iter().enumerate() {
            let Some(digit) = thing.digits.single() else { continue };
            let seen = thing.cells.iter().map(|it| self.view.peers(it)).reduce(|a, b| a & b);
            let seen = self.view.places_among(seen.unwrap_or(CellSet::EMPTY), digit);
            for b in seen.iter().filter_map(|it| self.holds(it, digit)) {
                links.add(so(a), not_so(b));
            }
            if thing.cells.len() > 1 {
                for ((of, _), b) in &self.groups {
                    if *of == digit && self.things[*b].cells.is_subset(&seen) {
                        links.add(so(a), not_so(*b));
                    }
                }
            }
        }
    }

    /// The clue of a line has ways to be met that have something in common.
    fn link_line(&self, line: &Misfits, links: &mut Links) {
        let Some(implied) = line.implied() else { return };
        let things = self.things_of(line.cells());
        for &(at, a) in &things {
            let digits = self.things[a].digits;
            let others = self.view.candidates(line.cells()[at]) - digits;
            for (from, held) in [(so(a), digits), (not_so(a), others)] {
                // What the line has no way for is not followed: something easier shows it.
                let Some(left) = implied.if_among(at, held) else { continue };
                for &(other, b) in things.iter().filter(|it| it.0 != at) {
                    let of_b = self.things[b].digits;
                    if left[other].is_subset(of_b) {
                        links.set(from, so(b));
                    } else if (left[other] & of_b).is_empty() {
                        links.set(from, not_so(b));
                    }
                }
            }
        }
    }

    /// What there is to say of single cells of a line, by their places in it.
    fn things_of(&self, cells: &[Cell]) -> Vec<(usize, usize)> {
        let mut things = Vec::new();
        for (at, cell) in cells.iter().enumerate().filter(|it| self.view.digit(*it.1).is_none()) {
            let digits = self.view.candidates(*cell);
            things.extend(digits.iter().filter_map(|it| Some((at, self.holds(*cell, it)?))));
            things.extend(self.crusts[cell.slot()].map(|it| (at, usize::from(it))));
        }
        things
    }
}
