//! Setting puzzles that teach what the pack lacks, and what was made of that so far.

use draw::{Board, Marks, Scale};
use grid::{Grid, Size};
use make::{Brief, Clues, Kind, Look, Made, Others, Span, Tally, Wanted, make};
use pack::{Coverage, Entry, PuzzleId, State};
use page::bare;
use prove::{Limit, Verdict, verdict};
use reason::{Known, technique};
use rulebook::{Claim, Puzzle};
use study::{MinutesRange, StudiedPack, Study};
use trail::{StepId, TechniqueId};

use crate::failure::Failure;
use crate::jobs::Watched;

/// Random solutions that are tried before it is given up, unless somebody asks for more or less.
pub(crate) const USUAL_TRIES: u64 = 1000;
/// Nodes of the proof of a puzzle to be avoided; one that takes more is compared by its page alone.
const PROOF: Limit = Limit(1_000_000);

/// What came of setting puzzles.
#[derive(Clone, Debug)]
pub(crate) struct SetPuzzles {
    /// What they teach.
    pub(crate) teaches: TechniqueId,
    /// The seed they come from.
    pub(crate) seed: u64,
    /// How the tries went.
    pub(crate) tally: Tally,
    /// Those that were made.
    pub(crate) made: Vec<SetPuzzle>,
}

/// A puzzle that was set.
#[derive(Clone, Debug)]
pub(crate) struct SetPuzzle {
    /// The puzzle with what is known of it.
    pub(crate) made: Made,
    /// What was decided.
    pub(crate) fate: Fate,
}

/// What became of a puzzle that was set.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) enum Fate {
    /// Nobody has said yet.
    Open,
    /// It has a file of that id.
    Kept(PuzzleId),
    /// Nobody wants it.
    Discarded,
}

/// What is wanted of a puzzle that the pack lacks.
#[derive(Clone, Debug)]
pub(crate) struct Order {
    /// The technique that it cannot be finished without.
    pub(crate) teaches: TechniqueId,
    /// What everything random comes from.
    pub(crate) seed: u64,
    /// How many puzzles, and how many tries they may take.
    pub(crate) wanted: Wanted,
}

/// What a pack does not teach or does not practise.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Gaps {
    /// Techniques that no puzzle uses and nobody knows before.
    pub(crate) never_taught: Vec<TechniqueId>,
    /// Techniques that one puzzle introduces and no other uses.
    pub(crate) never_practised: Vec<TechniqueId>,
}

impl Gaps {
    /// Of that pack. None while a puzzle is sealed, for what it teaches is nobody's business.
    pub(crate) fn of(pack: &StudiedPack) -> Option<Gaps> {
        if pack.all().any(Study::is_sealed) {
            return None;
        }
        let coverage = pack.coverage();
        let all = |is_meant: fn(&Coverage) -> bool| -> Vec<TechniqueId> {
            let meant = coverage.iter().filter(|it| is_meant(it) && technique(it.technique).is_some());
            meant.map(|it| it.technique).filter(|it| *it != TechniqueId::SMALL_ARGUMENT).collect()
        };
        Some(Gaps {
            never_taught: all(|it| it.puzzles.is_empty() && !it.is_known),
            never_practised: all(|it| it.taught_in().is_some() && it.practised_in().is_empty()),
        })
    }

    /// Whether it is one of them.
    pub(crate) fn have(&self, technique: TechniqueId) -> bool {
        self.never_taught.contains(&technique) || self.never_practised.contains(&technique)
    }
}

