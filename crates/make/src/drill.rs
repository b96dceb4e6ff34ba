//! Exercises smaller than a puzzle: one line or box, one question, one answer.
//!
//! A drill is cut out of a position that came up while a random puzzle was solved. It shows what was known there of
//! one house and nothing else. The technique proves the answer from that alone, nothing easier does, and nothing
//! that is shown says more about what is asked.

use grid::{Cell, CellSet, DigitSet, Grid, House, Size};
use rand::SeedableRng;
use rand_chacha::ChaCha8Rng;
use rayon::prelude::*;
use reason::{Known, Settings, TECHNIQUES, View, technique};
use rulebook::{Claim, Puzzle};
use trail::{Argument, Cites, Proposal, StepId, TechniqueId, Trail};

use crate::brief::Brief;
use crate::draft::{Draft, Stop, Stopped};
use crate::moment::as_far_as_it_goes;
use crate::setter::random_solution;

/// Tries that are made side by side before it is looked whether that was enough.
const AT_ONCE: u64 = 16;

/// A question about one line or box.
#[derive(Clone, Debug)]
pub struct Drill {
    /// What is printed of the house: its given digits and its clue, on a board that is otherwise empty.
    pub puzzle: Puzzle,
    /// The house.
    pub house: House,
    /// Its cells in order, before the answer is known.
    pub cells: Vec<Shown>,
    /// What is known of the house besides, that its cells do not show.
    pub known: Vec<Claim>,
    /// What is known of it, as steps without reasons, and then the step that answers.
    pub trail: Trail,
    /// The step that answers.
    pub step: StepId,
    /// What is asked about: a cell, or the house if none.
    pub cell: Option<Cell>,
    /// The answer: everything that follows about what is asked.
    pub answer: Vec<Claim>,
}

/// A cell of the house, as it is shown.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Shown {
    /// The cell.
    pub cell: Cell,
    /// The digits left to it: one if it is filled.
    pub digits: DigitSet,
    /// Whether it is known to be a crust.
    pub is_crust: bool,
    /// Whether it is known to be filling.
    pub is_filling: bool,
}

/// Drills for the technique, at most so many, each from another puzzle; fewer if so many random puzzles
/// hold no more. None if the work was stopped.
///
/// The brief says what the puzzles are like and what is known; the same brief and seed give the same drills.
pub fn drill(
    brief: &Brief,
    asked: TechniqueId,
    seed: u64,
    (count, tries): (usize, u64),
    stop: Stop,
) -> Option<Vec<Drill>> {
    let mut drills: Vec<Drill> = Vec::new();
    let mut next = 0;
    while next < tries && drills.len() < count {
        let numbers = next..tries.min(next + AT_ONCE);
        next = numbers.end;
        let found: Vec<Result<Option<Drill>, Stopped>> =
            numbers.into_par_iter().map(|it| from_one_puzzle(brief, asked, seed, it, stop)).collect();
        for it in found {
            drills.extend(it.ok()?);
        }
    }
    drills.truncate(count);
    Some(drills)
}

/// The first drill that the way through one random puzzle holds.
fn from_one_puzzle(
    brief: &Brief,
    asked: TechniqueId,
    seed: u64,
    number: u64,
    stop: Stop,
) -> Result<Option<Drill>, Stopped> {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    random.set_stream(number);
    let solution = random_solution(brief.size, &mut random);
    let mut draft = Draft::whole(brief, &solution);
    draft.cut_back(&mut random, stop)?;
    let puzzle = draft.puzzle();
    let mut view = View::new(&puzzle);
    for (id, step) in draft.way.steps() {
        if step.technique() == asked {
            let claims: Vec<Claim> = step.concludes().iter().map(|it| draft.way.fact(*it).claim()).collect();
            let mut houses = houses_of(brief.size, &claims).into_iter();
            if let Some(found) = houses.find_map(|it| cut_out(&view, it, asked)) {
                return Ok(Some(found));
            }
        }
        if view.take(draft.way.proposal(id)).is_err() {
            break;
        }
    }
    Ok(None)
}

/// The houses that everything concluded is about.
fn houses_of(size: Size, claims: &[Claim]) -> Vec<House> {
    let is_about = |house: House, claim: &Claim| match (claim.cell(), claim.house()) {
        (Some(cell), _) => size.houses_of(cell).contains(&house),
        (None, about) => about == Some(house),
    };
    size.houses().filter(|house| claims.iter().any(|it| is_about(*house, it))).collect()
}

/// The drill that the house makes as it stands, if it makes one.
fn cut_out(position: &View, house: House, asked: TechniqueId) -> Option<Drill> {
    let puzzle = printed(position, house);
    let mut shown = View::new(&puzzle);
    tell_all(&mut shown, position, house)?;
    let of_technique = technique(asked)?;
    let easier_ones = TECHNIQUES.iter().map(|it| it.id()).take_while(|it| *it != asked);
    let easier = as_far_as_it_goes(shown.clone(), Known::only(easier_ones));
    let mut proposal = of_technique
        .find(&shown)
        .into_iter()
        .find(|step| step.conclusions.iter().any(|(claim, _)| easier.is_news(*claim)))?;
    let first = proposal.conclusions.iter().map(|it| it.0).find(|it| easier.is_news(*it))?;
    let cell = first.cell();
    // One question: whatever the step says of this cell, or of the house, is its answer.
    let answer: Vec<Claim> = proposal
        .conclusions
        .iter()
        .map(|it| it.0)
        .filter(|it| it.cell() == cell && kind(it) == kind(&first))
        .collect();
    let is_new = answer.iter().all(|it| easier.is_news(*it));
    if !is_new || !is_all(&shown, house, cell, &answer) {
        return None;
    }
    // What it says of other cells is not asked.
    proposal.retain(|claim, _| answer.contains(claim));
    let known = shown.house_facts().map(|it| it.1).collect();
    let mut trail = shown.trail().clone();
    let step = trail.push(proposal).ok()?;
    let shown_cell = |it: Cell| Shown {
        cell: it,
        digits: shown.candidates(it),
        is_crust: shown.is_crust(it),
        is_filling: shown.is_filling(it),
    };
    let cells = position.size().cells_of(house).into_iter().map(shown_cell).collect();
    Some(Drill { cells, known, trail, step, cell, answer, house, puzzle: puzzle.clone() })
}

