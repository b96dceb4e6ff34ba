//! What happens, told to pages that are open as it happens (server-sent events, WHATWG HTML section 9.2).

use std::convert::Infallible;
use std::sync::Arc;
use std::time::Duration;

use axum::extract::{Extension, State};
use axum::response::sse::{Event, KeepAlive, Sse};
use tokio::sync::mpsc;
use tokio::time::sleep;
use tokio_stream::wrappers::{BroadcastStream, ReceiverStream, WatchStream};
use tokio_stream::{Stream, StreamExt};

use crate::doors::{Caller, is_still};
use crate::state::{Desk, News};

/// How often a page hears of jobs at most.
const JOBS_EVERY: Duration = Duration::from_millis(200);

/// How often it is looked whether whoever listens still may.
const LOOKED_EVERY: Duration = Duration::from_secs(60);

/// What is told.
enum Told {
    News(News),
    Jobs,
    /// Nothing any more, to somebody who has signed out or was shut out.
    Over,
}

/// One word an event: `files` when a file has changed, `noted` when what another program did is in its history, `studied`
/// when everything is found out about the files as they are, `solves`, `trouble` when something cannot be read, kept or found out, `end` when the desk ends. Beside them, events of the
/// kind `jobs`: all jobs as they are, as `/jobs` gives them, at the beginning and whenever one goes on. It ends within a
/// minute for whoever may no longer ask for it.
#[utoipa::path(
    get, path = "/api/1/news", tag = "pack",
    responses((status = 200, content_type = "text/event-stream", description = "one word an event, without end")),
)]
pub(crate) async fn news(
    State(desk): State<Arc<Desk>>,
    Extension(caller): Extension<Caller>,
) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    // Whoever was too slow to hear all looks at everything again.
    let heard = BroadcastStream::new(desk.listen()).map(|it| Told::News(it.unwrap_or(News::Files)));
    let of_jobs = WatchStream::new(desk.jobs.listen()).map(|_| Told::Jobs).throttle(JOBS_EVERY);
    let over = over_when_shut_out(Arc::clone(&desk), caller);
    let until_the_end = heard.merge(of_jobs).merge(over);
    let until_the_end = until_the_end.take_while(|it| !matches!(it, Told::News(News::End) | Told::Over));
    // Said at once, so that a page which was away knows that it listens again, and looks.
    let all = tokio_stream::once(Told::News(News::Files)).chain(until_the_end);
    let event = move |it| match it {
        Told::News(it) => Event::default().data(word(it)),
        Told::Jobs => {
            let jobs = serde_json::to_string(&desk.jobs.all()).unwrap_or_default();
            Event::default().event("jobs").data(jobs)
        }
        Told::Over => Event::default(),
    };
    Sse::new(all.map(move |it| Ok(event(it)))).keep_alive(KeepAlive::default())
}

/// Tells when whoever listens no longer may.
fn over_when_shut_out(desk: Arc<Desk>, caller: Caller) -> ReceiverStream<Told> {
    let (over, is_over) = mpsc::channel(1);
    tokio::spawn(async move {
        loop {
            tokio::select! {
                () = over.closed() => return,
                () = sleep(LOOKED_EVERY) => {}
            }
            if !is_still(&desk, &caller).await {
                _ = over.send(Told::Over).await;
                return;
            }
        }
    });
    ReceiverStream::new(is_over)
}

fn word(news: News) -> &'static str {
    match news {
        News::Files => "files",
        News::Noted => "noted",
        News::Studied => "studied",
        News::Solves => "solves",
        News::Trouble => "trouble",
        News::End => "end",
    }
}
