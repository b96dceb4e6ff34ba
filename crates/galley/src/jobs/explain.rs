//! `galley explain`: the walkthrough of each puzzle, or of one.

use std::fmt::Write;

use study::{Account, Study};
use trail::Walkthrough;

use crate::job::With;
use crate::json::{self, Explanation};
use crate::load::load;
use crate::outcome::{Failure, Outcome};
use crate::screen::Screen;
use crate::steps::steps;
use crate::studies::{Found, Target};
use crate::{print, trouble, words};

/// The command.
#[derive(Debug)]
pub(crate) struct Explain {
    /// Where the puzzles are.
    pub(crate) target: Target,
    /// The id of the one to explain; none for all.
    pub(crate) puzzle: Option<String>,
}

impl Explain {
    /// Tells the steps. A sealed puzzle is refused, which is a trouble of the pack.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let mut loaded = load(&self.target.path)?;
        let is_one = self.puzzle.is_some() || !loaded.is_pack;
        if let Some(id) = &self.puzzle {
            loaded = loaded.only(id, &self.target.path)?;
        }
        let mut found = self.target.study_loaded(loaded, with)?;
        let sealed: Vec<_> = (found.pack.studies().iter())
            .filter(|it| it.is_sealed())
            .map(|it| trouble::sealed(it, found.file_of(it)))
            .collect();
        found.troubles.extend(sealed);
        let result = match (with.is_json, is_one) {
            (true, true) => json::text(&one_document(&found)),
            (true, false) => json::text(&json::ExplainPack {
                format: json::FORMAT,
                puzzles: explanations(&found),
                problems: found.problems_of_pack(),
            }),
            (false, _) => in_words(&found, with.stdout),
        };
        Ok(Outcome {
            problems: found.problems(with),
            result,
            note: String::new(),
            has_errors: found.has_errors(),
        })
    }
}

/// Title, length and passages of every puzzle that has a walkthrough to show.
fn in_words(found: &Found, screen: Screen) -> String {
    let told = found.pack.studies().iter().filter_map(|study| {
        let account = study.opened()?.account?;
        Some(puzzle_in_words(study, account, screen))
    });
    told.collect::<Vec<_>>().join("\n")
}

fn puzzle_in_words(study: &Study, account: &Account, screen: Screen) -> String {
    let entry = study.entry();
    let walkthrough = account.explained.walkthrough.walkthrough();
    let trail = walkthrough.trail();
    let minutes = study.minutes().map(words::minutes).unwrap_or_default();
    let steps = words::counted(trail.n_steps(), "step");
    let mut text =
        format!("{}, by {}\n{steps}, {minutes} minutes (not yet calibrated)\n", entry.title, entry.setter);
    for passage in walkthrough.passages() {
        let told = passage.steps.iter().map(|it| (it.number(), tell::says(&entry.puzzle, trail, *it)));
        let title = tell::passage_title(passage);
        // Writing to a text cannot fail.
        _ = write!(text, "\n{title}\n{}", print::numbered(told, screen));
    }
    text
}

fn one_document(found: &Found) -> json::ExplainOne {
    let explanation = explanations(found).into_iter().next();
    // One file was named, and every file is a study or unreadable.
    let explanation = explanation.unwrap_or_else(|| unreachable!("a file that is neither puzzle nor none"));
    json::ExplainOne { format: json::FORMAT, explanation }
}

fn explanations(found: &Found) -> Vec<Explanation> {
    let readable = found.pack.studies().iter().map(|it| explanation(it, found));
    let unreadable = found.unreadable.iter().map(|it| Explanation {
        id: it.name.clone(),
        title: it.title.clone(),
        sealed: None,
        complete: false,
        minutes: None,
        passages: Vec::new(),
        steps: Vec::new(),
        problems: found.problems_of(&it.file),
    });
    readable.chain(unreadable).collect()
}

fn explanation(study: &Study, found: &Found) -> Explanation {
    let puzzle = &study.entry().puzzle;
    let walkthrough =
        study.opened().and_then(|it| it.account).map(|it| it.explained.walkthrough.walkthrough());
    Explanation {
        id: study.entry().id.to_string(),
        title: Some(study.entry().title.clone()),
        sealed: Some(study.is_sealed()),
        complete: walkthrough.is_some_and(|it| it.is_complete(puzzle)),
        minutes: study.minutes().map(json::Minutes::from),
        passages: walkthrough.map(passages).unwrap_or_default(),
        steps: walkthrough.map(|it| steps(puzzle, it.trail())).unwrap_or_default(),
        problems: found.problems_of(found.file_of(study)),
    }
}

fn passages(walkthrough: &Walkthrough) -> Vec<json::Passage> {
    let passage = |it| json::Passage {
        title: tell::passage_title(it),
        steps: it.steps.iter().map(|it| it.number()).collect(),
    };
    walkthrough.passages().iter().map(passage).collect()
}
