//! What is said, in order, with its times: the cue sheet before it is laid out.

use pack::Entry;
use rulebook::Claim;
use study::{Account, Study};
use tell::{RuleWords, Voice};
use trail::{StepId, Trail};

use crate::speech::Seconds;
use page::bare;

/// Everything that is said about a puzzle.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Script {
    pub(crate) rules: Vec<RuleWords>,
    /// To read out the credit line and the rules.
    pub(crate) opening: Seconds,
    pub(crate) passages: Vec<Passage>,
}

/// A passage of the walkthrough.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Passage {
    pub(crate) title: String,
    /// When it begins, counted from the first word.
    pub(crate) starts: Seconds,
    pub(crate) takes: Seconds,
    pub(crate) cues: Vec<Cue>,
}

/// One step as it is said.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Cue {
    pub(crate) step: StepId,
    pub(crate) technique: &'static str,
    pub(crate) says: String,
    pub(crate) takes: Seconds,
}

impl Script {
    pub(crate) fn new(study: &Study, account: &Account, pack_title: &str) -> Script {
        let entry = study.entry();
        let walkthrough = account.explained.walkthrough();
        let trail = walkthrough.trail();
        let rules = tell::rules(&entry.puzzle);
        let opening = opening(entry, pack_title, &rules);
        let mut starts = opening;
        let titles = tell::passage_titles_in(Voice::Spoken, &entry.puzzle, walkthrough);
        let passages = walkthrough.passages().iter().zip(titles);
        let passages = passages.map(|(passage, title)| {
            let cue = |step: &StepId| cue(study, trail, *step);
            let cues: Vec<Cue> = passage.steps.iter().map(cue).collect();
            let takes = cues.iter().map(|it| it.takes).sum();
            let passage = Passage { title, starts, takes, cues };
            starts = starts + takes;
            passage
        });
        Script { passages: passages.collect(), rules, opening }
    }

    /// To say the steps alone.
    pub(crate) fn walkthrough(&self) -> Seconds {
        self.passages.iter().map(|it| it.takes).sum()
    }

    /// To say everything.
    pub(crate) fn total(&self) -> Seconds {
        self.opening + self.walkthrough()
    }
}

/// The credit line and the rules in full.
fn opening(entry: &Entry, pack_title: &str, rules: &[RuleWords]) -> Seconds {
    let rules = rules.iter().flat_map(|it| &it.full);
    Seconds::of(&credit(entry, pack_title), 0) + rules.map(|it| Seconds::of(it, 0)).sum()
}

/// The credit line as it is said.
fn credit(entry: &Entry, pack_title: &str) -> String {
    let (title, setter, pack) = (bare(&entry.title), bare(&entry.setter), bare(pack_title));
    match pack.trim() {
        "" => format!("{title}, set by {setter}."),
        pack => format!("{title}, set by {setter}, from {pack}."),
    }
}

fn cue(study: &Study, trail: &Trail, step: StepId) -> Cue {
    let says = tell::says_in(Voice::Spoken, &study.entry().puzzle, trail, step);
    let concluded = trail.step(step).concludes().iter().map(|it| trail.fact(*it).claim());
    let takes = Seconds::of(&says, concluded.filter(is_marked).count());
    Cue { step, technique: tell::technique_name(trail.step(step).technique()), says, takes }
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
