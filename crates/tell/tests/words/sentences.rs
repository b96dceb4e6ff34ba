//! The words of every argument in every voice, compared with `data/sentences.txt`; `UPDATE_CASES=1` rewrites that
//! file. Every text is also read back: its sums are worked out again, its sentences are counted, and
//! it may name nothing that the step does not hold.

mod almost_locked;
mod chains;
mod classic;
mod crusts;
mod misfits;
mod small_arguments;
mod sums;

use std::collections::BTreeSet;

use crate::support::{Scene, cell, cells, check, digit, digits, house};
use rulebook::Claim;
use tell::{Voice, says, says_in};
use trail::{Argument, Because, Branch, Cites, End, Follows, Inference, Link, Misfit, Side, Stated, StepId};

const DATA: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/sentences.txt");

/// One step to be told.
pub(crate) struct Case {
    pub(crate) name: &'static str,
    pub(crate) scene: Scene,
    pub(crate) step: StepId,
}

#[test]
fn every_case_is_said_as_expected() {
    let mut got = String::new();
    for Case { name, scene, step } in cases() {
        let text = says(&scene.puzzle, &scene.trail, step);
        let [aloud, screen] =
            [Voice::Spoken, Voice::Screen].map(|it| says_in(it, &scene.puzzle, &scene.trail, step));
        got += &format!("# {name}\n{text}\n## aloud\n{aloud}\n## on a screen\n{screen}\n\n");
    }
    if std::env::var_os("UPDATE_CASES").is_some() {
        std::fs::write(DATA, &got).unwrap();
    }
    for Case { name, scene, step } in cases() {
        check(name, &scene.puzzle, &scene.trail, step, &says(&scene.puzzle, &scene.trail, step));
    }
    let expected = std::fs::read_to_string(DATA).unwrap();
    for (got, expected) in got.split("\n\n").zip(expected.split("\n\n")) {
        assert_eq!(got, expected, "\n--- expected\n{expected}\n--- got\n{got}\n");
    }
    assert_eq!(got, expected, "a case is missing");
}

#[test]
fn every_argument_has_a_case() {
    let told: BTreeSet<&str> =
        cases().iter().map(|it| variant(it.scene.trail.step(it.step).argument())).collect();
    assert_eq!(told.len(), N_VARIANTS, "{told:?}");
}

#[test]
fn only_few_sentences_unless_it_is_an_argument_by_cases() {
    for Case { name, scene, step } in cases() {
        let text = says(&scene.puzzle, &scene.trail, step);
        let goes_by_cases =
            matches!(scene.trail.step(step).argument(), Argument::Cases { .. } | Argument::Followed { .. });
        if !goes_by_cases {
            // One more names the steps, where these are many; and sets take what room they need.
            let many_sets = match scene.trail.step(step).argument() {
                Argument::Sets { sets, excluded, .. } => (sets.len() + excluded.len()) / 5,
                _ => 0,
            };
            // Each digit tried in a cell has a sentence, and one more where several houses refuse it.
            let tries = match scene.trail.step(step).argument() {
                Argument::Misfits { tries, around, .. } if around.len() > 1 => 2 * tries.len(),
                Argument::Misfits { tries, .. } => tries.len(),
                _ => 0,
            };
            // Each link of a chain has a sentence, and one that counts it.
            let tries = match scene.trail.step(step).argument() {
                Argument::Chain { links, .. } => 2 * links.len(),
                _ => tries,
            };
            let most = 4 + usize::from(text.contains("This rests on")) + many_sets + tries;
            assert!(crate::support::sentences(&text).len() <= most, "{name}: {text}");
            assert!(!text.contains('\n'), "{name}: {text}");
        }
    }
}

const N_VARIANTS: usize = 34;

