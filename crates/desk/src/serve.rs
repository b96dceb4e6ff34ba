//! From a folder to a desk that answers, and to its end.

use std::future::Future;
use std::net::SocketAddr;
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::http::{StatusCode, Uri};
use axum::middleware::from_fn_with_state;
use axum::response::IntoResponse;
use tokio::net::TcpListener;
use tokio::sync::oneshot;
use tokio::time::sleep;

use crate::answers::Refused;
use crate::doors::{AccountChange, Cookie, Public, accounts_of, at_the_door, noting};
use crate::failure::Failure;
use crate::folder::Folder;
use crate::guard::{Guard, guarded};
use crate::pages::NoPage;
use crate::pressing::Press;
use crate::state::{Desk, kept_or_refused};
use crate::{api, pages, watch};

/// Far more than a page sends: the largest board with all its clues is a tenth of it.
const MOST_BYTES: usize = 256 << 10;

/// How soon somebody who wants to end the desk is heard.
const ASKED_EVERY: Duration = Duration::from_millis(100);

/// So long what was asked before the desk ends may take to be answered, and work that cannot be broken off to be done.
const LAST_ANSWERS: Duration = Duration::from_secs(2);

/// What desk to open, and where.
#[derive(Clone, Debug)]
pub struct Settings {
    /// The pack's folder.
    pub pack: PathBuf,
    /// Where to answer; port 0 takes any that is free. Other addresses than this machine's own take accounts, and
    /// `public_url`.
    pub address: SocketAddr,
    /// Where browsers reach the desk through a proxy that speaks TLS, as in `https://desk.example`.
    pub public_url: Option<String>,
    /// What presses the pack; with none, the page of the outputs says so.
    pub pressing: Option<Arc<dyn Press>>,
}

/// Serves the pack until `stop` is done. `ready` is told the address once it is answered.
///
/// It needs a tokio runtime with time and network, of one thread or more.
///
/// # Errors
///
/// If the pack cannot be opened, another desk works on it, or the address cannot be had.
pub async fn serve(
    settings: Settings,
    ready: impl FnOnce(SocketAddr),
    stop: impl Future<Output = ()> + Send + 'static,
) -> Result<(), Failure> {
    let address = settings.address;
    let public = may_be_reached(&settings).await?;
    // Before the folder is touched: an address that is taken is no reason to make anything there.
    let listener = TcpListener::bind(address).await.map_err(|it| {
        let help = "take another port, or port 0 for any that is free";
        Failure::new(format!("{address} cannot be had: {it}"), help)
    })?;
    let address = listener.local_addr().map_err(|it| Failure::new(it.to_string(), "try again"))?;
    let mut desk = Desk::open(Folder::take(&settings.pack)?).await?.reached_at(public);
    desk.pressing = settings.pressing;
    let desk = Arc::new(desk);
    let watching = tokio::spawn(watch::watch(Arc::clone(&desk)));
    let routes = routes(&desk, address.port());
    ready(address);
    let ending = Arc::clone(&desk);
    let (asked, was_asked) = oneshot::channel();
    let stop = async move {
        stop.await;
        // Pages that listen would keep the desk open for ever.
        ending.end();
        _ = asked.send(());
    };
    let routes = routes.into_make_service_with_connect_info::<SocketAddr>();
    let is_late = async {
        _ = was_asked.await;
        sleep(LAST_ANSWERS).await;
    };
    let served = tokio::select! {
        it = axum::serve(listener, routes).with_graceful_shutdown(stop) => it,
        () = is_late => Ok(()),
    };
    watching.abort();
    desk.store.close().await;
    // What is still being found out ends by itself, and writes nothing.
    desk.folder().let_go();
    served.map_err(|it| Failure::new(format!("the desk ended: {it}"), "start it again"))
}

/// How the desk is reached from elsewhere, if it may be.
async fn may_be_reached(settings: &Settings) -> Result<Option<Public>, Failure> {
    let (address, public_url) = (settings.address, &settings.public_url);
    let public = public_url.as_deref().map(Public::read).transpose()?;
    if public.is_none() && address.ip().is_loopback() {
        return Ok(None);
    }
    let place = public_url.clone().unwrap_or_else(|| address.to_string());
    if accounts_of(&settings.pack, AccountChange::None).await?.is_empty() {
        return Err(Failure::new(
            format!("{place} can be reached from other machines, and this desk has no accounts"),
            "add one with `galley desk PACK --add-account NAME`, or take an address of this machine alone, such as 127.0.0.1",
        ));
    }
    if public.is_none() {
        return Err(Failure::new(
            format!(
                "{place} can be reached from other machines, but nothing says how browsers get there by https"
            ),
            "put a proxy that speaks TLS before the desk and name it with `--public-url https://...`: without TLS \
             passwords and sessions could be read on the way",
        ));
    }
    Ok(public)
}

/// All routes, guarded.
pub(crate) fn routes(desk: &Arc<Desk>, port: u16) -> Router {
    let public = desk.door.public.as_ref();
    let guard = Arc::new(Guard::new(port, public, &desk.token, &desk.shown));
    let cookie = Cookie::new(port, public);
    let nothing = async |address: Uri| {
        let refused =
            Refused::new(StatusCode::NOT_FOUND, "there is nothing at this address", "go back to the pack");
        match address.path().starts_with("/api/") {
            true => refused.into_response(),
            false => NoPage::from(refused).into_response(),
        }
    };
    Router::new()
        .merge(pages::routes())
        .merge(api::routes())
        .fallback(nothing)
        .method_not_allowed_fallback(|| async {
            let help = "see what the description of this interface says";
            Refused::new(StatusCode::METHOD_NOT_ALLOWED, "that cannot be done here", help)
        })
        .layer(DefaultBodyLimit::max(MOST_BYTES))
        .layer(from_fn_with_state(Arc::clone(desk), kept_or_refused))
        .layer(from_fn_with_state((Arc::clone(desk), cookie), at_the_door))
        .layer(from_fn_with_state(guard, guarded))
        .layer(from_fn_with_state(Arc::clone(desk), noting))
        .with_state(Arc::clone(desk))
}

/// Serves the pack, on this thread, until `is_over` says so; it is asked ten times a second.
///
/// # Errors
///
/// As [`serve`], and if the system gives no means to wait on the network.
pub fn run(
    settings: Settings,
    ready: impl FnOnce(SocketAddr),
    is_over: impl Fn() -> bool + Send + 'static,
) -> Result<(), Failure> {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    let runtime = runtime.map_err(|it| Failure::new(format!("the desk cannot wait: {it}"), "try again"))?;
    let stop = async move {
        while !is_over() {
            sleep(ASKED_EVERY).await;
        }
    };
    let served = runtime.block_on(serve(settings, ready, stop));
    // Dropped, it would wait for work that goes on beside, however long that takes.
    runtime.shutdown_timeout(LAST_ANSWERS);
    served
}
