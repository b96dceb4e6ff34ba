//! Long work: how it goes on, fails, is broken off, waits for its turn and ends with the desk; what becomes of what it made.

use std::fs;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread::sleep;
use std::time::Duration;

use axum::http::{Method, StatusCode};
use serde_json::{Value, json};

use super::{SOUND, Trial};
use crate::failure::Failure;
use crate::jobs::{Watched, Yield};
use crate::pressing::{Press, Pressed, WantedPress};
use crate::setting::Fate;

/// A press that waits for a file `go` in the pack, and then writes one output or, with `fail`, fails.
#[derive(Debug, Default)]
struct Slow {
    running: AtomicUsize,
    most_running: AtomicUsize,
}

impl Press for Slow {
    fn press(&self, wanted: &WantedPress, watched: &Watched) -> Result<Pressed, Failure> {
        let running = self.running.fetch_add(1, Ordering::SeqCst) + 1;
        self.most_running.fetch_max(running, Ordering::SeqCst);
        watched.tell("Inking.", Some((1, 4)));
        let mut left = 2000;
        while !wanted.pack.join("go").exists() && !watched.is_cancelled() {
            sleep(Duration::from_millis(5));
            left -= 1;
            assert!(left > 0, "nobody said go");
        }
        self.running.fetch_sub(1, Ordering::SeqCst);
        let help = "try once more".to_owned();
        if watched.is_cancelled() {
            return Err(Failure { message: "stopped".to_owned(), help });
        }
        assert!(!wanted.pack.join("panic").exists(), "as was asked for");
        if wanted.pack.join("fail").exists() {
            return Err(Failure { message: "the ink is dry".to_owned(), help });
        }
        fs::create_dir_all(wanted.out.join("site")).unwrap();
        fs::write(wanted.out.join("site/index.html"), "<p>pressed</p>").unwrap();
        fs::write(wanted.out.join(".galley"), "list").unwrap();
        Ok(Pressed { problems: String::new(), note: "wrote it\n".to_owned(), has_errors: false })
    }
}

async fn pressing() -> (Trial, Arc<Slow>) {
    let slow = Arc::new(Slow::default());
    (Trial::new().await.pressing(Arc::clone(&slow) as Arc<dyn Press>), slow)
}

fn plain() -> Value {
    json!({ "issued": null, "forms": [], "print_cues": false, "strict": false, "unseal": false })
}

/// The job once it stands so.
async fn when(trial: &Trial, id: u64, state: &str) -> Value {
    for _ in 0..9000 {
        let job = trial.get(&format!("/api/1/jobs/{id}")).await.json();
        if job["job"]["state"] == state {
            return job;
        }
        tokio::time::sleep(Duration::from_millis(10)).await;
    }
    panic!("never {state}: {}", trial.get("/api/1/jobs").await.text);
}

#[tokio::test]
async fn a_job_goes_on_and_is_done_and_others_wait_for_it() {
    let (trial, slow) = pressing().await;
    let first = trial.post("/api/1/press", &plain()).await;
    assert_eq!(first.status, StatusCode::ACCEPTED);
    assert_eq!(trial.post("/api/1/press", &plain()).await.status, StatusCode::ACCEPTED);
    let running = when(&trial, 1, "running").await;
    assert_eq!(running["job"]["kind"], "press");
    for _ in 0..200 {
        if trial.get("/api/1/jobs/1").await.json()["job"]["of"] == 4 {
            break;
        }
        tokio::time::sleep(Duration::from_millis(10)).await;
    }
    let jobs = trial.get("/api/1/jobs").await.json();
    assert_eq!(
        (&jobs[1]["says"], &jobs[1]["done"], &jobs[1]["of"]),
        (&json!("Inking."), &json!(1), &json!(4))
    );
    assert_eq!(jobs[0]["state"], "waiting");
    // Pages answer while it goes on, and say how far it is.
    assert!(trial.get("/press").await.text.contains("Inking."));
    fs::write(trial.path().join("go"), "").unwrap();
    let done = when(&trial, 1, "done").await;
    assert_eq!((&done["note"], &done["problems"]), (&json!("wrote it\n"), &json!("")));
    when(&trial, 2, "done").await;
    assert_eq!(slow.most_running.load(Ordering::SeqCst), 1, "one of a kind at a time");
    let there = trial.get("/api/1/press").await.json();
    assert_eq!(there["files"][0]["name"], "site/index.html");
    assert_eq!(
        there["files"].as_array().unwrap().len(),
        1,
        "the list of what was written is nobody's output"
    );
}

