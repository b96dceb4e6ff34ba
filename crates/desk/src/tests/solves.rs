//! Test solves over HTTP.

use std::sync::Arc;

use axum::http::StatusCode;
use serde_json::{Value, json};
use tokio::task::JoinSet;

use super::Trial;

async fn begin(trial: &Trial) -> Value {
    let puzzle = &trial
        .desk
        .view()
        .reading
        .read
        .pack
        .entries
        .iter()
        .find(|it| it.id.as_str() == "sound")
        .unwrap()
        .puzzle
        .clone();
    let fingerprint = packfile::fingerprint(puzzle);
    json!({"id": "0123-abcd-4567", "puzzle": "sound", "fingerprint": fingerprint, "solver": "Tansy", "kind": "regular"})
}

#[tokio::test]
async fn a_solve_is_logged_whatever_is_sent_twice() {
    let trial = Trial::new().await;
    let solve = begin(&trial).await;
    for _ in 0..2 {
        assert_eq!(trial.post("/api/1/solves", &solve).await.status, StatusCode::CREATED);
    }
    let events = json!({"events": [
        {"id": "b", "after_ms": 2000, "what": "hint", "cell": null, "value": null},
        {"id": "a", "after_ms": 1000, "what": "ink", "cell": 3, "value": 4},
    ]});
    let path = "/api/1/solves/0123-abcd-4567/events";
    assert_eq!(trial.post(path, &events).await.json(), json!({"new": 2, "known": 0}));
    assert_eq!(trial.post(path, &events).await.json(), json!({"new": 0, "known": 2}));
    let whole = trial.get("/api/1/solves/0123-abcd-4567").await.json();
    assert_eq!(whole["solve"]["solver"], "Tansy");
    assert_eq!([&whole["events"][0]["id"], &whole["events"][1]["id"]], ["a", "b"]);
    assert_eq!(trial.get("/api/1/solves").await.json().as_array().unwrap().len(), 1);
    assert_eq!(trial.get("/solves/0123-abcd-4567").await.status, StatusCode::OK);
    let forged = json!({"events": [{"id": "a", "after_ms": 1000, "what": "ink", "cell": 3, "value": 1}]});
    assert_eq!(trial.post(path, &forged).await.status, StatusCode::CONFLICT);
    assert_eq!(trial.get("/api/1/solves/0123-abcd-4567").await.json(), whole);
}

#[tokio::test]
async fn what_cannot_have_happened_is_refused() {
    let trial = Trial::new().await;
    let solve = begin(&trial).await;
    for (key, value, status) in [
        ("id", json!("short"), 422),
        ("id", json!("../../etc/passwd"), 422),
        ("solver", json!(" "), 422),
        ("solver", json!("x".repeat(81)), 422),
        ("solver", json!("a\nb"), 422),
        ("kind", json!("expert"), 422),
        ("puzzle", json!("nothing"), 404),
        ("puzzle", json!("../sound"), 404),
        ("fingerprint", json!("0"), 409),
    ] {
        let mut wrong = solve.clone();
        wrong[key] = value.clone();
        let answer = trial.post("/api/1/solves", &wrong).await;
        assert_eq!(answer.status.as_u16(), status, "{key} {value}: {}", answer.text);
    }
    trial.post("/api/1/solves", &solve).await;
    let event = json!({"id": "a", "after_ms": 1000, "what": "ink", "cell": 3, "value": 4});
    for (key, value) in [
        ("id", json!("")),
        ("id", json!("<b>")),
        ("after_ms", json!(-1)),
        ("after_ms", json!(i64::MAX)),
        ("what", json!("cheat")),
        ("cell", json!(256)),
        ("cell", json!(-1)),
        ("value", json!(1 << 20)),
    ] {
        let mut wrong = event.clone();
        wrong[key] = value.clone();
        let answer =
            trial.post("/api/1/solves/0123-abcd-4567/events", &json!({"events": [event, wrong]})).await;
        assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY, "{key} {value}");
    }
    let many: Vec<Value> = (0..501)
        .map(|it| json!({"id": it.to_string(), "after_ms": 1, "what": "ink", "cell": 1, "value": 1}))
        .collect();
    assert_eq!(
        trial.post("/api/1/solves/0123-abcd-4567/events", &json!({"events": many})).await.status,
        StatusCode::UNPROCESSABLE_ENTITY
    );
    assert_eq!(
        trial.post("/api/1/solves/not-begun-yet/events", &json!({"events": []})).await.status,
        StatusCode::NOT_FOUND
    );
    assert_eq!(trial.get("/api/1/solves/0123-abcd-4567").await.json()["events"], json!([]));
    assert_eq!(trial.get("/api/1/solves/not-begun-yet").await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn a_full_board_is_judged_and_nothing_more_is_said() {
    let trial = Trial::new().await;
    trial.post("/api/1/solves", &begin(&trial).await).await;
    let path = "/api/1/solves/0123-abcd-4567/judged";
    let right = [1, 2, 3, 4, 3, 4, 2, 1, 4, 3, 1, 2, 2, 1, 4, 3];
    assert_eq!(trial.post(path, &json!({"digits": right})).await.json(), json!({"is_solved": true}));
    let mut wrong = right;
    wrong.swap(1, 2);
    assert_eq!(trial.post(path, &json!({"digits": wrong})).await.json(), json!({"is_solved": false}));
    for digits in [json!([]), json!(vec![0; 16]), json!(vec![5; 16]), json!(vec![1; 17])] {
        let answer = trial.post(path, &json!({"digits": digits})).await;
        assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY, "{digits}");
    }
    assert_eq!(
        trial.post("/api/1/solves/not-begun-yet/judged", &json!({"digits": right})).await.status,
        StatusCode::NOT_FOUND
    );
}

