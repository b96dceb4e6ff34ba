//! Pressing the pack, what was pressed, and pages of booklets as pictures.

use std::fs;
use std::path::{Path as FilePath, PathBuf};
use std::sync::Arc;

use ::pack::{Day, Form};
use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::http::header::CONTENT_TYPE;
use axum::response::IntoResponse;
use hayro_interpret::InterpreterSettings;
use hayro_interpret::hayro_syntax::Pdf;
use hayro_svg::{RenderCache, SvgRenderSettings, convert};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::jobs::too_many;
use crate::answers::{Refused, RefusedBody};
use crate::aside::aside;
use crate::jobs::{JobNow, Kind, Yield};
use crate::pressing::{OUT, WantedPress};
use crate::state::Desk;

/// What to press.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct PressToBegin {
    /// The day to print in the booklet, as in `2026-12-01`; null for none.
    pub(crate) issued: Option<String>,
    /// The forms of the booklet, each as words joined by `+`; none for those that the pack names.
    pub(crate) forms: Vec<String>,
    /// Whether cue sheets are printed, too.
    pub(crate) print_cues: bool,
    /// Whether nothing is written where a puzzle has changed since its setter approved it.
    pub(crate) strict: bool,
    /// Whether sealed puzzles count as open.
    pub(crate) unseal: bool,
}

/// What was pressed.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct PressedNow {
    /// Whether this desk can press.
    pub(crate) can_press: bool,
    /// The files in the folder of the outputs.
    pub(crate) files: Vec<PressedFile>,
}

/// A file that was pressed.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct PressedFile {
    /// Its name within the folder of the outputs.
    pub(crate) name: String,
    /// How large it is.
    pub(crate) bytes: u64,
    /// Where it can be opened.
    pub(crate) address: String,
    /// How many pages it has, if it is a booklet.
    pub(crate) pages: Option<usize>,
}

/// Presses the pack as a job.
#[utoipa::path(
    post, path = "/api/1/press", tag = "jobs", request_body = PressToBegin,
    responses((status = 202, body = JobNow), (status = 422, body = RefusedBody), (status = 429, body = RefusedBody),
        (status = 501, body = RefusedBody)),
)]
pub(crate) async fn begin(
    State(desk): State<Arc<Desk>>,
    asked: Result<Json<PressToBegin>, JsonRejection>,
) -> Result<(StatusCode, Json<JobNow>), Refused> {
    let Json(PressToBegin { issued, forms, print_cues, strict, unseal }) = asked?;
    let Some(pressing) = desk.pressing.clone() else {
        let help = "start the desk as `galley desk`";
        return Err(Refused::new(StatusCode::NOT_IMPLEMENTED, "this desk was started without a press", help));
    };
    let unfit = |message: String, help: &str| Refused::new(StatusCode::UNPROCESSABLE_ENTITY, message, help);
    let issued: Option<Day> = issued.as_deref().map(str::parse).transpose().map_err(|_| {
        unfit(
            "the day of issue is no day of the calendar".to_owned(),
            "write it as in 2026-12-01, or leave it out",
        )
    })?;
    let forms: Vec<Form> = forms.iter().map(|it| it.parse()).collect::<Result<_, _>>().map_err(|it| {
        unfit(format!("a form of the booklet cannot be read: {it}"), "choose each of its words once")
    })?;
    let root = desk.folder().root();
    let wanted = WantedPress {
        pack: root.to_owned(),
        out: root.join(OUT),
        issued,
        forms,
        print_cues,
        unseal,
        is_strict: strict,
    };
    let work = move |watched: &crate::jobs::Watched| pressing.press(&wanted, watched).map(Yield::Pressed);
    let job = desk.jobs.begin(Kind::Press, "Pressing the pack".to_owned(), Box::new(work));
    Ok((StatusCode::ACCEPTED, Json(job.map_err(|_| too_many())?)))
}

/// What is in the folder of the outputs.
#[utoipa::path(get, path = "/api/1/press", tag = "jobs", responses((status = 200, body = PressedNow)))]
pub(crate) async fn there(State(desk): State<Arc<Desk>>) -> Json<PressedNow> {
    Json(PressedNow { can_press: desk.pressing.is_some(), files: files(&desk).await })
}

/// What is in the folder of the outputs, in order of name.
pub(crate) async fn files(desk: &Arc<Desk>) -> Vec<PressedFile> {
    let desk = Arc::clone(desk);
    let looked = aside(move || {
        let out = desk.folder().root().join(OUT);
        let mut names = Vec::new();
        gather(&out, "", &mut names);
        names.sort();
        let file = |name: String| {
            let path = out.join(&name);
            let bytes = fs::metadata(&path).ok()?.len();
            let pages = is_booklet(&name).then(|| pdf(&path).map(|it| it.pages().len())).flatten();
            Some(PressedFile { address: format!("/pressed/{}/{name}", desk.shown), name, bytes, pages })
        };
        names.into_iter().filter_map(file).collect()
    });
    looked.await.unwrap_or_default()
}

/// A page of a booklet as a picture.
#[utoipa::path(
    get, path = "/api/1/press/pages/{file}/{page}", tag = "jobs",
    params(("file" = String, Path, description = "the booklet's name, as in `booklet.pdf`"),
        ("page" = usize, Path, description = "the page, from 1")),
    responses((status = 200, content_type = "image/svg+xml", description = "the page"), (status = 404, body = RefusedBody)),
)]
pub(crate) async fn page(
    State(desk): State<Arc<Desk>>,
    Path((file, page)): Path<(String, String)>,
) -> Result<impl IntoResponse, Refused> {
    let nothing = || {
        Refused::new(
            StatusCode::NOT_FOUND,
            "there is no such page",
            "press the pack, and load the page again",
        )
    };
    let page: usize = page.parse().ok().filter(|it| *it > 0).ok_or_else(nothing)?;
    if !is_booklet(&file) {
        return Err(nothing());
    }
    let path = desk.folder().root().join(OUT).join(&file);
    if !desk.folder().holds(&path) {
        return Err(nothing());
    }
    let drawn = aside(move || {
        let pdf = pdf(&path)?;
        let page = pdf.pages().get(page - 1)?;
        let (interpreting, drawing) = (InterpreterSettings::default(), SvgRenderSettings::default());
        Some(convert(page, &RenderCache::new(), &interpreting, &drawing))
    });
    let picture = drawn.await?.ok_or_else(nothing)?;
    Ok(([(CONTENT_TYPE, "image/svg+xml")], picture))
}

fn pdf(path: &FilePath) -> Option<Pdf> {
    Pdf::new(fs::read(path).ok()?).ok()
}

/// Whether a file of that name is a booklet; no other is drawn.
fn is_booklet(name: &str) -> bool {
    let is_plain = |it: &str| it.bytes().all(|it| it.is_ascii_alphanumeric() || it == b'-' || it == b'+');
    name.starts_with("booklet") && name.strip_suffix(".pdf").is_some_and(is_plain)
}

/// Adds the files below a folder; `prefix` stands before their names. Links and hidden files are passed over.
fn gather(folder: &PathBuf, prefix: &str, names: &mut Vec<String>) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        let Ok(kind) = entry.file_type() else { continue };
        match name.starts_with('.') {
            true => {}
            false if kind.is_dir() => gather(&entry.path(), &format!("{prefix}{name}/"), names),
            false if kind.is_file() => names.push(format!("{prefix}{name}")),
            false => {}
        }
    }
}
