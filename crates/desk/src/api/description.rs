//! The description of this interface, from the routes and types themselves.

use axum::Json;
use utoipa::OpenApi;
use utoipa::openapi::OpenApi as Description;

#[derive(OpenApi)]
#[openapi(
    info(
        title = "Galley's desk",
        description = "What the pages of the desk use, on the machine that it runs on. A write must carry the token of \
                       a page in the header `x-desk-token`; a refusal says what was found and the next move.",
        version = "1"
    ),
    tags(
        (name = "pack", description = "the pack and its order"),
        (name = "puzzle", description = "one puzzle"),
        (name = "season", description = "where puzzles stand, and what setters are told"),
        (name = "jobs", description = "long work beside the pages"),
        (name = "solves", description = "test solves"),
        (name = "people", description = "who may come in"),
    ),
    paths(
        super::pack::pack,
        super::order::weigh,
        super::order::keep,
        super::news::news,
        super::new::begin,
        super::puzzle::puzzle,
        super::puzzle::seal,
        super::puzzle::write_seal,
        super::puzzle::step_board,
        super::board::verdict,
        super::board::keep,
        super::repair::repair,
        super::what_if::what_if,
        super::history::history,
        super::history::go_back,
        super::message::read,
        super::spare::spare,
        super::questions::ask_why,
        super::questions::judge,
        super::season::season,
        super::season::calendar,
        super::season::days,
        super::approval::approve,
        super::letter::letter,
        super::letter::plain,
        super::setters::keep,
        super::jobs::all,
        super::jobs::one,
        super::jobs::cancel,
        super::press::begin,
        super::press::there,
        super::press::page,
        super::gaps::gaps,
        super::gaps::begin,
        super::gaps::keep,
        super::gaps::discard,
        super::places::weigh_pin,
        super::places::pin,
        super::places::weigh_standing,
        super::places::stand,
        super::solves::all,
        super::solves::begin,
        super::solves::one,
        super::solves::events,
        super::solves::judge,
        super::help::help,
        super::hindsight::look_back,
        super::solves::write,
        super::session::sign_in,
        super::session::sign_out,
        super::session::follow,
        super::people::people,
        super::people::invite,
        super::people::revoke,
    ),
)]
struct Described;

/// The description itself.
#[utoipa::path(get, path = "/api/1/openapi.json", tag = "pack", responses((status = 200, description = "OpenAPI 3.1")))]
pub(crate) async fn description() -> Json<Description> {
    Json(Described::openapi())
}
