//! Whole walkthroughs: accepted as they stand, and refused at the fact where something is wrong.

mod common;

use common::{cell, claim, given, house, puzzle, step};
use grid::{Cell, CellSet, DigitSet, HouseKind, Size};
use replay::{Cap, Refusal, Spare, judge, replay};
use rulebook::{Claim, Puzzle};
use trail::{Cited, Cites, FactId, Theme, Trail, Walkthrough};

const CAP: Cap = Cap(100);

fn told(trail: Trail) -> Walkthrough {
    Walkthrough::new(trail, |_, _| Theme::Digits)
}

/// 4x4, crusts 1 and 4. Row 1 has the sum 5, so its crusts are at the ends.
fn page() -> Puzzle {
    puzzle("4...............", "row 1: 5, column 1: 2, row 4: 2, column 4: 5")
}

/// Facts of the trail so far that make these claims.
fn find(trail: &Trail, size: Size, claims: &str) -> Vec<FactId> {
    let known = |it: &str| trail.facts().find(|(_, fact)| fact.claim() == claim(size, it)).unwrap().0;
    common::list(claims).map(known).collect()
}

/// A walkthrough of [`page`] up to its bottom right corner: each step a conclusion, houses, clues (by
/// their lines) and facts.
const STEPS: [[&str; 4]; 7] = [
    ["r1c4 crust", "", "row 1", ""],
    ["r1c4=1", "row 1", "", "r1c1=4, r1c4 crust"],
    ["r4c4 crust", "", "column 4", ""],
    ["r4c4=4", "column 4", "", "r1c4=1, r4c4 crust"],
    ["column 1 holds 1 to 1", "", "column 1", ""],
    ["r3c1=1", "", "", "column 1 holds 1 to 1, r1c1=4"],
    ["r2c1=2", "", "column 1", "r3c1=1"],
];

/// Tells `STEPS`, with the citations of step `at` (from 0) changed by `change`.
fn walkthrough(at: usize, change: impl Fn(&mut Claim, &mut Cites)) -> Walkthrough {
    let page = page();
    let size = page.size();
    let mut trail = Trail::from_page(&page);
    for (number, [conclusion, houses, clues, facts]) in STEPS.iter().enumerate() {
        let line = |it| page.clue_ids().find(|(_, clue)| clue.line == house(size, it)).unwrap().0;
        let mut cites = Cites {
            houses: common::list(houses).map(|it| house(size, it)).collect(),
            clues: common::list(clues).map(line).collect(),
            facts: find(&trail, size, facts).into_iter().collect(),
            ..Cites::default()
        };
        let mut conclusion = claim(size, conclusion);
        if number == at {
            change(&mut conclusion, &mut cites);
        }
        // Later steps find what they cite by its claim, so a changed conclusion stands beside the right
        // one.
        let right = claim(size, STEPS[number][0]);
        let mut conclusions = vec![(conclusion, cites.clone())];
        if conclusion != right {
            conclusions.push((right, cites));
        }
        trail.push(step(conclusions)).unwrap();
    }
    told(trail)
}

#[test]
fn a_sound_walkthrough_is_accepted() {
    let page = page();
    let told = walkthrough(0, |_, _| {});
    let checked = replay(&page, told.clone(), CAP).unwrap();
    assert_eq!(checked.walkthrough(), &told);
    // Each of these steps is seen at the first node.
    assert_eq!(checked.nodes(), STEPS.len() as u64);
    assert_eq!(checked.walkthrough().board(&page).to_string(), "4..12...1......4");
    assert_eq!(replay(&page, told, CAP).unwrap(), checked);
}

#[test]
fn each_missing_citation_is_noticed_at_its_step() {
    let page = page();
    for at in 0..STEPS.len() {
        let whole = walkthrough(at, |_, _| {});
        let fact = whole.trail().steps().nth(at).unwrap().1.concludes()[0];
        let cites = whole.trail().fact(fact).cites().unwrap().clone();
        let without: Vec<Cites> = (cites.houses.iter())
            .map(|it| Cites { houses: &cites.houses - &[*it].into(), ..cites.clone() })
            .chain(
                cites.clues.iter().map(|it| Cites { clues: &cites.clues - &[*it].into(), ..cites.clone() }),
            )
            .chain(
                cites.facts.iter().map(|it| Cites { facts: &cites.facts - &[*it].into(), ..cites.clone() }),
            )
            .collect();
        assert!(!without.is_empty());
        for fewer in without {
            let told = walkthrough(at, |_, cites| *cites = fewer.clone());
            match replay(&page, told, CAP) {
                Err((refused, Refusal::Counterexample(_))) => assert_eq!(refused, fact, "{fewer:?}"),
                other => panic!("step {at} with {fewer:?} gave {other:?}"),
            }
        }
    }
}

