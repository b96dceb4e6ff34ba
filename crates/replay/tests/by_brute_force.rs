//! `judge` against an enumeration of all fillings, on random puzzles, claims and citations.
//!
//! The enumeration fills the touched cells one after another and tests each condition, as `rulebook`
//! defines it, as soon as all its cells are filled. It knows no ways and propagates nothing.

mod common;

use std::collections::BTreeMap;

use common::{assert_counterexample, supposing};
use grid::{Cell, CellSet, Digit, DigitSet, Grid, House, Size};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use replay::{Cap, Judge, Refusal, judge};
use rulebook::{Claim, Clue, Puzzle, Rule, SANDWICH, crusts, filling_digits};
use trail::{Cites, Trail};

/// A conclusion with what it cites.
#[derive(Debug, Clone)]
struct Case {
    puzzle: Puzzle,
    facts: Vec<Claim>,
    claim: Claim,
    houses: Vec<House>,
}

/// What a condition is, given the digits of its cells.
type Test<'a> = Box<dyn Fn(&dyn Fn(Cell) -> Digit) -> bool + 'a>;

/// Whether some filling of the touched cells agrees with everything cited and breaks the claim.
fn has_counterexample(case: &Case) -> bool {
    let size = case.puzzle.size();
    let mut conditions: Vec<(Vec<Cell>, Test)> = Vec::new();
    let mut houses = case.houses.clone();
    for clue in case.puzzle.clues() {
        let cells = size.cells_of(clue.line);
        let line = cells.clone();
        conditions.push((
            cells,
            Box::new(move |digit_at| {
                let digits: Vec<Digit> = line.iter().map(|it| digit_at(*it)).collect();
                clue.rule.allows(size, clue.value, &digits)
            }),
        ));
        houses.push(clue.line);
    }
    for (claim, expected) in case.facts.iter().map(|it| (*it, true)).chain([(case.claim, false)]) {
        let cells = match (claim.cell(), claim.house()) {
            (Some(cell), _) => vec![cell],
            (None, house) => size.cells_of(house.unwrap()),
        };
        houses.extend(claim.house());
        conditions.push((cells, Box::new(move |digit_at| claim.holds(size, digit_at) == expected)));
    }
    for house in houses {
        let cells = size.cells_of(house);
        for (at, &a) in cells.iter().enumerate() {
            for &b in &cells[..at] {
                conditions.push((vec![a, b], Box::new(move |digit_at| digit_at(a) != digit_at(b))));
            }
        }
    }

    let touched: CellSet = conditions.iter().flat_map(|it| it.0.iter().copied()).collect();
    let mut order: Vec<Cell> = touched.iter().collect();
    // Cells with many conditions first: cells that nothing ties to the others would only repeat work.
    order.sort_by_key(|cell| std::cmp::Reverse(conditions.iter().filter(|it| it.0.contains(cell)).count()));
    let due = order.iter().enumerate().map(|(at, cell)| {
        let filled = &order[..=at];
        let due = |it: &&(Vec<Cell>, Test)| it.0.contains(cell) && it.0.iter().all(|it| filled.contains(it));
        conditions.iter().filter(due).map(|it| &it.1).collect()
    });
    let due: Vec<Vec<&Test>> = due.collect();
    extends(size, &order, &due, &mut BTreeMap::new())
}

/// Whether the cells filled so far, the first of `order`, can be followed by the others.
fn extends(size: Size, order: &[Cell], due: &[Vec<&Test>], filled: &mut BTreeMap<Cell, Digit>) -> bool {
    let at = filled.len();
    let Some(cell) = order.get(at) else { return true };
    for digit in size.digits().iter() {
        filled.insert(*cell, digit);
        if due[at].iter().all(|it| it(&|cell| filled[&cell])) && extends(size, order, due, filled) {
            return true;
        }
        filled.remove(cell);
    }
    false
}

/// Completed 4x4 and 6x6 boards; the cases shuffle them.
const BOARDS: [&str; 3] = ["1234341221434321", "1234432121433412", "123456456123231564564231312645645312"];

