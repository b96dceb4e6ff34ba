//! Lines with clues: what is left to their cells.

use std::ops::Range;

use rulebook::Puzzle;

use crate::compile::{Board, Houses, Mask, Spots};
use crate::conditions::{Condition, Conditions, Slices};
use crate::lanes::{Lanes, Occupied};
use crate::propagate::{Dead, Propagator};

/// A set of pairs of places in a line, by their number in [`all_pairs`]: at most 120.
pub(crate) type Pairs = [u64; 2];

/// The clues of one puzzle, and of those that are listed the ways in their present order.
///
/// Invariant: of a listed clue's ways, those that can still be met in a state stand before those that
/// were found dead on the path to it. Going back in the search therefore only resets a number: deeper
/// states reorder the ways that stand before it, and never change which they are.
pub(crate) struct Clues<const L: usize> {
    /// The lines that have clues.
    pub(crate) lines: Houses,
    /// The digits that clues ask for the places of, so that they are worth branching on first.
    pub(crate) ends: Mask,
    /// What each clue demands, by its place among all conditions met so far.
    conditions: Vec<usize>,
    /// For each line with clues, which of them.
    of_line: [Range<usize>; 32],
    /// For each of the first clues, if it has a closed form, the pairs as far apart as some set is long.
    pub(crate) pairs: [Pairs; 32],
    listed: Listed,
    known: Conditions<L>,
    all_pairs: Vec<Pair<L>>,
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

impl<const L: usize> Clues<L> {
    /// No clues, on boards of a size.
    pub(crate) fn new(board: &Board) -> Clues<L> {
        Clues {
            lines: 0,
            ends: 0,
            conditions: Vec::new(),
            of_line: [const { 0..0 }; 32],
            listed: Listed::default(),
            known: Conditions::new(board.size),
            pairs: [[0; 2]; 32],
            all_pairs: all_pairs(board.side),
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
                Condition::Slices(slices) => {
                    self.ends |= !slices.filling & puzzle.size().digits().bits();
                    if let Some(pairs) = self.pairs.get_mut(at) {
                        *pairs = slices.pairs;
                    }
                }
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

/// Two places in a line.
pub(crate) struct Pair<const L: usize> {
    /// The first of them.
    pub(crate) left: u8,
    /// The second.
    pub(crate) right: u8,
    /// Every bit in the lanes between them.
    inside: Lanes<L>,
    /// Every bit in the lanes before and after them.
    outside: Lanes<L>,
    /// Something in either.
    either: Occupied<L>,
}

/// Each two places in a line.
pub(crate) fn all_pairs<const L: usize>(side: usize) -> Vec<Pair<L>> {
    let lanes = |has: &dyn Fn(usize) -> bool| -> Lanes<L> {
        Lanes::of((0..side).map(|lane| if has(lane) { Mask::MAX } else { 0 }))
    };
    let pair = |left, right| {
        let inside = lanes(&|it| left < it && it < right);
        let outside = lanes(&|it| it < left || right < it);
        let either = inside.or(outside).occupied();
        Pair { left: left as u8, right: right as u8, inside, outside, either }
    };
    (0..side)
        .flat_map(|left| (left + 1..side).map(move |right| (left, right)))
        .map(|(l, r)| pair(l, r))
        .collect()
}

/// What a clue leaves to a line.
struct Left<const L: usize> {
    allowed: Lanes<L>,
    /// Whether every filling of the line that keeps to this meets the clue.
    met: bool,
}

impl<const H: usize, const L: usize> Propagator<'_, H, L> {
    /// Strikes what no way to meet a line's clues has.
    pub(crate) fn review_line(&mut self, line: usize) -> Result<(), Dead> {
        let mut all_met = true;
        for clue in self.clues.of_line[line].clone() {
            let board = self.board;
            let now = Lanes::of(self.state.lines[line & 31]);
            let left = match self.clues.known.get(self.clues.conditions[clue]) {
                Condition::Slices(slices) => {
                    let ends = slices.ends.map(|it| self.state.spots[it & 15][line & (H - 1)]);
                    // Pairs that were found impossible on the way here stay so.
                    let mut unkept = slices.pairs;
                    let pairs = self.state.pairs.get_mut(clue).unwrap_or(&mut unkept);
                    review_slices(slices, &self.clues.all_pairs, pairs, now, ends)
                }
                Condition::Listed(ways) => self.clues.listed.review(clue, ways, board, now),
            };
            let left = left.ok_or(Dead)?;
            all_met &= left.met;
            for (lane, digit) in now.without(left.allowed).each() {
                self.strike_one(board.cell_at(line, lane), digit)?;
            }
        }
        if all_met {
            self.state.met |= 1 << line;
        }
        if self.clues.of_line[line].len() == 1 {
            // What a clue leaves it would leave again: nothing that speaks for a way was struck.
            self.work.lines &= !(1 << line);
        }
        Ok(())
    }
}

impl Listed {
    /// Drops a clue's ways that cannot be met any more; the line keeps what some other way allows.
    fn review<const L: usize>(
        &mut self,
        clue: usize,
        ways: &[Lanes<L>],
        board: &Board,
        now: Lanes<L>,
    ) -> Option<Left<L>> {
        let order = &mut self.order[self.ways_of[clue].clone()];
        let n_left = &mut self.n_left[self.level + clue];
        let everywhere = Lanes::of((0..board.side).map(|_| board.all)).occupied();
        let mut n_met = usize::from(*n_left);
        let mut allowed = Lanes::NONE;
        let mut at = 0;
        while at < n_met {
            let met = now.and(ways[usize::from(order[at])]);
            // Every digit has a place and every cell a digit. Where a way cuts a line into parts with as
            // many digits as cells, this asks it of every part at once, because they share no digit.
            if met.any() == board.all && met.occupied().covers(everywhere) {
                allowed = allowed.or(met);
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

/// What some two places of the ends, and some set between them, leave to each cell; none if no two
/// places will do. `ends` has the places that each end can take.
///
/// For each two places it is asked which sets can lie between them: those that have every digit which
/// has no place outside, and no digit which has no place inside. What these sets allow must leave every
/// cell a digit.
fn review_slices<const L: usize>(
    slices: &Slices,
    all_pairs: &[Pair<L>],
    pairs: &mut Pairs,
    now: Lanes<L>,
    ends: [Spots; 2],
) -> Option<Left<L>> {
    let filling = slices.filling;
    let [of_one, of_other] = ends.map(u32::from);
    let (mut to_one, mut to_other) = (0u32, 0u32);
    let mut allowed = Lanes::NONE;
    let mut n_pairs = 0;
    let mut one_set = false;
    for (word, pairs) in pairs.iter_mut().enumerate() {
        let mut rest = *pairs;
        while rest != 0 {
            let bit = rest & rest.wrapping_neg();
            let pair = &all_pairs[64 * word + rest.trailing_zeros() as usize];
            rest ^= bit;
            // They stay out unless they turn out possible.
            *pairs ^= bit;
            let (left, right) = (pair.left & 15, pair.right & 15);
            let here = of_one >> left & of_other >> right & 1;
            let there = of_other >> left & of_one >> right & 1;
            if here | there == 0 {
                continue;
            }
            let (inside, outside) = (now.and(pair.inside), now.and(pair.outside));
            let can_be_inside = inside.any();
            let must_be_inside = filling & !outside.any();
            let (mut some, mut every) = (0, filling);
            for set in slices.at_distance(usize::from(right - left)) {
                let fits = must_be_inside & !set | set & !can_be_inside == 0;
                let keep = Mask::from(fits).wrapping_neg();
                some |= set & keep;
                every &= set | !keep;
            }
            if every & !some != 0 {
                // Not even one fits.
                continue;
            }
            let met = inside.only(some).or(outside.only(filling & !every));
            if !met.occupied().covers(pair.either) {
                continue;
            }
            *pairs |= bit;
            allowed = allowed.or(met);
            to_one |= here << left | there << right;
            to_other |= there << left | here << right;
            n_pairs += 1;
            one_set = some == every;
        }
    }
    if n_pairs == 0 {
        return None;
    }
    for (mut to, digit) in [(to_one, slices.ends[0]), (to_other, slices.ends[1])] {
        while to != 0 {
            allowed.add(to.trailing_zeros() as usize & 15, 1 << digit);
            to &= to - 1;
        }
    }
    Some(Left { allowed, met: n_pairs == 1 && one_set })
}
