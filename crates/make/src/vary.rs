//! The same puzzle with one given or clue less or more, and what that does to its walkthrough.

use std::cmp::Ordering;
use std::collections::BTreeSet;

use grade::Calibration;
use grid::Grid;
use prove::{Printed, Verdict, verdict};
use rayon::prelude::*;
use reason::{Settings, View, by_ease};
use replay::Checked;
use rulebook::Puzzle;
use trail::TechniqueId;

use crate::draft::{LIMIT, Stop, sandwich};

/// A difference in a regular's median that is too small to speak of, in seconds.
const HARDLY: f64 = 5.0;

/// A change of one thing printed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Variation {
    /// It is taken away.
    Without(Printed),
    /// It is printed besides.
    With(Printed),
}

/// A puzzle that differs from another in one given or clue.
#[derive(Clone, Debug)]
pub struct Variant {
    /// What is changed.
    pub variation: Variation,
    /// The puzzle then; it has the same solution, and no other.
    pub puzzle: Puzzle,
    /// Its walkthrough.
    pub explained: Checked,
    /// The median of a regular, in seconds.
    pub seconds: f64,
    /// The techniques that its walkthrough takes and the other's does not, easiest first.
    pub new: Vec<TechniqueId>,
    /// Those that only the other's takes.
    pub gone: Vec<TechniqueId>,
}

/// Everything that one given or clue does to a puzzle.
#[derive(Clone, Debug)]
pub struct Varied {
    /// The median of a regular for the puzzle itself, in seconds.
    pub seconds: f64,
    /// What makes it easier. The least changed come first, by techniques that come or go, then by seconds.
    pub easier: Vec<Variant>,
    /// What makes it harder, in the same order.
    pub harder: Vec<Variant>,
    /// How many changes hardly make a difference.
    pub n_same: usize,
    /// What cannot be taken away, for there would be several solutions.
    pub n_unsound: usize,
    /// What cannot be taken away, for there would be no walkthrough within the settings.
    pub n_unfinished: usize,
}

/// What each change of one given or clue does to the puzzle, which has this one solution; none if it has
/// no walkthrough within the settings itself, or the work was stopped. Minutes are corrected by the calibration.
pub fn vary(
    puzzle: &Puzzle,
    solution: &Grid,
    settings: Settings,
    calibration: &Calibration,
    stop: Stop,
) -> Option<Varied> {
    let told = |puzzle: &Puzzle| told(puzzle, solution, settings, calibration);
    let (own, seconds) = told(puzzle)?;
    let own = techniques(&own);
    let judged: Vec<Option<Judged>> = variations(puzzle, solution)
        .into_par_iter()
        .map(|it| (!stop()).then(|| judge(puzzle, it, &own, &told)))
        .collect();
    let mut varied =
        Varied { seconds, easier: vec![], harder: vec![], n_same: 0, n_unsound: 0, n_unfinished: 0 };
    for it in judged {
        match it? {
            Judged::Unsound => varied.n_unsound += 1,
            Judged::Unfinished => varied.n_unfinished += 1,
            Judged::Sound(it) if (it.seconds - seconds).abs() < HARDLY => varied.n_same += 1,
            Judged::Sound(it) if it.seconds < seconds => varied.easier.push(*it),
            Judged::Sound(it) => varied.harder.push(*it),
        }
    }
    // Sorting keeps what is equal in the order of the page.
    varied.easier.sort_by(|a, b| less_changed(a, b, seconds));
    varied.harder.sort_by(|a, b| less_changed(a, b, seconds));
    Some(varied)
}

fn less_changed(a: &Variant, b: &Variant, seconds: f64) -> Ordering {
    let n_techniques = |it: &Variant| it.new.len() + it.gone.len();
    let difference = |it: &Variant| (it.seconds - seconds).abs();
    n_techniques(a).cmp(&n_techniques(b)).then(difference(a).total_cmp(&difference(b)))
}

/// Each given and clue taken away, each other cell given, and each line that has no clue given one.
fn variations(puzzle: &Puzzle, solution: &Grid) -> Vec<Variation> {
    let less = Printed::all(puzzle).into_iter().map(Variation::Without);
    let givens = solution.filled().filter(|it| !puzzle.is_given(it.0)).map(|it| Printed::Given(it.0, it.1));
    let lines = puzzle.size().lines().filter(|it| !puzzle.clues().iter().any(|clue| clue.line == *it));
    // A puzzle without clues is of another kind.
    let lines = lines.filter(|_| !puzzle.clues().is_empty());
    let clues = lines.map(|it| Printed::Clue(sandwich(solution, it)));
    less.chain(givens.chain(clues).map(Variation::With)).collect()
}

enum Judged {
    Unsound,
    Unfinished,
    Sound(Box<Variant>),
}

fn judge(
    puzzle: &Puzzle,
    variation: Variation,
    own: &BTreeSet<TechniqueId>,
    told: &dyn Fn(&Puzzle) -> Option<(Checked, f64)>,
) -> Judged {
    let changed = match variation {
        Variation::Without(it) => it.taken_from(puzzle),
        Variation::With(it) => it.added_to(puzzle),
    };
    if !matches!(verdict(&changed, LIMIT), Verdict::One(_)) {
        return Judged::Unsound;
    }
    let Some((explained, seconds)) = told(&changed) else { return Judged::Unfinished };
    let uses = techniques(&explained);
    let only = |a: &BTreeSet<TechniqueId>, b: &BTreeSet<TechniqueId>| by_ease(a.difference(b).copied());
    let (new, gone) = (only(&uses, own), only(own, &uses));
    Judged::Sound(Box::new(Variant { variation, puzzle: changed, explained, seconds, new, gone }))
}

/// The walkthrough, and how many seconds a regular takes.
fn told(
    puzzle: &Puzzle,
    solution: &Grid,
    settings: Settings,
    calibration: &Calibration,
) -> Option<(Checked, f64)> {
    let explained = reason::explain(puzzle, solution, settings).ok()?;
    let trail = explained.walkthrough().trail();
    let surveys = reason::survey(View::new(puzzle), trail);
    let seconds = grade::estimate(&surveys, trail, settings.known, calibration).regular().median;
    Some((explained, seconds))
}

fn techniques(explained: &Checked) -> BTreeSet<TechniqueId> {
    explained.walkthrough().trail().techniques()
}
