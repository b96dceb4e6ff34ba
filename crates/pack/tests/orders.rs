//! The proposed order costs the least, whatever order the puzzles came in.

mod common;

use std::collections::BTreeSet;

use common::{A, B, C, D, id, invented, least_cost, names, objective, studied};
use pack::{Objective, PuzzleId, Studied, Weights, coverage};

#[test]
fn one_new_technique_at_a_time_before_rising_effort() {
    let all = [
        studied("plain", "Fern", 5, &[A]),
        studied("middle", "Moss", 4, &[A, B]),
        studied("rich", "Fern", 6, &[A, B, C]),
    ];
    assert_eq!(names(&Objective::default().propose(&all).order), ["plain", "middle", "rich"]);
}

#[test]
fn setters_are_spread_where_effort_allows() {
    let all =
        [studied("one", "Fern", 5, &[A]), studied("three", "Moss", 5, &[A]), studied("two", "Fern", 5, &[A])];
    assert_eq!(names(&Objective::default().propose(&all).order), ["one", "three", "two"]);
}

#[test]
fn break_ins_are_spread_too() {
    let opening =
        |name, setter, technique| Studied { break_in: Some(technique), ..studied(name, setter, 5, &[A, B]) };
    let all = [opening("one", "Fern", A), opening("two", "Moss", A), opening("x", "Sedge", B)];
    assert_eq!(
        names(&Objective { knows: [A, B].into(), ..Default::default() }.propose(&all).order),
        ["one", "x", "two"]
    );
}

#[test]
fn what_a_technique_builds_on_comes_first() {
    // By effort alone the one with D would come first.
    let all = [studied("later", "Fern", 4, &[D]), studied("sooner", "Moss", 5, &[B])];
    let objective = objective(&[]);
    assert_eq!(names(&objective.propose(&all).order), ["sooner", "later"]);
    let wrong = [id("later"), id("sooner")];
    assert_eq!(objective.place(&wrong, &all)[0].unprepared, BTreeSet::from([B]));
}

#[test]
fn shelves_are_kept_whatever_lies_between() {
    let on =
        |name, shelf, minutes| Studied { shelf, ..studied(name, &format!("setter {name}"), minutes, &[]) };
    let all = [on("dusk", Some(0), 9), on("any", None, 8), on("night", Some(1), 7)];
    let objective = Objective::default();
    assert_eq!(names(&objective.propose(&all).order), ["any", "dusk", "night"]);
    let wrong = ["night", "any", "dusk"].map(id);
    let placed = objective.place(&wrong, &all);
    assert_eq!(placed.iter().map(|it| it.flaws.shelf_back).collect::<Vec<_>>(), [false, false, true]);
}

#[test]
fn weights_decide() {
    let all = [studied("one", "Fern", 5, &[]), studied("two", "Fern", 6, &[]), studied("x", "Moss", 9, &[])];
    let spread = Objective::default().propose(&all);
    assert_eq!(names(&spread.order), ["one", "two", "x"], "a minute back weighs more than a setter twice");
    let weights = Weights { same_setter: 50, ..Weights::default() };
    let other = Objective { weights, ..Objective::default() }.propose(&all);
    assert_eq!(names(&other.order), ["one", "x", "two"]);
}

#[test]
fn equal_puzzles_stand_in_order_of_id() {
    let all: Vec<Studied> =
        ["d", "b", "a", "c"].iter().map(|id| studied(id, &format!("setter {id}"), 5, &[A])).collect();
    assert_eq!(names(&Objective::default().propose(&all).order), ["a", "b", "c", "d"]);
}

#[test]
fn no_order_costs_less_and_shuffling_changes_nothing() {
    for seed in 0..40 {
        let mut all = invented(1 + seed as usize % 6, seed);
        let pins: &[(&str, usize)] = [&[][..], &[("p00", 1)], &[("p01", 3), ("p02", 1)]][seed as usize % 3];
        let pins: Vec<_> = pins.iter().copied().filter(|it| all.len() > 2 || it.0 == "p00").collect();
        let objective = objective(&pins);
        let proposal = objective.propose(&all);
        assert_eq!(Some(proposal.cost), least_cost(&objective, &all, all.len()), "seed {seed}");
        assert_eq!(objective.costs(&proposal.order, &all).total(), proposal.cost);
        assert_eq!(proposal.at_least, proposal.cost);
        all.reverse();
        assert_eq!(objective.propose(&all), proposal);
    }
}

