//! Who may come in, and who would like to.

mod invited;
mod watching;

use std::time::Duration;

use axum::body::Body;
use axum::http::{Method, Request, StatusCode};
use serde_json::{Value, json};

use super::{Answer, SOUND, Trial};
use crate::doors::{AccountChange, Public, accounts_of};
use crate::folder::Folder;
use crate::state::Desk;

const PASSWORD: &str = "moss under a lantern";

/// A browser of somebody: what it sends with each request.
struct Browser<'a> {
    trial: &'a Trial,
    cookie: Option<String>,
}

impl Browser<'_> {
    fn request(&self, method: Method, path: &str, body: &str) -> Request<Body> {
        let mut request = self.trial.request(method, path, body);
        if let Some(cookie) = &self.cookie {
            request.headers_mut().insert("cookie", cookie.parse().unwrap());
        }
        request
    }

    async fn ask(&self, method: Method, path: &str, body: &Value) -> Answer {
        let body = if body.is_null() { String::new() } else { body.to_string() };
        self.trial.send(self.request(method, path, &body)).await
    }

    async fn get(&self, path: &str) -> Answer {
        self.ask(Method::GET, path, &Value::Null).await
    }

    async fn post(&self, path: &str, body: &Value) -> Answer {
        self.ask(Method::POST, path, body).await
    }

    /// Asks for what gives a cookie, and keeps that.
    async fn come_in(&mut self, path: &str, body: &Value) -> Answer {
        let answer = self.post(path, body).await;
        if let Some(set) = answer.headers.get("set-cookie") {
            let set = set.to_str().unwrap();
            self.cookie = Some(set.split(';').next().unwrap().to_owned());
        }
        answer
    }
}

fn browser(trial: &Trial) -> Browser<'_> {
    Browser { trial, cookie: None }
}

async fn change(trial: &Trial, change: AccountChange) -> Result<Vec<String>, crate::Failure> {
    accounts_of(trial.path(), change).await
}

fn add(name: &str) -> AccountChange {
    AccountChange::Add { name: name.to_owned(), password: PASSWORD.to_owned() }
}

/// A desk with two setters and the account of Fern.
async fn guarded() -> Trial {
    let others = SOUND.replace("\"Sound\"", "\"Other\"").replace("Fern", "Yew");
    let trial = Trial::of(&[("sound", SOUND), ("other", &others)]).await;
    change(&trial, add("Fern")).await.unwrap();
    trial
}

/// The same, reached at `https://desk.example`.
async fn public() -> Trial {
    let trial = guarded().await;
    let dir = trial.dir;
    drop((trial.desk.folder().let_go(), trial.routes));
    let public = Public::read("https://desk.example").unwrap();
    let desk = Desk::open(Folder::take(dir.path()).unwrap()).await.unwrap().reached_at(Some(public));
    let desk = std::sync::Arc::new(desk);
    let routes = crate::serve::routes(&desk, super::PORT);
    Trial { dir, desk, routes }
}

async fn editor(trial: &Trial) -> Browser<'_> {
    let mut browser = browser(trial);
    let answer = browser.come_in("/api/1/session", &json!({"name": "Fern", "password": PASSWORD})).await;
    assert_eq!(answer.status, StatusCode::OK, "{}", answer.text);
    browser
}

/// Makes an invitation, and gives its id and its token.
async fn invitation(editor: &Browser<'_>, asked: &Value) -> (String, String) {
    let made = editor.post("/api/1/invitations", asked).await;
    assert_eq!(made.status, StatusCode::CREATED, "{}", made.text);
    let made = made.json();
    let token = made["link"].as_str().unwrap().strip_prefix("/invited#").unwrap().to_owned();
    assert_eq!(token.len(), 64, "256 bits");
    (made["id"].as_str().unwrap().to_owned(), token)
}

