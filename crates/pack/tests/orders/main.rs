//! The proposed order costs the least, whatever order the puzzles came in.

mod common;
mod walked;

use std::collections::BTreeSet;

use common::{A, B, C, D, id, invented, least_cost, names, objective, studied};
use pack::{Objective, PuzzleId, Said, Studied, Weights, coverage};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use trail::TechniqueId;

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

/// The same puzzles with recordings that say one to three things of some of them.
fn recorded(n: usize, seed: u64) -> Vec<Studied> {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    let mut all = invented(n, seed);
    // One that is nobody's name is said too.
    let other = |at: usize| id(&format!("p{at:02}"));
    for it in &mut all {
        for _ in 0..random.random_range(0..3_usize) {
            let at = random.random_range(0..=n);
            let technique: TechniqueId = [A, B, C, D][at % 4];
            it.said.push(match random.random_range(0..9) {
                0 => Said::First,
                1 => Said::Last,
                2 => Said::Number(at),
                3 => Said::After(other(at)),
                4 => Said::Before(other(at)),
                5 => Said::RightAfter(other(at)),
                6 => Said::FirstWith(technique),
                7 => Said::NothingNew,
                _ => Said::LongestSoFar,
            });
        }
    }
    all
}

/// How much of what is said is not so, asked of the order as a whole.
fn n_untrue(objective: &Objective, order: &[PuzzleId], all: &[Studied]) -> u64 {
    let placed = objective.place(order, all);
    let of = |id: &PuzzleId| all.iter().find(|it| it.id == *id).unwrap();
    let seconds: Vec<u64> = order.iter().map(|it| of(it).seconds).collect();
    let n_of = |it: &Studied| match order.iter().position(|id| *id == it.id) {
        None => it.said.len(),
        Some(at) => it.said.iter().filter(|it| !it.is_true(at, &placed, &seconds)).count(),
    };
    all.iter().map(|it| n_of(it) as u64).sum()
}

#[test]
fn what_recordings_say_costs_what_is_not_so_of_the_whole_order() {
    let mut n_said = BTreeSet::new();
    for seed in 0..60 {
        let all = recorded(6, seed);
        let objective = objective(&[]);
        let mut order: Vec<PuzzleId> = all.iter().map(|it| it.id.clone()).collect();
        order.rotate_left(seed as usize % 6);
        order.truncate(6 - seed as usize % 3);
        let untrue = n_untrue(&objective, &order, &all);
        assert_eq!(objective.costs(&order, &all).said_untrue, 100 * untrue, "seed {seed}");
        n_said.insert(untrue);
        for n_places in [4, 6] {
            let chosen = objective.choose(&all, n_places);
            assert_eq!(chosen.map(|it| it.cost), least_cost(&objective, &all, n_places), "seed {seed}");
        }
    }
    assert!(n_said.len() > 4);
}

#[test]
fn what_recordings_say_binds_a_proposal_as_far_as_it_can_be() {
    let said = |said: &[Said], it: Studied| Studied { said: said.to_vec(), ..it };
    let rich = || studied("rich", "Fern", 9, &[A, B, C]);
    let plain = || [studied("plain", "Moss", 5, &[A]), studied("middle", "Sedge", 6, &[A, B])];
    let all = |it: Studied| plain().into_iter().chain([it]).collect::<Vec<_>>();
    let objective = Objective::default();
    assert_eq!(names(&objective.propose(&all(rich())).order), ["plain", "middle", "rich"]);
    let first = all(said(&[Said::First], rich()));
    assert_eq!(objective.propose(&first).order[0], id("rich"));
    let between = all(said(&[Said::After(id("plain")), Said::Before(id("middle"))], rich()));
    assert_eq!(names(&objective.propose(&between).order), ["plain", "rich", "middle"]);
    // A pin of the editor's goes before it, and it can be told to weigh nothing.
    let pinned = Objective { pins: [(id("rich"), 3)].into(), ..Objective::default() };
    assert_eq!(pinned.propose(&first).order[2], id("rich"));
    let weights = Weights { said_untrue: 0, ..Weights::default() };
    let deaf = Objective { weights, ..Objective::default() };
    assert_eq!(names(&deaf.propose(&first).order), ["plain", "middle", "rich"]);
    // What has been recorded is chosen too.
    let optional: Vec<Studied> = first.into_iter().map(|it| Studied { is_optional: true, ..it }).collect();
    assert_eq!(objective.choose(&optional, 2).unwrap().order[0], id("rich"));
}

#[test]
fn what_recordings_say_binds_large_packs_too() {
    let mut all = invented(24, 5);
    all[20].said = vec![Said::First];
    all[2].said = vec![Said::Last];
    all[9].said = vec![Said::RightAfter(id("p17"))];
    let proposal = Objective::default().propose(&all);
    assert_eq!(n_untrue(&Objective::default(), &proposal.order, &all), 0, "{:?}", proposal.order);
    assert!(proposal.at_least <= proposal.cost);
}
