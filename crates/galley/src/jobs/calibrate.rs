//! `galley calibrate`: what the pack's test solves teach about its minutes.
//!
//! What they teach is kept in a file and not fitted anew by each command: a fit takes the walkthrough of every
//! puzzle that was solved, and a question about one puzzle must not wait for the whole pack. And it is written
//! only when that is asked for, because it changes every minute and may change the order: the editor should see
//! first what it would do.

use std::io::Write;
use std::path::Path;

use grade::{Errors, Lesson, Lessons, Verdict, calibrate};
use packfile::{Calibrations, fingerprint, write_calibration};

use crate::job::With;
use crate::json;
use crate::load::{CALIBRATION, SOLVES, cannot_write, load, root_of, shown};
use crate::outcome::{Failure, Outcome};
use crate::screen::Screen;
use crate::solves::Solves;
use crate::studies::{Depth, Found, Target};
use crate::{print, words};

/// The command.
#[derive(Debug)]
pub(crate) struct Calibrate {
    /// The pack.
    pub(crate) target: Target,
    /// Whether to keep what was found.
    pub(crate) write: bool,
}

impl Calibrate {
    /// Fits the model to the solves, and tells what came of it.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let mut loaded = load(&self.target.path)?;
        if !loaded.is_pack {
            let message =
                format!("{} is one puzzle, and test solves belong to a pack", shown(&self.target.path));
            return Err(Failure::new(message, "name the pack's folder"));
        }
        // By the model alone: what is found must not depend on what was found before.
        loaded.calibrations = Calibrations::default();
        let mut found = self.target.study_loaded(loaded, Depth::Walkthrough, with)?;
        let root = root_of(&self.target.path);
        let Solves { logged, timed, files, problems } = Solves::read(root, &found)?;
        found.add(files, problems);
        let lessons = with.stop.interrupting(|| calibrate(&timed))?;
        let moves =
            [&lessons.silent, &lessons.aloud].iter().any(|it| matches!(it.verdict, Verdict::Moves(..)));
        let written = match self.write && moves {
            true => Some(write(root, &lessons)?),
            false => None,
        };
        let note = match (&written, self.write, moves) {
            (Some(path), ..) => format!("wrote {}", print::visible(path)),
            (None, true, _) => "nothing is to be kept, so nothing was written".to_owned(),
            (None, false, true) => {
                format!("nothing was written; with --write every command names minutes by {CALIBRATION}")
            }
            (None, false, false) => String::new(),
        };
        let result = match with.is_json {
            true => json::text(&json::Calibrated {
                format: json::FORMAT,
                silent: (&lessons.silent).into(),
                aloud: (&lessons.aloud).into(),
                solves: logged.into_iter().map(|(it, held)| solve(it, held)).collect(),
                puzzles: fingerprints(&found),
                written,
                problems: found.all_problems(),
            }),
            false => in_words(&lessons, with.stdout),
        };
        Ok(Outcome {
            problems: found.problems(with),
            result,
            note: if with.is_json || note.is_empty() {
                String::new()
            } else {
                print::folded(&note, with.stderr)
            },
            has_errors: found.has_errors(),
        })
    }
}

/// Puts the calibration into the pack, all of it or nothing; gives its path.
fn write(root: &Path, lessons: &Lessons) -> Result<String, Failure> {
    let (silent, aloud) = (lessons.silent.calibration(), lessons.aloud.calibration());
    let text = write_calibration(&Calibrations { silent, aloud });
    let path = root.join(CALIBRATION);
    let written = tempfile::NamedTempFile::new_in(root).and_then(|mut file| {
        file.write_all(text.as_bytes())?;
        file.persist(&path).map_err(|it| it.error)
    });
    match written {
        Ok(_) => Ok(path.to_string_lossy().into_owned()),
        Err(error) => Err(cannot_write(&path, &error)),
    }
}

fn solve(it: packfile::LoggedSolve, held: bool) -> json::SolveFile {
    json::SolveFile {
        file: it.file,
        puzzle: it.solve.puzzle,
        solver: it.solve.solver,
        kind: it.solve.kind.name,
        aloud: it.solve.is_aloud,
        held,
    }
}

