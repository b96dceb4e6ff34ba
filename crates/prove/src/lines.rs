//! Lines with clues: what is left to their cells.

use std::ops::Range;

use rulebook::Puzzle;

use crate::compile::{Board, Houses, Lanes, Mask};
use crate::conditions::{Condition, Conditions, Slices};
use crate::propagate::{Dead, Propagator};

/// The clues of one puzzle, and of those that are listed the ways in their present order.
///
/// Invariant: of a listed clue's ways, those that can still be met in a state stand before those that
/// were found dead on the path to it. Going back in the search therefore only resets a number: deeper
/// states reorder the ways that stand before it, and never change which they are.
pub(crate) struct Clues {
    /// The lines that have clues.
    pub(crate) lines: Houses,
    /// The digits that clues ask for the places of, so that they are worth branching on first.
    pub(crate) ends: Mask,
    /// What each clue demands, by its place among all conditions met so far.
    conditions: Vec<usize>,
    /// For each line with clues, which of them.
    of_line: [Range<usize>; 32],
    listed: Listed,
    known: Conditions,
    pairs: Vec<[Lanes; 2]>,
}

/// The listed clues.
#[derive(Default)]
struct Listed {
    /// For each clue, where its ways stand in `order`; empty if it is not listed.
    ways_of: Vec<Range<usize>>,
    /// Ways by index, in their present order.
    order: Vec<u16>,
    /// For each level of the search and each clue, how many ways are left.
    n_left: Vec<u16>,
    /// Where the present level begins.
    level: usize,
}

impl Clues {
    /// No clues, on boards of a size.
    pub(crate) fn new(board: &Board) -> Clues {
        Clues {
            lines: 0,
            ends: 0,
            conditions: Vec::new(),
            of_line: [const { 0..0 }; 32],
            listed: Listed::default(),
            known: Conditions::new(board.size),
            pairs: pair_lanes(board.side),
        }
    }

    /// Takes up the clues of a puzzle in place of the last one's.
    pub(crate) fn load(&mut self, puzzle: &Puzzle) {
        self.lines = 0;
        self.ends = 0;
        self.conditions.clear();
        self.listed.ways_of.clear();
        self.listed.order.clear();
        for clue in puzzle.clues() {
            let at = self.conditions.len();
            let place = self.known.place_of(clue);
            self.conditions.push(place);
            let line = puzzle.size().house_index(clue.line);
            if self.lines >> line & 1 == 0 {
                self.lines |= 1 << line;
                self.of_line[line] = at..at;
            }
            self.of_line[line].end = at + 1;
            let from = self.listed.order.len();
            match self.known.get(place) {
                Condition::Slices(slices) => self.ends |= slices.ends.0 | slices.ends.1,
                // More ways than that would not fit a line of 16 cells into memory either.
                Condition::Listed(ways) => self.listed.order.extend(0..ways.len() as u16),
            }
            self.listed.ways_of.push(from..self.listed.order.len());
        }
        self.listed.n_left.clear();
        self.listed.level = 0;
        if !self.listed.order.is_empty() {
            self.listed.n_left.extend(self.listed.ways_of.iter().map(|it| it.len() as u16));
        }
    }

    /// Gives a level of the search the state of the level above it.
    #[inline(always)]
    pub(crate) fn copy_to(&mut self, level: usize) {
        if !self.listed.order.is_empty() {
            let n_clues = self.conditions.len();
            self.listed.n_left.truncate(level * n_clues);
            self.listed.n_left.extend_from_within((level - 1) * n_clues..);
        }
    }

    /// Turns to a level of the search.
    #[inline(always)]
    pub(crate) fn turn_to(&mut self, level: usize) {
        self.listed.level = level * self.conditions.len();
    }
}

