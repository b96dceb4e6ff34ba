//! The setter: tries, on all cores, until enough puzzles meet the brief.

use grade::{Calibration, Estimate};
use grid::{Grid, Size};
use prove::{Printed, spare};
use rand::{Rng, RngExt};
use rayon::prelude::*;
use reason::View;
use replay::Checked;
use rulebook::Puzzle;
use trail::{StepId, TechniqueId};

use crate::bare::bare;
use crate::brief::{Brief, Clues};
use crate::draft::{Draft, LIMIT, Stop, Stopped};
use crate::luck::luck;
use crate::miss::{Miss, Tally};
use crate::moment::moment;
use crate::others::Others;

/// Tries that are made side by side before it is looked whether that was enough: few at first, for what is easily
/// found, and then enough to keep many cores busy.
const AT_ONCE: [u64; 2] = [4, 64];

/// Orders in which the solution of a puzzle that meets the brief is cut back.
const ORDERS: u64 = 8;

/// A puzzle set to a brief.
#[derive(Clone, Debug)]
pub struct Made {
    /// The puzzle.
    pub puzzle: Puzzle,
    /// Its only solution.
    pub solution: Grid,
    /// Its walkthrough for those who know what the brief says.
    pub explained: Checked,
    /// How long that takes them.
    pub estimate: Estimate,
    /// What of its page could go, each by itself, and leave one solution. It is there because the brief's look or
    /// numbers ask for it, or, where that is allowed, because those who know what the brief says could not finish the
    /// puzzle without.
    pub beyond_unique: Vec<Printed>,
    /// For each technique of its brief the step that [`Made::moment`] gives.
    moments: Vec<(TechniqueId, StepId)>,
}

/// How much is wanted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Wanted {
    /// How many puzzles.
    pub count: usize,
    /// How many tries before it is given up.
    pub tries: u64,
}

/// What came of the tries.
#[derive(Clone, Debug)]
pub struct Batch {
    /// Those that meet the brief; no two of them are twins.
    pub made: Vec<Made>,
    /// What the others were turned down for.
    pub tally: Tally,
    /// Whether the caller stopped the work.
    pub is_stopped: bool,
}

impl Made {
    /// Where it turns on a technique of its brief: the first step of its walkthrough that uses it for something
    /// that those who lack it never find out.
    pub fn moment(&self, technique: TechniqueId) -> Option<StepId> {
        self.moments.iter().find(|it| it.0 == technique).map(|it| it.1)
    }

    /// How long it takes a regular: the median, in whole minutes.
    pub fn minutes(&self) -> usize {
        (self.estimate.regular().median / 60.0).round() as usize
    }
}

/// Sets puzzles to the brief that differ from each other and from the `others`. The same brief and seed give the
/// same puzzles, on any number of cores. Minutes are corrected by the calibration.
///
/// `watch` is shown how it goes; once `stop` says true, the work ends.
pub fn make(
    brief: &Brief,
    seed: u64,
    wanted: Wanted,
    others: &Others,
    calibration: &Calibration,
    watch: &mut dyn FnMut(&Tally),
    stop: Stop,
) -> Batch {
    let mut others = others.clone();
    let mut numbers_made = Vec::new();
    let mut batch = Batch { made: Vec::new(), tally: Tally::default(), is_stopped: false };
    let [mut at_once, most_at_once] = AT_ONCE;
    let mut next = 0;
    while next < wanted.tries && batch.made.len() < wanted.count {
        let numbers = next..wanted.tries.min(next + at_once);
        (next, at_once) = (numbers.end, most_at_once.min(2 * at_once));
        let tried: Vec<(u64, Result<Made, Failed>)> = numbers
            .into_par_iter()
            .map(|it| (it, attempt(brief, calibration, seed, (it, 0), stop)))
            .collect();
        // Tries count in their own order, and those beyond the last that was needed do not, so that cores
        // make no difference.
        for (number, it) in tried {
            if batch.made.len() == wanted.count {
                break;
            }
            match it {
                Ok(made) if others.have(&made.puzzle, &made.solution) => batch.tally.count(Some(Miss::Twin)),
                Ok(made) => {
                    batch.tally.count(None);
                    others.add(&made.puzzle, Some(&made.solution));
                    batch.made.push(made);
                    numbers_made.push(number);
                }
                Err(Failed::Missed(miss)) => batch.tally.count(Some(miss)),
                Err(Failed::Stopped) => {
                    batch.is_stopped = true;
                    return batch;
                }
            }
        }
        watch(&batch.tally);
    }
    let made = batch.made.into_par_iter().zip(numbers_made);
    batch.made = made.map(|(it, number)| cut_better(brief, calibration, (seed, number), it, stop)).collect();
    batch.is_stopped = stop();
    batch
}

