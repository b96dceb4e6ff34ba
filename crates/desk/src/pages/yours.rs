//! What an invited person comes to: a tester's puzzles to solve, or what was found out about a setter's own.
//!
//! A tester is told nothing but what is printed on a board, and what they have done. A review of their solve is the editor's
//! alone: it tells where the walkthrough goes. A setter is told what the editor's page of their puzzle tells, without the
//! steps; of a sealed one only what may be said of such. The editor's own notes and reasons are not among it.

use std::sync::Arc;

use ::pack::Entry;
use axum::extract::{Extension, State};
use axum::response::Html;
use maud::{Markup, html};
use page::text;
use study::Study;

use super::frame::{Here, NoPage, Page};
use crate::answers::Refused;
use crate::api::account_of;
use crate::doors::{Caller, Who};
use crate::state::{Desk, View};
use crate::store::SolveEvent;
use crate::words;

pub(super) async fn page(
    State(desk): State<Arc<Desk>>,
    Extension(caller): Extension<Caller>,
) -> Result<Html<String>, NoPage> {
    let main = match &caller.who {
        Who::Tester(it) => to_solve(&desk, &it.invitation, &it.person).await?,
        Who::Setter(it) => reports(&desk, &it.person).await?,
        Who::Editor(_) | Who::Nobody => html! {
            h1 { "Your puzzles" }
            p { "This page is for those who were invited. " a href="/" { "The pack" } }
        },
    };
    let title = "Your puzzles".to_owned();
    Ok(Page { title, script: Some("signing.js"), here: Here::Yours, main }.render(&desk))
}

async fn to_solve(desk: &Desk, invitation: &str, person: &str) -> Result<Markup, Refused> {
    let unkept = |it| Refused::unkept(desk, &it);
    let assigned = desk.store.assigned(invitation).await.map_err(unkept)?;
    let solves = desk.store.solves_of(invitation).await.map_err(unkept)?;
    let reading = desk.view().reading;
    let mut lines = Vec::new();
    for entry in reading.read.pack.entries.iter().filter(|it| assigned.iter().any(|id| id == it.id.as_str()))
    {
        let fingerprint = packfile::fingerprint(&entry.puzzle);
        let of_it = solves.iter().filter(|it| it.puzzle == entry.id.as_str());
        let state = match of_it.clone().find(|it| it.fingerprint == fingerprint) {
            Some(it) => progress(&desk.store.events_of(&it.id).await.map_err(unkept)?),
            None if of_it.count() > 0 => "It has changed since you solved it.",
            None => "Not begun yet.",
        };
        lines.push((entry, state));
    }
    Ok(html! {
        h1 { "Your puzzles" }
        p.lead { "Welcome, " (text(person)) ". Thank you for solving these. What you write on a sheet is logged with the time of solving, for the editor." }
        @if lines.is_empty() { p { "None of the puzzles that you were invited to solve is in the pack any more." } }
        ul.order.yours { @for (entry, state) in lines { li { (line(entry, state)) } } }
        p.actions { button type="button" #sign-out { "Leave this desk" } }
    })
}

fn line(entry: &Entry, state: &str) -> Markup {
    html! {
        div.what {
            a.title href={ "/puzzles/" (entry.id) "/solve" } { (text(&entry.title)) }
            p { "Set by " (text(&entry.setter)) ". " (state) }
        }
    }
}

fn progress(events: &[SolveEvent]) -> &'static str {
    let has = |what: &str| events.iter().any(|it| it.what == what);
    match (has("solved"), has("gave-up")) {
        (true, _) => "Solved.",
        (false, true) => "Given up.",
        (false, false) => "Begun.",
    }
}

async fn reports(desk: &Desk, setter: &str) -> Result<Markup, Refused> {
    let view: View = desk.view();
    let known = view.pack.as_ref();
    let studies: Vec<&Study> =
        known.iter().flat_map(|it| it.all()).filter(|it| it.entry().setter == setter).collect();
    Ok(html! {
        h1 { "Your puzzles" }
        p.lead { "Welcome, " (text(setter)) ". This is what was found out about your puzzles." }
        @if known.is_none() { p { "It is being found out at the moment. Load the page again shortly." } }
        @else if studies.is_empty() { p { "No puzzle of the pack bears your name any more." } }
        @for it in studies { (report(it)) }
        p.actions { button type="button" #sign-out { "Leave this desk" } }
    })
}

fn report(study: &Study) -> Markup {
    let entry = study.entry();
    html! {
        section {
            h2 { (text(&entry.title)) }
            @match account_of(study) {
                None => {
                    dl.notes {
                        dt { "Verdict" } dd { (words::verdict(study.finding())) }
                        @if let Some(range) = study.minutes() { dt { "Expected minutes" } dd { (words::range(range)) } }
                    }
                    p { "The editor still wants to solve it unspoilt, so more was not looked at." }
                }
                Some(account) => {
                    dl.notes {
                        dt { "Verdict" } dd { (account.says) }
                        @if !account.minutes.is_empty() {
                            dt { "Expected minutes" }
                            dd { ul { @for it in &account.minutes { li { (it.solver) ": " (it.middle) " (" (it.range) ")" } } } }
                        }
                        @if !account.techniques.is_empty() { dt { "What it needs" } dd { (tell::list(&account.techniques)) } }
                        @if !entry.intends.is_empty() {
                            dt { "Meant to teach" } dd { ul { @for it in &entry.intends { li { (text(it)) } } } }
                        }
                    }
                }
            }
        }
    }
}
