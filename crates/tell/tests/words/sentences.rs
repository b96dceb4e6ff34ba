//! The words of every argument in every voice, compared with `data/sentences.txt`; `UPDATE_CASES=1` rewrites that
//! file. Every text is also read back: its sums are worked out again, its sentences are counted, and
//! it may name nothing that the step does not hold.

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
        if !scene.trail.step(step).is_small_argument() {
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

const N_VARIANTS: usize = 30;

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
        Argument::Cases { .. } => "Cases",
    }
}

pub(crate) fn cases() -> Vec<Case> {
    [classic(), crossings(), wings(), chains(), crusts(), sums(), misfits(), small_arguments()]
        .into_iter()
        .flatten()
        .collect()
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

fn classic() -> Vec<Case> {
    let row_4 = || house("row 4");
    vec![
        case(
            "last-cell",
            Scene::new(
                9,
                &[],
                &[
                    ("r4c1", 1),
                    ("r4c2", 2),
                    ("r4c3", 3),
                    ("r4c4", 4),
                    ("r4c5", 6),
                    ("r4c6", 7),
                    ("r4c8", 8),
                    ("r4c9", 9),
                ],
            ),
            |it| {
                let argument = Argument::LastCell { house: row_4(), cell: cell("r4c7"), digit: digit(5) };
                let cites = it.givens().house(row_4());
                it.push(argument, &[is("r4c7", 5)], cites)
            },
        ),
        case("one-place-seen", Scene::new(9, &[], &[("r2c1", 5), ("r6c5", 5), ("r8c9", 5)]), |it| {
            let argument = Argument::OnePlace { house: row_4(), cell: cell("r4c7"), digit: digit(5) };
            let cites = it.givens().house(row_4());
            it.push(argument, &[is("r4c7", 5)], cites)
        }),
        case("one-place-seen-and-removed", Scene::new(9, &[], &[("r2c1", 5)]), |it| {
            let removed = known(it, &not("r4c2 r4c3", &[5]));
            let kinds = known(it, &crust("r4c4"));
            let argument = Argument::OnePlace { house: row_4(), cell: cell("r4c7"), digit: digit(5) };
            let cites = it.givens().and(&removed).and(&kinds).house(row_4());
            it.push(argument, &[is("r4c7", 5)], cites)
        }),
        case("one-place-one-step", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r4c2 r4c3", &[5]));
            let argument = Argument::OnePlace { house: row_4(), cell: cell("r4c7"), digit: digit(5) };
            it.push(argument, &[is("r4c7", 5)], removed.house(row_4()))
        }),
        case("one-place-of-many-steps", Scene::new(9, &[], &[]), |it| {
            let steps = ["r4c1", "r4c2", "r4c3", "r4c4", "r4c5", "r4c6", "r4c8", "r4c9"].map(|at| {
                known(it, &filling("r9c9"));
                known(it, &not(at, &[5]))
            });
            let cites = steps.iter().fold(Cites::default().house(row_4()), Cites::and);
            let argument = Argument::OnePlace { house: row_4(), cell: cell("r4c7"), digit: digit(5) };
            it.push(argument, &[is("r4c7", 5)], cites)
        }),
        case(
            "one-digit-seen",
            Scene::new(
                9,
                &[],
                &[
                    ("r4c1", 1),
                    ("r4c2", 2),
                    ("r4c3", 3),
                    ("r1c7", 4),
                    ("r2c7", 6),
                    ("r3c7", 7),
                    ("r5c8", 8),
                    ("r5c9", 9),
                ],
            ),
            |it| {
                let cites = it.givens().house(row_4()).house(house("column 7")).house(house("box 6"));
                let argument = Argument::OneDigit { cell: cell("r4c7"), digit: digit(5) };
                it.push(argument, &[is("r4c7", 5)], cites)
            },
        ),
        case(
            "one-digit-of-filling",
            Scene::new(9, &[], &[("r4c1", 2), ("r4c2", 3), ("r1c7", 4), ("r2c7", 6)]),
            |it| {
                let kind = known(it, &filling("r4c7"));
                let removed = known(it, &not("r4c7", &[7, 8]));
                let argument = Argument::OneDigit { cell: cell("r4c7"), digit: digit(5) };
                let cites = it.givens().and(&kind).and(&removed);
                it.push(argument, &[is("r4c7", 5)], cites)
            },
        ),
        case("one-digit-of-crust", Scene::new(9, &[], &[("r4c1", 1)]), |it| {
            let kind = known(it, &crust("r4c7"));
            let argument = Argument::OneDigit { cell: cell("r4c7"), digit: digit(9) };
            let cites = it.givens().and(&kind).house(row_4());
            it.push(argument, &[is("r4c7", 9)], cites)
        }),
        case("locked-by-digits", Scene::new(9, &[], &[("r5c1", 3), ("r6c9", 3)]), |it| {
            let argument = Argument::Locked {
                digit: digit(3),
                from: house("box 5"),
                into: row_4(),
                cells: cells("r4c4 r4c6"),
            };
            let cites = it.givens().house(house("box 5")).house(row_4());
            it.push(argument, &not("r4c1 r4c8", &[3]), cites)
        }),
        case("locked-by-step", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r5c4 r5c5 r5c6 r6c4 r6c5 r6c6", &[3]));
            let argument = Argument::Locked {
                digit: digit(3),
                from: house("box 5"),
                into: row_4(),
                cells: cells("r4c4 r4c5 r4c6"),
            };
            it.push(argument, &not("r4c1", &[3]), removed.house(house("box 5")).house(row_4()))
        }),
        case("locked-plainly", Scene::new(9, &[], &[]), |it| {
            let argument = Argument::Locked {
                digit: digit(3),
                from: row_4(),
                into: house("box 5"),
                cells: cells("r4c4 r4c5"),
            };
            it.push(argument, &not("r5c4 r6c6", &[3]), Cites::default().house(row_4()))
        }),
        case("shared-digits", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r4c1", &[3, 4]));
            let argument =
                Argument::SharedDigits { house: row_4(), cells: cells("r4c1 r4c5"), digits: digits(&[2, 7]) };
            let lost: Vec<Claim> = [not("r4c2 r4c3", &[2, 7]), not("r4c9", &[7])].concat();
            it.push(argument, &lost, removed.house(row_4()))
        }),
        case("shared-digits-of-three", Scene::new(9, &[], &[]), |it| {
            let argument = Argument::SharedDigits {
                house: house("column 2"),
                cells: cells("r1c2 r2c2 r3c2"),
                digits: digits(&[2, 5, 7]),
            };
            it.push(argument, &not("r9c2", &[2, 5, 7]), Cites::default().house(house("column 2")))
        }),
        case("shared-cells", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r4c2 r4c3", &[2, 7]));
            let argument =
                Argument::SharedCells { house: row_4(), cells: cells("r4c1 r4c5"), digits: digits(&[2, 7]) };
            let lost: Vec<Claim> = [not("r4c1", &[3, 5, 8]), not("r4c5", &[4])].concat();
            it.push(argument, &lost, removed.house(row_4()))
        }),
    ]
}

