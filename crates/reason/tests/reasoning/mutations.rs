//! A case made by hand, and every way to spoil it that the follower must notice.
//!
//! ```text
//! . 2 3 .      Suppose r2c1 were 1. Then r1c4 is 1, since row 1 has no other place for it.
//! . . . .      But then row 1 has no place for 4: r1c1 sees the 4 of column 1.
//! . . . .
//! 4 . . 1      (The 1 at the end is not needed and not cited.)
//! ```

use grid::{Cell, CellSet, Digit, DigitSet, Grid, House, HouseKind, Size};
use rulebook::{Claim, Clue, Puzzle, SANDWICH};
use trail::{Because, Branch, Cites, End, Link, Trail};

use crate::follow::follow;

fn size() -> Size {
    Size::of_side(4).unwrap()
}

fn cell(row: u8, column: u8) -> Cell {
    size().cell(row, column).unwrap()
}

fn digits(digits: &[u8]) -> DigitSet {
    digits.iter().filter_map(|it| Digit::new(*it)).collect()
}

fn digit(digit: u8) -> Digit {
    Digit::new(digit).unwrap()
}

fn house(kind: HouseKind, number: u8) -> House {
    size().house(kind, number).unwrap()
}

/// An argument to be followed or refused.
#[derive(Clone)]
struct Argument {
    puzzle: Puzzle,
    claim: Claim,
    cites: Cites,
    branch: Branch,
}

impl Argument {
    /// What the follower says, empty if it agrees.
    fn said(&self) -> String {
        let trail = Trail::from_page(&self.puzzle);
        let followed = follow(&self.puzzle, &trail, &self.claim, &self.cites, &self.branch);
        followed.err().map_or_else(String::new, |it| it.to_string())
    }

    /// What it says of the argument with something changed.
    fn said_if(&self, change: impl Fn(&mut Argument)) -> String {
        let mut changed = self.clone();
        change(&mut changed);
        changed.said()
    }
}

/// Cites the givens of those cells.
fn cites(puzzle: &Puzzle, cells: &[Cell], houses: &[House]) -> Cites {
    let trail = Trail::from_page(puzzle);
    let givens = trail.facts().filter(|(_, it)| it.claim().cell().is_some_and(|it| cells.contains(&it)));
    let facts = givens.map(|it| it.0).collect();
    Cites { houses: houses.iter().copied().collect(), facts, ..Cites::default() }
}

fn by_hand() -> Argument {
    let puzzle = Puzzle::new(Grid::from_line(".23.........4..1").unwrap(), []);
    let (row, column) = (house(HouseKind::Row, 1), house(HouseKind::Column, 1));
    let link = Link { cell: cell(1, 4), leaves: digits(&[1]), because: Because::OnePlace(row) };
    Argument {
        claim: Claim::IsNot(cell(2, 1), digit(1)),
        cites: cites(&puzzle, &[cell(1, 2), cell(1, 3), cell(4, 1)], &[row, column]),
        branch: Branch {
            cell: cell(2, 1),
            digits: digits(&[1]),
            chain: vec![link],
            end: End::NoPlace(row, digit(4)),
        },
        puzzle,
    }
}

#[test]
fn the_case_made_by_hand_is_followed() {
    assert_eq!(by_hand().said(), "");
    let row = house(HouseKind::Row, 1);
    // Other ways to say the same.
    assert_eq!(by_hand().said_if(|it| it.branch.chain[0].because = Because::Fit(row)), "");
    assert_eq!(by_hand().said_if(|it| it.branch.end = End::NoFit(row)), "");
    assert_eq!(by_hand().said_if(|it| it.branch.end = End::NoDigit(cell(1, 1))), "");
    let split = |it: &mut Argument| {
        let part =
            |cell, digit| Branch { cell, digits: digits(&[digit]), chain: vec![], end: End::NoFit(row) };
        it.branch.chain.clear();
        it.branch.end = End::Split(vec![part(cell(1, 4), 1), part(cell(1, 4), 4)]);
    };
    assert_eq!(by_hand().said_if(split), "");
    let half = |it: &mut Argument| {
        split(it);
        let End::Split(parts) = &mut it.branch.end else { unreachable!() };
        parts.pop();
    };
    assert_eq!(by_hand().said_if(half), "case r2c1 in {1}, end: no case for {4} in r1c4");
    let of_two_cells = |it: &mut Argument| {
        split(it);
        let End::Split(parts) = &mut it.branch.end else { unreachable!() };
        parts[1].cell = cell(1, 1);
    };
    assert_eq!(by_hand().said_if(of_two_cells), "case r2c1 in {1}, end: it is split by more than one cell");
    let wrong_part = |it: &mut Argument| {
        split(it);
        let End::Split(parts) = &mut it.branch.end else { unreachable!() };
        parts[1].end = End::NoDigit(cell(4, 4));
    };
    assert_eq!(
        by_hand().said_if(wrong_part),
        "case r2c1 in {1} > r1c4 in {4}, end: r4c4 can hold {1, 2, 3, 4}"
    );
}