#[test]
fn each_premise_to_spare_is_refused_at_its_step() {
    let page = page();
    let box_four = house(page.size(), "box 4");
    for at in 0..STEPS.len() {
        let whole = walkthrough(at, |_, _| {});
        let fact = whole.trail().steps().nth(at).unwrap().1.concludes()[0];
        let more = walkthrough(at, |_, cites| *cites = cites.clone().house(box_four));
        let spare = Refusal::Spare(Spare { cited: Cited::House(box_four), is_proved: true });
        assert_eq!(replay(&page, more, CAP), Err((fact, spare)), "step {at}");
        // Told beside the premises it is fine.
        let beside = |cites: &Cites| cites.clone().house(box_four).resting_on(cites);
        let told = walkthrough(at, |_, cites| *cites = beside(cites));
        let checked = replay(&page, told, CAP).unwrap();
        assert!(checked.walkthrough().trail().fact(fact).cites().unwrap().has(Cited::House(box_four)));
    }
}

#[test]
fn what_is_told_beside_proves_nothing() {
    let page = page();
    for at in 0..STEPS.len() {
        let whole = walkthrough(at, |_, _| {});
        let fact = whole.trail().steps().nth(at).unwrap().1.concludes()[0];
        let cites = whole.trail().fact(fact).cites().unwrap().clone();
        for cited in cites.each() {
            let premises = cited.left_out_of(&cites);
            let told = walkthrough(at, |_, cites| *cites = cites.clone().resting_on(&premises));
            match replay(&page, told, CAP) {
                Err((refused, Refusal::Counterexample(_))) => assert_eq!(refused, fact, "{cited}"),
                other => panic!("step {at} without {cited} gave {other:?}"),
            }
        }
    }
}

#[test]
fn the_first_wrong_conclusion_is_named() {
    let page = page();
    let size = page.size();
    let told = walkthrough(3, |conclusion, _| *conclusion = claim(size, "r4c4=1"));
    let wrong = find(told.trail(), size, "r4c4=1")[0];
    let (refused, refusal) = replay(&page, told.clone(), CAP).unwrap_err();
    assert_eq!(refused, wrong);
    let Refusal::Counterexample(filling) = refusal else { panic!("{refusal:?}") };
    let fact = told.trail().fact(wrong);
    let cites = fact.cites().unwrap();
    common::assert_counterexample(&page, told.trail(), &fact.claim(), cites, &filling);
}

#[test]
fn givens_are_read_off_the_page() {
    let told = walkthrough(0, |_, _| {});
    let first = told.trail().facts().next().unwrap().0;
    let others = [
        ("....4...........", "the cell is empty"),
        ("3...............", "another digit is printed"),
        ("................", "nothing is printed"),
    ];
    for (givens, why) in others {
        let other = puzzle(givens, "row 1: 5, column 1: 2, row 4: 2, column 4: 5");
        assert_eq!(replay(&other, told.clone(), CAP), Err((first, Refusal::NotOnPage)), "{why}");
    }
    // The page is looked at before any step is.
    let nonsense = walkthrough(0, |conclusion, _| *conclusion = claim(page().size(), "r1c4=4"));
    let other = puzzle("................", "");
    assert_eq!(replay(&other, nonsense, CAP), Err((first, Refusal::NotOnPage)));
    // A given of a larger board lies off this one.
    let large = puzzle(&format!("{}5", ".".repeat(80)), "");
    let told = told_of_page(&large);
    let first = told.trail().facts().next().unwrap().0;
    assert_eq!(replay(&page(), told, CAP), Err((first, Refusal::NotOnPage)));
}

fn told_of_page(puzzle: &Puzzle) -> Walkthrough {
    told(Trail::from_page(puzzle))
}

#[test]
fn clues_of_another_puzzle_are_unknown() {
    let told = walkthrough(0, |_, _| {});
    let fewer = puzzle("4...............", "row 1: 5, column 1: 2, row 4: 2");
    // The third step cites the clue of column 4, the last of four.
    let third = told.trail().steps().nth(2).unwrap().1.concludes()[0];
    let last = page().clue_ids().last().unwrap().0;
    assert_eq!(replay(&fewer, told, CAP), Err((third, Refusal::UnknownClue(last))));
}

