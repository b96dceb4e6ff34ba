//! `galley twins`: which puzzles are the same seen from another side, or have the same solution, in one pack
//! or across several.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use prove::{Canonical, Limit, Symmetries, canonical, canonical_grid};
use rayon::prelude::*;
use study::Study;

use crate::job::With;
use crate::json;
use crate::outcome::{Failure, Outcome};
use crate::screen::Screen;
use crate::studies::{Depth, Found, Target};
use crate::{load, print, words};

/// Arrangements looked at for each form: even a blank page takes fewer.
const FORM: Limit = Limit(100_000);

/// The command.
#[derive(Debug)]
pub(crate) struct Twins {
    /// The packs and puzzle files.
    pub(crate) paths: Vec<PathBuf>,
    /// Whether sealed puzzles count as open.
    pub(crate) unseal: bool,
}

/// A puzzle with what its twins have in common with it.
struct Compared<'a> {
    study: &'a Study,
    /// Its file, as a person would type it.
    file: String,
    /// None if the limit was reached.
    page: Option<Canonical>,
    /// By the symmetries under which it may be compared; none of a sealed puzzle, whose solution is kept
    /// back, and of one that has not one solution.
    solutions: BTreeMap<Sight, Canonical>,
}

/// Which grids count as one.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
enum Sight {
    /// Turned, mirrored, with the 1 and the largest digit exchanged.
    Turned,
    /// Whatever the classic rule leaves alone: for two puzzles without clues.
    Classic,
}

/// Puzzles that have something in common.
struct Group<'a> {
    kind: Kind,
    members: Vec<&'a Compared<'a>>,
}

/// What they have in common.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
enum Kind {
    Puzzle,
    Solution,
}

impl Twins {
    /// Compares every puzzle with every other.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let found = self.read(with)?;
        let mut seen = BTreeSet::new();
        let puzzles: Vec<(&Study, String)> = found
            .iter()
            .flat_map(|it| it.pack.all().map(move |study| (study, it.path_of(study))))
            // A file may be named beside its pack.
            .filter(|it| seen.insert(real(Path::new(&it.1))))
            .collect();
        let compared: Vec<Compared> = puzzles
            .into_par_iter()
            .map(|(study, file)| with.stop.interrupting(|| Compared::of(study, file)))
            .collect::<Result<_, _>>()?;
        let groups = groups(&compared);
        Ok(Outcome {
            problems: found.iter().map(|it| it.problems(with)).collect(),
            result: match with.is_json {
                true => json::text(&document(&groups, &compared, &found)),
                false => in_words(&groups, &compared, with.stdout),
            },
            note: String::new(),
            has_errors: found.iter().any(Found::has_errors),
        })
    }

    /// Each pack once, however often it was named.
    fn read(&self, with: &With) -> Result<Vec<Found>, Failure> {
        let mut seen = Vec::new();
        let mut found = Vec::new();
        for path in &self.paths {
            let loaded = load::load(path)?;
            let real = real(path);
            if seen.contains(&real) {
                continue;
            }
            seen.push(real);
            let target = Target { path: path.clone(), unseal: self.unseal };
            found.push(target.study_loaded(loaded, Depth::Verdict, with)?);
        }
        Ok(found)
    }
}

/// The path without links and detours, so that a file is known again.
fn real(path: &Path) -> PathBuf {
    path.canonicalize().unwrap_or_else(|_| path.to_owned())
}

impl Compared<'_> {
    fn of(study: &Study, file: String) -> Compared<'_> {
        let puzzle = &study.entry().puzzle;
        let solution = study.opened().and_then(|it| it.solution);
        let sights = [
            Some((Sight::Turned, Symmetries::SANDWICH)),
            puzzle.clues().is_empty().then_some((Sight::Classic, Symmetries::Classic)),
        ];
        let solutions = sights
            .into_iter()
            .flatten()
            .filter_map(|(sight, symmetries)| Some((sight, canonical_grid(symmetries, solution?, FORM)?)));
        Compared { study, file, page: canonical(puzzle, FORM), solutions: solutions.collect() }
    }

    /// `"First light" (lantern-room/puzzles/first-light.toml)`.
    fn name(&self) -> String {
        format!("\"{}\" ({})", print::visible(&self.study.entry().title), print::visible(&self.file))
    }
}