#[test]
fn no_choice_costs_less() {
    for seed in 100..130 {
        let all = invented(6, seed);
        for (n_places, pins) in [(3, &[][..]), (4, &[("p00", 2)]), (6, &[]), (0, &[]), (9, &[])] {
            let objective = objective(pins);
            let chosen = objective.choose(&all, n_places);
            let least = least_cost(&objective, &all, n_places.min(6));
            assert_eq!(chosen.map(|it| it.cost), least, "{n_places} of seed {seed}");
        }
    }
}

#[test]
fn pins_that_cannot_be_kept_bind_nothing() {
    let all = [studied("one", "Fern", 5, &[]), studied("two", "Moss", 6, &[])];
    for pins in [&[("one", 0)][..], &[("one", 3)], &[("nobody", 1)], &[("one", 1), ("two", 1)]] {
        assert_eq!(names(&objective(pins).propose(&all).order), ["one", "two"], "{pins:?}");
    }
    assert_eq!(names(&objective(&[("one", 2)]).propose(&all).order), ["two", "one"]);
}

#[test]
fn large_packs_are_ordered_too() {
    for seed in 0..4 {
        let all = invented(24, seed);
        let objective = objective(&[("p03", 1), ("p07", 12)]);
        let proposal = objective.propose(&all);
        assert_eq!(proposal.order.iter().collect::<BTreeSet<_>>().len(), 24);
        assert_eq!((&proposal.order[0], &proposal.order[11]), (&id("p03"), &id("p07")));
        assert_eq!(objective.costs(&proposal.order, &all).total(), proposal.cost);
        let by_id: Vec<PuzzleId> = all.iter().map(|it| it.id.clone()).collect();
        assert!(proposal.cost < objective.costs(&by_id, &all).total());
        assert!(proposal.at_least <= proposal.cost);
        assert_eq!(objective.propose(&all), proposal);
        let chosen = objective.choose(&all, 20).unwrap();
        assert_eq!(chosen.order.len(), 20);
        assert!(chosen.at_least <= chosen.cost);
        assert!(all.iter().all(|it| it.is_optional || chosen.order.contains(&it.id)));
    }
}

#[test]
fn places_say_what_was_weighed() {
    let all = [studied("one", "Fern", 5, &[A]), studied("two", "Fern", 3, &[A, B, C])];
    let order: Vec<PuzzleId> = all.iter().map(|it| it.id.clone()).collect();
    let objective = Objective::default();
    let placed = objective.place(&order, &all);
    assert_eq!(placed[1].new, BTreeSet::from([B, C]));
    assert_eq!(placed[1].practised, BTreeSet::from([A]));
    assert_eq!((placed[0].step_up, placed[1].step_up), (None, Some(-120)));
    assert!(placed[1].flaws.same_setter && !placed[0].flaws.same_setter);
    let Weights { new_at_once, minute_back, same_setter, .. } = objective.weights;
    let costs = objective.costs(&order, &all);
    assert_eq!(
        (costs.new_at_once, costs.minutes_back, costs.same_setter),
        (new_at_once, 2 * minute_back, same_setter)
    );
    assert_eq!(costs.total(), new_at_once + 2 * minute_back + same_setter);
}

#[test]
fn what_is_known_from_the_start_is_never_new() {
    let all = [studied("one", "Fern", 5, &[A, B])];
    let placed = objective(&[]).place(&[id("one")], &all);
    assert_eq!(placed[0].new, BTreeSet::from([B]));
    assert_eq!(placed[0].practised, BTreeSet::from([A]));
}

#[test]
fn coverage_keeps_pack_order_and_shows_gaps() {
    let all = [studied("one", "Fern", 5, &[A]), studied("two", "Fern", 3, &[A, B])];
    let order = [all[1].id.clone(), all[0].id.clone()];
    let table = coverage(&[A, B, C], &[A], &order, &all);
    let rows: Vec<Vec<&str>> = table.iter().map(|it| names(&it.puzzles)).collect();
    assert_eq!(rows, [vec!["two", "one"], vec!["two"], vec![]]);
    let taught: Vec<_> =
        table.iter().map(|it| (it.taught_in().map(PuzzleId::as_str), it.practised_in().len())).collect();
    assert_eq!(taught, [(None, 2), (Some("two"), 0), (None, 0)]);
}