/// For each two places in a line, by `16 * left + right`: every bit in the lanes between them, and every
/// bit in the lanes outside.
fn pair_lanes(side: usize) -> Vec<[Lanes; 2]> {
    let lanes = |has: &dyn Fn(usize) -> bool| -> Lanes {
        std::array::from_fn(|lane| if lane < side && has(lane) { Mask::MAX } else { 0 })
    };
    (0..256)
        .map(|at| {
            let (left, right) = (at / 16, at % 16);
            [lanes(&|it| left < it && it < right), lanes(&|it| it < left || right < it)]
        })
        .collect()
}

/// What a clue leaves to a line.
struct Left {
    allowed: Lanes,
    /// Whether every filling of the line that keeps to this meets the clue.
    met: bool,
}

impl<const C: usize, const H: usize, const D: usize> Propagator<'_, C, H, D> {
    /// Strikes what no way to meet a line's clues has.
    pub(crate) fn review_line(&mut self, line: usize) -> Result<(), Dead> {
        let mut all_met = true;
        for clue in self.clues.of_line[line].clone() {
            let mut now: Lanes = [0; 16];
            for (lane, cell) in now.iter_mut().zip(self.board.cells_of(line)) {
                *lane = self.state.cells[usize::from(*cell)];
            }
            let left = match self.clues.known.get(self.clues.conditions[clue]) {
                Condition::Slices(slices) => review_slices(slices, &self.clues.pairs, self.board.side, &now),
                Condition::Listed(ways) => self.clues.listed.review(clue, ways, self.board, &now),
            };
            let left = left.ok_or(Dead)?;
            all_met &= left.met;
            for lane in 0..self.board.side {
                let gone = now[lane] & !left.allowed[lane];
                if gone != 0 {
                    self.strike(usize::from(self.board.cells_of[line][lane]), gone)?;
                }
            }
        }
        if all_met {
            self.state.met |= 1 << line;
        }
        Ok(())
    }
}

impl Listed {
    /// Drops a clue's ways that cannot be met any more; the line keeps what some other way allows.
    fn review(&mut self, clue: usize, ways: &[Lanes], board: &Board, now: &Lanes) -> Option<Left> {
        let order = &mut self.order[self.ways_of[clue].clone()];
        let n_left = &mut self.n_left[self.level + clue];
        let mut n_met = usize::from(*n_left);
        let mut allowed = [0; 16];
        let mut at = 0;
        while at < n_met {
            let way = &ways[usize::from(order[at])];
            let met: Lanes = std::array::from_fn(|lane| now[lane] & way[lane]);
            if has_all(&met, board) {
                allowed = union(&allowed, &met);
                at += 1;
            } else {
                n_met -= 1;
                order.swap(at, n_met);
            }
        }
        *n_left = n_met as u16;
        (n_met > 0).then_some(Left { allowed, met: n_met == 1 })
    }
}

/// Whether every cell of a line has a digit and every digit of the size a place.
///
/// Where a way cuts a line into parts with as many digits as cells, this asks it of every part at once,
/// because the parts share no digit.
fn has_all(met: &Lanes, board: &Board) -> bool {
    let somewhere = met.iter().fold(0, |all, it| all | it);
    somewhere == board.all && n_empty(met) == 16 - board.side
}

fn n_empty(lanes: &Lanes) -> usize {
    usize::from(lanes.iter().map(|it| u16::from(*it == 0)).sum::<u16>())
}

fn union(a: &Lanes, b: &Lanes) -> Lanes {
    std::array::from_fn(|lane| a[lane] | b[lane])
}