#[tokio::test]
async fn whatever_can_happen_is_logged_and_told() {
    let trial = Trial::new().await;
    trial.post("/api/1/solves", &begin(&trial).await).await;
    let happenings = [
        ("ink", "4 in r1c2"),
        ("pencil", "pencil in r1c2"),
        ("mark", "a mark on r1c2"),
        ("clue", "a clue struck or not"),
        ("undo", "took something back"),
        ("redo", "did it again"),
        ("hint", "asked for a hint"),
        ("pause", "paused"),
        ("resume", "went on"),
        ("gave-up", "gave up"),
        ("left", "left the page"),
    ];
    for (n, (what, _)) in happenings.iter().enumerate() {
        let event = json!({"id": format!("e{n}"), "after_ms": n * 1000, "what": what, "cell": 1, "value": 4});
        let answer = trial.post("/api/1/solves/0123-abcd-4567/events", &json!({"events": [event]})).await;
        assert_eq!(answer.status, StatusCode::OK, "{what}: {}", answer.text);
    }
    let page = trial.get("/solves/0123-abcd-4567").await.text;
    for (what, says) in happenings {
        assert!(page.contains(says), "{what}");
    }
}

/// The page holds what is printed, and nothing of the solution, sealed or not.
#[tokio::test]
async fn the_sheet_of_a_sealed_puzzle_can_be_solved_on_and_spoils_nothing() {
    let sealed = super::SOUND.replace("setter", "sealed = true\nsetter");
    let trial = Trial::of(&[("sound", &sealed)]).await;
    let page = trial.get("/puzzles/sound/solve").await;
    assert_eq!(page.status, StatusCode::OK);
    let data =
        page.text.split("type=\"application/json\">").nth(1).unwrap().split("</script>").next().unwrap();
    let data: Value = serde_json::from_str(data).unwrap();
    assert_eq!(data["givens"], json!([1, 0, 0, 0, 3, 0, 2, 0, 0, 0, 0, 0, 0, 0, 4, 0]));
    assert_eq!((&data["solved"], &data["practises"], &data["taught"]), (&json!(""), &json!([]), &json!([])));
    assert_eq!(trial.get("/puzzles/nothing/solve").await.status, StatusCode::NOT_FOUND);
}