fn fingerprints(found: &Found) -> Vec<json::Fingerprint> {
    let of = |it: &study::Study| json::Fingerprint {
        id: it.entry().id.to_string(),
        fingerprint: fingerprint(&it.entry().puzzle),
    };
    found.pack.all().map(of).collect()
}

fn in_words(lessons: &Lessons, screen: Screen) -> String {
    let silent = lesson("Solves in silence", &lessons.silent, screen);
    format!("{silent}\n{}", lesson("Solves that were talked aloud", &lessons.aloud, screen))
}

/// What the solves of one manner teach.
fn lesson(title: &str, it: &Lesson, screen: Screen) -> String {
    let paragraph = |text: &str| print::folded(text, screen);
    let too_short = match it.n_too_short {
        0 => String::new(),
        n => format!("; {} too short to count", words::counted(n, "other")),
    };
    let solves = words::counted(it.n_solves, "solve");
    let head = format!("{title}: {solves} of {}{too_short}", words::counted(it.n_puzzles, "puzzle"));
    let mut text = paragraph(&head);
    match &it.verdict {
        Verdict::TooLittle { solves, puzzles } => {
            text.push_str(&paragraph(&too_little(it, *solves, *puzzles)));
            return text;
        }
        Verdict::NoBetter(errors) => {
            let said = format!(
                "Estimate: nothing is moved, because it would foretell a puzzle that was not solved yet no better. {}",
                off_by(*errors)
            );
            text.push_str(&paragraph(&said));
            return text;
        }
        Verdict::Moves(errors, _) => {
            let basis = tell::capital(&tell::basis(it.n_solves));
            text.push_str(&paragraph(&format!("{basis}. {}", off_by(*errors))));
        }
    }
    text.push_str(&tables(it, screen));
    let wanted = it.wanted.iter().map(|(id, n)| format!("{} ({n} more)", tell::technique_name(*id)));
    match &wanted.collect::<Vec<_>>()[..] {
        [] => {}
        wanted => {
            let said = format!("Estimate, not moved for want of steps: {}.", tell::list(wanted));
            text.push_str(&paragraph(&said));
        }
    }
    text
}

/// What is missing; of nothing at all, where it would be.
fn too_little(it: &Lesson, solves: usize, puzzles: usize) -> String {
    let missing: Vec<String> = [(solves, "solve"), (puzzles, "puzzle")]
        .into_iter()
        .filter(|it| it.0 > 0)
        .map(|(n, noun)| words::counted(n, noun))
        .collect();
    let place = match it.n_solves + it.n_too_short {
        0 => format!(" Solves are files in the pack's folder `{SOLVES}`."),
        _ => String::new(),
    };
    let is = if missing.len() == 1 && solves + puzzles == 1 { "is" } else { "are" };
    format!("Estimate: too little to move anything; {} more {is} wanted.{place}", tell::list(&missing))
}

/// How far the minutes are off, before and after.
fn off_by(errors: Errors) -> String {
    format!(
        "Half of the solves are foretold to within a factor of {:.2} by the solves of the other puzzles, and to within \
         {:.2} by the model alone.",
        errors.after, errors.before
    )
}

fn tables(it: &Lesson, screen: Screen) -> String {
    let ratio = |it: f64| format!("{it:.2}");
    let calibration = it.calibration();
    let mut kinds = print::table(&["solver", "time, of the estimate's", "solves"], screen);
    for (solver, pace) in calibration.paces() {
        kinds.add_row([solver.name.to_owned(), ratio(pace.ratio), pace.n_solves.to_string()]);
    }
    let mut techniques = print::table(&["technique", "wait, of the estimate's", "steps"], screen);
    for (id, wait) in calibration.waits() {
        techniques.add_row([
            tell::technique_name(id).to_owned(),
            ratio(wait.ratio),
            wait.n_steps.to_string(),
        ]);
    }
    let mut people = print::table(&["person", "kind", "time, of their kind's", "solves"], screen);
    for it in &it.people {
        people.add_row([
            print::visible(&it.name),
            it.kind.name.into(),
            ratio(it.ratio),
            it.n_solves.to_string(),
        ]);
    }
    [kinds, techniques, people].iter().filter(|it| !it.is_empty()).map(print::drawn).collect()
}
