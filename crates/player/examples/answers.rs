//! What the engine answers, to be compared with what it answers in a browser.
//!
//! `cargo run -p player --example answers -- 200` prints a line of JSON a puzzle, of seeded teaching puzzles: the page,
//! and questions with their answers, from the empty sheet and from half-solved ones with pencil marks, right and wrong.
//! `browser/answers.mjs` asks the same of the browser's engine.

#![allow(clippy::print_stdout)] // it is what this program is for

#[path = "../tests/common/mod.rs"]
mod common;
#[path = "../../reason/tests/reasoning/support/seeded.rs"]
mod seeded;
#[path = "../../reason/tests/reasoning/support/teaching.rs"]
mod teaching;

use common::Page;
use player::Player;
use serde_json::{Value, json};

fn main() {
    let n: u64 = std::env::args().nth(1).and_then(|it| it.parse().ok()).unwrap_or(200);
    for seed in 0..n {
        let page = Page::of(&seed.to_string(), &teaching::teaching(seed).puzzle);
        let mut player = page.player();
        let questions: Vec<Value> = sheets(&page, &mut player, seed)
            .iter()
            .flat_map(|it| asked(&page, &mut player, it, seed))
            .collect();
        println!("{}", json!({"page": page.text(), "questions": questions}));
    }
}

/// The empty sheet, what hints have made of it by and by, and one of these with a slip.
fn sheets(page: &Page, player: &mut Player, seed: u64) -> Vec<Value> {
    let mut sheet = page.blank();
    let mut sheets = vec![sheet.clone()];
    for at in 0..=seed % 40 {
        let answer: Value =
            serde_json::from_str(&player.hint(&sheet.to_string()).unwrap_or_default()).unwrap_or_default();
        if answer["kind"] != "hint" {
            break;
        }
        common::write(&mut sheet, &answer["settles"]);
        if at % 13 == 0 {
            let pencil: Value = serde_json::from_str(&player.pencil(&sheet.to_string()).unwrap_or_default())
                .unwrap_or_default();
            sheet["pencil"] = pencil["pencil"].clone();
        }
    }
    sheets.push(sheet.clone());
    let cells = page.empty();
    let cell = cells[seed as usize % cells.len()];
    sheet["ink"][cell] = json!(page.solution[cell] % page.side + 1);
    sheets.push(sheet);
    sheets
}

/// All questions about one sheet.
fn asked(page: &Page, player: &mut Player, sheet: &Value, seed: u64) -> Vec<Value> {
    let text = sheet.to_string();
    let filled = (0..page.givens.len()).filter(|it| sheet["ink"][it] != json!(0) && page.givens[*it] == 0);
    let why = filled
        .take(2)
        .map(|cell| json!({"ask": "why", "cell": cell, "answer": player.why(&text, cell).ok()}));
    let mut asked: Vec<Value> = why.collect();
    let open = page.empty().into_iter().filter(|it| sheet["ink"][it] == json!(0));
    // A digit that does not follow takes long to weigh, so few are asked about.
    asked.extend(open.take(usize::from(seed.is_multiple_of(10))).map(|cell| {
        let digit = page.solution[cell];
        let answer = player.follows(&text, cell, digit, 8).ok();
        json!({"ask": "follows", "cell": cell, "digit": digit, "within": 8, "answer": answer})
    }));
    asked.push(json!({"ask": "hint", "answer": player.hint(&text).ok()}));
    asked.push(json!({"ask": "check", "answer": player.check(&text).ok()}));
    asked.push(json!({"ask": "pencil", "answer": player.pencil(&text).ok()}));
    asked
        .into_iter()
        .map(|mut it| {
            it["sheet"] = json!(text);
            it
        })
        .collect()
}
