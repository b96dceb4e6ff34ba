//! What is asked of the desk when the disk, the store, another program or Galley itself is at fault.

use std::fs;
use std::time::Duration;

use axum::http::StatusCode;
use serde_json::json;
use sqlx::SqlitePool;
use sqlx::sqlite::SqliteConnectOptions;
use tokio::sync::broadcast::Receiver;
use tokio::sync::broadcast::error::TryRecvError;
use tokio::time::timeout;

use super::{SOUND, Trial};
use crate::aside::{Turns, aside, in_turn};
use crate::folder::Folder;
use crate::state::News;

/// What was told since.
fn told(news: &mut Receiver<News>) -> Vec<News> {
    let mut all = Vec::new();
    loop {
        match news.try_recv() {
            Ok(it) => all.push(it),
            Err(TryRecvError::Empty) => return all,
            Err(it) => panic!("{it}"),
        }
    }
}

fn sealed() -> String {
    SOUND.replace("setter", "sealed = true\nsetter")
}

#[tokio::test]
async fn a_fault_of_galleys_is_told_as_one() {
    let trial = Trial::new().await;
    for refused in [
        aside(|| panic!("a fault")).await,
        in_turn(&trial.desk, &trial.desk.computing, |_| panic!("a fault")).await,
    ] {
        let refused = refused.unwrap_err();
        assert_eq!(refused.status, StatusCode::INTERNAL_SERVER_ERROR);
        assert!(refused.body.message.contains("a fault of Galley's"), "{refused:?}");
    }
    trial.desk.hold_studies().await.breaks = true;
    fs::write(trial.path().join("puzzles/new.toml"), SOUND).unwrap();
    trial.look_again().await;
    // Nobody waits for ever.
    let page = timeout(Duration::from_secs(5), trial.get("/puzzles/sound")).await.expect("it is answered");
    assert_eq!(page.status, StatusCode::INTERNAL_SERVER_ERROR, "{}", page.text);
    assert!(page.text.contains("a fault of Galley's"), "{}", page.text);
    let pack = trial.get("/").await.text;
    assert!(pack.contains("Not all is well") && !pack.contains("are being proved"), "{pack}");
    assert!(trial.get("/api/1/pack").await.json()["trouble"].as_str().unwrap().contains("fault of Galley's"));
    // It is not tried for ever, but with the next change.
    trial.look_again().await;
    assert_eq!(trial.get("/puzzles/sound").await.status, StatusCode::INTERNAL_SERVER_ERROR);
    fs::remove_file(trial.path().join("puzzles/new.toml")).unwrap();
    trial.look_again().await;
    assert_eq!(trial.get("/puzzles/sound").await.status, StatusCode::OK);
    assert!(!trial.get("/").await.text.contains("Not all is well"));
}

#[tokio::test]
async fn changes_show_within_a_second_however_long_a_study_takes() {
    let trial = Trial::new().await;
    let mut news = trial.desk.listen();
    let watching = tokio::spawn(crate::watch::watch(trial.desk.clone()));
    tokio::time::sleep(Duration::from_millis(300)).await;
    let held = trial.desk.hold_studies().await;
    for id in ["first", "second", "third"] {
        fs::write(trial.path().join(format!("puzzles/{id}.toml")), SOUND).unwrap();
        let heard = async { while news.recv().await.unwrap() != News::Files {} };
        timeout(Duration::from_secs(1), heard).await.expect("a change shows within a second");
        assert!(trial.get("/").await.text.contains(&format!("/puzzles/{id}")));
    }
    drop(held);
    let heard = async { while news.recv().await.unwrap() != News::Studied {} };
    timeout(Duration::from_secs(20), heard).await.expect("then everything is found out");
    assert_eq!(trial.get("/api/1/pack").await.json()["puzzles"].as_array().unwrap().len(), 6);
    watching.abort();
}

