//! Boards that are typed, mended, tried and kept.

use std::fs;

use axum::http::StatusCode;
use serde_json::{Value, json};

use super::{SOUND, Trial};

#[tokio::test]
async fn a_typed_board_is_judged_and_nothing_is_written() {
    let trial = Trial::new().await;
    let before = trial.text("puzzles/sound.toml");
    let mut board = trial.puzzle("sound").await["board"].clone();
    let judged = |board: Value| {
        let trial = &trial;
        async move { trial.post("/api/1/puzzles/sound/verdict", &board).await.json() }
    };
    assert_eq!(judged(board.clone()).await["verdict"], "one");
    board["givens"][0] = json!(0);
    let many = judged(board.clone()).await;
    assert_eq!(many["verdict"], "many");
    assert!(!many["differences"].as_array().unwrap().is_empty());
    board["givens"][1] = json!(2);
    board["givens"][3] = json!(2);
    let unreadable = judged(board.clone()).await;
    assert_eq!(unreadable["verdict"], "unreadable");
    assert!(unreadable["problems"][0]["message"].as_str().unwrap().contains('2'), "{unreadable}");
    board["givens"][3] = json!(0);
    board["clues"]["sandwich"]["rows"][0] = json!(4);
    assert_eq!(judged(board.clone()).await["verdict"], "unreadable");
    assert_eq!(trial.text("puzzles/sound.toml"), before);
    for wrong in [
        json!({"givens": [1]}),
        json!({"givens": vec![5; 16]}),
        json!({"givens": vec![0; 16], "clues": {"x": {"rows": [], "columns": []}}}),
    ] {
        let answer = trial.post("/api/1/puzzles/sound/verdict", &wrong).await;
        assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY, "{wrong}: {}", answer.text);
    }
    assert_eq!(trial.post("/api/1/puzzles/nothing/verdict", &board).await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn what_would_mend_or_settle_a_board_does() {
    let trial = Trial::new().await;
    for (id, from) in [("none", "none"), ("many", "many")] {
        let board = trial.puzzle(id).await["board"].clone();
        let verdict = |board: Value| {
            let (trial, path) = (&trial, format!("/api/1/puzzles/{id}/verdict"));
            async move { trial.post(&path, &board).await.json()["verdict"].clone() }
        };
        assert_eq!(verdict(board.clone()).await, from);
        let found = trial.post(&format!("/api/1/puzzles/{id}/repair"), &board).await.json();
        let first = &found["offers"][0];
        assert_eq!(verdict(first["board"].clone()).await, "one", "{first}");
        assert!(
            !first["says"].as_str().unwrap().is_empty() && !found["says"][0].as_str().unwrap().is_empty()
        );
    }
    let board = trial.puzzle("sound").await["board"].clone();
    let nothing = trial.post("/api/1/puzzles/sound/repair", &board).await.json();
    assert_eq!(nothing["offers"], json!([]));
}

#[tokio::test]
async fn a_board_is_kept_with_everything_around_it_and_can_be_taken_back() {
    let trial = Trial::new().await;
    let it = trial.puzzle("many").await;
    let before = trial.text("puzzles/many.toml");
    let mut board = it["board"].clone();
    board["givens"][0] = json!(1);
    let kept =
        trial.put("/api/1/puzzles/many/board", &json!({"board": board, "began_from": it["digest"]})).await;
    assert_eq!(kept.status, StatusCode::OK, "{}", kept.text);
    assert_eq!(trial.text("puzzles/many.toml"), before.replacen(". . | . .", "1 . | . .", 1));
    assert_eq!(trial.puzzle("many").await["verdict"], "one");
    assert_eq!(trial.puzzle("many").await["digest"], kept.json()["digest"]);
    let past = trial.get("/api/1/puzzles/many/history").await.json();
    let past = &past["changes"][0];
    assert_eq!(past["lines"], json!(["-. . | . .", "+1 . | . ."]));
    assert_eq!(past["made_by"], "desk");
    let back = json!({"board": past["board_before"], "began_from": kept.json()["digest"]});
    assert_eq!(trial.put("/api/1/puzzles/many/board", &back).await.status, StatusCode::OK);
    assert_eq!(trial.text("puzzles/many.toml"), before);
}

#[tokio::test]
async fn an_edit_never_runs_over_another() {
    let trial = Trial::new().await;
    let it = trial.puzzle("sound").await;
    let mut board = it["board"].clone();
    board["givens"][0] = json!(0);
    let keep = json!({"board": board, "began_from": it["digest"]});
    // Another program saves, and the desk has not even looked yet.
    let theirs = SOUND.replace("# the only one", "# changed elsewhere");
    fs::write(trial.path().join("puzzles/sound.toml"), &theirs).unwrap();
    let refused = trial.put("/api/1/puzzles/sound/board", &keep).await;
    assert_eq!(refused.status, StatusCode::CONFLICT, "{}", refused.text);
    assert_eq!(trial.text("puzzles/sound.toml"), theirs);
    trial.look_again().await;
    assert_eq!(trial.put("/api/1/puzzles/sound/board", &keep).await.status, StatusCode::CONFLICT);
    fs::remove_file(trial.path().join("puzzles/sound.toml")).unwrap();
    assert_eq!(trial.put("/api/1/puzzles/sound/board", &keep).await.status, StatusCode::CONFLICT);
    trial.look_again().await;
    assert_eq!(trial.put("/api/1/puzzles/sound/board", &keep).await.status, StatusCode::NOT_FOUND);
    assert!(!trial.path().join("puzzles/sound.toml").exists());
    assert_eq!(trial.get("/puzzles/sound").await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn what_is_no_puzzle_is_not_kept() {
    let trial = Trial::new().await;
    let it = trial.puzzle("sound").await;
    let mut board = it["board"].clone();
    board["givens"][1] = json!(1);
    let refused =
        trial.put("/api/1/puzzles/sound/board", &json!({"board": board, "began_from": it["digest"]})).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(trial.text("puzzles/sound.toml"), SOUND);
    let no_digest =
        trial.put("/api/1/puzzles/sound/board", &json!({"board": it["board"], "began_from": "x"})).await;
    assert_eq!(no_digest.status, StatusCode::UNPROCESSABLE_ENTITY);
}

#[tokio::test]
async fn a_change_that_is_tried_stands_beside_what_is_kept() {
    let trial = Trial::new().await;
    let mut board = trial.puzzle("sound").await["board"].clone();
    board["givens"][0] = json!(0);
    let both = trial.post("/api/1/puzzles/sound/what-if", &board).await.json();
    assert_eq!([&both["kept"]["verdict"], &both["tried"]["verdict"]], ["one", "many"]);
    assert_eq!(both["kept"]["minutes"].as_array().unwrap().len(), 3);
    assert_eq!(both["tried"]["minutes"], json!([]));
    assert_eq!(trial.text("puzzles/sound.toml"), SOUND);
}

#[tokio::test]
async fn a_step_sets_the_board() {
    let trial = Trial::new().await;
    let picture = trial.get("/api/1/puzzles/sound/steps/1/board").await;
    assert_eq!(picture.headers["content-type"], "image/svg+xml");
    assert!(picture.text.starts_with("<svg"));
    for step in ["0", "999", "x", "-1"] {
        assert_eq!(
            trial.get(&format!("/api/1/puzzles/sound/steps/{step}/board")).await.status,
            StatusCode::NOT_FOUND
        );
    }
}

#[tokio::test]
async fn a_message_is_read_for_its_grid_and_nothing_is_written() {
    let trial = Trial::new().await;
    let before = trial.text("puzzles/sound.toml");
    let text = "Hello!\n> 1 . . .\n> 3 . 2 .\n> . . . .\n> . . 4 .\nrows: 5 . . 0\n";
    let it = trial.post("/api/1/puzzles/sound/message", &json!({"text": text})).await;
    assert_eq!(it.status, StatusCode::OK, "{}", it.text);
    assert_eq!(it.json()["givens"], json!([1, 0, 0, 0, 3, 0, 2, 0, 0, 0, 0, 0, 0, 0, 4, 0]));
    assert_eq!(it.json()["clues"]["rows"], json!([5, null, null, 0]));
    let nothing = trial.post("/api/1/puzzles/sound/message", &json!({"text": "no grid"})).await;
    assert_eq!(nothing.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(
        trial.post("/api/1/puzzles/no-such/message", &json!({"text": text})).await.status,
        StatusCode::NOT_FOUND
    );
    assert_eq!(trial.text("puzzles/sound.toml"), before);
}

#[tokio::test]
async fn what_could_go_is_told_of_sound_puzzles() {
    let spare = SOUND.replace("1 . | . .", "1 2 | . .");
    let trial = Trial::of(&[("sound", &spare), ("many", &SOUND.replace("1 . | . .", ". . | . ."))]).await;
    let told = trial.get("/api/1/puzzles/sound/spare").await.json();
    assert!(
        told["spare"].as_array().unwrap().iter().any(|it| it.as_str().unwrap().contains("r1c2")),
        "{told}"
    );
    let many = trial.get("/api/1/puzzles/many/spare").await;
    assert_eq!(many.status, StatusCode::UNPROCESSABLE_ENTITY);
}
