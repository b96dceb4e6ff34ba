//! Facts in words: one by one, and grouped as the conclusions of a step.

use std::collections::BTreeMap;

use grid::{Cell, CellSet, DigitSet, Size};
use rulebook::Claim;

use crate::Voice;
use crate::lists::{cells, count, digits, each_of, in_parts, within};

/// The words a list of cells may take within a conclusion, when what is said of them is short.
const WORDS_FOR_CELLS: usize = 20;

/// The fact as a clause without capital and full stop: `r4c7 is 5`, `r4c7 is not 5`,
/// `r4c7 is a crust`, `row 4 has five or six cells between its crusts`.
pub fn claim(size: Size, claim: &Claim) -> String {
    match *claim {
        Claim::Is(cell, digit) => format!("{cell} is {digit}"),
        Claim::IsNot(cell, digit) => format!("{cell} is not {digit}"),
        Claim::Crust(cell) => format!("{cell} is a crust"),
        Claim::Filling(cell) => format!("{cell} is filling"),
        Claim::CrustAmong { house, cells } => format!("a crust of {house} is {}", within(cells)),
        Claim::DigitAmong { house, digit, cells } => format!("the {digit} of {house} is {}", within(cells)),
        Claim::FillingCells { line, fewest: 0, most: 0 } => format!("{line} has nothing between its crusts"),
        Claim::FillingCells { line, fewest, most } => {
            format!("{line} has {} between its crusts", how_many_cells(size, fewest, most))
        }
        Claim::Spent { line, filling } if filling.is_empty() => {
            format!("{line} has nothing between its crusts; its clue is spent")
        }
        Claim::Spent { line, filling } => {
            format!("{line}'s filling is {}; its clue is spent", digits(filling))
        }
    }
}

/// A number of cells of a line that is known within bounds: `nothing`, `three cells`,
/// `five or six cells`, `three to five cells`, `at most three cells`.
pub(crate) fn how_many_cells(size: Size, fewest: u8, most: u8) -> String {
    let all = size.side() - 2;
    let word = |n: u8| count(usize::from(n));
    match (fewest, most) {
        (0, 0) => "nothing".to_owned(),
        (1, 1) => "one cell".to_owned(),
        _ if fewest == most => format!("{} cells", word(most)),
        (0, _) if most == all => "any number of cells".to_owned(),
        (0, 1) => "at most one cell".to_owned(),
        (0, _) => format!("at most {} cells", word(most)),
        _ if fewest + 1 == most => format!("{} or {} cells", word(fewest), word(most)),
        (1, _) if most == all => "at least one cell".to_owned(),
        _ if most == all => format!("at least {} cells", word(fewest)),
        _ => format!("{} to {} cells", word(fewest), word(most)),
    }
}

/// All the facts as clauses, those of one kind said together: `r4c2, r4c3 and r4c5 are filling`.
/// No clause is too long for a sentence.
pub(crate) fn together(voice: Voice, size: Size, claims: &[Claim]) -> Vec<String> {
    let mut groups: Vec<(Said, CellSet)> = Vec::new();
    let removed = removed(claims);
    for claim in claims {
        let (said, cell) = match *claim {
            Claim::IsNot(cell, _) => (Said::Not(removed[&cell]), Some(cell)),
            Claim::Crust(cell) => (Said::Crust, Some(cell)),
            Claim::Filling(cell) => (Said::Filling, Some(cell)),
            other => (Said::Alone(other), None),
        };
        match groups.iter_mut().find(|it| it.0 == said) {
            Some((_, cells)) => cells.extend(cell),
            None => groups.push((said, cell.into_iter().collect())),
        }
    }
    groups.into_iter().flat_map(|(said, cells)| said.of(voice, size, cells)).collect()
}

/// What can be said of several cells at once, or of none but its own.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Said {
    Not(DigitSet),
    Crust,
    Filling,
    Alone(Claim),
}

impl Said {
    fn of(self, voice: Voice, size: Size, all: CellSet) -> Vec<String> {
        let of_cells = |one: String, several: String, budget: usize| {
            in_parts(voice, all, budget)
                .into_iter()
                .map(|part| format!("{} {}", cells(part), if part.len() == 1 { &one } else { &several }))
                .collect()
        };
        match self {
            Said::Alone(own) => vec![claim(size, &own)],
            Said::Crust => of_cells("is a crust".into(), "are crusts".into(), WORDS_FOR_CELLS),
            Said::Filling => of_cells("is filling".into(), "are filling".into(), WORDS_FOR_CELLS),
            Said::Not(gone) => {
                let what = none_of(gone);
                of_cells(format!("is {what}"), format!("are {what}"), WORDS_FOR_CELLS - gone.len())
            }
        }
    }
}

/// `not 5`, `neither 2 nor 7`, `none of 2, 3 and 7`.
fn none_of(gone: DigitSet) -> String {
    match each_of(gone).as_slice() {
        [only] => format!("not {only}"),
        [a, b] => format!("neither {a} nor {b}"),
        _ => format!("none of {}", digits(gone)),
    }
}

/// The digits each cell loses.
fn removed(claims: &[Claim]) -> BTreeMap<Cell, DigitSet> {
    let mut removed: BTreeMap<Cell, DigitSet> = BTreeMap::new();
    for claim in claims {
        if let Claim::IsNot(cell, digit) = *claim {
            let gone = removed.entry(cell).or_default();
            *gone = gone.with(digit);
        }
    }
    removed
}
