//! What holds for the words of any step, over many steps; and the words that are no step's.

use crate::support::{Scene, cell, cells, check, digit, digits, house, recompute};
use grid::{CellSet, DigitSet, Size};
use rulebook::{Claim, Rule, SANDWICH, crusts, filling_digits, filling_sets, filling_total};
use tell::{claim, exchange_explanation, says, technique_description, technique_name};
use trail::{Argument, Because, Branch, Cites, End, Link, Side, StepId, TechniqueId};

const SIDES: [u8; 5] = [4, 6, 9, 12, 16];
/// On large boards a sum has thousands of sets; the first few of each sum are tried.
const SETS_A_SUM: usize = 6;

/// Tells the step and checks it; gives how many sums it works out, and the text.
fn told(name: &str, scene: &Scene, step: StepId) -> (usize, String) {
    let text = says(&scene.puzzle, &scene.trail, step);
    check(name, &scene.puzzle, &scene.trail, step, &text);
    (recompute(&text).unwrap(), text)
}

#[test]
fn every_distance_is_worked_out_rightly() {
    let mut n_sums = 0;
    for side in SIDES {
        let size = Size::of_side(side).unwrap();
        let all: Vec<_> = filling_digits(size).iter().collect();
        for sum in SANDWICH.reachable(size).into_iter().filter(|it| *it > 0) {
            let sets = filling_sets(size, sum);
            let (fewest, most) = (sets[0].len(), sets[sets.len() - 1].len());
            let over: DigitSet = all.iter().take(most + 1).copied().collect();
            let mut scene = Scene::new(side, &[("column 2", sum)], &[]);
            let clue = scene.clue("column 2");
            let line = house("column 2");
            let (fewest, most) = (fewest as u8, most as u8);
            let argument = Argument::CrustDistance {
                clue,
                line,
                sum,
                fewest,
                most,
                short: all.iter().rev().take(usize::from(fewest) - 1).copied().collect(),
                over: if over.sum() > sum { over } else { DigitSet::EMPTY },
            };
            let step = scene.push(
                argument,
                &[Claim::FillingCells { line, fewest, most }],
                Cites::default().clue(clue),
            );
            n_sums += told(&format!("{size} {sum}"), &scene, step).0;
        }
    }
    assert!(n_sums > 300, "{n_sums}");
}

#[test]
fn every_list_of_sets_adds_up() {
    for side in SIDES {
        let size = Size::of_side(side).unwrap();
        let total = filling_total(size);
        // Large boards have thousands of sets a sum: some of their sums will do.
        let every = if side > 9 { 9 } else { 1 };
        for value in SANDWICH.reachable(size).into_iter().step_by(every) {
            for part in [Side::Between, Side::Outside] {
                let sum = if part == Side::Between { value } else { total - value };
                let sets = filling_sets(size, sum);
                let mut scene = Scene::new(side, &[("row 1", value)], &[]);
                let (clue, line) = (scene.clue("row 1"), house("row 1"));
                let removed = scene.know(&[Claim::IsNot(cell("r1c2"), digit(2))]);
                let argument = Argument::Sets {
                    clue,
                    line,
                    side: part,
                    sum,
                    cells: (0, side - 2),
                    sets: sets.clone(),
                    excluded: Vec::new(),
                };
                let claim = Claim::Spent { line, filling: filling_sets(size, value)[0] };
                let step = scene.push(argument, &[claim], Cites::default().clue(clue).fact(removed[0]));
                let (n_sums, text) = told(&format!("{size} {value} {part:?}"), &scene, step);
                assert_eq!(n_sums, usize::from(part == Side::Outside));

                // Each set that is listed makes the sum.
                let listed: Vec<u16> = text
                    .split("It can ")
                    .skip(1)
                    .filter(|it| !it.starts_with("be made"))
                    .flat_map(sums_listed)
                    .collect();
                assert!(listed.iter().all(|it| *it == sum), "{text}");
                if (2..=8).contains(&sets.len()) {
                    assert_eq!(listed.len(), sets.len(), "{text}");
                }
            }
        }
    }
}