async fn invited<'a>(editor: &Browser<'a>, asked: &Value) -> Browser<'a> {
    let (_, token) = invitation(editor, asked).await;
    let mut browser = browser(editor.trial);
    let answer = browser.come_in("/api/1/invited", &json!({"token": token})).await;
    assert_eq!(answer.status, StatusCode::OK, "{}", answer.text);
    browser
}

fn to_solve(person: &str, puzzle: &str) -> Value {
    json!({"role": "tester", "person": person, "puzzles": [puzzle], "days": 3})
}

fn solve(trial: &Trial, id: &str, puzzle: &str) -> Value {
    let reading = trial.desk.view().reading;
    let entry = reading.read.pack.entries.iter().find(|it| it.id.as_str() == puzzle).unwrap();
    let fingerprint = packfile::fingerprint(&entry.puzzle);
    json!({"id": id, "puzzle": puzzle, "fingerprint": fingerprint, "solver": "Somebody else", "kind": "regular"})
}

/// The clock is put forward and goes on from there; the store needs one that goes.
async fn later(time: Duration) {
    tokio::time::pause();
    tokio::time::advance(time).await;
    tokio::time::resume();
}

const HOUR: Duration = Duration::from_secs(60 * 60);

/// Pages that tell something.
pub(super) const PAGES: [&str; 11] = [
    "/",
    "/puzzles/sound",
    "/puzzles/sound/solve",
    "/puzzles/sound/solves",
    "/season",
    "/solves",
    "/solves/a-solve-of-mine",
    "/press",
    "/people",
    "/yours",
    "/nothing/there",
];

/// Every page and every route of the interface's description, with a method that it takes; but for those by which one
/// comes in.
async fn routes() -> Vec<(String, String)> {
    let open = Trial::new().await;
    let described = open.described().await;
    let of_interface = described.iter().map(|it| (it.method.to_string(), it.address()));
    let pages = PAGES.map(|it| ("GET".to_owned(), it.to_owned()));
    let is_way_in = |path: &str| ["/api/1/session", "/api/1/invited"].contains(&path);
    of_interface.filter(|it| !is_way_in(&it.1)).chain(pages).collect()
}

#[tokio::test]
async fn without_accounts_everybody_here_is_the_editor_and_nobody_is_invited() {
    let trial = Trial::new().await;
    let anybody = browser(&trial);
    assert_eq!(anybody.get("/").await.status, StatusCode::OK);
    let people = anybody.get("/people").await;
    assert!(people.text.contains("There are no accounts") && !people.text.contains("id=\"invite\""));
    let refused = anybody.post("/api/1/invitations", &to_solve("Tansy", "sound")).await;
    assert_eq!(refused.status, StatusCode::FORBIDDEN);
}

#[tokio::test]
async fn with_an_account_nobody_reads_or_writes_anything_without_a_session() {
    let trial = Trial::new().await;
    assert_eq!(browser(&trial).get("/api/1/pack").await.status, StatusCode::OK);
    // It counts with the next request of the desk that runs.
    assert_eq!(change(&trial, add("Fern")).await.unwrap(), ["Fern"]);
    let other_forms =
        ["galley-desk-4000=", "galley-desk-4000=nothing", &format!("galley-desk-4000={}", "0".repeat(64))]
            .map(|it| Some(it.to_owned()));
    let routes = routes().await;
    assert!(routes.len() > 60, "{}", routes.len());
    for cookie in [None].into_iter().chain(other_forms) {
        let browser = Browser { trial: &trial, cookie };
        for (method, path) in &routes {
            let answer = browser.ask(method.parse().unwrap(), path, &Value::Null).await;
            assert_eq!(answer.status, StatusCode::UNAUTHORIZED, "{method} {path}");
            for it in ["Sound", "Trial", "A. B."] {
                assert!(!answer.text.contains(it), "{method} {path} tells {it}");
            }
            if method == "GET" && !path.starts_with("/api/") {
                assert!(answer.text.contains("id=\"sign-in\""), "{path} asks who comes");
            }
        }
    }
    for path in ["/desk.css", "/icon.svg", "/play/signing.js", "/play/api.js", "/invited"] {
        assert_eq!(browser(&trial).get(path).await.status, StatusCode::OK, "{path}");
    }
    let editor = editor(&trial).await;
    for path in ["/", "/puzzles/sound", "/solves", "/people", "/api/1/pack", "/api/1/people"] {
        assert_eq!(editor.get(path).await.status, StatusCode::OK, "{path}");
    }
    // The last account taken away does not open a desk that runs.
    change(&trial, AccountChange::Remove { name: "Fern".to_owned() }).await.unwrap();
    assert_eq!(editor.get("/").await.status, StatusCode::UNAUTHORIZED);
    assert_eq!(browser(&trial).get("/").await.status, StatusCode::UNAUTHORIZED);
}

