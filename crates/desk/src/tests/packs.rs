//! The pack: its order, its files, and what happens to them behind the desk's back.

use std::fs;
use std::time::Duration;

use axum::http::{Method, StatusCode};
use serde_json::json;
use tokio::time::timeout;

use super::{SOUND, Trial};
use crate::state::News;

#[tokio::test]
async fn an_order_is_weighed_and_then_kept() {
    let trial = Trial::new().await;
    let pack = trial.get("/api/1/pack").await.json();
    assert_eq!((&pack["is_studied"], &pack["is_ordered"]), (&json!(true), &json!(false)));
    let order = json!(["many", "sound", "none"]);
    let weighed = trial.post("/api/1/pack/order/weighed", &json!({"order": order})).await;
    assert_eq!(weighed.status, StatusCode::OK, "{}", weighed.text);
    assert!(weighed.json()["cost"].is_u64());
    assert!(!trial.text("pack.toml").contains("order"));
    let kept = trial.put("/api/1/pack/order", &json!({"order": order, "began_from": pack["digest"]})).await;
    assert_eq!(kept.status, StatusCode::OK, "{}", kept.text);
    let expected = "format = 1\ntitle = \"Trial\"\neditor = \"A. B.\" # for now\norder = [\"many\", \"sound\", \"none\"]\n";
    assert_eq!(trial.text("pack.toml"), expected);
    let again = trial.put("/api/1/pack/order", &json!({"order": order, "began_from": pack["digest"]})).await;
    assert_eq!(again.status, StatusCode::CONFLICT);
    let ids = |it: serde_json::Value| {
        it["puzzles"].as_array().unwrap().iter().map(|it| it["id"].clone()).collect::<Vec<_>>()
    };
    assert_eq!(json!(ids(trial.get("/api/1/pack").await.json())), order);
    for wrong in [
        json!(["many"]),
        json!(["many", "sound", "sound"]),
        json!(["many", "sound", "../x"]),
        json!(["many", "sound", "none", "none"]),
    ] {
        let refused = trial.post("/api/1/pack/order/weighed", &json!({"order": wrong})).await;
        assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY, "{wrong}");
    }
}

#[tokio::test]
async fn what_other_programs_do_shows() {
    let trial = Trial::new().await;
    let mut news = trial.desk.listen();
    let watching = tokio::spawn(crate::watch::watch(trial.desk.clone()));
    // Until it listens there is nothing to be heard.
    tokio::time::sleep(Duration::from_millis(300)).await;
    for (text, says) in [(Some("format = 1\ntitle = 3\n"), "title"), (None, "")] {
        let path = trial.path().join("puzzles/broken.toml");
        match text {
            Some(text) => fs::write(path, text).unwrap(),
            None => fs::remove_file(path).unwrap(),
        }
        let heard =
            timeout(Duration::from_secs(1), async { while news.recv().await.unwrap() != News::Files {} });
        heard.await.expect("a change shows within a second");
        let problems = trial.get("/api/1/pack").await.json()["problems"].to_string();
        assert_eq!(problems.contains("broken.toml"), text.is_some());
        assert!(problems.contains(says));
    }
    // What lies beside the puzzles, too, in a folder that was made meanwhile.
    fs::create_dir(trial.path().join("captions")).unwrap();
    fs::write(trial.path().join("captions/sound.vtt"), "WEBVTT\n").unwrap();
    let heard =
        timeout(Duration::from_secs(1), async { while news.recv().await.unwrap() != News::Solves {} });
    heard.await.expect("captions show within a second");
    watching.abort();
}

#[tokio::test]
async fn a_page_of_each_kind_answers() {
    let trial = Trial::of(&[("sound", SOUND), ("broken", "format = 1\n")]).await;
    for (path, says) in [
        ("/", "Trial"),
        ("/puzzles/sound", "Sound"),
        ("/puzzles/broken", "broken.toml"),
        ("/solves", "Test solves"),
    ] {
        let page = trial.get(path).await;
        assert_eq!(page.status, StatusCode::OK, "{path}: {}", page.text);
        assert_eq!(page.headers["content-type"], "text/html; charset=utf-8");
        assert!(page.text.contains(says), "{path}");
    }
    for path in ["/nothing", "/puzzles/nothing", "/puzzles/nothing/solve", "/solves/nothing"] {
        let page = trial.get(path).await;
        assert_eq!(page.status, StatusCode::NOT_FOUND, "{path}");
        assert!(page.text.starts_with("<!DOCTYPE html>") && page.text.contains("Nothing to show"), "{path}");
    }
    assert!(trial.get("/api/1/nothing").await.json()["message"].is_string());
    assert_eq!(
        trial.send(trial.request(Method::DELETE, "/api/1/pack", "")).await.status,
        StatusCode::METHOD_NOT_ALLOWED
    );
}