/// What each set adds up to in a text such as `be 2 + 8, 3 + 7 or 4 + 6. So`, as far as its sentence goes.
fn sums_listed(text: &str) -> Vec<u16> {
    let sentence = text.split(['.', '(']).next().unwrap_or_default();
    let sets = sentence.trim_start_matches("also ").trim_start_matches("be ").split([',']);
    let added = |set: &str| {
        set.trim_end_matches(" alone").split('+').map(|it| it.trim().parse::<u16>().unwrap()).sum()
    };
    sets.flat_map(|it| it.split(" or ")).map(added).collect()
}

#[test]
fn every_remainder_is_worked_out_rightly() {
    let mut n_sums = 0;
    for side in SIDES {
        let size = Size::of_side(side).unwrap();
        let total = filling_total(size);
        for sum in SANDWICH.reachable(size).into_iter().filter(|it| *it > 0) {
            for set in filling_sets(size, sum).into_iter().take(SETS_A_SUM) {
                let last = set.iter().next().unwrap();
                for part in [Side::Between, Side::Outside] {
                    let value = if part == Side::Between { sum } else { total - sum };
                    let mut scene = Scene::new(side, &[("row 1", value)], &[]);
                    let (clue, line) = (scene.clue("row 1"), house("row 1"));
                    let placed = set.without(last);
                    let cell = cell("r1c2");
                    let argument =
                        Argument::Remainder { clue, line, side: part, sum, placed, cell, digit: last };
                    let step = scene.push(argument, &[Claim::Is(cell, last)], Cites::default().clue(clue));
                    let (n, text) = told(&format!("{size} {sum} {part:?}"), &scene, step);
                    n_sums += n;
                    assert!(placed.is_empty() || text.contains(&format!("= {last}.")), "{text}");
                }
            }
        }
    }
    assert!(n_sums > 2000, "{n_sums}");
}

#[test]
fn whole_lines_name_the_crusts_of_their_size() {
    for side in SIDES {
        let size = Size::of_side(side).unwrap();
        let total = filling_total(size);
        let mut scene = Scene::new(side, &[("row 1", total), ("row 2", 0)], &[]);
        let (clue, line) = (scene.clue("row 1"), house("row 1"));
        let ends = [size.cell(1, 1), size.cell(1, side)].map(|it| Claim::Crust(it.unwrap()));
        let argument = Argument::CrustsAtEnds { clue, line, sum: total };
        let step = scene.push(argument, &ends, Cites::default().clue(clue));
        assert_eq!(told("at ends", &scene, step).0, 1);

        let (clue, line) = (scene.clue("row 2"), house("row 2"));
        let spent = Claim::Spent { line, filling: DigitSet::EMPTY };
        let step = scene.push(Argument::CrustsTouch { clue, line }, &[spent], Cites::default().clue(clue));
        let (_, text) = told("touch", &scene, step);
        assert!(text.contains(&format!("its 1 and its {side} stand side by side")), "{text}");
    }
}

/// However many conclusions there are, all are said and no sentence grows too long.
#[test]
fn many_conclusions_are_all_said() {
    let size = Size::of_side(16).unwrap();
    let mut scene = Scene::new(16, &[], &[]);
    let everywhere: Vec<Claim> =
        size.cells().filter(|it| (it.row() * 3 + it.column()) % 5 == 0).map(Claim::Filling).collect();
    let all: CellSet = everywhere.iter().filter_map(Claim::cell).collect();
    let step = scene.push(Argument::SeesBothCrusts { cells: all }, &everywhere, Cites::default());
    told("filling", &scene, step);

    let lost: Vec<Claim> = cells("r1c1 r1c3 r1c5 r1c7 r1c9 r1c11 r1c13 r1c15")
        .iter()
        .flat_map(|at| filling_digits(size).iter().map(move |it| Claim::IsNot(at, it)))
        .collect();
    let (_, last) = crusts(size);
    let argument = Argument::SharedDigits {
        house: house("row 1"),
        cells: cells("r1c2 r1c4"),
        digits: digits(&[1]).with(last),
    };
    let step = scene.push(argument, &lost, Cites::default().house(house("row 1")));
    told("removed", &scene, step);
}

