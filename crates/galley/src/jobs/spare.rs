//! `galley spare`: what a puzzle could do without, what it needs, and a form of it with nothing to spare.

use std::collections::BTreeMap;

use pack::{Entry, PuzzleId};
use packfile::write_puzzle;
use prove::{Irreducible, Limit, Printed, irreducible};
use rayon::prelude::*;
use study::{Finding, Study};

use crate::each::Each;
use crate::job::With;
use crate::json;
use crate::outcome::{Failure, Outcome};
use crate::screen::Screen;
use crate::studies::Depth;
use crate::{print, words};

/// Nodes for each thing that is tried.
const TRIAL: Limit = Limit(1_000_000);

/// The command.
#[derive(Debug)]
pub(crate) struct Spare {
    /// The puzzles.
    pub(crate) each: Each,
}

/// What can be said of a puzzle with one solution.
struct Spared {
    spare: prove::Spare,
    least: Irreducible,
}

impl Spare {
    /// Tells what is spare. Sealed puzzles are refused, which is a trouble of the pack: what a puzzle could
    /// do without says something of how it is solved.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let found = self.each.find(Depth::Verdict, with)?;
        let found = found.refusing_sealed("what it could do without", |it| it.finding() == Finding::One);
        let spared: BTreeMap<&PuzzleId, Spared> = (found.studies().par_iter())
            .map(|it| Ok((&it.entry().id, with.stop.interrupting(|| spared(it))?)))
            .filter_map(|it| it.map(|(id, it)| Some((id, it?))).transpose())
            .collect::<Result<_, Failure>>()?;
        let of = |it: &Study| spared.get(&it.entry().id);
        let outcome =
            found.outcome(with, |it| in_words(it, of(it), with.stdout), |it| document(it, it.and_then(of)));
        Ok(outcome)
    }
}

/// None if the puzzle is not open or has not one solution.
fn spared(study: &Study) -> Option<Spared> {
    study.opened()?.solution?;
    let puzzle = &study.entry().puzzle;
    let spare = prove::spare(puzzle, TRIAL);
    let least = irreducible(puzzle, &spare, TRIAL);
    Some(Spared { spare, least })
}

/// None while the puzzle is sealed and there would be something to tell.
fn in_words(study: &Study, spared: Option<&Spared>, screen: Screen) -> Option<String> {
    let head = words::head(study);
    let Some(Spared { spare, least }) = spared else {
        let verdict = words::verdict(study.finding());
        return match study.finding() {
            Finding::One => None,
            _ => Some(head + &print::folded(&format!("Nothing can be spared: {verdict}."), screen)),
        };
    };
    let names = |it: &[Printed]| tell::list(&it.iter().map(|it| tell::to_print(*it)).collect::<Vec<_>>());
    let mut text = head;
    let mut say = |it: &str| text.push_str(&print::folded(it, screen));
    match &spare.spare[..] {
        [] => say("Nothing can be spared: without any one given or clue there are several solutions."),
        it => say(&format!("Any one of these could go, and one solution would be left: {}.", names(it))),
    }
    if !spare.spare.is_empty() {
        say(&match &spare.needed[..] {
            [] => "No given and no clue is needed by itself.".to_owned(),
            it => format!("Needed, each by itself: {}.", names(it)),
        });
    }
    if !spare.undecided.is_empty() {
        say(&format!("Not decided within the work allowed: {}.", names(&spare.undecided)));
    }
    if !least.gone.is_empty() {
        say(&format!("These can go together, and then nothing more can: {}.", names(&least.gone)));
        if !least.undecided.is_empty() {
            say(&format!("Of {} that was not decided.", names(&least.undecided)));
        }
        text.push_str(&format!("What is left:\n\n{}", page(study, least)));
    }
    Some(text)
}

/// Grid and clues of the form with nothing to spare, as a puzzle file has them.
fn page(study: &Study, least: &Irreducible) -> String {
    let file = file(study, least);
    file.find("grid = ").map_or(String::new(), |at| file[at..].to_owned())
}

fn file(study: &Study, least: &Irreducible) -> String {
    write_puzzle(&Entry { puzzle: least.puzzle.clone(), ..study.entry().clone() })
}

fn document(study: Option<&Study>, spared: Option<&Spared>) -> json::Spared {
    let printed = |it: &[Printed]| it.iter().map(|it| json::Printed::of(*it)).collect::<Vec<_>>();
    let of_spare = |which: fn(&prove::Spare) -> &Vec<Printed>| {
        spared.map(|it| printed(which(&it.spare))).unwrap_or_default()
    };
    json::Spared {
        verdict: json::verdict_on(study),
        spare: of_spare(|it| &it.spare),
        needed: of_spare(|it| &it.needed),
        undecided: of_spare(|it| &it.undecided),
        irreducible: study.zip(spared).map(|(study, it)| json::Irreducible {
            gone: printed(&it.least.gone),
            undecided: printed(&it.least.undecided),
            text: file(study, &it.least),
        }),
    }
}
