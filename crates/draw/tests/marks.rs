//! What a stretch of a trail marks on the board.

mod common;

use std::collections::{BTreeMap, BTreeSet};

use common::{house, size};
use draw::{Marks, marks_for};
use grid::{Cell, CellSet, Digit, DigitSet, Grid, HouseKind};
use rulebook::{Claim, Clue, ClueId, Puzzle, SANDWICH};
use trail::{Argument, Cites, FactId, Proposal, StepId, TechniqueId, Trail};

const SOME: TechniqueId = TechniqueId::new("test-technique");

fn cell(row: u8, column: u8) -> Cell {
    size(4).cell(row, column).unwrap()
}

fn cells(places: &[(u8, u8)]) -> CellSet {
    places.iter().map(|(row, column)| cell(*row, *column)).collect()
}

fn digit(value: u8) -> Digit {
    Digit::new(value).unwrap()
}

fn digits(values: &[u8]) -> DigitSet {
    values.iter().map(|it| digit(*it)).collect()
}

/// 4x4 with a given and a clue beside row 2 and column 3.
fn puzzle() -> Puzzle {
    let lines = [(HouseKind::Row, 2, 5), (HouseKind::Column, 3, 0)];
    let clues = lines.map(|(kind, number, value)| Clue {
        rule: &SANDWICH,
        line: house(size(4), kind, number),
        value,
    });
    Puzzle::new(Grid::from_line("1...............").unwrap(), clues)
}

fn clue(at: usize) -> ClueId {
    puzzle().clue_ids().nth(at).unwrap().0
}

/// A trail in which each step may have an argument of its own.
struct Story(Trail);

impl Story {
    fn new() -> Story {
        Story(Trail::from_page(&puzzle()))
    }

    fn step(&mut self, argument: Argument, conclusions: Vec<(Claim, Cites)>) -> (StepId, FactId) {
        let step = self.0.push(Proposal { technique: SOME, argument, conclusions }).unwrap();
        (step, self.0.step(step).concludes()[0])
    }

    fn say(&mut self, claim: Claim, cites: Cites) -> (StepId, FactId) {
        let argument = Argument::SeesBothCrusts { cells: CellSet::EMPTY };
        self.step(argument, vec![(claim, cites)])
    }

    fn marks(&self, steps: &[StepId]) -> (String, Marks) {
        let (grid, marks) = marks_for(&puzzle(), &self.0, steps);
        (grid.to_string(), marks)
    }
}

#[test]
fn without_steps_the_board_is_the_page() {
    let mut story = Story::new();
    story.say(Claim::Is(cell(1, 2), digit(2)), Cites::default());
    assert_eq!(story.marks(&[]), ("1...............".to_owned(), Marks::default()));
}

#[test]
fn crusts_and_filling_show_until_the_cell_is_filled() {
    let mut story = Story::new();
    let (first, crust) = story.say(Claim::Crust(cell(2, 1)), Cites::default());
    let (second, filling) = story.say(Claim::Filling(cell(2, 2)), Cites::default());
    let (third, _) = story.say(Claim::Is(cell(2, 1), digit(4)), Cites::default().fact(crust));
    let (fourth, _) = story.say(Claim::Is(cell(2, 2), digit(2)), Cites::default().fact(filling));

    let (_, marks) = story.marks(&[first]);
    assert_eq!(
        (marks.crusts, marks.filling),
        (cells(&[(2, 1)]), CellSet::EMPTY),
        "later facts are not known yet"
    );
    let (grid, marks) = story.marks(&[second]);
    assert_eq!(grid, "1...............");
    assert_eq!((marks.crusts, marks.filling), (cells(&[(2, 1)]), cells(&[(2, 2)])));
    assert_eq!(marks.conclusions, cells(&[(2, 2)]), "the first step is not of this passage");
    let (grid, marks) = story.marks(&[third]);
    assert_eq!(grid, "1...4...........");
    assert_eq!((marks.crusts, marks.filling), (CellSet::EMPTY, cells(&[(2, 2)])));
    let (grid, marks) = story.marks(&[third, fourth]);
    assert_eq!(grid, "1...42..........");
    assert_eq!((marks.crusts, marks.filling), (CellSet::EMPTY, CellSet::EMPTY));
    assert_eq!(marks.conclusions, cells(&[(2, 1), (2, 2)]));
}