#[tokio::test]
async fn wrong_names_and_passwords_are_refused_in_the_same_words_and_then_for_a_while() {
    let trial = guarded().await;
    let try_in = async |name: &str, password: &str| {
        browser(&trial).post("/api/1/session", &json!({"name": name, "password": password})).await
    };
    let (wrong, nobody) = (try_in("Fern", "moss under a lamp").await, try_in("Nobody", PASSWORD).await);
    assert_eq!((wrong.status, nobody.status), (StatusCode::UNAUTHORIZED, StatusCode::UNAUTHORIZED));
    assert_eq!(wrong.text, nobody.text);
    assert!(wrong.headers.get("set-cookie").is_none());
    for _ in 0..9 {
        assert_eq!(try_in("Fern", "guess").await.status, StatusCode::UNAUTHORIZED);
    }
    // Not even with the right one.
    let refused = try_in("Fern", PASSWORD).await;
    assert_eq!(refused.status, StatusCode::TOO_MANY_REQUESTS);
    let wait: u64 = refused.headers["retry-after"].to_str().unwrap().parse().unwrap();
    assert!((1..=60).contains(&wait), "{wait}");
    later(Duration::from_secs(wait)).await;
    assert_eq!(try_in("Fern", PASSWORD).await.status, StatusCode::OK);
    // Another name each time: the address is counted too. 13 of its 20 are used, and 4 or so have come back.
    let mut n_tried = 0;
    while try_in(&format!("Guess {n_tried}"), PASSWORD).await.status == StatusCode::UNAUTHORIZED {
        n_tried += 1;
        assert!(n_tried < 20, "somebody can go on guessing");
    }
    let people = accounts_of(trial.path(), AccountChange::None).await.unwrap();
    assert_eq!(people, ["Fern"]);
    let notes = trial.desk.store.door_notes().await.unwrap();
    let of = |what: &str, who: &str| notes.iter().filter(|it| it.what == what && it.who == who).count();
    assert_eq!((of("signed-in", "Fern"), of("refused-sign-in", "Fern")), (1, 11));
    assert!(!format!("{notes:?}").contains("guess"), "no password is noted");
}

