//! Testers and setters who were invited, and what they reach.

use axum::http::{Method, StatusCode};
use serde_json::{Value, json};

use super::*;
use crate::tests::solves::{RIGHT, written};

#[tokio::test]
async fn a_tester_solves_what_was_assigned_and_reaches_nothing_else() {
    let trial = guarded().await;
    let editor = editor(&trial).await;
    let tester = invited(&editor, &to_solve("Tansy", "sound")).await;
    let other = invited(&editor, &to_solve("Sorrel", "sound")).await;
    let home = tester.get("/").await;
    assert_eq!((home.status, home.headers["location"].to_str().unwrap()), (StatusCode::SEE_OTHER, "/yours"));
    let yours = tester.get("/yours").await.text;
    assert!(
        yours.contains("Welcome, <bdi>Tansy</bdi>")
            && yours.contains("/puzzles/sound/solve")
            && !yours.contains("Other"),
        "{yours}"
    );
    assert!(yours.contains("Not begun yet"));

    // The solve is theirs, and bears their name whatever is sent.
    let begun = tester.post("/api/1/solves", &solve(&trial, "a-solve-of-mine", "sound")).await;
    assert_eq!((begun.status, begun.json()["solver"].as_str()), (StatusCode::CREATED, Some("Tansy")));
    let again = tester.post("/api/1/solves", &solve(&trial, "a-solve-of-mine", "sound")).await;
    assert_eq!(again.status, StatusCode::CREATED, "told twice, it is the same");
    let own = "/api/1/solves/a-solve-of-mine";
    let event = |id: &str, value: u8| json!({"events": [{"id": id, "after_ms": 5, "what": "ink", "cell": 1, "value": value}]});
    let events = format!("{own}/events");
    assert_eq!(tester.post(&events, &event("e", 2)).await.json(), json!({"new": 1, "known": 0}));
    assert_eq!(tester.post(&events, &event("e", 2)).await.json(), json!({"new": 0, "known": 1}));
    assert_eq!(tester.post(&events, &event("e", 3)).await.status, StatusCode::CONFLICT);
    assert_eq!(tester.get(own).await.json()["events"][0]["value"], 2);
    assert!(tester.get("/yours").await.text.contains("Begun."));
    assert!(tester.get("/puzzles/sound/solve").await.text.contains("data-solve=\"a-solve-of-mine\""));

    // Another tester of the same puzzle does not come near it, nor does it near the editor's.
    for it in [own, &events, &format!("{own}/judged"), &format!("{own}/help")] {
        let method = if it == own { Method::GET } else { Method::POST };
        let answer = other.ask(method, it, &event("f", 2)).await;
        assert_eq!(answer.status, StatusCode::NOT_FOUND, "{it}: {}", answer.text);
    }
    let taken = other.post("/api/1/solves", &solve(&trial, "a-solve-of-mine", "sound")).await;
    assert_eq!(taken.status, StatusCode::CONFLICT);
    assert!(other.get("/puzzles/sound/solve").await.text.contains("data-solve=\"\""));
    let editors = editor.post("/api/1/solves", &solve(&trial, "a-solve-of-editors", "sound")).await;
    assert_eq!(editors.status, StatusCode::CREATED);
    assert_eq!(tester.get("/api/1/solves/a-solve-of-editors").await.status, StatusCode::NOT_FOUND);
    let mut same = solve(&trial, "a-solve-of-editors", "sound");
    same["solver"] = json!("Tansy");
    assert_eq!(tester.post("/api/1/solves", &same).await.status, StatusCode::CONFLICT);

    // What was not assigned is not there.
    assert_eq!(tester.get("/puzzles/other/solve").await.status, StatusCode::NOT_FOUND);
    let unassigned = tester.post("/api/1/solves", &solve(&trial, "another-solve", "other")).await;
    assert_eq!(unassigned.status, StatusCode::NOT_FOUND);
    let theirs = [
        "/",
        "/yours",
        "/puzzles/sound/solve",
        own,
        &events,
        &format!("{own}/judged"),
        &format!("{own}/help"),
        "/api/1/solves",
    ];
    for (method, path) in routes().await {
        if theirs.contains(&&path[..]) && !(method == "GET" && path == "/api/1/solves") {
            continue;
        }
        let answer = tester.ask(method.parse().unwrap(), &path, &Value::Null).await;
        assert_eq!(answer.status, StatusCode::NOT_FOUND, "{method} {path}");
    }
    for path in [
        "/puzzles/../solves",
        "/puzzles/%73ound/solve",
        "/puzzles/sound%2F..%2Fother/solve",
        "/puzzles/sound/solve/",
        "//puzzles/other/solve",
        "/api/1/solves/..%2Fa-solve-of-editors",
        "/api/1/solves/%61-solve-of-mine",
    ] {
        assert_eq!(tester.get(path).await.status, StatusCode::NOT_FOUND, "{path}");
    }
    // The editor sees both.
    assert_eq!(editor.get("/api/1/solves").await.json().as_array().unwrap().len(), 2);
    assert!(editor.get("/solves").await.text.contains("Tansy"));
}

