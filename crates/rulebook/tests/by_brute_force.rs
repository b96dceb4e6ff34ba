//! Holds the two forms of every condition together, and the sandwich facts of a 9x9 line against an
//! enumeration of all its 9! orders.

use std::collections::{BTreeMap, BTreeSet};

use grid::{Cell, CellSet, Digit, DigitSet, HouseKind, Size};
use rulebook::{Claim, Clue, Rule, SANDWICH, Ways, crusts, filling_digits, filling_sets, filling_total};

/// Calls `visit` with every order of the digits 1 to `n`.
fn each_order(n: u8, visit: &mut impl FnMut(&[Digit])) {
    fn extend(line: &mut Vec<Digit>, rest: DigitSet, visit: &mut impl FnMut(&[Digit])) {
        if rest.is_empty() {
            return visit(line);
        }
        for digit in rest.iter() {
            line.push(digit);
            extend(line, rest.without(digit), visit);
            line.pop();
        }
    }
    extend(&mut Vec::new(), DigitSet::up_to(n), visit);
}

fn sum_between(size: Size, line: &[Digit]) -> u16 {
    let (one, last) = crusts(size);
    let places: Vec<usize> = (0..line.len()).filter(|at| line[*at] == one || line[*at] == last).collect();
    line[places[0] + 1..places[1]].iter().map(|it| u16::from(it.get())).sum()
}

fn lies_in(ways: &Ways, digit_at: impl Fn(Cell) -> Digit) -> bool {
    ways.iter().any(|way| ways.cells().iter().zip(way).all(|(cell, digits)| digits.contains(digit_at(*cell))))
}

/// `facts.md` section 1 (exact: they follow from the rules): how many of the 362,880 orders of 1…9
/// have each sum.
const ORDERS_BY_SUM: [(u16, u32); 34] = [
    (0, 80640),
    (2, 10080),
    (3, 10080),
    (4, 10080),
    (5, 12960),
    (6, 12960),
    (7, 15840),
    (8, 15840),
    (9, 10080),
    (10, 10080),
    (11, 11520),
    (12, 10080),
    (13, 11520),
    (14, 9792),
    (15, 11232),
    (16, 8064),
    (17, 9216),
    (18, 8928),
    (19, 7488),
    (20, 8640),
    (21, 7488),
    (22, 7488),
    (23, 6336),
    (24, 6624),
    (25, 5472),
    (26, 5472),
    (27, 5760),
    (28, 5760),
    (29, 4320),
    (30, 4320),
    (31, 2880),
    (32, 2880),
    (33, 2880),
    (35, 10080),
];

#[test]
fn orders_of_nine_digits_by_sum() {
    let mut seen: BTreeMap<u16, u32> = BTreeMap::new();
    each_order(9, &mut |line| *seen.entry(sum_between(Size::NINE, line)).or_default() += 1);
    assert_eq!(seen.into_iter().collect::<Vec<_>>(), ORDERS_BY_SUM);
    let reachable: Vec<u16> = ORDERS_BY_SUM.iter().map(|it| it.0).collect();
    assert_eq!(SANDWICH.reachable(Size::NINE), reachable);
    assert!(!reachable.contains(&1) && !reachable.contains(&34) && *reachable.last().unwrap() == 35);
}

#[test]
fn reachable_sums_of_other_sizes() {
    // `facts.md` section 1: 6x6 reaches 0, 2…12, 14; 4x4 reaches 0, 2, 3, 5.
    let on = |side| SANDWICH.reachable(Size::of_side(side).unwrap());
    assert_eq!(on(6), [0, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 14]);
    assert_eq!(on(4), [0, 2, 3, 5]);
    for side in [4, 6] {
        let size = Size::of_side(side).unwrap();
        let mut seen = BTreeSet::new();
        each_order(side, &mut |line| _ = seen.insert(sum_between(size, line)));
        assert_eq!(SANDWICH.reachable(size), seen.into_iter().collect::<Vec<_>>());
        assert_eq!(filling_total(size), u16::from(side) * u16::from(side + 1) / 2 - u16::from(side + 1));
    }
}

#[test]
fn reachable_values_are_the_sums_of_some_summands() {
    for rule in rulebook::RULES {
        for size in (4..=16).filter_map(Size::of_side) {
            let Some(summands) = rule.summands(size) else { continue };
            let sums: BTreeSet<u16> = summands.subsets().map(DigitSet::sum).collect();
            assert_eq!(rule.reachable(size), sums.into_iter().collect::<Vec<_>>(), "{rule:?} on {size}");
        }
    }
}

