//! Who may come in: each request is somebody's before anything else looks at it.
//!
//! Without an account the desk is open to whoever reaches it, and it listens on this machine alone. With accounts a
//! request is an editor's, an invited tester's or setter's, or nobody's, as its cookie says; what each but an editor may
//! ask for is a list (`roles`), and whatever is not on it there is not. How often is counted (`limits`), and what happens
//! is noted (`Store::note_at_door`).
//!
//! Left out: several rights among editors, and a second factor.

mod accounts;
mod limits;
mod password;
mod public;
mod roles;
mod secret;

use std::net::{IpAddr, Ipv6Addr, SocketAddr};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use axum::extract::{ConnectInfo, Request, State};
use axum::http::header::{COOKIE, RETRY_AFTER};
use axum::http::{HeaderMap, Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Redirect, Response};
use tokio::sync::Semaphore;
use tokio::time::Instant;

use crate::answers::Refused;
use crate::pages::{NoPage, sign_in};
use crate::state::Desk;
use crate::store::Unkept;

pub(crate) use accounts::changed as accounts_of;
pub use accounts::{AccountChange, accounts};
use limits::Limit;
pub(crate) use public::Public;
use roles::{Asked, may};
pub(crate) use secret::{Secret, hash_of};

const MINUTE: Duration = Duration::from_secs(60);
/// Seconds after which an editor's session that was not used is over, and after which any is.
const EDITORS_SECONDS: (i64, i64) = (12 * 60 * 60, 7 * 24 * 60 * 60);
/// An invited person's session lasts as long as the invitation, if it is used once in so many seconds.
const INVITED_IDLE: i64 = 30 * 24 * 60 * 60;
/// How long a name or an address may be.
const MOST_LETTERS: usize = 80;

/// Whose a request is.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) enum Who {
    /// An editor; no name on a desk without accounts.
    Editor(Option<String>),
    /// Somebody who was invited to solve puzzles.
    Tester(Invited),
    /// Somebody who was invited to read about their own puzzles.
    Setter(Invited),
    /// Anybody.
    Nobody,
}

/// Somebody who was invited.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Invited {
    /// The invitation.
    pub(crate) invitation: String,
    /// Their name.
    pub(crate) person: String,
}

/// Who asks, and from where.
#[derive(Clone, Debug)]
pub(crate) struct Caller {
    pub(crate) who: Who,
    /// The hash of their session's token.
    pub(crate) session: Option<String>,
    /// Where from, as far as that is known.
    pub(crate) address: String,
    /// What is counted as one place.
    pub(crate) network: String,
    /// What the desk's cookie looks like.
    pub(crate) cookie: Cookie,
}

/// What the desk's cookie looks like. Under https its name keeps other hosts from setting it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Cookie {
    name: String,
    is_secure: bool,
}

/// What the desk knows of its door.
#[derive(Debug)]
pub(crate) struct Door {
    /// How it is reached from elsewhere.
    pub(crate) public: Option<Public>,
    pub(crate) sign_in_by_name: Limit,
    pub(crate) sign_in_by_address: Limit,
    pub(crate) invitations: Limit,
    writes: Limit,
    seeing: Limit,
    notes: Limit,
    /// Each password that is checked takes 19 MiB and a core.
    pub(crate) checking: Semaphore,
    /// Once there was an account, the door stays shut, even if the last one is taken away while the desk runs.
    is_shut: AtomicBool,
    /// There was none when that was last asked.
    was_open: AtomicBool,
    began: (SystemTime, Instant),
}

impl Door {
    pub(crate) fn new(public: Option<Public>) -> Door {
        #[expect(clippy::disallowed_methods, reason = "sessions and invitations end by the clock")]
        let now = SystemTime::now();
        Door {
            public,
            sign_in_by_name: Limit::new(10, MINUTE),
            sign_in_by_address: Limit::new(20, MINUTE / 4),
            invitations: Limit::new(20, MINUTE / 2),
            // A page sends two or three a second while somebody types; a tester's, after hours offline, some dozens at once.
            writes: Limit::new(300, MINUTE / 1200),
            seeing: Limit::new(1, MINUTE),
            notes: Limit::new(60, MINUTE / 60),
            checking: Semaphore::new(2),
            is_shut: AtomicBool::new(false),
            was_open: AtomicBool::new(false),
            began: (now, Instant::now()),
        }
    }

