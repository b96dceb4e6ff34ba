//! Lines with clues: what is left to their cells.

use std::ops::Range;

use rulebook::Puzzle;

use crate::compile::{Board, Houses, Mask, Spots};
use crate::conditions::{Condition, Conditions, Slices};
use crate::lanes::{Lanes, Occupied};
use crate::propagate::{Dead, Propagator};

/// The choices that a clue in closed form leaves, by number: places for the ends with the set between them where
/// these are few, and only the two places, by their number in [`all_pairs`], where they are many.
pub(crate) type Choices = [u64; 2];

/// So many are few: all sums up to 10x10 have at most 63. There are at most 120 pairs of places in a line.
pub(crate) const N_CHOICES: usize = 128;

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
    /// For each of the first clues, if it has a closed form, all choices.
    pub(crate) choices: [Choices; 32],
    listed: Listed,
    known: Conditions<L>,
    all_pairs: Vec<Pair<L>>,
    /// Every place in a line.
    everywhere: Occupied<L>,
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
            choices: [[0; 2]; 32],
            all_pairs: all_pairs(board.side),
            everywhere: Occupied::first(board.side),
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
                    if let Some(choices) = self.choices.get_mut(at) {
                        *choices = slices.choices;
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
            let (board, everywhere) = (self.board, self.clues.everywhere);
            let now = Lanes::of_line(&self.state.lines[line & 31]);
            let left = match self.clues.known.get(self.clues.conditions[clue]) {
                Condition::Slices(slices) => {
                    let ends = slices.ends.map(|it| self.state.spots[it & 15][line & (H - 1)]);
                    // What was found impossible on the way here stays so.
                    let mut unkept = slices.choices;
                    let choices = self.state.choices.get_mut(clue).unwrap_or(&mut unkept);
                    match slices.written.is_empty() {
                        false => review_written(slices, everywhere, choices, now, ends),
                        true => review_slices(slices, &self.clues.all_pairs, choices, now, ends),
                    }
                }
                Condition::Listed(ways) => self.clues.listed.review(clue, ways, board.all, everywhere, now),
            };
            let left = left.ok_or(Dead)?;
            all_met &= left.met;
            for (lane, gone) in now.without(left.allowed).each() {
                self.strike(board.cell_at(line, lane), gone)?;
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
        all: Mask,
        everywhere: Occupied<L>,
        now: Lanes<L>,
    ) -> Option<Left<L>> {
        let order = &mut self.order[self.ways_of[clue].clone()];
        let n_left = &mut self.n_left[self.level + clue];
        let mut n_met = usize::from(*n_left);
        let mut allowed = Lanes::NONE;
        let mut at = 0;
        while at < n_met {
            let met = now.and(ways[usize::from(order[at])]);
            // Every digit has a place and every cell a digit. Where a way cuts a line into parts with as
            // many digits as cells, this asks it of every part at once, because they share no digit.
            if met.any() == all && met.occupied().covers(everywhere) {
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

/// What the choices of a clue leave to each cell, where they are few and written out; none if no choice will do.
/// `ends` has the places that each end can take.
#[inline(always)]
fn review_written<const L: usize>(
    slices: &Slices<L>,
    everywhere: Occupied<L>,
    choices: &mut Choices,
    now: Lanes<L>,
    ends: [Spots; 2],
) -> Option<Left<L>> {
    let [of_one, of_other] = ends.map(u32::from);
    let (mut to_one, mut to_other) = (0u32, 0u32);
    let all = slices.filling | 1 << slices.ends[0] | 1 << slices.ends[1];
    let mut allowed = Lanes::NONE;
    let mut n_possible = 0;
    // Where neither end can stand any more no choice has one.
    for (place, without) in slices.without_end_at[..4 * L].iter().enumerate() {
        let can_stand = (u64::from((of_one | of_other) >> place) & 1).wrapping_neg();
        choices[0] &= without[0] | can_stand;
        choices[1] &= without[1] | can_stand;
    }
    for (word, choices) in choices.iter_mut().enumerate() {
        let mut rest = *choices;
        while rest != 0 {
            let bit = rest & rest.wrapping_neg();
            let choice = &slices.written[64 * word + rest.trailing_zeros() as usize];
            rest ^= bit;
            let (left, right) = (choice.left & 15, choice.right & 15);
            let here = of_one >> left & of_other >> right & 1;
            let there = of_other >> left & of_one >> right & 1;
            let met = now.and(choice.digits);
            // Each filling digit lies on one side only, so it is asked of both sides at once if each has a place.
            if (here | there == 0) | (met.any() != all) | !met.occupied().covers(everywhere) {
                *choices ^= bit;
                continue;
            }
            allowed = allowed.or(met);
            to_one |= here << left | there << right;
            to_other |= there << left | here << right;
            n_possible += 1;
            // Once all that is left is allowed the other choices can only allow it again. They stay, perhaps
            // in vain, until something is struck.
            let is_all_allowed = to_one == of_one
                && to_other == of_other
                && now.only(slices.filling).without(allowed) == Lanes::NONE;
            if is_all_allowed && rest != 0 {
                return Some(Left { allowed: now, met: false });
            }
        }
    }
    (n_possible > 0).then(|| Left {
        allowed: with_ends(allowed.only(slices.filling), slices, to_one, to_other),
        met: n_possible == 1,
    })
}

/// What the cells may hold beside the ends, and each end in the places that it may take.
#[inline(always)]
fn with_ends<const L: usize>(filling: Lanes<L>, slices: &Slices<L>, to_one: u32, to_other: u32) -> Lanes<L> {
    let mut allowed = filling;
    for (mut to, digit) in [(to_one, slices.ends[0]), (to_other, slices.ends[1])] {
        while to != 0 {
            allowed.add(to.trailing_zeros() as usize & 15, 1 << digit);
            to &= to - 1;
        }
    }
    allowed
}

/// The same where the choices are many: what some two places of the ends, and some set between them, leave to
/// each cell.
///
/// For each two places it is asked which sets can lie between them: those that have every digit which
/// has no place outside, and no digit which has no place inside, and that leave every cell a digit. (To
/// ask the last of all sets together would be cheaper, but lets so much through once the ends are known
/// that a few puzzles took a hundred times as long.)
fn review_slices<const L: usize>(
    slices: &Slices<L>,
    all_pairs: &[Pair<L>],
    choices: &mut Choices,
    now: Lanes<L>,
    ends: [Spots; 2],
) -> Option<Left<L>> {
    let filling = slices.filling;
    let [of_one, of_other] = ends.map(u32::from);
    let (mut to_one, mut to_other) = (0u32, 0u32);
    let mut allowed = Lanes::NONE;
    let mut n_pairs = 0;
    let mut one_set = false;
    for (word, choices) in choices.iter_mut().enumerate() {
        let mut rest = *choices;
        while rest != 0 {
            let bit = rest & rest.wrapping_neg();
            let pair = &all_pairs[64 * word + rest.trailing_zeros() as usize];
            rest ^= bit;
            // They stay out unless they turn out possible.
            *choices ^= bit;
            let (left, right) = (pair.left & 15, pair.right & 15);
            let here = of_one >> left & of_other >> right & 1;
            let there = of_other >> left & of_one >> right & 1;
            if here | there == 0 {
                continue;
            }
            let (inside, outside) = (now.and(pair.inside), now.and(pair.outside));
            let can_be_inside = inside.any();
            let must_be_inside = filling & !outside.any();
            let mut met = Lanes::NONE;
            let mut n_sets = 0;
            for set in slices.at_distance(usize::from(right - left)) {
                if must_be_inside & !set | set & !can_be_inside != 0 {
                    continue;
                }
                let with = inside.only(*set).or(outside.only(filling & !set));
                if with.occupied().covers(pair.either) {
                    met = met.or(with);
                    n_sets += 1;
                }
            }
            if n_sets == 0 {
                continue;
            }
            *choices |= bit;
            allowed = allowed.or(met);
            to_one |= here << left | there << right;
            to_other |= there << left | here << right;
            n_pairs += 1;
            one_set = n_sets == 1;
        }
    }
    (n_pairs > 0)
        .then(|| Left { allowed: with_ends(allowed, slices, to_one, to_other), met: n_pairs == 1 && one_set })
}

#[cfg(test)]
mod tests {
    use grid::Size;
    use proptest::prelude::*;
    use rulebook::{Rule, SANDWICH};

    use super::*;

    proptest! {
        /// Few choices are written out and many are not: either way the same is left.
        #[test]
        fn written_out_or_not_the_same_is_left(
            sum in 0..=35u16,
            line in prop::collection::vec(1..512u16, 9),
            n_open in 0..=9usize,
        ) {
            let size = Size::NINE;
            let form = SANDWICH.between(size, sum).expect("the closed form of sums");
            let [few, many] = [N_CHOICES, 0].map(|it| Slices::<3>::new(size, &form, it));
            prop_assume!(!form.sets.is_empty());
            prop_assert!(!few.written.is_empty() && many.written.is_empty());
            let mut masks = [0; 16];
            masks[..9].copy_from_slice(&line);
            masks[..n_open].fill(511);
            let now = Lanes::of_line(&masks);
            let ends = few.ends.map(|end| (0..9).fold(0, |all, at| all | (masks[at] >> end & 1) << at));
            let mut choices = few.choices;
            let written = review_written(&few, Occupied::first(9), &mut choices, now, ends);
            let pairs = review_slices(&many, &all_pairs(9), &mut many.choices.clone(), now, ends);
            let struck = |left: &Option<Left<3>>| left.as_ref().map(|it| now.without(it.allowed));
            prop_assert_eq!(struck(&written), struck(&pairs));
            if let (Some(written), Some(pairs)) = (&written, &pairs) {
                prop_assert!(!written.met || pairs.met);
                // What stays possible is found possible again, with the same result.
                let again = review_written(&few, Occupied::first(9), &mut choices, now, ends);
                prop_assert_eq!(struck(&again), struck(&Some(Left { ..*written })));
            }
        }
    }
}
