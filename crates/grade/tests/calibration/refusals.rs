//! Too little is refused, with what is missing; silent solves and those talked aloud are kept apart.

use grade::{
    Calibration, FEWEST_PUZZLES, FEWEST_SOLVES, Outcome, Pace, Solver, Timed, Verdict, Wait, calibrate,
};

use crate::simulated::*;

#[test]
fn too_little_is_refused() {
    let puzzles = puzzles(5, &techniques(), 1);
    let truth = Truth { pace: 0.8, ..Truth::default() };
    let solves = all_solved(&puzzles, &people(Solver::ALL[1], 1, 1), &truth, 1);
    let missing = |solves: &[Timed]| match calibrate(solves).silent.verdict {
        Verdict::TooLittle { solves, puzzles } => Some((solves, puzzles)),
        _ => None,
    };
    assert_eq!(missing(&[]), Some((FEWEST_SOLVES, FEWEST_PUZZLES)));
    assert_eq!(
        missing(&solves[..1]),
        Some((FEWEST_SOLVES - 1, FEWEST_PUZZLES - 1)),
        "one solve by one solver"
    );
    assert_eq!(missing(&solves[..4]), Some((1, 0)));
    assert_eq!(missing(&solves), None);
    let of_one_puzzle = all_solved(&puzzles[..1], &people(Solver::ALL[1], 6, 1), &truth, 1);
    assert_eq!(missing(&of_one_puzzle), Some((0, FEWEST_PUZZLES - 1)));
    for few in [&solves[..0], &solves[..4], &of_one_puzzle[..]] {
        let lesson = calibrate(few).silent;
        assert_eq!((lesson.calibration(), lesson.people.len()), (Calibration::default(), 0));
    }
}

#[test]
fn solves_that_hardly_began_do_not_count() {
    let puzzles = puzzles(5, &techniques(), 2);
    let person = &people(Solver::ALL[1], 1, 2)[0];
    let mut luck = luck(2);
    let solves = puzzles.iter().map(|made| {
        let mut solve = solved(made, person, &Truth::default(), &mut luck);
        solve.entries.truncate(4);
        solve.outcome = Outcome::Left;
        Timed::new(&solve, &made.course).unwrap()
    });
    let lesson = calibrate(&solves.collect::<Vec<_>>()).silent;
    assert_eq!((lesson.n_solves, lesson.n_too_short), (0, 5));
    assert_eq!(lesson.verdict, Verdict::TooLittle { solves: FEWEST_SOLVES, puzzles: FEWEST_PUZZLES });
}

/// Puzzles that each go their own way: what the others say makes the one left out worse.
#[test]
fn what_foretells_no_better_is_not_used() {
    let puzzles = puzzles(4, &techniques(), 3);
    let people = people(Solver::ALL[1], 3, 3);
    let solves = puzzles.iter().enumerate().flat_map(|(at, made)| {
        let truth = Truth { pace: if at % 2 == 0 { 1.5 } else { -1.5 }, ..Truth::default() };
        all_solved(std::slice::from_ref(made), &people, &truth, 3 + at as u64)
    });
    let lesson = calibrate(&solves.collect::<Vec<_>>()).silent;
    let Verdict::NoBetter(errors) = lesson.verdict else { panic!("{:?}", lesson.verdict) };
    assert!(errors.after >= errors.before && errors.before > 1.0);
    assert_eq!(lesson.calibration(), Calibration::default());
}

#[test]
fn aloud_is_fitted_apart() {
    let puzzles = puzzles(5, &techniques(), 4);
    let people = people(Solver::ALL[1], 3, 4);
    let silent = all_solved(&puzzles, &people, &Truth { pace: 0.4, ..Truth::default() }, 4);
    let mut luck = luck(5);
    let slower = Truth { pace: 1.2, ..Truth::default() };
    let aloud: Vec<Timed> = puzzles
        .iter()
        .flat_map(|made| people.iter().map(move |person| (made, person)))
        .map(|(made, person)| {
            let solve = grade::Solve { is_aloud: true, ..solved(made, person, &slower, &mut luck) };
            Timed::new(&solve, &made.course).unwrap()
        })
        .collect();
    let both = calibrate(&[&silent[..], &aloud[..]].concat());
    assert_eq!(both.silent, calibrate(&silent).silent);
    assert_eq!(both.aloud, calibrate(&aloud).aloud);
    let pace = |it: Calibration| it.paces().nth(1).unwrap().1.ratio;
    assert!(pace(both.aloud.calibration()) > 1.6 * pace(both.silent.calibration()));
}

#[test]
fn ratios_beyond_belief_are_none() {
    let paces = |ratio| [Pace::default(), Pace { ratio, n_solves: 9 }, Pace::default()];
    for ratio in [0.0, -1.0, 0.01, 21.0, f64::NAN, f64::INFINITY] {
        assert!(Calibration::new(paces(ratio), Default::default()).is_err(), "{ratio}");
        let waits = [(techniques()[0], Wait { ratio, n_steps: 12 })].into();
        assert!(Calibration::new(paces(1.0), waits).is_err(), "{ratio}");
    }
    let it = Calibration::new(paces(1.23456), Default::default()).unwrap();
    assert_eq!((it.n_solves(), it.paces().nth(1).unwrap().1.ratio), (9, 1.235));
    assert_eq!(Calibration::default().n_solves(), 0);
}
