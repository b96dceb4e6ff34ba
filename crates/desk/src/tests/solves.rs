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

pub(super) const RIGHT: [u8; 16] = [1, 2, 3, 4, 3, 4, 2, 1, 4, 3, 1, 2, 2, 1, 4, 3];

/// The events by which the cells that are not printed get these digits, one every nine seconds.
pub(super) fn written(digits: &[u8; 16]) -> Value {
    let open = (0..16).filter(|it| ![0, 4, 6, 14].contains(it)).enumerate();
    let event = |(n, cell): (usize, usize)| {
        let id = format!("{n}-{}", digits[cell]);
        json!({"id": id, "after_ms": (n + 1) * 9000, "what": "ink", "cell": cell, "value": digits[cell]})
    };
    json!({"events": open.map(event).collect::<Vec<_>>()})
}

#[tokio::test]
async fn a_solve_is_logged_whatever_is_sent_twice() {
    let trial = Trial::new().await;
    let solve = begin(&trial).await;
    for _ in 0..2 {
        assert_eq!(trial.post("/api/1/solves", &solve).await.status, StatusCode::CREATED);
    }
    let events = json!({"events": [
        {"id": "b", "after_ms": 2000, "what": "undo", "cell": null, "value": null},
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
        ("what", json!("solved")),
        ("what", json!("hint")),
        ("what", json!("check")),
        ("id", json!("desk:solved")),
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
    let (right, events) = (RIGHT, "/api/1/solves/0123-abcd-4567/events");
    // What was not told is no solve: a board may be known from elsewhere.
    let untold = trial.post(path, &json!({"digits": right})).await;
    assert_eq!(untold.status, StatusCode::CONFLICT);
    assert!(untold.text.contains("told to the desk: r1c2, r1c3, r1c4, r2c2 and r2c4"), "{}", untold.text);
    let mut wrong = right;
    wrong.swap(1, 2);
    trial.post(events, &written(&wrong)).await;
    assert_eq!(trial.post(path, &json!({"digits": wrong})).await.json(), json!({"is_solved": false}));
    let is_ended = async || {
        let whole = trial.get("/api/1/solves/0123-abcd-4567").await.json();
        let solved = whole["events"].as_array().unwrap().iter().filter(|it| it["what"] == "solved");
        solved.map(|it| it["after_ms"].as_u64().unwrap()).collect::<Vec<_>>()
    };
    assert!(is_ended().await.is_empty());
    trial.post(events, &written(&right)).await;
    let late = json!({"events": [{"id": "away", "after_ms": 600_000, "what": "pause", "cell": null, "value": null}]});
    trial.post(events, &late).await;
    for _ in 0..2 {
        assert_eq!(trial.post(path, &json!({"digits": right})).await.json(), json!({"is_solved": true}));
        assert_eq!(is_ended().await, [108_000], "when the last digit was written, and once");
    }
    assert!(trial.get("/solves/0123-abcd-4567").await.text.contains("1:48, solved"));
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
    let ask =
        async |question: &str, part: &str, ink: &[u64; 16], pencil: &[Vec<u64>; 16], cell: Option<usize>| {
            let sheet = json!({"format": 1, "ink": ink, "pencil": pencil, "marks": vec![""; 16]}).to_string();
            let asked =
                json!({"question": question, "part": part, "cell": cell, "sheet": sheet, "after_ms": 1000});
            trial.post(path, &asked).await
        };
    let mut asked = 0;
    while ink.contains(&0) {
        // Each part says what it is asked for, and nothing of the next.
        for (part, keys) in
            [("where", &["kind", "where"][..]), ("what", &["kind", "taught", "what"]), ("why", &[])]
        {
            let hint = ask("hint", part, &ink, &pencil, None).await.json();
            assert_eq!(hint["kind"], "hint", "{hint}");
            let of_part: Vec<&String> = hint.as_object().unwrap().keys().collect();
            assert!(part == "why" || of_part == keys, "{part}: {hint}");
        }
        let hint = ask("hint", "why", &ink, &pencil, None).await.json();
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
    assert_eq!(ink, RIGHT.map(u64::from));
    assert!(asked > 3, "one answer gives away more than a step");
    assert_eq!(ask("why", "where", &ink, &pencil, Some(1)).await.json()["kind"], "why");
    assert_eq!(ask("check", "where", &ink, &pencil, None).await.json()["kind"], "done");
    ink[1] = 3;
    let wrong = ask("check", "where", &ink, &pencil, None).await.json();
    assert!(wrong["kind"] == "mistake" && wrong["near"].is_object() && wrong["which"].is_null(), "{wrong}");
    assert!(ask("check", "what", &ink, &pencil, None).await.json()["which"].is_object());
    assert!(ask("pencil", "where", &ink, &pencil, None).await.json()["pencil"].is_array());

    // Every answer left its trace, in the order in which they were asked for.
    let whole = trial.get("/api/1/solves/0123-abcd-4567").await.json();
    let told: Vec<(&str, Option<i64>)> = (whole["events"].as_array().unwrap().iter())
        .map(|it| (it["what"].as_str().unwrap(), it["value"].as_i64()))
        .collect();
    let of_hint = [1, 2, 3, 3].map(|it| ("hint", Some(it)));
    let mut expected = of_hint.repeat(asked);
    expected.extend([("hint", Some(4)), ("check", None), ("hint", Some(1)), ("hint", Some(2))]);
    assert_eq!(told, expected);

    ink[1] = 9;
    for question in ["hint", "check", "why", "pencil", "answer"] {
        let answer = ask(question, "where", &ink, &pencil, Some(1)).await;
        assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY, "{question}: {}", answer.text);
    }
    let question = json!({"question": "hint", "cell": null, "sheet": "", "after_ms": 0});
    assert_eq!(trial.post("/api/1/solves/not-begun-yet/help", &question).await.status, StatusCode::NOT_FOUND);
    let never = json!({"question": "pencil", "cell": null, "sheet": "", "after_ms": -1});
    assert_eq!(trial.post(path, &never).await.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(
        trial.get("/api/1/solves/0123-abcd-4567").await.json(),
        whole,
        "what was refused told nothing"
    );
}

/// The board that was begun on is not judged by what the puzzle has become, nor helped with it, nor written down as one of it.
#[tokio::test]
async fn a_puzzle_that_has_changed_since_says_so() {
    let trial = Trial::of(&[("sound", super::SOUND)]).await;
    trial.post("/api/1/solves", &begin(&trial).await).await;
    let path = "/api/1/solves/0123-abcd-4567";
    trial.post(&format!("{path}/events"), &written(&RIGHT)).await;
    std::fs::write(trial.path().join("puzzles/sound.toml"), super::SOUND.replace("1 . | . .", "1 2 | . ."))
        .unwrap();
    trial.desk.look_again().await;
    let sheet =
        json!({"format": 1, "ink": RIGHT, "pencil": vec![json!([]); 16], "marks": vec![""; 16]}).to_string();
    let help = json!({"question": "check", "cell": null, "sheet": sheet, "after_ms": 0});
    for answer in [
        trial.post(&format!("{path}/judged"), &json!({"digits": RIGHT})).await,
        trial.post(&format!("{path}/help"), &help).await,
        trial.put(&format!("{path}/file"), &Value::Null).await,
    ] {
        assert_eq!(answer.status, StatusCode::CONFLICT, "{}", answer.text);
        assert!(answer.text.contains("the puzzle has changed since this test solve was begun"));
    }
    assert!(!trial.path().join("solves").exists());
    let review = trial.get("/solves/0123-abcd-4567").await.text;
    assert!(review.contains("The puzzle has changed since") && !review.contains("id=\"write\""), "{review}");
}

/// The review of a tester's whole solve would tell an editor who still wants to solve it the whole board.
#[tokio::test]
async fn what_testers_write_into_a_sealed_puzzle_is_kept_back_from_the_editor() {
    let sealed = super::SOUND.replace("setter", "sealed = true\nsetter");
    let trial = Trial::of(&[("sound", &sealed)]).await;
    let solve = begin(&trial).await;
    let mut own = solve.clone();
    (own["id"], own["solver"]) = (json!("solve-of-editor"), json!("A. B."));
    for it in [&solve, &own] {
        trial.post("/api/1/solves", it).await;
        let path = format!("/api/1/solves/{}", it["id"].as_str().unwrap());
        trial.post(&format!("{path}/events"), &written(&RIGHT)).await;
        for what in ["pencil", "mark"] {
            let noted = json!({"events": [{"id": what, "after_ms": 1, "what": what, "cell": 3, "value": 1}]});
            trial.post(&format!("{path}/events"), &noted).await;
        }
    }
    let path = "/api/1/solves/0123-abcd-4567";
    assert_eq!(
        trial.post(&format!("{path}/judged"), &json!({"digits": RIGHT})).await.json()["is_solved"],
        true
    );
    let whole = trial.get(path).await.json();
    let events = whole["events"].as_array().unwrap();
    assert!(whole["is_kept_back"] == true && events.len() == 15, "{whole}");
    assert!(events.iter().all(|it| it["cell"].is_null() && it["value"].is_null()), "{whole}");
    let page = trial.get("/solves/0123-abcd-4567").await.text;
    assert!(page.contains("The puzzle is sealed") && page.contains("1:48, solved"), "{page}");
    assert!(
        page.contains("<dt>Digits written</dt><dd>12</dd>") && page.contains("<td>a digit</td>"),
        "{page}"
    );
    assert!(!page.contains(" in r1c") && !page.contains("on r1c4") && !page.contains("<svg"), "{page}");
    let whole = trial.get("/api/1/solves/solve-of-editor").await.json();
    assert!(whole["is_kept_back"] == false && whole["events"][2]["value"] == 2, "{whole}");
    assert!(trial.get("/solves/solve-of-editor").await.text.contains("2 in r1c2"));
    // Nor while its file is no puzzle for a moment.
    std::fs::write(trial.path().join("puzzles/sound.toml"), "title = 3\n").unwrap();
    trial.desk.look_again().await;
    assert_eq!(trial.get(path).await.json()["is_kept_back"], true);
    std::fs::write(trial.path().join("puzzles/sound.toml"), sealed).unwrap();
    trial.desk.look_again().await;
    trial.put("/api/1/puzzles/sound/seal", &json!({"open": true})).await;
    assert!(trial.get("/solves/0123-abcd-4567").await.text.contains("2 in r1c2"));
}

#[tokio::test]
async fn a_solve_is_written_for_the_pack_to_learn_from() {
    let trial = Trial::new().await;
    trial.post("/api/1/solves", &begin(&trial).await).await;
    let path = "/api/1/solves/0123-abcd-4567";
    trial.post(&format!("{path}/events"), &written(&RIGHT)).await;
    trial.post(&format!("{path}/judged"), &json!({"digits": RIGHT})).await;
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