#[tokio::test]
async fn what_is_too_long_or_no_sign_in_is_refused() {
    let trial = guarded().await;
    let editor = editor(&trial).await;
    let large = "x".repeat(300_000);
    for (path, method) in [
        ("/api/1/session", Method::POST),
        ("/api/1/invited", Method::POST),
        ("/api/1/invitations", Method::POST),
    ] {
        let large = json!({"name": large, "password": "x"});
        assert_eq!(
            editor.ask(method.clone(), path, &large).await.status,
            StatusCode::PAYLOAD_TOO_LARGE,
            "{path}"
        );
        for body in ["", "{", "[]", "null", "{\"surprise\": 1}"] {
            let answer = trial.send(editor.request(method.clone(), path, body)).await;
            assert!(matches!(answer.status.as_u16(), 400 | 422), "{path} {body:?}: {}", answer.status);
        }
    }
    let long = json!({"name": "x".repeat(81), "password": PASSWORD});
    assert_eq!(editor.post("/api/1/session", &long).await.status, StatusCode::UNPROCESSABLE_ENTITY);
    let long = json!({"name": "Fern", "password": "x".repeat(1025)});
    assert_eq!(editor.post("/api/1/session", &long).await.status, StatusCode::UNPROCESSABLE_ENTITY);
    for (key, value, status) in [
        ("role", json!("editor"), 422),
        ("person", json!(""), 422),
        ("person", json!("a\nb"), 422),
        ("person", json!("x".repeat(81)), 422),
        ("puzzles", json!([]), 422),
        ("puzzles", json!(["nothing"]), 404),
        ("puzzles", json!(["../pack"]), 404),
        ("days", json!(0), 422),
        ("days", json!(91), 422),
    ] {
        let mut asked = to_solve("Tansy", "sound");
        asked[key] = value.clone();
        let answer = editor.post("/api/1/invitations", &asked).await;
        assert_eq!(answer.status.as_u16(), status, "{key}: {value}");
    }
    for (person, puzzles) in [("Sorrel", json!([])), ("Yew", json!(["sound"]))] {
        let asked = json!({"role": "setter", "person": person, "puzzles": puzzles, "days": 3});
        assert_eq!(editor.post("/api/1/invitations", &asked).await.status, StatusCode::UNPROCESSABLE_ENTITY);
    }
}

#[tokio::test]
async fn signing_in_and_following_take_the_token_of_a_page_too() {
    let trial = guarded().await;
    let editor = editor(&trial).await;
    let (_, token) = invitation(&editor, &to_solve("Tansy", "sound")).await;
    let asked = [
        (Method::POST, "/api/1/session", json!({"name": "Fern", "password": PASSWORD}).to_string()),
        (Method::POST, "/api/1/invited", json!({"token": token}).to_string()),
        (Method::DELETE, "/api/1/session", String::new()),
        (Method::POST, "/api/1/invitations", to_solve("Tansy", "sound").to_string()),
        (Method::DELETE, "/api/1/invitations/some", String::new()),
    ];
    for (method, path, body) in asked {
        for (header, to) in [
            ("x-desk-token", None),
            ("x-desk-token", Some("0")),
            ("origin", Some("http://evil.example")),
            ("sec-fetch-site", Some("cross-site")),
        ] {
            let mut request = editor.request(method.clone(), path, &body);
            request.headers_mut().remove(header);
            if let Some(to) = to {
                request.headers_mut().insert(header, to.parse().unwrap());
            }
            let answer = trial.send(request).await;
            assert_eq!(answer.status, StatusCode::FORBIDDEN, "{method} {path} with {header} {to:?}");
            assert!(answer.headers.get("set-cookie").is_none());
        }
    }
    assert_eq!(editor.get("/").await.status, StatusCode::OK, "still signed in");
    let noted = trial.desk.store.door_notes().await.unwrap();
    assert_eq!(noted.iter().filter(|it| it.what == "write-refused").count(), 20);
}

