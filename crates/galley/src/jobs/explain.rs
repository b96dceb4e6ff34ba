//! `galley explain`: the walkthrough of each puzzle, or of one.

use std::fmt::Write;

use reason::Known;
use rulebook::Puzzle;
use study::{Account, Knowing, Landmark, Study};
use trail::{Passage, StepId, Walkthrough};

use crate::each::Each;
use crate::job::With;
use crate::json::{self, Explanation};
use crate::outcome::{Failure, Outcome};
use crate::screen::Screen;
use crate::steps::steps;
use crate::studies::Depth;
use crate::{print, words};

/// The command.
#[derive(Debug)]
pub(crate) struct Explain {
    /// What to explain.
    pub(crate) each: Each,
    /// The techniques that the solver knows; none for all of them, and small arguments.
    pub(crate) knows: Option<Known>,
}

impl Explain {
    /// Tells the steps. A sealed puzzle is refused, which is a trouble of the pack.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let found = self.each.find(Depth::Walkthrough, with)?.refusing_sealed("its walkthrough", |_| true);
        Ok(found.outcome(
            with,
            |it| in_words(it, self.knows, with.stdout),
            |it| it.map(|it| explanation(it, self.knows)).unwrap_or_default(),
        ))
    }
}

/// Title, length and passages of a puzzle that has a walkthrough to show.
fn in_words(study: &Study, knows: Option<Known>, screen: Screen) -> Option<String> {
    let Some(known) = knows else {
        return Some(puzzle_in_words(study, "", Some(study.opened()?.account?), screen));
    };
    let knowing = study.knowing(known)?;
    let account = match &knowing {
        Knowing::Enough(account) | Knowing::OneMore(_, account) => Some(account),
        Knowing::More(_) => None,
    };
    Some(puzzle_in_words(study, &words::knowing(&knowing), account, screen))
}

/// A puzzle with its walkthrough, if there is one; `remark` is said before it.
fn puzzle_in_words(study: &Study, remark: &str, account: Option<&Account>, screen: Screen) -> String {
    let entry = study.entry();
    let mut text = format!("{}, by {}\n", entry.title, entry.setter);
    if !remark.is_empty() {
        text.push_str(&print::folded(remark, screen));
    }
    let Some(account) = account else { return text };
    let walkthrough = account.explained.walkthrough();
    let trail = walkthrough.trail();
    let (steps, minutes) = (words::counted(trail.n_steps(), "step"), words::minutes(account.minutes()));
    // Writing to a text cannot fail.
    _ = writeln!(text, "{steps}, {minutes} minutes ({})", tell::basis(account.estimate.n_solves));
    if account.has_reached_limit {
        text.push_str(&print::folded(tell::limit_reached(), screen));
    }
    let ways = tell::ways_in(&entry.puzzle, &account.ways_in(&entry.puzzle));
    let lead = if ways.len() == 1 { "Way in:" } else { "Ways in:" };
    text.push_str(&print::folded(&format!("{lead} {}.", ways.join("; ")), screen));
    let titles = tell::passage_titles(&entry.puzzle, walkthrough);
    for (passage, title) in walkthrough.passages().iter().zip(titles) {
        let told = passage.steps.iter().map(|it| {
            let landmarks = account.landmarks_at(*it).map(|it| tell::landmark(it) + " ");
            (it.number(), landmarks.collect::<String>() + &tell::says(&entry.puzzle, trail, *it))
        });
        _ = write!(text, "\n{title}\n{}", print::numbered(told, screen));
    }
    text
}

fn explanation(study: &Study, knows: Option<Known>) -> Explanation {
    let puzzle = &study.entry().puzzle;
    let knowing = knows.and_then(|it| study.knowing(it));
    let account = match &knowing {
        Some(Knowing::Enough(account) | Knowing::OneMore(_, account)) => Some(account),
        Some(Knowing::More(_)) => None,
        None => study.opened().and_then(|it| it.account),
    };
    let walkthrough = account.map(|it| it.explained.walkthrough());
    Explanation {
        complete: walkthrough.is_some_and(|it| it.is_complete(puzzle)),
        minutes: match &knowing {
            Some(_) => account.map(|it| it.minutes().into()),
            None => study.minutes().map(json::Minutes::from),
        },
        knowing: knowing.as_ref().map(knowing_document),
        limit_reached: account.is_some_and(|it| it.has_reached_limit),
        ways_in: account.map(|it| tell::ways_in(puzzle, &it.ways_in(puzzle))).unwrap_or_default(),
        landmarks: account.map(|it| it.landmarks().into_iter().map(landmark).collect()).unwrap_or_default(),
        passages: walkthrough.map(|it| passages(puzzle, it)).unwrap_or_default(),
        steps: walkthrough.map(|it| steps(puzzle, it.trail())).unwrap_or_default(),
    }
}

fn landmark((step, landmark): (StepId, Landmark)) -> json::Landmark {
    let (kind, open) = match landmark {
        Landmark::BreakIn => ("break-in", None),
        Landmark::Narrow(open) => ("narrow", Some(open)),
        Landmark::Several(open) => ("several", Some(open)),
    };
    json::Landmark { step: step.number(), kind, open }
}

/// How far what is known goes.
pub(super) fn knowing_document(it: &Knowing) -> json::Knowing {
    json::Knowing {
        enough: matches!(it, Knowing::Enough(_)),
        opens: if let Knowing::OneMore(id, _) = it { Some(id.name()) } else { None },
        missing: match it {
            Knowing::More(missing) => missing.iter().map(|it| it.name()).collect(),
            _ => Vec::new(),
        },
    }
}

fn passages(puzzle: &Puzzle, walkthrough: &Walkthrough) -> Vec<json::Passage> {
    let passage = |(it, title): (&Passage, String)| json::Passage {
        title,
        steps: it.steps.iter().map(|it| it.number()).collect(),
    };
    let titles = tell::passage_titles(puzzle, walkthrough);
    walkthrough.passages().iter().zip(titles).map(passage).collect()
}