/// Sets them, for a solver who knows what the pack teaches; they differ from all puzzles of the pack.
pub(crate) fn set(order: &Order, pack: &StudiedPack, watched: &Watched) -> Result<SetPuzzles, Failure> {
    let cancelled =
        || Failure::new("stopped before the work was done; nothing was written", "begin it again");
    watched.tell("Reading what the pack holds, so that nothing in it is set again.", None);
    let mut others = Others::none(Kind::Sandwich);
    for it in pack.all() {
        let puzzle = &it.entry().puzzle;
        let proof = || {
            let watched = watched.clone();
            prove::interruptible(move || watched.is_cancelled(), || verdict(puzzle, PROOF))
        };
        match (!it.entry().sealed).then(proof) {
            Some(Verdict::One(solution)) => others.add(puzzle, Some(&solution)),
            _ => others.add(puzzle, None),
        }
        if watched.is_cancelled() {
            return Err(cancelled());
        }
    }
    let brief = brief(order.teaches, pack);
    let tries = order.wanted.tries;
    watched.tell("The first tries are made.", Some((0, tries)));
    let mut watch = |it: &Tally| watched.tell(&so_far(it, order.wanted.count), Some((it.tries, tries)));
    let stop = || watched.is_cancelled();
    let batch = make(&brief, order.seed, order.wanted, &others, &pack.calibration(), &mut watch, &stop);
    if batch.is_stopped {
        return Err(cancelled());
    }
    let made = batch.made.into_iter().map(|made| SetPuzzle { made, fate: Fate::Open }).collect();
    Ok(SetPuzzles { teaches: order.teaches, seed: order.seed, tally: batch.tally, made })
}

/// The same that `galley make --gap` takes.
fn brief(teaches: TechniqueId, pack: &StudiedPack) -> Brief {
    let size = Size::NINE;
    let coverage = pack.coverage();
    let taught = coverage.iter().filter(|it| it.is_known || !it.puzzles.is_empty()).map(|it| it.technique);
    Brief {
        size,
        kind: Kind::Sandwich,
        teaches: vec![teaches],
        known: Known::only(taught).with(teaches),
        minutes: None,
        givens: Span { least: 0, most: size.n_cells() * 3 / 10 },
        clues: Clues::Needed,
        look: Look::Any,
        is_spare_allowed: false,
    }
}

/// How the tries go.
fn so_far(tally: &Tally, wanted: usize) -> String {
    format!("{} of {wanted} found. {}.", tally.found, tell::capital(&tally.to_string()))
}

impl SetPuzzles {
    /// What came of it, in a sentence or two.
    pub(crate) fn in_short(&self) -> String {
        let tries = &self.tally;
        match (self.made.len(), self.tally.nearest) {
            (0, Some(it)) => format!("None found in {tries}; the nearest missed because {it}."),
            (0, None) => format!("None found in {tries}."),
            (n, _) => format!("{n} found in {tries}."),
        }
    }

    /// The entry of the puzzle at that place, as a file would hold it.
    pub(crate) fn entry(&self, at: usize, id: PuzzleId, title: &str, state: State) -> Option<Entry> {
        let made = &self.made.get(at)?.made;
        let mut entry = Entry::new(id, title, "Galley", made.puzzle.clone());
        entry.intends = vec![self.teaches.name().to_owned()];
        entry.state = state;
        Some(entry)
    }

    /// A title for the puzzle at that place.
    pub(crate) fn title(&self, at: usize) -> String {
        match self.made.len() {
            1 => format!("Seed {}", self.seed),
            _ => format!("Seed {}, {}", self.seed, at + 1),
        }
    }
}

impl SetPuzzle {
    /// Minutes of a regular.
    pub(crate) fn minutes(&self) -> MinutesRange {
        MinutesRange::of(self.made.estimate.regular(), self.made.estimate.n_solves)
    }

    /// The board as it would be handed out.
    pub(crate) fn picture(&self, title: &str) -> String {
        picture(&self.made.puzzle, self.made.puzzle.givens(), title)
    }

    /// Where it turns on what it teaches: the board before that step, and the step.
    pub(crate) fn moment(&self, teaches: TechniqueId) -> Option<(StepId, String, String)> {
        let step = self.made.moment(teaches)?;
        let trail = self.made.explained.walkthrough().trail();
        let first = trail.step(step).concludes().first().copied()?;
        let mut board = Grid::empty(self.made.puzzle.size());
        for (_, fact) in trail.facts().take_while(|(id, _)| *id < first) {
            if let Claim::Is(cell, digit) = fact.claim() {
                board = board.with(cell, Some(digit));
            }
        }
        let title = format!("Before step {}", step.number());
        Some((step, tell::says(&self.made.puzzle, trail, step), picture(&self.made.puzzle, &board, &title)))
    }
}

fn picture(puzzle: &Puzzle, digits: &Grid, title: &str) -> String {
    let title = bare(title);
    let marks = &Marks::default();
    draw::board(&Board { puzzle, digits, marks, title: &title, scale: Scale::Large, coordinates: true })
}