#[tokio::test]
async fn a_cookie_is_the_browsers_alone_and_over_when_its_session_is() {
    let trial = guarded().await;
    let asked = json!({"name": "Fern", "password": PASSWORD});
    let set = browser(&trial).post("/api/1/session", &asked).await.headers["set-cookie"]
        .to_str()
        .unwrap()
        .to_owned();
    assert!(set.starts_with("galley-desk-4000=") && !set.contains("Secure"), "{set}");
    assert!(
        set.contains("; HttpOnly") && set.contains("; SameSite=Strict") && set.contains("; Path=/;"),
        "{set}"
    );
    let token = set.split(['=', ';']).nth(1).unwrap();
    let file = std::fs::read(trial.path().join(".galley/desk.db")).unwrap();
    let log = std::fs::read(trial.path().join(".galley/desk.db-wal")).unwrap_or_default();
    for bytes in [file, log] {
        for it in [token, PASSWORD] {
            assert!(!bytes.windows(it.len()).any(|at| at == it.as_bytes()), "the store holds a secret");
        }
    }

    let first = editor(&trial).await;
    let out = first.ask(Method::DELETE, "/api/1/session", &Value::Null).await;
    assert_eq!(out.status, StatusCode::NO_CONTENT);
    assert!(out.headers["set-cookie"].to_str().unwrap().contains("Max-Age=0"));
    assert_eq!(first.get("/api/1/pack").await.status, StatusCode::UNAUTHORIZED, "a kept cookie is over");

    // Signing in once more ends the session before.
    let mut second = editor(&trial).await;
    let before = Browser { trial: &trial, cookie: second.cookie.clone() };
    second.come_in("/api/1/session", &asked).await;
    assert_eq!(before.get("/api/1/pack").await.status, StatusCode::UNAUTHORIZED);
    assert_eq!(second.get("/api/1/pack").await.status, StatusCode::OK);

    let password = "a heron on the museum roof".to_owned();
    change(&trial, AccountChange::ChangePassword { name: "Fern".to_owned(), password: password.clone() })
        .await
        .unwrap();
    assert_eq!(second.get("/api/1/pack").await.status, StatusCode::UNAUTHORIZED, "another password ends all");
    assert_eq!(browser(&trial).post("/api/1/session", &asked).await.status, StatusCode::UNAUTHORIZED);
    let mut third = browser(&trial);
    third.come_in("/api/1/session", &json!({"name": "Fern", "password": password})).await;
    for _ in 0..15 {
        later(11 * HOUR).await;
        assert_eq!(third.get("/api/1/pack").await.status, StatusCode::OK, "used often enough");
    }
    later(4 * HOUR).await;
    assert_eq!(third.get("/api/1/pack").await.status, StatusCode::UNAUTHORIZED, "a week is over");

    let mut idle = browser(&trial);
    idle.come_in("/api/1/session", &json!({"name": "Fern", "password": password})).await;
    later(13 * HOUR).await;
    assert_eq!(idle.get("/api/1/pack").await.status, StatusCode::UNAUTHORIZED, "not used for half a day");
}

#[tokio::test]
async fn markup_in_names_stays_text() {
    let trial = Trial::new().await;
    let evil = "<img src=x onerror=alert(1)>\"'&";
    change(&trial, add(evil)).await.unwrap();
    let mut editor = browser(&trial);
    let asked = json!({"name": evil, "password": PASSWORD});
    assert_eq!(editor.come_in("/api/1/session", &asked).await.status, StatusCode::OK);
    browser(&trial).post("/api/1/session", &json!({"name": "<script>x", "password": "y"})).await;
    let tester = invited(&editor, &to_solve("</script><b>Tansy</b>", "sound")).await;
    for (browser, path) in [(&editor, "/people"), (&tester, "/yours"), (&tester, "/puzzles/sound/solve")] {
        let page = browser.get(path).await.text;
        for it in ["<img", "<script>x", "<b>Tansy", "\"'&"] {
            assert!(!page.contains(it), "{path} has {it}");
        }
    }
}

#[tokio::test]
async fn a_session_writes_only_so_often() {
    let trial = guarded().await;
    let editor = editor(&trial).await;
    let mut statuses = Vec::new();
    for _ in 0..2000 {
        let answer = editor.post("/api/1/puzzles/none/verdict", &Value::Null).await;
        statuses.push(answer.status);
        if answer.status == StatusCode::TOO_MANY_REQUESTS {
            assert_eq!(answer.headers["retry-after"], "1");
            break;
        }
    }
    assert!(
        statuses.len() > 300 && statuses.last() == Some(&StatusCode::TOO_MANY_REQUESTS),
        "{}",
        statuses.len()
    );
    assert_eq!(editor.get("/api/1/pack").await.status, StatusCode::OK, "reading goes on");
    later(Duration::from_secs(1)).await;
    assert_ne!(
        editor.post("/api/1/puzzles/none/verdict", &Value::Null).await.status,
        StatusCode::TOO_MANY_REQUESTS
    );
}