    /// Seconds since 1970 began: by the clock on the wall or by the time that has passed, whichever is later, so that
    /// neither a clock that is put back nor a machine that slept makes a session longer.
    pub(crate) fn now(&self) -> i64 {
        #[expect(clippy::disallowed_methods, reason = "sessions and invitations end by the clock")]
        let wall = SystemTime::now();
        let (began, since) = self.began;
        let now = wall.max(began + since.elapsed()).duration_since(UNIX_EPOCH).unwrap_or_default();
        i64::try_from(now.as_secs()).unwrap_or(i64::MAX)
    }
}

impl Cookie {
    pub(crate) fn new(port: u16, public: Option<&Public>) -> Cookie {
        match public {
            Some(_) => Cookie { name: "__Host-galley-desk".to_owned(), is_secure: true },
            // Cookies know no ports: two desks on one machine would take each other's.
            None => Cookie { name: format!("galley-desk-{port}"), is_secure: false },
        }
    }

    /// The header that has a browser keep a token for so many seconds.
    pub(crate) fn set(&self, token: &str, seconds: i64) -> String {
        let secure = if self.is_secure { "; Secure" } else { "" };
        format!("{}={token}; Path=/; Max-Age={seconds}; HttpOnly; SameSite=Strict{secure}", self.name)
    }

    /// The token that a browser sends.
    fn of<'a>(&self, headers: &'a HeaderMap) -> Option<&'a str> {
        let texts = headers.get_all(COOKIE).iter().filter_map(|it| it.to_str().ok());
        let mut pairs = texts.flat_map(|it| it.split(';')).filter_map(|it| it.trim().split_once('='));
        pairs.find(|it| it.0 == self.name).map(|it| it.1).filter(|it| it.len() == 64)
    }
}

impl Who {
    /// The name to note.
    pub(crate) fn name(&self) -> &str {
        match self {
            Who::Editor(name) => name.as_deref().unwrap_or_default(),
            Who::Tester(it) | Who::Setter(it) => &it.person,
            Who::Nobody => "",
        }
    }

    /// Whoever was invited.
    pub(crate) fn invited(&self) -> Option<&Invited> {
        match self {
            Who::Tester(it) | Who::Setter(it) => Some(it),
            Who::Editor(_) | Who::Nobody => None,
        }
    }
}

/// How long a session of an editor lasts at most.
pub(crate) const fn editors_seconds() -> i64 {
    EDITORS_SECONDS.1
}

/// Whether it can be the name of a person: one line, not empty, not endless.
pub(crate) fn is_name(it: &str) -> bool {
    !it.trim().is_empty() && it.trim() == it && it.len() <= MOST_LETTERS && !it.contains(char::is_control)
}

/// The refusal of what was tried too often.
pub(crate) fn too_often(wait: Duration) -> Response {
    let seconds = wait.as_secs() + u64::from(wait.subsec_nanos() > 0);
    let help = format!("wait {seconds} seconds and try again");
    let refused = Refused::new(StatusCode::TOO_MANY_REQUESTS, "that was tried too often", help);
    ([(RETRY_AFTER, seconds.to_string())], refused).into_response()
}

/// Checks a password, or nobody's if there is none of that name, in the same time.
pub(crate) async fn is_right(desk: &Desk, password: String, hash: Option<String>) -> bool {
    let Ok(_one_of_few) = desk.door.checking.acquire().await else { return false };
    let is_anybodys = hash.is_some();
    let hash = hash.unwrap_or_else(|| password::NOBODYS.to_owned());
    let is_right = tokio::task::spawn_blocking(move || password::is_right(&password, &hash)).await;
    is_right.unwrap_or(false) && is_anybodys
}

