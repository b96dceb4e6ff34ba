//! What happens, told to pages that are open as it happens (server-sent events, WHATWG HTML section 9.2).

use std::convert::Infallible;
use std::sync::Arc;
use std::time::Duration;

use axum::extract::State;
use axum::response::sse::{Event, KeepAlive, Sse};
use tokio_stream::wrappers::{BroadcastStream, WatchStream};
use tokio_stream::{Stream, StreamExt};

use crate::state::{Desk, News};

/// How often a page hears of jobs at most.
const JOBS_EVERY: Duration = Duration::from_millis(200);

/// What is told.
enum Told {
    News(News),
    Jobs,
}

/// One word an event: `files` when a file has changed, `studied` when everything is found out about the files as they
/// are, `solves`, `trouble` when the folder cannot be read, `end` when the desk ends. Beside them, events of the
/// kind `jobs`: all jobs as they are, as `/jobs` gives them, at the beginning and whenever one goes on.
#[utoipa::path(
    get, path = "/api/1/news", tag = "pack",
    responses((status = 200, content_type = "text/event-stream", description = "one word an event, without end")),
)]
pub(crate) async fn news(
    State(desk): State<Arc<Desk>>,
) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    // Whoever was too slow to hear all looks at everything again.
    let heard = BroadcastStream::new(desk.listen()).map(|it| Told::News(it.unwrap_or(News::Files)));
    let of_jobs = WatchStream::new(desk.jobs.listen()).map(|_| Told::Jobs).throttle(JOBS_EVERY);
    let until_the_end = heard.merge(of_jobs).take_while(|it| !matches!(it, Told::News(News::End)));
    // Said at once, so that a page which was away knows that it listens again, and looks.
    let all = tokio_stream::once(Told::News(News::Files)).chain(until_the_end);
    let event = move |it| match it {
        Told::News(it) => Event::default().data(word(it)),
        Told::Jobs => {
            let jobs = serde_json::to_string(&desk.jobs.all()).unwrap_or_default();
            Event::default().event("jobs").data(jobs)
        }
    };
    Sse::new(all.map(move |it| Ok(event(it)))).keep_alive(KeepAlive::default())
}

fn word(news: News) -> &'static str {
    match news {
        News::Files => "files",
        News::Studied => "studied",
        News::Solves => "solves",
        News::Trouble => "trouble",
        News::End => "end",
    }
}
