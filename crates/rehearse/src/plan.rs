//! The plan of a recording: the script, and what to have in mind while it is said.

use captions::Time;
use pack::StepNote;

use crate::introductions::{Introduction, Taught, introductions, taught};
use crate::questions::{Question, questions};
use crate::shorter::{Part, Together, parts, together};
use crate::stumbles::{Stumble, stumbles};
use crate::{Pace, Script, Setting};

/// What is said, what is new in it, and what to look out for.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Plan {
    /// What is said.
    pub script: Script,
    /// At which pace.
    pub pace: Pace,
    /// What is new here.
    pub introductions: Vec<Introduction>,
    /// What was taught before and needs no repeating.
    pub taught: Vec<Taught>,
    /// Where viewers are likely to stumble.
    pub stumbles: Vec<Stumble>,
    /// Questions to put to them.
    pub questions: Vec<Question>,
    /// How long it should be.
    pub target: Option<Time>,
    /// What can be said together, what to say so first first.
    pub together: Vec<Together>,
    /// The editor's notes on steps that the walkthrough no longer has.
    pub orphans: Vec<StepNote>,
}

impl Plan {
    /// The plan for a puzzle in its setting. Equal settings give equal plans.
    pub fn new(setting: &Setting) -> Plan {
        let script = Script::new(setting);
        let introductions = introductions(setting);
        let stumbles = stumbles(setting);
        let has_step = |it: &StepNote| script.cues().any(|cue| cue.key == it.key);
        Plan {
            pace: setting.pace,
            taught: taught(setting),
            questions: questions(setting, &introductions, &stumbles),
            target: setting.notes.target,
            together: together(&script, &introductions, setting.pace),
            orphans: setting.notes.steps.iter().filter(|it| !has_step(it)).cloned().collect(),
            script,
            introductions,
            stumbles,
        }
    }

    /// What to say together so that the target is met, and how much is too much even then. Nothing where it is
    /// met anyway, or where there is none.
    pub fn shortened(&self) -> (&[Together], Time) {
        let mut over = self.target.map_or(Time(0), |it| self.script.total() - it);
        let mut n = 0;
        while n < self.together.len() && over > Time(0) {
            over = over - self.together[n].saves;
            n += 1;
        }
        (&self.together[..n], over)
    }

    /// Divided into recordings of at most that length, as far as passages are no longer.
    pub fn parts(&self, longest: Time) -> Vec<Part> {
        parts(&self.script, longest)
    }
}