/// What some two places of the ends, and some set between them, leave to each cell; none if no two
/// places will do.
///
/// For each two places it is asked which sets can lie between them: those that have every digit which
/// has no place outside, and no digit which has no place inside. What these sets allow must leave every
/// cell a digit.
fn review_slices(slices: &Slices, pairs: &[[Lanes; 2]], side: usize, now: &Lanes) -> Option<Left> {
    let (one, other) = slices.ends;
    let filling = slices.filling;
    // Where the ends can stand, and which cells can be nothing else.
    let (mut of_one, mut of_other, mut only_ends) = (0u32, 0u32, 0u32);
    for (lane, digits) in now[..side].iter().enumerate() {
        of_one |= u32::from(digits & one != 0) << lane;
        of_other |= u32::from(digits & other != 0) << lane;
        only_ends |= u32::from(digits & filling == 0) << lane;
    }
    let spans = Spans::new(now);

    let mut allowed: Lanes = [0; 16];
    let (mut to_one, mut to_other) = (0u32, 0u32);
    let mut n_pairs = 0;
    let mut one_set = false;
    let mut lefts = of_one | of_other;
    while lefts != 0 {
        let left = lefts.trailing_zeros() as usize;
        lefts &= lefts - 1;
        if only_ends & ((1 << left) - 1) != 0 {
            break;
        }
        let partners = if of_one >> left & 1 == 1 { of_other } else { 0 }
            | if of_other >> left & 1 == 1 { of_one } else { 0 };
        let mut rights = partners & (slices.distances << left);
        let must_be_ends = only_ends & !(1 << left);
        if must_be_ends != 0 {
            rights &= must_be_ends;
            if must_be_ends & (must_be_ends - 1) != 0 {
                continue;
            }
        }
        while rights != 0 {
            let right = rights.trailing_zeros() as usize;
            rights &= rights - 1;
            let inside = spans.between(left + 1, right) & filling;
            let outside = (spans.between(0, left) | spans.between(right + 1, side)) & filling;
            let needed = filling & !outside;
            let (mut some, mut every) = (0, filling);
            for set in slices.at_distance(right - left) {
                if needed & !set | set & !inside == 0 {
                    some |= set;
                    every &= set;
                }
            }
            if some == 0 && every == filling {
                continue;
            }
            let [is_inside, is_outside] = &pairs[16 * left + right];
            let rest = filling & !every;
            let met: Lanes =
                std::array::from_fn(|lane| now[lane] & (is_inside[lane] & some | is_outside[lane] & rest));
            if n_empty(&met) != 16 - side + 2 {
                continue;
            }
            allowed = union(&allowed, &met);
            if of_one >> left & 1 == 1 && of_other >> right & 1 == 1 {
                to_one |= 1 << left;
                to_other |= 1 << right;
            }
            if of_other >> left & 1 == 1 && of_one >> right & 1 == 1 {
                to_one |= 1 << right;
                to_other |= 1 << left;
            }
            n_pairs += 1;
            one_set = some == every;
        }
    }
    if n_pairs == 0 {
        return None;
    }
    for (lane, digits) in allowed[..side].iter_mut().enumerate() {
        *digits |= if to_one >> lane & 1 == 1 { one } else { 0 };
        *digits |= if to_other >> lane & 1 == 1 { other } else { 0 };
    }
    Some(Left { allowed, met: n_pairs == 1 && one_set })
}

/// The candidates of every stretch of a line: the unions of 1, 2, 4 and 8 neighbours from each place on.
struct Spans([Lanes; 4]);

impl Spans {
    #[inline(always)]
    fn new(now: &Lanes) -> Spans {
        let doubled = |of: &Lanes, by: usize| -> Lanes {
            std::array::from_fn(|at| of[at] | if at + by < 16 { of[at + by] } else { 0 })
        };
        let two = doubled(now, 1);
        let four = doubled(&two, 2);
        let eight = doubled(&four, 4);
        Spans([*now, two, four, eight])
    }

    /// The candidates of the cells from `from` on and before `to`.
    #[inline(always)]
    fn between(&self, from: usize, to: usize) -> Mask {
        if to <= from {
            return 0;
        }
        let step = (to - from).ilog2() as usize & 3;
        self.0[step][from & 15] | self.0[step][(to - (1 << step)) & 15]
    }
}