#[tokio::test]
#[cfg(unix)]
async fn a_desk_whose_own_folder_is_gone_takes_nothing_more() {
    let trial = Trial::of(&[("sound", &sealed())]).await;
    let (own, away) = (trial.path().join(".galley"), trial.path().join("away"));
    let open = json!({"open": true});
    let seal = "/api/1/puzzles/sound/seal";
    let is_refused = async || {
        let refused = trial.put(seal, &open).await;
        assert_eq!(refused.status, StatusCode::SERVICE_UNAVAILABLE, "{}", refused.text);
        assert!(refused.text.contains("taken away or replaced"), "{}", refused.text);
        let new = trial.post("/api/1/puzzles", &json!({"title": "A", "setter": "B", "side": 4})).await;
        assert_eq!(new.status, StatusCode::SERVICE_UNAVAILABLE, "{}", new.text);
        assert!(!trial.path().join("puzzles/a.toml").exists());
        trial.look_again().await;
        let page = trial.get("/").await;
        assert!(
            page.status == StatusCode::OK && page.text.contains("taken away or replaced"),
            "{}",
            page.text
        );
    };
    fs::rename(&own, &away).unwrap();
    is_refused().await;
    // Another desk may then take the pack; this one must not go on.
    drop(Folder::take(trial.path()).unwrap());
    fs::write(own.join("desk.db"), "").unwrap();
    is_refused().await;
    fs::remove_dir_all(&own).unwrap();
    fs::rename(&away, &own).unwrap();
    trial.look_again().await;
    assert_eq!(trial.put(seal, &open).await.status, StatusCode::NO_CONTENT, "it was put back");
    assert!(!trial.get("/").await.text.contains("taken away or replaced"));
    fs::remove_file(own.join("desk.lock")).unwrap();
    is_refused().await;
}

#[tokio::test]
async fn while_the_store_cannot_be_read_the_desk_is_still_and_opened_seals_stay_open() {
    let trial = Trial::of(&[("sound", &sealed())]).await;
    trial.put("/api/1/puzzles/sound/seal", &json!({"open": true})).await;
    assert_eq!(trial.puzzle("sound").await["is_sealed"], false);
    trial.desk.store.disturb("ALTER TABLE openings RENAME TO elsewhere").await;
    let mut news = trial.desk.listen();
    fs::write(trial.path().join("puzzles/other.toml"), sealed()).unwrap();
    trial.look_again().await;
    let heard = told(&mut news);
    let n_heard = |it: News| heard.iter().filter(|heard| **heard == it).count();
    assert_eq!([News::Files, News::Noted, News::Trouble, News::Studied].map(n_heard), [1; 4], "{heard:?}");
    assert_eq!(heard.len(), 4, "{heard:?}");
    for _ in 0..3 {
        trial.look_again().await;
    }
    assert_eq!(told(&mut news), [], "what is known is not told again");
    assert!(trial.get("/").await.text.contains("Not all is well"));
    assert_eq!(trial.puzzle("sound").await["is_sealed"], false);
    let board = trial.puzzle("sound").await["board"].clone();
    assert_eq!(trial.post("/api/1/puzzles/sound/verdict", &board).await.status, StatusCode::OK);
    trial.desk.store.disturb("ALTER TABLE elsewhere RENAME TO openings").await;
    trial.look_again().await;
    assert_eq!(told(&mut news), [News::Files], "pages look again, and nothing is studied that is known");
    assert!(!trial.get("/").await.text.contains("Not all is well"));
    assert_eq!(trial.puzzle("sound").await["is_sealed"], false);
}

#[tokio::test]
async fn the_last_word_on_a_seal_counts() {
    let trial = Trial::of(&[("sound", &sealed())]).await;
    let held = trial.desk.hold_studies().await;
    // One study has read its seals and waits; then they change, again and again.
    fs::write(trial.path().join("puzzles/other.toml"), SOUND).unwrap();
    trial.desk.look_again().await;
    for open in [true, false, true, false, true] {
        let answer = trial.put("/api/1/puzzles/sound/seal", &json!({"open": open})).await;
        assert_eq!(answer.status, StatusCode::NO_CONTENT);
    }
    let mut news = trial.desk.listen();
    drop(held);
    assert_eq!(trial.puzzle("sound").await["is_sealed"], false);
    tokio::time::sleep(Duration::from_millis(200)).await;
    assert_eq!(told(&mut news), [News::Studied], "what is outdated is never shown");
}

#[tokio::test]
async fn a_store_that_another_program_holds_is_told_and_takes_it_afterwards() {
    let trial = Trial::new().await;
    let options = SqliteConnectOptions::new().filename(trial.path().join(".galley/desk.db"));
    let other = SqlitePool::connect_with(options).await.unwrap();
    let mut held = other.acquire().await.unwrap();
    sqlx::query("BEGIN IMMEDIATE").execute(&mut *held).await.unwrap();
    let (path, open) = ("/api/1/puzzles/sound/seal", json!({"open": true}));
    let refused = trial.put(path, &open).await;
    assert_eq!(refused.status, StatusCode::SERVICE_UNAVAILABLE, "{}", refused.text);
    let message = refused.json()["message"].as_str().unwrap().to_owned();
    assert!(message.contains("`.galley/desk.db` is held by another program"), "{message}");
    assert_eq!(trial.get("/").await.status, StatusCode::OK);
    sqlx::query("COMMIT").execute(&mut *held).await.unwrap();
    assert_eq!(trial.put(path, &open).await.status, StatusCode::NO_CONTENT);
}

