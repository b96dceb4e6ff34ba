//! What most commands begin with: the pack read, every puzzle studied on all cores, everything wrong
//! with either collected.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::{Mutex, PoisonError};

use pack::{Entry, PackInfo, PuzzleId};
use packfile::{Problem, SourceFile, Unreadable};
use rayon::prelude::*;
use reason::Known;
use study::{StudiedPack, Study, Walker, proved, study};

use crate::job::With;
use crate::load::{CALIBRATION, Loaded, Sources, load};
use crate::outcome::Failure;
use crate::trouble::{self, Trouble};
use crate::{json, print, progress, twins};

/// The pack or puzzle file that a command is about.
#[derive(Debug)]
pub(crate) struct Target {
    /// Where it is.
    pub(crate) path: PathBuf,
    /// Whether sealed puzzles count as open.
    pub(crate) unseal: bool,
}

/// How far puzzles are looked into.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Depth {
    /// Proved, and where there is not one solution, what would change that.
    Verdict,
    /// Explained too: in a pack, for somebody who knows what the puzzles before have taught.
    Walkthrough,
}

/// How many puzzles a pack has places for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Places {
    /// As its files say.
    AsTheyAre,
    /// So many, to be chosen from those in the pack and in its pool.
    Choose(usize),
}

/// A pack, studied.
#[derive(Debug)]
pub(crate) struct Found {
    /// The puzzles that could be read, in the order of the pack.
    pub(crate) pack: StudiedPack,
    /// The puzzle files that could not be read.
    pub(crate) unreadable: Vec<Unreadable>,
    /// What is wrong with the files, as `packfile` says it.
    pub(crate) problems_of_files: Vec<Problem>,
    /// Everything wrong with the files first, then with the puzzles.
    pub(crate) troubles: Vec<Trouble>,
    /// The only file that is spoken of; none if all are.
    only: Option<String>,
    files: BTreeMap<PuzzleId, String>,
    sources: Sources,
    /// The calibration of the pack that a single puzzle file lies in.
    borrowed: Option<String>,
    /// What was walked through already, for the pack in another order.
    walked: Walked,
}

/// Walkthroughs by puzzle and by what is known before it.
type Walked = Mutex<BTreeMap<(PuzzleId, Known), Study>>;

impl Target {
    /// Reads the target and studies it, walkthroughs and all.
    ///
    /// # Errors
    ///
    /// If it cannot be read, or the work is interrupted.
    pub(crate) fn study(&self, with: &With) -> Result<Found, Failure> {
        self.study_loaded(load(&self.path)?, Depth::Walkthrough, with)
    }

    /// The same with other places than the files say.
    ///
    /// # Errors
    ///
    /// If it cannot be read, the work is interrupted, or there are too few places.
    pub(crate) fn study_choosing(&self, places: Places, with: &With) -> Result<Found, Failure> {
        let loaded = load(&self.path)?;
        self.study_with_places(loaded, Depth::Walkthrough, places, with)
    }

    /// Studies what was read from the target.
    ///
    /// # Errors
    ///
    /// If the work is interrupted.
    pub(crate) fn study_loaded(&self, loaded: Loaded, depth: Depth, with: &With) -> Result<Found, Failure> {
        self.study_with_places(loaded, depth, Places::AsTheyAre, with)
    }

    fn study_with_places(
        &self,
        loaded: Loaded,
        depth: Depth,
        places: Places,
        with: &With,
    ) -> Result<Found, Failure> {
        let Loaded { pack, files, unreadable, calibrations, problems, sources, is_pack, borrowed } = loaded;
        let in_turn = is_pack && depth == Depth::Walkthrough;
        let studies =
            study_all(pack.entries, self.unseal, if in_turn { Depth::Verdict } else { depth }, with)?;
        let studies = studies.into_iter().map(|it| it.calibrated(&calibrations.silent)).collect();
        let walked = Walked::default();
        let pack = match in_turn {
            true => in_turn_with(pack.info, studies, places, (&walked, with))?,
            false => StudiedPack::new(pack.info, studies),
        };
        Ok(Found {
            troubles: troubles(&problems, &pack, &files),
            pack,
            unreadable,
            problems_of_files: problems,
            only: None,
            files,
            sources,
            borrowed,
            walked,
        })
    }
}

impl Found {
    /// Adds a warning for each puzzle that has a twin, here or in one of the packs of the archive.
    ///
    /// # Errors
    ///
    /// If a pack of the archive cannot be read, or the work is interrupted.
    pub(crate) fn watch_for_twins(&mut self, archive: &[PathBuf], with: &With) -> Result<(), Failure> {
        let archive = twins::packs_at(archive, false, with)?;
        let warnings = twins::warnings(self, &archive, with)?;
        self.troubles.extend(warnings);
        Ok(())
    }

