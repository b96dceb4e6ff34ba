//! How to say a walkthrough in less time: steps that can be said together, and parts for shorter recordings.

use captions::Time;
use trail::StepId;

use crate::introductions::Introduction;
use crate::{Pace, Script};

/// Steps of one technique in a row that can be said together: the first in full, of the others what they
/// conclude.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Together {
    /// The steps, at least two.
    pub steps: Vec<StepId>,
    /// How much time that saves.
    pub saves: Time,
}

/// A recording of its own, where a walkthrough is divided.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Part {
    /// The places of its first passage and of the one after its last.
    pub passages: (usize, usize),
    /// How long it is: the first with the opening, the last with the close.
    pub takes: Time,
}

/// What can be said together, the first to do so first: the easiest technique before harder ones, then what saves most.
/// Nothing that is new here is among them.
pub(crate) fn together(script: &Script, new: &[Introduction], pace: Pace) -> Vec<Together> {
    let mut found: Vec<(u32, Together)> = Vec::new();
    for passage in &script.passages {
        for run in passage.cues.chunk_by(|a, b| a.technique == b.technique) {
            let technique = run[0].technique;
            let weight = reason::technique(technique).map_or(u32::MAX, |it| it.weight());
            if run.len() < 2 || weight == u32::MAX || new.iter().any(|it| it.technique == technique) {
                continue;
            }
            let shorter = run[1..].iter().map(|it| pace.takes(conclusion(&it.says), it.n_marks));
            let saves =
                (run[1..].iter().zip(shorter)).fold(Time(0), |sum, (it, then)| sum + (it.takes - then));
            if saves > Time(0) {
                found.push((weight, Together { steps: run.iter().map(|it| it.step).collect(), saves }));
            }
        }
    }
    found.sort_by_key(|(weight, it)| (*weight, std::cmp::Reverse(it.saves), it.steps[0]));
    found.into_iter().map(|it| it.1).collect()
}

/// What a step comes to: its last sentence, if that begins with "So"; else all of it.
pub(crate) fn conclusion(says: &str) -> &str {
    match says.rfind(". So ") {
        Some(at) => &says[at + 2..],
        None => says,
    }
}

/// The fewest parts of at most that length, cut between passages so that the longest is as short as can be. A passage
/// that is longer by itself is a part of its own.
pub(crate) fn parts(script: &Script, longest: Time) -> Vec<Part> {
    let n = script.passages.len();
    let takes = |from: usize, to: usize| {
        let passages = script.passages[from..to].iter().fold(Time(0), |sum, it| sum + it.takes);
        let opening = if from == 0 { script.opening } else { Time(0) };
        let closing = if to == n { script.closing } else { Time(0) };
        passages + opening + closing
    };
    // For each number of passages from the first on: parts, the longest of them, and where the last begins.
    let mut best: Vec<(usize, Time, usize)> = vec![(0, Time(0), 0)];
    for to in 1..=n {
        let cuts = (0..to).filter(|from| takes(*from, to) <= longest || *from + 1 == to);
        let ways = cuts.map(|from| (best[from].0 + 1, best[from].1.max(takes(from, to)), from));
        best.push(ways.min().unwrap_or((to, Time(0), to - 1)));
    }
    let mut parts = Vec::new();
    let mut to = n;
    while to > 0 {
        let from = best[to].2;
        parts.push(Part { passages: (from, to), takes: takes(from, to) });
        to = from;
    }
    parts.reverse();
    parts
}
