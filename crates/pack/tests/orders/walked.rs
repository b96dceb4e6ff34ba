//! Orders of puzzles that are walked through in another way by whoever knows more.

use std::collections::BTreeSet;

use pack::{Objective, Outcome, PuzzleId, Studied, Walked};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use trail::TechniqueId;

use crate::common::{A, B, C, D, id, invented, names, objective, studied};
use crate::recorded;

fn walked(known: &[TechniqueId], studied: Studied) -> Walked {
    Walked { known: known.iter().copied().collect(), studied, outcome: Outcome::Teaches }
}

/// Two to four walkthroughs of each puzzle; recordings say something of every other pack.
fn walked_by_several(n: usize, seed: u64) -> Vec<Walked> {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    let mut walked = Vec::new();
    let all = if seed.is_multiple_of(2) { invented(n, seed) } else { recorded(n, seed) };
    for (at, alone) in all.into_iter().enumerate() {
        let outcome = if random.random_bool(0.8) { Outcome::Teaches } else { Outcome::IsSealed };
        walked.push(Walked { known: BTreeSet::new(), studied: alone.clone(), outcome });
        for other in 0..random.random_range(1..4) {
            let known = [A, B, C, D].into_iter().filter(|_| random.random_bool(0.5)).collect();
            let it = invented(n, 1000 + 10 * seed + other).swap_remove(at);
            let Studied { seconds, techniques, break_in, .. } = it;
            walked.push(Walked {
                known,
                studied: Studied { seconds, techniques, break_in, ..alone.clone() },
                outcome,
            });
        }
    }
    walked
}

/// What is weighed of each puzzle in that order, and what is known before it: said once more, to be read beside the rule.
fn along(
    objective: &Objective,
    order: &[PuzzleId],
    walked: &[Walked],
) -> Vec<(Studied, BTreeSet<TechniqueId>)> {
    let mut known = BTreeSet::new();
    let mut along = Vec::new();
    // What everybody knows makes no difference.
    let not_known = |it: &BTreeSet<TechniqueId>| -> BTreeSet<TechniqueId> {
        it.difference(&objective.knows).copied().collect()
    };
    for id in order {
        let ways: Vec<&Walked> = walked.iter().filter(|it| it.studied.id == *id).collect();
        let exact = ways.iter().find(|it| not_known(&it.known) == known);
        let nearest = ways.iter().min_by_key(|it| {
            let n_new = not_known(&it.studied.techniques).difference(&known).count();
            (n_new, not_known(&it.known).symmetric_difference(&known).count(), it.studied.seconds)
        });
        let way = exact.or(nearest).unwrap();
        along.push((way.studied.clone(), known.clone()));
        if way.outcome == Outcome::Teaches {
            known.extend(not_known(&way.studied.techniques));
        }
    }
    along
}

/// What that order costs: the puzzles that are left out count as they are by themselves.
fn cost(objective: &Objective, order: &[PuzzleId], walked: &[Walked]) -> u64 {
    let mut weighed: Vec<Studied> = along(objective, order, walked).into_iter().map(|it| it.0).collect();
    for it in walked {
        if !weighed.iter().any(|other| other.id == it.studied.id) {
            weighed.push(it.studied.clone());
        }
    }
    objective.costs(order, &weighed).total()
}

/// All orders of so many of the puzzles, one after the other.
fn orders(ids: &[PuzzleId], n_places: usize) -> Vec<Vec<PuzzleId>> {
    if n_places == 0 {
        return vec![Vec::new()];
    }
    let begun = ids.iter().flat_map(|first| {
        let others: Vec<PuzzleId> = ids.iter().filter(|it| *it != first).cloned().collect();
        orders(&others, n_places - 1).into_iter().map(move |it| [vec![first.clone()], it].concat())
    });
    begun.collect()
}

