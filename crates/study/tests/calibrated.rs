//! What logged solves have taught goes into every figure of minutes, and solves of real walkthroughs teach it.

use grade::{Calibration, Entry, Outcome, Pace, REGULAR, Solve, Timed, Verdict, calibrate};
use packfile::{SourceFile, read_puzzle};
use reason::Known;
use rulebook::Claim;
use study::{Account, Knowing, Study, study};
use trail::TechniqueId;

const PUZZLES: [&str; 3] = ["first-light", "dark-stair", "low-tide"];

fn entry(at: usize) -> pack::Entry {
    let text = [
        include_str!("../../galley/tests/packs/lamp-store/puzzles/first-light.toml"),
        include_str!("../../galley/tests/packs/lamp-store/puzzles/dark-stair.toml"),
        include_str!("../../galley/tests/packs/lamp-store/puzzles/low-tide.toml"),
    ][at];
    read_puzzle(&SourceFile::new(format!("{}.toml", PUZZLES[at]), text)).0.unwrap()
}

fn slower() -> Calibration {
    let pace = Pace { ratio: 2.0, n_solves: 4 };
    Calibration::new([pace; 3], Default::default()).unwrap()
}

fn account(study: &Study) -> &Account {
    study.opened().unwrap().account.unwrap()
}

#[test]
fn a_calibration_reaches_every_walkthrough_of_a_puzzle() {
    let plain = study(entry(0), false);
    let calibrated = plain.clone().calibrated(&slower());
    let seconds = |it: &Account| it.estimate.seconds();
    let twice = |a: &Account, b: &Account| (seconds(a) / seconds(b) - 2.0).abs() < 1e-9;
    assert!(twice(account(&calibrated), account(&plain)));
    assert_eq!(
        account(&calibrated).techniques(),
        account(&plain).techniques(),
        "the walkthrough is the same"
    );
    assert_eq!((plain.minutes().unwrap().n_solves, calibrated.minutes().unwrap().n_solves), (0, 12));
    let known = Known::only(account(&plain).techniques().iter().copied());
    let walked = |it: &Study| it.clone().for_solver(known);
    assert!(twice(account(&walked(&calibrated)), account(&walked(&plain))));
    let knowing = |it: &Study| match it.knowing(known) {
        Some(Knowing::Enough(account)) => account,
        other => panic!("{other:?}"),
    };
    assert!(twice(&knowing(&calibrated), &knowing(&plain)));
    assert_eq!(knowing(&calibrated).minutes().n_solves, 12);
    // Back to estimates.
    assert_eq!(account(&calibrated.calibrated(&Calibration::default())).estimate, account(&plain).estimate);
}

/// Somebody takes a half longer than the model at every step of real walkthroughs, which place several digits at once,
/// and none for long.
#[test]
fn solves_of_real_walkthroughs_are_fitted() {
    let studies = [0, 1, 2].map(|at| study(entry(at), true));
    let lesson = calibrate(&solves(&studies, [1.4, 1.6])).silent;
    let Verdict::Moves(errors, calibration) = lesson.verdict else { panic!("{:?}", lesson.verdict) };
    let pace = calibration.paces().nth(1).unwrap().1;
    assert_eq!(pace.n_solves, 6);
    assert!(errors.before > 1.35 && errors.after < 1.2, "{errors:?}");
}

/// What is fitted once was as if everything were known, and so expected shorter waits than the minutes that are printed.
#[test]
fn bug_solves_are_held_against_the_minutes_of_those_who_know_as_much() {
    // Naked singles are open all along, and lead on.
    let known = Known::ALL.without(TechniqueId::new("naked-single"));
    let studies = [0, 1, 2].map(|at| study(entry(at), true).for_solver(known));
    assert!(studies.iter().all(|it| it.is_publishable()));
    // Whoever takes as long as is printed leaves nothing to be corrected.
    let lesson = calibrate(&solves(&studies, [1.0, 1.0])).silent;
    let Verdict::NoBetter(errors) = lesson.verdict else { panic!("{:?}", lesson.verdict) };
    assert!((errors.before - 1.0).abs() < 1e-9, "{errors:?}");
}

/// Two regulars solve each of the puzzles, so many times as slowly as they are expected to at every step.
fn solves(studies: &[Study], slow: [f64; 2]) -> Vec<Timed> {
    let mut solves = Vec::new();
    for study in studies {
        let account = account(study);
        let trail = account.explained.walkthrough().trail();
        for (who, slow) in slow.into_iter().enumerate() {
            let (mut seconds, mut entries) = (0.0, Vec::new());
            for it in &account.estimate.steps {
                seconds += slow * (it.wait + it.work);
                for fact in trail.step(it.step).concludes() {
                    let Claim::Is(cell, digit) = trail.fact(*fact).claim() else { continue };
                    entries.push(Entry { at: seconds, cell, digit: Some(digit) });
                }
            }
            let solve = Solve {
                puzzle: study.entry().id.to_string(),
                solver: format!("person {who}"),
                kind: REGULAR,
                is_aloud: false,
                entries,
                hints: Vec::new(),
                pauses: Vec::new(),
                outcome: Outcome::Solved,
            };
            let timed = Timed::new(&solve, &account.course()).unwrap();
            assert!((timed.seconds() - seconds).abs() < 1e-6, "every second is put down to some step");
            let n_steps: usize = timed.stretches().map(|it| it.0).sum();
            assert_eq!(n_steps, trail.n_steps(), "each step is counted once");
            solves.push(timed);
        }
    }
    solves
}
