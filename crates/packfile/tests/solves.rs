//! Test solves and calibrations: files with their expected problems in `tests/data/solves` and
//! `tests/data/calibrations`, each `.json` with a `.problems` beside it.
//!
//! `UPDATE_CASES=1 cargo test -p packfile` writes the expectations anew; read the difference before keeping it.

mod common;

use std::collections::BTreeMap;
use std::fmt::Write;

use common::cases;
use grade::{Calibration, Mismatch, Pace, Wait};
use grid::Size;
use packfile::{
    Calibrations, Code, LoggedSolve, Problem, SourceFile, fingerprint, read_calibration, read_puzzle,
    read_solve, write_calibration,
};
use proptest::prelude::*;
use reason::TECHNIQUES;
use trail::TechniqueId;

#[test]
fn solves_have_the_problems_expected() {
    cases("solves", |file| {
        let mut got = String::new();
        match read_solve(file) {
            Err(problem) => _ = writeln!(got, "{problem}"),
            Ok(LoggedSolve { solve: it, fingerprint, started, .. }) => {
                let (puzzle, solver, kind, aloud) = (it.puzzle, it.solver, it.kind.name, it.is_aloud);
                _ = writeln!(got, "{puzzle} by {solver}, {kind}, aloud {aloud}, {:?}", it.outcome);
                _ = writeln!(got, "fingerprint {fingerprint:?}, started {started:?}");
                for it in it.entries {
                    _ = writeln!(got, "{} {} {:?}", it.at, it.cell, it.digit.map(|it| it.get()));
                }
                _ = writeln!(got, "hints {:?}, pauses {:?}", it.hints, it.pauses);
            }
        }
        got
    });
}

#[test]
fn calibrations_have_the_problems_expected() {
    cases("calibrations", |file| {
        let (it, problems) = read_calibration(file);
        let mut got = format!("on {} and {} solves\n", it.silent.n_solves(), it.aloud.n_solves());
        for (id, wait) in it.silent.waits() {
            _ = writeln!(got, "{id} {} on {}", wait.ratio, wait.n_steps);
        }
        got.extend(problems.iter().map(|it| format!("{it}\n")));
        got
    });
}

fn first_light() -> pack::Entry {
    let file = SourceFile::new("first-light.toml", include_str!("data/puzzles/nine-by-nine-reads.toml"));
    read_puzzle(&file).0.unwrap()
}

fn logged(fingerprint: &str) -> LoggedSolve {
    let text = include_str!("data/solves/reads.json").replace("0123456789abcdef", fingerprint);
    read_solve(&SourceFile::new("solves/sorrel.json", text)).unwrap()
}

#[test]
fn a_solve_of_a_puzzle_that_is_gone_or_has_changed_is_of_no_use() {
    let entry = first_light();
    let now = fingerprint(&entry.puzzle);
    assert_eq!(logged(&now).check(Some(&entry)), Ok(()));
    let words = |problem: Problem| {
        assert!(!problem.is_error());
        problem.to_string()
    };
    assert_eq!(
        words(logged(&now).check(None).unwrap_err()),
        "solves/sorrel.json: warning[solve-unknown]: the pack has no puzzle `first-light`\n  \
         help: it is kept for when the puzzle comes back"
    );
    assert_eq!(
        words(logged("0123456789abcdef").check(Some(&entry)).unwrap_err()),
        "solves/sorrel.json: warning[solve-outdated]: `first-light` has changed since it was solved: a given or a \
         clue is another\n  help: it is kept; have the puzzle solved again as it is now"
    );
    let cell = Size::NINE.cell(4, 7).unwrap();
    let outdated = logged(&now).mismatched(Mismatch::NotToBeFilled(cell));
    assert!(outdated.code == Code::SolveOutdated && words(outdated).contains("r4c7 is no cell to be filled"));
    let not_held = logged(&now).not_held("has no walkthrough");
    assert!(
        not_held.code == Code::SolveNotHeld && words(not_held).contains("`first-light` has no walkthrough")
    );
}

#[test]
fn a_fingerprint_changes_with_the_puzzle_and_with_nothing_else() {
    let text = include_str!("data/puzzles/nine-by-nine-reads.toml");
    let of = |text: &str| fingerprint(&read_puzzle(&SourceFile::new("a.toml", text)).0.unwrap().puzzle);
    assert_eq!(of(text), of(&text.replace("First light", "Second light").replace("sealed = true", "")));
    assert_ne!(of(text), of(&text.replacen("8 . .", "4 . .", 1)), "a given");
    let clue =
        text.find("rows").and_then(|at| Some(at + text[at..].find(|it: char| it.is_ascii_digit())?)).unwrap();
    let mut other = text.to_owned();
    other.replace_range(clue..=clue, "7");
    assert_ne!(of(text), of(&other), "a clue");
}

fn calibration() -> impl Strategy<Value = Calibration> {
    let ratio = || 0.05..20.0_f64;
    let pace = (ratio(), 0..200_usize).prop_map(|(ratio, n_solves)| Pace { ratio, n_solves });
    let id = prop::sample::select(TECHNIQUES.map(|it| it.id()).to_vec());
    let wait = (ratio(), 10..999_usize).prop_map(|(ratio, n_steps)| Wait { ratio, n_steps });
    let waits = prop::collection::btree_map(id, wait, 0..9);
    let new =
        |(paces, waits): ([Pace; 3], BTreeMap<TechniqueId, Wait>)| Calibration::new(paces, waits).unwrap();
    (prop::array::uniform3(pace), waits).prop_map(new)
}

proptest! {
    #[test]
    fn what_is_written_is_read_back(silent in calibration(), aloud in calibration()) {
        let it = Calibrations { silent, aloud };
        let text = write_calibration(&it);
        prop_assert_eq!(&text, &write_calibration(&it));
        let (read, problems) = read_calibration(&SourceFile::new("calibration.json", text));
        prop_assert_eq!(problems, vec![]);
        prop_assert_eq!(read, it);
    }

    /// Whatever the bytes, there is one problem at most, and it lies in the file.
    #[test]
    fn solves_with_slips(at in any::<usize>(), n in 0..30_usize, instead in "[\\[\\]{}\",:0-9a-z.é\u{feff}-]{0,6}") {
        let mut text = include_str!("data/solves/reads.json").to_owned();
        let at = at % text.len();
        text.replace_range(at..(at + n).min(text.len()), &instead);
        let file = SourceFile::new("solves/a.json", text.clone());
        if let Err(problem) = read_solve(&file) {
            prop_assert!(problem.to_string().lines().count() == 2, "{}", problem);
            let place = problem.at.map_or(0, |it| it.start);
            prop_assert!(place <= text.len() && text.is_char_boundary(place));
        }
        read_calibration(&file);
    }
}
