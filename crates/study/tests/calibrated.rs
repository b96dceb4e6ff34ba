//! What logged solves have taught goes into every figure of minutes, and solves of real walkthroughs teach it.

use grade::{Calibration, Entry, Outcome, Pace, REGULAR, Solve, Timed, Verdict, calibrate};
use packfile::{SourceFile, read_puzzle};
use reason::Known;
use rulebook::Claim;
use study::{Account, Knowing, Study, study};

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
    let mut solves = Vec::new();
    for (at, puzzle) in PUZZLES.iter().enumerate() {
        let study = study(entry(at), true);
        let account = account(&study);
        let trail = account.explained.walkthrough().trail();
        for slow in [1.4, 1.6] {
            let (mut seconds, mut entries) = (0.0, Vec::new());
            for it in &account.estimate.steps {
                seconds += slow * (it.wait + it.work);
                for fact in trail.step(it.step).concludes() {
                    let Claim::Is(cell, digit) = trail.fact(*fact).claim() else { continue };
                    entries.push(Entry { at: seconds, cell, digit: Some(digit) });
                }
            }
            let solve = Solve {
                puzzle: (*puzzle).to_owned(),
                solver: format!("a person of {slow}"),
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
    let lesson = calibrate(&solves).silent;
    let Verdict::Moves(errors, calibration) = lesson.verdict else { panic!("{:?}", lesson.verdict) };
    let pace = calibration.paces().nth(1).unwrap().1;
    assert_eq!(pace.n_solves, 6);
    assert!(errors.before > 1.35 && errors.after < 1.2, "{errors:?}");
}