/// What is described is there, and what is there is described.
#[tokio::test]
async fn the_interface_describes_itself() {
    let trial = Trial::new().await;
    let described = trial.get("/api/1/openapi.json").await.json();
    let routes = include_str!("../api.rs").matches(".route(\"").count();
    // That of the description itself is not in it.
    assert_eq!(described["paths"].as_object().unwrap().len(), routes - 1);
    for (path, methods) in described["paths"].as_object().unwrap() {
        for method in methods.as_object().unwrap().keys().filter(|it| **it != "get") {
            let method: Method = method.to_uppercase().parse().unwrap();
            let answer = trial.send(trial.request(method, &path.replace("{id}", "sound"), "{}")).await;
            assert_ne!(answer.status, StatusCode::METHOD_NOT_ALLOWED, "{path}");
        }
    }
}

#[tokio::test]
async fn a_new_puzzle_gets_a_file_of_its_own() {
    let trial = Trial::new().await;
    let begin = |title: &str, side: u8| json!({"title": title, "setter": "Fern", "side": side});
    for (title, side, id) in [
        ("Market Day!", 9, "market-day"),
        ("market  day", 6, "market-day-2"),
        ("Sound", 4, "sound-2"),
        ("光", 9, "puzzle"),
        ("../../etc/passwd", 9, "etc-passwd"),
        ("\"\"\" = [x] # \\", 9, "x"),
        (&"long ".repeat(20), 9, "long-long-long-long-long-long-long-long-long-long"),
    ] {
        let answer = trial.post("/api/1/puzzles", &begin(title, side)).await;
        assert_eq!((answer.status, answer.json()), (StatusCode::CREATED, json!({"id": id})), "{title}");
        let puzzle = trial.puzzle(id).await;
        assert_eq!(puzzle["title"], title.trim(), "{title}");
        assert_eq!(
            puzzle["board"]["givens"].as_array().unwrap().len(),
            usize::from(side) * usize::from(side)
        );
    }
    assert_eq!(trial.text("puzzles/sound.toml"), SOUND);
    for wrong in [begin("", 9), begin("a\nb", 9), begin(&"x".repeat(121), 9), begin("A", 3), begin("A", 255)]
    {
        assert_eq!(
            trial.post("/api/1/puzzles", &wrong).await.status,
            StatusCode::UNPROCESSABLE_ENTITY,
            "{wrong}"
        );
    }
}

#[tokio::test]
async fn without_its_store_the_desk_shows_the_pack_with_the_seals_as_they_were() {
    let sealed = SOUND.replace("setter", "sealed = true\nsetter");
    let trial = Trial::of(&[("sound", &sealed)]).await;
    trial.put("/api/1/puzzles/sound/seal", &json!({"open": true})).await;
    assert_eq!(trial.puzzle("sound").await["is_sealed"], false);
    trial.desk.store.close().await;
    fs::write(trial.path().join("puzzles/other.toml"), &sealed).unwrap();
    trial.look_again().await;
    assert_eq!(trial.puzzle("sound").await["is_sealed"], false);
    assert_eq!(trial.puzzle("other").await["is_sealed"], true);
    let page = trial.get("/").await.text;
    assert!(page.contains("Not all is well") && page.contains("desk.db"), "{page}");
    let kept = trial.put("/api/1/puzzles/sound/seal", &json!({"open": true})).await;
    assert_eq!(kept.status, StatusCode::INTERNAL_SERVER_ERROR, "{}", kept.text);
}

/// Mirrored and with other digits it is still the same puzzle.
#[tokio::test]
async fn twins_are_named_on_the_page_of_the_pack() {
    let turned = SOUND
        .replace("1 . | . .", ". . | . 1")
        .replace("3 . | 2 .", ". 2 | . 3")
        .replace(". . | 4 .", ". 4 | . .");
    let trial = Trial::of(&[
        ("one", SOUND),
        ("two", &turned.replace("Sound", "Turned")),
        ("three", &SOUND.replace("4 .", ". 4").replace("Sound", "Other")),
    ])
    .await;
    let page = trial.get("/").await.text;
    let twins = page.split("id=\"twins\"").nth(1).unwrap().split("</section>").next().unwrap();
    assert!(twins.contains("/puzzles/one") && twins.contains("/puzzles/two"), "{twins}");
    assert!(!twins.contains("/puzzles/three"), "{twins}");
    let alone = Trial::of(&[("one", SOUND)]).await;
    assert!(!alone.get("/").await.text.contains("Twins"));
}
