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

use crate::answers::Refused;
use crate::failure::Failure;
use crate::folder::Folder;
use crate::guard::{Guard, guarded};
use crate::pages::NoPage;
use crate::state::Desk;
use crate::{api, pages, watch};

/// Far more than a page sends: the largest board with all its clues is a tenth of it.
const MOST_BYTES: usize = 256 << 10;

/// How soon somebody who wants to end the desk is heard.
const ASKED_EVERY: Duration = Duration::from_millis(100);

/// What desk to open, and where.
#[derive(Clone, Debug)]
pub struct Settings {
    /// The pack's folder.
    pub pack: PathBuf,
    /// Where to answer; port 0 takes any that is free. Only this machine's own addresses: others take accounts, which are
    /// to come.
    pub address: SocketAddr,
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
    if !address.ip().is_loopback() {
        return Err(Failure::new(
            format!("{address} can be reached from other machines, and the desk has no accounts yet"),
            "take an address of this machine alone, such as 127.0.0.1",
        ));
    }
    // Before the folder is touched: an address that is taken is no reason to make anything there.
    let listener = TcpListener::bind(address).await.map_err(|it| {
        let help = "take another port, or port 0 for any that is free";
        Failure::new(format!("{address} cannot be had: {it}"), help)
    })?;
    let address = listener.local_addr().map_err(|it| Failure::new(it.to_string(), "try again"))?;
    let desk = Arc::new(Desk::open(Folder::take(&settings.pack)?).await?);
    let watching = tokio::spawn(watch::watch(Arc::clone(&desk)));
    let routes = routes(&desk, address.port());
    ready(address);
    let ending = Arc::clone(&desk);
    let stop = async move {
        stop.await;
        // Pages that listen would keep the desk open for ever.
        ending.end();
    };
    let served = axum::serve(listener, routes).with_graceful_shutdown(stop).await;
    watching.abort();
    desk.store.close().await;
    // What is still being found out ends by itself, and writes nothing.
    desk.folder().let_go();
    served.map_err(|it| Failure::new(format!("the desk ended: {it}"), "start it again"))
}

/// All routes, guarded.
pub(crate) fn routes(desk: &Arc<Desk>, port: u16) -> Router {
    let guard = Arc::new(Guard::new(port, &desk.token));
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
        .layer(from_fn_with_state(guard, guarded))
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
            tokio::time::sleep(ASKED_EVERY).await;
        }
    };
    runtime.block_on(serve(settings, ready, stop))
}
