//! Hints from all kinds of sheets, as a page would ask for them.

mod common;

use common::{Page, demo, sheet_of};
use player::Player;
use serde_json::{Value, json};

#[test]
fn following_hints_fills_every_board_of_the_demo() {
    for page in demo() {
        let mut player = page.player();
        let mut sheet = page.blank();
        let mut n_hints = 0;
        loop {
            let answer: Value = serde_json::from_str(&player.hint(&sheet.to_string()).unwrap()).unwrap();
            match answer["kind"].as_str().unwrap() {
                "done" => break,
                "hint" => {
                    assert!(
                        common::write(&mut sheet, &answer["settles"]),
                        "{}: nothing new in {answer}",
                        page.id
                    );
                    assert!(common::agrees(&sheet, &page.solution), "{}: {answer}", page.id);
                    for part in ["where", "what", "why"] {
                        assert!(!answer[part]["text"].as_str().unwrap().is_empty());
                    }
                    assert!(answer["why"]["picture"].as_str().unwrap().starts_with("<svg"));
                }
                _ => panic!("{}: {answer}", page.id),
            }
            n_hints += 1;
            assert!(n_hints < 400, "{}: hints without end", page.id);
        }
        assert_eq!(sheet["ink"], json!(page.solution), "{}", page.id);
    }
}

/// A digit that a hint settles can be known at that point, and not each digit can from the beginning.
#[test]
fn what_can_be_known_is_told_from_what_cannot_yet() {
    let (mut n_known, mut n_not_yet) = (0, 0);
    for page in demo() {
        let mut player = page.player();
        let kind = |player: &Player, sheet: &Value, cell: usize, digit: u8| -> String {
            let answer = player.follows(&sheet.to_string(), cell, digit, 8).unwrap();
            serde_json::from_str::<Value>(&answer).unwrap()["kind"].as_str().unwrap().to_owned()
        };
        let blank = page.blank();
        for cell in page.empty().into_iter().step_by(7) {
            match &*kind(&player, &blank, cell, page.solution[cell]) {
                "follows" => n_known += 1,
                "not-yet" => n_not_yet += 1,
                other => panic!("{}, cell {cell}: {other}", page.id),
            }
            let wrong = page.solution[cell] % page.side + 1;
            assert_eq!(kind(&player, &blank, cell, wrong), "mistake");
        }
        let mut sheet = page.blank();
        for _ in 0..6 {
            let answer: Value = serde_json::from_str(&player.hint(&sheet.to_string()).unwrap()).unwrap();
            assert!(reason::named(answer["hardest"].as_str().unwrap()).is_some(), "{answer}");
            for it in answer["settles"]["ink"].as_array().unwrap() {
                let [cell, digit] = [0, 1].map(|at| it[at].as_u64().unwrap());
                assert_eq!(kind(&player, &sheet, cell as usize, digit as u8), "follows", "{answer}");
            }
            common::write(&mut sheet, &answer["settles"]);
        }
        assert!(player.follows(&blank.to_string(), page.givens.len(), 1, 8).is_err());
        assert!(player.follows(&blank.to_string(), 0, page.side + 1, 8).is_err());
    }
    assert!(n_known > 5 && n_not_yet > 5, "{n_known} known, {n_not_yet} not yet");
}

/// What has been taught is enough for the puzzles of a pack, so no hint goes beyond it.
#[test]
fn hints_stay_within_what_has_been_taught() {
    for page in demo() {
        let mut player = page.player();
        let answer: Value = serde_json::from_str(&player.hint(&page.blank().to_string()).unwrap()).unwrap();
        assert_eq!(answer["taught"], true, "{}: {answer}", page.id);
        let mut untaught = Page { taught: Vec::new(), ..page.clone() }.player();
        let answer: Value = serde_json::from_str(&untaught.hint(&page.blank().to_string()).unwrap()).unwrap();
        assert_eq!(answer["taught"], false, "{}", page.id);
    }
}

#[test]
fn a_wrong_digit_is_found_in_two_parts_without_giving_the_right_one_away() {
    for page in demo() {
        let player = page.player();
        let mut n_hidden = 0;
        for (cell, right) in page.solution.iter().enumerate().filter(|it| page.givens[it.0] == 0) {
            for wrong in (1..=9).filter(|it| it != right) {
                let mut sheet = page.blank();
                sheet["ink"][cell] = json!(wrong);
                let answer: Value = serde_json::from_str(&player.check(&sheet.to_string()).unwrap()).unwrap();
                assert_eq!(answer["kind"], "mistake", "{}", page.id);
                let which = answer["which"]["text"].as_str().unwrap();
                let name = format!("r{}c{}", cell / 9 + 1, cell % 9 + 1);
                assert!(which.contains(&name), "{which}");
                if answer["which"]["cells"] == json!([cell]) {
                    assert_eq!(which, format!("{name} is not {wrong}."));
                    n_hidden += 1;
                }
                let near = answer["near"]["text"].as_str().unwrap();
                assert!(!near.contains(&name), "{near}");
            }
        }
        assert!(n_hidden > 100);
    }
}

