//! What happens, told to pages that are open as it happens (server-sent events, WHATWG HTML section 9.2).

use std::convert::Infallible;
use std::sync::Arc;

use axum::extract::State;
use axum::response::sse::{Event, KeepAlive, Sse};
use tokio_stream::wrappers::BroadcastStream;
use tokio_stream::{Stream, StreamExt};

use crate::state::{Desk, News};

/// One word an event: `files` when a file has changed, `studied` when everything is found out about the files as they
/// are, `solves`, `trouble` when the folder cannot be read, `end` when the desk ends.
#[utoipa::path(
    get, path = "/api/1/news", tag = "pack",
    responses((status = 200, content_type = "text/event-stream", description = "one word an event, without end")),
)]
pub(crate) async fn news(
    State(desk): State<Arc<Desk>>,
) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    // Whoever was too slow to hear all looks at everything again.
    let heard = BroadcastStream::new(desk.listen()).map(|it| it.unwrap_or(News::Files));
    let until_the_end = heard.take_while(|it| *it != News::End);
    // Said at once, so that a page which was away knows that it listens again, and looks.
    let all = tokio_stream::once("files").chain(until_the_end.map(word));
    Sse::new(all.map(|it| Ok(Event::default().data(it)))).keep_alive(KeepAlive::default())
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
