//! What is said, in order, with its times.

use captions::Time;
use page::bare;
use rulebook::Claim;
use tell::{RuleWords, Voice};
use trail::{StepId, TechniqueId};

use crate::{Setting, step_key};

/// Everything that is said about a puzzle, from the first word to the last.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Script {
    /// What the editor says before everything else; may be empty.
    pub greeting: String,
    /// The credit line.
    pub credit: String,
    /// The rules, in full.
    pub rules: Vec<RuleWords>,
    /// Where the puzzle is to be found; empty if that is not known.
    pub whereabouts: String,
    /// To say all that.
    pub opening: Time,
    /// The walkthrough.
    pub passages: Vec<Passage>,
    /// What is said after the last step.
    pub close: String,
    /// To say that.
    pub closing: Time,
}

/// A passage of the walkthrough.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Passage {
    /// What it is called.
    pub title: String,
    /// When it begins, counted from the first word.
    pub starts: Time,
    /// How long it is.
    pub takes: Time,
    /// Its steps, at least one.
    pub cues: Vec<Cue>,
}

/// One step as it is said.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Cue {
    /// The step.
    pub step: StepId,
    /// The name by which it is known again in another walkthrough.
    pub key: String,
    /// Its technique.
    pub technique: TechniqueId,
    /// The words.
    pub says: String,
    /// How many marks it puts on the board.
    pub n_marks: usize,
    /// To say it and to put its marks on the board.
    pub takes: Time,
    /// The editor's note.
    pub note: Option<String>,
}

impl Script {
    pub(crate) fn new(setting: &Setting) -> Script {
        let puzzle = &setting.study.entry().puzzle;
        let walkthrough = setting.account.explained.walkthrough();
        let (notes, pace) = (&setting.notes, setting.pace);
        let mut script = Script {
            greeting: bare(notes.opening.trim()),
            credit: credit(setting),
            rules: tell::rules(puzzle),
            whereabouts: whereabouts(setting),
            opening: Time(0),
            passages: Vec::new(),
            close: if notes.close.trim().is_empty() { close(setting) } else { bare(notes.close.trim()) },
            closing: Time(0),
        };
        script.opening = script.opening_lines().map(|it| pace.takes(it, 0)).fold(Time(0), |a, b| a + b);
        script.closing = pace.takes(&script.close, 0);
        let mut starts = script.opening;
        let titles = tell::passage_titles_in(Voice::Spoken, puzzle, walkthrough);
        for (passage, title) in walkthrough.passages().iter().zip(titles) {
            let cues: Vec<Cue> = passage.steps.iter().map(|it| cue(setting, *it)).collect();
            let takes = cues.iter().fold(Time(0), |sum, it| sum + it.takes);
            script.passages.push(Passage { title, starts, takes, cues });
            starts = starts + takes;
        }
        script
    }

    /// What is said before the first step, line by line.
    pub fn opening_lines(&self) -> impl Iterator<Item = &str> {
        let rules = self.rules.iter().flat_map(|it| it.full.iter().map(String::as_str));
        let before = [&self.greeting[..], &self.credit[..]].into_iter();
        before.chain(rules).chain([&self.whereabouts[..]]).filter(|it| !it.is_empty())
    }

    /// Every step, in order.
    pub fn cues(&self) -> impl Iterator<Item = &Cue> {
        self.passages.iter().flat_map(|it| &it.cues)
    }

    /// The step at that place, counted from 0.
    pub fn cue(&self, at: usize) -> Option<&Cue> {
        self.cues().nth(at)
    }

    /// When the close begins.
    pub fn closes(&self) -> Time {
        self.opening + self.passages.iter().fold(Time(0), |sum, it| sum + it.takes)
    }

    /// To say everything.
    pub fn total(&self) -> Time {
        self.closes() + self.closing
    }
}

/// The credit line as it is said.
fn credit(setting: &Setting) -> String {
    let entry = setting.study.entry();
    let (title, setter, pack) = (bare(&entry.title), bare(entry.credited()), bare(&setting.pack_title));
    match pack.trim() {
        "" => format!("{title}, set by {setter}."),
        pack => format!("{title}, set by {setter}, from {pack}."),
    }
}

/// An address is shown and not spelt out.
fn whereabouts(setting: &Setting) -> String {
    match setting.address {
        Some(_) => "You can solve it yourself first: the address is below.".to_owned(),
        None => String::new(),
    }
}

fn close(setting: &Setting) -> String {
    let entry = setting.study.entry();
    let (title, setter) = (bare(&entry.title), bare(entry.credited()));
    format!("And that is {title}, solved. Thank you to {setter} for setting it, and to you for watching.")
}

fn cue(setting: &Setting, step: StepId) -> Cue {
    let puzzle = &setting.study.entry().puzzle;
    let trail = setting.account.explained.walkthrough().trail();
    let says = tell::says_in(Voice::Spoken, puzzle, trail, step);
    let concluded = trail.step(step).concludes().iter().map(|it| trail.fact(*it).claim());
    let n_marks = concluded.filter(is_marked).count();
    let key = step_key(puzzle.size(), trail, step);
    let note = setting.notes.steps.iter().find(|it| it.key == key).map(|it| bare(&it.says));
    let takes = setting.pace.takes(&says, n_marks);
    Cue { step, key, technique: trail.step(step).technique(), says, n_marks, takes, note }
}

/// Whether a conclusion is put on the board. How many cells lie between two crusts is only said.
fn is_marked(claim: &Claim) -> bool {
    match claim {
        Claim::Is(..)
        | Claim::IsNot(..)
        | Claim::Crust(_)
        | Claim::Filling(_)
        | Claim::CrustAmong { .. }
        | Claim::DigitAmong { .. }
        | Claim::Spent { .. } => true,
        Claim::FillingCells { .. } => false,
    }
}
