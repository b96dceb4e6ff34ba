//! Which step is spoken when, and how surely.

use captions::Time;

use crate::emission::Emission;
use crate::heard::{Heard, Sign};
use crate::path::{Path, path};
use crate::words::Word;
use crate::{Expected, Glossary};

/// A placing less sure than this is no placing.
pub const SURE: f64 = 0.5;
/// Less likely than this anywhere, a step was not spoken.
const NOWHERE: f64 = 0.1;
/// How much better a recording must fit the steps in their order than in the opposite order, for each thing heard, to be
/// of this puzzle (a logarithm; tuned on invented talks, see `docs/performance.md`).
const MATCHES: f64 = 0.09;
/// With less than this heard, nothing can be said.
const LEAST_HEARD: usize = 12;
/// A log is off by so much before that counts against a step, and every so much more halves how well it agrees.
const LOG_IS_OFF: Time = Time::seconds(4);
const LOG_HALVES: Time = Time::seconds(2);
/// Words parted by more than this are parted by a silence.
const PAUSE: Time = Time(2_500);
/// The sentence that a step begins with begins at most this long before the first thing heard of it.
const LEADS_IN: Time = Time::seconds(6);
/// Where there are no sentences, a step begins about this long before.
const MOMENT: Time = Time(1_500);

/// Whether a recording is of the puzzle it is held against.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Match {
    /// It is.
    Yes,
    /// It is of something else.
    No,
    /// Too little is said to tell.
    Unknown,
}

/// Where a step is spoken.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Placing {
    /// From one time to another, with how sure that is: from [`SURE`] to 1.
    At {
        /// When it begins.
        from: Time,
        /// When the last of it is said.
        to: Time,
        /// How sure it is.
        sure: f64,
    },
    /// Perhaps there, perhaps not at all.
    Unsure {
        /// Where it would be, if anywhere is likelier than others.
        perhaps: Option<Time>,
        /// How sure that would be.
        sure: f64,
    },
    /// Nothing that was said sounds like it.
    NotSpoken,
}

/// Every step's placing, and whether it is the right puzzle at all.
pub(crate) struct Aligned {
    pub(crate) matches: Match,
    pub(crate) placings: Vec<Placing>,
    /// How much better than in the opposite order it fits, for each thing heard.
    pub(crate) fit: f64,
    /// The step that is likeliest spoken at each thing heard.
    pub(crate) spoken: Vec<Option<usize>>,
}

pub(crate) fn align(expected: &Expected, glossary: &Glossary, words: &[Word], heard: &[Heard]) -> Aligned {
    let emission = Emission::new(expected, glossary);
    let log = spans(expected);
    let near = |step: usize, it: &Heard| agrees(&log, step, it.at);
    let it = path(expected, &emission, heard, near);
    let fit = fit(expected, glossary, heard);
    let matches = match heard.len() {
        it if it < LEAST_HEARD || expected.steps.len() < 4 => Match::Unknown,
        _ if fit >= MATCHES => Match::Yes,
        _ => Match::No,
    };
    let placings = (0..expected.steps.len()).map(|step| match matches {
        Match::No => Placing::NotSpoken,
        Match::Yes | Match::Unknown => {
            let heard_at = placing(&it, step, words, heard, |it| emission.tells(step, it));
            by_log(heard_at, log[step])
        }
    });
    let n_steps = expected.steps.len();
    let spoken = it.best.iter().map(|state| Some(*state).filter(|it| *it < n_steps && matches != Match::No));
    Aligned { matches, placings: placings.collect(), fit, spoken: spoken.collect() }
}

/// How much better what is heard fits the steps in their order than in the opposite one. Another puzzle's recording fits
/// both alike.
fn fit(expected: &Expected, glossary: &Glossary, heard: &[Heard]) -> f64 {
    let fits = |it: &Expected| path(it, &Emission::new(it, glossary), heard, |_, _| 1.0).fits;
    let mut turned = expected.clone();
    turned.steps.reverse();
    (fits(expected) - fits(&turned)) / heard.len().max(1) as f64
}

/// When each step was on show by the log.
fn spans(expected: &Expected) -> Vec<Option<(Time, Time)>> {
    let mut spans = vec![None; expected.steps.len()];
    let ends = expected.log.iter().skip(1).map(|it| it.0).chain([Time(u64::MAX)]);
    for ((from, step), to) in expected.log.iter().zip(ends) {
        if let Some(span @ None) = spans.get_mut(*step) {
            *span = Some((*from, to));
        }
    }
    spans
}