/// Those with the same page first, then those that only have the same solution; each in the order in which the
/// packs were named.
fn groups<'a>(compared: &'a [Compared<'a>]) -> Vec<Group<'a>> {
    let mut groups: Vec<Group> = same(compared, |it| it.page.as_ref())
        .into_iter()
        .map(|members| Group { kind: Kind::Puzzle, members })
        .collect();
    for sight in [Sight::Turned, Sight::Classic] {
        for members in same(compared, |it| it.solutions.get(&sight)) {
            let is_told =
                |it: &Group| members.iter().all(|one| it.members.iter().any(|it| it.file == one.file));
            if !groups.iter().any(is_told) {
                groups.push(Group { kind: Kind::Solution, members });
            }
        }
    }
    groups
}

/// Groups of two or more that have a form in common.
fn same<'a>(
    compared: &'a [Compared<'a>],
    form: impl Fn(&'a Compared<'a>) -> Option<&'a Canonical>,
) -> Vec<Vec<&'a Compared<'a>>> {
    let mut by_form: BTreeMap<&Canonical, Vec<(usize, &Compared)>> = BTreeMap::new();
    for (at, it) in compared.iter().enumerate() {
        if let Some(form) = form(it) {
            by_form.entry(form).or_default().push((at, it));
        }
    }
    let mut groups: Vec<_> = by_form.into_values().filter(|it| it.len() > 1).collect();
    groups.sort_by_key(|it| it[0].0);
    groups.into_iter().map(|it| it.into_iter().map(|it| it.1).collect()).collect()
}

fn in_words(groups: &[Group], compared: &[Compared], screen: Screen) -> String {
    let n_puzzles = words::counted(compared.len(), "puzzle");
    let mut text = String::new();
    for it in groups {
        let what = match it.kind {
            Kind::Puzzle => "The same puzzle, seen from another side or copied:",
            Kind::Solution => "The same solution, seen from another side or copied, with another page:",
        };
        text.push_str(&print::folded(what, screen));
        for it in &it.members {
            text.push_str(&format!("  {}\n", it.name()));
        }
        text.push('\n');
    }
    let not_compared: Vec<String> =
        compared.iter().filter(|it| it.page.is_none()).map(Compared::name).collect();
    if !not_compared.is_empty() {
        let text_of = format!("Not compared within the work allowed: {}.", tell::list(&not_compared));
        text.push_str(&print::folded(&text_of, screen));
    }
    let sealed = compared.iter().filter(|it| it.study.is_sealed()).count();
    let kept_back = match sealed {
        0 => String::new(),
        n => format!("; the solutions of {} were not compared", words::counted(n, "sealed puzzle")),
    };
    let summary = match groups.len() {
        0 => format!("no twins among {n_puzzles}{kept_back}"),
        n => format!("{} of twins among {n_puzzles}{kept_back}", words::counted(n, "group")),
    };
    text + &summary + "\n"
}

fn document(groups: &[Group], compared: &[Compared], found: &[Found]) -> json::Twins {
    let twin = |it: &Compared| json::Twin {
        id: it.study.entry().id.to_string(),
        file: it.file.clone(),
        title: it.study.entry().title.clone(),
    };
    json::Twins {
        format: json::FORMAT,
        compared: compared.len(),
        groups: groups
            .iter()
            .map(|it| json::TwinGroup {
                same: match it.kind {
                    Kind::Puzzle => "puzzle",
                    Kind::Solution => "solution",
                },
                puzzles: it.members.iter().map(|it| twin(it)).collect(),
            })
            .collect(),
        undecided: compared.iter().filter(|it| it.page.is_none()).map(twin).collect(),
        problems: found.iter().flat_map(Found::all_problems).collect(),
    }
}
