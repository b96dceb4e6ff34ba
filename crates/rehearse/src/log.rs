//! A log held against the script: which step was said from when to when.

use captions::Time;
use pack::{Happening, Rehearsal};

use crate::Script;

/// A stretch of a recording in which one thing was said.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Reached {
    /// The place of the step in the script, counted from 0; none for the opening or the close.
    pub step: Option<usize>,
    /// Whether it is the close.
    pub is_close: bool,
    /// When it was first reached.
    pub from: Time,
    /// When something else began.
    pub to: Time,
    /// How long the presenter was away in between.
    pub away: Time,
}

impl Reached {
    /// How long it was spoken about.
    pub fn spoken(&self) -> Time {
        self.to.since(self.from) - self.away
    }
}

/// What was said when, in order of time, everything once; where a step was gone back to, that is part of whatever was
/// reached before.
///
/// Steps are known by their keys, so the walkthrough may have changed since; those that are no longer in it are
/// counted to what was reached before them.
pub fn reached(script: &Script, log: &Rehearsal) -> Vec<Reached> {
    let place = |key: &str| script.cues().position(|it| it.key == key);
    let mut begun: Vec<(Time, Option<usize>, bool)> = Vec::new();
    for it in &log.events {
        let what = match &it.is {
            Happening::Opening => (None, false),
            Happening::Close => (None, true),
            Happening::Step { key, .. } => match place(key) {
                Some(at) => (Some(at), false),
                None => continue,
            },
            _ => continue,
        };
        if !begun.iter().any(|before| (before.1, before.2) == what) {
            begun.push((it.at, what.0, what.1));
        }
    }
    let pauses = log.pauses();
    let ends = begun.iter().skip(1).map(|it| it.0).chain([log.total]).collect::<Vec<_>>();
    let stretches = begun.into_iter().zip(ends).map(|((from, step, is_close), to)| {
        let away = pauses.iter().map(|it| it.1.min(to).since(it.0.max(from)));
        Reached { step, is_close, from, to, away: away.fold(Time(0), |sum, it| sum + it) }
    });
    stretches.collect()
}

/// The keys of steps in the log that the walkthrough no longer has.
pub fn gone(script: &Script, log: &Rehearsal) -> Vec<String> {
    let reached = log.reached().into_iter().map(|it| it.1);
    reached.filter(|key| !script.cues().any(|it| it.key == *key)).map(str::to_owned).collect()
}
