//! What a change to a puzzle that has gone far would break.

use pack::State;
use packfile::fingerprint;
use study::Study;

use crate::{Approved, Reached, Seen, Stage, Standing};

/// What depends on the puzzle as it is, in sentences; nothing of it that would spoil a sealed one.
pub(crate) fn breaks(
    study: &Study,
    seen: &Seen<'_>,
    standings: &[Standing],
    approved: Approved,
) -> Vec<String> {
    let entry = study.entry();
    let id = entry.id.as_str();
    let print = fingerprint(&entry.puzzle);
    let reached = |stage| standings.iter().any(|it| it.stage == stage && it.reached != Reached::No);
    let mut breaks = Vec::new();
    let mut add = |says: String| breaks.push(says);
    if reached(Stage::Recorded) {
        add("The recording shows the puzzle as it is: it would have to be made again.".to_owned());
    }
    if !entry.chapters.is_empty() {
        add(format!("{} would begin at other times.", n(entry.chapters.len(), "chapter")));
    }
    if reached(Stage::Captioned) {
        add("Its captions say what is said now.".to_owned());
    }
    let is_current = |it: &Option<String>| it.as_deref().is_none_or(|it| it == print);
    let logs = seen.rehearsals.iter().filter(|it| it.rehearsal.puzzle == id && is_current(&it.fingerprint));
    let solves = seen.solves.iter().filter(|it| it.solve.puzzle == id && is_current(&it.fingerprint));
    for (count, what) in [(logs.count(), "log of the stage"), (solves.count(), "test solve")] {
        if count > 0 {
            add(format!("{} would be of another puzzle.", n(count, what)));
        }
    }
    if let Some(count) = seen.notes.get(id).copied().filter(|it| *it > 0) {
        add(format!("{} would be without a step if the walkthrough went another way.", n(count, "note")));
    }
    if !entry.said.is_empty() && !study.is_sealed() {
        let said: Vec<String> = entry.said.iter().map(|it| format!("\"{it}\"")).collect();
        add(format!("The recording says of its place: {}.", tell::list(&said)));
    }
    if matches!(approved, Approved::Yes(_)) {
        add("Its setter has approved it as it is.".to_owned());
    }
    if reached(Stage::Published) && !matches!(entry.state, State::Later | State::Declined) {
        add("It is out: booklet and site would need an erratum.".to_owned());
    }
    breaks
}

fn n(count: usize, what: &str) -> String {
    match (count, what.split_once(' ')) {
        (1, _) => format!("One {what}"),
        (_, Some(("log", rest))) => format!("{count} logs {rest}"),
        _ => format!("{count} {what}s"),
    }
}