#[tokio::test]
async fn a_store_on_a_full_disk_is_told_and_nothing_is_half_done() {
    let trial = Trial::new().await;
    // SQLite then answers as it does on a full disk.
    trial.desk.store.disturb("PRAGMA max_page_count = 1").await;
    let before = trial.text("puzzles/sound.toml");
    let it = trial.puzzle("sound").await;
    let mut board = it["board"].clone();
    let mut refused = None;
    // What room there is in the last page may be enough for a few.
    for given in (0..40).map(|it| it % 2) {
        board["givens"][0] = json!(given);
        let digest = crate::folder::Digest::of(trial.text("puzzles/sound.toml").as_bytes()).to_string();
        let before = trial.text("puzzles/sound.toml");
        let answer =
            trial.put("/api/1/puzzles/sound/board", &json!({"board": board, "began_from": digest})).await;
        if answer.status != StatusCode::OK {
            assert_eq!(trial.text("puzzles/sound.toml"), before);
            refused = Some(answer);
            break;
        }
    }
    let refused = refused.expect("the store is full at last");
    assert_eq!(refused.status, StatusCode::INSUFFICIENT_STORAGE, "{}", refused.text);
    assert!(refused.json()["message"].as_str().unwrap().starts_with("the disk is full"), "{}", refused.text);
    assert!(before.contains("Sound"));
}

#[tokio::test]
#[cfg(target_os = "linux")]
async fn a_file_that_the_disk_has_no_room_for_is_told_and_as_it_was() {
    let trial = Trial::on(&[("sound", SOUND)], Folder::on_a_full_disk).await;
    let it = trial.puzzle("sound").await;
    let mut board = it["board"].clone();
    board["givens"][0] = json!(0);
    let keep = json!({"board": board, "began_from": it["digest"]});
    let refused = trial.put("/api/1/puzzles/sound/board", &keep).await;
    assert_eq!(refused.status, StatusCode::INSUFFICIENT_STORAGE, "{}", refused.text);
    let told = refused.json();
    assert!(told["message"].as_str().unwrap().contains("cannot be written"), "{told}");
    assert!(told["help"].as_str().unwrap().starts_with("the disk is full: make room"), "{told}");
    assert_eq!(trial.text("puzzles/sound.toml"), SOUND);
    assert_eq!(trial.get("/api/1/puzzles/sound/history").await.json()["changes"], json!([]));
    let new = trial.post("/api/1/puzzles", &json!({"title": "A", "setter": "B", "side": 4})).await;
    assert_eq!(new.status, StatusCode::INSUFFICIENT_STORAGE, "{}", new.text);
    assert!(!trial.path().join("puzzles/a.toml").exists());
    let remains = fs::read_dir(trial.path().join(".galley")).unwrap().flatten();
    assert!(!remains.into_iter().any(|it| it.file_name().to_string_lossy().starts_with("on-its-way")));
}

/// Work that nobody waits for ends, and until then it has its turn.
#[tokio::test]
async fn no_more_is_computed_at_once_than_there_are_turns() {
    let trial = Trial::new().await;
    let turns = Turns::new(Some(1));
    let (began, has_begun) = tokio::sync::oneshot::channel();
    let endless = in_turn(&trial.desk, &turns, |is_left| {
        began.send(()).unwrap();
        while !is_left.is_so() {
            std::thread::sleep(Duration::from_millis(5));
        }
    });
    let mut endless = Box::pin(endless);
    tokio::select! {
        _ = &mut endless => unreachable!("it has no end"),
        it = has_begun => it.unwrap(),
    }
    let next = in_turn(&trial.desk, &turns, |_| 7);
    let mut next = Box::pin(next);
    assert!(timeout(Duration::from_millis(100), &mut next).await.is_err(), "it waits for its turn");
    drop(endless);
    assert_eq!(timeout(Duration::from_secs(5), next).await.expect("its turn comes"), Ok(7));
    assert_eq!(turns.n_free(), 1);
}

/// Each press of an arrow asks anew; what was asked before is broken off.
#[tokio::test]
async fn an_order_that_nobody_waits_for_any_more_is_not_weighed() {
    let trial = Trial::new().await;
    let order = json!({"order": ["many", "sound", "none"]});
    let held = trial.desk.hold_studies().await;
    for _ in 0..20 {
        let left = timeout(Duration::from_millis(5), trial.post("/api/1/pack/order/weighed", &order)).await;
        assert!(left.is_err(), "it waits");
    }
    drop(held);
    let answer = timeout(Duration::from_secs(5), trial.post("/api/1/pack/order/weighed", &order)).await;
    assert_eq!(answer.expect("nobody is before it").status, StatusCode::OK);
}