#[test]
fn premises_are_what_was_there_before() {
    let mut story = Story::new();
    let given = story.0.facts().next().unwrap().0;
    let (before, old) = story.say(Claim::IsNot(cell(3, 3), digit(2)), Cites::default());
    let row = house(size(4), HouseKind::Row, 2);
    let cites = Cites::default().fact(given).fact(old).clue(clue(0)).house(row);
    let (first, fresh) = story.say(Claim::Crust(cell(2, 2)), cites);
    let (second, _) = story.say(Claim::Is(cell(2, 3), digit(2)), Cites::default().fact(fresh).fact(old));

    let (_, marks) = story.marks(&[first, second]);
    assert_eq!(marks.premises, cells(&[(1, 1), (3, 3)]), "what the passage found itself is no premise");
    assert_eq!(marks.clues_used, BTreeSet::from([clue(0)]));
    assert_eq!(marks.looked_at, BTreeSet::from([row]));
    assert!(marks.removed.is_empty());
    let (_, marks) = story.marks(&[second]);
    assert_eq!(marks.premises, cells(&[(2, 2), (3, 3)]));
    let (_, marks) = story.marks(&[before]);
    assert_eq!(marks.removed, BTreeMap::from([(cell(3, 3), digits(&[2]))]));
    assert!(marks.conclusions.is_empty(), "a struck candidate speaks for itself");
}

#[test]
fn a_removed_candidate_gives_way_to_the_digit() {
    let mut story = Story::new();
    let (first, not) = story.say(Claim::IsNot(cell(3, 3), digit(2)), Cites::default());
    let (second, _) = story.say(Claim::Is(cell(3, 3), digit(3)), Cites::default().fact(not));
    let (_, marks) = story.marks(&[first, second]);
    assert!(marks.removed.is_empty());
    assert_eq!(marks.conclusions, cells(&[(3, 3)]));
}

#[test]
fn claims_about_lines_point_at_their_clue() {
    let mut story = Story::new();
    let line = house(size(4), HouseKind::Column, 3);
    let (distance, known) = story.say(Claim::FillingCells { line, fewest: 0, most: 0 }, Cites::default());
    let spent = Claim::Spent { line, filling: DigitSet::EMPTY };
    let (second, _) = story.say(spent, Cites::default().fact(known));
    let (third, _) = story.say(Claim::Is(cell(4, 4), digit(2)), Cites::default());

    let (_, marks) = story.marks(&[distance]);
    assert!(marks.spent.is_empty());
    assert_eq!((marks.clues_used, marks.looked_at), (BTreeSet::from([clue(1)]), BTreeSet::from([line])));
    let (_, marks) = story.marks(&[second]);
    assert_eq!(marks.spent, BTreeSet::from([clue(1)]));
    let (_, marks) = story.marks(&[third]);
    assert_eq!(
        (marks.spent, marks.clues_used),
        (BTreeSet::from([clue(1)]), BTreeSet::new()),
        "spent stays spent"
    );
}

#[test]
fn shared_digits_are_pencilled_where_they_can_still_be() {
    let mut story = Story::new();
    let row = house(size(4), HouseKind::Row, 1);
    story.say(Claim::IsNot(cell(1, 3), digit(2)), Cites::default());
    let pair = cells(&[(1, 2), (1, 3)]);
    let argument = Argument::SharedDigits { house: row, cells: pair, digits: digits(&[1, 2, 3]) };
    let (step, _) =
        story.step(argument, vec![(Claim::IsNot(cell(1, 4), digit(3)), Cites::default().house(row))]);
    let (_, marks) = story.marks(&[step]);
    // The 1 is given in the row, and r1c3 is known not to be 2.
    let expected = [(cell(1, 2), digits(&[2, 3])), (cell(1, 3), digits(&[3]))];
    assert_eq!(marks.pencilled, BTreeMap::from(expected));
    assert_eq!(marks.premises, pair);
}

#[test]
fn nothing_is_pointed_at_when_everything_is() {
    let mut story = Story::new();
    let few = size(4).houses().take(4).fold(Cites::default(), Cites::house);
    let many = size(4).houses().take(5).fold(Cites::default(), Cites::house);
    let (first, _) = story.say(Claim::Crust(cell(2, 2)), few);
    let (second, _) = story.say(Claim::Crust(cell(2, 3)), many);
    assert_eq!(story.marks(&[first]).1.looked_at.len(), 4);
    assert!(story.marks(&[second]).1.looked_at.is_empty());
}

#[test]
fn premises_are_outlined_when_they_are_few() {
    let mut story = Story::new();
    let cites = |story: &mut Story, n_cells: usize| {
        let first = size(4).cells().skip(1).take(n_cells);
        first.fold(Cites::default(), |cites, cell| {
            cites.fact(story.say(Claim::IsNot(cell, digit(1)), Cites::default()).1)
        })
    };
    // A sixth of 16 cells is more than 2 and less than 3.
    let (two, three) = (cites(&mut story, 2), cites(&mut story, 3));
    let (first, _) = story.say(Claim::Crust(cell(4, 1)), two);
    let (second, _) = story.say(Claim::Crust(cell(4, 2)), three);
    assert_eq!(story.marks(&[first]).1.premises, cells(&[(1, 2), (1, 3)]));
    assert!(story.marks(&[second]).1.premises.is_empty());
}