    /// The puzzles of that id alone, and what is wrong with that file; `file` is what it is called.
    pub(crate) fn narrow(&mut self, file: &str) {
        // What corrects the minutes concerns each puzzle.
        let concerns = |of: &str| of == file || of == CALIBRATION;
        self.troubles.retain(|it| concerns(&it.file));
        self.problems_of_files.retain(|it| concerns(&it.file));
        self.unreadable.retain(|it| it.file == file);
        self.only = Some(file.to_owned());
    }

    /// Adds what is wrong with other files of the pack.
    pub(crate) fn add(&mut self, files: Vec<SourceFile>, problems: Vec<Problem>) {
        self.troubles.extend(problems.iter().cloned().map(Trouble::from));
        self.problems_of_files.extend(problems);
        self.sources.add(files);
    }

    /// The puzzles that are spoken of, first those that have a place.
    pub(crate) fn studies(&self) -> impl Iterator<Item = &Study> {
        let is_meant = |it: &&Study| self.only.as_ref().is_none_or(|only| self.file_of(it) == only);
        self.pack.all().filter(is_meant)
    }

    /// The same pack in that order, or, without one, in the order that Galley proposes.
    ///
    /// # Errors
    ///
    /// If the work is interrupted.
    pub(crate) fn with_order(
        &self,
        order: Option<Vec<PuzzleId>>,
        with: &With,
    ) -> Result<StudiedPack, Failure> {
        let info = PackInfo { order, ..self.pack.info().clone() };
        in_turn_with(info, self.pack.all().cloned().collect(), Places::AsTheyAre, (&self.walked, with))
    }

    /// The same with the pack in another arrangement, and with what is wrong with that.
    pub(crate) fn arranged(self, pack: StudiedPack) -> Found {
        Found { troubles: troubles(&self.problems_of_files, &pack, &self.files), pack, ..self }
    }

    /// The file of a puzzle of this pack.
    pub(crate) fn file_of(&self, study: &Study) -> &str {
        &self.files[&study.entry().id]
    }

    /// The same as a person would type it.
    pub(crate) fn path_of(&self, study: &Study) -> String {
        self.sources.path(self.file_of(study))
    }

    /// Whether anything keeps the pack from being all good.
    pub(crate) fn has_errors(&self) -> bool {
        self.troubles.iter().any(|it| it.is_error)
    }

    /// The troubles in words, and whose calibration a single puzzle is given; none with `--json`, where the document
    /// holds them.
    pub(crate) fn problems(&self, with: &With) -> String {
        // Of a calibration that cannot be used, the problem is said; and without minutes it corrects nothing.
        let is_used = self.pack.n_solves() > 0;
        let borrowed = self.borrowed.as_ref().filter(|_| is_used).map_or(String::new(), |it| {
            print::folded(&format!("minutes are corrected by {}", print::visible(it)), with.stderr)
        });
        match with.is_json {
            true => String::new(),
            false => borrowed + &print::troubles(&self.troubles, &self.sources, with.stderr),
        }
    }

    /// The troubles of one file, for a document.
    pub(crate) fn problems_of(&self, file: &str) -> Vec<json::Problem> {
        self.troubles.iter().filter(|it| it.file == file).map(json::Problem::from).collect()
    }

    /// All troubles, for a document.
    pub(crate) fn all_problems(&self) -> Vec<json::Problem> {
        self.troubles.iter().map(json::Problem::from).collect()
    }

    /// The files that could not be read, for a document.
    pub(crate) fn unreadable_files(&self) -> Vec<json::UnreadableFile> {
        let file = |it: &Unreadable| json::UnreadableFile {
            id: it.name.clone(),
            file: it.file.clone(),
            title: it.title.clone(),
        };
        self.unreadable.iter().map(file).collect()
    }

    /// What is said of the one puzzle that was named; of a file that cannot be read, from nothing.
    pub(crate) fn document_of_one<T>(&self, document: impl FnMut(Option<&Study>) -> T) -> json::OfOne<T> {
        let puzzle = self.documents(document).pop();
        // One file was named, and every file is a study or unreadable.
        let puzzle = puzzle.unwrap_or_else(|| unreachable!("a file that is neither puzzle nor none"));
        json::OfOne { format: json::FORMAT, puzzle }
    }

    /// The same of every puzzle of the pack.
    pub(crate) fn document_of_all<T>(&self, document: impl FnMut(Option<&Study>) -> T) -> json::OfAll<T> {
        json::OfAll {
            format: json::FORMAT,
            puzzles: self.documents(document),
            problems: self.problems_of_pack(),
        }
    }