#[test]
fn digit_sets_of_a_sum() {
    // `facts.md` section 1: how many subsets of 2…8 have each sum up to 17, then mirrored.
    let counts = [1, 0, 1, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 6, 7];
    for (sum, expected) in counts.into_iter().enumerate() {
        let sum = sum as u16;
        assert_eq!(filling_sets(Size::NINE, sum).len(), expected, "sum {sum}");
        assert_eq!(filling_sets(Size::NINE, 35 - sum).len(), expected, "sum {}", 35 - sum);
    }
    let of = |sum, cells| -> Vec<Vec<u8>> {
        let sets = filling_sets(Size::NINE, sum).into_iter().filter(|it| it.len() == cells);
        sets.map(|it| it.iter().map(Digit::get).collect()).collect()
    };
    assert_eq!(of(6, 2), [[2, 4]]);
    assert_eq!(of(8, 2), [[2, 6], [3, 5]]);
    assert_eq!(of(10, 3), [[2, 3, 5]]);
    assert_eq!(of(12, 3), [[2, 3, 7], [2, 4, 6], [3, 4, 5]]);
    // A sum need not fix the count: 29 leaves {6} outside, or {2, 4}.
    assert_eq!((of(29, 6).len(), of(29, 5).len()), (1, 1));
}

#[test]
fn filling_cells_of_a_sum() {
    // `facts.md` section 1.
    let expected: [(std::ops::RangeInclusive<u16>, &[usize]); 12] = [
        (0..=0, &[0]),
        (2..=4, &[1]),
        (5..=8, &[1, 2]),
        (9..=13, &[2, 3]),
        (14..=15, &[2, 3, 4]),
        (16..=19, &[3, 4]),
        (20..=21, &[3, 4, 5]),
        (22..=26, &[4, 5]),
        (27..=30, &[5, 6]),
        (31..=33, &[6]),
        (35..=35, &[7]),
        (34..=34, &[]),
    ];
    for (sums, cells) in expected {
        for sum in sums {
            let seen: BTreeSet<usize> = filling_sets(Size::NINE, sum).iter().map(|it| it.len()).collect();
            assert_eq!(seen.into_iter().collect::<Vec<_>>(), cells, "sum {sum}");
        }
    }
}

#[test]
fn sandwich_ways_are_what_the_rule_allows() {
    for (side, number, sums) in [(4, 2, 0..=6), (6, 3, 0..=15), (9, 5, 0..=36)] {
        let size = Size::of_side(side).unwrap();
        let line = size.house(HouseKind::Column, number).unwrap();
        let values: Vec<u16> = sums.collect();
        let ways: Vec<Ways> = (values.iter())
            .map(|value| SANDWICH.ways(size, &Clue { rule: &SANDWICH, line, value: *value }))
            .collect();
        let mut at_order = 0u32;
        each_order(side, &mut |digits| {
            // Every order on the small sizes, one in 41 (a prime, so all shapes come by) on 9x9.
            at_order += 1;
            if side == 9 && !at_order.is_multiple_of(41) {
                return;
            }
            for (value, ways) in values.iter().zip(&ways) {
                let allowed = SANDWICH.allows(size, *value, digits);
                assert_eq!(allowed, sum_between(size, digits) == *value);
                let listed = lies_in(ways, |cell| digits[usize::from(cell.row()) - 1]);
                assert_eq!(listed, allowed, "{side}x{side}, sum {value}, {digits:?}");
            }
        });
    }
}

/// The closed form says the same as the definition, for every rule that offers one.
#[test]
fn closed_forms_are_what_the_rules_allow() {
    for rule in rulebook::RULES {
        for side in [4, 6, 8] {
            let size = Size::of_side(side).unwrap();
            let largest = rule.reachable(size).last().map_or(0, |it| it + 2);
            let forms: Vec<_> = (0..=largest).map_while(|value| rule.between(size, value)).collect();
            assert!(forms.is_empty() || forms.len() == usize::from(largest) + 1, "{rule:?} on {size}");
            each_order(side, &mut |digits| {
                for (value, form) in (0u16..).zip(&forms) {
                    let is_end = |it: &Digit| [form.ends.0, form.ends.1].contains(it);
                    let inside = digits.iter().skip_while(|it| !is_end(it)).skip(1);
                    let inside: DigitSet = inside.take_while(|it| !is_end(it)).copied().collect();
                    let allowed = rule.allows(size, value, digits);
                    assert_eq!(form.sets.contains(&inside), allowed, "{rule:?} {value}: {digits:?}");
                }
            });
            assert!(forms.iter().all(|it| it.sets.is_sorted_by_key(|it| it.len())), "{rule:?} on {size}");
        }
    }
}

