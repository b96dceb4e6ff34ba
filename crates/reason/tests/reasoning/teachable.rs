//! What is fit to be read out: a walkthrough of few small arguments.

use grid::Size;
use reason::small_argument::Effort;
use reason::{Known, Search, Settings, Stopped, explain, explain_within, solve};
use replay::{Judge, Refusal, Spare};
use trail::{Argument, TechniqueId, Trail};

use crate::support::seeded;

/// With singles alone this puzzle takes more than ten small arguments, which are told to whoever asks for
/// whatever it takes, and to nobody else.
#[test]
fn a_walkthrough_of_too_many_small_arguments_is_not_teachable() {
    let made = seeded::puzzle(Size::NINE, 18, 0);
    let known = Known::up_to(TechniqueId::new("naked-single"));
    let settings = Settings { known, search: Search::EasiestNext, ..Settings::WHATEVER_IT_TAKES };
    let told = explain(&made.puzzle, &made.solution, settings).unwrap();
    let n = told.walkthrough().trail().steps().filter(|it| it.1.is_small_argument()).count();
    assert!(n > Settings::THOROUGH.readable, "{n}");

    let readable = Settings { readable: Settings::THOROUGH.readable, ..settings };
    assert_eq!(explain(&made.puzzle, &made.solution, readable).unwrap_err(), Stopped::NotTeachable(n));
}

/// With singles alone, so that small arguments abound; that many of them made with care.
fn with_care_for(careful: usize) -> Settings {
    let known = Known::up_to(TechniqueId::new("naked-single"));
    let argument = Effort { careful, ..Settings::WHATEVER_IT_TAKES.argument };
    // What is not shown to be needed after so many nodes mostly is not after many more either.
    let cap = argument.cap;
    Settings { known, search: Search::EasiestNext, argument, cap, ..Settings::WHATEVER_IT_TAKES }
}

/// The claims of each step up to the small argument with that number, and whether each argument after it is
/// proven to be the smallest.
fn split(trail: &Trail, number: usize) -> (Vec<String>, Vec<bool>) {
    let (mut before, mut after, mut n) = (Vec::new(), Vec::new(), 0);
    for (id, step) in trail.steps() {
        let is_smallest = match step.argument() {
            Argument::Cases { is_smallest, .. } => Some(*is_smallest),
            _ => None,
        };
        n += usize::from(is_smallest.is_some());
        if n <= number {
            before.push(format!("{:?}", trail.proposal(id)));
        } else {
            after.extend(is_smallest);
        }
    }
    (before, after)
}

/// Care ends where it is said to. What follows without it follows by `replay`, too; whether it needs all of its premises
/// `replay` may be unable to tell, since they are many, and then refuses the walkthrough.
#[test]
fn later_arguments_are_made_quickly() {
    let (mut n_quick, mut n_told) = (0, 0);
    for (side, n_clues, seed) in [(4, 4, 0), (6, 12, 1), (9, 18, 0), (9, 12, 3), (9, 0, 1)] {
        let made = seeded::puzzle(Size::of_side(side).unwrap(), n_clues, seed);
        for n_careful in [0, 2] {
            let name = format!("{side}x{side}, {n_clues} clues, seed {seed}, {n_careful} with care");
            let found = |settings| solve(&made.puzzle, &made.solution, settings).unwrap();
            let careful = split(&found(with_care_for(usize::MAX)), n_careful);
            let trail = found(with_care_for(n_careful));
            let quick = split(&trail, n_careful);
            assert_eq!(quick.0, careful.0, "{name}");
            assert!(quick.1.iter().all(|it| !it), "{name}: an argument made quickly is called the smallest");
            n_quick += quick.1.len();
            let told = explain(&made.puzzle, &made.solution, with_care_for(n_careful));
            let is_undecided = |it: &Refusal| matches!(it, Refusal::Spare(Spare { is_proved: false, .. }));
            match &told {
                Ok(_) => n_told += 1,
                Err(Stopped::Refused(_, refusal)) if is_undecided(refusal) => {}
                Err(other) => panic!("{name}: {other:?}"),
            }
            let judge = Judge::new(&made.puzzle);
            for fact in trail.facts().map(|it| it.1) {
                let Some(cites) = fact.cites() else { continue };
                let judged = judge.judge(&trail, &fact.claim(), cites, with_care_for(0).argument.cap);
                assert!(judged.is_ok(), "{name}: {:?}: {judged:?}", fact.claim());
            }
        }
    }
    assert!(n_quick > 10, "only {n_quick} arguments were made quickly");
    assert!(n_told > 2, "only {n_told} walkthroughs can be published");
}

/// Where the work that an argument may take is used up, that is said, with the board as far as it was filled.
#[test]
fn a_limit_that_is_reached_is_said() {
    let made = seeded::puzzle(Size::NINE, 12, 3);
    let quick = with_care_for(0);
    let settings = Settings { argument: Effort { cases_at_worst: 0, ..quick.argument }, ..quick };
    let Err(Stopped::Stuck(board)) = explain(&made.puzzle, &made.solution, settings) else {
        panic!("an argument takes a case at least")
    };
    assert!(!board.is_full());
}

/// The least-effort search says when it ended at its limit: without detours it has tried nothing.
#[test]
fn a_search_that_ends_at_its_limit_says_so() {
    let mut ended = [0, 0];
    for seed in 0..6 {
        let made = seeded::puzzle(Size::of_side(6).unwrap(), 12, seed);
        let within = |search| {
            let settings = Settings { search, ..Settings::THOROUGH };
            explain_within(&made.puzzle, &made.solution, settings).unwrap().has_reached_limit
        };
        assert!(!within(Search::EasiestNext), "seed {seed}");
        assert!(within(Search::LeastEffort { detours: 0 }), "seed {seed}");
        // So many detours that every step is tried.
        assert!(!within(Search::LeastEffort { detours: 500 }), "seed {seed}");
        ended[usize::from(within(Search::LeastEffort { detours: 8 }))] += 1;
    }
    assert!(ended.iter().all(|it| *it > 0), "{ended:?}");
}
