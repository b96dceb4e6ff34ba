//! CaDiCaL, a general-purpose SAT solver in C++, as the other opinion on steps.
//!
//! Every conclusion of seeded walkthroughs has to follow from what it cites and nothing else, for CaDiCaL
//! as it does for `replay`; and with one citation left out, both have to say the same again.

mod encoding;
#[path = "../../../crates/reason/tests/reasoning/support/seeded.rs"]
mod seeded;

use std::ops::Range;

use encoding::Encoding;
use grid::Size;
use reason::{Settings, explain};
use replay::{Cap, citations, judge};

/// What `replay` may take where a citation is left out.
const CAP: Cap = Cap(100_000);

/// One conclusion in so many is asked about again with a citation left out, a different one each time.
const ONE_IN: usize = 7;

/// What was asked and what came of it.
#[derive(Default, Debug)]
struct Tally {
    walkthroughs: usize,
    steps: usize,
    arguments: usize,
    conclusions: usize,
    /// Of the conclusions asked about again, those that still follow and those that do not.
    still_follow: usize,
    follow_no_longer: usize,
}

#[test]
fn all_sums_shown() {
    prove_steps(9, 18, 1000..1060);
}

#[test]
fn twelve_sums_shown() {
    prove_steps(9, 12, 1000..1012);
}

#[test]
fn classic() {
    prove_steps(9, 0, 1000..1088);
}

#[test]
fn small_boards() {
    prove_steps(6, 12, 1000..1080);
    prove_steps(6, 6, 1000..1040);
    prove_steps(4, 8, 1000..1020);
}

/// Proves each step of the walkthroughs of those seeded puzzles.
fn prove_steps(side: u8, n_clues: usize, seeds: Range<u64>) {
    let mut tally = Tally::default();
    for seed in seeds {
        let name = format!("seed {seed} on {side}x{side} with {n_clues} clues");
        prove_walkthrough(&name, Size::of_side(side).unwrap(), n_clues, seed, &mut tally);
    }
    assert!(tally.steps > 50 && tally.follow_no_longer > 5, "{tally:?}");
}

fn prove_walkthrough(name: &str, size: Size, n_clues: usize, seed: u64, tally: &mut Tally) {
    let made = seeded::puzzle(size, n_clues, seed);
    let explained = explain(&made.puzzle, &made.solution, Settings::WHATEVER_IT_TAKES);
    let explained = explained.unwrap_or_else(|stopped| panic!("{name}: {stopped:?}"));
    let trail = explained.walkthrough().trail();
    let mut encoding = Encoding::new(&made.puzzle);
    tally.walkthroughs += 1;
    for (id, step) in trail.steps() {
        tally.steps += 1;
        tally.arguments += usize::from(step.is_small_argument());
        for fact in step.concludes().iter().map(|it| trail.fact(*it)) {
            let (claim, cites) = (fact.claim(), fact.cites().unwrap());
            let place = || format!("{name}, step {} ({}), {claim:?}", id.number(), step.technique());
            // What is cited does not contradict itself: the solution agrees with it.
            let holds = claim.holds(size, |cell| made.solution.get(cell).unwrap());
            assert!(holds, "{}: wrong", place());
            let follows = !encoding.has_counterexample(trail, &claim, cites);
            assert!(follows, "{}: does not follow from {cites:?}", place());
            tally.conclusions += 1;
            if !tally.conclusions.is_multiple_of(ONE_IN) {
                continue;
            }
            let all: Vec<_> = citations(cites).collect();
            let fewer = all[tally.conclusions / ONE_IN % all.len()].left_out_of(cites);
            let follows = !encoding.has_counterexample(trail, &claim, &fewer);
            let judged = judge(&made.puzzle, trail, &claim, &fewer, CAP);
            assert_eq!(follows, judged.is_ok(), "{}: from {fewer:?}: {judged:?}", place());
            *(if follows { &mut tally.still_follow } else { &mut tally.follow_no_longer }) += 1;
        }
    }
}
