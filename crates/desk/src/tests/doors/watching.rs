//! What the door does while somebody is in: sessions that cannot be noted, news that go on, places that are counted.

use std::net::SocketAddr;

use axum::extract::ConnectInfo;
use axum::http::{Method, StatusCode};
use http_body_util::BodyExt;
use serde_json::{Value, json};
use sqlx::SqlitePool;
use sqlx::sqlite::SqliteConnectOptions;
use tokio::task::JoinHandle;
use tokio::time::timeout;
use tower::ServiceExt;

use super::*;

const SECOND: Duration = Duration::from_secs(1);

#[tokio::test]
async fn a_store_that_cannot_be_written_keeps_nobody_from_reading() {
    let trial = guarded().await;
    let editor = editor(&trial).await;
    later(120 * SECOND).await;
    let options = SqliteConnectOptions::new().filename(trial.path().join(".galley/desk.db"));
    let other = SqlitePool::connect_with(options).await.unwrap();
    let mut held = other.acquire().await.unwrap();
    sqlx::query("BEGIN IMMEDIATE").execute(&mut *held).await.unwrap();
    for path in ["/", "/api/1/pack"] {
        let page = editor.get(path).await;
        assert_eq!(page.status, StatusCode::OK, "{path}: {}", page.text);
    }
    // It is not tried again for a minute: whoever waited for the store once does not with each page.
    let soon = timeout(SECOND, editor.get("/puzzles/sound")).await;
    assert_eq!(soon.expect("nothing is waited for").status, StatusCode::OK);
    let refused = editor.ask(Method::PUT, "/api/1/puzzles/sound/seal", &json!({"open": true})).await;
    assert_eq!(refused.status, StatusCode::SERVICE_UNAVAILABLE, "{}", refused.text);
}

/// Listens to the news until they end.
async fn listen(browser: &Browser<'_>) -> JoinHandle<()> {
    let request = browser.request(Method::GET, "/api/1/news", "");
    let answer = browser.trial.routes.clone().oneshot(request).await.unwrap();
    assert_eq!(answer.status(), StatusCode::OK);
    tokio::spawn(async move { drop(answer.into_body().collect().await) })
}

#[tokio::test]
async fn news_end_within_a_minute_for_whoever_is_shut_out() {
    let trial = Trial::new().await;
    let mut anybodys = listen(&browser(&trial)).await;
    later(61 * SECOND).await;
    assert!(timeout(SECOND / 4, &mut anybodys).await.is_err(), "nothing has changed");
    change(&trial, add("Fern")).await.unwrap();
    change(&trial, add("Aster")).await.unwrap();
    later(61 * SECOND).await;
    timeout(5 * SECOND, anybodys).await.expect("the desk has accounts now").unwrap();

    let (signing_out, staying) = (editor(&trial).await, editor(&trial).await);
    let (mut of_one, mut of_other) = (listen(&signing_out).await, listen(&staying).await);
    signing_out.ask(Method::DELETE, "/api/1/session", &Value::Null).await;
    later(61 * SECOND).await;
    timeout(5 * SECOND, &mut of_one).await.expect("signed out").unwrap();
    assert!(timeout(SECOND / 4, &mut of_other).await.is_err(), "still in");
    // Listening is no use of a session: one that is not used ends all the same.
    later(13 * HOUR).await;
    timeout(5 * SECOND, &mut of_other).await.expect("not used for half a day").unwrap();

    let staying = editor(&trial).await;
    let mut news = listen(&staying).await;
    change(&trial, AccountChange::Remove { name: "Fern".to_owned() }).await.unwrap();
    later(61 * SECOND).await;
    timeout(5 * SECOND, &mut news).await.expect("the account is gone").unwrap();
}

/// The status of a guess at an invitation that comes from there.
async fn guess(trial: &Trial, peer: &str, forwarded: &[&str]) -> StatusCode {
    let mut request = trial.request(Method::POST, "/api/1/invited", &json!({"token": "guess"}).to_string());
    request.headers_mut().insert("host", "desk.example".parse().unwrap());
    request.headers_mut().insert("origin", "https://desk.example".parse().unwrap());
    for it in forwarded {
        request.headers_mut().append("x-forwarded-for", it.parse().unwrap());
    }
    request.extensions_mut().insert(ConnectInfo(peer.parse::<SocketAddr>().unwrap()));
    trial.send(request).await.status
}

const REFUSED: StatusCode = StatusCode::TOO_MANY_REQUESTS;

#[tokio::test]
async fn a_proxy_is_believed_in_the_last_that_it_says_and_nobody_else_in_anything() {
    let trial = public().await;
    let proxy = "127.0.0.1:50000";
    // What stands before the last may be anybody's invention.
    for it in 0..20 {
        let forwarded = [&format!("192.0.2.{it}")[..], &format!("192.0.2.{it}, 203.0.113.7")];
        assert_eq!(guess(&trial, proxy, &forwarded).await, StatusCode::NOT_FOUND, "{it}");
    }
    assert_eq!(guess(&trial, proxy, &["203.0.113.7, 192.0.2.99", "192.0.2.98,203.0.113.7"]).await, REFUSED);
    assert_eq!(guess(&trial, proxy, &["::ffff:203.0.113.7"]).await, REFUSED, "the same, written otherwise");
    assert_eq!(guess(&trial, proxy, &["203.0.113.7, 203.0.113.8"]).await, StatusCode::NOT_FOUND);
    for it in 0..20 {
        let forwarded = format!("192.0.2.{it}");
        assert_eq!(guess(&trial, "198.51.100.1:4", &[&forwarded]).await, StatusCode::NOT_FOUND, "{it}");
    }
    assert_eq!(guess(&trial, "198.51.100.1:5", &["192.0.2.200"]).await, REFUSED, "that is no proxy of ours");
}

#[tokio::test]
async fn a_network_of_ipv6_counts_as_one_place() {
    let trial = public().await;
    for it in 0..20 {
        let peer = format!("[2001:db8:1:2:{it:x}::{it:x}]:4000");
        assert_eq!(guess(&trial, &peer, &[]).await, StatusCode::NOT_FOUND, "{peer}");
    }
    assert_eq!(guess(&trial, "[2001:db8:1:2:ffff::1]:4000", &[]).await, REFUSED);
    assert_eq!(guess(&trial, "[2001:db8:1:3::1]:4000", &[]).await, StatusCode::NOT_FOUND);
    let notes = trial.desk.store.door_notes().await.unwrap();
    assert!(notes.iter().any(|it| it.address == "2001:db8:1:2:7::7"), "the whole address is noted");
}

#[tokio::test]
async fn a_password_in_the_place_of_the_name_is_not_noted() {
    let trial = guarded().await;
    for _ in 0..11 {
        let asked = json!({"name": PASSWORD, "password": ""});
        browser(&trial).post("/api/1/session", &asked).await;
    }
    let notes = trial.desk.store.door_notes().await.unwrap();
    assert_eq!(notes.iter().filter(|it| it.what == "refused-sign-in").count(), 11);
    assert!(!format!("{notes:?}").contains(PASSWORD), "{notes:?}");
}

/// Where the pack lies is told to editors alone.
#[tokio::test]
async fn nobody_else_is_told_where_the_pack_lies() {
    let trial = guarded().await;
    trial.desk.store.close().await;
    let answer = browser(&trial).get("/").await;
    assert_eq!(answer.status, StatusCode::INTERNAL_SERVER_ERROR);
    assert!(answer.text.contains(".galley/desk.db"), "{}", answer.text);
    let path = trial.path().to_string_lossy().into_owned();
    assert!(!answer.text.contains(&path), "{}", answer.text);
}
