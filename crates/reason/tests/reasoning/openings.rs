//! Where puzzles can be opened, over puzzles from a seed.

use std::collections::BTreeSet;

use reason::{Known, TECHNIQUES, View, openings};
use replay::Cap;
use rulebook::Claim;

use crate::corpus::corpus;

const MOST_STEPS: usize = 3;

fn can_be_written(claim: &Claim) -> bool {
    matches!(claim, Claim::Is(..) | Claim::Crust(_))
}

#[test]
fn openings_are_short_true_and_of_rising_effort() {
    let mut n = 0;
    for it in corpus().iter().step_by(3) {
        let solution = |cell| it.made.solution.get(cell).unwrap();
        let mut said = BTreeSet::new();
        for way in openings(&it.made.puzzle, Known::ALL, MOST_STEPS, Cap(100_000)) {
            let trail = way.walkthrough().trail();
            assert!((1..=MOST_STEPS).contains(&trail.n_steps()), "{}", it.name);
            let (_, last) = trail.facts().next_back().unwrap();
            assert!(can_be_written(&last.claim()), "{}: {:?}", it.name, last.claim());
            assert!(last.claim().holds(it.made.puzzle.size(), solution), "{}: {:?}", it.name, last.claim());
            assert!(said.insert(last.claim()), "{}: {:?} twice", it.name, last.claim());
            n += 1;
        }
    }
    assert!(n > 30, "{n}");
}

/// The easiest technique that settles anything right from the page settles all that it can.
#[test]
fn what_is_easiest_on_the_page_is_among_them() {
    let mut n = 0;
    for it in corpus().iter().step_by(3) {
        let page = View::new(&it.made.puzzle);
        let ways = openings(&it.made.puzzle, Known::ALL, MOST_STEPS, Cap(100_000));
        let said: Vec<Claim> =
            ways.iter().map(|it| it.walkthrough().trail().facts().next_back().unwrap().1.claim()).collect();
        let at_once = TECHNIQUES.iter().map(|technique| -> Vec<Claim> {
            let concluded = technique.find(&page).into_iter().flat_map(|it| it.conclusions);
            concluded.map(|it| it.0).filter(can_be_written).collect()
        });
        let Some(easiest) = at_once.into_iter().find(|it| !it.is_empty()) else { continue };
        // What takes several easier steps may come first, and then this may be too far.
        if said.iter().any(|it| easiest.contains(it)) {
            assert!(easiest.iter().all(|it| said.contains(it)), "{}: {easiest:?} not in {said:?}", it.name);
            n += 1;
        }
    }
    assert!(n > 5, "{n}");
}