#[tokio::test]
async fn reached_by_https_it_answers_to_that_name_alone_and_its_cookies_are_secure() {
    let trial = public().await;
    let request = |method: Method, path: &str, host: &str, origin: &str, body: &Value| {
        let mut request = trial.request(method, path, &body.to_string());
        request.headers_mut().insert("host", host.parse().unwrap());
        request.headers_mut().insert("origin", origin.parse().unwrap());
        request
    };
    let asked = json!({"name": "Fern", "password": PASSWORD});
    let (host, origin) = ("desk.example", "https://desk.example");
    let post =
        |host: &str, origin: &str| trial.send(request(Method::POST, "/api/1/session", host, origin, &asked));
    for (host, origin, status) in [
        ("127.0.0.1:4000", "http://127.0.0.1:4000", 421),
        ("localhost:4000", "https://desk.example", 421),
        ("desk.example:4000", "https://desk.example", 421),
        ("desk.example", "http://desk.example", 403),
        ("desk.example", "https://evil.example", 403),
    ] {
        assert_eq!(post(host, origin).await.status.as_u16(), status, "{host} {origin}");
    }
    let answer = post(host, origin).await;
    assert_eq!(answer.status, StatusCode::OK, "{}", answer.text);
    assert_eq!(answer.headers["strict-transport-security"], "max-age=31536000");
    let set = answer.headers["set-cookie"].to_str().unwrap();
    assert!(
        set.starts_with("__Host-galley-desk=") && set.contains("; Secure") && set.contains("; Path=/;"),
        "{set}"
    );
    assert!(!set.contains("Domain") && set.contains("HttpOnly") && set.contains("SameSite=Strict"), "{set}");
    let mut page = request(Method::GET, "/api/1/pack", host, origin, &Value::Null);
    page.headers_mut().insert("cookie", set.split(';').next().unwrap().parse().unwrap());
    assert_eq!(trial.send(page).await.status, StatusCode::OK);
}

#[tokio::test]
async fn accounts_are_added_changed_and_removed_with_reasons_where_not() {
    let trial = Trial::new().await;
    assert!(change(&trial, AccountChange::None).await.unwrap().is_empty());
    assert_eq!(change(&trial, add("Fern")).await.unwrap(), ["Fern"]);
    assert_eq!(change(&trial, add("Aster")).await.unwrap(), ["Aster", "Fern"]);
    assert!(change(&trial, add("Fern")).await.unwrap_err().message.contains("already"));
    for name in ["", " ", "a\nb", " Fern", &"x".repeat(81)] {
        assert!(change(&trial, add(name)).await.is_err(), "{name:?}");
    }
    let short = AccountChange::Add { name: "Yew".to_owned(), password: "short".to_owned() };
    assert!(change(&trial, short).await.unwrap_err().message.contains("at least 15"));
    let nobody = |it: &str| it.to_owned();
    let no_change = AccountChange::ChangePassword { name: nobody("Yew"), password: PASSWORD.to_owned() };
    assert!(change(&trial, no_change).await.is_err());
    assert!(change(&trial, AccountChange::Remove { name: nobody("Yew") }).await.is_err());
    let left = change(&trial, AccountChange::Remove { name: nobody("Fern") }).await.unwrap();
    assert_eq!(left, ["Aster"]);
    let noted: Vec<_> =
        trial.desk.store.door_notes().await.unwrap().into_iter().map(|it| (it.what, it.about)).collect();
    let expected = [("account-removed", "Fern"), ("account-added", "Aster"), ("account-added", "Fern")];
    assert_eq!(noted, expected.map(|it| (it.0.to_owned(), it.1.to_owned())));
    assert!(accounts_of(&trial.path().join("nowhere"), AccountChange::None).await.is_err());
}