/// How well a moment agrees with the log: 1 if it does, or if the log says nothing of the step.
fn agrees(log: &[Option<(Time, Time)>], step: usize, at: Time) -> f64 {
    let Some((from, to)) = log.get(step).copied().flatten() else { return 1.0 };
    let off = from.since(at).max(at.since(to));
    let halvings = off.since(LOG_IS_OFF).as_seconds() / LOG_HALVES.as_seconds();
    0.5_f64.powf(halvings.min(12.0))
}

/// What is not surely heard was spoken when the log says that it was on show, if there is a log: just so sure.
fn by_log(heard: Placing, log: Option<(Time, Time)>) -> Placing {
    match (heard, log) {
        (Placing::Unsure { .. }, Some((from, to))) => {
            Placing::At { from, to: to.min(from + LEADS_IN), sure: SURE }
        }
        _ => heard,
    }
}

/// A stretch of what is heard that is spoken of one step, and how sure that is.
#[derive(Clone, Copy)]
struct Stretch {
    first: usize,
    last: usize,
    sure: f64,
}

fn placing(
    path: &Path,
    step: usize,
    words: &[Word],
    heard: &[Heard],
    tells: impl Fn(&Sign) -> bool,
) -> Placing {
    let likely: Vec<f64> = (0..heard.len()).map(|it| path.likely(it, step)).collect();
    let Some(it) = stretch(path, step, &likely, words, heard) else { return Placing::NotSpoken };
    // What is heard between two steps may be counted to either: a step begins with what tells it from others.
    let mut telling = (it.first..=it.last).filter(|at| tells(&heard[*at].is));
    let first = telling.next().unwrap_or(it.first);
    let last = telling.next_back().unwrap_or(first);
    let from = begins(words, heard, first);
    match it.sure {
        sure if sure >= SURE => Placing::At { from, to: heard[last].at.max(from), sure },
        sure => Placing::Unsure { perhaps: Some(from), sure },
    }
}

/// The likeliest stretch for a step: one of those on the best way, or else where it is likeliest for itself; none if
/// it is likely nowhere.
fn stretch(path: &Path, step: usize, likely: &[f64], words: &[Word], heard: &[Heard]) -> Option<Stretch> {
    let mut stretches: Vec<(usize, usize)> = Vec::new();
    for (at, _) in path.best.iter().enumerate().filter(|it| *it.1 == step) {
        match stretches.last_mut() {
            Some(last) if last.1 + 1 == at => last.1 = at,
            _ => stretches.push((at, at)),
        }
    }
    if stretches.is_empty() {
        let best = (0..likely.len()).max_by(|a, b| likely[*a].total_cmp(&likely[*b]))?;
        if likely[best] < NOWHERE {
            return None;
        }
        stretches.push((best, best));
    }
    let all: f64 = likely.iter().sum();
    let caption = |it: usize| words[heard[it].words.start].caption;
    let sure = |&(first, last): &(usize, usize)| {
        // One caption off is still right.
        let near = (0..likely.len())
            .filter(|it| caption(*it) + 1 >= caption(first) && caption(*it) <= caption(last) + 1);
        near.map(|it| likely[it]).sum::<f64>() / all.max(1.0)
    };
    let rated = stretches.iter().map(|it| Stretch { first: it.0, last: it.1, sure: sure(it) });
    rated.max_by(|a, b| a.sure.total_cmp(&b.sure))
}

/// When a step begins of which that is the first thing heard: where its sentence begins or a silence ends, but not before
/// anything else was heard; a moment earlier where captions have no sentences.
fn begins(words: &[Word], heard: &[Heard], first: usize) -> Time {
    let before = first.checked_sub(1).map_or(0, |it| heard[it].words.end);
    let own = heard[first].words.start;
    let starts =
        |at: &usize| *at == 0 || words[*at - 1].ends || words[*at].at.since(words[*at - 1].at) > PAUSE;
    let is_near = |at: &usize| words[own].at.since(words[*at].at) <= LEADS_IN;
    let start = (before.min(own)..=own).rev().take_while(is_near).find(starts);
    let moment = (before.min(own)..=own).find(|it| words[own].at.since(words[*it].at) <= MOMENT);
    start.or(moment).map_or(words[own].at, |it| words[it].at)
}
