//! Whom an editor lets in: accounts, invitations, and what happened at the door.

use std::sync::Arc;

use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Extension, Path, State};
use axum::http::StatusCode;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::answers::{Refused, RefusedBody};
use crate::doors::{Caller, Secret, Who, is_name, note};
use crate::state::Desk;
use crate::store::{DoorNote, NewInvitation};

const DAY: i64 = 24 * 60 * 60;
/// So many days an invitation lasts at most.
pub(crate) const MOST_DAYS: u16 = 90;
/// So many puzzles it is for at most.
const MOST_PUZZLES: usize = 200;

/// Whom an editor lets in.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct People {
    /// The names of the editors' accounts. With none, the desk is open to whoever reaches it, and nobody can be invited.
    pub(crate) accounts: Vec<String>,
    /// The latest invitations, the last first.
    pub(crate) invitations: Vec<InvitationNow>,
    /// What happened at the door, the last first.
    pub(crate) notes: Vec<DoorNote>,
}

/// An invitation. Its link is told once, when it is made.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct InvitationNow {
    /// What it is called.
    pub(crate) id: String,
    /// `tester` or `setter`.
    pub(crate) role: String,
    /// Who is invited.
    pub(crate) person: String,
    /// Whose account made it.
    pub(crate) made_by: String,
    /// The ids of the puzzles to solve.
    pub(crate) puzzles: Vec<String>,
    /// So many whole days it lasts from now on.
    pub(crate) days_left: i64,
    /// `open`, `over` or `revoked`.
    pub(crate) state: String,
    /// Whether it was followed.
    pub(crate) is_used: bool,
}

/// An invitation to make.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct InvitationToMake {
    /// `tester`: solves the puzzles that are named, and sees nothing of their solutions; `setter`: reads what was found out
    /// about the puzzles that bear their name.
    pub(crate) role: String,
    /// Who is invited. A setter's name stands in one of the pack's puzzles.
    pub(crate) person: String,
    /// The ids of the puzzles that a tester is to solve; none for a setter.
    #[serde(default)]
    pub(crate) puzzles: Vec<String>,
    /// So many days it lasts, 90 at most.
    pub(crate) days: u16,
}

/// An invitation that was made.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct InvitationMade {
    /// What it is called.
    pub(crate) id: String,
    /// The path and the rest of its link, from the desk's address on. It is told this once.
    pub(crate) link: String,
}

/// Whom the editors let in.
#[utoipa::path(get, path = "/api/1/people", tag = "people", responses((status = 200, body = People)))]
pub(crate) async fn people(State(desk): State<Arc<Desk>>) -> Result<Json<People>, Refused> {
    of(&desk).await.map(Json)
}

/// The same, for the page.
pub(crate) async fn of(desk: &Desk) -> Result<People, Refused> {
    let unkept = |it| Refused::unkept(desk, &it);
    let now = desk.door.now();
    let mut invitations = Vec::new();
    for it in desk.store.invitations().await.map_err(unkept)? {
        let state = match it.revoked_at {
            Some(_) => "revoked",
            None if it.ends_at <= now => "over",
            None => "open",
        };
        invitations.push(InvitationNow {
            puzzles: desk.store.assigned(&it.id).await.map_err(unkept)?,
            days_left: (it.ends_at - now).max(0) / DAY,
            state: state.to_owned(),
            is_used: it.used_at.is_some(),
            id: it.id,
            role: it.role,
            person: it.person,
            made_by: it.made_by,
        });
    }
    let accounts = desk.store.accounts().await.map_err(unkept)?;
    Ok(People { accounts, invitations, notes: desk.store.door_notes().await.map_err(unkept)? })
}

/// Makes an invitation.
#[utoipa::path(
    post, path = "/api/1/invitations", tag = "people", request_body = InvitationToMake,
    responses((status = 201, body = InvitationMade), (status = 403, body = RefusedBody), (status = 404, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn invite(
    State(desk): State<Arc<Desk>>,
    Extension(caller): Extension<Caller>,
    asked: Result<Json<InvitationToMake>, JsonRejection>,
) -> Result<(StatusCode, Json<InvitationMade>), Refused> {
    let Json(InvitationToMake { role, person, mut puzzles, days }) = asked?;
    let Who::Editor(Some(editor)) = &caller.who else {
        let help = "add one with `galley desk PACK --add-account NAME`, and sign in";
        let message = "nobody can be invited to a desk that has no accounts: everybody is in already";
        return Err(Refused::new(StatusCode::FORBIDDEN, message, help));
    };
    if !is_name(&person) {
        return Err(Refused::unfit("say who is invited, on one line of at most 80 letters"));
    }
    if !(1..=MOST_DAYS).contains(&days) {
        return Err(Refused::unfit(format!("an invitation lasts from 1 to {MOST_DAYS} days")));
    }
    puzzles.sort();
    puzzles.dedup();
    let reading = desk.view().reading;
    let entries = &reading.read.pack.entries;
    let is_there = |id: &String| entries.iter().any(|it| it.id.as_str() == id);
    match &role[..] {
        "tester" if puzzles.is_empty() || puzzles.len() > MOST_PUZZLES => {
            return Err(Refused::unfit(format!(
                "say which puzzles are to be solved, {MOST_PUZZLES} at most"
            )));
        }
        "tester" if !puzzles.iter().all(is_there) => return Err(Refused::no_puzzle()),
        "tester" => {}
        "setter" if !puzzles.is_empty() => {
            return Err(Refused::unfit("a setter sees the puzzles that bear their name, and no others"));
        }
        "setter" if !entries.iter().any(|it| it.setter == person) => {
            return Err(Refused::unfit("no puzzle of the pack bears the name of that setter"));
        }
        "setter" => {}
        _ => return Err(Refused::unfit("a `tester` or a `setter` is invited")),
    }
    let failed = |it| Refused::failed(&it);
    let (id, secret) = (Secret::new().map_err(failed)?.told[..16].to_owned(), Secret::new().map_err(failed)?);
    let now = desk.door.now();
    let made = NewInvitation {
        id: &id,
        token: &secret.hash,
        role: &role,
        person: &person,
        made_by: editor,
        puzzles: &puzzles,
        ends_at: now + i64::from(days) * DAY,
    };
    desk.store.invite(made, now).await.map_err(|it| Refused::unkept(&desk, &it))?;
    note(&desk, &caller, "invited", editor, &format!("{person}, {role}")).await;
    // Behind a `#`, the token reaches no log of a server or proxy on its way.
    let link = format!("/invited#{}", secret.told);
    Ok((StatusCode::CREATED, Json(InvitationMade { id, link })))
}

/// Revokes an invitation. Whoever came in by it is out; what they have solved stays.
#[utoipa::path(
    delete, path = "/api/1/invitations/{id}", tag = "people",
    params(("id" = String, Path, description = "what the invitation is called")),
    responses((status = 204), (status = 404, body = RefusedBody)),
)]
pub(crate) async fn revoke(
    State(desk): State<Arc<Desk>>,
    Extension(caller): Extension<Caller>,
    Path(id): Path<String>,
) -> Result<StatusCode, Refused> {
    let revoked = desk.store.revoke(&id, desk.door.now()).await.map_err(|it| Refused::unkept(&desk, &it))?;
    let Some(person) = revoked else {
        let help = "load the page again to see which there are";
        return Err(Refused::new(StatusCode::NOT_FOUND, "no invitation is called so", help));
    };
    note(&desk, &caller, "revoked", caller.who.name(), &person).await;
    Ok(StatusCode::NO_CONTENT)
}
