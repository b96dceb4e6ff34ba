//! Which step is spoken when, and how surely.

use captions::Time;

use crate::emission::Emission;
use crate::heard::Heard;
use crate::path::{Path, path};
use crate::words::Word;
use crate::{Expected, Glossary};

/// A placing less sure than this is no placing.
pub const SURE: f64 = 0.5;
/// Less likely than this anywhere, a step was not spoken.
const NOWHERE: f64 = 0.1;
/// How much better a recording must fit the steps in their order than in the opposite order, for each thing heard, to be
/// of this puzzle (a logarithm; tuned on invented talks, see `docs/performance.md`).
const MATCHES: f64 = 0.05;
/// With less than this heard, nothing can be said.
const LEAST_HEARD: usize = 12;
/// A log is off by so much before that counts against a step, and by so much more for each halving.
const LOG_IS_OFF: Time = Time::seconds(10);
/// Words parted by more than this are parted by a silence.
const PAUSE: Time = Time(2_500);
/// A step begins at most this long before the first thing heard of it.
const LEADS_IN: Time = Time::seconds(8);

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
        Match::Yes | Match::Unknown => placing(&it, step, words, heard),
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
    let halvings = off.since(LOG_IS_OFF).as_seconds() / LOG_IS_OFF.as_seconds();
    0.5_f64.powf(halvings.min(8.0))
}

fn placing(path: &Path, step: usize, words: &[Word], heard: &[Heard]) -> Placing {
    let anywhere = (0..heard.len()).map(|it| path.likely(it, step)).fold(0.0, f64::max);
    let Some((first, last, sure)) = stretch(path, step) else {
        let at = (0..heard.len()).find(|it| path.likely(*it, step) == anywhere);
        let perhaps = at.filter(|_| anywhere >= NOWHERE).map(|it| heard[it].at);
        return match perhaps {
            None => Placing::NotSpoken,
            perhaps => Placing::Unsure { perhaps, sure: anywhere },
        };
    };
    let from = begins(words, heard, first);
    if sure < SURE {
        return Placing::Unsure { perhaps: Some(from), sure };
    }
    Placing::At { from, to: heard[last].at, sure }
}

/// The likeliest of the stretches in which the step is spoken on the best way.
fn stretch(path: &Path, step: usize) -> Option<(usize, usize, f64)> {
    let mut stretches: Vec<(usize, usize, f64)> = Vec::new();
    for (at, state) in path.best.iter().enumerate() {
        if *state != step {
            continue;
        }
        let likely = path.likely(at, step);
        match stretches.last_mut() {
            Some(last) if last.1 + 1 == at => *last = (last.0, at, last.2.max(likely)),
            _ => stretches.push((at, at, likely)),
        }
    }
    stretches.into_iter().max_by(|a, b| a.2.total_cmp(&b.2))
}

/// When a step begins of which that is the first thing heard: after what was heard before, where a sentence begins or a
/// silence ends.
fn begins(words: &[Word], heard: &[Heard], first: usize) -> Time {
    let before = first.checked_sub(1).map_or(0, |it| heard[it].words.end);
    let own = heard[first].words.start;
    let starts = |at: &usize| {
        let pause = words[*at].at.since(words[*at - 1].at);
        words[*at - 1].ends || pause > PAUSE
    };
    let start = (before.max(1)..=own).rev().find(starts).unwrap_or(before.min(own));
    words[start].at.max(words[own].at - LEADS_IN)
}
