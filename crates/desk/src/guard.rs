//! What keeps other sites out, and what every answer says to the browser.
//!
//! Whatever else runs in the same browser must not reach the desk, whether or not it asks for a password. Three things see
//! to that: a request must name the desk's own address as its host (a site that has its name point here names its own);
//! one that comes from another site is answered only if somebody follows a link to a page;
//! and a write must carry the token that only a page of the desk can read.
//!
//! Left out: who asks, which is for `doors`. On a desk without accounts, other people of the same machine can reach its
//! port as any page can.

use std::sync::Arc;

use axum::extract::{Request, State};
use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, HOST, HeaderName, HeaderValue, ORIGIN, REFERRER_POLICY,
    STRICT_TRANSPORT_SECURITY, X_CONTENT_TYPE_OPTIONS, X_FRAME_OPTIONS,
};
use axum::http::{HeaderMap, Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use crate::answers::Refused;
use crate::doors::Public;
use crate::token::Token;

/// The header of a write that carries the token.
pub(crate) const TOKEN_HEADER: HeaderName = HeaderName::from_static("x-desk-token");

const FETCH_SITE: HeaderName = HeaderName::from_static("sec-fetch-site");
const FETCH_MODE: HeaderName = HeaderName::from_static("sec-fetch-mode");

/// Only the desk's own scripts and styles, and nothing written into a page runs.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; \
                      base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/// What the desk answers to.
#[derive(Debug)]
pub(crate) struct Guard {
    hosts: Vec<String>,
    /// What comes before the host in the origin of its own pages.
    scheme: &'static str,
    token: Token,
    /// What addresses of outputs begin with.
    shown: String,
}

impl Guard {
    /// For a desk at that port of this machine, or one that is reached at that address and no other.
    pub(crate) fn new(port: u16, public: Option<&Public>, token: &Token, shown: &Token) -> Guard {
        let (token, shown) = (token.copied(), format!("/pressed/{shown}/"));
        match public {
            Some(it) => Guard { hosts: vec![it.host().to_owned()], scheme: "https://", token, shown },
            None => {
                let hosts = ["127.0.0.1", "localhost", "[::1]"].map(|it| format!("{it}:{port}"));
                Guard { hosts: hosts.into(), scheme: "http://", token, shown }
            }
        }
    }

    /// Whether a request may be answered.
    fn check(&self, method: &Method, path: &str, headers: &HeaderMap) -> Result<(), Refused> {
        let text = |name: &HeaderName| headers.get(name).map(|it| it.to_str().unwrap_or("?"));
        let is_own = |it: &str| self.hosts.iter().any(|host| host.eq_ignore_ascii_case(it));
        let n_hosts = headers.get_all(HOST).iter().count();
        if n_hosts != 1 || !text(&HOST).is_some_and(is_own) {
            return Err(Refused::new(
                StatusCode::MISDIRECTED_REQUEST,
                "this is not the address of the desk",
                "open the address that the desk printed when it was started",
            ));
        }
        let from_elsewhere = || {
            let help = "open the desk in a tab of its own";
            Refused::new(StatusCode::FORBIDDEN, "the request comes from another site", help)
        };
        let is_read = matches!(*method, Method::GET | Method::HEAD);
        // Outputs have an origin of their own, which is nobody's; what they ask for, they ask for as strangers. Whoever
        // knows the address was told it by a page of this desk.
        if is_read && path.starts_with(&self.shown) {
            return Ok(());
        }
        if let Some(origin) = text(&ORIGIN)
            && !origin.strip_prefix(self.scheme).is_some_and(is_own)
        {
            return Err(from_elsewhere());
        }
        let follows_link = is_read && text(&FETCH_MODE) == Some("navigate");
        if !matches!(text(&FETCH_SITE), None | Some("same-origin" | "none")) && !follows_link {
            return Err(from_elsewhere());
        }
        let has_token = || headers.get(TOKEN_HEADER).is_some_and(|it| self.token.is(it.as_bytes()));
        if !is_read && !has_token() {
            return Err(Refused::new(
                StatusCode::FORBIDDEN,
                "the request does not come from a page of this desk",
                "load the page again: the desk was started anew since",
            ));
        }
        Ok(())
    }
}

/// A browser that was here once comes by https for a year. Other hosts under the same name are not ours to speak for.
const ONLY_HTTPS: (HeaderName, HeaderValue) =
    (STRICT_TRANSPORT_SECURITY, HeaderValue::from_static("max-age=31536000"));

/// Checks each request, and says the same to the browser with each answer.
pub(crate) async fn guarded(State(guard): State<Arc<Guard>>, request: Request, next: Next) -> Response {
    let mut answer = match guard.check(request.method(), request.uri().path(), request.headers()) {
        Ok(()) => next.run(request).await,
        Err(refused) => refused.into_response(),
    };
    let said = [
        (CONTENT_SECURITY_POLICY, POLICY),
        (X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (X_FRAME_OPTIONS, "DENY"),
        (REFERRER_POLICY, "no-referrer"),
        (CACHE_CONTROL, "no-store"),
        (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
        (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
        (HeaderName::from_static("permissions-policy"), "camera=(), geolocation=(), microphone=()"),
    ];
    for (name, value) in said {
        // Outputs say otherwise of themselves.
        answer.headers_mut().entry(name).or_insert(HeaderValue::from_static(value));
    }
    if guard.scheme == "https://" {
        answer.headers_mut().extend([ONLY_HTTPS]);
    }
    answer
}
