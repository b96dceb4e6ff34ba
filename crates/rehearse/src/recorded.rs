//! What a log gives: chapters, captions, where it ran long, and what may be cut.

use captions::{Caption, Chapter, Cut, Cuts, READABLE, Time, chapters, within};
use pack::{Happening, Rehearsal};

use crate::log::{Reached, reached};
use crate::shorter::conclusion;
use crate::{Pace, Script};

/// The title of the first chapter.
const OPENING: &str = "Credit and rules";

/// The title of the last.
const CLOSE: &str = "Close";

/// A passage has run long if it took so many times as long as planned and [`LEAST_LONGER`] more (both estimates, no
/// source).
const TIMES_AS_LONG: f64 = 1.25;

/// See [`TIMES_AS_LONG`].
const LEAST_LONGER: Time = Time::seconds(15);

/// A caption may be shown so many times as long as its words take to say; then the board is looked at in silence.
const SHOWN_AT_MOST: u64 = 2;

/// Captions drafted from a log.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Draft {
    /// The captions.
    pub captions: Vec<Caption>,
    /// The numbers of the steps of which only the conclusion could be read in the time they were said in.
    pub shortened: Vec<usize>,
    /// The numbers of those that were said too fast even for that, and have no caption.
    pub left_out: Vec<usize>,
}

/// A passage that took longer than planned.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct RanLong {
    /// The passage's title.
    pub title: String,
    /// When it began.
    pub at: Time,
    /// How long it was to take.
    pub planned: Time,
    /// How long it took, without pauses.
    pub took: Time,
}

/// A recording whose log has been held against the script.
#[derive(Clone, Debug)]
pub struct Recorded<'a> {
    script: &'a Script,
    log: &'a Rehearsal,
    pace: Pace,
    reached: Vec<Reached>,
}

impl<'a> Recorded<'a> {
    /// Holds the log against the script.
    pub fn new(script: &'a Script, log: &'a Rehearsal, pace: Pace) -> Recorded<'a> {
        Recorded { script, log, pace, reached: reached(script, log) }
    }

    /// What was said when.
    pub fn reached(&self) -> &[Reached] {
        &self.reached
    }

    /// The passages, opening and close that were reached, each at its first step, before short ones are taken in.
    pub fn parts(&self) -> Vec<Chapter> {
        let mut seen: Vec<usize> = Vec::new();
        let mut parts = Vec::new();
        for it in &self.reached {
            let title = match it.step.map(|at| self.passage(at)) {
                None if it.is_close => CLOSE.to_owned(),
                None => OPENING.to_owned(),
                Some(passage) if seen.contains(&passage) => continue,
                Some(passage) => {
                    seen.push(passage);
                    self.script.passages[passage].title.clone()
                }
            };
            parts.push(Chapter { at: it.from, title });
        }
        parts
    }

    /// The chapters.
    pub fn chapters(&self) -> Vec<Chapter> {
        chapters(self.parts(), self.log.total)
    }

    /// Captions from the script's words, at the times at which they are said once those cuts are made, none too fast to
    /// be read.
    ///
    /// Where a cut leaves less time for a step, less of it is captioned, rather than all of it too fast.
    pub fn captions(&self, cuts: &Cuts) -> Draft {
        let mut draft = Draft::default();
        for it in &self.reached {
            let text = match it.step.and_then(|at| self.script.cue(at)) {
                Some(cue) => cue.says.clone(),
                None if it.is_close => self.script.close.clone(),
                None => self.script.opening_lines().collect::<Vec<_>>().join("\n"),
            };
            // Nobody speaks while they are away, so the words are said before or after.
            let (from, to) = self.longest_spoken(it);
            let (from, to) = (cuts.moved(from), cuts.moved(to));
            let slowly = Time(SHOWN_AT_MOST * self.pace.takes(&text, 0).0);
            let to = to.min(from + slowly);
            let number = it.step.map_or(0, |at| at + 1);
            if let Some(captions) = within(&text, from, to, READABLE) {
                draft.captions.extend(captions);
            } else if let Some(captions) = within(conclusion(&text), from, to, READABLE) {
                draft.captions.extend(captions);
                draft.shortened.push(number);
            } else {
                draft.left_out.push(number);
            }
        }
        draft
    }

    /// The passages that took longer than planned.
    pub fn ran_long(&self) -> Vec<RanLong> {
        let passages = self.script.passages.iter().enumerate().filter_map(|(at, passage)| {
            let of = || self.reached.iter().filter(|it| it.step.is_some_and(|step| self.passage(step) == at));
            let took = of().fold(Time(0), |sum, it| sum + it.spoken());
            let is_long = took.0 as f64 > TIMES_AS_LONG * passage.takes.0 as f64;
            (is_long && took >= passage.takes + LEAST_LONGER).then(|| RanLong {
                title: passage.title.clone(),
                at: of().next().map_or(Time(0), |it| it.from),
                planned: passage.takes,
                took,
            })
        });
        passages.collect()
    }

    /// What may be cut: pauses, and entries that were undone, from when they were made to when they were gone.
    pub fn cuts(&self) -> Cuts {
        let pauses = self.log.pauses().into_iter().map(|(from, to)| Cut { from, to, why: "away".to_owned() });
        let undone = self.log.events.iter().filter_map(|it| match it.is {
            Happening::Undone { cell, since } => {
                Some(Cut { from: since, to: it.at, why: format!("undone at {cell}") })
            }
            _ => None,
        });
        Cuts::new(pauses.chain(undone), self.log.total)
    }

    /// The place of the passage that a step is in.
    fn passage(&self, step: usize) -> usize {
        let mut n = 0;
        let ends = self.script.passages.iter().map(|it| {
            n += it.cues.len();
            n
        });
        ends.take_while(|end| *end <= step).count()
    }

    /// The longest stretch of it without a pause.
    fn longest_spoken(&self, it: &Reached) -> (Time, Time) {
        let mut from = it.from;
        let mut longest = (it.from, it.from);
        let pauses = self.log.pauses();
        let within = pauses.iter().filter(|pause| pause.0 < it.to && it.from < pause.1);
        for (away, back) in within.copied().chain([(it.to, it.to)]) {
            let away = away.max(from);
            if away.since(from) > longest.1.since(longest.0) {
                longest = (from, away);
            }
            from = back.max(from);
        }
        longest
    }
}
