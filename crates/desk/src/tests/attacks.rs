//! What other sites, and people with bad intentions, would send.

use axum::body::Body;
use axum::http::{Method, Request, StatusCode};
use serde_json::json;

use super::Trial;

/// The request of a page with one header another, or without it.
fn altered(mut request: Request<Body>, header: &'static str, to: Option<&str>) -> Request<Body> {
    request.headers_mut().remove(header);
    if let Some(to) = to {
        request.headers_mut().insert(header, to.parse().unwrap());
    }
    request
}

#[tokio::test]
async fn a_write_takes_the_token_of_a_page_and_comes_from_one() {
    let trial = Trial::new().await;
    let before = ["pack.toml", "puzzles/sound.toml"].map(|it| trial.text(it));
    for it in trial.described().await.iter().filter(|it| it.is_write()) {
        let path = it.address();
        let request = || trial.request(it.method.clone(), &path, "{}");
        let wrong = "0".repeat(32);
        for (header, to) in [
            ("x-desk-token", None),
            ("x-desk-token", Some(&wrong[..])),
            ("origin", Some("http://evil.example")),
            ("origin", Some("null")),
            ("origin", Some("http://127.0.0.1:4001")),
            ("origin", Some("https://127.0.0.1:4000")),
            ("sec-fetch-site", Some("cross-site")),
            ("sec-fetch-site", Some("same-site")),
        ] {
            let answer = trial.send(altered(request(), header, to)).await;
            assert_eq!(answer.status, StatusCode::FORBIDDEN, "{path} with {header} {to:?}: {}", answer.text);
        }
        // A link followed from elsewhere is no write.
        let followed = altered(
            altered(request(), "sec-fetch-site", Some("cross-site")),
            "sec-fetch-mode",
            Some("navigate"),
        );
        assert_eq!(trial.send(followed).await.status, StatusCode::FORBIDDEN, "{path}");
    }
    assert_eq!(before, ["pack.toml", "puzzles/sound.toml"].map(|it| trial.text(it)));
    assert!(trial.get("/api/1/solves").await.json().as_array().unwrap().is_empty());
}

#[tokio::test]
async fn only_the_desks_own_address_is_answered() {
    let trial = Trial::new().await;
    for host in [
        "evil.example",
        "evil.example:4000",
        "127.0.0.1",
        "127.0.0.1:4001",
        "localhost.evil.example:4000",
        "",
    ] {
        for path in ["/", "/api/1/pack", "/desk.css"] {
            let answer = trial.send(altered(trial.request(Method::GET, path, ""), "host", Some(host))).await;
            assert_eq!(answer.status, StatusCode::MISDIRECTED_REQUEST, "{path} at {host:?}");
            assert!(!answer.text.contains("Sound"));
        }
    }
    assert_eq!(
        trial.send(altered(trial.request(Method::GET, "/", ""), "host", None)).await.status,
        StatusCode::MISDIRECTED_REQUEST
    );
    let mut two = trial.request(Method::GET, "/", "");
    two.headers_mut().append("host", "evil.example".parse().unwrap());
    assert_eq!(trial.send(two).await.status, StatusCode::MISDIRECTED_REQUEST);
    for host in ["127.0.0.1:4000", "localhost:4000", "LOCALHOST:4000", "[::1]:4000"] {
        let request = altered(
            altered(trial.request(Method::GET, "/api/1/pack", ""), "origin", None),
            "host",
            Some(host),
        );
        assert_eq!(trial.send(request).await.status, StatusCode::OK, "{host}");
    }
}

#[tokio::test]
async fn another_site_reads_nothing_but_may_link_to_a_page() {
    let trial = Trial::new().await;
    for path in ["/api/1/pack", "/api/1/news", "/play/api.js"] {
        for mode in ["no-cors", "cors", "websocket"] {
            let request = altered(
                altered(trial.request(Method::GET, path, ""), "origin", None),
                "sec-fetch-site",
                Some("cross-site"),
            );
            let answer = trial.send(altered(request, "sec-fetch-mode", Some(mode))).await;
            assert_eq!(answer.status, StatusCode::FORBIDDEN, "{path} {mode}");
        }
    }
    let link = altered(
        altered(trial.request(Method::GET, "/", ""), "origin", None),
        "sec-fetch-site",
        Some("cross-site"),
    );
    assert_eq!(trial.send(altered(link, "sec-fetch-mode", Some("navigate"))).await.status, StatusCode::OK);
}

