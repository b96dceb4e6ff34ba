//! The season, approvals, setters and the letter to them.

use std::fs;

use axum::http::StatusCode;
use serde_json::{Value, json};

use super::solves::{RIGHT, written};
use super::{SOUND, Trial};

async fn of_puzzle(trial: &Trial, id: &str) -> Value {
    let season = trial.get("/api/1/season").await.json();
    season["puzzles"].as_array().unwrap().iter().find(|it| it["id"] == id).unwrap().clone()
}

fn stage(puzzle: &Value, name: &str) -> Value {
    puzzle["stages"].as_array().unwrap().iter().find(|it| it["stage"] == name).unwrap()["reached"].clone()
}

async fn fingerprint(trial: &Trial, id: &str) -> String {
    let page = trial.get(&format!("/puzzles/{id}")).await.text;
    page.split("data-fingerprint=\"").nth(1).unwrap()[..16].to_owned()
}

#[tokio::test]
async fn an_approval_is_noted_by_one_press_and_a_change_afterwards_shows_everywhere() {
    let trial = Trial::of(&[("sound", SOUND)]).await;
    let print = fingerprint(&trial, "sound").await;
    let said = json!({"approved": true, "fingerprint": print});
    let answer = trial.put("/api/1/puzzles/sound/approval", &said).await;
    assert_eq!(answer.status, StatusCode::OK, "{}", answer.text);
    let text = trial.text("puzzles/sound.toml");
    assert!(text.contains(&format!(" {print}\"\n")) && text.contains("# the only one"), "{text}");
    assert!(of_puzzle(&trial, "sound").await["approved"].as_str().unwrap().starts_with("Approved by"));
    assert!(trial.get("/puzzles/sound").await.text.contains("Take the approval back"));

    // A given that is spare is taken away at the desk.
    let it = trial.puzzle("sound").await;
    let mut board = it["board"].clone();
    board["givens"][0] = json!(0);
    let keep = json!({"board": board, "began_from": it["digest"]});
    assert_eq!(trial.put("/api/1/puzzles/sound/board", &keep).await.status, StatusCode::OK);
    for page in ["/puzzles/sound", "/season"] {
        assert!(trial.get(page).await.text.contains("Changed since approved"), "{page}");
    }
    let problems = trial.get("/api/1/pack").await.json()["problems"].to_string();
    assert!(problems.contains("the puzzle has changed since its setter approved it"), "{problems}");
    // What the page showed then is not what would be approved now.
    assert_eq!(trial.put("/api/1/puzzles/sound/approval", &said).await.status, StatusCode::CONFLICT);
    let back = json!({"approved": false, "fingerprint": fingerprint(&trial, "sound").await});
    assert_eq!(trial.put("/api/1/puzzles/sound/approval", &back).await.status, StatusCode::OK);
    assert!(!trial.text("puzzles/sound.toml").contains("approved"));
    let unknown = trial.put("/api/1/puzzles/nobody/approval", &said).await;
    assert_eq!(unknown.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn the_season_is_derived_from_what_lies_beside_the_puzzles() {
    let trial = Trial::of(&[("sound", SOUND)]).await;
    assert_eq!(stage(&of_puzzle(&trial, "sound").await, "test-solved"), "no");
    let print = fingerprint(&trial, "sound").await;
    for folder in ["solves", "rehearsals", "captions"] {
        fs::create_dir(trial.path().join(folder)).unwrap();
    }
    let (side, found) = (4, [1, 2, 3, 5, 7, 8, 9, 10, 11, 12, 13, 15]);
    let entry = |cell: &usize| json!({"at": 60, "cell": format!("r{}c{}", cell / side + 1, cell % side + 1), "digit": RIGHT[*cell]});
    let entries: Vec<Value> = found.iter().map(entry).collect();
    let solve = json!({"format": 1, "puzzle": "sound", "fingerprint": print, "solver": "Sorrel", "kind": "regular",
        "aloud": false, "entries": entries, "outcome": "solved"});
    fs::write(trial.path().join("solves/a.json"), solve.to_string()).unwrap();
    fs::write(trial.path().join("solves/broken.json"), "{").unwrap();
    let log = format!(
        r#"{{"format": 1, "puzzle": "sound", "fingerprint": "0{}", "kind": "recording", "seconds": 1, "events": []}}"#,
        &print[1..]
    );
    fs::write(trial.path().join("rehearsals/a.json"), log).unwrap();
    fs::write(trial.path().join("captions/sound.vtt"), "WEBVTT\n").unwrap();
    let it = of_puzzle(&trial, "sound").await;
    let expected = if print.starts_with('0') { "yes" } else { "before" };
    for (name, reached) in [
        ("sound", "yes"),
        ("test-solved", "yes"),
        ("recorded", expected),
        ("captioned", "yes"),
        ("published", "no"),
    ] {
        assert_eq!(stage(&it, name), reached, "{name}: {it}");
    }
}

#[tokio::test]
async fn a_solve_at_the_desk_counts_before_it_is_written() {
    let trial = Trial::of(&[("sound", SOUND)]).await;
    let print = fingerprint(&trial, "sound").await;
    let begin = json!({"id": "0123456789abcdef", "puzzle": "sound", "fingerprint": print, "solver": "Tansy", "kind": "regular"});
    let begun = trial.post("/api/1/solves", &begin).await;
    assert!(begun.status.is_success(), "{}", begun.text);
    let path = "/api/1/solves/0123456789abcdef";
    // That it was solved is not taken on a page's word.
    let word =
        json!({"events": [{"id": "b", "after_ms": 60_000, "what": "solved", "cell": null, "value": null}]});
    let told = trial.post(&format!("{path}/events"), &word).await;
    assert_eq!(told.status, StatusCode::UNPROCESSABLE_ENTITY);
    let told = trial.post(&format!("{path}/events"), &written(&RIGHT)).await;
    assert!(told.status.is_success(), "{}", told.text);
    assert_eq!(stage(&of_puzzle(&trial, "sound").await, "test-solved"), "no");
    trial.post(&format!("{path}/judged"), &json!({"digits": RIGHT})).await;
    let it = of_puzzle(&trial, "sound").await;
    assert_eq!(stage(&it, "test-solved"), "yes", "{it}");
}

#[tokio::test]
async fn days_are_kept_and_come_out_as_a_calendar() {
    let trial = Trial::of(&[("sound", SOUND)]).await;
    let digest = trial.puzzle("sound").await["digest"].clone();
    let days =
        json!({"received": "2026-09-14", "record": "2026-12-05", "release": null, "began_from": digest});
    let kept = trial.put("/api/1/puzzles/sound/days", &days).await;
    assert_eq!(kept.status, StatusCode::OK, "{}", kept.text);
    let text = trial.text("puzzles/sound.toml");
    assert!(text.contains("received = \"2026-09-14\"\nrecord = \"2026-12-05\"\n"), "{text}");
    let again = trial.put("/api/1/puzzles/sound/days", &days).await;
    assert_eq!(again.status, StatusCode::CONFLICT, "{}", again.text);
    let wrong =
        json!({"received": "soon", "record": null, "release": null, "began_from": kept.json()["digest"]});
    let refused = trial.put("/api/1/puzzles/sound/days", &wrong).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
    let calendar = trial.get("/api/1/season/calendar").await;
    assert_eq!(calendar.headers["content-type"], "text/calendar; charset=utf-8");
    assert!(calendar.text.contains("DTSTART;VALUE=DATE:20261205\r\n"), "{}", calendar.text);
    assert!(!calendar.text.contains("20260914\r\n"), "{}", calendar.text);
    // The time of writing is this machine's.
    assert!(!calendar.text.contains("DTSTAMP:1970"), "{}", calendar.text);
}

#[tokio::test]
async fn a_setter_is_kept_once_and_hostile_names_do_no_harm() {
    let name = "Fern</textarea><script>alert(1)</script>\u{202e}";
    let trial =
        Trial::of(&[("sound", &SOUND.replace("Fern", name)), ("other", &SOUND.replace("Sound", "Other"))])
            .await;
    let digest = trial.get("/api/1/pack").await.json()["digest"].clone();
    let setter = json!({"name": name, "credit": "F. <i>Ashdown</i>", "link": "https://example.org/f?a=1&b=2",
        "wishes": "No clips.\nNone at all.", "began_from": digest});
    let kept = trial.put("/api/1/setters", &setter).await;
    assert_eq!(kept.status, StatusCode::OK, "{}", kept.text);
    for page in ["/season", "/puzzles/sound"] {
        let page = trial.get(page).await.text;
        assert!(!page.contains("<script>alert") && !page.contains("<i>Ashdown"), "{page}");
        assert!(page.contains("No clips."), "{page}");
    }
    let letter = trial.get("/api/1/puzzles/sound/letter").await.json();
    assert!(
        letter["text"]
            .as_str()
            .unwrap()
            .contains("F. <i>Ashdown</i>, with a link to https://example.org/f?a=1&b=2")
    );
    let plain = trial.get("/api/1/puzzles/sound/letter.txt").await;
    assert_eq!(plain.headers["content-type"], "text/plain; charset=utf-8");
    assert_eq!(json!(plain.text), letter["text"]);
    for (wrong, status) in [
        (json!({"name": "Nobody", "credit": null, "link": null, "wishes": null}), StatusCode::NOT_FOUND),
        (
            json!({"name": "Fern", "credit": null, "link": "javascript:x", "wishes": null}),
            StatusCode::UNPROCESSABLE_ENTITY,
        ),
        (
            json!({"name": "Fern", "credit": "a\nb", "link": null, "wishes": null}),
            StatusCode::UNPROCESSABLE_ENTITY,
        ),
        (
            json!({"name": "Fern", "credit": "x".repeat(5000), "link": null, "wishes": null}),
            StatusCode::UNPROCESSABLE_ENTITY,
        ),
    ] {
        let mut wrong = wrong;
        wrong["began_from"] = kept.json()["digest"].clone();
        let refused = trial.put("/api/1/setters", &wrong).await;
        assert_eq!(refused.status, status, "{wrong}: {}", refused.text);
    }
    let late = trial.put("/api/1/setters", &setter).await;
    assert_eq!(late.status, StatusCode::CONFLICT);
}

#[tokio::test]
async fn a_sealed_puzzle_has_a_letter_that_says_its_verdict_alone() {
    let trial = Trial::of(&[("sound", &SOUND.replace("setter", "sealed = true\nsetter"))]).await;
    let letter = trial.get("/api/1/puzzles/sound/letter").await.json()["text"].as_str().unwrap().to_owned();
    assert!(letter.contains("exactly one solution") && !letter.contains("walkthrough"), "{letter}");
    let page = trial.get("/season").await.text;
    assert!(page.contains("sealed") && !page.contains("single"), "{page}");
}

#[tokio::test]
async fn a_pack_without_puzzles_has_a_season_too() {
    let trial = Trial::of(&[]).await;
    let page = trial.get("/season").await;
    assert_eq!(page.status, StatusCode::OK);
    assert!(page.text.contains("There is no puzzle yet."));
    assert!(trial.get("/api/1/season/calendar").await.text.ends_with("END:VCALENDAR\r\n"));
}