#[test]
fn claims_and_their_denials_split_the_fillings() {
    let size = Size::of_side(6).unwrap();
    let line = size.house(HouseKind::Row, 2).unwrap();
    let cells = size.cells_of(line);
    let digit = |value| size.digit(value).unwrap();
    let mut claims = vec![
        Claim::Is(cells[2], digit(4)),
        Claim::IsNot(cells[2], digit(4)),
        Claim::Crust(cells[0]),
        Claim::Filling(cells[5]),
    ];
    for some in [0b1, 0b110, 0b101011, 0b111111] {
        let chosen: CellSet = (0..6).filter(|at| some >> at & 1 == 1).map(|at| cells[at]).collect();
        claims.push(Claim::CrustAmong { house: line, cells: chosen });
        claims.push(Claim::DigitAmong { house: line, digit: digit(3), cells: chosen });
    }
    for (fewest, most) in [(0, 0), (1, 2), (0, 4), (4, 4)] {
        claims.push(Claim::FillingCells { line, fewest, most });
    }
    // Crusts among them: such a claim is never true.
    claims.extend(size.digits().subsets().map(|filling| Claim::Spent { line, filling }));
    for claim in claims {
        let (ways, denials) = (claim.ways(size), claim.denials(size));
        each_order(6, &mut |digits| {
            let digit_at = |cell: Cell| digits[usize::from(cell.column()) - 1];
            let holds = claim.holds(size, digit_at);
            assert_eq!(lies_in(&ways, digit_at), holds, "{claim:?} on {digits:?}");
            assert_eq!(lies_in(&denials, digit_at), !holds, "not {claim:?} on {digits:?}");
        });
    }
}

#[test]
fn rules_of_thumb_follow() {
    // Common practice, no source (`facts.md` section 1).
    let size = Size::NINE;
    let reach = |cells: usize| -> (u16, u16) {
        let sums: Vec<u16> =
            filling_digits(size).subsets().filter(|it| it.len() == cells).map(DigitSet::sum).collect();
        (*sums.iter().min().unwrap(), *sums.iter().max().unwrap())
    };
    assert_eq!(reach(3), (9, 21));
    assert_eq!(reach(4).1, 26);
    for (sum, outside) in [(31, 4), (32, 3), (33, 2)] {
        let sets = filling_sets(size, sum);
        assert_eq!((filling_digits(size) - sets[0]).iter().map(Digit::get).collect::<Vec<_>>(), [outside]);
    }
    let (one, last) = crusts(size);
    assert_eq!(one.get() + last.get(), 10);
    // A clue of 22 or more never has a crust in the middle of its line; 21 and less can.
    let line = size.house(HouseKind::Row, 1).unwrap();
    for value in SANDWICH.reachable(size) {
        let ways = SANDWICH.ways(size, &Clue { rule: &SANDWICH, line, value });
        assert_eq!(ways.iter().any(|it| it[4].contains(one)), value <= 21, "sum {value}");
    }
}

#[test]
fn places_the_crusts_can_take() {
    // `facts.md` section 1: pairs of places, and cells that are filling wherever the crusts go.
    let size = Size::NINE;
    let line = size.house(HouseKind::Row, 1).unwrap();
    for value in SANDWICH.reachable(size) {
        let ways = SANDWICH.ways(size, &Clue { rule: &SANDWICH, line, value });
        let pairs: BTreeSet<Vec<usize>> =
            (ways.iter()).map(|it| (0..9).filter(|at| it[*at].contains(crusts(size).0)).collect()).collect();
        let always: Vec<usize> =
            (1..=9).filter(|at| pairs.iter().all(|it| it[0] + 1 < *at && *at < it[1] + 1)).collect();
        let (expected_pairs, expected): (Option<usize>, &[usize]) = match value {
            22..=26 => (Some(7), &[5]),
            27..=30 => (Some(5), &[4, 5, 6]),
            31..=33 => (Some(2), &[3, 4, 5, 6, 7]),
            35 => (Some(1), &[2, 3, 4, 5, 6, 7, 8]),
            _ => (None, &[]),
        };
        assert_eq!(always, expected, "sum {value}");
        assert!(expected_pairs.is_none_or(|it| it == pairs.len()), "sum {value}");
    }
}

#[test]
fn lines_read_from_either_end_satisfy_the_same() {
    for rule in rulebook::RULES.into_iter().filter(|it| it.same_both_ways()) {
        let size = Size::of_side(6).unwrap();
        each_order(6, &mut |line| {
            let turned: Vec<Digit> = line.iter().rev().copied().collect();
            for value in rule.reachable(size) {
                assert_eq!(rule.allows(size, value, line), rule.allows(size, value, &turned), "{line:?}");
            }
        });
    }
    assert!(SANDWICH.same_both_ways());
}