#[tokio::test]
async fn every_answer_tells_the_browser_what_it_may_do() {
    let trial = Trial::new().await;
    for path in ["/", "/api/1/pack", "/none", "/desk.css", "/puzzles/sound"] {
        let answer = trial.get(path).await;
        let header = |name: &str| {
            answer.headers.get(name).unwrap_or_else(|| panic!("{path}: {name}")).to_str().unwrap().to_owned()
        };
        let policy = header("content-security-policy");
        assert!(
            policy.contains("default-src 'none'") && policy.contains("frame-ancestors 'none'"),
            "{policy}"
        );
        assert!(!policy.contains("unsafe"), "{policy}");
        assert_eq!(header("x-content-type-options"), "nosniff");
        assert_eq!(header("referrer-policy"), "no-referrer");
        assert_eq!(header("cache-control"), "no-store");
        assert_eq!(header("cross-origin-resource-policy"), "same-origin");
    }
    let refused =
        trial.send(altered(trial.request(Method::GET, "/", ""), "host", Some("evil.example"))).await;
    assert!(refused.headers.contains_key("content-security-policy"));
}

#[tokio::test]
async fn no_address_leads_out_of_the_pack() {
    let trial = Trial::new().await;
    std::fs::write(trial.path().join("secret.toml"), "secret = 1").unwrap();
    for id in [
        "..%2Fsecret",
        "..%2F..%2Fetc%2Fpasswd",
        "%2e%2e%2fsecret",
        "..",
        "secret%00",
        "%2Fetc%2Fpasswd",
        "..%5Csecret",
        "Sound",
        "pack",
    ] {
        for path in [
            "/puzzles/ID",
            "/api/1/puzzles/ID",
            "/api/1/puzzles/ID/history",
            "/api/1/puzzles/ID/steps/1/board",
            "/play/ID",
            "/solves/ID",
        ] {
            let answer = trial.get(&path.replace("ID", id)).await;
            assert!(
                matches!(answer.status.as_u16(), 400 | 404),
                "{path} {id}: {} {}",
                answer.status,
                answer.text
            );
            assert!(!answer.text.contains("secret = 1") && !answer.text.contains("root:"));
        }
        let path = format!("/api/1/puzzles/{id}/board");
        let body = json!({"board": {"givens": [], "clues": {}}, "began_from": "0".repeat(64)});
        assert!(trial.put(&path, &body).await.status.is_client_error(), "{id}");
    }
    assert_eq!(trial.text("secret.toml"), "secret = 1");
}

#[tokio::test]
async fn what_is_too_large_or_no_json_is_refused() {
    let trial = Trial::new().await;
    let large = format!("{{\"givens\": [{}0]}}", "0,".repeat(200_000));
    let routes = trial.described().await;
    let n_bodies = routes.iter().filter(|it| it.takes_body).count();
    assert!(n_bodies > 25, "{n_bodies}");
    for it in routes.into_iter().filter(|it| it.takes_body) {
        let path = it.address();
        let request = |body: &str| trial.request(it.method.clone(), &path, body);
        let answer = trial.send(request(&large)).await;
        assert_eq!(answer.status, StatusCode::PAYLOAD_TOO_LARGE, "{path}: {}", answer.text);
        for body in ["", "{", "[]", "{\"surprise\": 1}", "null", "\u{0}"] {
            let answer = trial.send(request(body)).await;
            assert!(
                matches!(answer.status.as_u16(), 400 | 422),
                "{path} {body:?}: {} {}",
                answer.status,
                answer.text
            );
            assert!(answer.json()["message"].is_string());
        }
        let form = altered(request("open=true"), "content-type", Some("application/x-www-form-urlencoded"));
        assert_eq!(trial.send(form).await.status, StatusCode::UNSUPPORTED_MEDIA_TYPE, "{path}");
    }
}