/// A board, one of [`BOARDS`] with its digits exchanged and perhaps turned over its diagonal.
fn boards() -> impl Strategy<Value = Grid> {
    let names = (Just((1..=6).collect::<Vec<u8>>()).prop_shuffle(), 0..BOARDS.len(), any::<bool>());
    names.prop_map(|(names, at, turned)| {
        let board = Grid::from_line(BOARDS[at]).unwrap();
        let size = board.size();
        let names: Vec<u8> = names.into_iter().filter(|it| *it <= size.side()).collect();
        // Only square boxes stay boxes when turned over.
        let turned = turned && size.box_width() == size.box_height();
        Grid::from_fn(size, |cell| {
            let from = if turned { size.cell(cell.column(), cell.row()).unwrap() } else { cell };
            board.get(from).and_then(|it| size.digit(names[usize::from(it.get()) - 1]))
        })
    })
}

/// Some houses of the board. On 6x6 always among five that share many cells, or the enumeration takes
/// too long.
fn houses(size: Size) -> Vec<House> {
    match size.side() {
        4 => size.houses().collect(),
        _ => ["row 1", "row 2", "column 1", "box 1", "box 2"].map(|it| common::house(size, it)).to_vec(),
    }
}

/// A claim about the board, true of it for certain if `sound`.
fn claims(board: Grid, sound: bool) -> impl Strategy<Value = Claim> {
    let size = board.size();
    let houses = houses(size);
    let lines: Vec<House> = houses.iter().copied().filter(|it| it.is_line()).collect();
    let near: CellSet = houses.iter().flat_map(|it| size.cells_of(*it)).collect();
    let near: Vec<Cell> = near.iter().collect();
    let picks = (any::<prop::sample::Index>(), any::<prop::sample::Index>(), any::<u16>(), 0..8u8);
    picks.prop_map(move |(place, value, bits, kind)| {
        let cell = *place.get(&near);
        let house = *place.get(&houses);
        let line = *place.get(&lines);
        let digit = *value.get(&size.digits().iter().collect::<Vec<_>>());
        let cells: CellSet = size
            .cells_of(house)
            .into_iter()
            .enumerate()
            .filter(|it| bits >> it.0 & 1 == 1)
            .map(|it| it.1)
            .collect();
        let fewest = (bits % u16::from(size.side() - 1)) as u8;
        let claim = match kind {
            0 => Claim::Is(cell, digit),
            1 => Claim::IsNot(cell, digit),
            2 => Claim::Crust(cell),
            3 => Claim::Filling(cell),
            4 => Claim::CrustAmong { house, cells },
            5 => Claim::DigitAmong { house, digit, cells },
            6 => Claim::FillingCells { line, fewest, most: fewest + (bits >> 8 & 1) as u8 },
            _ => Claim::Spent { line, filling: DigitSet::from_bits(bits) & filling_digits(size) },
        };
        if sound { made_true(&board, claim) } else { claim }
    })
}

/// The claim, changed where it is not true of the board.
fn made_true(board: &Grid, claim: Claim) -> Claim {
    let size = board.size();
    let at = |cell| board.get(cell).unwrap();
    if claim.holds(size, at) {
        return claim;
    }
    let (one, last) = crusts(size);
    let places = |house: House, digit| size.cells_of(house).iter().position(|it| at(*it) == digit).unwrap();
    let between = |line: House| -> DigitSet {
        let (a, b) = (places(line, one), places(line, last));
        size.cells_of(line)[a.min(b) + 1..a.max(b)].iter().map(|it| at(*it)).collect()
    };
    let with = |house: House, mut cells: CellSet, digit| {
        cells.insert(size.cells_of(house)[places(house, digit)]);
        cells
    };
    match claim {
        Claim::Is(cell, _) => Claim::Is(cell, at(cell)),
        Claim::IsNot(cell, digit) => Claim::Is(cell, digit),
        Claim::Crust(cell) => Claim::Filling(cell),
        Claim::Filling(cell) => Claim::Crust(cell),
        Claim::CrustAmong { house, cells } => Claim::CrustAmong { house, cells: with(house, cells, one) },
        Claim::DigitAmong { house, digit, cells } => {
            Claim::DigitAmong { house, digit, cells: with(house, cells, digit) }
        }
        Claim::FillingCells { line, .. } => {
            let n_cells = between(line).len() as u8;
            Claim::FillingCells { line, fewest: n_cells, most: n_cells }
        }
        Claim::Spent { line, .. } => Claim::Spent { line, filling: between(line) },
    }
}