#[test]
fn what_does_not_fit_is_said_with_its_reason() {
    let page = &demo()[0];
    let [row, digit] = [0, 1].map(|at| page.empty()[at]);
    let mut player = page.player();
    let right = page.solution[row];
    let other = (1..=9).find(|it| *it != right).unwrap();
    let third = (1..=9).find(|it| *it != right && *it != other).unwrap();
    let cases = [
        ("pencil", json!([other, third]), "leave out the digit"),
        ("marks", json!(if right == 1 || right == 9 { "filling" } else { "crust" }), "which it is not"),
    ];
    for (layer, value, said) in cases {
        let mut sheet = page.blank();
        sheet[layer][row] = value;
        let answer: Value = serde_json::from_str(&player.hint(&sheet.to_string()).unwrap()).unwrap();
        assert_eq!(answer["kind"], "mistake", "{layer}");
        assert!(answer["which"]["text"].as_str().unwrap().contains(said), "{answer}");
    }
    // One pencilled digit only says where it may be.
    let mut sheet = page.blank();
    sheet["pencil"][digit] = json!([(1..=9).find(|it| *it != page.solution[digit]).unwrap()]);
    let answer: Value = serde_json::from_str(&player.check(&sheet.to_string()).unwrap()).unwrap();
    assert_eq!(answer["kind"], "fits");
}

/// With every candidate pencilled that houses allow, a hint may start from a pair that is written there.
#[test]
fn pencil_marks_are_premises() {
    let mut n_cited = 0;
    for page in demo() {
        let mut player = page.player();
        let mut sheet = page.blank();
        // Every cell keeps its digit and one other candidate.
        let allowed: Value = serde_json::from_str(&player.pencil(&sheet.to_string()).unwrap()).unwrap();
        for cell in page.empty() {
            let digits = allowed["pencil"][cell].as_array().unwrap().clone();
            assert!(digits.contains(&json!(page.solution[cell])));
            let other = digits.iter().find(|it| **it != json!(page.solution[cell])).cloned();
            sheet["pencil"][cell] =
                json!(std::iter::once(json!(page.solution[cell])).chain(other).collect::<Vec<_>>());
        }
        let answer: Value = serde_json::from_str(&player.hint(&sheet.to_string()).unwrap()).unwrap();
        assert_eq!(answer["kind"], "hint", "{}: {answer}", page.id);
        n_cited += usize::from(answer["why"]["text"].as_str().unwrap().contains("What you have noted at"));
    }
    assert!(n_cited > 0);
}

#[test]
fn every_digit_has_a_reason() {
    let page = &demo()[0];
    let mut player = page.player();
    let full = sheet_of(&page.solution);
    for cell in 0..81 {
        let answer: Value = serde_json::from_str(&player.why(&full.to_string(), cell).unwrap()).unwrap();
        assert_eq!(answer["kind"], "why", "{cell}");
        let is_given = page.givens[cell] != 0;
        assert_eq!(answer["steps"].as_array().unwrap().is_empty(), is_given, "{cell}");
    }
    let mut wrong = page.blank();
    let cell = page.empty()[0];
    wrong["ink"][cell] = json!(page.solution[cell] % 9 + 1);
    let answer: Value = serde_json::from_str(&player.why(&wrong.to_string(), cell).unwrap()).unwrap();
    assert_eq!(answer["kind"], "mistake");
    assert!(player.why(&page.blank().to_string(), cell).is_err());
}

#[test]
fn what_is_no_sheet_or_no_puzzle_is_refused() {
    let page = &demo()[0];
    let mut player = page.player();
    let blank = page.blank();
    let with = |layer: &str, value: Value| {
        let mut sheet = blank.clone();
        sheet[layer] = value;
        sheet.to_string()
    };
    let bad = [
        String::new(),
        "{}".to_owned(),
        with("format", json!(2)),
        with("ink", json!([1, 2])),
        with("ink", json!(vec![10; 81])),
        with("pencil", json!(vec![vec![10]; 81])),
        with("marks", json!(vec!["other"; 81])),
        with("marks", json!([])),
    ];
    for sheet in bad {
        assert!(player.hint(&sheet).is_err() && player.check(&sheet).is_err(), "{sheet}");
    }
    let text = page.text();
    assert!(player::Player::new(&text.replace("\"format\":1", "\"format\":2")).is_err());
    let clueless = Page { clues: Vec::new(), ..page.clone() };
    assert_eq!(player::Player::new(&clueless.text()).err(), Some(player::NoPuzzle::Unsound));
}
