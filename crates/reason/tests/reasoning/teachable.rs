//! What is fit to be read out: a walkthrough of few small arguments.

use grid::HouseKind::{Box, Column, Row};
use grid::{CellSet, DigitSet, Size};
use reason::small_argument::Effort;
use reason::{Known, Search, Settings, Stopped, explain, explain_within, solve};
use replay::{Judge, Refusal, Spare, spares};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId, Trail};

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

/// An argument that this puzzle takes was refused: without one of its premises a counterexample is so far that more nodes
/// are needed to come upon it than an argument may cost that is looked for.
#[test]
fn a_premise_is_shown_to_be_needed_however_far_the_counterexample() {
    let size = Size::NINE;
    let made = seeded::puzzle(size, 12, 851);
    let puzzle = &made.puzzle;
    let cell = |row, column| size.cell(row, column).unwrap();
    let house = |(kind, number)| size.house(kind, number).unwrap();
    let spent = Claim::Spent { line: house((Column, 5)), filling: DigitSet::EMPTY };
    let mut trail = Trail::from_page(puzzle);
    let known = Proposal {
        technique: TechniqueId::new("test-given"),
        argument: Argument::SeesBothCrusts { cells: CellSet::EMPTY },
        conclusions: [spent, Claim::Filling(cell(8, 1))].map(|it| (it, Cites::default())).to_vec(),
    };
    trail.push(known).unwrap();

    let printed = [(1, 1), (2, 9), (3, 5), (5, 7), (8, 4)].map(|it| cell(it.0, it.1));
    let is_cited = |claim| !matches!(claim, Claim::Is(at, _) if !printed.contains(&at));
    let houses = [(Row, 2), (Row, 3), (Row, 5), (Column, 1), (Column, 3)];
    let boxes = [1, 2, 5, 6, 8, 9].map(|it| (Box, it));
    let clues: Vec<_> = puzzle.clue_ids().map(|it| it.0).collect();
    let cites = Cites {
        houses: houses.into_iter().chain(boxes).map(house).collect(),
        clues: [1, 3, 4, 9, 10, 11].map(|it: usize| clues[it]).into(),
        facts: trail.facts().filter(|it| is_cited(it.1.claim())).map(|it| it.0).collect(),
        ..Cites::default()
    };
    let claim = Claim::IsNot(cell(4, 7), size.digit(6).unwrap());
    let unshown =
        |cap| spares(puzzle, &trail, &claim, &cites, cap).map(|it| it.is_proved).collect::<Vec<_>>();
    assert_eq!(unshown(Settings::THOROUGH.argument.cap), [false; 3]);
    assert_eq!(unshown(Settings::THOROUGH.cap), [false; 0]);
    assert!(Judge::new(puzzle).judge(&trail, &claim, &cites, Settings::THOROUGH.cap).is_ok());
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
