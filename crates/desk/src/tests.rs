//! The desk's routes, called as a browser would call them, and as other sites would like to.

mod attacks;
mod boards;
mod doors;
mod fuzz;
mod history;
mod interface;
mod jobs;
mod keeping;
mod markup;
mod packs;
mod questions;
mod seals;
mod season;
mod serving;
mod solves;

use std::fs;
use std::path::Path;
use std::sync::Arc;

use axum::Router;
use axum::body::Body;
use axum::http::{Method, Request, StatusCode};
use http_body_util::BodyExt;
use serde_json::Value;
use tempfile::TempDir;
use tower::ServiceExt;

use crate::folder::Folder;
use crate::pressing::Press;
use crate::serve::routes;
use crate::state::Desk;

const PORT: u16 = 4000;

/// A small pack: one puzzle that is sound, one without a solution, one with several.
const SOUND: &str = "\
format = 1
title = \"Sound\" # the only one
setter = \"Fern\"
size = \"4x4\"
grid = \"\"\"
1 . | . .
3 . | 2 .
----+----
. . | . .
. . | 4 .
\"\"\"
";

/// A desk on a pack of its own.
pub(super) struct Trial {
    pub(super) dir: TempDir,
    pub(super) desk: Arc<Desk>,
    routes: Router,
}

/// What came back.
pub(super) struct Answer {
    pub(super) status: StatusCode,
    pub(super) headers: axum::http::HeaderMap,
    pub(super) text: String,
}

/// A route of the interface.
#[derive(Clone, Debug)]
pub(super) struct Described {
    pub(super) method: Method,
    pub(super) path: String,
    pub(super) takes_body: bool,
}

impl Described {
    /// Its address with something in each place that the description leaves open.
    pub(super) fn address(&self) -> String {
        let mut path = self
            .path
            .replace("/solves/{id}", "/solves/a-solve-of-mine")
            .replace("/puzzles/{id}", "/puzzles/sound");
        let places = [
            ("{technique}", "naked-pair"),
            ("{file}", "booklet.pdf"),
            ("{change}", "1"),
            ("{id}", "sound"),
            ("{step}", "1"),
            ("{at}", "1"),
            ("{page}", "1"),
        ];
        for (name, value) in places {
            path = path.replace(name, value);
        }
        assert!(!path.contains('{'), "{path}");
        path
    }

    pub(super) fn is_write(&self) -> bool {
        self.method != Method::GET
    }
}

impl Answer {
    pub(super) fn json(&self) -> Value {
        serde_json::from_str(&self.text).unwrap_or_else(|it| panic!("{it}: {}", self.text))
    }
}

impl Trial {
    pub(super) async fn new() -> Trial {
        Trial::of(&[
            ("sound", SOUND),
            ("none", &SOUND.replace("Sound", "None").replace(". . | 4 .", ". . | 4 1")),
            ("many", &SOUND.replace("Sound", "Many").replace("1 . | . .", ". . | . .")),
        ])
        .await
    }

    pub(super) async fn of(puzzles: &[(&str, &str)]) -> Trial {
        Trial::on(puzzles, |it| it).await
    }

    /// The same with the folder made another.
    pub(super) async fn on(puzzles: &[(&str, &str)], altered: impl Fn(Folder) -> Folder) -> Trial {
        let dir = TempDir::new().unwrap();
        fs::write(
            dir.path().join("pack.toml"),
            "format = 1\ntitle = \"Trial\"\neditor = \"A. B.\" # for now\n",
        )
        .unwrap();
        fs::create_dir(dir.path().join("puzzles")).unwrap();
        for (id, text) in puzzles {
            fs::write(dir.path().join(format!("puzzles/{id}.toml")), text).unwrap();
        }
        let desk = Arc::new(Desk::open(altered(Folder::take(dir.path()).unwrap())).await.unwrap());
        let routes = routes(&desk, PORT);
        let trial = Trial { dir, desk, routes };
        trial.look_again().await;
        trial
    }