#[tokio::test]
async fn what_is_broken_off_leaves_nothing_and_says_so() {
    let (trial, _) = pressing().await;
    for _ in 0..2 {
        trial.post("/api/1/press", &plain()).await;
    }
    when(&trial, 1, "running").await;
    assert_eq!(trial.post("/api/1/jobs/2/cancelled", &json!({})).await.status, StatusCode::ACCEPTED);
    assert_eq!(when(&trial, 2, "cancelled").await["job"]["says"], "Broken off before it began.");
    trial.post("/api/1/jobs/1/cancelled", &json!({})).await;
    when(&trial, 1, "cancelled").await;
    assert!(!trial.path().join("out").exists());
    // What is over stays what it was.
    fs::write(trial.path().join("go"), "").unwrap();
    trial.post("/api/1/press", &plain()).await;
    when(&trial, 3, "done").await;
    trial.post("/api/1/jobs/3/cancelled", &json!({})).await;
    assert_eq!(trial.get("/api/1/jobs/3").await.json()["job"]["state"], "done");
    assert_eq!(trial.post("/api/1/jobs/9/cancelled", &json!({})).await.status, StatusCode::NOT_FOUND);
    assert_eq!(trial.get("/api/1/jobs/x").await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn a_failure_is_told_with_its_next_move_and_the_next_job_begins() {
    let (trial, _) = pressing().await;
    for name in ["go", "fail"] {
        fs::write(trial.path().join(name), "").unwrap();
    }
    trial.post("/api/1/press", &plain()).await;
    let failed = when(&trial, 1, "failed").await;
    assert_eq!(failed["job"]["says"], "The ink is dry.");
    assert_eq!(failed["job"]["help"], "Try once more.");
    fs::write(trial.path().join("panic"), "").unwrap();
    trial.post("/api/1/press", &plain()).await;
    let failed = when(&trial, 2, "failed").await;
    assert!(failed["job"]["says"].as_str().unwrap().contains("fault of Galley"), "{failed}");
    fs::remove_file(trial.path().join("fail")).unwrap();
    fs::remove_file(trial.path().join("panic")).unwrap();
    trial.post("/api/1/press", &plain()).await;
    when(&trial, 3, "done").await;
}

#[tokio::test]
async fn the_end_of_the_desk_breaks_everything_off() {
    let (trial, _) = pressing().await;
    for _ in 0..3 {
        trial.post("/api/1/press", &plain()).await;
    }
    when(&trial, 1, "running").await;
    trial.desk.end();
    for id in 1..=3 {
        when(&trial, id, "cancelled").await;
    }
    assert!(!trial.path().join("out").exists());
}

#[tokio::test]
async fn what_cannot_be_pressed_is_refused() {
    let (trial, _) = pressing().await;
    let with = |key: &str, value: Value| {
        let mut asked = plain();
        asked[key] = value;
        asked
    };
    for (asked, says) in [
        (with("issued", json!("2026-02-30")), "no day of the calendar"),
        (with("forms", json!(["a4+papyrus"])), "papyrus"),
        (with("nothing", json!(1)), "nothing"),
    ] {
        let refused = trial.post("/api/1/press", &asked).await;
        assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", refused.text);
        assert!(refused.text.contains(says), "{}", refused.text);
    }
    for _ in 0..21 {
        assert_eq!(trial.post("/api/1/press", &plain()).await.status, StatusCode::ACCEPTED);
    }
    when(&trial, 1, "running").await;
    trial.post("/api/1/press", &plain()).await;
    assert_eq!(trial.post("/api/1/press", &plain()).await.status, StatusCode::TOO_MANY_REQUESTS);
    trial.desk.end();
    let without = Trial::new().await;
    assert_eq!(without.post("/api/1/press", &plain()).await.status, StatusCode::NOT_IMPLEMENTED);
    assert!(without.get("/press").await.text.contains("started without a press"));
}

#[tokio::test]
async fn outputs_are_shown_in_a_sandbox_to_whoever_was_told_where() {
    let (trial, _) = pressing().await;
    fs::write(trial.path().join("go"), "").unwrap();
    trial.post("/api/1/press", &plain()).await;
    when(&trial, 1, "done").await;
    let there = trial.get("/api/1/press").await.json();
    let address = there["files"][0]["address"].as_str().unwrap().to_owned();
    let shown = trial.get(&address).await;
    assert_eq!((shown.status, &shown.text[..]), (StatusCode::OK, "<p>pressed</p>"));
    let policy = shown.headers["content-security-policy"].to_str().unwrap();
    assert!(policy.contains("sandbox allow-scripts") && !policy.contains("same-origin"), "{policy}");
    assert_eq!(trial.get(&address.replace("index.html", "")).await.status, StatusCode::OK);
    // As a page of nobody's origin asks for what lies beside it; but nothing else, and no one who guesses.
    let stranger = |path: &str, method: Method| {
        let mut request = trial.request(method, path, "");
        request.headers_mut().insert("origin", "null".parse().unwrap());
        request.headers_mut().insert("sec-fetch-site", "cross-site".parse().unwrap());
        request
    };
    assert_eq!(trial.send(stranger(&address, Method::GET)).await.status, StatusCode::OK);
    for path in ["/", "/api/1/pack", "/pressed/0123456789abcdef0123456789abcdef/site/index.html"] {
        assert_eq!(trial.send(stranger(path, Method::GET)).await.status, StatusCode::FORBIDDEN, "{path}");
    }
    for path in [&address[..], "/api/1/jobs/1/cancelled", "/api/1/jobs/1/made/1/file"] {
        assert_eq!(trial.send(stranger(path, Method::POST)).await.status, StatusCode::FORBIDDEN, "{path}");
    }
    let base = address.trim_end_matches("site/index.html");
    fs::write(trial.path().join("out/.hidden"), "x").unwrap();
    #[cfg(unix)]
    std::os::unix::fs::symlink(trial.path().join("pack.toml"), trial.path().join("out/link.toml")).unwrap();
    for path in [
        "../pack.toml",
        "%2e%2e/pack.toml",
        "..%2fpack.toml",
        ".galley",
        ".hidden",
        "site/none.html",
        "link.toml",
        "/etc/passwd",
    ] {
        let refused = trial.get(&format!("{base}{path}")).await;
        assert_eq!(refused.status, StatusCode::NOT_FOUND, "{path}: {}", refused.text);
    }
    for path in ["booklet.pdf/1", "..%2fpack.toml/1", "booklet.pdf/0"] {
        let refused = trial.get(&format!("/api/1/press/pages/{path}")).await;
        assert_eq!(refused.status, StatusCode::NOT_FOUND, "{path}");
    }
}

/// A pack that lacks nearly everything.
#[tokio::test]
async fn a_gap_is_tried_and_none_found_is_said() {
    let trial = Trial::of(&[("sound", SOUND)]).await;
    let gaps = trial.get("/api/1/gaps").await.json();
    assert_eq!(gaps["is_said"], true);
    let lacking = gaps["never_taught"].as_array().unwrap();
    assert!(
        lacking.iter().any(|it| it == "hidden-single" || it == "crust-gap" || it == "crusts-at-ends"),
        "{gaps}"
    );
    for (technique, asked, status) in [
        ("no-such", json!({ "seed": null, "count": 1, "tries": 1 }), StatusCode::NOT_FOUND),
        ("naked-pair", json!({ "seed": "x", "count": 1, "tries": 1 }), StatusCode::UNPROCESSABLE_ENTITY),
        ("naked-pair", json!({ "seed": null, "count": 9, "tries": 1 }), StatusCode::UNPROCESSABLE_ENTITY),
        ("naked-pair", json!({ "seed": null, "count": 1, "tries": 0 }), StatusCode::UNPROCESSABLE_ENTITY),
    ] {
        let refused = trial.post(&format!("/api/1/gaps/{technique}"), &asked).await;
        assert_eq!(refused.status, status, "{technique} {}", refused.text);
    }
    // Those who know as little as this pack teaches finish no such puzzle, and it is said.
    trial.post("/api/1/gaps/naked-pair", &json!({ "seed": "1", "count": 1, "tries": 3 })).await;
    let done = when(&trial, 1, "done").await;
    assert!(done["job"]["says"].as_str().unwrap().starts_with("None found in 3 tries"), "{done}");
    assert_eq!(done["made"], json!([]));
}

#[tokio::test]
async fn what_was_set_is_kept_once_or_let_go() {
    let trial = Trial::of(&[("sound", SOUND)]).await;
    // Whoever knows all else is easily taught this.
    let known = reason::TECHNIQUES.iter().map(|it| it.id().name()).filter(|it| *it != "naked-single");
    let known: Vec<String> = known.filter(|it| *it != "small-argument").map(|it| format!("{it:?}")).collect();
    let text = format!("format = 1\ntitle = \"Trial\"\neditor = \"A. B.\"\nknows = [{}]\n", known.join(", "));
    fs::write(trial.path().join("pack.toml"), text).unwrap();
    trial.look_again().await;
    let asked = |seed: &str, count: u8, tries: u32| json!({ "seed": seed, "count": count, "tries": tries });
    let begun = trial.post("/api/1/gaps/naked-single", &asked("7", 1, 4000)).await;
    assert_eq!(begun.status, StatusCode::ACCEPTED, "{}", begun.text);
    assert!(begun.json()["title"].as_str().unwrap().ends_with("from seed 7"));
    let done = when(&trial, 1, "done").await;
    assert_eq!((&done["seed"], done["made"].as_array().unwrap().len()), (&json!("7"), 1), "{done}");
    let made = &done["made"][0];
    assert!(made["picture"].as_str().unwrap().starts_with("<svg") && made["moment_says"].is_string());
    let name = json!({ "title": "Sound", "has_place": false });
    let kept = trial.post("/api/1/jobs/1/made/1/file", &name).await;
    assert_eq!((kept.status, &kept.json()["id"]), (StatusCode::CREATED, &json!("sound-2")), "{}", kept.text);
    assert!(trial.text("puzzles/sound-2.toml").contains("state = \"pool\""));
    assert_eq!(trial.text("puzzles/sound.toml"), SOUND, "never over another");
    assert_eq!(trial.post("/api/1/jobs/1/made/1/file", &name).await.status, StatusCode::CONFLICT);
    assert_eq!(trial.post("/api/1/jobs/1/made/1/discarded", &json!({})).await.status, StatusCode::CONFLICT);
    assert_eq!(trial.post("/api/1/jobs/1/made/2/file", &name).await.status, StatusCode::NOT_FOUND);
    assert_eq!(trial.get("/api/1/jobs/1").await.json()["made"][0]["fate"], "kept");
    trial.desk.jobs.change_yield(1, |it| match it {
        Yield::Set(it) => it.made[0].fate = Fate::Open,
        Yield::Pressed(_) => unreachable!("nothing was pressed"),
    });
    assert_eq!(trial.post("/api/1/jobs/1/made/1/discarded", &json!({})).await.status, StatusCode::NO_CONTENT);
    assert_eq!(trial.get("/api/1/jobs/1").await.json()["made"][0]["fate"], "discarded");
    assert_eq!(fs::read_dir(trial.path().join("puzzles")).unwrap().count(), 2);
}

#[tokio::test]
async fn what_is_pinned_shelved_and_declined_by_hand_is_weighed_and_kept() {
    let trial = Trial::of(&[("a", &SOUND.replace("Sound", "A")), ("b", &SOUND.replace("Sound", "B"))]).await;
    let digest = |it: &Value| it["digest"].as_str().unwrap().to_owned();
    let pack = digest(&trial.get("/api/1/pack").await.json());
    let pin = json!({ "place": 2, "began_from": pack });
    let weighed = trial.post("/api/1/pack/pins/a/weighed", &pin).await;
    assert_eq!(weighed.status, StatusCode::OK, "{}", weighed.text);
    assert!(weighed.json()["says"].as_str().unwrap().contains("costs"));
    assert!(!trial.text("pack.toml").contains("[pins]"), "nothing is written by weighing");
    let kept = trial.put("/api/1/pack/pins/a", &pin).await;
    assert_eq!(kept.status, StatusCode::OK, "{}", kept.text);
    assert!(trial.text("pack.toml").ends_with("editor = \"A. B.\" # for now\n\n[pins]\na = 2\n"));
    assert_eq!(
        trial.put("/api/1/pack/pins/a", &pin).await.status,
        StatusCode::CONFLICT,
        "begun before it was kept"
    );
    let again = json!({ "place": 2, "began_from": digest(&kept.json()) });
    let refused = trial.put("/api/1/pack/pins/b", &again).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY, "two in one place: {}", refused.text);
    let away = json!({ "place": null, "began_from": digest(&kept.json()) });
    assert_eq!(trial.put("/api/1/pack/pins/a", &away).await.status, StatusCode::OK);
    assert!(!trial.text("pack.toml").contains("a = 2"));

    let file = crate::folder::Digest::of(trial.text("puzzles/a.toml").as_bytes()).to_string();
    let stands = |state: &str| json!({ "shelf": null, "state": state, "reason": "too long for us", "began_from": file });
    let refused = trial.put("/api/1/puzzles/a/standing", &stands("lost")).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", refused.text);
    assert_eq!(
        trial.post("/api/1/puzzles/a/standing/weighed", &stands("declined")).await.status,
        StatusCode::OK
    );
    let kept = trial.put("/api/1/puzzles/a/standing", &stands("declined")).await;
    assert_eq!(kept.status, StatusCode::OK, "{}", kept.text);
    let text = trial.text("puzzles/a.toml");
    assert!(
        text.contains("state = \"declined\"\nreason = \"too long for us\"\n")
            && text.contains("# the only one")
    );
    trial.look_again().await;
    assert!(trial.get("/").await.text.contains("too long for us"));
    let back = json!({ "shelf": null, "state": null, "reason": null, "began_from": digest(&kept.json()) });
    trial.put("/api/1/puzzles/a/standing", &back).await;
    assert_eq!(trial.text("puzzles/a.toml"), SOUND.replace("Sound", "A"));
    assert_eq!(trial.put("/api/1/puzzles/zzz/standing", &back).await.status, StatusCode::NOT_FOUND);
}
