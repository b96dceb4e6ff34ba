//! The season: where every puzzle stands, what to record next, and how setters are credited.

use std::collections::BTreeSet;
use std::sync::Arc;

use axum::extract::State;
use axum::response::Html;
use maud::{Markup, html};
use page::text;
use season::{Approved, Reached, Row, Standing};

use super::frame::{Here, NoPage, Page};
use super::pack::trouble;
use crate::api::reached;
use crate::folder::PACK_FILE;
use crate::seasonal::Seasonal;
use crate::state::Desk;

pub(super) async fn page(State(desk): State<Arc<Desk>>) -> Result<Html<String>, NoPage> {
    let seasonal = Seasonal::of(&desk).await?;
    let season = &seasonal.season;
    let main = html! {
        h1 { "Season" }
        (trouble(&desk.view()))
        p.lead { "Where every puzzle stands, as the pack's files tell it." }
        p #said .said role="status" {}
        @if season.rows.is_empty() { p { "There is no puzzle yet." } } @else {
            (next(&seasonal))
            section aria-labelledby="stand-head" {
                h2 #stand-head { "Where each puzzle stands" }
                ol.season { @for it in &season.rows { (row(&seasonal, it)) } }
                p { a href="/api/1/season/calendar" download="season.ics" { "The planned days as a calendar (iCalendar)" } }
            }
            (setters(&seasonal))
        }
    };
    Ok(Page { title: "Season".to_owned(), script: Some("season.js"), here: Here::Season, main }.render(&desk))
}

fn next(seasonal: &Seasonal) -> Markup {
    let next = &seasonal.season.to_record;
    html! {
        section aria-labelledby="next-head" {
            h2 #next-head { "What to record next" }
            @if next.is_empty() { p { "Nothing that is sound and has a place waits to be recorded." } } @else {
                ol.next { @for it in next {
                    li { a href={ "/puzzles/" (it.id) } { (text(&it.title)) } " " span.why { (text(&it.says)) } }
                } }
            }
        }
    }
}

fn row(seasonal: &Seasonal, row: &Row) -> Markup {
    let digest = seasonal.reading.file_of(row.id.as_str()).and_then(|it| seasonal.reading.digest(it));
    let entry = seasonal.pack.all().map(|it| it.entry()).find(|it| it.id == row.id);
    let day = |key: &str, label: &str, on: Option<::pack::Day>| {
        let field = format!("{}-{key}", row.id);
        html! { p { label for=(field) { (label) } input #(field) type="date" name=(key) value=[on.map(|it| it.to_string())]; } }
    };
    html! {
        li data-id=(row.id) {
            h3 { a href={ "/puzzles/" (row.id) } { (text(&row.title)) } }
            p.by { "by " (text(&row.setter)) @if row.is_sealed { "; sealed" } }
            ol.stages { @for it in &row.standings { (standing(it)) } }
            @if !row.waiting.is_empty() {
                p.waits { "Waited for: " @for (at, it) in row.waiting.iter().enumerate() {
                    @if at > 0 { "; " } strong { (it.who.name()) } ", to " (it.what)
                } "." }
            }
            @if matches!(row.approved, Approved::Outdated(_)) { p.changed { (row.approved.says()) } }
            @if !row.breaks.is_empty() {
                details { summary { "What a change would break" } ul { @for it in &row.breaks { li { (text(it)) } } } }
            }
            details.days {
                summary { "Days" }
                form data-puzzle=(row.id) data-digest=[digest.map(|it| it.to_string())] {
                    (day("received", "Received", entry.and_then(|it| it.received)))
                    (day("record", "To be recorded", row.record))
                    (day("release", "Recording comes out", row.release))
                    p.actions { button type="submit" { "Keep the days" } }
                }
            }
        }
    }
}

/// A stage: its mark is said in words too, so that nothing depends on how it looks.
fn standing(it: &Standing) -> Markup {
    let (mark, says) = match it.reached {
        Reached::Yes => ("✓", ""),
        Reached::Before => ("≠", "no longer "),
        Reached::No => ("–", "not "),
    };
    html! {
        li data-reached=(reached(it.reached)) {
            span aria-hidden="true" { (mark) " " } span.stage { (says) (it.stage.name()) }
            @if let Some(on) = it.on { span.on { (tell::day(on)) } }
            span.how { (text(&it.says)) }
        }
    }
}

fn setters(seasonal: &Seasonal) -> Markup {
    let names: BTreeSet<&str> = seasonal.season.rows.iter().map(|it| &it.setter[..]).collect();
    let digest = seasonal.reading.digest(PACK_FILE).map(|it| it.to_string());
    let kept = &seasonal.reading.read.pack.info.setters;
    html! {
        section aria-labelledby="setters-head" {
            h2 #setters-head { "Setters" }
            p { "How each is credited in booklet, site and the text under a recording, and what they wish. Wishes are for your eyes." }
            ul.setters { @for (at, name) in names.iter().enumerate() {
                @let setter = kept.get(*name).cloned().unwrap_or_default();
                li { details {
                    summary { (text(name)) }
                    form data-setter=(name) data-digest=[digest.as_deref()] {
                        p { label for={ "credit-" (at) } { "Credited as" } input #{ "credit-" (at) } name="credit" value=[setter.credit.as_deref()] placeholder=(name); }
                        p { label for={ "link-" (at) } { "Link" } input #{ "link-" (at) } name="link" type="url" value=[setter.link.as_deref()]; }
                        p { label for={ "wishes-" (at) } { "Wishes" } textarea #{ "wishes-" (at) } name="wishes" rows="3" { (setter.wishes.as_deref().unwrap_or_default()) } }
                        p.actions { button type="submit" { "Keep it" } }
                    }
                } }
            } }
        }
    }
}