/// Finds out whose a request is, and whether that is somebody to whom the answer may go.
pub(crate) async fn at_the_door(
    State((desk, cookie)): State<(Arc<Desk>, Cookie)>,
    mut request: Request,
    next: Next,
) -> Response {
    let token = cookie.of(request.headers()).map(hash_of);
    let who = match who(&desk, token.as_deref()).await {
        Ok(it) => it,
        Err(unkept) => return Refused::unkept(&desk, &unkept).into_response(),
    };
    let address = address_of(&desk, &request);
    let caller = Caller {
        session: token.filter(|_| who != Who::Nobody),
        address: told(address),
        network: told(address.map(network_of)),
        who,
        cookie,
    };
    let asked = Asked::of(&request);
    let mut answer = match admitted(&desk, &caller, &asked).await {
        Ok(()) => {
            request.extensions_mut().insert(caller.clone());
            next.run(request).await
        }
        Err(refused) => refused,
    };
    answer.extensions_mut().insert(Asker(caller.who));
    answer
}

async fn admitted(desk: &Desk, caller: &Caller, asked: &Asked) -> Result<(), Response> {
    if asked.is_write()
        && let Some(session) = &caller.session
        && let Err(wait) = desk.door.writes.take(session)
    {
        return Err(too_often(wait));
    }
    let is_api = asked.path.starts_with("/api/");
    match may(desk, &caller.who, asked).await {
        Err(unkept) => Err(Refused::unkept(desk, &unkept).into_response()),
        Ok(true) => Ok(()),
        Ok(false) if caller.who == Who::Nobody => match is_api || asked.is_write() {
            true => {
                let help = "load the page again and sign in, or follow your invitation once more";
                let message = "nobody is signed in here";
                Err(Refused::new(StatusCode::UNAUTHORIZED, message, help).into_response())
            }
            false => Err((StatusCode::UNAUTHORIZED, sign_in(desk)).into_response()),
        },
        Ok(false) if asked.path == "/" && !asked.is_write() => Err(Redirect::to("/yours").into_response()),
        Ok(false) => {
            let help = "go back to what you were invited to";
            let refused = Refused::new(StatusCode::NOT_FOUND, "there is nothing at this address", help);
            Err(if is_api { refused.into_response() } else { NoPage::from(refused).into_response() })
        }
    }
}

/// Whose a session is, which is seen by it.
async fn who(desk: &Desk, session: Option<&str>) -> Result<Who, Unkept> {
    let (who, seen_at) = whose(desk, session).await?;
    let now = desk.door.now();
    // Once a minute is as exact as hours need. A store that can be read and not written keeps nobody from reading, nor
    // does it keep them waiting more often.
    if let Some(session) = session
        && seen_at <= now - 60
        && desk.door.seeing.take(session).is_ok()
    {
        _ = desk.store.see_session(session, now).await;
    }
    Ok(who)
}

/// Whether a request that came in would come in now.
pub(crate) async fn is_still(desk: &Desk, caller: &Caller) -> bool {
    // A store that cannot be asked leaves it as it was.
    whose(desk, caller.session.as_deref()).await.map_or(true, |it| it.0 == caller.who)
}

/// Whose a session is, and when it was last seen.
async fn whose(desk: &Desk, session: Option<&str>) -> Result<(Who, i64), Unkept> {
    let now = desk.door.now();
    let idle = EDITORS_SECONDS.0.max(INVITED_IDLE);
    let found = match session {
        Some(it) => desk.store.session(it, now, idle).await?,
        None => None,
    };
    if let Some(found) = found {
        let is_fresh = |idle: i64| found.seen_at > now - idle;
        let invited = || {
            let (invitation, person) = (found.invitation.clone()?, found.person.clone()?);
            Some(Invited { invitation, person })
        };
        let who = match (found.account.clone(), found.role.as_deref()) {
            (Some(name), _) if is_fresh(EDITORS_SECONDS.0) => Some(Who::Editor(Some(name))),
            (None, Some("tester")) => invited().map(Who::Tester),
            (None, Some("setter")) => invited().map(Who::Setter),
            _ => None,
        };
        if let Some(who) = who {
            return Ok((who, found.seen_at));
        }
    }
    if is_shut(desk).await? {
        return Ok((Who::Nobody, now));
    }
    Ok((Who::Editor(None), now))
}

