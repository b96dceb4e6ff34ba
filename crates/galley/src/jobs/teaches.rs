//! `galley teaches`: what each technique of a walkthrough is worth, and whether that is what the setter meant.

use rayon::prelude::*;
use std::collections::BTreeMap;

use pack::PuzzleId;
use study::{Study, Worth};
use trail::TechniqueId;

use crate::each::Each;
use crate::job::With;
use crate::json;
use crate::outcome::{Failure, Outcome};
use crate::screen::Screen;
use crate::studies::Depth;
use crate::{print, progress, words};

/// The command.
#[derive(Debug)]
pub(crate) struct Teaches {
    /// Which puzzles.
    pub(crate) each: Each,
}

/// The techniques of a walkthrough, easiest first.
type Worths = Vec<(TechniqueId, Worth)>;

impl Teaches {
    /// Tells what each technique is worth. Sealed puzzles are refused, which is a trouble of the pack.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let found = self.each.find(Depth::Walkthrough, with)?;
        let found = found.refusing_sealed("what it teaches", |_| true);
        let studies = found.studies();
        let bar = progress::counting(studies.len(), with);
        let of = |study: &&Study| {
            with.stop.check()?;
            let worth = study.worth(|_| true);
            bar.inc(1);
            Ok(worth.map(|it| (study.entry().id.clone(), it)))
        };
        let worths: Result<Vec<_>, Failure> = studies.par_iter().map(of).collect();
        bar.finish_and_clear();
        let worths: BTreeMap<PuzzleId, Worths> = worths?.into_iter().flatten().collect();
        let of = |it: &Study| worths.get(&it.entry().id);
        Ok(found.outcome(
            with,
            |it| of(it).map(|worths| in_words(it, worths, with.stdout)),
            |it| it.map(|it| document(it, of(it))).unwrap_or_default(),
        ))
    }
}

fn in_words(study: &Study, worths: &Worths, screen: Screen) -> String {
    let mut table = print::table(&["technique", "", "worth"], screen);
    for (id, worth) in worths {
        let new = if is_new(study, *id) { "new" } else { "" };
        table.add_row([tell::technique_name(*id).to_owned(), new.to_owned(), tell::worth(*worth)]);
    }
    let meant: String = (study.entry().intends.iter())
        .map(|it| print::folded(&format!("Meant to teach {it}: {}.", tell::as_meant(it, worths)), screen))
        .collect();
    format!("{}{}{meant}", words::head(study), print::drawn(&table))
}

/// Whether nobody knows it before the puzzle.
fn is_new(study: &Study, id: TechniqueId) -> bool {
    study.known().is_some_and(|it| !it.has(id))
}

fn document(study: &Study, worths: Option<&Worths>) -> json::Teaches {
    let technique = |(id, worth): &(TechniqueId, Worth)| json::TechniqueWorth {
        technique: id.name(),
        new: is_new(study, *id),
        worth: match worth {
            Worth::Needed => "needed",
            Worth::Saves(_) => "saves",
            Worth::Avoidable => "avoidable",
        },
        saves: match worth {
            Worth::Saves(seconds) => Some(*seconds),
            Worth::Needed | Worth::Avoidable => None,
        },
    };
    let intends = |worths: &Worths| {
        let meant = study.entry().intends.iter();
        meant.map(|it| json::Meant { meant: it.clone(), says: tell::as_meant(it, worths) }).collect()
    };
    json::Teaches {
        techniques: worths.map(|it| it.iter().map(technique).collect()).unwrap_or_default(),
        intends: worths.map(intends).unwrap_or_default(),
    }
}
