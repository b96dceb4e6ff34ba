//! The page of a test solve: the site's playing sheet on a board, and a log of it at the desk.
//!
//! It works for a sealed puzzle too: only what is printed on the board reaches the page, and whether a full board is right is
//! for the desk to say, as is help from where the solver is.

use std::sync::Arc;

use ::pack::Entry;
use axum::extract::{Extension, Path, State};
use axum::response::Html;
use draw::{Board, Marks, Scale};
use grid::{Digit, HouseKind};
use maud::{PreEscaped, html};
use page::{bare, text};
use rulebook::Clue;
use serde_json::{Value, json};

use super::frame::{Here, NoPage, Page};
use crate::answers::Refused;
use crate::api::id_of;
use crate::doors::Caller;
use crate::state::Desk;

pub(super) async fn page(
    State(desk): State<Arc<Desk>>,
    Extension(caller): Extension<Caller>,
    Path(id): Path<String>,
) -> Result<Html<String>, NoPage> {
    let id = id_of(&id)?;
    let invited = caller.who.invited();
    let reading = desk.view().reading;
    let entry = reading.read.pack.entries.iter().find(|it| it.id == id).ok_or_else(Refused::no_puzzle)?;
    // An invited tester goes on with their own solve in whatever browser, and with nobody else's in any.
    let solve = match invited {
        None => None,
        Some(it) => {
            let fingerprint = packfile::fingerprint(&entry.puzzle);
            let solves =
                desk.store.solves_of(&it.invitation).await.map_err(|it| Refused::unkept(&desk, &it))?;
            let own = solves.into_iter().find(|it| it.puzzle == id.as_str() && it.fingerprint == fingerprint);
            Some(own.map(|it| it.id).unwrap_or_default())
        }
    };
    // No text of a pack may end the element that holds this.
    let embedded = embedded(entry).to_string().replace('<', "\\u003c");
    let main = html! {
        div.sheet {
            div.heading {
                h1 { (text(&entry.title)) }
                p.setter { "Set by " (text(&entry.setter)) }
            }
            figure.board { (PreEscaped(picture(entry))) }
            section.notes {
                form #begin data-solve=[solve] {
                    @match invited {
                        Some(it) => { input type="hidden" name="solver" value=(it.person); }
                        None => { p { label for="solver" { "Who solves" } input #solver name="solver" required maxlength="80" autocomplete="off"; } }
                    }
                    p {
                        label for="kind" { "How used to such puzzles" }
                        select #kind name="kind" {
                            @for it in ["newcomer", "regular", "old hand"] {
                                option value=(it) selected[it == "regular"] { (tell::capital(it)) }
                            }
                        }
                    }
                    p.actions { button { "Begin" } }
                    p { "Everything that is written on the sheet is logged at this desk, with the time of solving." }
                }
                p.actions {
                    button type="button" #give-up hidden { "Give up" }
                    // Whoever was invited solves a puzzle once.
                    @if invited.is_none() { button type="button" #another hidden { "Begin another test solve" } }
                }
                dl {
                    @for rule in tell::rules(&entry.puzzle) { dt { (rule.name) } dd { (rule.short) } }
                }
                p { @if invited.is_some() { a href="/yours" { "Back to your puzzles" } } @else { a href={ "/puzzles/" (entry.id) } { "Back to the puzzle" } } }
            }
        }
        script type="application/json" #puzzle-data { (PreEscaped(embedded)) }
    };
    let title = format!("{}: test solve", entry.title);
    let here = if invited.is_some() { Here::InvitedSheet } else { Here::Sheet };
    Ok(Page { title, script: Some("solve.js"), here, main }.render(&desk))
}

fn picture(entry: &Entry) -> String {
    let (puzzle, marks, scale) = (&entry.puzzle, &Marks::default(), Scale::Large);
    let title = format!("{}: the puzzle", bare(&entry.title));
    draw::board(&Board { puzzle, digits: puzzle.givens(), marks, title: &title, scale, coordinates: true })
}

/// The puzzle as the sheet's script reads it (`site/play/puzzle.js`), with nothing that would help.
pub(crate) fn embedded(entry: &Entry) -> Value {
    let puzzle = &entry.puzzle;
    let size = puzzle.size();
    let layout = draw::layout(puzzle, Scale::Large, true);
    let clue = |it: &Clue| {
        let line = if it.line.kind() == HouseKind::Row { "row" } else { "column" };
        json!({"rule": it.rule.id().name(), "line": line, "number": it.line.number(), "value": it.value})
    };
    let marks =
        tell::cell_marks(puzzle).iter().map(|it| json!({"id": it.id, "key": it.key, "name": it.name}));
    json!({
        "format": 1,
        "id": entry.id.to_string(),
        "title": bare(&entry.title),
        "fingerprint": packfile::fingerprint(puzzle),
        "side": size.side(),
        "box": [size.box_width(), size.box_height()],
        "givens": size.cells().map(|it| puzzle.givens().get(it).map_or(0, Digit::get)).collect::<Vec<_>>(),
        "clues": puzzle.clues().iter().map(clue).collect::<Vec<_>>(),
        "marks": marks.collect::<Vec<_>>(),
        "taught": [],
        "practises": [],
        "solved": "",
        "picture": {
            "paper": [layout.paper.0, layout.paper.1],
            "frame": [layout.corner.0, layout.corner.1, layout.side],
        },
    })
}
