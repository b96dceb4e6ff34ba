//! What the tests share: claims written as text, and a checker of counterexamples that knows nothing
//! of `replay` and uses neither the ways nor the predicates of `rulebook`.

#![allow(dead_code, unreachable_pub, reason = "each test file uses a part of it")]

use std::collections::{BTreeMap, BTreeSet};

use grid::{Cell, CellSet, Digit, Grid, House, HouseKind, Size};
use rulebook::{Claim, Clue, Puzzle, SANDWICH};
use trail::{Argument, Cites, FactId, Proposal, TechniqueId, Trail};

/// The puzzle with these givens (one line) and sandwich clues (`row 4: 22, column 1: 0`).
pub fn puzzle(givens: &str, clues: &str) -> Puzzle {
    let givens = Grid::from_line(givens).unwrap();
    let size = givens.size();
    let clues = list(clues).map(|it| {
        let (line, value) = it.split_once(": ").unwrap();
        Clue { rule: &SANDWICH, line: house(size, line), value: value.parse().unwrap() }
    });
    Puzzle::new(givens, clues.collect::<Vec<_>>())
}

/// The parts of a comma-separated list.
pub fn list(text: &str) -> impl Iterator<Item = &str> {
    text.split(',').map(str::trim).filter(|it| !it.is_empty())
}

/// Reads `row 4`, `column 1` or `box 9`.
pub fn house(size: Size, text: &str) -> House {
    let (kind, number) = text.split_once(' ').unwrap();
    let kind = match kind {
        "row" => HouseKind::Row,
        "column" => HouseKind::Column,
        "box" => HouseKind::Box,
        _ => panic!("no house: {text}"),
    };
    size.house(kind, number.parse().unwrap()).unwrap()
}

/// Reads `r4c7`.
pub fn cell(size: Size, text: &str) -> Cell {
    let (row, column) = text.strip_prefix('r').unwrap().split_once('c').unwrap();
    size.cell(row.parse().unwrap(), column.parse().unwrap()).unwrap()
}

/// Reads a claim in one of these forms: `r4c7=5`, `r4c7!=5`, `r4c7 crust`, `r4c7 filling`,
/// `crust of row 4 in r4c1 r4c2`, `5 of box 1 in r1c1 r1c2`, `row 4 holds 2 to 3`,
/// `row 4 spent 2 4 6`.
pub fn claim(size: Size, text: &str) -> Claim {
    let digit = |it: &str| size.digit(it.parse().unwrap()).unwrap();
    let cells = |it: &str| -> CellSet { it.split_whitespace().map(|it| cell(size, it)).collect() };
    if let Some((at, value)) = text.split_once("!=") {
        return Claim::IsNot(cell(size, at), digit(value));
    }
    if let Some((at, value)) = text.split_once('=') {
        return Claim::Is(cell(size, at), digit(value));
    }
    if let Some((what, places)) = text.split_once(" in ") {
        let (what, of) = what.split_once(" of ").unwrap();
        let (house, cells) = (house(size, of), cells(places));
        return match what {
            "crust" => Claim::CrustAmong { house, cells },
            _ => Claim::DigitAmong { house, digit: digit(what), cells },
        };
    }
    if let Some((line, reach)) = text.split_once(" holds ") {
        let (fewest, most) = reach.split_once(" to ").unwrap();
        let (fewest, most) = (fewest.parse().unwrap(), most.parse().unwrap());
        return Claim::FillingCells { line: house(size, line), fewest, most };
    }
    if let Some((line, digits)) = text.split_once(" spent") {
        let filling = digits.split_whitespace().map(digit).collect();
        return Claim::Spent { line: house(size, line), filling };
    }
    match text.split_once(' ').unwrap() {
        (at, "crust") => Claim::Crust(cell(size, at)),
        (at, "filling") => Claim::Filling(cell(size, at)),
        _ => panic!("no claim: {text}"),
    }
}

/// A trail that knows the page and then, without any reason, `facts`; and their ids.
pub fn supposing(puzzle: &Puzzle, facts: &[Claim]) -> (Trail, Vec<FactId>) {
    let mut trail = Trail::from_page(puzzle);
    if facts.is_empty() {
        return (trail, vec![]);
    }
    let step = trail.push(step(facts.iter().map(|it| (*it, Cites::default())).collect())).unwrap();
    let ids = trail.step(step).concludes().to_vec();
    (trail, ids)
}