/// Random conclusions. Three in four are about things that are all true of one board.
fn cases() -> impl Strategy<Value = Case> {
    (boards(), prop::bool::weighted(0.75)).prop_flat_map(|(board, sound)| {
        let size = board.size();
        let houses = houses(size);
        let lines: Vec<House> = houses.iter().copied().filter(|it| it.is_line()).collect();
        let sums = SANDWICH.reachable(size);
        let clues = (prop::sample::select(lines), prop::sample::select(sums)).prop_map({
            let board = board.clone();
            move |(line, value)| {
                let digits: Vec<Digit> =
                    size.cells_of(line).into_iter().filter_map(|it| board.get(it)).collect();
                let fits = |it: &u16| SANDWICH.allows(size, *it, &digits);
                let real = SANDWICH.reachable(size).into_iter().find(fits).unwrap();
                Clue { rule: &SANDWICH, line, value: if sound { real } else { value } }
            }
        });
        (
            prop::collection::vec(clues, 0..3),
            prop::collection::vec(claims(board.clone(), sound), 0..6),
            claims(board, sound),
            prop::sample::subsequence(houses.clone(), 0..=houses.len().min(6)),
        )
            .prop_map(move |(clues, facts, claim, houses)| Case {
                puzzle: Puzzle::new(Grid::empty(size), clues),
                facts,
                claim,
                houses,
            })
    })
}

/// What the case knows, and all of it cited.
fn cited(case: &Case) -> (Trail, Cites) {
    let (trail, ids) = supposing(&case.puzzle, &case.facts);
    let cites = Cites {
        houses: case.houses.iter().copied().collect(),
        clues: case.puzzle.clue_ids().map(|it| it.0).collect(),
        facts: ids.into_iter().collect(),
        ..Cites::default()
    };
    (trail, cites)
}

/// Judges the case and compares with the enumeration; true if the claim follows.
fn agrees(case: &Case) -> bool {
    let (trail, cites) = cited(case);
    let expected = has_counterexample(case);
    match judge(&case.puzzle, &trail, &case.claim, &cites, Cap(10_000)) {
        Ok(_) => assert!(!expected, "accepted in spite of a counterexample: {case:?}"),
        Err(Refusal::Counterexample(filling)) => {
            assert!(expected, "refused without reason: {case:?}");
            assert_counterexample(&case.puzzle, &trail, &case.claim, &cites, &filling);
        }
        other => panic!("{other:?}: {case:?}"),
    }
    !expected
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_claim_is_accepted_exactly_if_no_filling_breaks_it(case in cases()) {
        agrees(&case);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn who_has_judged_much_of_a_claim_judges_it_as_who_has_judged_nothing(case in cases()) {
        let (trail, all) = cited(&case);
        let judge = Judge::new(&case.puzzle);
        let cap = Cap(10_000);
        let questions: Vec<Cites> =
            all.each().map(|it| it.left_out_of(&all)).chain([all.clone(), Cites::default()]).collect();
        // The second time around there are counterexamples to take up again.
        for cites in questions.iter().chain(questions.iter().rev()) {
            let anew = replay::judge(&case.puzzle, &trail, &case.claim, cites, cap);
            match judge.judge(&trail, &case.claim, cites, cap) {
                Err(Refusal::Counterexample(filling)) => {
                    prop_assert!(matches!(anew, Err(Refusal::Counterexample(_))), "{anew:?}");
                    assert_counterexample(&case.puzzle, &trail, &case.claim, cites, &filling);
                }
                other => prop_assert_eq!(other, anew),
            }
        }
    }
}

#[test]
fn the_random_cases_are_of_every_kind() {
    let mut runner = TestRunner::deterministic();
    let mut follows: BTreeMap<(u8, bool), u32> = BTreeMap::new();
    let mut without_citations = 0;
    for _ in 0..1000 {
        let case = cases().new_tree(&mut runner).unwrap().current();
        let outcome = agrees(&case);
        *follows.entry((case.puzzle.size().side(), outcome)).or_default() += 1;
        // Something that follows, but not from nothing.
        let bare = Case { facts: vec![], houses: vec![], ..case.clone() };
        without_citations += u32::from(outcome && has_counterexample(&bare));
    }
    for key in [(4, false), (4, true), (6, false), (6, true)] {
        assert!(follows.get(&key).is_some_and(|it| *it >= 50), "{key:?} of {follows:?}");
    }
    assert!(without_citations >= 100, "{without_citations} of {follows:?}");
}
