//! Why is that so, and is it so already?

use axum::http::StatusCode;
use serde_json::{Value, json};

use super::{SOUND, Trial};

/// A cell with nothing printed in it, r1c2.
const ASKED: usize = 1;

async fn asked(trial: &Trial, how: &str, body: Value) -> (StatusCode, Value) {
    let it = trial.post(&format!("/api/1/puzzles/sound/{how}"), &body).await;
    (it.status, it.json())
}

#[tokio::test]
async fn a_reason_goes_back_to_what_is_printed() {
    let trial = Trial::new().await;
    let (status, it) = asked(&trial, "why", json!({"cell": ASKED, "says": "is", "digit": null})).await;
    assert_eq!(status, StatusCode::OK, "{it}");
    assert!(it["says"].as_str().unwrap().starts_with("r1c2 is "), "{it}");
    let steps = it["steps"].as_array().unwrap();
    assert!(!steps.is_empty() && steps.iter().all(|it| it["says"].as_str().is_some_and(|it| !it.is_empty())));
    let holds = it["says"].as_str().unwrap().as_bytes()["r1c2 is ".len()] - b'0';
    let not = if holds == 1 { 2 } else { 1 };
    let (status, it) = asked(&trial, "why", json!({"cell": ASKED, "says": "is-not", "digit": not})).await;
    assert_eq!((status, &it["answer"]), (StatusCode::OK, &json!("reason")), "{it}");
    let (status, it) = asked(&trial, "why", json!({"cell": ASKED, "says": "is", "digit": not})).await;
    assert_eq!((status, &it["message"]), (StatusCode::UNPROCESSABLE_ENTITY, &json!("that is not so")));
}

#[tokio::test]
async fn a_claim_is_judged_from_a_step_of_the_walkthrough() {
    let trial = Trial::new().await;
    let why = asked(&trial, "why", json!({"cell": 15, "says": "is", "digit": null})).await.1;
    let holds = u32::from(why["says"].as_str().unwrap().as_bytes()["r4c4 is ".len()] - b'0');
    let claim = |digit: u32| json!({"cell": 15, "says": "is", "digit": digit});
    let judge = async |digit, after: Value, within: Value| {
        let body = json!({"claim": claim(digit), "after": after, "within": within});
        asked(&trial, "judge", body).await
    };
    let (status, it) = judge(holds, Value::Null, json!(40)).await;
    assert_eq!((status, &it["answer"]), (StatusCode::OK, &json!("follows")), "{it}");
    let n_steps = it["steps"].as_array().unwrap().len();
    assert!(n_steps > 1, "{it}");
    let (_, it) = judge(holds, Value::Null, json!(n_steps - 1)).await;
    assert_eq!((&it["answer"], &it["steps"]), (&json!("not-yet"), &json!([])), "{it}");
    // After the last step but one everything else stands on the board.
    let steps = trial.get("/puzzles/sound").await.text.matches("data-step=").count();
    let (status, it) = judge(holds, json!(steps), json!(1)).await;
    assert_eq!((status, &it["answer"]), (StatusCode::OK, &json!("follows")), "{it}");
    let (_, it) = judge(holds % 4 + 1, Value::Null, Value::Null).await;
    assert_eq!(it["answer"], "untrue", "{it}");
    assert!(it["says"].as_str().unwrap().contains(&format!("r4c4 is {holds}")), "{it}");
    assert!(it["counterexample"][1].as_str().unwrap().starts_with("<svg"), "{it}");
}

#[tokio::test]
async fn what_cannot_be_asked_is_said() {
    let trial = Trial::new().await;
    for body in [
        json!({"cell": 16, "says": "is", "digit": 1}),
        json!({"cell": 0, "says": "is", "digit": 5}),
        json!({"cell": 0, "says": "is", "digit": 0}),
        json!({"cell": 0, "says": "is-not", "digit": null}),
        json!({"cell": 0, "says": "nice", "digit": null}),
        json!({"cell": 0}),
    ] {
        let (status, it) = asked(&trial, "why", body.clone()).await;
        assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY, "{body}: {it}");
        let body = json!({"claim": body, "after": null, "within": null});
        assert_eq!(asked(&trial, "judge", body).await.0, StatusCode::UNPROCESSABLE_ENTITY);
    }
    let beyond = json!({"claim": {"cell": 0, "says": "is", "digit": 1}, "after": 400, "within": null});
    let (status, it) = asked(&trial, "judge", beyond).await;
    assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY, "{it}");
    let what = json!({"cell": 0, "says": "is", "digit": null});
    for (id, status) in [("none", StatusCode::UNPROCESSABLE_ENTITY), ("no-such", StatusCode::NOT_FOUND)] {
        assert_eq!(trial.post(&format!("/api/1/puzzles/{id}/why"), &what).await.status, status, "{id}");
    }
}

#[tokio::test]
async fn nothing_of_a_sealed_puzzle_is_answered() {
    let sealed = SOUND.replace("setter", "sealed = true\nsetter");
    let trial = Trial::of(&[("sound", &sealed)]).await;
    let claim = json!({"cell": 1, "says": "is", "digit": 2});
    assert_eq!(asked(&trial, "why", claim.clone()).await.0, StatusCode::FORBIDDEN);
    let judged = json!({"claim": claim, "after": null, "within": null});
    assert_eq!(asked(&trial, "judge", judged).await.0, StatusCode::FORBIDDEN);
}