/// The same solution cut back in other orders, as long as something printed is there for the walkthrough alone: of all
/// that meet the brief the one with the fewest such things.
fn cut_better(
    brief: &Brief,
    calibration: &Calibration,
    (seed, number): (u64, u64),
    made: Made,
    stop: Stop,
) -> Made {
    if !brief.is_spare_allowed || made.beyond_unique.is_empty() {
        return made;
    }
    let others = (1..ORDERS)
        .into_par_iter()
        .filter_map(|it| attempt(brief, calibration, seed, (number, it), stop).ok());
    let others: Vec<Made> = others.collect();
    // Of equals the first counts.
    let best = [made].into_iter().chain(others).min_by_key(|it| it.beyond_unique.len());
    best.unwrap_or_else(|| unreachable!("there is one at least"))
}

/// Why a try gave no puzzle.
enum Failed {
    Missed(Miss),
    Stopped,
}

impl From<Miss> for Failed {
    fn from(it: Miss) -> Failed {
        Failed::Missed(it)
    }
}

impl From<Stopped> for Failed {
    fn from(_: Stopped) -> Failed {
        Failed::Stopped
    }
}

/// One try: a random solution, cut back as far as it goes (with something to spare: in one of many orders), and then
/// held against the brief, what is quickly seen first.
fn attempt(
    brief: &Brief,
    calibration: &Calibration,
    seed: u64,
    (number, order): (u64, u64),
    stop: Stop,
) -> Result<Made, Failed> {
    let mut random = luck(brief, None, seed, number);
    let solution = random_solution(brief.size, &mut random);
    // Numbers of tries stay below this.
    random.set_stream(number + (order << 32));
    let draft = match brief.is_spare_allowed {
        true => {
            let mut draft = Draft::with_way(brief, &solution);
            draft.cut_back(&mut random, stop)?;
            draft
        }
        false => bare(brief, &solution, &mut random, stop)?,
    };
    check_numbers(brief, &draft)?;
    check_needed(brief, &draft)?;
    let puzzle = draft.puzzle();
    let explained = reason::explain(&puzzle, &solution, brief.settings());
    let explained = explained.map_err(|_| Miss::Unexplained)?;
    let trail = explained.walkthrough().trail();
    let estimate =
        grade::estimate(&reason::survey(View::new(&puzzle), trail), trail, brief.known, calibration);
    let moment = |it: &TechniqueId| Some((*it, moment(&puzzle, trail, *it, brief.without(*it).known)?));
    let moments = brief.teaches.iter().filter_map(moment).collect();
    let beyond_unique = spare(&puzzle, LIMIT).spare;
    let made = Made { puzzle, solution: solution.clone(), explained, estimate, beyond_unique, moments };
    check_minutes(brief, &made)?;
    Ok(made)
}

fn check_numbers(brief: &Brief, draft: &Draft) -> Result<(), Miss> {
    let (givens, clues) = (draft.n_givens(), draft.n_clues());
    if givens > brief.givens.most {
        return Err(Miss::Givens { needs: givens, most: brief.givens.most });
    }
    match brief.clues {
        Clues::Within(span) if clues > span.most => Err(Miss::Clues { needs: clues, most: span.most }),
        _ => Ok(()),
    }
}

/// Whether what is known is enough, and whether it is not without one of the techniques to be taught, whichever that is.
fn check_needed(brief: &Brief, draft: &Draft) -> Result<(), Miss> {
    let n_cells = brief.size.n_cells();
    let n_filled = draft.n_filled();
    if n_filled < n_cells {
        return Err(Miss::NotFinished { left: n_cells - n_filled });
    }
    let is_spare = |it: &&TechniqueId| draft.n_filled_without(**it) == n_cells;
    let spare: Vec<TechniqueId> = brief.teaches.iter().filter(is_spare).copied().collect();
    match spare.first() {
        None => Ok(()),
        Some(it) => Err(Miss::NotNeeded { technique: *it, needed: brief.teaches.len() - spare.len() }),
    }
}

fn check_minutes(brief: &Brief, made: &Made) -> Result<(), Miss> {
    let takes = made.minutes();
    match brief.minutes {
        Some(span) if takes < span.least => Err(Miss::Minutes { takes, wanted: span.least }),
        Some(span) if takes > span.most => Err(Miss::Minutes { takes, wanted: span.most }),
        _ => Ok(()),
    }
}

/// A full grid, by a search that tries digits in random order.
pub(crate) fn random_solution(size: Size, random: &mut impl Rng) -> Grid {
    let empty = Puzzle::new(Grid::empty(size), []);
    let found = prove::some_solution(&empty, LIMIT, &mut |digits| random.random_range(0..digits.len()));
    found.unwrap_or_else(|| unreachable!("an empty board is soon filled"))
}