#[test]
fn steps_are_referred_to_unless_the_board_shows_it() {
    let mut scene = Scene::new(9, &[], &[("r9c7", 3)]);
    let placed = scene.know(&[Claim::Is(cell("r1c7"), digit(5))]);
    let filling = scene.know(&[Claim::Filling(cell("r4c7"))]);
    let cites = scene.givens().fact(placed[0]).fact(filling[0]);
    let argument = Argument::OneDigit { cell: cell("r4c7"), digit: digit(2) };
    let step = scene.push(argument, &[Claim::Is(cell("r4c7"), digit(2))], cites);
    let text = says(&scene.puzzle, &scene.trail, step);
    assert!(text.contains("(step 2)") && !text.contains("step 1"), "{text}");
}

#[test]
fn conclusions_that_were_sliced_away_are_not_said() {
    let mut scene = Scene::new(9, &[], &[]);
    let argument = Argument::CrustsFound { house: house("row 4"), crusts: cells("r4c1 r4c5") };
    let claims: Vec<Claim> = cells("r4c2 r4c3 r4c4 r4c9").iter().map(Claim::Filling).collect();
    let step = scene.push(argument, &claims, Cites::default().house(house("row 4")));
    let kept = scene.trail.step(step).concludes()[3];
    let sliced = scene.trail.needed_for([kept]);
    let (step, _) = sliced.steps().next().unwrap();
    assert_eq!(
        says(&scene.puzzle, &sliced, step),
        "The two crusts of row 4 are known: r4c1 and r4c5. So r4c9 is filling."
    );
}

#[test]
fn arguments_by_cases_are_plain_on_every_size() {
    for side in SIDES {
        let size = Size::of_side(side).unwrap();
        let (one, last) = crusts(size);
        let supposed = [DigitSet::only(one).with(last), filling_digits(size), size.digits().without(one)];
        let claims = [Claim::Filling(cell("r1c1")), Claim::Crust(cell("r1c1")), Claim::Is(cell("r1c1"), one)];
        for (digits, claim) in supposed.into_iter().zip(claims) {
            let mut scene = Scene::new(side, &[], &[]);
            let end = End::NoPlace(house("row 2"), last);
            let branch = Branch { cell: cell("r1c1"), digits, chain: Vec::new(), end };
            let step = scene.push(
                Argument::Cases { branches: vec![branch], is_smallest: true },
                &[claim],
                Cites::default().house(house("row 2")),
            );
            told("cases", &scene, step);
        }
    }
}

/// The largest board has the longest lists of digits.
#[test]
fn arguments_by_cases_stay_readable_on_the_largest_board() {
    let size = Size::of_side(16).unwrap();
    let mut scene = Scene::new(16, &[("row 1", 60), ("row 2", 61)], &[]);
    let filling = filling_digits(size).without(digit(15));
    let spent = Claim::Spent { line: house("row 3"), filling };
    let facts = scene.know(&[spent]);
    let clues = ["row 1", "row 2"].map(|it| scene.clue(it));
    let link = |at: &str, leaves, because| Link { cell: cell(at), leaves, because };
    let wide = size.digits().without(digit(3)).without(digit(8));
    let chain = ["r1c1", "r1c10", "r1c11", "r2c12", "r2c13"].iter().zip([0, 0, 0, 1, 1]);
    let mut chain: Vec<Link> = chain.map(|(at, clue)| link(at, wide, Because::Clue(clues[clue]))).collect();
    chain.push(link("r3c16", digits(&[15]), Because::Known(spent)));
    chain.push(link("r3c15", wide, Because::Known(spent)));
    let branch = Branch { cell: cell("r10c10"), digits: wide, chain, end: End::Breaks(spent) };
    let claims = [Claim::IsNot(cell("r10c10"), digit(2))];
    let cites = Cites::default().clue(clues[0]).clue(clues[1]).fact(facts[0]);
    let step = scene.push(Argument::Cases { branches: vec![branch], is_smallest: true }, &claims, cites);
    told("largest", &scene, step);
}