/// Whether there are accounts, or were since the desk runs. A store that cannot be asked leaves it as it was.
async fn is_shut(desk: &Desk) -> Result<bool, Unkept> {
    let door = &desk.door;
    if door.public.is_some() || door.is_shut.load(Ordering::Relaxed) {
        return Ok(true);
    }
    match desk.store.has_accounts().await {
        Ok(is_shut) => {
            // Once shut it stays so, whatever a request that was asked meanwhile was told.
            door.is_shut.fetch_or(is_shut, Ordering::Relaxed);
            door.was_open.store(!is_shut, Ordering::Relaxed);
            Ok(is_shut)
        }
        Err(_) if door.was_open.load(Ordering::Relaxed) => Ok(false),
        Err(unkept) => Err(unkept),
    }
}

/// Where a request comes from. What a proxy says is believed only of one on this machine, and only the last that it says:
/// what stands before may be anybody's invention.
fn address_of(desk: &Desk, request: &Request) -> Option<IpAddr> {
    let peer = request.extensions().get::<ConnectInfo<SocketAddr>>().map(|it| it.0.ip());
    let is_proxy = desk.door.public.is_some() && peer.is_some_and(|it| it.is_loopback());
    let told = request.headers().get_all("x-forwarded-for").iter().next_back();
    let told = told.and_then(|it| it.to_str().ok()?.rsplit(',').next()?.trim().parse::<IpAddr>().ok());
    told.filter(|_| is_proxy).or(peer).map(|it| it.to_canonical())
}

/// Of IPv6 each subscriber has 2^64 addresses at least (RFC 6177), which count as one.
fn network_of(address: IpAddr) -> IpAddr {
    match address {
        IpAddr::V4(_) => address,
        IpAddr::V6(it) => Ipv6Addr::from_bits(it.to_bits() >> 64 << 64).into(),
    }
}

fn told(address: Option<IpAddr>) -> String {
    address.map(|it| it.to_string()).unwrap_or_default()
}

/// Who asked, beside the answer.
#[derive(Clone, Debug)]
struct Asker(Who);

/// Notes writes that were refused, whoever refused them.
pub(crate) async fn noting(State(desk): State<Arc<Desk>>, request: Request, next: Next) -> Response {
    let method = request.method().clone();
    let (path, address) = (request.uri().path().to_owned(), told(address_of(&desk, &request)));
    let answer = next.run(request).await;
    let asked = answer.extensions().get::<Asker>();
    let is_write = !matches!(method, Method::GET | Method::HEAD);
    let is_invited = asked.is_some_and(|it| it.0.invited().is_some());
    // Those that come in note themselves what became of it; but not what never reached them.
    let is_noted = asked.is_some() && ["/api/1/session", "/api/1/invited"].contains(&&path[..]);
    let is_refused = match answer.status().as_u16() {
        401 | 403 | 413 | 421 | 429 => true,
        404 => is_invited,
        _ => false,
    };
    if is_write && is_refused && !is_noted && desk.door.notes.take("").is_ok() {
        let who = asked.map_or("", |it| it.0.name());
        let about: String =
            format!("{method} {path}, {}", answer.status().as_u16()).chars().take(160).collect();
        // That it was refused stands, whether or not it can be noted.
        _ = desk.store.note_at_door("write-refused", who, &address, &about).await;
    }
    answer
}

/// Notes what happened; where the store cannot take it, what happened has happened all the same.
pub(crate) async fn note(desk: &Desk, caller: &Caller, what: &str, who: &str, about: &str) {
    if desk.door.notes.take(what).is_ok() {
        _ = desk.store.note_at_door(what, who, &caller.address, about).await;
    }
}