#[test]
fn each_spoiled_case_is_refused_where_it_is_spoiled() {
    type Change = fn(&mut Argument);
    let row = || house(HouseKind::Row, 1);
    let spoiled: [(Change, &str); 14] = [
        (|it| it.branch.digits = digits(&[2]), "does not suppose the opposite"),
        (|it| it.branch.cell = cell(3, 1), "does not suppose the opposite"),
        (|it| it.claim = Claim::Crust(cell(2, 1)), "does not suppose the opposite"),
        (|it| it.branch.chain[0].leaves = digits(&[4]), "end: 4 can be in r1c4 of row 1"),
        (|it| it.branch.chain[0].leaves = digits(&[2]), "link 1: {1, 4} is left, of which {2} is not a part"),
        (|it| it.branch.chain[0].leaves = DigitSet::EMPTY, "link 1: {1, 4} is left, of which {} is not"),
        (|it| it.branch.chain[0].leaves = digits(&[1, 4]), "link 1: it says nothing new"),
        (|it| it.branch.chain[0].because = Because::OneDigit, "link 1: {1, 4} is left, not one digit"),
        (
            |it| it.branch.chain[0].because = Because::OnePlace(house(HouseKind::Box, 2)),
            "link 1: box 2 is not cited",
        ),
        (
            |it| it.branch.chain[0].because = Because::Fit(house(HouseKind::Column, 1)),
            "link 1: the cell is not in column 1",
        ),
        (
            |it| it.branch.chain[0].because = Because::Known(Claim::Filling(cell(1, 4))),
            "link 1: Filling(r1c4) is not cited",
        ),
        (|it| it.branch.chain.clear(), "end: 4 can be in r1c4 of row 1"),
        (|it| it.branch.end = End::NoDigit(cell(1, 4)), "end: r1c4 can hold {1}"),
        (|it| it.branch.end = End::Split(Vec::new()), "end: it is split into no cases"),
    ];
    for (change, expected) in spoiled {
        let said = by_hand().said_if(change);
        assert!(said.contains(expected), "expected {expected}, got {said:?}");
    }
    // Without any one citation.
    let whole = by_hand();
    for cited in whole.cites.each() {
        let said = whole.said_if(|it| it.cites = cited.left_out_of(&it.cites));
        assert!(!said.is_empty(), "{cited} is not missed");
    }
    assert_eq!(
        whole.said_if(|it| it.cites.houses = [row()].into()),
        "case r2c1 in {1}, link 1: 1 can be in [r1c1, r1c4] of row 1"
    );
}

#[test]
fn clues_and_facts_about_houses_are_held_to_their_meaning() {
    // 4x4 with the sum 5 beside row 1: its crusts are at the ends, so a 1 in r1c2 has no way.
    let line = house(HouseKind::Row, 1);
    let puzzle = Puzzle::new(Grid::empty(size()), [Clue { rule: &SANDWICH, line, value: 5 }]);
    let clue = puzzle.clue_ids().next().unwrap().0;
    let it = Argument {
        claim: Claim::Filling(cell(1, 2)),
        cites: Cites::default().clue(clue),
        branch: Branch {
            cell: cell(1, 2),
            digits: digits(&[1, 4]),
            chain: Vec::new(),
            end: End::NoWay(clue),
        },
        puzzle: puzzle.clone(),
    };
    assert_eq!(it.said(), "");
    let at_the_end = |it: &mut Argument| {
        it.claim = Claim::Filling(cell(1, 1));
        it.branch.cell = cell(1, 1);
    };
    assert_eq!(it.said_if(at_the_end), "case r1c1 in {1, 4}, end: {2, 3} makes the 5 of row 1");
    assert!(it.said_if(|it| it.cites = Cites::default().house(line)).contains("the clue is not cited"));

    // The same from facts about the line.
    let everywhere: CellSet = size().cells_of(line).into_iter().collect();
    let middle: CellSet = [cell(1, 2), cell(1, 3)].into_iter().collect();
    let facts = [
        (Claim::FillingCells { line, fewest: 2, most: 2 }, true),
        (Claim::FillingCells { line, fewest: 1, most: 2 }, false),
        (Claim::Spent { line, filling: digits(&[2, 3]) }, true),
        (Claim::Spent { line, filling: digits(&[3]) }, false),
        (Claim::CrustAmong { house: line, cells: everywhere }, false),
        (Claim::DigitAmong { house: line, digit: digit(2), cells: middle }, false),
    ];
    for (fact, is_broken) in facts {
        let mut trail = Trail::from_page(&puzzle);
        let known = trail::Proposal {
            technique: trail::TechniqueId::new("test-given"),
            argument: trail::Argument::SeesBothCrusts { cells: CellSet::EMPTY },
            conclusions: vec![(fact, Cites::default())],
        };
        let step = trail.push(known).unwrap();
        let cites = Cites::default().fact(trail.step(step).concludes()[0]);
        let branch = Branch { end: End::Breaks(fact), ..it.branch.clone() };
        let followed = follow(&puzzle, &trail, &it.claim, &cites, &branch);
        assert_eq!(followed.is_ok(), is_broken, "{fact:?}: {followed:?}");
    }
}