/// A step with these conclusions. Technique and argument play no part in judging.
pub fn step(conclusions: Vec<(Claim, Cites)>) -> Proposal {
    let argument =
        Argument::CrustPlaces { house: Size::NINE.house(HouseKind::Row, 1).unwrap(), cells: CellSet::EMPTY };
    Proposal { technique: TechniqueId::new("made-by-hand"), argument, conclusions }
}

/// The fact that the cell's digit is printed.
pub fn given(trail: &Trail, cell: Cell) -> FactId {
    let printed = |claim| matches!(claim, Claim::Is(at, _) if at == cell);
    trail.facts().find(|(_, it)| it.step().is_none() && printed(it.claim())).unwrap().0
}

/// Everything there is to cite: all houses, all clues and all facts of the trail.
pub fn everything(puzzle: &Puzzle, trail: &Trail) -> Cites {
    Cites {
        houses: puzzle.size().houses().collect(),
        clues: puzzle.clue_ids().map(|it| it.0).collect(),
        facts: trail.facts().map(|it| it.0).collect(),
        ..Cites::default()
    }
}

/// Checks that `filling` agrees with everything cited and breaks the claim.
#[track_caller]
pub fn assert_counterexample(
    puzzle: &Puzzle,
    trail: &Trail,
    claim: &Claim,
    cites: &Cites,
    filling: &[(Cell, Digit)],
) {
    let at: BTreeMap<Cell, u8> = filling.iter().map(|(cell, digit)| (*cell, digit.get())).collect();
    assert!(filling.is_sorted() && at.len() == filling.len(), "not in reading order: {filling:?}");
    let facts: Vec<Claim> = cites.facts.iter().map(|it| trail.fact(*it).claim()).collect();
    let clues: Vec<&Clue> = cites.clues.iter().map(|it| puzzle.clue(*it).unwrap()).collect();
    let mut houses = cites.houses.clone();
    houses.extend(clues.iter().map(|it| it.line));
    houses.extend(facts.iter().chain([claim]).filter_map(house_of));

    let last = puzzle.size().side();
    for house in &houses {
        let digits: BTreeSet<u8> = puzzle.size().cells_of(*house).iter().map(|it| at[it]).collect();
        assert!(digits.into_iter().eq(1..=last), "{house} in {filling:?}");
    }
    for clue in clues {
        let sum: u8 = between(puzzle.size(), clue.line, &at).iter().sum();
        assert_eq!(u16::from(sum), clue.value, "{clue:?} in {filling:?}");
    }
    for fact in &facts {
        assert!(is_true(puzzle.size(), fact, &at), "{fact:?} in {filling:?}");
    }
    assert!(!is_true(puzzle.size(), claim, &at), "{claim:?} is not broken by {filling:?}");
}

/// The house that a claim is about.
fn house_of(claim: &Claim) -> Option<House> {
    match *claim {
        Claim::CrustAmong { house, .. } | Claim::DigitAmong { house, .. } => Some(house),
        Claim::FillingCells { line, .. } | Claim::Spent { line, .. } => Some(line),
        _ => None,
    }
}

/// The digits between the 1 and the largest digit of a line.
fn between(size: Size, line: House, at: &BTreeMap<Cell, u8>) -> Vec<u8> {
    let digits: Vec<u8> = size.cells_of(line).iter().map(|it| at[it]).collect();
    let one = digits.iter().position(|it| *it == 1).unwrap();
    let last = digits.iter().position(|it| *it == size.side()).unwrap();
    digits[one.min(last) + 1..one.max(last)].to_vec()
}

/// What a claim says, put a second time.
fn is_true(size: Size, claim: &Claim, at: &BTreeMap<Cell, u8>) -> bool {
    let is_crust = |cell: Cell| at[&cell] == 1 || at[&cell] == size.side();
    match *claim {
        Claim::Is(cell, digit) => at[&cell] == digit.get(),
        Claim::IsNot(cell, digit) => at[&cell] != digit.get(),
        Claim::Crust(cell) => is_crust(cell),
        Claim::Filling(cell) => !is_crust(cell),
        Claim::CrustAmong { cells, .. } => cells.iter().any(is_crust),
        Claim::DigitAmong { digit, cells, .. } => cells.iter().any(|it| at[&it] == digit.get()),
        Claim::FillingCells { line, fewest, most } => {
            let n_cells = between(size, line, at).len();
            usize::from(fewest) <= n_cells && n_cells <= usize::from(most)
        }
        Claim::Spent { line, filling } => {
            let said: BTreeSet<u8> = filling.iter().map(Digit::get).collect();
            between(size, line, at).into_iter().collect::<BTreeSet<_>>() == said
        }
    }
}
