//! Signing in and out, and following an invitation.

use std::sync::Arc;

use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Extension, State};
use axum::http::StatusCode;
use axum::http::header::SET_COOKIE;
use axum::response::{IntoResponse, Response};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::answers::{Refused, RefusedBody};
use crate::doors::{Caller, Secret, editors_seconds, hash_of, is_right, note, too_often};
use crate::state::Desk;

/// An invited person's cookie goes away at the latest after so many seconds; the invitation ends sooner.
const INVITED_SECONDS: i64 = 90 * 24 * 60 * 60;

/// Who signs in.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SignIn {
    /// The name of an account.
    pub(crate) name: String,
    /// Its password.
    pub(crate) password: String,
}

/// An invitation that is followed.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct Following {
    /// What stands behind the `#` of its link.
    pub(crate) token: String,
}

/// Who somebody is at this desk.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct Welcome {
    /// Their name.
    pub(crate) name: String,
}

/// Signs in to an account. The answer sets a cookie, which no script can read.
#[utoipa::path(
    post, path = "/api/1/session", tag = "people", request_body = SignIn,
    responses((status = 200, body = Welcome), (status = 401, body = RefusedBody), (status = 422, body = RefusedBody),
        (status = 429, body = RefusedBody, description = "tried too often; Retry-After says how long to wait")),
)]
pub(crate) async fn sign_in(
    State(desk): State<Arc<Desk>>,
    Extension(caller): Extension<Caller>,
    asked: Result<Json<SignIn>, JsonRejection>,
) -> Result<Response, Refused> {
    let Json(SignIn { name, password }) = asked?;
    // Longer ones are nobody's. What is noted and counted by name must not grow with what is sent.
    if name.len() > 80 || password.len() > 1024 {
        return Err(Refused::unfit("no name and no password is so long"));
    }
    let door = &desk.door;
    let tried = door.sign_in_by_address.take(&caller.network).and_then(|()| door.sign_in_by_name.take(&name));
    let unkept = |it| Refused::unkept(&desk, &it);
    let hash = desk.store.password_of(&name).await.map_err(unkept)?;
    // Whoever types the password in the wrong place has not told it to all editors.
    let known = if hash.is_some() { &name[..] } else { "" };
    if let Err(wait) = tried {
        note(&desk, &caller, "refused-sign-in", known, "tried too often").await;
        return Ok(too_often(wait));
    }
    let secret = Secret::new().map_err(|it| Refused::failed(&it))?;
    let now = door.now();
    // Whether the name or the password was wrong is not said, and takes the same time.
    let is_in = is_right(&desk, password, hash.clone()).await
        && desk
            .store
            .begin_account_session(
                &secret.hash,
                (&name, &hash.unwrap_or_default()),
                (now, now + editors_seconds()),
            )
            .await
            .map_err(unkept)?;
    if !is_in {
        note(&desk, &caller, "refused-sign-in", known, "").await;
        let help = "try again; an account's password is changed where the desk runs, with --change-password";
        return Err(Refused::new(StatusCode::UNAUTHORIZED, "the name or the password is not right", help));
    }
    let cookie = caller.cookie.set(&secret.told, editors_seconds());
    welcome(&desk, &caller, "signed-in", name, cookie).await
}

/// Follows an invitation. The answer sets a cookie, which no script can read.
#[utoipa::path(
    post, path = "/api/1/invited", tag = "people", request_body = Following,
    responses((status = 200, body = Welcome), (status = 404, body = RefusedBody), (status = 422, body = RefusedBody),
        (status = 429, body = RefusedBody, description = "tried too often; Retry-After says how long to wait")),
)]
pub(crate) async fn follow(
    State(desk): State<Arc<Desk>>,
    Extension(caller): Extension<Caller>,
    asked: Result<Json<Following>, JsonRejection>,
) -> Result<Response, Refused> {
    let Json(Following { token }) = asked?;
    if let Err(wait) = desk.door.invitations.take(&caller.network) {
        note(&desk, &caller, "refused-invitation", "", "tried too often").await;
        return Ok(too_often(wait));
    }
    let secret = Secret::new().map_err(|it| Refused::failed(&it))?;
    let begun = desk.store.begin_invited_session(&secret.hash, &hash_of(&token), desk.door.now()).await;
    let Some(person) = begun.map_err(|it| Refused::unkept(&desk, &it))? else {
        note(&desk, &caller, "refused-invitation", "", "").await;
        let help = "ask whoever sent it for another, and take the whole of its link";
        return Err(Refused::new(
            StatusCode::NOT_FOUND,
            "this invitation is over, or there is none such",
            help,
        ));
    };
    let cookie = caller.cookie.set(&secret.told, INVITED_SECONDS);
    welcome(&desk, &caller, "came-in", person, cookie).await
}

/// Lets somebody in whose session was begun. The one that their browser had before is over.
async fn welcome(
    desk: &Desk,
    caller: &Caller,
    what: &str,
    name: String,
    cookie: String,
) -> Result<Response, Refused> {
    if let Some(before) = &caller.session {
        desk.store.end_session(before).await.map_err(|it| Refused::unkept(desk, &it))?;
    }
    // Here, where the store is written anyway.
    desk.store.clear_sessions(desk.door.now()).await.map_err(|it| Refused::unkept(desk, &it))?;
    note(desk, caller, what, &name, "").await;
    Ok(([(SET_COOKIE, cookie)], Json(Welcome { name })).into_response())
}

/// Signs out: the session is over, also for whoever has kept its cookie.
#[utoipa::path(
    delete, path = "/api/1/session", tag = "people",
    responses((status = 204, description = "signed out, or was not in")),
)]
pub(crate) async fn sign_out(
    State(desk): State<Arc<Desk>>,
    Extension(caller): Extension<Caller>,
) -> Result<Response, Refused> {
    if let Some(session) = &caller.session {
        desk.store.end_session(session).await.map_err(|it| Refused::unkept(&desk, &it))?;
        note(&desk, &caller, "signed-out", caller.who.name(), "").await;
    }
    let cookie = caller.cookie.set("", 0);
    Ok((StatusCode::NO_CONTENT, [(SET_COOKIE, cookie)]).into_response())
}
