//! The pack as it is: its puzzles in order, and what is wrong with its files.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use serde::Serialize;
use study::StudiedPack;
use utoipa::ToSchema;

use crate::folder::{PACK_FILE, Reading};
use crate::state::{Desk, View};
use crate::words;

/// A pack.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct PackNow {
    /// Its title.
    pub(crate) title: String,
    /// The digest of `pack.toml`: an edit of the order begins from it.
    pub(crate) digest: Option<String>,
    /// Whether everything is found out about the files as they are. Until then nothing is said of minutes and verdicts.
    pub(crate) is_studied: bool,
    /// Whether the order is the editor's; if not, it is the one that Galley proposes, once the pack is studied.
    pub(crate) is_ordered: bool,
    /// The puzzles that have a place, in order.
    pub(crate) puzzles: Vec<PackPuzzle>,
    /// Why the folder could not be read since.
    pub(crate) trouble: Option<String>,
    /// What is wrong with the files.
    pub(crate) problems: Vec<PackProblem>,
}

/// A puzzle of the pack in short.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct PackPuzzle {
    /// Its id.
    pub(crate) id: String,
    /// Its title.
    pub(crate) title: String,
    /// Who set it.
    pub(crate) setter: String,
    /// Whether it is sealed at this desk.
    pub(crate) is_sealed: bool,
    /// `one`, `none`, `many` or `undecided`; null until it is known.
    pub(crate) verdict: Option<String>,
    /// The range of minutes that eight solves in ten fall into, as in `10 to 20`.
    pub(crate) minutes: Option<String>,
    /// The shelf it falls on.
    pub(crate) shelf: Option<String>,
}

/// Something wrong with a file.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct PackProblem {
    /// The file.
    pub(crate) file: String,
    /// The line, from 1, if it has a place.
    pub(crate) line: Option<usize>,
    /// The column, from 1.
    pub(crate) column: Option<usize>,
    /// Whether it keeps the file from being used.
    pub(crate) is_error: bool,
    /// What was found.
    pub(crate) message: String,
    /// The next move.
    pub(crate) help: Option<String>,
}

/// The pack as it is now. It does not wait for what is still being found out.
#[utoipa::path(get, path = "/api/1/pack", tag = "pack", responses((status = 200, body = PackNow)))]
pub(crate) async fn pack(State(desk): State<Arc<Desk>>) -> Json<PackNow> {
    let view = desk.view();
    let reading = &view.reading;
    Json(PackNow {
        title: reading.read.pack.info.title.clone(),
        digest: reading.digest(PACK_FILE).map(|it| it.to_string()),
        is_studied: view.pack.is_some(),
        is_ordered: reading.read.pack.info.order.is_some(),
        puzzles: view.pack.as_ref().map_or_else(|| as_read(reading), |it| as_studied(it)),
        trouble: trouble_in(&view),
        problems: problems(reading),
    })
}

fn trouble_in(view: &View) -> Option<String> {
    let all: Vec<String> = view.troubles().map(ToString::to_string).collect();
    (!all.is_empty()).then(|| all.join("\n"))
}

fn as_studied(pack: &StudiedPack) -> Vec<PackPuzzle> {
    let puzzles = pack.studies().iter().enumerate().map(|(at, study)| PackPuzzle {
        id: study.entry().id.to_string(),
        title: study.entry().title.clone(),
        setter: study.entry().setter.clone(),
        is_sealed: study.is_sealed(),
        verdict: Some(words::state(study.finding()).to_owned()),
        minutes: study.minutes().map(words::range),
        shelf: pack.placement(at).shelf.map(str::to_owned),
    });
    puzzles.collect()
}

fn as_read(reading: &Reading) -> Vec<PackPuzzle> {
    let entries = reading.read.pack.entries.iter().filter(|it| it.state.has_place());
    let mut puzzles: Vec<PackPuzzle> = entries
        .map(|it| PackPuzzle {
            id: it.id.to_string(),
            title: it.title.clone(),
            setter: it.setter.clone(),
            is_sealed: it.sealed,
            verdict: None,
            minutes: None,
            shelf: it.shelf.clone(),
        })
        .collect();
    if let Some(order) = &reading.read.pack.info.order {
        puzzles.sort_by_key(|it| order.iter().position(|id| id.as_str() == it.id));
    }
    puzzles
}

/// What is wrong with the files, in order.
pub(crate) fn problems(reading: &Reading) -> Vec<PackProblem> {
    let problem = |it: &packfile::Problem| PackProblem {
        file: it.file.clone(),
        line: it.at.map(|it| it.line),
        column: it.at.map(|it| it.column),
        is_error: it.is_error(),
        message: it.message.clone(),
        help: it.help.clone(),
    };
    reading.problems.iter().map(problem).collect()
}
