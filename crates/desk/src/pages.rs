//! The pages: made here, each of them whole, and changed only through the interface under `/api/1`.
//!
//! Scripts are ES modules of their own files (`play/`), with types in their comments; a page has no script and no style
//! written into it. What a page shows of a sealed puzzle is what [`study::Study`] tells of one.

mod asking;
mod files;
mod frame;
mod gaps;
mod jobs;
mod letter;
mod pack;
mod people;
mod places;
mod press;
mod pressed;
mod problems;
mod puzzle;
mod season;
mod sheet;
mod signing;
mod solves;
mod testers;
mod typing;
mod walkthrough;
mod yours;

use std::sync::Arc;

use axum::Router;
use axum::routing::get;

use crate::state::Desk;

pub(crate) use frame::NoPage;
pub(crate) use sheet::embedded;
pub(crate) use signing::sign_in;

pub(crate) fn routes() -> Router<Arc<Desk>> {
    Router::new()
        .route("/", get(pack::page))
        .route("/press", get(press::page))
        .route("/pressed/{token}/{*name}", get(pressed::file))
        .route("/puzzles/{id}", get(puzzle::page))
        .route("/puzzles/{id}/solve", get(sheet::page))
        .route("/puzzles/{id}/solves", get(testers::page))
        .route("/season", get(season::page))
        .route("/solves", get(solves::list))
        .route("/solves/{id}", get(solves::review))
        .route("/people", get(people::page))
        .route("/invited", get(signing::invited))
        .route("/yours", get(yours::page))
        .route("/desk.css", get(files::style))
        .route("/icon.svg", get(files::icon))
        .route("/sheet.css", get(files::sheet_style))
        .route("/play/{name}", get(files::script))
        .route("/play/sheet/{name}", get(files::sheet_script))
}