    fn documents<T>(&self, mut document: impl FnMut(Option<&Study>) -> T) -> Vec<json::OfPuzzle<T>> {
        let readable = self.studies().map(|it| {
            let entry = it.entry();
            (entry.id.to_string(), Some(entry.title.clone()), Some(it), self.file_of(it))
        });
        let unreadable =
            self.unreadable.iter().map(|it| (it.name.clone(), it.title.clone(), None, &it.file[..]));
        let documents = readable.chain(unreadable).map(|(id, title, study, file)| json::OfPuzzle {
            id,
            title,
            sealed: study.map(Study::is_sealed),
            it: document(study),
            problems: (self.problems_of(file).into_iter())
                .chain(self.only.iter().flat_map(|_| self.problems_of(CALIBRATION)))
                .chain(self.borrowed.iter().flat_map(|it| self.problems_of(it)))
                .collect(),
        });
        documents.collect()
    }

    /// The troubles that are of no puzzle's file, for a document.
    pub(crate) fn problems_of_pack(&self) -> Vec<json::Problem> {
        let of_puzzle = |file: &String| {
            self.files.values().chain(self.unreadable.iter().map(|it| &it.file)).any(|it| it == file)
        };
        self.troubles.iter().filter(|it| !of_puzzle(&it.file)).map(json::Problem::from).collect()
    }
}

/// Everything wrong with the files first, then with the puzzles, then with the pack.
fn troubles(problems: &[Problem], pack: &StudiedPack, files: &BTreeMap<PuzzleId, String>) -> Vec<Trouble> {
    let of_puzzles = pack.all().filter_map(|it| trouble::of_study(it, &files[&it.entry().id]));
    let of_pack = trouble::of_pack(pack, files);
    problems.iter().cloned().map(Trouble::from).chain(of_puzzles).chain(of_pack).collect()
}

/// Studies the puzzles; they stay in their order.
///
/// # Errors
///
/// If the work is interrupted. A walkthrough that is being looked for is still found; no other is begun.
fn study_all(entries: Vec<Entry>, unseal: bool, depth: Depth, with: &With) -> Result<Vec<Study>, Failure> {
    let bar = progress::counting(entries.len(), with);
    let one = |entry| {
        with.stop.check()?;
        let studied = with.stop.interrupting(|| match depth {
            Depth::Verdict => proved(entry, unseal),
            Depth::Walkthrough => study(entry, unseal),
        })?;
        bar.inc(1);
        Ok(studied)
    };
    let studies = entries.into_par_iter().map(one).collect();
    bar.finish_and_clear();
    studies
}

/// Puts the proved puzzles in order, and walks through each with what is known by then.
///
/// # Errors
///
/// If the work is interrupted, or there are too few places.
fn in_turn_with(
    info: PackInfo,
    studies: Vec<Study>,
    places: Places,
    (walked, with): (&Walked, &With),
) -> Result<StudiedPack, Failure> {
    let n_places = match places {
        Places::AsTheyAre => None,
        Places::Choose(n) => Some(n),
    };
    StudiedPack::as_syllabus(info, studies, n_places, &mut OnAllCores { walked, with })?.ok_or_else(|| {
        Failure::new(
            "more puzzles must have a place than there are places",
            "allow more places, or take `state = \"in\"` or a pin from some of the puzzles",
        )
    })
}

/// Walks through many puzzles at once, and through none twice for the same solver.
struct OnAllCores<'a> {
    walked: &'a Walked,
    with: &'a With,
}

impl Walker for OnAllCores<'_> {
    type Error = Failure;

    fn walk(&mut self, puzzles: Vec<(Study, Known)>) -> Result<Vec<Study>, Failure> {
        let key = |(study, known): &(Study, Known)| (study.entry().id.clone(), *known);
        let keys: Vec<(PuzzleId, Known)> = puzzles.iter().map(key).collect();
        let mut walked = self.walked.lock().unwrap_or_else(PoisonError::into_inner);
        let new: Vec<(Study, Known)> =
            puzzles.into_iter().filter(|it| !walked.contains_key(&key(it))).collect();
        let bar = progress::counting(new.len(), self.with);
        let one = |it: (Study, Known)| {
            self.with.stop.check()?;
            let key = key(&it);
            let study = self.with.stop.interrupting(|| it.0.for_solver(it.1))?;
            bar.inc(1);
            Ok((key, study))
        };
        let found: Result<Vec<_>, Failure> = new.into_par_iter().map(one).collect();
        bar.finish_and_clear();
        walked.extend(found?);
        Ok(keys.iter().filter_map(|it| walked.get(it).cloned()).collect())
    }
}
