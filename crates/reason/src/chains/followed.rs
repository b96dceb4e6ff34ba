//! Whether a chain as told can be followed with what it cites alone.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, DigitSet, House, Size};
use rulebook::{Claim, ClueId, Puzzle, crusts, filling_digits, filling_sets};
use trail::{Cites, Follows, Inference, Stated, Trail};

use crate::sandwich::LineRules;

/// Whether each link follows from the one before and the claim from the ends, for a reader who knows the
/// cited facts and looks at the cited houses and clues.
pub(crate) fn can_be_followed(
    puzzle: &Puzzle,
    trail: &Trail,
    (claim, cites): (&Claim, &Cites),
    start: Stated,
    links: &[Inference],
) -> bool {
    let reader = Reader::new(puzzle, trail, cites);
    let mut from = start;
    for link in links {
        if !reader.sees(from, link) {
            return false;
        }
        from = link.then;
    }
    match from == start.opposite() {
        true => claim.leaves(reader.size).is_some_and(|(cell, leaves)| {
            let cells = [cell].into_iter().collect::<CellSet>();
            let left = if from.holds { from.digits } else { reader.size.digits() - from.digits };
            from.cells == cells && leaves == left
        }),
        false => match *claim {
            Claim::IsNot(cell, digit) => {
                let then = Stated {
                    cells: [cell].into_iter().collect(),
                    digits: DigitSet::only(digit),
                    holds: false,
                };
                reader.excludes(start.opposite(), then) && reader.excludes(from, then)
            }
            _ => false,
        },
    }
}

/// What is looked at.
struct Reader<'a> {
    puzzle: &'a Puzzle,
    size: Size,
    houses: BTreeSet<House>,
    clues: &'a BTreeSet<ClueId>,
    claims: Vec<Claim>,
    /// By [`Cell::slot`].
    left: Vec<DigitSet>,
}

impl<'a> Reader<'a> {
    fn new(puzzle: &'a Puzzle, trail: &Trail, cites: &'a Cites) -> Reader<'a> {
        let size = puzzle.size();
        let claims: Vec<Claim> = cites.facts.iter().map(|it| trail.fact(*it).claim()).collect();
        // A clue, and a fact about a house, bring the house along.
        let mut houses = cites.houses.clone();
        houses.extend(cites.clues.iter().filter_map(|it| Some(puzzle.clue(*it)?.line)));
        houses.extend(claims.iter().filter_map(Claim::house));
        let n_slots = size.cells().map(Cell::slot).max().map_or(0, |it| it + 1);
        let mut left = vec![size.digits(); n_slots];
        for (cell, leaves) in claims.iter().filter_map(|it| it.leaves(size)) {
            left[cell.slot()] = left[cell.slot()] & leaves;
        }
        for (cell, digit) in claims.iter().filter_map(|it| match it {
            Claim::Is(cell, digit) => Some((*cell, *digit)),
            _ => None,
        }) {
            for house in size.houses_of(cell).iter().filter(|it| houses.contains(it)) {
                for seen in size.cells_of(*house).into_iter().filter(|it| *it != cell) {
                    left[seen.slot()] = left[seen.slot()].without(digit);
                }
            }
        }
        Reader { puzzle, size, houses, clues: &cites.clues, claims, left }
    }

    fn sees(&self, from: Stated, link: &Inference) -> bool {
        let then = link.then;
        match link.because {
            Follows::Cell if then.holds => {
                let cell = then.cells.first().filter(|_| then.cells == from.cells && then.cells.len() == 1);
                !from.holds
                    && cell.is_some_and(|it| self.left[it.slot()].is_subset(from.digits | then.digits))
            }
            Follows::House(house) if then.holds => {
                let members = self.size.cells_of(house).into_iter();
                let digit = then.digits.single().filter(|_| then.digits == from.digits && !from.holds);
                let mut places =
                    members.filter(|it| digit.is_none_or(|digit| self.left[it.slot()].contains(digit)));
                self.houses.contains(&house)
                    && digit.is_some()
                    && places.all(|it| (from.cells | then.cells).contains(it))
            }
            Follows::Cell | Follows::House(_) => self.excludes(from, then),
            Follows::Clue(clue) => {
                let clue = self.puzzle.clue(clue).filter(|_| self.clues.contains(&clue));
                let sets = clue.map(|it| (it.line, filling_sets(self.size, it.value)));
                sets.is_some_and(|(line, sets)| !self.has_way(line, &sets, from, then.opposite()))
            }
            Follows::Known(claim) => match claim {
                Claim::Spent { line, filling } => {
                    self.claims.contains(&claim) && !self.has_way(line, &[filling], from, then.opposite())
                }
                _ => false,
            },
        }
    }

    /// Whether the one, which is so, leaves no room for the other.
    fn excludes(&self, from: Stated, then: Stated) -> bool {
        if !from.holds || then.holds {
            return false;
        }
        if from.cells == then.cells {
            return from.cells.len() == 1 && (from.digits & then.digits).is_empty();
        }
        let both = from.cells | then.cells;
        let shares = |it: &House| both.is_subset(&self.size.cells_of(*it).into_iter().collect());
        from.digits == then.digits
            && from.digits.len() == 1
            && (from.cells & then.cells).is_empty()
            && self.houses.iter().any(shares)
    }

    /// Whether the line can be filled with one of the sets between its crusts while both are so.
    fn has_way(&self, line: House, sets: &[DigitSet], a: Stated, b: Stated) -> bool {
        let (one, last) = crusts(self.size);
        let rules = LineRules {
            filling: filling_digits(self.size),
            crusts: (DigitSet::only(one), DigitSet::only(last)),
            spread: (0, usize::MAX),
            sets: Some(sets),
        };
        let left = |cell: Cell| {
            [a, b].iter().filter(|it| it.cells.contains(cell)).fold(self.left[cell.slot()], |left, it| {
                if it.holds { left & it.digits } else { left - it.digits }
            })
        };
        rules.has_way(&self.size.cells_of(line).into_iter().map(left).collect::<Vec<_>>())
    }
}
