//! What each but an editor may ask for. It is a list, so that a route that is added later is closed to all of them until
//! somebody writes it here.

use axum::extract::{MatchedPath, Request};
use axum::http::Method;

use super::{Invited, Who};
use crate::state::Desk;
use crate::store::Unkept;

/// Of which puzzle or test solve an address with `{id}` may be.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Of {
    /// There is none in it.
    Any,
    /// One of the puzzles that the tester was invited to solve.
    Assigned,
    /// A test solve that was begun by the same invitation.
    OwnSolve,
}

type Route = (Method, &'static str, Of);

/// What anybody may ask for: what it takes to come in.
const ANYBODY: [Route; 10] = [
    (Method::GET, "/desk.css", Of::Any),
    (Method::GET, "/sheet.css", Of::Any),
    (Method::GET, "/icon.svg", Of::Any),
    (Method::GET, "/play/{name}", Of::Any),
    (Method::GET, "/play/sheet/{name}", Of::Any),
    // Outputs run in a sandbox without a session; the secret in their addresses is what lets one in.
    (Method::GET, "/pressed/{token}/{*name}", Of::Any),
    (Method::GET, "/invited", Of::Any),
    (Method::POST, "/api/1/invited", Of::Any),
    (Method::POST, "/api/1/session", Of::Any),
    (Method::DELETE, "/api/1/session", Of::Any),
];

const TESTER: [Route; 7] = [
    (Method::GET, "/yours", Of::Any),
    (Method::GET, "/puzzles/{id}/solve", Of::Assigned),
    // Which puzzle is in the body: the route itself looks whether it is assigned.
    (Method::POST, "/api/1/solves", Of::Any),
    (Method::GET, "/api/1/solves/{id}", Of::OwnSolve),
    (Method::POST, "/api/1/solves/{id}/events", Of::OwnSolve),
    (Method::POST, "/api/1/solves/{id}/judged", Of::OwnSolve),
    // A part of one step from where the solver is, when it is asked for; the desk notes that it was.
    (Method::POST, "/api/1/solves/{id}/help", Of::OwnSolve),
];

const SETTER: [Route; 1] = [(Method::GET, "/yours", Of::Any)];

/// What is asked for.
pub(super) struct Asked {
    pub(super) method: Method,
    pub(super) path: String,
    route: Option<MatchedPath>,
}

impl Asked {
    pub(super) fn of(request: &Request) -> Asked {
        Asked {
            method: request.method().clone(),
            path: request.uri().path().to_owned(),
            route: request.extensions().get::<MatchedPath>().cloned(),
        }
    }

    pub(super) fn is_write(&self) -> bool {
        !matches!(self.method, Method::GET | Method::HEAD)
    }
}

/// Whether that may be answered.
pub(super) async fn may(desk: &Desk, who: &Who, asked: &Asked) -> Result<bool, Unkept> {
    let own: &[Route] = match who {
        Who::Editor(_) => return Ok(true),
        Who::Tester(_) => &TESTER,
        Who::Setter(_) => &SETTER,
        Who::Nobody => &[],
    };
    let Some(route) = &asked.route else { return Ok(false) };
    let method = if asked.method == Method::HEAD { &Method::GET } else { &asked.method };
    let listed = ANYBODY.iter().chain(own).find(|it| it.0 == method && it.1 == route.as_str());
    match (listed, who.invited()) {
        (Some((_, _, Of::Any)), _) => Ok(true),
        (Some((_, pattern, of)), Some(invited)) => {
            is_theirs(desk, invited, *of, id_in(pattern, &asked.path)).await
        }
        _ => Ok(false),
    }
}

/// The text in the place of `{id}`, as it was sent: written in another way it is nobody's.
fn id_in<'a>(pattern: &str, path: &'a str) -> Option<&'a str> {
    let at = pattern.split('/').position(|it| it == "{id}")?;
    path.split('/').nth(at)
}

async fn is_theirs(desk: &Desk, invited: &Invited, of: Of, id: Option<&str>) -> Result<bool, Unkept> {
    let Some(id) = id else { return Ok(false) };
    match of {
        Of::Any => Ok(false),
        Of::Assigned => Ok(desk.store.assigned(&invited.invitation).await?.iter().any(|it| it == id)),
        Of::OwnSolve => desk.store.is_solve_of(id, &invited.invitation).await,
    }
}
