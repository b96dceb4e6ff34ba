//! What has been said in full a few steps back is referred to.

use crate::corpus::corpus;
use crate::support::{Scene, cell, check, digit, digits, house, n_words};
use rulebook::Claim;
use tell::{Voice, says, says_in};
use trail::{Argument, Cites, Side, StepId};

const SETS: [&[u8]; 3] = [&[2, 4, 8], &[3, 5, 6], &[2, 3, 4, 5]];

/// Adds a step that lists these sets of row 4's clue of 14.
fn list(scene: &mut Scene, sets: &[&[u8]], excluded: &[(&[u8], u8)], claim: Claim, cites: Cites) -> StepId {
    let clue = scene.clue("row 4");
    let argument = Argument::Sets {
        clue,
        line: house("row 4"),
        side: Side::Between,
        sum: 14,
        cells: (3, 4),
        sets: sets.iter().map(|it| digits(it)).collect(),
        excluded: excluded.iter().map(|it| (digits(it.0), digit(it.1))).collect(),
    };
    scene.push(argument, &[claim], cites.clue(clue))
}

#[test]
fn sets_that_were_listed_are_not_listed_again() {
    let mut scene = Scene::new(9, &[("row 4", 14)], &[]);
    let not = |at, value| Claim::IsNot(cell(at), digit(value));
    let known = scene.know(&[not("r4c1", 3)]);
    list(&mut scene, &SETS, &[], not("r4c2", 7), Cites::default());
    let again = list(&mut scene, &SETS, &[], not("r4c3", 7), Cites::default().fact(known[0]));
    let fewer =
        list(&mut scene, &SETS[..2], &[(SETS[2], 3)], not("r4c4", 7), Cites::default().fact(known[0]));
    let expected = [
        (again, "Row 4's clue of 14 has the sets of step 2 (step 1)."),
        (
            fewer,
            "Row 4's clue of 14 has the sets of step 2. 3 cannot lie between (step 1), which rules out 2 + 3 + 4 + 5;",
        ),
    ];
    for (step, start) in expected {
        let text = says(&scene.puzzle, &scene.trail, step);
        check("sets", &scene.puzzle, &scene.trail, step, &text);
        assert!(text.starts_with(start), "{text}");
        let aloud = says_in(Voice::Spoken, &scene.puzzle, &scene.trail, step);
        assert!(aloud.starts_with("Row 4's clue of 14 still has the same sets as before."), "{aloud}");
    }
}

#[test]
fn what_is_long_ago_is_said_again() {
    let mut scene = Scene::new(9, &[("row 4", 14)], &[]);
    let not = |at, value| Claim::IsNot(cell(at), digit(value));
    let first = list(&mut scene, &SETS, &[], not("r4c2", 7), Cites::default());
    for value in 2..=9 {
        scene.know(&[not("r1c1", value)]);
    }
    let near = list(&mut scene, &SETS, &[], not("r4c3", 7), Cites::default());
    for value in 2..=9 {
        scene.know(&[not("r1c2", value)]);
    }
    let far = list(&mut scene, &SETS, &[], not("r4c4", 7), Cites::default());
    let told = |voice, step| says_in(voice, &scene.puzzle, &scene.trail, step);
    let lists = |it: &str| it.contains("3 + 5 + 6") || it.contains("3 plus 5 plus 6");
    // A listener forgets sooner; and nobody is sent to a step that sends on.
    for (step, in_print) in [(first, true), (near, false), (far, true)] {
        assert_eq!(lists(&told(Voice::Booklet, step)), in_print);
        assert!(lists(&told(Voice::Spoken, step)));
    }
}

#[test]
fn equal_clues_are_worked_out_once() {
    let mut scene = Scene::new(9, &[("row 4", 22), ("column 2", 22)], &[]);
    let mut work_out = |of: &str| {
        let (clue, line) = (scene.clue(of), house(of));
        let argument = Argument::CrustDistance {
            clue,
            line,
            sum: 22,
            fewest: 4,
            most: 5,
            short: digits(&[6, 7, 8]),
            over: digits(&[2, 3, 4, 5, 6, 7]),
        };
        scene.push(argument, &[Claim::FillingCells { line, fewest: 4, most: 5 }], Cites::default().clue(clue))
    };
    let steps = [work_out("row 4"), work_out("column 2")];
    let told = steps.map(|it| says(&scene.puzzle, &scene.trail, it));
    assert!(told[0].contains("6 + 7 + 8 = 21"), "{}", told[0]);
    assert_eq!(
        told[1],
        "Column 2's clue is 22 again, as in step 1. So column 2 has four or five cells between its crusts."
    );
    check("again", &scene.puzzle, &scene.trail, steps[1], &told[1]);
}

/// 22 and 25 are worked out with the same digits: three cells hold at most 21, six at least 27.
#[test]
fn bounds_are_worked_out_once() {
    let mut scene = Scene::new(9, &[("row 4", 22), ("column 2", 25), ("column 3", 25)], &[]);
    let mut work_out = |of: &str, sum| {
        let (clue, line) = (scene.clue(of), house(of));
        let (short, over) = (digits(&[6, 7, 8]), digits(&[2, 3, 4, 5, 6, 7]));
        let argument = Argument::CrustDistance { clue, line, sum, fewest: 4, most: 5, short, over };
        scene.push(argument, &[Claim::FillingCells { line, fewest: 4, most: 5 }], Cites::default().clue(clue))
    };
    let steps = [work_out("row 4", 22), work_out("column 2", 25), work_out("column 3", 25)];
    for (step, line) in steps[1..].iter().zip(["Column 2", "Column 3"]) {
        let told = says(&scene.puzzle, &scene.trail, *step);
        let start = format!(
            "{line}'s clue is 25: as in step 1, three cells hold too little and six cells hold too much. So"
        );
        assert!(told.starts_with(&start), "{told}");
        check("bounds", &scene.puzzle, &scene.trail, *step, &told);
        let aloud = says_in(Voice::Spoken, &scene.puzzle, &scene.trail, *step);
        assert!(aloud.contains("clue is 25: as before, three cells hold too little"), "{aloud}");
    }
}

/// Whoever is sent back finds it there.
#[test]
fn the_step_referred_to_says_it_in_full() {
    let mut n_sent_back = 0;
    for it in corpus() {
        let told: Vec<String> =
            it.trail().steps().map(|(step, _)| says(&it.puzzle, it.trail(), step)).collect();
        for (at, text) in told.iter().enumerate() {
            for lead in ["has the sets of step ", "again, as in step ", ": as in step "] {
                let Some((_, after)) = text.split_once(lead) else { continue };
                let number: String = after.chars().take_while(char::is_ascii_digit).collect();
                let source = &told[number.parse::<usize>().unwrap() - 1];
                assert!(number.parse::<usize>().unwrap() <= at, "{}: {text}", it.name);
                assert!(!source.contains(lead) && source.contains('+'), "{}: {source}", it.name);
                assert!(n_words(text) <= n_words(source) + 30);
                n_sent_back += 1;
            }
        }
    }
    assert!(n_sent_back > 5, "{n_sent_back}");
}