fn crossing(base: &[&str], cover: &[&str], at: &str, spare: &str) -> (Argument, Cites) {
    let [base, cover] = [base, cover].map(|it| it.iter().map(|it| house(it)).collect::<BTreeSet<_>>());
    let cites = base.iter().chain(&cover).fold(Cites::default(), |cites, it| cites.house(*it));
    (Argument::Crossing { digit: digit(5), base, cover, cells: cells(at), spare: cells(spare) }, cites)
}

fn two_colours(cells: &[&str], joints: &[&str], clash: Option<&str>) -> (Argument, Cites) {
    let (houses, clash): (Vec<_>, _) = (joints.iter().map(|it| house(it)).collect(), clash.map(house));
    let cites = houses.iter().chain(&clash).fold(Cites::default(), |cites, it| cites.house(*it));
    let cells = cells.iter().map(|it| cell(it)).collect();
    (Argument::TwoColours { digit: digit(5), cells, houses, clash }, cites)
}

fn wings() -> Vec<Case> {
    let wing = |pivot: &[u8]| {
        let ends = [(cell("r5c9"), digits(&[2, 4])), (cell("r2c5"), digits(&[4, 7]))];
        Argument::Wing { pivot: cell("r5c5"), digits: digits(pivot), ends, digit: digit(4) }
    };
    let seen = || {
        ["row 5", "column 5", "row 2", "column 9"]
            .iter()
            .fold(Cites::default(), |cites, it| cites.house(house(it)))
    };
    vec![
        case("wing", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r5c5", &[1, 3]));
            it.push(wing(&[2, 7]), &not("r2c9", &[4]), removed.and(&seen()))
        }),
        case("wing-of-three", Scene::new(9, &[], &[]), |it| {
            it.push(wing(&[2, 4, 7]), &not("r5c6 r5c4", &[4]), seen())
        }),
        case("two-colours-seen", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r9c2", &[5]));
            let (argument, cites) =
                two_colours(&["r2c1", "r9c1", "r9c5", "r3c5"], &["column 1", "row 9", "column 5"], None);
            it.push(argument, &not("r3c2 r2c6", &[5]), removed.and(&cites))
        }),
        case("two-colours-clash", Scene::new(9, &[], &[]), |it| {
            let cells = ["r1c1", "r1c5", "r9c5", "r9c2", "r2c2"];
            let (argument, cites) =
                two_colours(&cells, &["row 1", "column 5", "row 9", "column 2"], Some("box 1"));
            it.push(argument, &not("r1c1 r9c5 r2c2", &[5]), cites)
        }),
        case("joined-pairs", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r5c5", &[1, 3]));
            let argument = Argument::JoinedPairs {
                ends: [cell("r1c1"), cell("r2c5")],
                house: house("row 4"),
                joint: digit(7),
                places: cells("r4c1 r4c5"),
                digit: digit(2),
            };
            it.push(argument, &not("r1c5 r2c1", &[2]), removed.house(house("row 4")))
        }),
    ]
}

/// `r4c7 5` is so, `!r4c7 5` is not; `r4c7 C` stands for a crust.
fn stated(text: &str) -> Stated {
    let (holds, text) = text.strip_prefix('!').map_or((true, text), |it| (false, it));
    let (at, value) = text.rsplit_once(' ').unwrap();
    let of = if value == "C" { digits(&[1, 9]) } else { digits(&[value.parse().unwrap()]) };
    Stated { cells: cells(at), digits: of, holds }
}

fn chain(start: &str, links: &[(&str, Follows)]) -> Argument {
    let links = links.iter().map(|(then, because)| Inference { then: stated(then), because: *because });
    Argument::Chain { start: stated(start), links: links.collect() }
}

fn chains() -> Vec<Case> {
    let by = |name: &str| Follows::House(house(name));
    vec![
        case("chain-with-two-ends", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r4c1", &[5])).and(&known(it, &not("r6c2", &[3])));
            let links = [
                ("r4c2 5", by("row 4")),
                ("!r6c2 5", by("column 2")),
                ("r6c2 7", Follows::Cell),
                ("!r6c9 7", by("row 6")),
                ("r5c8 r6c8 7", by("box 6")),
            ];
            let houses = ["row 4", "column 2", "row 6", "box 6"];
            let cites = houses.iter().fold(removed, |cites, it| cites.house(house(it)));
            it.push(chain("!r4c7 5", &links), &not("r4c8", &[5]), cites)
        }),
        case("chain-with-one-digit-at-both-ends", Scene::new(9, &[], &[]), |it| {
            let links = [("r4c2 5", by("row 4")), ("!r6c2 5", by("column 2")), ("r6c9 5", by("row 6"))];
            let cites = Cites::default().house(house("row 4")).house(house("column 2")).house(house("row 6"));
            it.push(chain("!r4c7 5", &links), &not("r6c7", &[5]), cites)
        }),
        case("chain-from-cells-of-a-box", Scene::new(9, &[], &[]), |it| {
            let links = [("r5c2 7", by("row 5")), ("!r7c2 7", by("column 2")), ("r7c8 7", by("row 7"))];
            let houses = ["row 5", "column 2", "row 7", "column 8"];
            let cites = houses.iter().fold(Cites::default(), |cites, it| cites.house(house(it)));
            it.push(chain("!r5c7 r5c8 7", &links), &not("r4c8", &[7]), cites)
        }),
        case("chain-to-its-opposite", Scene::new(9, &[("row 4", 20), ("column 2", 7)], &[]), |it| {
            let row = Follows::Clue(it.clue("row 4"));
            let column = Follows::Known(Claim::Spent { line: house("column 2"), filling: digits(&[3, 4]) });
            let spent = known(it, &[Claim::Spent { line: house("column 2"), filling: digits(&[3, 4]) }]);
            let links = [
                ("r4c2 C", row),
                ("!r6c2 5", column),
                ("!r6c2 C", column),
                ("r6c2 7", Follows::Cell),
                ("!r6c7 7", by("row 6")),
                ("r4c7 7", by("column 7")),
            ];
            let cites = spent.clue(it.clue("row 4")).house(house("row 6")).house(house("column 7"));
            it.push(chain("!r4c7 7", &links), &[is("r4c7", 7)], cites)
        }),
    ]
}

