//! The test solves of a pack, each held against the walkthrough of its puzzle.

use std::collections::BTreeMap;
use std::path::Path;

use grade::{Course, Timed};
use packfile::{LoggedSolve, Problem, SourceFile, read_solve};
use study::Study;

use crate::load::load_solves;
use crate::outcome::Failure;
use crate::studies::Found;

/// The solves as far as they are of use.
#[derive(Debug)]
pub(crate) struct Solves {
    /// Every solve that could be read, in order of file, and whether it could be held against its puzzle.
    pub(crate) logged: Vec<(LoggedSolve, bool)>,
    /// Those that could.
    pub(crate) timed: Vec<Timed>,
    /// The files.
    pub(crate) files: Vec<SourceFile>,
    /// Why the others could not.
    pub(crate) problems: Vec<Problem>,
}

impl Solves {
    /// Reads the solves in the pack's folder and holds them against the pack that was found there.
    ///
    /// # Errors
    ///
    /// If a file cannot be read. What is wrong with its content is a problem, and the others count all the same.
    pub(crate) fn read(root: &Path, found: &Found) -> Result<Solves, Failure> {
        let (files, mut problems) = load_solves(root)?;
        let mut solves =
            Solves { logged: Vec::new(), timed: Vec::new(), files: Vec::new(), problems: Vec::new() };
        let puzzles: BTreeMap<&str, Puzzle<'_>> =
            found.pack.all().map(|it| (it.entry().id.as_str(), Puzzle::of(it))).collect();
        for file in &files {
            let logged = match read_solve(file) {
                Ok(logged) => logged,
                Err(problem) => {
                    problems.push(problem);
                    continue;
                }
            };
            let held = held(&logged, &puzzles, found);
            solves.logged.push((logged, held.is_ok()));
            match held {
                Ok(timed) => solves.timed.push(timed),
                Err(problem) => problems.push(problem),
            }
        }
        Ok(Solves { files, problems, ..solves })
    }
}

/// A puzzle, and its walkthrough as solves are held against it, or why there is none.
struct Puzzle<'a> {
    study: &'a Study,
    course: Result<Course, &'static str>,
}

impl<'a> Puzzle<'a> {
    fn of(study: &'a Study) -> Puzzle<'a> {
        let course = match study.opened() {
            None => Err("is sealed, and what solves teach would tell of its techniques"),
            Some(it) => it.account.map(|it| it.course()).ok_or("has no walkthrough"),
        };
        Puzzle { study, course }
    }
}

fn held(logged: &LoggedSolve, puzzles: &BTreeMap<&str, Puzzle<'_>>, found: &Found) -> Result<Timed, Problem> {
    let id = &logged.solve.puzzle;
    if found.unreadable.iter().any(|it| it.name == *id) {
        return Err(logged.not_held("cannot be read"));
    }
    let puzzle = puzzles.get(&id[..]);
    logged.check(puzzle.map(|it| it.study.entry()))?;
    // Without a puzzle the check has failed.
    let course = puzzle.map_or(Err("is not there"), |it| it.course.as_ref().map_err(|it| *it));
    let course = course.map_err(|why| logged.not_held(why))?;
    Timed::new(&logged.solve, course).map_err(|it| logged.mismatched(it))
}
