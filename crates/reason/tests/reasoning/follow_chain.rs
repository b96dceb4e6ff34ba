//! Follows a told chain link by link, as a careful reader would, with nothing of `reason`.
//!
//! The reader has a board of digits left, which the cited facts about cells have narrowed, and looks at
//! the cited houses, clues and facts about houses, as for a case (see `follow.rs`). Each link is tried by
//! itself: with what was said just before and the opposite of the link, the house or the clue that it
//! names must have no way, from the definition of the rules.

use std::collections::BTreeMap;

use grid::{Cell, DigitSet, House, Size};
use rulebook::{Claim, Puzzle};
use trail::{Cites, Follows, Inference, Stated, Trail};

use crate::layouts::betweens;

/// Follows the chain that is to show the claim; why it cannot be followed, if it cannot.
pub(crate) fn follow_chain(
    puzzle: &Puzzle,
    trail: &Trail,
    (claim, cites): (&Claim, &Cites),
    start: Stated,
    links: &[Inference],
) -> Result<(), String> {
    let reader = Reader::new(puzzle, trail, cites);
    let mut from = start;
    for (link, number) in links.iter().zip(1..) {
        reader.link(from, link).map_err(|why| format!("link {number}: {why}"))?;
        from = link.then;
    }
    if from == start.opposite() {
        // What comes to its own opposite shows just that.
        let shown = stated(reader.size, claim) == Some(from);
        return if shown { Ok(()) } else { Err("it shows something else".to_owned()) };
    }
    // Of the ends, one is so; the claim must not stand beside either.
    let claimed = stated(reader.size, claim).ok_or("not about a cell")?;
    for end in [start.opposite(), from] {
        let shared = reader.houses.iter().any(|it| reader.no_layout(*it, end, claimed.opposite()));
        if !end.holds || !(shared || reader.no_digit(end, claimed.opposite())) {
            return Err(format!("{end:?} does not exclude it"));
        }
    }
    Ok(())
}

/// The claim in the form of a link.
fn stated(size: Size, claim: &Claim) -> Option<Stated> {
    let crusts = [1, size.side()].into_iter().filter_map(grid::Digit::new).collect();
    let (digits, holds) = match claim {
        Claim::Is(_, digit) => (DigitSet::only(*digit), true),
        Claim::IsNot(_, digit) => (DigitSet::only(*digit), false),
        Claim::Crust(_) => (crusts, true),
        Claim::Filling(_) => (crusts, false),
        _ => return None,
    };
    Some(Stated { cells: claim.cell().into_iter().collect(), digits, holds })
}

struct Reader<'a> {
    puzzle: &'a Puzzle,
    size: Size,
    cites: &'a Cites,
    houses: Vec<House>,
    facts: Vec<Claim>,
    /// The digits left to each cell.
    board: BTreeMap<Cell, DigitSet>,
}

impl<'a> Reader<'a> {
    fn new(puzzle: &'a Puzzle, trail: &Trail, cites: &'a Cites) -> Reader<'a> {
        let size = puzzle.size();
        let facts: Vec<Claim> = cites.facts.iter().map(|it| trail.fact(*it).claim()).collect();
        let mut houses: Vec<House> = cites.houses.iter().copied().collect();
        houses.extend(cites.clues.iter().map(|it| puzzle.clue(*it).unwrap().line));
        houses.extend(facts.iter().filter_map(Claim::house));
        let mut board: BTreeMap<Cell, DigitSet> = size.cells().map(|it| (it, size.digits())).collect();
        for (cell, leaves) in facts.iter().filter_map(|it| it.leaves(size)) {
            board.insert(cell, board[&cell] & leaves);
        }
        let known = facts.iter().filter_map(|it| it.leaves(size));
        let placed: Vec<_> = known.filter_map(|it| Some((it.0, it.1.single()?))).collect();
        for (cell, digit) in placed {
            for house in houses.iter().map(|it| size.cells_of(*it)).filter(|it| it.contains(&cell)) {
                for seen in house.into_iter().filter(|it| *it != cell) {
                    board.insert(seen, board[&seen].without(digit));
                }
            }
        }
        Reader { puzzle, size, cites, houses, facts, board }
    }

    /// Whether the link's opposite cannot stand beside what was said before.
    fn link(&self, from: Stated, link: &Inference) -> Result<(), String> {
        let opposite = link.then.opposite();
        let left = |line| self.ways(line, from, opposite);
        let holds = match link.because {
            Follows::Cell => self.no_digit(from, opposite),
            Follows::House(house) => self.houses.contains(&house) && self.no_layout(house, from, opposite),
            Follows::Clue(clue) => {
                let it = self.puzzle.clue(clue).unwrap();
                let mut boards = left(it.line).into_iter();
                self.cites.clues.contains(&clue)
                    && boards
                        .all(|it_left| betweens(self.size, &it_left).iter().all(|set| set.sum() != it.value))
            }
            Follows::Known(Claim::Spent { line, filling }) => {
                self.facts.contains(&Claim::Spent { line, filling })
                    && left(line).into_iter().all(|it| !betweens(self.size, &it).contains(&filling))
            }
            Follows::Known(_) => false,
        };
        if holds { Ok(()) } else { Err(format!("{:?} does not follow", link.then)) }
    }

    fn no_digit(&self, a: Stated, b: Stated) -> bool {
        let cell = a.cells.first().filter(|_| a.cells.len() == 1 && a.cells == b.cells);
        cell.is_some_and(|it| narrowed(narrowed(self.board[&it], a), b).is_empty())
    }

    fn no_layout(&self, house: House, a: Stated, b: Stated) -> bool {
        let cells = self.size.cells_of(house);
        // Where neither lies in the house, the house says nothing about them.
        let lies_here = |it: Stated| it.cells.iter().all(|cell| cells.contains(&cell));
        let is_one_digit = a.digits == b.digits && a.digits.len() == 1;
        is_one_digit
            && lies_here(a)
            && lies_here(b)
            && self.ways(house, a, b).iter().all(|it| !has_once(it, a.digits))
    }

    /// The digits left to the house's cells while both are so, for each cell that can make them so.
    fn ways(&self, house: House, a: Stated, b: Stated) -> Vec<Vec<DigitSet>> {
        let cells = self.size.cells_of(house);
        let mut ways = vec![cells.iter().map(|it| self.board[it]).collect::<Vec<_>>()];
        for stated in [a, b] {
            let of_it: Vec<usize> = (0..cells.len()).filter(|at| stated.cells.contains(cells[*at])).collect();
            ways = match stated.holds {
                // Some cell of it holds the digit.
                true => ways
                    .iter()
                    .flat_map(|way| {
                        of_it.iter().map(|at| {
                            let mut way = way.clone();
                            way[*at] = narrowed(way[*at], stated);
                            way
                        })
                    })
                    .collect(),
                false => {
                    for way in &mut ways {
                        of_it.iter().for_each(|at| way[*at] = narrowed(way[*at], stated));
                    }
                    ways
                }
            };
        }
        ways
    }
}

/// Whether some cell can hold the digit and no two have to.
fn has_once(left: &[DigitSet], digit: DigitSet) -> bool {
    left.iter().any(|it| digit.is_subset(*it)) && left.iter().filter(|it| **it == digit).count() <= 1
}

/// The digits of a cell that are left by what is stated of it.
fn narrowed(left: DigitSet, stated: Stated) -> DigitSet {
    if stated.holds { left & stated.digits } else { left - stated.digits }
}
