//! What was put in comes out again, within stated bounds.

use std::collections::BTreeMap;

use grade::{Calibration, Errors, FEWEST_STEPS, Lesson, Solve, Solver, Timed, Verdict, calibrate};
use rand::RngExt;
use rand_distr::Normal;
use trail::TechniqueId;

use crate::simulated::*;

fn moved(lesson: &Lesson) -> (Errors, &Calibration) {
    match &lesson.verdict {
        Verdict::Moves(errors, it) => (*errors, it),
        other => panic!("{other:?}"),
    }
}

fn pace(it: &Calibration, kind: usize) -> f64 {
    it.paces().nth(kind).unwrap().1.ratio
}

/// Parameters drawn as far apart as the fit expects them to be.
fn truth(seed: u64) -> Truth {
    let mut luck = luck(seed);
    let differs = Normal::new(0.0, 0.5).unwrap();
    let waits: BTreeMap<TechniqueId, f64> =
        techniques().into_iter().map(|it| (it, luck.sample::<f64, _>(differs).exp())).collect();
    Truth { pace: luck.sample::<f64, _>(differs), waits }
}

/// Whether a ratio is within a factor of what it should be.
#[track_caller]
fn assert_within(factor: f64, found: f64, expected: f64) {
    let off = (found / expected).ln().abs();
    assert!(off < factor.ln(), "{found:.3} is off from {expected:.3} by a factor of {:.3}", off.exp());
}

/// The bounds: six people who differ by 0.25 have a mean that is off by 0.25 / √6 = 0.1, so a pace may be off by three
/// times that, 1.35; what is seen of a technique is pace and wait together, off by less than a third; and at least
/// half of those by less than a sixth.
#[test]
fn parameters_are_recovered() {
    for seed in 0..4 {
        let truth = truth(seed);
        let puzzles = puzzles(10, &techniques(), 100 * seed);
        let people = people(Solver::ALL[1], 6, seed);
        let lessons = calibrate(&all_solved(&puzzles, &people, &truth, seed));
        let (errors, it) = moved(&lessons.silent);
        assert_within(1.35, pace(it, 1), truth.pace.exp());
        assert_eq!(it.waits().count(), techniques().len());
        let mut off: Vec<f64> = Vec::new();
        for (id, wait) in it.waits() {
            let (found, expected) = (wait.ratio * pace(it, 1), truth.waits[&id] * truth.pace.exp());
            assert_within(1.33, found, expected);
            off.push((found / expected).ln().abs());
        }
        off.sort_by(f64::total_cmp);
        assert!(off[off.len() / 2] < 1.17_f64.ln(), "{off:?}");
        // Half of the solves are off by no more than their days and persons, 0.67 standard deviations of them.
        assert!(errors.after < errors.before && errors.after < 1.6, "{errors:?}");
        for (person, found) in people.iter().zip(&lessons.silent.people) {
            assert_eq!((&person.name, found.n_solves), (&found.name, puzzles.len()));
        }
    }
}

/// Who is slow and who is quick comes out too.
#[test]
fn people_are_told_apart() {
    let puzzles = puzzles(8, &techniques(), 7);
    let person = |name: &str, pace| Person { name: name.to_owned(), kind: Solver::ALL[1], pace };
    let people = [person("a", -0.4), person("b", 0.0), person("c", 0.4)];
    let truth = Truth { pace: 0.5, ..Truth::default() };
    let lessons = calibrate(&all_solved(&puzzles, &people, &truth, 7));
    let found: Vec<f64> = lessons.silent.people.iter().map(|it| it.ratio).collect();
    assert!(found.is_sorted_by(|a, b| a < b), "{found:?}");
    assert_within(1.3, found[2] / found[0], 0.8_f64.exp());
}

#[test]
fn kinds_keep_apart_and_a_kind_without_solves_goes_with_the_others() {
    let puzzles = puzzles(8, &techniques(), 3);
    let [newcomer, regular, _] = Solver::ALL;
    let slow = people(newcomer, 4, 1).into_iter().map(|it| Person { pace: it.pace + 0.6, ..it });
    let people: Vec<Person> = slow.chain(people(regular, 4, 2)).collect();
    let truth = Truth { pace: 0.4, ..Truth::default() };
    let lessons = calibrate(&all_solved(&puzzles, &people, &truth, 5));
    let (_, it) = moved(&lessons.silent);
    let n_solves: Vec<usize> = it.paces().map(|it| it.1.n_solves).collect();
    assert_eq!((n_solves, it.n_solves()), (vec![32, 32, 0], 64));
    // Four people of a kind are few, so the kinds are drawn towards each other.
    assert!(pace(it, 0) > 1.15 * pace(it, 1) && pace(it, 1) > 1.2, "{it:?}");
    assert!(pace(it, 2) > 1.2, "an old hand is as likely to be slower than the model: {it:?}");
}