#[test]
fn claims_in_words() {
    let row = house("row 4");
    let between = |fewest, most| Claim::FillingCells { line: row, fewest, most };
    let among = |text| Claim::CrustAmong { house: row, cells: cells(text) };
    let held = |text| Claim::DigitAmong { house: row, digit: digit(5), cells: cells(text) };
    let spent = |set| Claim::Spent { line: row, filling: digits(set) };
    let cases = [
        (Claim::Is(cell("r4c7"), digit(5)), "r4c7 is 5"),
        (Claim::IsNot(cell("r4c7"), digit(5)), "r4c7 is not 5"),
        (Claim::Crust(cell("r4c7")), "r4c7 is a crust"),
        (Claim::Filling(cell("r4c7")), "r4c7 is filling"),
        (among("r4c1 r4c2"), "a crust of row 4 is in r4c1 or r4c2"),
        (held("r4c1 r4c2 r4c5"), "the 5 of row 4 is in r4c1, r4c2 or r4c5"),
        (held("r4c1 r4c2 r4c3 r4c4 r4c7"), "the 5 of row 4 is among r4c1 to r4c4 and r4c7"),
        (between(5, 6), "row 4 has five or six cells between its crusts"),
        (between(3, 5), "row 4 has three to five cells between its crusts"),
        (between(2, 2), "row 4 has two cells between its crusts"),
        (between(1, 1), "row 4 has one cell between its crusts"),
        (between(0, 0), "row 4 has nothing between its crusts"),
        (between(0, 3), "row 4 has at most three cells between its crusts"),
        (between(4, 7), "row 4 has at least four cells between its crusts"),
        (spent(&[2, 3, 8]), "row 4's filling is 2, 3 and 8; its clue is spent"),
        (spent(&[]), "row 4 has nothing between its crusts; its clue is spent"),
    ];
    for (fact, expected) in cases {
        assert_eq!(claim(Size::NINE, &fact), expected);
    }
}

#[test]
fn every_technique_has_a_name_and_one_plain_sentence() {
    let known = tell::known_techniques();
    let mut names: Vec<&str> = known.iter().map(|it| it.name).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), known.len(), "two techniques have one name");
    for words in known {
        assert_eq!(technique_name(words.id), words.name);
        let says = technique_description(words.id);
        assert!(says.ends_with('.') && says.matches(". ").count() == 0, "{says}");
        assert!(says.starts_with(char::is_uppercase) && crate::support::n_words(says) <= 30, "{says}");
    }
    assert!(known.iter().any(|it| it.id == TechniqueId::SMALL_ARGUMENT));
    let unknown = TechniqueId::new("by-hand");
    assert_eq!((technique_name(unknown), technique_description(unknown)), ("by-hand", ""));
}

#[test]
fn an_exchange_is_explained() {
    let nine = exchange_explanation(Size::NINE, digit(1), digit(9));
    assert_eq!(
        nine,
        "No given is 1 or 9, and a sandwich sum stays the same when its 1 and its 9 change places. So \
         exchanging every 1 with every 9 turns any solution into another one. The number of solutions is \
         therefore never one: it is none, or even. A given 1 or 9 would tell them apart."
    );
    let six = exchange_explanation(Size::of_side(6).unwrap(), digit(1), digit(6));
    assert!(six.contains("its 1 and its 6"), "{six}");
    let others = exchange_explanation(Size::NINE, digit(3), digit(5));
    assert!(others.contains("every clue stays true when they change places"), "{others}");
    for text in [nine, six, others] {
        assert!(
            crate::support::sentences(&text).iter().all(|it| crate::support::n_words(it) <= 30),
            "{text}"
        );
    }
}

/// The readers that the other tests trust do notice faults.
#[test]
fn the_checks_can_fail() {
    assert_eq!(recompute("It holds 7 + 8 = 15, and 35 − 29 = 6."), Ok(2));
    assert!(recompute("It holds 7 + 8 = 16.").is_err());
    assert!(recompute("So 35 − 29 = 7 is left.").is_err());
    assert_eq!(crate::support::sentences("Case 1.1. Where? So r1c1 is 5.\nDone.").len(), 4);
    assert_eq!(crate::support::cells_named("r4c1 to r4c4, r6c2.").len(), 5);
    let houses: Vec<String> =
        crate::support::houses_named("rows 2 to 4 and 7, box 3; row 9's clue of 20").into_iter().collect();
    assert_eq!(houses, ["box 3", "row 2", "row 3", "row 4", "row 7", "row 9"]);
    let numbers: Vec<u16> =
        crate::support::numbers_named("In row 4 (steps 2 and 3) the 5 and 7 of r1c2. Case 1.2. 9")
            .into_iter()
            .collect();
    assert_eq!(numbers, [5, 7, 9]);
}
