//! Where each puzzle stands by hand: the place it is pinned to, its shelf, and whether it is in the pack.

use maud::{Markup, html};
use pack::{PackInfo, State};
use page::{bare, text};
use study::{StudiedPack, Study};

use crate::folder::{PACK_FILE, Reading};

/// What may be said of a puzzle's state, as the file has it and in words.
const STATES: [(State, &str, &str); 5] = [
    (State::Undecided, "", "nothing said: in, if there is a place"),
    (State::In, "in", "in the pack"),
    (State::Pool, "pool", "in the pool, to choose from"),
    (State::Later, "later", "kept for a later pack"),
    (State::Declined, "declined", "declined"),
];

pub(super) fn places(reading: &Reading, pack: &StudiedPack) -> Markup {
    let digest = reading.digest(PACK_FILE).map(|it| it.to_string()).unwrap_or_default();
    let n_places = pack.studies().len();
    html! {
        section #places aria-labelledby="places-head" data-digest=(digest) {
            h2 #places-head { "Places and shelves by hand" }
            p.lead { "What is set here stands in the files, and an order that Galley proposes keeps to it. What a change costs is told before it is kept; taken back, it is in the puzzle's history." }
            @for (at, study) in pack.all().enumerate() {
                (one(reading, pack.info(), study, (at < n_places).then_some(at + 1), n_places))
            }
        }
    }
}

fn one(reading: &Reading, info: &PackInfo, study: &Study, place: Option<usize>, n_places: usize) -> Markup {
    let entry = study.entry();
    let id = &entry.id;
    let pin = info.pins.get(id).copied();
    let file = reading.file_of(id.as_str()).unwrap_or_default();
    let digest = reading.digest(file).map(|it| it.to_string()).unwrap_or_default();
    let stands = STATES.iter().find(|it| it.0 == entry.state).map_or("", |it| it.2);
    html! {
        details.place data-id=(id) data-title=(bare(&entry.title)) data-digest=(digest) {
            summary {
                (text(&entry.title)) ": "
                @match place { Some(it) => { "number " (it) } None => { "no place" } }
                @if pin.is_some() { ", pinned" }
                @if let Some(it) = &entry.shelf { ", shelf " (text(it)) }
                @if entry.state != State::Undecided { ", " (stands) }
            }
            form.pin {
                p {
                    label for={ "pin-" (id) } { "Pinned to place" }
                    select id={ "pin-" (id) } name="place" {
                        option value="" selected[pin.is_none()] { "none" }
                        @for it in 1..=n_places.max(pin.unwrap_or_default()) {
                            option value=(it) selected[pin == Some(it)] { (it) @if place == Some(it) { ", where it is" } }
                        }
                    }
                }
                (buttons("the pin"))
            }
            form.standing {
                p {
                    label for={ "shelf-" (id) } { "Shelf" }
                    select id={ "shelf-" (id) } name="shelf" {
                        option value="" selected[entry.shelf.is_none()] { "as Galley shares them out" }
                        @for it in &info.shelves { option value=(it.name) selected[entry.shelf.as_ref() == Some(&it.name)] { (bare(&it.name)) } }
                    }
                }
                p {
                    label for={ "state-" (id) } { "In the pack" }
                    select id={ "state-" (id) } name="state" {
                        @for (state, word, says) in STATES { option value=(word) selected[state == entry.state] { (says) } }
                    }
                }
                p {
                    label for={ "reason-" (id) } { "Reason, in your words" }
                    input id={ "reason-" (id) } name="reason" maxlength="400" autocomplete="off" value=(entry.reason.as_deref().map(bare).unwrap_or_default());
                }
                (buttons("shelf and state"))
            }
            p.said role="status" {}
            div.flaws {}
        }
    }
}

fn buttons(of: &str) -> Markup {
    html! {
        p.actions {
            button type="button" data-do="weigh" { "What would " (of) " cost?" }
            button type="submit" { "Keep " (of) }
        }
    }
}