fn crossings() -> Vec<Case> {
    let rows_1_and_4 =
        |spare| crossing(&["row 1", "row 4"], &["column 3", "column 8"], "r1c3 r1c8 r4c3 r4c8", spare);
    vec![
        case("crossing-of-rows", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r4c1 r4c9", &[5]));
            let (argument, cites) = rows_1_and_4("");
            it.push(argument, &not("r2c3 r8c3 r9c8", &[5]), removed.and(&cites))
        }),
        case("crossing-of-columns", Scene::new(9, &[], &[]), |it| {
            let (base, cover) = (["column 1", "column 5", "column 6"], ["row 2", "row 3", "row 4"]);
            let (argument, cites) = crossing(&base, &cover, "r2c1 r3c1 r3c5 r4c5 r2c6 r4c6", "");
            it.push(argument, &not("r3c9", &[5]), cites)
        }),
        case("crossing-with-one-spare", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r4c1 r4c9", &[5]));
            let (argument, cites) = rows_1_and_4("r1c7");
            it.push(argument, &not("r2c8 r3c8", &[5]), removed.and(&cites).house(house("box 3")))
        }),
        case("crossing-with-two-spare", Scene::new(9, &[], &[]), |it| {
            let (argument, cites) = rows_1_and_4("r1c7 r1c9");
            it.push(argument, &not("r2c8", &[5]), cites.house(house("box 3")))
        }),
        case("crossing-with-many-spare", Scene::new(9, &[], &[]), |it| {
            let (base, cover) = (["row 1", "row 3", "row 4"], ["column 3", "column 5", "column 8"]);
            let (argument, cites) = crossing(&base, &cover, "r1c3 r1c8 r3c3 r4c5", "r1c7 r1c9 r3c7");
            it.push(argument, &not("r2c8", &[5]), cites.house(house("box 3")))
        }),
    ]
}