/// The variant's name. A new variant does not compile until it is named here, and fails
/// `every_argument_has_a_case` until it has a case.
fn variant(argument: &Argument) -> &'static str {
    match argument {
        Argument::LastCell { .. } => "LastCell",
        Argument::OnePlace { .. } => "OnePlace",
        Argument::OneDigit { .. } => "OneDigit",
        Argument::Locked { .. } => "Locked",
        Argument::SharedDigits { .. } => "SharedDigits",
        Argument::SharedCells { .. } => "SharedCells",
        Argument::Crossing { .. } => "Crossing",
        Argument::Wing { .. } => "Wing",
        Argument::JoinedPairs { .. } => "JoinedPairs",
        Argument::TwoColours { .. } => "TwoColours",
        Argument::EqualPairs { .. } => "EqualPairs",
        Argument::AlmostLocked { .. } => "AlmostLocked",
        Argument::LineAndBox { .. } => "LineAndBox",
        Argument::Chain { .. } => "Chain",
        Argument::SeesBothCrusts { .. } => "SeesBothCrusts",
        Argument::CrustsFound { .. } => "CrustsFound",
        Argument::CrustPlaces { .. } => "CrustPlaces",
        Argument::CrustHeld { .. } => "CrustHeld",
        Argument::CrustsTouch { .. } => "CrustsTouch",
        Argument::CrustsAtEnds { .. } => "CrustsAtEnds",
        Argument::CrustDistance { .. } => "CrustDistance",
        Argument::Reach { .. } => "Reach",
        Argument::Sets { .. } => "Sets",
        Argument::SpentSplits { .. } => "SpentSplits",
        Argument::SideHolds { .. } => "SideHolds",
        Argument::HeldActs { .. } => "HeldActs",
        Argument::Remainder { .. } => "Remainder",
        Argument::CrustsInTurn { .. } => "CrustsInTurn",
        Argument::CrustAmong { .. } => "CrustAmong",
        Argument::CrustsShared { .. } => "CrustsShared",
        Argument::CrustsConfined { .. } => "CrustsConfined",
        Argument::Misfits { .. } => "Misfits",
        Argument::Followed { .. } => "Followed",
        Argument::Cases { .. } => "Cases",
    }
}

pub(crate) fn cases() -> Vec<Case> {
    let groups = [
        classic::classic(),
        chains::crossings(),
        chains::wings(),
        almost_locked::almost_locked(),
        chains::chains(),
        crusts::crusts(),
        sums::sums(),
        misfits::misfits(),
        small_arguments::small_arguments(),
    ];
    groups.into_iter().flatten().collect()
}

/// A case on a scene that `build` fills; the step it returns is told.
fn case(name: &'static str, mut scene: Scene, build: impl FnOnce(&mut Scene) -> StepId) -> Case {
    let step = build(&mut scene);
    Case { name, scene, step }
}

fn is(at: &str, value: u8) -> Claim {
    Claim::Is(cell(at), digit(value))
}

fn not(at: &str, values: &[u8]) -> Vec<Claim> {
    cells(at).iter().flat_map(|at| values.iter().map(move |it| Claim::IsNot(at, digit(*it)))).collect()
}

fn filling(at: &str) -> Vec<Claim> {
    cells(at).iter().map(Claim::Filling).collect()
}

fn crust(at: &str) -> Vec<Claim> {
    cells(at).iter().map(Claim::Crust).collect()
}

fn between(line: &str, fewest: u8, most: u8) -> Claim {
    Claim::FillingCells { line: house(line), fewest, most }
}

fn spent(line: &str, values: &[u8]) -> Claim {
    Claim::Spent { line: house(line), filling: digits(values) }
}

fn held(line: &str, value: u8, at: &str) -> Claim {
    Claim::DigitAmong { house: house(line), digit: digit(value), cells: cells(at) }
}

/// Citations of facts that a step of their own has concluded.
fn known(scene: &mut Scene, claims: &[Claim]) -> Cites {
    scene.know(claims).into_iter().fold(Cites::default(), Cites::fact)
}