#[test]
fn a_clue_of_the_same_number_but_another_value_proves_something_else() {
    let told = walkthrough(0, |_, _| {});
    let first = told.trail().steps().next().unwrap().1.concludes()[0];
    let other = puzzle("4...............", "row 1: 3, column 1: 2, row 4: 2, column 4: 5");
    let refused = replay(&other, told, CAP).unwrap_err();
    assert!(refused.0 == first && matches!(refused.1, Refusal::Counterexample(_)), "{refused:?}");
}

#[test]
fn claims_without_a_meaning_on_the_board_are_refused() {
    let page = page();
    let trail = Trail::from_page(&page);
    let size = page.size();
    let row = |size: Size, number| size.house(HouseKind::Row, number).unwrap();
    let beyond = Size::NINE.cell(9, 9).unwrap();
    let digit = |value| Size::NINE.digit(value).unwrap();
    let cells = |cells: &[Cell]| -> CellSet { cells.iter().copied().collect() };
    let at = |it| cell(size, it);
    let claims = [
        Claim::Is(beyond, digit(1)),
        Claim::IsNot(at("r1c2"), digit(9)),
        Claim::Filling(beyond),
        Claim::CrustAmong { house: row(Size::NINE, 9), cells: CellSet::EMPTY },
        Claim::CrustAmong { house: row(size, 1), cells: cells(&[at("r1c1"), at("r2c1")]) },
        Claim::DigitAmong { house: row(size, 1), digit: digit(1), cells: cells(&[beyond]) },
        Claim::DigitAmong { house: row(size, 1), digit: digit(5), cells: cells(&[at("r1c1")]) },
        Claim::FillingCells { line: row(Size::NINE, 9), fewest: 0, most: 7 },
        Claim::Spent { line: row(Size::NINE, 9), filling: DigitSet::EMPTY },
        Claim::Spent { line: row(size, 1), filling: size.digits() },
        Claim::Spent { line: row(size, 1), filling: [digit(1)].into_iter().collect() },
    ];
    for claim in claims {
        let got = judge(&page, &trail, &claim, &Cites::default(), CAP);
        assert_eq!(got, Err(Refusal::NotOnPage), "{claim:?}");
        // The same where it is cited.
        let (trail, ids) = common::supposing(&page, &[claim]);
        let cites = Cites::default().fact(ids[0]);
        let got = judge(&page, &trail, &Claim::Crust(at("r1c1")), &cites, CAP);
        assert_eq!(got, Err(Refusal::NotOnPage), "citing {claim:?}");
    }
    let cites = Cites::default().house(Size::NINE.house(HouseKind::Box, 9).unwrap());
    let got = judge(&page, &trail, &Claim::Crust(at("r1c1")), &cites, CAP);
    assert_eq!(got, Err(Refusal::NotOnPage));
}

#[test]
fn contradictions_prove_anything() {
    // Two crusts and a third in one row: whatever is claimed, no filling agrees with what is cited.
    let puzzle = puzzle("1..4............", "");
    let (trail, ids) = common::supposing(&puzzle, &[claim(puzzle.size(), "r1c2 crust")]);
    let mut cites = Cites::default().house(house(puzzle.size(), "row 1")).fact(ids[0]);
    for at in ["r1c1", "r1c4"] {
        cites = cites.fact(given(&trail, cell(puzzle.size(), at)));
    }
    let anything = claim(puzzle.size(), "r4c4=2");
    assert_eq!(judge(&puzzle, &trail, &anything, &cites, CAP), Ok(1));
}

#[test]
fn refusals_say_what_is_wrong() {
    let page = page();
    let trail = Trail::from_page(&page);
    let is_two = claim(page.size(), "r1c2=2");
    let cites = Cites::default().clue(page.clue_ids().next().unwrap().0);
    let refusal = judge(&page, &trail, &is_two, &cites, CAP).unwrap_err();
    assert_eq!(refusal.to_string(), "it does not follow from what it cites: r1c1=1 r1c2=3 r1c3=2 r1c4=4");
    let last = page.clue_ids().last().unwrap().0;
    assert_eq!(Refusal::UnknownClue(last).to_string(), "it cites clue 4, which the puzzle does not have");
    assert_eq!(Refusal::NotOnPage.to_string(), "it speaks of something that is not on the page");
    let spare = |is_proved| Refusal::Spare(Spare { cited: Cited::Clue(last), is_proved }).to_string();
    assert_eq!(spare(true), "it follows without clue 4, which it cites");
    assert_eq!(spare(false), "it was not shown to need clue 4, which it cites");
    assert_eq!(
        judge(&page, &trail, &is_two, &cites, Cap(0)).unwrap_err().to_string(),
        "the search for a counterexample was not finished"
    );
}
