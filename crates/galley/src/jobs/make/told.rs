//! What is said of made puzzles, and of tries that came to nothing.

use std::fmt::Write;

use grid::{CellSet, Grid};
use make::{Brief, Made, Tally};
use prove::Printed;
use reason::by_ease;
use rulebook::Claim;
use study::MinutesRange;
use trail::{StepId, TechniqueId};

use super::{Finished, Make};
use crate::screen::Screen;
use crate::{boards, json, print, words};

/// What whoever gets no puzzle might do.
pub(super) const NEXT_MOVE: &str = "allow more givens, clues or minutes, teach fewer or other techniques, say with --knows what is known, let \
     it have something to spare (--spare-allowed), or try more (--tries) or another seed";

/// The same where the techniques come from a pack.
pub(super) const NEXT_MOVE_FOR_GAP: &str = "allow more givens, clues or minutes, let it have something to spare (--spare-allowed), or try more (--tries) or \
     another seed";

/// Beside a bar.
pub(super) fn so_far(tally: &Tally, wanted: usize) -> String {
    format!("setting puzzles: {} of {wanted} found; {tally}", tally.found)
}

/// Of a brief that nothing met.
pub(super) fn none_found(tally: &Tally) -> String {
    let nearest = tally.nearest.map(|it| format!("; the nearest missed because {it}"));
    format!("none found in {tally}{}", nearest.unwrap_or_default())
}

/// Of a brief that not enough met, or nothing.
pub(super) fn too_few(found: usize, tally: &Tally, wanted: usize) -> String {
    if found == 0 {
        return format!("error: {}\n  help: {NEXT_MOVE}\n", none_found(tally));
    }
    let nearest = tally.nearest.map(|it| format!("; the nearest of the others missed because {it}"));
    let found = format!("{} of {wanted} found in {tally}", tally.found);
    format!("error: {found}{}\n  help: {NEXT_MOVE}\n", nearest.unwrap_or_default())
}

/// Each puzzle in a line, its teaching moments, and what the tries were.
pub(super) fn in_words(brief: &Brief, finished: &[Finished], tally: &Tally, screen: Screen) -> String {
    let mut text = String::new();
    for it in finished {
        let made = &it.made;
        let (givens, clues) = (made.puzzle.givens().filled().count(), made.puzzle.clues().len());
        let wrote = match (&it.file, finished.len()) {
            (Some(file), _) => format!("wrote {}: ", file.to_string_lossy()),
            (None, 1) => String::new(),
            (None, _) => format!("{}: ", it.entry.id),
        };
        // Writing to a text cannot fail.
        _ = writeln!(
            text,
            "{wrote}{}, {}, {}, about {} ({}): {}",
            words::counted(givens, "given"),
            words::counted(clues, "clue"),
            words::counted(made.explained.walkthrough().trail().n_steps(), "step"),
            words::counted(made.minutes(), "minute"),
            tell::basis(made.estimate.n_solves),
            words::techniques(&techniques(made)),
        );
        text.push_str(&beyond_unique(made));
        for (technique, moment) in moments(brief, made) {
            let trail = made.explained.walkthrough().trail();
            let says = tell::says(&made.puzzle, trail, moment);
            let name = tell::technique_name(technique);
            let head = format!("step {} is the first that takes {name}", moment.number());
            _ = write!(text, "\n{head}:\n{}\n{}\n", print::folded(&says, screen), board_at(made, moment));
        }
    }
    _ = writeln!(text, "{tally}");
    text
}

/// What of the page is not there for the one solution, if anything is.
fn beyond_unique(made: &Made) -> String {
    let kinds = [(n_givens_beyond(made), "given"), (n_clues_beyond(made), "clue")];
    let kinds: Vec<String> =
        kinds.into_iter().filter(|it| it.0 > 0).map(|(n, what)| words::counted(n, what)).collect();
    match (kinds.is_empty(), made.beyond_unique.len()) {
        (true, _) => String::new(),
        (_, 1) => {
            format!("  {} is there for the walkthrough or the look, not for the one solution\n", kinds[0])
        }
        _ => format!(
            "  {} are there for the walkthrough or the look: any one of them could go, and there would still be one \
             solution\n",
            tell::list(&kinds)
        ),
    }
}

fn n_givens_beyond(made: &Made) -> usize {
    made.beyond_unique.iter().filter(|it| matches!(it, Printed::Given(..))).count()
}

fn n_clues_beyond(made: &Made) -> usize {
    made.beyond_unique.len() - n_givens_beyond(made)
}

/// Each technique to be taught with the first step that there is no doing without.
fn moments(brief: &Brief, made: &Made) -> Vec<(TechniqueId, StepId)> {
    brief.teaches.iter().filter_map(|it| Some((*it, made.moment(*it)?))).collect()
}

/// The board before the step, with its clues; what the step is about is marked.
fn board_at(made: &Made, step: StepId) -> String {
    let trail = made.explained.walkthrough().trail();
    let first = trail.step(step).concludes()[0];
    let size = made.puzzle.size();
    let (mut board, mut crusts, mut filling) = (Grid::empty(size), CellSet::EMPTY, CellSet::EMPTY);
    for (_, fact) in trail.facts().take_while(|(id, _)| *id < first) {
        match fact.claim() {
            Claim::Is(cell, digit) => board = board.with(cell, Some(digit)),
            Claim::Crust(cell) => crusts.extend([cell]),
            Claim::Filling(cell) => filling.extend([cell]),
            _ => {}
        }
    }
    let concluded = trail.step(step).concludes().iter();
    let marked = concluded.filter_map(|it| trail.fact(*it).claim().cell()).collect();
    boards::with_clues(&made.puzzle, &boards::Marks { board, crusts, filling, marked })
}

/// The techniques that the walkthrough uses, easiest first.
fn techniques(made: &Made) -> Vec<TechniqueId> {
    by_ease(made.explained.walkthrough().trail().techniques())
}

pub(super) fn document(make: &Make, finished: &[Finished], tally: &Tally) -> json::Making {
    let puzzle = |it: &Finished| json::Made {
        id: it.entry.id.to_string(),
        title: it.entry.title.clone(),
        givens: it.made.puzzle.givens().filled().count(),
        clues: it.made.puzzle.clues().len(),
        beyond_unique: json::BeyondUnique {
            givens: n_givens_beyond(&it.made),
            clues: n_clues_beyond(&it.made),
        },
        steps: it.made.explained.walkthrough().trail().n_steps(),
        techniques: words::ids(&techniques(&it.made)),
        minutes: MinutesRange::of(it.made.estimate.regular(), it.made.estimate.n_solves).into(),
        median: it.made.minutes(),
        moments: moments(&make.brief, &it.made)
            .into_iter()
            .map(|(id, step)| moment(&it.made, id, step))
            .collect(),
        text: it.text.clone(),
        written: it.file.as_ref().map(|it| it.to_string_lossy().into_owned()),
    };
    json::Making {
        format: json::FORMAT,
        seed: make.seed,
        wanted: make.wanted.count,
        found: finished.len(),
        tries: tally.tries,
        missed: tally.missed.iter().map(|(it, n)| json::Missed { why: it.to_string(), tries: *n }).collect(),
        nearest: tally.nearest.map(|it| it.to_string()),
        puzzles: finished.iter().map(puzzle).collect(),
    }
}

fn moment(made: &Made, technique: TechniqueId, step: StepId) -> json::TeachingMoment {
    json::TeachingMoment {
        technique: technique.name(),
        step: step.number(),
        says: tell::says(&made.puzzle, made.explained.walkthrough().trail(), step),
        board: board_at(made, step),
    }
}