/// Every answer that a tester can have before, during and after a solve, searched for what is not on the board.
#[tokio::test]
async fn no_answer_to_a_tester_holds_the_solution_or_anything_found_out() {
    let trial = guarded().await;
    let editor = editor(&trial).await;
    let tester = invited(&editor, &to_solve("Tansy", "sound")).await;
    let (_, pack) = trial.desk.studied().await.unwrap();
    let study = pack.all().find(|it| it.entry().id.as_str() == "sound").unwrap();
    let account = study.opened().unwrap().account.unwrap();
    let solution = study.opened().unwrap().solution.unwrap();
    let size = study.entry().puzzle.size();
    let digits: Vec<u8> = size.cells().map(|it| solution.get(it).unwrap().get()).collect();
    let shown = |between: &str| digits.iter().map(u8::to_string).collect::<Vec<_>>().join(between);
    let mut told = vec![shown(""), shown(","), shown(", "), shown(" ")];
    told.extend(account.techniques().iter().map(|it| tell::technique_name(*it).to_owned()));
    told.extend(
        ["minutes", "Walkthrough", "walkthrough", "Verdict", "verdict\":", "one solution", "Ways in"]
            .map(str::to_owned),
    );

    tester.post("/api/1/solves", &solve(&trial, "a-solve-of-mine", "sound")).await;
    let mut answers = Vec::new();
    let own = "/api/1/solves/a-solve-of-mine";
    let routes = routes().await;
    for round in 0..3 {
        for (method, path) in &routes {
            if path == "/api/1/news" {
                continue;
            }
            answers.push((path.clone(), tester.ask(method.parse().unwrap(), path, &Value::Null).await));
        }
        let board: [u8; 16] = if round == 0 { [1; 16] } else { digits[..].try_into().unwrap() };
        let full = json!({"digits": board});
        for (name, body) in [("events", &written(&board)), ("judged", &full)] {
            answers.push((name.to_owned(), tester.post(&format!("{own}/{name}"), body).await));
        }
        // What is told where to look, before what is there and why is asked for.
        let mut ink: Vec<u8> =
            size.cells().map(|it| study.entry().puzzle.givens().get(it).map_or(0, |it| it.get())).collect();
        if round == 1 {
            ink[1] = 3;
        }
        let sheet = json!({"format": 1, "ink": ink, "pencil": vec![json!([]); 16], "marks": vec![""; 16]});
        for question in ["hint", "check"] {
            let asked = json!({"question": question, "part": "where", "cell": null, "sheet": sheet.to_string(), "after_ms": 5});
            let answer = tester.post(&format!("{own}/help"), &asked).await;
            let kind = answer.json()["kind"].as_str().unwrap().to_owned();
            assert_eq!(
                kind,
                if round == 1 {
                    "mistake"
                } else if question == "hint" {
                    "hint"
                } else {
                    "fits"
                }
            );
            answers.push((question.to_owned(), answer));
        }
    }
    assert!(answers.iter().any(|it| it.1.text.contains("\"is_solved\":true")), "the solve was really right");
    for (path, answer) in answers {
        let headers = format!("{:?}", answer.headers);
        for it in &told {
            assert!(!answer.text.contains(&it[..]) && !headers.contains(&it[..]), "{path} tells {it}");
        }
    }
    // Without a page, help leaves the same trace.
    let events = editor.get(own).await.json()["events"].clone();
    let n = |what: &str| events.as_array().unwrap().iter().filter(|it| it["what"] == what).count();
    assert_eq!((n("hint"), n("check"), n("solved")), (4, 2, 1), "{events}");
    // The words that are looked for are those that would be there.
    let editors = editor.get("/puzzles/sound").await.text;
    let n_found = told.iter().filter(|it| editors.contains(&it[..])).count();
    assert!(n_found >= 4, "{n_found} of {told:?}");
}

/// The invitation may bear the very name of the pack's editor.
#[tokio::test]
async fn no_tester_opens_a_seal_under_whatever_name() {
    let trial = guarded().await;
    let text = trial.text("puzzles/sound.toml").replace("title =", "sealed = true\ntitle =");
    std::fs::write(trial.path().join("puzzles/sound.toml"), text).unwrap();
    trial.desk.look_again().await;
    let editor = editor(&trial).await;
    let tester = invited(&editor, &to_solve("A. B.", "sound")).await;
    let opens = async |who: &Browser<'_>, id: &str| {
        let mut begun = solve(&trial, id, "sound");
        begun["solver"] = json!("A. B.");
        who.post("/api/1/solves", &begun).await;
        who.post(&format!("/api/1/solves/{id}/events"), &written(&RIGHT)).await;
        let judged = who.post(&format!("/api/1/solves/{id}/judged"), &json!({"digits": RIGHT})).await;
        assert_eq!(judged.json(), json!({"is_solved": true}));
        let answer = editor.get("/api/1/puzzles/sound").await.json();
        answer["is_sealed"] == false
    };
    assert!(!opens(&tester, "a-solve-of-theirs").await);
    assert_eq!(editor.get("/api/1/solves/a-solve-of-theirs").await.json()["is_kept_back"], true);
    assert_eq!(tester.get("/api/1/solves/a-solve-of-theirs").await.json()["is_kept_back"], false);
    assert!(opens(&editor, "a-solve-of-editors").await);
}