fn crusts() -> Vec<Case> {
    let row_4 = || house("row 4");
    vec![
        case("sees-both-one-cell", Scene::new(9, &[], &[("r4c1", 1), ("r9c5", 9)]), |it| {
            let argument = Argument::SeesBothCrusts { cells: cells("r4c5 r4c6") };
            let cites = it.givens().house(row_4()).house(house("column 5"));
            it.push(argument, &filling("r4c5"), cites)
        }),
        case("sees-both-known-to-differ", Scene::new(9, &[], &[("r4c1", 1)]), |it| {
            let removed = known(it, &not("r4c5", &[9]));
            let argument = Argument::SeesBothCrusts { cells: cells("r4c5") };
            let cites = it.givens().and(&removed).house(row_4());
            it.push(argument, &filling("r4c5"), cites)
        }),
        case("sees-both-several", Scene::new(9, &[], &[("r4c1", 1), ("r5c8", 9)]), |it| {
            let removed = known(it, &not("r4c5", &[9]));
            let argument = Argument::SeesBothCrusts { cells: cells("r4c5 r4c7 r4c9") };
            let cites = it.givens().and(&removed);
            it.push(argument, &filling("r4c5 r4c7 r4c9"), cites)
        }),
        case("crusts-found", Scene::new(9, &[], &[("r4c1", 1)]), |it| {
            let kind = known(it, &crust("r4c6"));
            let argument = Argument::CrustsFound { house: row_4(), crusts: cells("r4c1 r4c6") };
            let cites = it.givens().and(&kind).house(row_4());
            it.push(argument, &filling("r4c2 r4c3 r4c4 r4c5 r4c7 r4c9"), cites)
        }),
        case("crust-places", Scene::new(9, &[], &[]), |it| {
            let a = known(it, &filling("r4c2 r4c3 r4c4 r4c5"));
            let b = known(it, &filling("r4c7 r4c8 r4c9"));
            let argument = Argument::CrustPlaces { house: row_4(), cells: cells("r4c1 r4c6") };
            it.push(argument, &crust("r4c1 r4c6"), a.and(&b).house(row_4()))
        }),
        case("crust-held", Scene::new(9, &[], &[]), |it| {
            let kind = known(it, &crust("r5c6"));
            let away = known(it, &filling("r4c7 r4c8 r4c9"));
            let argument = Argument::CrustHeld {
                into: house("box 5"),
                line: row_4(),
                known: cell("r5c6"),
                cells: cells("r4c4 r4c5"),
            };
            let cites = kind.and(&away).house(row_4()).house(house("box 5"));
            it.push(argument, &filling("r5c4 r5c5 r6c4"), cites)
        }),
        case("crusts-confined-in-a-box", Scene::new(9, &[], &[]), |it| {
            let away = known(it, &filling("r5c4 r5c5 r5c6 r6c4"));
            let more = known(it, &filling("r6c5 r6c6"));
            let argument =
                Argument::CrustsConfined { of: house("box 5"), into: row_4(), cells: cells("r4c4 r4c6") };
            let cites = away.and(&more).house(row_4()).house(house("box 5"));
            it.push(argument, &filling("r4c1 r4c2 r4c9"), cites)
        }),
        case("crusts-confined-in-a-column", Scene::new(6, &[], &[("r3c2", 4)]), |it| {
            let away = known(it, &filling("r4c2 r5c2 r6c2"));
            let argument = Argument::CrustsConfined {
                of: house("column 2"),
                into: house("box 1"),
                cells: cells("r1c2 r2c2"),
            };
            let cites = it.givens().and(&away).house(house("column 2")).house(house("box 1"));
            it.push(argument, &filling("r1c1 r2c3"), cites)
        }),
        case("crusts-in-turn", Scene::new(9, &[], &[]), |it| {
            let kinds = known(it, &crust("r1c1 r1c5 r5c5 r4c8"));
            let argument =
                Argument::CrustsInTurn { kinds: ["r1c1 r5c5", "r1c5 r4c8"].map(cells), refused: None };
            let cites = ["row 1", "column 5", "row 5", "row 4"].map(house);
            let cites = cites.into_iter().fold(kinds, Cites::house);
            it.push(argument, &filling("r4c1"), cites)
        }),
        case("crust-turn-settled", Scene::new(6, &[], &[]), |it| {
            let kinds = known(it, &crust("r1c1 r1c5"));
            let more = known(it, &filling("r6c2 r6c3"));
            let refused = Some((house("row 6"), digit(6)));
            let argument = Argument::CrustsInTurn { kinds: ["r1c1", "r1c5"].map(cells), refused };
            let cites = ["row 1", "column 1", "column 5", "row 6"].map(house);
            let cites = cites.into_iter().fold(kinds.and(&more), Cites::house);
            it.push(argument, &[Claim::Is(cell("r1c1"), digit(1)), Claim::Is(cell("r1c5"), digit(6))], cites)
        }),
        case("crust-among", Scene::new(9, &[], &[]), |it| {
            let away = known(it, &filling("r4c7 r4c8 r4c9 r4c1 r4c2"));
            let argument =
                Argument::CrustAmong { of: row_4(), into: house("box 5"), cells: cells("r4c4 r4c6") };
            let claim = Claim::CrustAmong { house: row_4(), cells: cells("r4c4 r4c6") };
            it.push(argument, &[claim], away.house(row_4()))
        }),
        case("crusts-shared", Scene::new(9, &[], &[]), |it| {
            let first = known(it, &[Claim::CrustAmong { house: row_4(), cells: cells("r4c4 r4c6") }]);
            let second = known(it, &[Claim::CrustAmong { house: house("row 6"), cells: cells("r6c5 r6c6") }]);
            let parts = ["r4c4 r4c6", "r6c5 r6c6"].map(cells);
            let argument = Argument::CrustsShared { into: house("box 5"), parts };
            it.push(argument, &filling("r5c4 r5c5 r5c6"), first.and(&second).house(house("box 5")))
        }),
        case("crusts-shared-with-a-known-one", Scene::new(9, &[], &[]), |it| {
            let first = known(it, &[Claim::CrustAmong { house: house("box 5"), cells: cells("r4c4 r4c6") }]);
            let second = known(it, &crust("r4c9"));
            let parts = ["r4c4 r4c6", "r4c9"].map(cells);
            let argument = Argument::CrustsShared { into: row_4(), parts };
            it.push(argument, &filling("r4c1 r4c2"), first.and(&second).house(row_4()))
        }),
        case("crusts-touch", Scene::new(9, &[("row 4", 0)], &[]), |it| {
            let clue = it.clue("row 4");
            let argument = Argument::CrustsTouch { clue, line: row_4() };
            it.push(argument, &[spent("row 4", &[])], Cites::default().clue(clue))
        }),
        case("crusts-touch-and-act", Scene::new(9, &[("column 4", 0)], &[]), |it| {
            let kind = known(it, &filling("r2c4"));
            let clue = it.clue("column 4");
            let argument = Argument::CrustsTouch { clue, line: house("column 4") };
            it.push(argument, &filling("r1c4"), kind.clue(clue))
        }),
        case("crusts-at-ends", Scene::new(9, &[("row 4", 35)], &[]), |it| {
            let clue = it.clue("row 4");
            let argument = Argument::CrustsAtEnds { clue, line: row_4(), sum: 35 };
            let mut claims = crust("r4c1 r4c9");
            claims.extend(filling("r4c2 r4c3 r4c4 r4c5 r4c6 r4c7 r4c8"));
            claims.push(spent("row 4", &[2, 3, 4, 5, 6, 7, 8]));
            it.push(argument, &claims, Cites::default().clue(clue))
        }),
        case("crusts-at-ends-6x6", Scene::new(6, &[("row 4", 14)], &[]), |it| {
            let clue = it.clue("row 4");
            let argument = Argument::CrustsAtEnds { clue, line: row_4(), sum: 14 };
            it.push(argument, &crust("r4c1 r4c6"), Cites::default().clue(clue))
        }),
        distance("crust-distance", 9, 20, (3, 5), &[7, 8], &[2, 3, 4, 5, 6, 7]),
        distance("crust-distance-low-only", 9, 32, (6, 6), &[4, 5, 6, 7, 8], &[2, 3, 4, 5, 6, 7, 8]),
        distance("crust-distance-high-only", 9, 3, (1, 1), &[], &[2, 3]),
        distance("crust-distance-4x4", 4, 5, (2, 2), &[3], &[]),
        case("reach-many-pairs", Scene::new(9, &[], &[]), |it| {
            let apart = known(it, &[between("row 4", 4, 5)]);
            let argument = Argument::Reach { line: row_4(), fewest: 4, most: 5, pairs: pairs("row 4", 4, 5) };
            it.push(argument, &filling("r4c5"), apart.house(row_4()))
        }),
        case("reach-few-pairs", Scene::new(9, &[], &[]), |it| {
            let apart = known(it, &[between("row 4", 6, 6)]);
            let kind = known(it, &filling("r4c2"));
            let argument = Argument::Reach {
                line: row_4(),
                fewest: 6,
                most: 6,
                pairs: vec![(cell("r4c1"), cell("r4c8"))],
            };
            let mut claims = crust("r4c1 r4c8");
            claims.extend(filling("r4c3 r4c9"));
            it.push(argument, &claims, apart.and(&kind).house(row_4()))
        }),
        case("reach-covered-and-unreached", Scene::new(9, &[], &[("r4c6", 4)]), |it| {
            let apart = known(it, &[spent("row 4", &[4, 5, 6, 7, 8])]);
            let kind = known(it, &filling("r4c7 r4c9"));
            let argument = Argument::Reach {
                line: row_4(),
                fewest: 5,
                most: 5,
                pairs: vec![(cell("r4c2"), cell("r4c8"))],
            };
            let cites = it.givens().and(&apart).and(&kind).house(row_4());
            it.push(argument, &filling("r4c1 r4c3 r4c5"), cites)
        }),
        case("reach-argument-knew-more", Scene::new(9, &[], &[("r4c6", 1)]), |it| {
            let argument = Argument::Reach {
                line: row_4(),
                fewest: 1,
                most: 1,
                pairs: vec![(cell("r4c6"), cell("r4c8"))],
            };
            let apart = known(it, &[between("row 4", 1, 2)]);
            let cites = it.givens().and(&apart).house(row_4());
            it.push(argument, &filling("r4c2"), cites)
        }),
    ]
}

