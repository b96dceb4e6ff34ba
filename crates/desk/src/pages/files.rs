//! What pages load: the style, the icon, the scripts. All of it is in the program.

use axum::extract::Path;
use axum::http::StatusCode;
use axum::http::header::CONTENT_TYPE;
use axum::response::IntoResponse;

use crate::answers::Refused;

const SCRIPTS: &[(&str, &str)] = &[
    ("api.js", include_str!("../../play/api.js")),
    ("asking.js", include_str!("../../play/asking.js")),
    ("board.js", include_str!("../../play/board.js")),
    ("gaps.js", include_str!("../../play/gaps.js")),
    ("helper.js", include_str!("../../play/helper.js")),
    ("history.js", include_str!("../../play/history.js")),
    ("jobs.js", include_str!("../../play/jobs.js")),
    ("known.js", include_str!("../../play/known.js")),
    ("letter.js", include_str!("../../play/letter.js")),
    ("log.js", include_str!("../../play/log.js")),
    ("pack.js", include_str!("../../play/pack.js")),
    ("people.js", include_str!("../../play/people.js")),
    ("places.js", include_str!("../../play/places.js")),
    ("press.js", include_str!("../../play/press.js")),
    ("puzzle.js", include_str!("../../play/puzzle.js")),
    ("reading.js", include_str!("../../play/reading.js")),
    ("season.js", include_str!("../../play/season.js")),
    ("signing.js", include_str!("../../play/signing.js")),
    ("solve.js", include_str!("../../play/solve.js")),
    ("solves.js", include_str!("../../play/solves.js")),
    ("typed.js", include_str!("../../play/typed.js")),
];

/// The site's playing sheet, as its modules stand. They are taken as files: the crate itself would bring all that draws and
/// reads back a site.
const SHEET: &[(&str, &str)] = &[
    ("board.js", include_str!("../../../site/play/board.js")),
    ("clock.js", include_str!("../../../site/play/clock.js")),
    ("footline.js", include_str!("../../../site/play/footline.js")),
    ("help.js", include_str!("../../../site/play/help.js")),
    ("puzzle.js", include_str!("../../../site/play/puzzle.js")),
    ("sheet.js", include_str!("../../../site/play/sheet.js")),
    ("store.js", include_str!("../../../site/play/store.js")),
    ("words.js", include_str!("../../../site/play/words.js")),
];

pub(super) async fn style() -> impl IntoResponse {
    // Boards have from 4 to 16 columns, and a page may hold no style that says how many.
    let sides = (4..=16).map(|it| format!(".side-{it} {{ --side: {it}; }}\n"));
    let style = [page::style(), include_str!("desk.css").to_owned(), include_str!("jobs.css").to_owned()]
        .into_iter()
        .chain(sides);
    ([(CONTENT_TYPE, "text/css; charset=utf-8")], style.collect::<String>())
}

pub(super) async fn icon() -> impl IntoResponse {
    let icon = draw::standalone(&draw::swatch(draw::Mark::Filling, "A filling cell"));
    ([(CONTENT_TYPE, "image/svg+xml")], icon)
}

/// The rules of the site's sheet, for the page that has one.
pub(super) async fn sheet_style() -> impl IntoResponse {
    const STYLE: &str =
        concat!(include_str!("../../../site/src/play.css"), "\n", include_str!("../../../site/src/site.css"));
    ([(CONTENT_TYPE, "text/css; charset=utf-8")], STYLE)
}

pub(super) async fn script(Path(name): Path<String>) -> Result<impl IntoResponse, Refused> {
    of(SCRIPTS, &name)
}

pub(super) async fn sheet_script(Path(name): Path<String>) -> Result<impl IntoResponse, Refused> {
    of(SHEET, &name)
}

fn of(scripts: &[(&str, &'static str)], name: &str) -> Result<impl IntoResponse + use<>, Refused> {
    let script = scripts.iter().find(|it| it.0 == name).map(|it| it.1);
    let nothing = || Refused::new(StatusCode::NOT_FOUND, "there is no such script", "load the page again");
    let script = script.ok_or_else(nothing)?;
    Ok(([(CONTENT_TYPE, "text/javascript; charset=utf-8")], script))
}