#[tokio::test]
async fn an_invitation_that_is_over_revoked_or_guessed_lets_nobody_in() {
    let trial = guarded().await;
    let editor = editor(&trial).await;
    let (id, token) = invitation(&editor, &to_solve("Tansy", "sound")).await;
    let follow = async |token: &str| {
        let mut browser = browser(&trial);
        let status = browser.come_in("/api/1/invited", &json!({"token": token})).await.status;
        (status, browser)
    };
    let (status, tester) = follow(&token).await;
    assert_eq!(status, StatusCode::OK);
    let (status, elsewhere) = follow(&token).await;
    assert_eq!(status, StatusCode::OK, "from another browser too");
    assert_eq!(elsewhere.get("/yours").await.status, StatusCode::OK);
    for wrong in ["", "x", &id, &token[1..], &"0".repeat(64), &crate::doors::hash_of(&token)] {
        assert_eq!(follow(wrong).await.0, StatusCode::NOT_FOUND, "{wrong}");
    }
    let revoked = editor.ask(Method::DELETE, &format!("/api/1/invitations/{id}"), &Value::Null).await;
    assert_eq!(revoked.status, StatusCode::NO_CONTENT);
    for it in [&tester, &elsewhere] {
        assert_eq!(it.get("/yours").await.status, StatusCode::UNAUTHORIZED);
        let begun = it.post("/api/1/solves", &solve(&trial, "a-solve-of-mine", "sound")).await;
        assert_eq!(begun.status, StatusCode::UNAUTHORIZED);
    }
    assert_eq!(follow(&token).await.0, StatusCode::NOT_FOUND);
    let none = editor.ask(Method::DELETE, "/api/1/invitations/none-such", &Value::Null).await;
    assert_eq!(none.status, StatusCode::NOT_FOUND);

    let (_, token) = invitation(&editor, &to_solve("Sorrel", "sound")).await;
    let (_, tester) = follow(&token).await;
    later(71 * HOUR).await;
    assert_eq!(tester.get("/yours").await.status, StatusCode::OK);
    later(2 * HOUR).await;
    assert_eq!(tester.get("/yours").await.status, StatusCode::UNAUTHORIZED, "its three days are over");
    assert_eq!(follow(&token).await.0, StatusCode::NOT_FOUND);

    let mut n_tried = 0;
    let refused = loop {
        n_tried += 1;
        let answer =
            browser(&trial).post("/api/1/invited", &json!({"token": format!("{n_tried:064}")})).await;
        if answer.status != StatusCode::NOT_FOUND {
            break answer;
        }
        assert!(n_tried < 30, "somebody can go on guessing");
    };
    assert_eq!(refused.status, StatusCode::TOO_MANY_REQUESTS);
    assert!(refused.headers.contains_key("retry-after"));
}

#[tokio::test]
async fn a_setter_reads_about_their_own_puzzles_and_no_others() {
    let trial = guarded().await;
    let text = trial.text("puzzles/sound.toml").replace("title =", "note = \"too plain for us\"\ntitle =");
    std::fs::write(trial.path().join("puzzles/sound.toml"), text).unwrap();
    trial.look_again().await;
    let editor = editor(&trial).await;
    let setter = invited(&editor, &json!({"role": "setter", "person": "Fern", "days": 3})).await;
    let yours = setter.get("/yours").await.text;
    assert!(
        yours.contains("<h2><bdi>Sound</bdi></h2>")
            && yours.contains("Exactly one solution")
            && yours.contains("Expected minutes"),
        "{yours}"
    );
    assert!(!yours.contains("Other") && !yours.contains("Yew") && !yours.contains("too plain"), "{yours}");
    for (method, path) in routes().await {
        if ["/", "/yours"].contains(&&path[..]) {
            continue;
        }
        let answer = setter.ask(method.parse().unwrap(), &path, &Value::Null).await;
        assert_eq!(answer.status, StatusCode::NOT_FOUND, "{method} {path}");
    }
    // Of a sealed puzzle no more than of any sealed one.
    let text = trial.text("puzzles/sound.toml").replace("title =", "sealed = true\ntitle =");
    std::fs::write(trial.path().join("puzzles/sound.toml"), text).unwrap();
    trial.look_again().await;
    let yours = setter.get("/yours").await.text;
    assert!(yours.contains("unspoilt") && !yours.contains("What it needs"), "{yours}");
}