/// A telephone call of forty minutes in one solve in ten.
#[test]
fn an_outlier_does_not_wreck_the_fit() {
    let truth = truth(11);
    let puzzles = puzzles(6, &techniques(), 11);
    let people = people(Solver::ALL[1], 5, 11);
    let solves = |calls: bool| -> Vec<Timed> {
        let mut luck = luck(12);
        let mut solves = Vec::new();
        for (at, made) in puzzles.iter().enumerate() {
            for (who, person) in people.iter().enumerate() {
                let solve = solved(made, person, &truth, &mut luck);
                let solve =
                    if calls && (at * people.len() + who) % 10 == 3 { interrupted(solve) } else { solve };
                solves.push(Timed::new(&solve, &made.course).unwrap());
            }
        }
        solves
    };
    let (without, with) = (calibrate(&solves(false)), calibrate(&solves(true)));
    let ((_, without), (errors, with)) = (moved(&without.silent), moved(&with.silent));
    assert_within(1.03, pace(with, 1), pace(without, 1));
    for ((id, a), (_, b)) in without.waits().zip(with.waits()) {
        assert!((a.ratio / b.ratio).ln().abs() < 0.05, "{id}: {} {}", a.ratio, b.ratio);
    }
    assert!(errors.after < errors.before);
}

/// The telephone rings after the thirtieth digit.
fn interrupted(mut solve: Solve) -> Solve {
    solve.entries[30..].iter_mut().for_each(|it| it.at += 2400.0);
    solve
}

/// Even of the fewest solves that count, one with a call moves little.
#[test]
fn an_outlier_among_few_does_not_either() {
    let puzzles = puzzles(5, &techniques(), 21);
    let person = &people(Solver::ALL[1], 1, 21)[0];
    let truth = Truth { pace: 0.7, ..Truth::default() };
    let fitted = |calls: bool| {
        let mut luck = luck(22);
        let solves = puzzles.iter().enumerate().map(|(at, made)| {
            let solve = solved(made, person, &truth, &mut luck);
            Timed::new(&if calls && at == 2 { interrupted(solve) } else { solve }, &made.course).unwrap()
        });
        let lessons = calibrate(&solves.collect::<Vec<_>>());
        pace(moved(&lessons.silent).1, 1)
    };
    assert_within(1.05, fitted(true), fitted(false));
}

/// Techniques that hardly occur keep to the default, and it is said how many steps are wanted.
#[test]
fn a_technique_with_few_steps_is_not_moved() {
    let all = techniques();
    let (rare, usual) = (all[6], &all[..4]);
    let mut puzzles = puzzles(6, usual, 31);
    puzzles[0] = made("puzzle-0", &all[3..], 31);
    let mut luck = luck(32);
    let truth = Truth { pace: 0.5, ..Truth::default() };
    let mut solves = all_solved(&puzzles[1..], &people(Solver::ALL[1], 3, 31), &truth, 33);
    // Only the beginning of the puzzle with the rare technique.
    let mut short = solved(&puzzles[0], &people(Solver::ALL[1], 1, 31)[0], &truth, &mut luck);
    short.entries.truncate(12);
    short.outcome = grade::Outcome::Left;
    solves.push(Timed::new(&short, &puzzles[0].course).unwrap());
    let lessons = calibrate(&solves);
    let (_, it) = moved(&lessons.silent);
    assert!(it.waits().all(|(id, wait)| id != rare && wait.n_steps >= FEWEST_STEPS));
    let wanted = lessons.silent.wanted.iter().find(|(id, _)| *id == rare).unwrap().1;
    assert!((1..FEWEST_STEPS).contains(&wanted), "{wanted}");
}

#[test]
fn equal_solves_give_equal_lessons_in_any_order() {
    for seed in 40..43 {
        let puzzles = puzzles(4, &techniques(), seed);
        let mut solves = all_solved(&puzzles, &people(Solver::ALL[2], 3, seed), &truth(seed), seed);
        let once = format!("{:?}", calibrate(&solves));
        assert_eq!(once, format!("{:?}", calibrate(&solves)));
        solves.reverse();
        assert_eq!(once, format!("{:?}", calibrate(&solves)));
    }
}