/// Asked step by step and written down each time, the help fills the board, and each answer is one step.
#[tokio::test]
async fn help_goes_on_from_where_the_solver_is() {
    let trial = Trial::new().await;
    trial.post("/api/1/solves", &begin(&trial).await).await;
    let path = "/api/1/solves/0123-abcd-4567/help";
    let mut ink = [1, 0, 0, 0, 3, 0, 2, 0, 0, 0, 0, 0, 0, 0, 4, 0];
    let mut pencil: [Vec<u64>; 16] = Default::default();
    let ask = async |question: &str, ink: &[u64; 16], pencil: &[Vec<u64>; 16], cell: Option<usize>| {
        let sheet = json!({"format": 1, "ink": ink, "pencil": pencil, "marks": vec![""; 16]}).to_string();
        trial.post(path, &json!({"question": question, "cell": cell, "sheet": sheet})).await
    };
    let mut asked = 0;
    while ink.contains(&0) {
        let hint = ask("hint", &ink, &pencil, None).await.json();
        assert_eq!(hint["kind"], "hint", "{hint}");
        for it in hint["settles"]["ink"].as_array().unwrap() {
            ink[it[0].as_u64().unwrap() as usize] = it[1].as_u64().unwrap();
        }
        for it in hint["settles"]["pencil"].as_array().unwrap() {
            let digits = it[1].as_array().unwrap().iter().map(|it| it.as_u64().unwrap());
            pencil[it[0].as_u64().unwrap() as usize] = digits.collect();
        }
        asked += 1;
        assert!(asked <= 40, "the help goes round in circles");
    }
    assert_eq!(ink, [1, 2, 3, 4, 3, 4, 2, 1, 4, 3, 1, 2, 2, 1, 4, 3]);
    assert!(asked > 3, "one answer gives away more than a step");
    assert_eq!(ask("why", &ink, &pencil, Some(1)).await.json()["kind"], "why");
    ink[1] = 3;
    assert_eq!(ask("check", &ink, &pencil, None).await.json()["kind"], "mistake");
    ink[1] = 9;
    for question in ["hint", "check", "why", "pencil", "answer"] {
        let answer = ask(question, &ink, &pencil, Some(1)).await;
        assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY, "{question}: {}", answer.text);
    }
    let question = json!({"question": "hint", "cell": null, "sheet": ""});
    assert_eq!(trial.post("/api/1/solves/not-begun-yet/help", &question).await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn a_solve_is_written_for_the_pack_to_learn_from() {
    let trial = Trial::new().await;
    trial.post("/api/1/solves", &begin(&trial).await).await;
    let path = "/api/1/solves/0123-abcd-4567";
    let right = [1, 2, 3, 4, 3, 4, 2, 1, 4, 3, 1, 2, 2, 1, 4, 3];
    let givens = [0, 4, 6, 14];
    for (n, cell) in (0..16).filter(|it| !givens.contains(it)).enumerate() {
        let event = json!({"id": n.to_string(), "after_ms": (n + 1) * 9000, "what": "ink", "cell": cell, "value": right[cell]});
        trial.post(&format!("{path}/events"), &json!({"events": [event]})).await;
    }
    let ended = json!({"id": "end", "after_ms": 120_000, "what": "solved", "cell": null, "value": null});
    trial.post(&format!("{path}/events"), &json!({"events": [ended]})).await;
    for _ in 0..2 {
        let written = trial.put(&format!("{path}/file"), &Value::Null).await;
        assert_eq!(written.json(), json!({"file": "solves/sound-0123-abcd-4567.json"}), "{}", written.text);
    }
    let file = trial.text("solves/sound-0123-abcd-4567.json");
    let read = packfile::read_solve(&packfile::SourceFile::new("solves/a.json", file)).unwrap();
    assert_eq!((read.solve.entries.len(), read.solve.outcome), (12, grade::Outcome::Solved));
    let page = trial.get("/solves/0123-abcd-4567").await.text;
    assert!(page.contains("Where it stopped") && page.contains("0:09"), "{page}");
    let seen = trial.get(&format!("{path}/hindsight")).await.json();
    assert_eq!(
        (&seen["leaps"], &seen["slips"], &seen["n_unjudged"]),
        (&json!([]), &json!([]), &json!(0)),
        "{seen}"
    );
    // The file that was written tells of the same solve, which is not told twice.
    let together = trial.get("/puzzles/sound/solves").await.text;
    assert_eq!(together.matches("/solves/0123-abcd-4567").count(), 1, "{together}");
    assert!(together.contains("solved") && together.contains("1:48"), "{together}");
    assert_eq!(trial.get("/api/1/solves/not-begun-yet/hindsight").await.status, StatusCode::NOT_FOUND);
    assert_eq!(
        trial.put("/api/1/solves/not-begun-yet/file", &Value::Null).await.status,
        StatusCode::NOT_FOUND
    );
}

/// The site's rules for the board were moved to a file of their own once, and the desk's sheet was left without them.
#[tokio::test]
async fn bug_the_sheet_has_the_rules_of_its_board() {
    let trial = Trial::new().await;
    let style = trial.get("/sheet.css").await.text;
    for it in [".stand", ".sheet"] {
        assert!(style.contains(&format!("{it} {{")), "nothing is said of {it}");
    }
}

/// Each sends its events in small batches, and each batch twice, as a page does that was not told that it was taken.
#[tokio::test]
async fn fifty_testers_who_send_at_once_lose_nothing() {
    let trial = Arc::new(Trial::new().await);
    let solve = begin(&trial).await;
    let tester = async |trial: Arc<Trial>, mut begun: Value, n: usize| {
        let id = format!("solve-of-tester-{n}");
        begun["id"] = json!(id);
        assert_eq!(trial.post("/api/1/solves", &begun).await.status, StatusCode::CREATED);
        for batch in 0..6 {
            let event = |it: usize| json!({"id": format!("{batch}-{it}"), "after_ms": batch * 10 + it, "what": "ink", "cell": it, "value": 1});
            let events = json!({"events": (0..5).map(event).collect::<Vec<_>>()});
            let path = format!("/api/1/solves/{id}/events");
            assert_eq!(trial.post(&path, &events).await.json(), json!({"new": 5, "known": 0}));
            assert_eq!(trial.post(&path, &events).await.json(), json!({"new": 0, "known": 5}));
        }
        id
    };
    let mut testers = JoinSet::new();
    for n in 0..50 {
        testers.spawn(tester(Arc::clone(&trial), solve.clone(), n));
    }
    for id in testers.join_all().await {
        let whole = trial.get(&format!("/api/1/solves/{id}")).await.json();
        assert_eq!(whole["events"].as_array().unwrap().len(), 30, "{id}");
    }
}