/// The house's digits and its clue alone.
fn printed(position: &View, house: House) -> Puzzle {
    let size = position.size();
    let cells: CellSet = size.cells_of(house).into_iter().collect();
    let givens = Grid::from_fn(size, |it| position.digit(it).filter(|_| cells.contains(it)));
    Puzzle::new(givens, position.puzzle().clues().iter().filter(|it| it.line == house).copied())
}

/// Tells what the position knows of the house; none if that cannot be told.
fn tell_all(shown: &mut View, position: &View, house: House) -> Option<()> {
    let cells = position.size().cells_of(house);
    let kinds = cells.iter().filter_map(|it| match () {
        () if position.digit(*it).is_some() => None,
        () if position.is_crust(*it) => Some(Claim::Crust(*it)),
        () if position.is_filling(*it) => Some(Claim::Filling(*it)),
        () => None,
    });
    let of_house = position.house_facts().map(|it| it.1).filter(|it| it.house() == Some(house));
    tell(shown, kinds.chain(of_house).collect())?;
    let size = position.size();
    let open = cells.iter().filter(|it| position.digit(**it).is_none());
    let struck = open.flat_map(|it| {
        (size.digits() - position.candidates(*it))
            .iter()
            .map(|digit| Claim::IsNot(*it, digit))
            .collect::<Vec<_>>()
    });
    tell(shown, struck.collect())
}

fn tell(shown: &mut View, claims: Vec<Claim>) -> Option<()> {
    let news = claims.into_iter().filter(|it| shown.is_news(*it));
    let conclusions: Vec<(Claim, Cites)> = news.map(|it| (it, Cites::default())).collect();
    if conclusions.is_empty() {
        return Some(());
    }
    // Told, not argued for: whatever argument has no parts will do.
    let argument = Argument::SeesBothCrusts { cells: CellSet::EMPTY };
    shown.take(Proposal { technique: TechniqueId::SMALL_ARGUMENT, argument, conclusions }).ok()?;
    Some(())
}

/// What kind of thing is said: claims of one kind answer one question.
fn kind(claim: &Claim) -> u8 {
    match claim {
        Claim::Is(..) => 0,
        Claim::IsNot(..) => 1,
        Claim::Crust(_) | Claim::Filling(_) => 2,
        Claim::FillingCells { .. } => 3,
        Claim::Spent { .. } => 4,
        Claim::CrustAmong { .. } => 5,
        Claim::DigitAmong { .. } => 6,
    }
}

/// Whether the answer follows from what is shown, and nothing beyond it does: asked of the checker, which knows no
/// technique.
fn is_all(shown: &View, house: House, cell: Option<Cell>, answer: &[Claim]) -> bool {
    let cites = Cites {
        houses: [house].into(),
        clues: shown.puzzle().clue_ids().map(|it| it.0).collect(),
        facts: shown.trail().facts().map(|it| it.0).collect(),
    };
    let cap = Settings::TECHNIQUES_ALONE.argument.cap;
    let follows = |it: &Claim| replay::judge(shown.puzzle(), shown.trail(), it, &cites, cap).is_ok();
    answer.iter().all(follows)
        && !answer.iter().flat_map(|it| beyond(shown, cell, it, answer)).any(|it| follows(&it))
}

/// What would say more than that part of the answer.
fn beyond(shown: &View, cell: Option<Cell>, part: &Claim, answer: &[Claim]) -> Vec<Claim> {
    let fewer = |cells: CellSet| cells.iter().map(move |it| cells - [it].into_iter().collect::<CellSet>());
    match (*part, cell) {
        (Claim::IsNot(..), Some(cell)) => {
            let others = shown.candidates(cell).iter().map(|it| Claim::IsNot(cell, it));
            others.filter(|it| !answer.contains(it)).collect()
        }
        (Claim::Filling(cell) | Claim::Crust(cell), _) => {
            shown.candidates(cell).iter().map(|it| Claim::Is(cell, it)).collect()
        }
        (Claim::FillingCells { line, fewest, most }, _) if fewest < most => vec![
            Claim::FillingCells { line, fewest: fewest + 1, most },
            Claim::FillingCells { line, fewest, most: most - 1 },
        ],
        (Claim::CrustAmong { house, cells }, _) if cells.len() > 1 => {
            fewer(cells).map(|cells| Claim::CrustAmong { house, cells }).collect()
        }
        (Claim::DigitAmong { house, digit, cells }, _) if cells.len() > 1 => {
            fewer(cells).map(|cells| Claim::DigitAmong { house, digit, cells }).collect()
        }
        _ => Vec::new(),
    }
}
