//! What a puzzle file says of the puzzle's place in the pack: shelf, state, what it should show, its recording, what has
//! been said of it.

use std::ops::Range;

use pack::{Approval, Chapter, Day, PuzzleId, SAID_PLAINLY, Said, State};
use reason::TECHNIQUES;
use toml::de::DeTable;
use trail::TechniqueId;

use crate::fault::Fault;
use crate::nearest::nearest;
use crate::pack_info::address;
use crate::read::{At, Reader};

/// The states that a file may name.
pub(crate) const STATES: [(&str, State); 4] =
    [("in", State::In), ("pool", State::Pool), ("later", State::Later), ("declined", State::Declined)];

/// The name of a state in a file; none for one that is not written.
pub(crate) fn state_name(state: State) -> Option<&'static str> {
    STATES.iter().find(|it| it.1 == state).map(|it| it.0)
}

/// What a file says of its puzzle's place.
#[derive(Default)]
pub(crate) struct Plans {
    pub(crate) shelf: Option<String>,
    pub(crate) state: State,
    pub(crate) reason: Option<String>,
    pub(crate) features: Option<TechniqueId>,
    pub(crate) received: Option<Day>,
    pub(crate) approved: Option<At<Approval>>,
    pub(crate) record: Option<Day>,
    pub(crate) recording: Option<String>,
    pub(crate) release: Option<Day>,
    pub(crate) chapters: Vec<Chapter>,
    pub(crate) said: Vec<Said>,
}

/// The keys that are read here.
pub(crate) const KEYS: [&str; 11] = [
    "shelf",
    "state",
    "reason",
    "features",
    "received",
    "approved",
    "record",
    "recording",
    "release",
    "chapters",
    "said",
];

/// Reads them. `shelves` are the names that the pack has; none where there is no pack to ask.
pub(crate) fn read_plans(reader: &mut Reader<'_>, table: &DeTable<'_>, shelves: Option<&[String]>) -> Plans {
    let shelf = reader.line(table, "shelf").and_then(|it| known_shelf(reader, it, shelves));
    let state = reader.line(table, "state").and_then(|it| known_state(reader, it)).unwrap_or_default();
    let reason = reader.line(table, "reason").map(|it| it.value);
    let features = reader.line(table, "features").and_then(|it| technique(reader, &it.value, it.range));
    let received = reader.line(table, "received").and_then(|it| day(reader, it));
    let approved = reader.line(table, "approved").and_then(|it| approval(reader, it));
    let record = reader.line(table, "record").and_then(|it| day(reader, it));
    let recording = reader.line(table, "recording").and_then(|it| address(reader, it));
    let release = reader.line(table, "release").and_then(|it| day(reader, it));
    let chapters = read_chapters(reader, table);
    let said = reader.lines(table, "said").map(|it| it.value).unwrap_or_default();
    let said = said.into_iter().filter_map(|it| known_said(reader, it)).collect();
    Plans { shelf, state, reason, features, received, approved, record, recording, release, chapters, said }
}

/// The chapters, the first at 0:00 and each later than the one before; what is not is noted and left out.
fn read_chapters(reader: &mut Reader<'_>, table: &DeTable<'_>) -> Vec<Chapter> {
    let mut chapters: Vec<Chapter> = Vec::new();
    for item in reader.lines(table, "chapters").map(|it| it.value).unwrap_or_default() {
        let fits = |it: &Chapter| chapters.last().map_or(it.at == 0, |before| before.at < it.at);
        match item.value.parse::<Chapter>().ok().filter(fits) {
            Some(chapter) => chapters.push(chapter),
            None => reader.note(item.range, Fault::NotAChapter { found: item.value }),
        }
    }
    chapters
}

/// The day; notes it if there is no such day.
fn day(reader: &mut Reader<'_>, text: At<String>) -> Option<Day> {
    let day = text.value.parse().ok();
    if day.is_none() {
        reader.note(text.range, Fault::NotADay { found: text.value });
    }
    day
}

/// The approval, with its place; notes it if the text is none.
fn approval(reader: &mut Reader<'_>, text: At<String>) -> Option<At<Approval>> {
    match text.value.parse() {
        Ok(value) => Some(At { value, range: text.range }),
        Err(_) => {
            reader.note(text.range, Fault::NotAnApproval { found: text.value });
            None
        }
    }
}

/// The technique of that name; notes it if there is none.
pub(crate) fn technique(reader: &mut Reader<'_>, name: &str, range: Range<usize>) -> Option<TechniqueId> {
    let found = reason::named(name);
    if found.is_none() {
        let meant = nearest(name, TECHNIQUES.iter().map(|it| it.id().name()));
        reader.note(range, Fault::UnknownTechnique { found: name.to_owned(), meant });
    }
    found
}

fn known_shelf(reader: &mut Reader<'_>, text: At<String>, shelves: Option<&[String]>) -> Option<String> {
    if let Some(shelves) = shelves.filter(|it| !it.contains(&text.value)) {
        let meant = nearest(&text.value, shelves.iter().map(|it| &it[..])).map(str::to_owned);
        let shelves = shelves.to_vec();
        reader.note(text.range, Fault::UnknownShelf { found: text.value, meant, shelves });
        return None;
    }
    Some(text.value)
}

fn known_state(reader: &mut Reader<'_>, text: At<String>) -> Option<State> {
    let state = STATES.iter().find(|it| it.0 == text.value).map(|it| it.1);
    if state.is_none() {
        reader.note(text.range, Fault::UnknownState { found: text.value });
    }
    state
}

/// What is said, if it can be held against an order.
fn known_said(reader: &mut Reader<'_>, text: At<String>) -> Option<Said> {
    if let Some(it) = SAID_PLAINLY.iter().find(|it| it.0 == text.value) {
        return Some(it.1.clone());
    }
    let after = |prefix| text.value.strip_prefix(prefix);
    if let Some(name) = after("first with ") {
        return technique(reader, name, text.range).map(Said::FirstWith);
    }
    let said = (after("number ").and_then(|it| it.parse().ok()).filter(|it| *it > 0).map(Said::Number))
        .or_else(|| after("right after ").and_then(PuzzleId::new).map(Said::RightAfter))
        .or_else(|| after("after ").and_then(PuzzleId::new).map(Said::After))
        .or_else(|| after("before ").and_then(PuzzleId::new).map(Said::Before));
    if said.is_none() {
        reader.note(text.range, Fault::UnknownSaid { found: text.value });
    }
    said
}
