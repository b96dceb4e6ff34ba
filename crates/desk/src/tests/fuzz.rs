//! Whatever bytes come in, the desk answers, says no where it has to, and writes nothing that nobody meant.

use std::fs;

use axum::body::Body;
use axum::http::{Method, Request, StatusCode};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use serde_json::{Value, json};

use super::{PORT, Trial};

/// Any JSON, mostly of keys that the interface knows.
fn some_json() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        (-3i64..20).prop_map(Value::from),
        "[ -~é\u{0}\u{202e}<>]{0,24}".prop_map(Value::from),
        Just(json!("sound")),
    ];
    let key = prop_oneof![
        prop::sample::select(vec![
            "cell",
            "says",
            "digit",
            "claim",
            "after",
            "within",
            "digits",
            "givens",
            "clues",
            "board",
            "began_from",
            "order",
            "events",
            "id",
            "title",
            "setter",
            "side",
            "sheet",
            "question",
            "text",
            "name",
            "password",
        ])
        .prop_map(str::to_owned),
        "[a-z_]{1,8}",
    ];
    leaf.prop_recursive(3, 24, 6, move |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..6).prop_map(Value::from),
            prop::collection::btree_map(key.clone(), inner, 0..6)
                .prop_map(|it| Value::Object(it.into_iter().collect())),
        ]
    })
}

/// A body: JSON, or something else.
fn some_body() -> impl Strategy<Value = Vec<u8>> {
    prop_oneof![
        3 => some_json().prop_map(|it| it.to_string().into_bytes()),
        1 => prop::collection::vec(any::<u8>(), 0..200),
    ]
}

/// What stands for `{id}` and its like.
fn some_part() -> impl Strategy<Value = String> {
    prop_oneof![
        Just("sound".to_owned()),
        Just("1".to_owned()),
        Just("naked-pair".to_owned()),
        "[a-zA-Z0-9._~%-]{1,20}",
        Just("..%2f..%2fpack.toml".to_owned()),
    ]
}

/// All files of the pack but the desk's own, with what is in them.
fn files(trial: &Trial) -> Vec<(String, Vec<u8>)> {
    let mut found = Vec::new();
    for folder in ["", "puzzles", "solves"] {
        let Ok(entries) = fs::read_dir(trial.path().join(folder)) else { continue };
        for entry in entries.map(Result::unwrap).filter(|it| it.path().is_file()) {
            found.push((entry.path().display().to_string(), fs::read(entry.path()).unwrap()));
        }
    }
    found.sort();
    found
}

#[test]
fn no_bytes_bring_the_desk_down_or_change_a_file() {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    let trial = runtime.block_on(Trial::new());
    let described = runtime.block_on(trial.get("/api/1/openapi.json")).json();
    let paths = described["paths"].as_object().unwrap();
    let of =
        |path: &str| paths[path].as_object().unwrap().keys().map(|it| it.to_uppercase()).collect::<Vec<_>>();
    let routes: Vec<(String, String)> =
        paths.keys().flat_map(|path| of(path).into_iter().map(|it| (it, path.clone()))).collect();
    assert!(routes.len() > 40, "the description names every route");
    // What a page listens to has no end.
    let routes: Vec<_> = routes.into_iter().filter(|it| it.1 != "/api/1/news").collect();
    let before = files(&trial);
    let asked = (prop::sample::select(routes), some_part(), some_body(), "[ -~]{0,60}");
    let mut runner = TestRunner::new(Config { cases: 400, failure_persistence: None, ..Config::default() });
    let answered = runner.run(&asked, |((method, path), part, body, cookie)| {
        let mut uri = String::new();
        for (at, it) in path.split('/').enumerate() {
            uri += if at == 0 { "" } else { "/" };
            uri += if it.starts_with('{') { &part } else { it };
        }
        let request = Request::builder()
            .method(method.parse::<Method>().unwrap())
            .uri(&uri)
            .header("host", format!("127.0.0.1:{PORT}"))
            .header("x-desk-token", trial.desk.token.to_string())
            .header("content-type", "application/json")
            .header("cookie", cookie)
            .header("x-forwarded-for", part)
            .body(Body::from(body));
        let Ok(request) = request else { return Ok(()) };
        let answer = runtime.block_on(trial.send_bytes(request));
        // This desk was started without a press.
        let is_known = answer == StatusCode::NOT_IMPLEMENTED && uri == "/api/1/press";
        prop_assert!(!answer.is_server_error() || is_known, "{} {}: {}", method, uri, answer);
        Ok(())
    });
    answered.unwrap();
    assert_eq!(files(&trial), before);
}