/// What is tried in a cell, with places for the crusts such as `"r4c1 r4c4"` and the digits between.
fn tried(supposed: &[u8], places: &[&str], between: &[&[u8]]) -> Misfit {
    let pair = |text: &&str| text.split_once(' ').map(|(a, b)| (cell(a), cell(b))).unwrap();
    Misfit {
        digits: digits(supposed),
        pairs: places.iter().map(pair).collect(),
        sets: between.iter().map(|it| digits(it)).collect(),
        refused: Vec::new(),
    }
}

/// The same, with the houses that have no way with each of the sets.
fn refused(tried: Misfit, by: &[(&[u8], &str)]) -> Misfit {
    Misfit { refused: by.iter().map(|(set, by)| (digits(set), house(by))).collect(), ..tried }
}

fn misfit(at: &str, tries: Vec<Misfit>) -> Argument {
    Argument::Misfits { line: house("row 4"), cell: cell(at), tries, around: Vec::new() }
}

const FILLING: [u8; 7] = [2, 3, 4, 5, 6, 7, 8];

fn misfits() -> Vec<Case> {
    vec![
        case("misfit-mate", Scene::new(9, &[], &[("r5c5", 9)]), |it| {
            let apart = known(it, &[between("row 4", 2, 2)]);
            let argument = misfit("r4c2", vec![tried(&[1], &["r4c2 r4c5"], &[])]);
            let cites = it.givens().and(&apart).house(house("box 5"));
            it.push(argument, &not("r4c2", &[1]), cites)
        }),
        case("misfit-no-mate", Scene::new(9, &[], &[]), |it| {
            let apart = known(it, &[between("row 4", 5, 6)]);
            let argument = misfit("r4c5", vec![tried(&[1, 9], &[], &[])]);
            it.push(argument, &filling("r4c5"), apart)
        }),
        case("misfit-mates-either-side", Scene::new(9, &[], &[]), |it| {
            let apart = known(it, &[between("row 4", 1, 1)]);
            let kinds = known(it, &filling("r4c3 r4c7"));
            let argument = misfit("r4c5", vec![tried(&[1, 9], &["r4c3 r4c5", "r4c5 r4c7"], &[])]);
            it.push(argument, &filling("r4c5"), apart.and(&kinds))
        }),
        case("misfit-crust-without-mates", Scene::new(9, &[], &[]), |it| {
            let apart = known(it, &[between("row 4", 6, 6)]);
            let argument = misfit("r4c2", vec![tried(&FILLING, &["r4c2 r4c9"], &[])]);
            it.push(argument, &crust("r4c2"), apart)
        }),
        case("misfit-crust-and-sum", Scene::new(9, &[("row 4", 16)], &[]), |it| {
            let kinds = known(it, &not("r4c4", &[7, 8]));
            let clue = it.clue("row 4");
            let argument = misfit("r4c3", vec![tried(&[1, 9], &["r4c3 r4c7"], &[&[2, 6, 8], &[4, 5, 7]])]);
            it.push(argument, &filling("r4c3"), kinds.clue(clue))
        }),
        case("misfit-crust-nowhere", Scene::new(9, &[("row 4", 16)], &[]), |it| {
            let clue = it.clue("row 4");
            let argument = misfit("r4c3", vec![tried(&[9], &[], &[])]);
            it.push(argument, &not("r4c3", &[9]), Cites::default().clue(clue))
        }),
        case("misfit-must-be-crust", Scene::new(9, &[("row 4", 16)], &[]), |it| {
            let clue = it.clue("row 4");
            let places = ["r4c1 r4c4", "r4c2 r4c5"];
            let argument = misfit("r4c9", vec![tried(&FILLING, &places, &[&[7, 8]])]);
            it.push(argument, &crust("r4c9"), Cites::default().clue(clue))
        }),
        case("misfit-must-be-crust-of-many", Scene::new(6, &[("row 4", 9)], &[]), |it| {
            let clue = it.clue("row 4");
            let argument = misfit("r4c6", vec![tried(&[2, 3, 4, 5], &[], &[])]);
            it.push(argument, &crust("r4c6"), Cites::default().clue(clue))
        }),
        case("misfit-partners", Scene::new(9, &[("row 4", 12)], &[("r4c1", 1)]), |it| {
            let kind = known(it, &crust("r4c5"));
            let clue = it.clue("row 4");
            let places = ["r4c1 r4c5"];
            let tries = vec![tried(&[8], &places, &[]), tried(&[5], &places, &[&[2, 4, 5, 7], &[3, 4, 5]])];
            let argument = misfit("r4c2", tries);
            it.push(argument, &not("r4c2", &[8, 5]), it.givens().and(&kind).clue(clue))
        }),
        case("misfit-partners-of-many-sets", Scene::new(9, &[("row 4", 17)], &[]), |it| {
            let clue = it.clue("row 4");
            let sets: [&[u8]; 5] = [&[2, 7, 8], &[3, 6, 8], &[4, 5, 8], &[4, 6, 7], &[2, 3, 5, 7]];
            let argument = misfit("r4c2", vec![tried(&[5], &["r4c1 r4c5"], &sets)]);
            it.push(argument, &not("r4c2", &[5]), Cites::default().clue(clue))
        }),
        case("misfit-with-a-neighbour", Scene::new(9, &[("row 4", 12), ("row 5", 9)], &[]), |it| {
            let kinds = known(it, &crust("r4c1 r4c4"));
            let clues = ["row 4", "row 5"].map(|line| it.clue(line));
            let argument = Argument::Misfits {
                line: house("row 4"),
                cell: cell("r4c2"),
                tries: vec![refused(tried(&[4], &["r4c1 r4c4"], &[&[4, 8]]), &[(&[4, 8], "row 5")])],
                around: vec![house("row 5"), house("box 4")],
            };
            let cites = kinds.clue(clues[0]).clue(clues[1]).house(house("box 4"));
            it.push(argument, &not("r4c2", &[4]), cites)
        }),
        case("misfit-refused-by-two", Scene::new(9, &[("row 4", 12), ("row 5", 9)], &[]), |it| {
            let kinds = known(it, &filling("r4c2"));
            let clues = ["row 4", "row 5"].map(|line| it.clue(line));
            let sets: [(&[u8], &str); 2] = [(&[4, 8], "row 5"), (&[5, 7], "box 4")];
            let tried = refused(tried(&[1, 9], &["r4c1 r4c4"], &sets.map(|it| it.0)), &sets);
            let argument = Argument::Misfits {
                line: house("row 4"),
                cell: cell("r4c1"),
                tries: vec![tried],
                around: vec![house("row 5"), house("box 4")],
            };
            let cites = kinds.clue(clues[0]).clue(clues[1]).house(house("box 4"));
            it.push(argument, &filling("r4c1"), cites)
        }),
        case("misfit-with-many-neighbours", Scene::new(9, &[("row 4", 12), ("column 5", 9)], &[]), |it| {
            let set = known(it, &[spent("row 4", &[4, 8])]);
            let clue = it.clue("column 5");
            let around = ["row 5", "column 2", "column 5", "column 7", "box 4", "box 6"].map(house).to_vec();
            let cites = around.iter().fold(set.clue(clue), |cites, it| cites.house(*it));
            let pairs = ["r4c1 r4c4", "r4c2 r4c5", "r4c6 r4c9"];
            let tries = vec![tried(&[1, 9], &pairs, &[&[4, 8]]), tried(&FILLING, &pairs, &[&[4, 8]])];
            let argument = Argument::Misfits { line: house("row 4"), cell: cell("r4c2"), tries, around };
            it.push(argument, &[filling("r4c2"), crust("r4c2")].concat(), cites)
        }),
        case("misfit-spent", Scene::new(9, &[("row 4", 8)], &[]), |it| {
            let set = known(it, &[spent("row 4", &[3, 5])]);
            let removed = known(it, &not("r4c3", &[3]));
            let argument = misfit("r4c2", vec![tried(&[5], &["r4c1 r4c4"], &[&[3, 5]])]);
            it.push(argument, &not("r4c2", &[5]), set.and(&removed))
        }),
        case("misfit-nothing-between", Scene::new(9, &[("row 4", 0)], &[("r1c3", 1)]), |it| {
            let set = known(it, &[spent("row 4", &[])]);
            let argument = misfit("r4c2", vec![tried(&[9], &["r4c2 r4c3"], &[&[]])]);
            it.push(argument, &not("r4c2", &[9]), set)
        }),
    ]
}