    /// The same pack on a desk that was started anew.
    pub(super) async fn started_anew(self, meanwhile: impl FnOnce(&Path)) -> Trial {
        let Trial { dir, desk, routes: old } = self;
        drop(old);
        desk.folder().let_go();
        desk.store.close().await;
        drop(desk);
        meanwhile(dir.path());
        let desk = Arc::new(Desk::open(Folder::take(dir.path()).unwrap()).await.unwrap());
        let routes = routes(&desk, PORT);
        let trial = Trial { dir, desk, routes };
        trial.look_again().await;
        trial
    }

    /// Has the desk look at the folder, and waits until everything is found out about it.
    pub(super) async fn look_again(&self) {
        self.desk.look_again().await;
        _ = self.desk.studied().await;
    }

    /// The same pack on a desk that can press.
    pub(super) fn pressing(self, press: Arc<dyn Press>) -> Trial {
        let Trial { dir, desk, routes: old } = self;
        drop(old);
        let mut desk = Arc::into_inner(desk).expect("nobody else has the desk");
        desk.pressing = Some(press);
        let desk = Arc::new(desk);
        let routes = routes(&desk, PORT);
        Trial { dir, desk, routes }
    }

    pub(super) fn path(&self) -> &Path {
        self.dir.path()
    }

    pub(super) fn text(&self, file: &str) -> String {
        fs::read_to_string(self.path().join(file)).unwrap()
    }

    /// A request with a body of that text, exactly as it is given.
    pub(super) async fn send(&self, request: Request<Body>) -> Answer {
        let answer = self.routes.clone().oneshot(request).await.unwrap();
        let (status, headers) = (answer.status(), answer.headers().clone());
        let bytes = answer.into_body().collect().await.unwrap().to_bytes();
        Answer { status, headers, text: String::from_utf8(bytes.into()).unwrap() }
    }

    /// The status alone, of an answer that may be no text.
    pub(super) async fn send_bytes(&self, request: Request<Body>) -> StatusCode {
        let answer = self.routes.clone().oneshot(request).await.unwrap();
        let status = answer.status();
        answer.into_body().collect().await.unwrap();
        status
    }

    /// A request as a page of the desk makes it.
    pub(super) fn request(&self, method: Method, path: &str, body: &str) -> Request<Body> {
        Request::builder()
            .method(method)
            .uri(path)
            .header("host", format!("127.0.0.1:{PORT}"))
            .header("origin", format!("http://127.0.0.1:{PORT}"))
            .header("sec-fetch-site", "same-origin")
            .header("x-desk-token", self.desk.token.to_string())
            .header("content-type", "application/json")
            .body(Body::from(body.to_owned()))
            .unwrap()
    }

    pub(super) async fn get(&self, path: &str) -> Answer {
        self.send(self.request(Method::GET, path, "")).await
    }

    pub(super) async fn post(&self, path: &str, body: &Value) -> Answer {
        self.send(self.request(Method::POST, path, &body.to_string())).await
    }

    pub(super) async fn put(&self, path: &str, body: &Value) -> Answer {
        self.send(self.request(Method::PUT, path, &body.to_string())).await
    }

    /// Every route of the interface, as it describes itself.
    pub(super) async fn described(&self) -> Vec<Described> {
        let described = self.get("/api/1/openapi.json").await.json();
        let routes = described["paths"].as_object().unwrap().iter().flat_map(|(path, methods)| {
            methods.as_object().unwrap().iter().map(|(method, about)| Described {
                method: method.to_uppercase().parse().unwrap(),
                path: path.clone(),
                takes_body: about["requestBody"].is_object(),
            })
        });
        let routes: Vec<Described> = routes.collect();
        assert!(routes.len() > 50, "{}", routes.len());
        routes
    }

    /// A puzzle as the desk tells it.
    pub(super) async fn puzzle(&self, id: &str) -> Value {
        self.get(&format!("/api/1/puzzles/{id}")).await.json()
    }
}