#[test]
fn no_order_costs_less_when_each_is_walked_through_with_what_is_known_by_then() {
    let mut n_other = 0;
    for seed in 0..30 {
        let walked = walked_by_several(5, seed);
        let pinned = (seed % 3 == 0).then_some(("p01", 2));
        let objective = objective(pinned.as_slice());
        let certain = |it: &&Walked| !it.studied.is_optional;
        let certain: BTreeSet<PuzzleId> =
            walked.iter().filter(certain).map(|it| it.studied.id.clone()).collect();
        let ids: BTreeSet<PuzzleId> = walked.iter().map(|it| it.studied.id.clone()).collect();
        let ids: Vec<PuzzleId> = ids.into_iter().collect();
        for n_places in [3, 5] {
            let is_pinned =
                |it: &Vec<PuzzleId>| pinned.is_none_or(|(name, place)| it[place - 1].as_str() == name);
            let has_certain = |it: &Vec<PuzzleId>| certain.iter().all(|certain| it.contains(certain));
            let may = |it: &Vec<PuzzleId>| is_pinned(it) && has_certain(it);
            let all = orders(&ids, n_places).into_iter().filter(may);
            let least = all.map(|it| cost(&objective, &it, &walked)).min();
            let proposed = objective.propose_walked(&walked, n_places, &[]);
            assert_eq!(proposed.as_ref().map(|it| cost(&objective, it, &walked)), least, "seed {seed}");
            // Whoever keeps to the walkthroughs of each by itself comes to another order.
            let alone: Vec<Studied> = ids
                .iter()
                .filter_map(|id| walked.iter().find(|it| it.studied.id == *id))
                .map(|it| it.studied.clone())
                .collect();
            n_other += usize::from(objective.choose(&alone, n_places).map(|it| it.order) != proposed);
        }
    }
    assert!(n_other > 30, "{n_other}");
}

#[test]
fn what_is_known_along_an_order_is_what_its_walkthroughs_teach() {
    let mut n_known = BTreeSet::new();
    for seed in 0..30 {
        let walked = walked_by_several(6, seed);
        let mut order: Vec<PuzzleId> = walked.iter().map(|it| it.studied.id.clone()).collect();
        order.dedup();
        order.rotate_left(seed as usize % 6);
        let objective = objective(&[]);
        let known = objective.known_along(&order, &walked);
        assert_eq!(
            known,
            along(&objective, &order, &walked).into_iter().map(|it| it.1).collect::<Vec<_>>(),
            "seed {seed}"
        );
        n_known.extend(known.iter().map(BTreeSet::len));
    }
    assert_eq!(n_known, (0..=3).collect());
}

#[test]
fn the_walkthrough_for_just_that_counts_before_others() {
    // For whoever knows A alone there is a long way, and for whoever knows B too a short one, that takes no more.
    let all = [
        walked(&[], studied("first", "Fern", 5, &[A])),
        walked(&[], studied("later", "Moss", 9, &[A])),
        walked(&[A], studied("later", "Moss", 4, &[A])),
        walked(&[A, B], studied("later", "Moss", 7, &[A])),
    ];
    let order = [id("first"), id("later")];
    assert_eq!(cost(&Objective::default(), &order, &all), 4);
    assert_eq!(Objective::default().known_along(&order, &all), [BTreeSet::new(), BTreeSet::from([A])]);
    // First it takes nine minutes, after the other four: better that the effort falls back by one than by four.
    assert_eq!(Objective::default().propose_walked(&all, 2, &[]).as_deref(), Some(&order[..]));
    let others: Vec<Walked> = all.iter().filter(|it| it.known != BTreeSet::from([A])).cloned().collect();
    assert_eq!(cost(&Objective::default(), &order, &others), 0);
}

#[test]
fn of_equals_the_first_that_was_met_is_kept() {
    let all = ["a", "b", "c"].map(|it| walked(&[], studied(it, it, 5, &[A])));
    let met = [["c", "a", "b"], ["a", "c", "b"]].map(|it| it.map(id).to_vec());
    let proposed = Objective::default().propose_walked(&all, 3, &met).unwrap();
    assert_eq!(names(&proposed), ["c", "a", "b"]);
    for seed in 0..4 {
        let walked = walked_by_several(24, seed);
        let mut met: Vec<PuzzleId> = walked.iter().map(|it| it.studied.id.clone()).collect();
        met.dedup();
        let objective = Objective::default();
        let better = objective.propose_walked(&walked, 24, std::slice::from_ref(&met)).unwrap();
        let [before, after] = [&met, &better].map(|it| cost(&objective, it, &walked));
        assert!(after < before, "seed {seed}: {after} after {before}");
        let again = objective.propose_walked(&walked, 24, &[met, better.clone()]).unwrap();
        assert!(cost(&objective, &again, &walked) <= after);
    }
}

#[test]
fn a_puzzle_without_a_walkthrough_teaches_nothing() {
    let all = [walked(&[], studied("one", "Fern", 5, &[A])), walked(&[], studied("two", "Moss", 5, &[A, B]))];
    let order = ["nobody", "one", "nothing", "two"].map(id);
    let known = Objective::default().known_along(&order, &all);
    assert_eq!(known, [vec![], vec![], vec![A], vec![A]].map(|it| it.into_iter().collect::<BTreeSet<_>>()));
}
