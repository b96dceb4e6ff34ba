//! A sealed puzzle shows verdict, minutes and shelf, and nothing else.

use axum::http::StatusCode;
use serde_json::json;

use super::solves::{RIGHT, written};
use super::{SOUND, Trial};

#[tokio::test]
async fn a_seal_keeps_everything_back_until_it_is_opened() {
    let sealed = SOUND.replace("setter", "sealed = true\nsetter");
    let trial = Trial::of(&[("sound", &sealed)]).await;
    let it = trial.puzzle("sound").await;
    assert_eq!((&it["is_sealed"], &it["verdict"]), (&json!(true), &json!("one")));
    assert!(it["minutes"].is_string() && it["board"].is_null() && it["account"].is_null());
    let board = json!({"givens": vec![0; 16], "clues": {}});
    for path in ["verdict", "repair", "what-if"] {
        let answer = trial.post(&format!("/api/1/puzzles/sound/{path}"), &board).await;
        assert_eq!(answer.status, StatusCode::FORBIDDEN, "{path}: {}", answer.text);
    }
    let keep = json!({"board": board, "began_from": it["digest"]});
    assert_eq!(trial.put("/api/1/puzzles/sound/board", &keep).await.status, StatusCode::FORBIDDEN);
    for path in ["history", "steps/1/board"] {
        assert_eq!(trial.get(&format!("/api/1/puzzles/sound/{path}")).await.status, StatusCode::FORBIDDEN);
    }
    let page = trial.get("/puzzles/sound").await.text;
    assert!(
        page.contains("sealed") && !page.contains("<svg") && !page.to_lowercase().contains("single"),
        "{page}"
    );
    let weighed = trial.post("/api/1/pack/order/weighed", &json!({"order": ["sound"]})).await.json();
    assert!(weighed["cost"].is_null() && weighed["cost_before"].is_null());

    assert_eq!(
        trial.put("/api/1/puzzles/sound/seal", &json!({"open": true})).await.status,
        StatusCode::NO_CONTENT
    );
    assert!(trial.puzzle("sound").await["account"].is_object());
    assert_eq!(trial.text("puzzles/sound.toml"), sealed);
    assert_eq!(
        trial.put("/api/1/puzzles/sound/seal", &json!({"open": false})).await.status,
        StatusCode::NO_CONTENT
    );
    assert!(trial.puzzle("sound").await["account"].is_null());
    assert_eq!(
        trial.put("/api/1/puzzles/none/seal", &json!({"open": true})).await.status,
        StatusCode::NOT_FOUND
    );
}

#[tokio::test]
async fn a_file_that_is_no_puzzle_breaks_no_seal() {
    let misspelt = SOUND.replace("setter", "Seald = true\nsetter");
    let trial = Trial::of(&[("misspelt", &misspelt), ("open", &SOUND.replace("setter", "setta"))]).await;
    assert!(trial.get("/puzzles/open").await.text.contains("3 . | 2 ."));
    let page = trial.get("/puzzles/misspelt").await.text;
    assert!(page.contains("Seald") && !page.contains("3 . | 2 ."), "{page}");
    for path in ["", "/history", "/steps/1/board"] {
        let answer = trial.get(&format!("/api/1/puzzles/misspelt{path}")).await;
        assert_eq!(answer.status, StatusCode::NOT_FOUND, "{path}");
    }
    assert_eq!(trial.get("/puzzles/misspelt/solve").await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn a_seal_is_taken_off_and_put_on_in_the_file() {
    let sealed = SOUND.replace("setter", "sealed = true # for now\nsetter");
    let trial = Trial::of(&[("sound", &sealed)]).await;
    let began_from = trial.puzzle("sound").await["digest"].clone();
    let off = json!({"sealed": false, "began_from": began_from});
    assert_eq!(trial.put("/api/1/puzzles/sound/sealed", &off).await.status, StatusCode::OK);
    assert_eq!(trial.text("puzzles/sound.toml"), sealed.replace("true # for now", "false # for now"));
    assert!(trial.puzzle("sound").await["account"].is_object());
    assert_eq!(trial.put("/api/1/puzzles/sound/sealed", &off).await.status, StatusCode::CONFLICT);
    let began_from = trial.puzzle("sound").await["digest"].clone();
    let on = json!({"sealed": true, "began_from": began_from});
    assert_eq!(trial.put("/api/1/puzzles/sound/sealed", &on).await.status, StatusCode::OK);
    assert_eq!(trial.text("puzzles/sound.toml"), sealed);
    assert!(trial.puzzle("sound").await["account"].is_null());
}

/// A tester who solves it opens no seal; the editor, whatever spaces and capitals they write their name with, does.
#[tokio::test]
async fn the_editors_own_solve_opens_the_seal() {
    let sealed = SOUND.replace("setter", "sealed = true\nsetter");
    let trial = Trial::of(&[("sound", &sealed)]).await;
    let reading = trial.desk.view().reading;
    let fingerprint = packfile::fingerprint(&reading.read.pack.entries[0].puzzle);
    let mut wrong = RIGHT;
    wrong.swap(1, 2);
    for (id, solver, digits, opens) in [
        ("solve-of-tansy", "Tansy", RIGHT, false),
        ("solve-of-editor", "a. b.", wrong, false),
        ("second-of-editor", " a.  B. ", RIGHT, true),
    ] {
        let solve = json!({"id": id, "puzzle": "sound", "fingerprint": fingerprint, "solver": solver, "kind": "regular"});
        assert_eq!(trial.post("/api/1/solves", &solve).await.status, StatusCode::CREATED);
        let hindsight = trial.get(&format!("/api/1/solves/{id}/hindsight")).await;
        assert_eq!(hindsight.status, StatusCode::FORBIDDEN, "{}", hindsight.text);
        trial.post(&format!("/api/1/solves/{id}/events"), &written(&digits)).await;
        let judged = trial.post(&format!("/api/1/solves/{id}/judged"), &json!({"digits": digits})).await;
        assert_eq!(judged.status, StatusCode::OK);
        assert_eq!(trial.puzzle("sound").await["account"].is_object(), opens, "{solver}");
    }
    let page = trial.get("/puzzles/sound/solves").await;
    assert!(page.text.contains("Tansy") && page.text.contains("Where they stopped"), "{}", page.text);
}
