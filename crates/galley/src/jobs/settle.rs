//! `galley settle`: of a puzzle with several solutions, where two of them differ, and what has to be printed
//! besides so that one is left.

use grid::{CellSet, Grid};
use prove::Many;
use study::{Finding, Repair, Settlings, Study, Towards};

use crate::each::Each;
use crate::job::With;
use crate::json;
use crate::outcome::{Failure, Outcome};
use crate::screen::Screen;
use crate::studies::Depth;
use crate::{boards, print, typed, words};

/// The command.
#[derive(Debug)]
pub(crate) struct Settle {
    /// What to settle.
    pub(crate) each: Each,
    /// The solution that is to be left, as it was typed; none for whichever was found.
    pub(crate) solution: Option<String>,
}

impl Settle {
    /// Tells the additions. A sealed puzzle with several solutions is refused, which is a trouble of the pack.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let found = self.each.find(Depth::Verdict, with)?;
        let found = found.refusing_sealed("what would settle it", |it| it.finding() == Finding::Many);
        let chosen = match (&self.solution, &found.studies()[..]) {
            (None, _) => None,
            (Some(_), [] | [_, _, ..]) => return Err(one_puzzle_only()),
            (Some(text), [study]) => self.towards(study, text, with)?,
        };
        let chosen = chosen.as_ref();
        Ok(found.outcome(with, |it| in_words(it, chosen, with.stdout), |it| document(it, chosen)))
    }

    /// What has to be added for the solution that was typed; none if the puzzle is not open or has nothing to
    /// settle.
    fn towards(&self, study: &Study, text: &str, with: &With) -> Result<Option<Towards>, Failure> {
        let puzzle = &study.entry().puzzle;
        let solution = typed::solution("--solution", puzzle.size(), text)?;
        if several(study).is_none() {
            return Ok(None);
        }
        if !puzzle.is_solved_by(&solution) {
            return Err(Failure::new(
                "the board after --solution does not solve the puzzle",
                "compare it with the givens and clues: `galley mend` finds a clue that is wrong",
            ));
        }
        with.stop.interrupting(|| Towards::of(puzzle, &solution)).map(Some)
    }
}

fn one_puzzle_only() -> Failure {
    Failure::new("--solution is about one puzzle", "name a puzzle file, or a pack and the puzzle's id")
}

/// What was found out about an open puzzle with several solutions.
fn several(study: &Study) -> Option<(&Many, &Settlings)> {
    let opened = study.opened()?;
    match opened.repair? {
        Repair::Settlings(it) => Some((opened.many?, it)),
        Repair::Mending(_) => None,
    }
}

/// None while the puzzle is sealed and there would be something to tell.
fn in_words(study: &Study, chosen: Option<&Towards>, screen: Screen) -> Option<String> {
    let head = words::head(study);
    let Some((many, settlings)) = several(study) else {
        let verdict = words::verdict(study.finding());
        return match study.finding() {
            Finding::Many => None,
            _ => Some(head + &print::folded(&format!("There is nothing to settle: {verdict}."), screen)),
        };
    };
    let differing = prove::differences(many);
    let cells: CellSet = differing.iter().map(|it| it.0).collect();
    let in_cells: Vec<String> = differing.iter().map(|(cell, a, b)| format!("{cell} ({a} or {b})")).collect();
    let mut text = head + &print::folded("Two of its solutions; * marks where they differ.", screen);
    text.push_str(&format!("\n{}\n", boards::side_by_side(&many.first, &many.second, cells)));
    let n_cells = words::counted(differing.len(), "cell");
    let mut say = |it: &str| text.push_str(&print::folded(it, screen));
    say(&format!("They differ in {n_cells}: {}.", tell::list(&in_cells)));
    say(&tell::single_givens(&settlings.single));
    let puzzle = &study.entry().puzzle;
    let fewest = |it: &Towards| tell::fewest_additions(puzzle, it.givens.as_ref(), it.clues.as_ref());
    match chosen {
        Some(it) => say(&format!("So that the solution given is left. {}", fewest(it))),
        None => {
            for (name, it) in ["first", "second"].iter().zip(&settlings.towards) {
                say(&format!("So that the {name} is left. {}", fewest(it)));
            }
        }
    }
    Some(text)
}

fn document(study: Option<&Study>, chosen: Option<&Towards>) -> json::Settled {
    let found = study.and_then(several);
    let towards = match (found, chosen) {
        (None, _) => &[],
        (Some(_), Some(it)) => std::slice::from_ref(it),
        (Some((_, it)), None) => &it.towards[..],
    };
    let single = found.map(|it| &it.1.single);
    json::Settled {
        verdict: json::verdict_on(study),
        solutions: found
            .map(|(it, _)| [&it.first, &it.second].map(Grid::to_string).to_vec())
            .unwrap_or_default(),
        differ: found.map(|(it, _)| json::differences(it)).unwrap_or_default(),
        single: single
            .map(|it| it.givens.iter().map(|it| json::Printed::of(*it)).collect())
            .unwrap_or_default(),
        undecided: single.map(|it| it.n_undecided),
        towards: towards.iter().map(json::Towards::of).collect(),
    }
}
