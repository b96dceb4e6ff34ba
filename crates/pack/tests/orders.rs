//! The proposed order costs the least, whatever order the puzzles came in.

use std::collections::BTreeSet;

use pack::{PuzzleId, Studied, WEIGHTS, cost, coverage, place, propose_order};
use trail::TechniqueId;

const A: TechniqueId = TechniqueId::new("a");
const B: TechniqueId = TechniqueId::new("b");
const C: TechniqueId = TechniqueId::new("c");

fn studied(id: &str, setter: &str, minutes: u64, techniques: &[TechniqueId]) -> Studied {
    Studied {
        id: PuzzleId::new(id).unwrap(),
        setter: setter.into(),
        seconds: minutes * 60,
        techniques: techniques.iter().copied().collect(),
    }
}

fn names(order: &[PuzzleId]) -> Vec<&str> {
    order.iter().map(PuzzleId::as_str).collect()
}

/// Every order, tried one by one.
fn least_cost(all: &[Studied]) -> u64 {
    fn extend(order: &mut Vec<PuzzleId>, all: &[Studied], least: &mut u64) {
        if order.len() == all.len() {
            *least = (*least).min(cost(order, all));
        }
        for it in all {
            if !order.contains(&it.id) {
                order.push(it.id.clone());
                extend(order, all, least);
                order.pop();
            }
        }
    }
    let mut least = u64::MAX;
    extend(&mut Vec::new(), all, &mut least);
    least
}

#[test]
fn one_new_technique_at_a_time_before_rising_effort() {
    let all = [
        studied("plain", "Fern", 5, &[A]),
        studied("middle", "Moss", 4, &[A, B]),
        studied("rich", "Fern", 6, &[A, B, C]),
    ];
    assert_eq!(names(&propose_order(&all)), ["plain", "middle", "rich"]);
}

#[test]
fn setters_are_spread_where_effort_allows() {
    let all =
        [studied("one", "Fern", 5, &[A]), studied("three", "Moss", 5, &[A]), studied("two", "Fern", 5, &[A])];
    assert_eq!(names(&propose_order(&all)), ["one", "three", "two"]);
}

#[test]
fn equal_puzzles_stand_in_order_of_id() {
    let all: Vec<Studied> =
        ["d", "b", "a", "c"].iter().map(|id| studied(id, &format!("setter {id}"), 5, &[A])).collect();
    assert_eq!(names(&propose_order(&all)), ["a", "b", "c", "d"]);
}

#[test]
fn no_order_costs_less_and_shuffling_changes_nothing() {
    // A small seeded generator (splitmix64) invents packs of up to six puzzles.
    let mut state = 7u64;
    let mut random = |n: u64| {
        state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = state;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (z ^ (z >> 31)) % n
    };
    for _ in 0..40 {
        let n = 1 + random(6);
        let mut all: Vec<Studied> = (0..n)
            .map(|it| {
                let techniques: Vec<TechniqueId> = [A, B, C].into_iter().filter(|_| random(2) == 0).collect();
                studied(&format!("p{it}"), ["Fern", "Moss"][random(2) as usize], 2 + random(9), &techniques)
            })
            .collect();
        let order = propose_order(&all);
        assert_eq!(cost(&order, &all), least_cost(&all));
        all.reverse();
        assert_eq!(propose_order(&all), order);
    }
}

#[test]
fn large_packs_are_ordered_too() {
    let all: Vec<Studied> = (0..24)
        .map(|it| {
            studied(&format!("p{it:02}"), ["Fern", "Moss", "Sedge"][it % 3], (it as u64 * 7) % 24, &[A])
        })
        .collect();
    let order = propose_order(&all);
    assert_eq!(order.iter().collect::<BTreeSet<_>>().len(), 24);
    let mut by_minutes: Vec<&Studied> = all.iter().collect();
    by_minutes.sort_by_key(|it| it.seconds);
    let by_minutes: Vec<PuzzleId> = by_minutes.iter().map(|it| it.id.clone()).collect();
    assert!(cost(&order, &all) <= cost(&by_minutes, &all));
}

#[test]
fn places_say_what_was_weighed() {
    let all = [studied("one", "Fern", 5, &[A]), studied("two", "Fern", 3, &[A, B, C])];
    let order: Vec<PuzzleId> = all.iter().map(|it| it.id.clone()).collect();
    let placed = place(&order, &all);
    assert_eq!(placed[1].new, BTreeSet::from([B, C]));
    assert_eq!(placed[1].practised, BTreeSet::from([A]));
    assert_eq!((placed[0].step_up, placed[1].step_up), (None, Some(-120)));
    assert!(placed[1].same_setter && !placed[0].same_setter);
    let expected = WEIGHTS.new_at_once + 2 * WEIGHTS.minute_back + WEIGHTS.same_setter;
    assert_eq!(cost(&order, &all), expected);
}

#[test]
fn coverage_keeps_pack_order_and_shows_gaps() {
    let all = [studied("one", "Fern", 5, &[A]), studied("two", "Fern", 3, &[A, B])];
    let order = [all[1].id.clone(), all[0].id.clone()];
    let table = coverage(&[A, B, C], &order, &all);
    let rows: Vec<Vec<&str>> = table.iter().map(|it| names(&it.puzzles)).collect();
    assert_eq!(rows, [vec!["two", "one"], vec!["two"], vec![]]);
}
