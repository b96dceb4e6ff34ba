//! What a pack teaches, technique by technique: where each is first met, and exercises for it.
//!
//! [`primer()`] takes a studied pack and makes a lesson of every technique that is not known from the start, in the
//! order in which the published puzzles bring them. The example of a lesson is the pack's own first use of the technique.
//! Its exercises are drills as `make` cuts them, so each answer has passed the checker; they are seeded by the
//! technique alone, so equal packs give equal exercises.
//!
//! Left out here: how a lesson looks, which booklet and site decide.

mod exercise;
mod strip;

use grid::Size;
use make::{Brief, Clues, Kind, Look, Span, Stop, drill, usually_known};
use reason::View;
use study::{Published, StudiedPack};
use trail::{StepId, TechniqueId};

pub use exercise::{Choice, Exercise};
pub use strip::{CellKind, Strip, StripCell};

/// Exercises that each technique should have.
pub const WANTED: usize = 3;

/// Random puzzles that are looked through for them at most. No press should wait for more, and a pack of usual size has
/// three of every technique from as few; on small boards some techniques hardly ever come up, and get fewer, or none.
const TRIES: u64 = 96;

/// The lessons of a pack, in the order in which it teaches; empty for a pack that teaches nothing new.
#[derive(Clone, Debug, Default)]
pub struct Primer {
    /// One a technique.
    pub lessons: Vec<Lesson>,
}

/// A technique that the pack teaches.
#[derive(Clone, Debug)]
pub struct Lesson {
    /// The technique.
    pub technique: TechniqueId,
    /// Where the pack first needs it.
    pub first: FirstUse,
    /// Exercises, up to [`WANTED`].
    pub exercises: Vec<Exercise>,
}

/// The first step of a pack that takes a technique.
#[derive(Clone, Debug)]
pub struct FirstUse {
    /// The place in [`StudiedPack::published`] of its puzzle.
    pub published: usize,
    /// The number of the puzzle in the pack.
    pub number: usize,
    /// The step.
    pub step: StepId,
    /// What it says.
    pub says: String,
    /// What is known, just before, of the houses that it looks at.
    pub strips: Vec<Strip>,
}

/// More houses than these are not shown of a first use.
const MOST_STRIPS: usize = 4;

/// The lessons of what is published; none if the work was stopped.
pub fn primer(pack: &StudiedPack, stop: Stop) -> Option<Primer> {
    let coverage = pack.coverage();
    let mut lessons = Vec::new();
    for (at, it) in pack.published().iter().enumerate() {
        let id = &it.study.entry().id;
        for new in coverage.iter().filter(|it| it.taught_in() == Some(id)) {
            let Some(first) = first_use(it, at, new.technique) else { continue };
            lessons.push(Lesson {
                technique: new.technique,
                exercises: exercises(it.study.entry().puzzle.size(), new.technique, stop)?,
                first,
            });
        }
    }
    Some(Primer { lessons })
}

/// None for what is no technique, which nobody can be taught.
fn first_use(it: &Published, published: usize, technique: TechniqueId) -> Option<FirstUse> {
    reason::technique(technique)?;
    let puzzle = &it.study.entry().puzzle;
    let trail = it.account.explained.walkthrough().trail();
    let (step, _) = trail.steps().find(|(_, it)| it.technique() == technique)?;
    let mut view = View::new(puzzle);
    for (id, _) in trail.steps().take_while(|it| it.0 != step) {
        view.take(trail.proposal(id)).ok()?;
    }
    // A step that looks farther is shown on its board only.
    let houses = trail.cites_of(step).houses;
    let few = houses.iter().filter(|_| houses.len() <= MOST_STRIPS);
    Some(FirstUse {
        published,
        number: it.number,
        step,
        says: tell::says(puzzle, trail, step),
        strips: few.map(|it| Strip::of_position(&view, *it)).collect(),
    })
}

fn exercises(size: Size, technique: TechniqueId, stop: Stop) -> Option<Vec<Exercise>> {
    let brief = Brief {
        size,
        kind: Kind::Sandwich,
        teaches: Vec::new(),
        known: usually_known(&[technique]).with(technique),
        minutes: None,
        givens: Span { least: 0, most: size.n_cells() * 3 / 10 },
        clues: Clues::Needed,
        look: Look::Any,
        is_spare_allowed: true,
    };
    let drills = drill(&brief, technique, 0, (WANTED, TRIES), stop)?;
    Some(drills.into_iter().map(Exercise::new).collect())
}
