//! The outputs as they are: files of the pack's folder `out`, shown so that nothing in them reaches the desk.
//!
//! Their addresses hold a token that only the desk's pages know, and a page among them runs in a sandbox: its origin is
//! nobody's, so that the browser gives it no cookie and lets it read nothing of the desk, and the desk refuses what it
//! would ask for.
//!
//! Left out: what a solver writes on a sheet of the site is forgotten with its page, for a page of nobody's keeps nothing.

use std::path::{Component, Path as FilePath};
use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::header::{
    ACCESS_CONTROL_ALLOW_ORIGIN, CONTENT_SECURITY_POLICY, CONTENT_TYPE, HOST, HeaderName,
};
use axum::http::{HeaderMap, HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};

use super::frame::NoPage;
use crate::answers::Refused;
use crate::pressing::OUT;
use crate::state::Desk;

/// Kinds of files that are pressed, by their endings.
const KINDS: [(&str, &str); 15] = [
    ("css", "text/css; charset=utf-8"),
    ("html", "text/html; charset=utf-8"),
    ("ics", "text/calendar; charset=utf-8"),
    ("jpg", "image/jpeg"),
    ("js", "text/javascript; charset=utf-8"),
    ("json", "application/json"),
    ("pdf", "application/pdf"),
    ("png", "image/png"),
    ("svg", "image/svg+xml"),
    ("txt", "text/plain; charset=utf-8"),
    ("vtt", "text/vtt; charset=utf-8"),
    ("wasm", "application/wasm"),
    ("webmanifest", "application/manifest+json"),
    ("xml", "application/xml"),
    ("md", "text/plain; charset=utf-8"),
];

pub(super) async fn file(
    State(desk): State<Arc<Desk>>,
    Path((token, name)): Path<(String, String)>,
    headers: HeaderMap,
) -> Result<Response, NoPage> {
    let nothing = || {
        let help = "go to the page of the outputs and open it from there";
        NoPage::from(Refused::new(StatusCode::NOT_FOUND, "there is no such output", help))
    };
    let is_plain = |it: Component| match it {
        Component::Normal(it) => !it.to_string_lossy().starts_with('.'),
        _ => false,
    };
    if !desk.shown.is(token.as_bytes()) || !FilePath::new(&name).components().all(is_plain) {
        return Err(nothing());
    }
    let name = if name.ends_with('/') { name + "index.html" } else { name };
    let out = desk.folder().root().join(OUT);
    let path = out.join(&name);
    // Not even through a link is anything shown that lies elsewhere.
    let is_inside =
        path.canonicalize().is_ok_and(|it| out.canonicalize().is_ok_and(|out| it.starts_with(out)));
    if !is_inside || !desk.folder().holds(&path) || !path.is_file() {
        return Err(nothing());
    }
    let bytes = tokio::fs::read(&path).await.map_err(|_| nothing())?;
    let ending = path.extension().map(|it| it.to_string_lossy().to_lowercase()).unwrap_or_default();
    let kind = KINDS.iter().find(|it| it.0 == ending).map_or("application/octet-stream", |it| it.1);
    let host = headers.get(HOST).and_then(|it| it.to_str().ok()).unwrap_or_default();
    let policy = policy(&format!("http://{host}/pressed/{token}/"), ending == "pdf");
    let said = [
        (CONTENT_TYPE, kind),
        // Of nobody's origin, a page reads its own files as a stranger would.
        (ACCESS_CONTROL_ALLOW_ORIGIN, "*"),
        (HeaderName::from_static("cross-origin-resource-policy"), "cross-origin"),
        // A browser opens no sandbox that asks for more.
        (HeaderName::from_static("cross-origin-opener-policy"), "unsafe-none"),
    ];
    let mut answer = (said, bytes).into_response();
    if let Ok(policy) = HeaderValue::from_str(&policy) {
        answer.headers_mut().insert(CONTENT_SECURITY_POLICY, policy);
    }
    Ok(answer)
}

/// What a page of the outputs may do: run its own scripts and load what lies beside it, and nothing else. A PDF has no
/// script, and the browser's own viewer runs in no sandbox.
fn policy(own: &str, is_pdf: bool) -> String {
    let sandbox =
        if is_pdf { "" } else { "sandbox allow-scripts allow-popups allow-downloads allow-modals; " };
    format!(
        "{sandbox}default-src 'none'; script-src {own} 'wasm-unsafe-eval'; connect-src {own}; \
         style-src {own} 'unsafe-inline'; img-src {own} data:; font-src {own} data:; manifest-src {own}; \
         base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
    )
}
