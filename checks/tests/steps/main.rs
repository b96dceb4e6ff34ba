//! CaDiCaL, a general-purpose SAT solver in C++, as the other opinion on steps.
//!
//! Every conclusion of seeded walkthroughs has to follow from its premises and nothing else, for CaDiCaL as it does for
//! `replay`; and with any one of them left out, it must not.

mod encoding;
#[path = "../../../crates/reason/tests/reasoning/support/seeded.rs"]
mod seeded;

use std::ops::Range;

use encoding::Encoding;
use grid::Size;
use reason::{Settings, explain};

/// One conclusion in so many is asked about again with a premise left out, a different one each time.
const ONE_IN: usize = 7;

/// What was asked and what came of it.
#[derive(Default, Debug)]
struct Tally {
    walkthroughs: usize,
    steps: usize,
    arguments: usize,
    conclusions: usize,
    /// Conclusions asked about again.
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
            let (claim, premises) = (fact.claim(), fact.cites().unwrap().premises());
            let place = || format!("{name}, step {} ({}), {claim:?}", id.number(), step.technique());
            // The premises do not contradict each other: the solution agrees with them.
            let holds = claim.holds(size, |cell| made.solution.get(cell).unwrap());
            assert!(holds, "{}: wrong", place());
            let follows = !encoding.has_counterexample(trail, &claim, &premises);
            assert!(follows, "{}: does not follow from {premises:?}", place());
            tally.conclusions += 1;
            if !tally.conclusions.is_multiple_of(ONE_IN) {
                continue;
            }
            let all: Vec<_> = premises.each().collect();
            let spared = all[tally.conclusions / ONE_IN % all.len()];
            let is_needed = encoding.has_counterexample(trail, &claim, &spared.left_out_of(&premises));
            assert!(is_needed, "{}: follows without {spared}", place());
            tally.follow_no_longer += 1;
        }
    }
}