fn distance(
    name: &'static str,
    side: u8,
    sum: u16,
    (fewest, most): (u8, u8),
    short: &[u8],
    over: &[u8],
) -> Case {
    // `over` is given even where it is not too large, to be dropped here as the maker of steps does.
    let over = Some(digits(over)).filter(|it| it.sum() > sum).unwrap_or_default();
    case(name, Scene::new(side, &[("row 4", sum)], &[]), |it| {
        let clue = it.clue("row 4");
        let argument = Argument::CrustDistance {
            clue,
            line: house("row 4"),
            sum,
            fewest,
            most,
            short: digits(short),
            over,
        };
        it.push(argument, &[between("row 4", fewest, most)], Cites::default().clue(clue))
    })
}

/// Every pair of cells of a 9x9 line with that many cells between them.
fn pairs(line: &str, fewest: usize, most: usize) -> Vec<(grid::Cell, grid::Cell)> {
    let all = grid::Size::NINE.cells_of(house(line));
    let pairs = (0..9).flat_map(|a| (a + 1..9).map(move |b| (a, b)));
    pairs.filter(|(a, b)| (fewest..=most).contains(&(b - a - 1))).map(|(a, b)| (all[a], all[b])).collect()
}

/// The sets that are left, and those excluded with the digit that shows it.
type Listed<'a> = (&'a [&'a [u8]], &'a [(&'a [u8], u8)]);

/// A step about the sets of one side of row 4.
fn sets(
    name: &'static str,
    clue: u16,
    side: Side,
    (left, excluded): Listed<'_>,
    knows: &[Vec<Claim>],
    concludes: &[Claim],
) -> Case {
    case(name, Scene::new(9, &[("row 4", clue)], &[]), |it| {
        let cites = knows.iter().fold(Cites::default(), |cites, claims| cites.and(&known(it, claims)));
        let id = it.clue("row 4");
        let argument = Argument::Sets {
            clue: id,
            line: house("row 4"),
            side,
            sum: if side == Side::Between { clue } else { 35 - clue },
            cells: (1, 3),
            sets: left.iter().map(|it| digits(it)).collect(),
            excluded: excluded.iter().map(|(set, why)| (digits(set), digit(*why))).collect(),
        };
        it.push(argument, concludes, cites.clue(id))
    })
}

fn sums() -> Vec<Case> {
    let row_4 = || house("row 4");
    let mut all = vec![
        sets(
            "sets-between-none-uses",
            12,
            Side::Between,
            (&[&[4, 8], &[5, 7]], &[]),
            &[vec![between("row 4", 2, 2)], crust("r4c3")],
            &not("r4c4", &[2, 3, 6]),
        ),
        sets(
            "sets-between-spent",
            12,
            Side::Between,
            (&[&[5, 7]], &[(&[4, 8], 8)]),
            &[vec![between("row 4", 2, 2)], not("r4c4 r4c5", &[8])],
            &[spent("row 4", &[5, 7])],
        ),
        sets(
            "sets-between-of-seventeen",
            17,
            Side::Between,
            (
                &[
                    &[2, 7, 8],
                    &[3, 6, 8],
                    &[4, 5, 8],
                    &[4, 6, 7],
                    &[2, 3, 4, 8],
                    &[2, 3, 5, 7],
                    &[2, 4, 5, 6],
                ],
                &[],
            ),
            &[],
            &[held("row 4", 2, "r4c1 r4c2")],
        ),
        sets(
            "sets-outside-all-use",
            29,
            Side::Outside,
            (&[&[2, 4]], &[(&[6], 6)]),
            &[not("r4c1 r4c9", &[6])],
            &[spent("row 4", &[3, 5, 6, 7, 8])],
        ),
        sets(
            "sets-outside-open",
            25,
            Side::Outside,
            (&[&[2, 8], &[2, 3, 5]], &[(&[3, 7], 7), (&[4, 6], 2)]),
            &[not("r4c1", &[7]), not("r4c2", &[2])],
            &[not("r4c5", &[2]), not("r4c1", &[4, 6])].concat(),
        ),
        sets(
            "sets-between-one-reason-for-several",
            20,
            Side::Between,
            (
                &[&[2, 5, 6, 7]],
                &[
                    (&[5, 7, 8], 8),
                    (&[2, 3, 7, 8], 3),
                    (&[3, 4, 5, 8], 3),
                    (&[3, 4, 6, 7], 3),
                    (&[2, 4, 6, 8], 4),
                ],
            ),
            &[vec![between("row 4", 3, 4)], vec![is("r4c9", 3)], not("r4c4 r4c5", &[8])],
            &[spent("row 4", &[2, 5, 6, 7])],
        ),
        sets(
            "sets-outside-33",
            33,
            Side::Outside,
            (&[&[2]], &[]),
            &[],
            &[spent("row 4", &[3, 4, 5, 6, 7, 8])],
        ),
        sets(
            "sets-outside-nothing",
            35,
            Side::Outside,
            (&[&[]], &[]),
            &[],
            &[spent("row 4", &[2, 3, 4, 5, 6, 7, 8])],
        ),
    ];
    all.extend([
        case("spent-splits", Scene::new(9, &[], &[]), |it| {
            let clue = known(it, &[spent("row 4", &[2, 3, 8])]);
            let kinds = known(it, &filling("r4c3 r4c4 r4c9"));
            let argument = Argument::SpentSplits {
                line: row_4(),
                filling: digits(&[2, 3, 8]),
                between: cells("r4c3 r4c4"),
                outside: cells("r4c8 r4c9"),
            };
            let lost = [not("r4c3 r4c4", &[4, 5, 6, 7]), not("r4c9", &[2, 8])].concat();
            it.push(argument, &lost, clue.and(&kinds).house(row_4()))
        }),
        case("spent-splits-sliced", Scene::new(9, &[], &[]), |it| {
            let clue = known(it, &[spent("row 4", &[2, 3, 8])]);
            let argument = Argument::SpentSplits {
                line: row_4(),
                filling: digits(&[2, 3, 8]),
                between: cells("r4c3 r4c4"),
                outside: cells("r4c8 r4c9"),
            };
            it.push(argument, &not("r4c9", &[8]), clue.house(row_4()))
        }),
        case("spent-splits-nothing-between", Scene::new(9, &[], &[]), |it| {
            let clue = known(it, &[spent("row 4", &[])]);
            let argument = Argument::SpentSplits {
                line: row_4(),
                filling: digits(&[]),
                between: cells(""),
                outside: cells("r4c9"),
            };
            it.push(argument, &not("r4c9", &[1, 9]), clue.house(row_4()))
        }),
        case("side-holds-spent", Scene::new(9, &[], &[]), |it| {
            let clue = known(it, &[spent("row 4", &[2, 3, 5, 6, 7, 8])]);
            let kinds = known(it, &filling("r4c3"));
            let argument = Argument::SideHolds {
                line: row_4(),
                side: Side::Outside,
                digit: digit(4),
                cells: cells("r4c1 r4c2"),
            };
            it.push(argument, &[held("row 4", 4, "r4c1 r4c2")], clue.and(&kinds).house(row_4()))
        }),
        case("side-holds-by-clue", Scene::new(9, &[("row 4", 11)], &[]), |it| {
            let removed = known(it, &not("r4c8 r4c9", &[8]));
            let clue = it.clue("row 4");
            let argument = Argument::SideHolds {
                line: row_4(),
                side: Side::Between,
                digit: digit(8),
                cells: cells("r4c1 r4c2 r4c3 r4c4"),
            };
            let claim = held("row 4", 8, "r4c1 r4c2 r4c3 r4c4");
            it.push(argument, &[claim], removed.clue(clue))
        }),
        case("side-holds-one-cell", Scene::new(9, &[], &[]), |it| {
            let clue = known(it, &[spent("row 4", &[2, 3])]);
            let argument = Argument::SideHolds {
                line: row_4(),
                side: Side::Between,
                digit: digit(3),
                cells: cells("r4c2"),
            };
            it.push(argument, &[held("row 4", 3, "r4c2")], clue.house(row_4()))
        }),
        case("held-acts", Scene::new(9, &[], &[]), |it| {
            let fact = known(it, &[held("row 4", 8, "r4c1 r4c3")]);
            let argument = Argument::HeldActs { line: row_4(), digit: digit(8), cells: cells("r4c1 r4c3") };
            it.push(argument, &not("r5c2 r6c1 r6c2 r6c3", &[8]), fact.house(house("box 4")))
        }),
        case(
            "remainder-between",
            Scene::new(9, &[("row 4", 17)], &[("r4c1", 1), ("r4c2", 3), ("r4c4", 8), ("r4c5", 9)]),
            |it| {
                let clue = it.clue("row 4");
                let argument = Argument::Remainder {
                    clue,
                    line: row_4(),
                    side: Side::Between,
                    sum: 17,
                    placed: digits(&[3, 8]),
                    cell: cell("r4c3"),
                    digit: digit(6),
                };
                let cites = it.givens().clue(clue);
                it.push(argument, &[is("r4c3", 6)], cites)
            },
        ),
        case("remainder-outside", Scene::new(9, &[("row 4", 29)], &[("r4c1", 2)]), |it| {
            let kinds = known(it, &crust("r4c2 r4c8"));
            let clue = it.clue("row 4");
            let argument = Argument::Remainder {
                clue,
                line: row_4(),
                side: Side::Outside,
                sum: 6,
                placed: digits(&[2]),
                cell: cell("r4c9"),
                digit: digit(4),
            };
            let cites = it.givens().and(&kinds).clue(clue);
            it.push(argument, &[is("r4c9", 4)], cites)
        }),
        case("remainder-whole", Scene::new(6, &[("row 4", 5)], &[]), |it| {
            let kinds = known(it, &crust("r4c2 r4c4"));
            let clue = it.clue("row 4");
            let argument = Argument::Remainder {
                clue,
                line: row_4(),
                side: Side::Between,
                sum: 5,
                placed: digits(&[]),
                cell: cell("r4c3"),
                digit: digit(5),
            };
            it.push(argument, &[is("r4c3", 5)], kinds.clue(clue))
        }),
    ]);
    all
}

fn link(at: &str, leaves: &[u8], because: Because) -> Link {
    Link { cell: cell(at), leaves: digits(leaves), because }
}

fn branch(at: &str, supposed: &[u8], chain: Vec<Link>, end: End) -> Branch {
    Branch { cell: cell(at), digits: digits(supposed), chain, end }
}

fn small_arguments() -> Vec<Case> {
    let row = |n: u8| house(&format!("row {n}"));
    vec![
        case("argument-of-one-case", Scene::new(9, &[("row 4", 20)], &[("r1c1", 3)]), |it| {
            let clue = it.clue("row 4");
            let fact = held("row 2", 8, "r2c1 r2c2");
            let cites = known(it, &[fact]);
            let removed = known(it, &not("r5c5", &[7]));
            let chain = vec![
                // The supposition itself and a digit on the board settle without a word.
                link("r4c7", &[5], Because::OneDigit),
                link("r1c1", &[3], Because::OneDigit),
                link("r4c2", &[9], Because::OnePlace(row(4))),
                link("r4c2", &[9], Because::OneDigit),
                link("r4c3", &[2, 8], Because::Clue(clue)),
                link("r4c4", &[2, 8], Because::Clue(clue)),
                link("r4c5", &[1, 9], Because::Clue(clue)),
                link("r5c2", &[4], Because::OneDigit),
                link("r2c1", &[8], Because::Known(fact)),
            ];
            let end = End::NoPlace(row(2), digit(3));
            let argument =
                Argument::Cases { branches: vec![branch("r4c7", &[5], chain, end)], is_smallest: true };
            let cites =
                it.givens().and(&cites).and(&removed).clue(clue).house(row(2)).house(house("column 2"));
            it.push(argument, &not("r4c7", &[5]), cites)
        }),
        case("argument-of-several-cases", Scene::new(9, &[("row 4", 20)], &[]), |it| {
            let clue = it.clue("row 4");
            let apart = between("row 7", 5, 6);
            let cites = known(it, &[apart]);
            let argument = Argument::Cases {
                branches: vec![
                    branch(
                        "r4c7",
                        &[1, 9],
                        vec![link("r4c2", &[1, 9], Because::Clue(clue))],
                        End::Breaks(apart),
                    ),
                    branch("r4c8", &[2, 3, 4, 6], vec![], End::NoWay(clue)),
                    branch("r4c9", &[2, 3, 4, 5, 6, 7, 8], vec![], End::NoDigit(cell("r4c1"))),
                ],
                is_smallest: true,
            };
            let claims = [Claim::Filling(cell("r4c7")), is("r4c8", 5), Claim::Crust(cell("r4c9"))];
            it.push(argument, &claims, cites.clue(clue).house(row(7)))
        }),
        case("argument-with-splits", Scene::new(9, &[], &[]), |it| {
            let inner = End::Split(vec![
                branch("r6c6", &[3], vec![], End::NoPlace(row(6), digit(4))),
                branch("r6c6", &[4], vec![], End::NoDigit(cell("r6c1"))),
                branch("r6c6", &[7], vec![], End::NoDigit(cell("r6c2"))),
            ]);
            let end = End::Split(vec![
                branch(
                    "r5c5",
                    &[2],
                    vec![link("r5c1", &[7], Because::OnePlace(row(5)))],
                    End::NoPlace(house("box 4"), digit(2)),
                ),
                branch("r5c5", &[7], vec![link("r5c2", &[2], Because::OnePlace(row(5)))], inner),
            ]);
            let chain = vec![link("r5c4", &[4], Because::OnePlace(row(5)))];
            let argument =
                Argument::Cases { branches: vec![branch("r4c7", &[5], chain, end)], is_smallest: true };
            it.push(argument, &not("r4c7", &[5]), Cites::default().house(row(5)).house(row(6)))
        }),
        case("argument-with-numbered-splits", Scene::new(9, &[], &[]), |it| {
            let split = || {
                End::Split(vec![
                    branch("r5c5", &[2], vec![], End::NoDigit(cell("r5c1"))),
                    branch("r5c5", &[7], vec![], End::NoDigit(cell("r5c2"))),
                ])
            };
            let argument = Argument::Cases {
                branches: vec![branch("r4c7", &[5], vec![], split()), branch("r4c7", &[6], vec![], split())],
                is_smallest: true,
            };
            it.push(argument, &not("r4c7", &[5, 6]), Cites::default().house(row(4)).house(row(5)))
        }),
        case("argument-about-room-in-a-row", Scene::new(9, &[("row 4", 20)], &[]), |it| {
            let chain = vec![
                link("r4c2", &[2, 8], Because::Fit(row(4))),
                link("r4c3", &[2, 8], Because::Fit(row(4))),
                link("r4c5", &[9], Because::Fit(row(4))),
            ];
            let argument = Argument::Cases {
                branches: vec![branch("r4c7", &[5], chain, End::NoFit(row(4)))],
                is_smallest: false,
            };
            it.push(argument, &not("r4c7", &[5]), Cites::default().house(row(4)))
        }),
        case("argument-with-a-long-chain", Scene::new(9, &[("row 1", 20), ("column 8", 17)], &[]), |it| {
            let clues = ["row 1", "column 8"].map(|line| it.clue(line));
            let kind = Claim::Filling(cell("r1c2"));
            let kinds = known(it, &[kind]);
            let mut chain: Vec<Link> =
                (1..=8).map(|n| link(&format!("r{n}c{n}"), &[n, 9], Because::Clue(clues[1]))).collect();
            chain.push(link("r1c2", &[3, 4], Because::Known(kind)));
            chain.extend((1..=7).map(|n| link(&format!("r{n}c9"), &[n], Because::OnePlace(row(n)))));
            let argument = Argument::Cases {
                branches: vec![branch("r9c9", &[8], chain, End::NoWay(clues[0]))],
                is_smallest: true,
            };
            let cites =
                (1..=9).map(row).fold(kinds, Cites::house).house(house("box 9")).house(house("column 9"));
            it.push(argument, &not("r9c9", &[8]), cites.clue(clues[0]).clue(clues[1]))
        }),
    ]
}
