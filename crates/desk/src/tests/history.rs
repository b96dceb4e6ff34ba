//! What files were before, whoever changed them, and going back to it.

use std::fs;

use axum::http::StatusCode;
use serde_json::{Value, json};

use super::{SOUND, Trial};

const HISTORY: &str = "/api/1/puzzles/sound/history";

async fn history(trial: &Trial) -> Vec<Value> {
    let answer = trial.get(HISTORY).await;
    assert_eq!(answer.status, StatusCode::OK, "{}", answer.text);
    answer.json()["changes"].as_array().unwrap().clone()
}

/// Who made each change, and the lines of it.
async fn told(trial: &Trial) -> Vec<(String, Value)> {
    let of = |it: &Value| (it["made_by"].as_str().unwrap().to_owned(), it["lines"].clone());
    history(trial).await.iter().map(of).collect()
}

fn save(trial: &Trial, text: &str) {
    fs::write(trial.path().join("puzzles/sound.toml"), text).unwrap();
}

#[tokio::test]
async fn what_other_programs_change_is_in_the_history_too() {
    let trial = Trial::of(&[("sound", SOUND)]).await;
    assert!(history(&trial).await.is_empty());
    let retitled = SOUND.replace("Sound", "Quiet");
    save(&trial, &retitled);
    trial.look_again().await;
    trial.look_again().await;
    let elsewhere = (
        "elsewhere".to_owned(),
        json!(["-title = \"Sound\" # the only one", "+title = \"Quiet\" # the only one"]),
    );
    assert_eq!(told(&trial).await, std::slice::from_ref(&elsewhere), "once, however often it is looked");

    // What the desk does is its own, and what follows elsewhere begins from there.
    let it = trial.puzzle("sound").await;
    let mut board = it["board"].clone();
    board["givens"][0] = json!(0);
    let kept = json!({"board": board, "began_from": it["digest"]});
    assert_eq!(trial.put("/api/1/puzzles/sound/board", &kept).await.status, StatusCode::OK);
    trial.look_again().await;
    let here = ("desk".to_owned(), json!(["-1 . | . .", "+. . | . ."]));
    assert_eq!(told(&trial).await, [here.clone(), elsewhere.clone()]);

    // Also what happens while no desk runs; but nothing where nothing has happened.
    let trial = trial.started_anew(|_| {}).await;
    assert_eq!(told(&trial).await, [here.clone(), elsewhere.clone()]);
    let sorrel = trial.text("puzzles/sound.toml").replace("Fern", "Sorrel");
    let trial = trial.started_anew(|pack| fs::write(pack.join("puzzles/sound.toml"), &sorrel).unwrap()).await;
    let meanwhile = ("elsewhere".to_owned(), json!(["-setter = \"Fern\"", "+setter = \"Sorrel\""]));
    assert_eq!(told(&trial).await, [meanwhile, here, elsewhere]);

    // A file that comes while the desk runs was not there before.
    fs::write(trial.path().join("puzzles/new.toml"), SOUND).unwrap();
    trial.look_again().await;
    let new = trial.get("/api/1/puzzles/new/history").await.json()["changes"].clone();
    assert_eq!((&new[0]["was_there"], &new[0]["made_by"]), (&json!(false), &json!("elsewhere")));
}

#[tokio::test]
async fn a_file_is_put_back_as_a_whole() {
    let trial = Trial::of(&[("sound", SOUND)]).await;
    save(&trial, &SOUND.replace("# the only one", "# another").replace("1 .", ". ."));
    trial.look_again().await;
    save(&trial, &SOUND.replace("Fern", "Sorrel"));
    trial.look_again().await;
    let first = history(&trial).await[1]["id"].as_str().unwrap().to_owned();
    let digest = trial.puzzle("sound").await["digest"].clone();
    let back = json!({"began_from": digest});
    let path = format!("{HISTORY}/{first}");
    let kept = trial.put(&path, &back).await;
    assert_eq!(kept.status, StatusCode::OK, "{}", kept.text);
    assert_eq!(trial.text("puzzles/sound.toml"), SOUND);
    assert_eq!(trial.puzzle("sound").await["digest"], kept.json()["digest"]);
    assert_eq!(told(&trial).await[0].0, "desk", "going back is a change, too");
    // Begun before it was put back.
    assert_eq!(trial.put(&path, &back).await.status, StatusCode::CONFLICT);
    let now = json!({"began_from": kept.json()["digest"]});
    assert_eq!(trial.put(&format!("{HISTORY}/nothing"), &now).await.status, StatusCode::NOT_FOUND);

    // A text that could not be read is not gone back to, nor to before there was one.
    save(&trial, "format = 1\ntitle = 3\n");
    trial.look_again().await;
    save(&trial, SOUND);
    trial.look_again().await;
    let broken = history(&trial).await[0]["id"].as_str().unwrap().to_owned();
    assert_eq!(
        trial.put(&format!("{HISTORY}/{broken}"), &now).await.status,
        StatusCode::UNPROCESSABLE_ENTITY
    );
    fs::write(trial.path().join("puzzles/new.toml"), SOUND).unwrap();
    trial.look_again().await;
    let new =
        trial.get("/api/1/puzzles/new/history").await.json()["changes"][0]["id"].as_str().unwrap().to_owned();
    let path = format!("/api/1/puzzles/new/history/{new}");
    assert_eq!(trial.put(&path, &now).await.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(
        trial.put(&format!("{HISTORY}/{new}"), &now).await.status,
        StatusCode::NOT_FOUND,
        "of another file"
    );

    // Of a sealed puzzle nothing is told or changed.
    save(&trial, &SOUND.replace("setter", "sealed = true\nsetter"));
    trial.look_again().await;
    assert_eq!(trial.get(HISTORY).await.status, StatusCode::FORBIDDEN);
    assert_eq!(trial.put(&format!("{HISTORY}/{first}"), &now).await.status, StatusCode::FORBIDDEN);
}

#[tokio::test]
async fn all_changes_can_be_asked_for() {
    let trial = Trial::of(&[("sound", SOUND)]).await;
    for it in 0..60 {
        save(&trial, &SOUND.replace("Sound", &format!("Sound {it}")));
        trial.desk.look_again().await;
    }
    let latest = trial.get(HISTORY).await.json();
    let changes = latest["changes"].as_array().unwrap();
    assert_eq!((changes.len(), &latest["has_more"]), (50, &json!(true)));
    let last = changes[49]["id"].as_str().unwrap();
    let earlier = trial.get(&format!("{HISTORY}?before={last}")).await.json();
    assert_eq!((earlier["changes"].as_array().unwrap().len(), &earlier["has_more"]), (10, &json!(false)));
    assert_eq!(earlier["changes"][9]["lines"][0], "-title = \"Sound\" # the only one");
    assert_eq!(trial.get(&format!("{HISTORY}?surprise=1")).await.status, StatusCode::BAD_REQUEST);
}
