//! Made-up walkthroughs and made-up people who solve along them.
//!
//! The times are drawn from the definition of the model (exponential waits, days that differ log-normally), written
//! here once more; nothing of the fit is used.

use std::collections::BTreeMap;

use grade::{CARRY_OUT, Course, Entry, LEAST_WAIT, Outcome, Solve, Solver, Timed};
use grid::{Cell, Digit, Grid, Size};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use rand_distr::{Exp1, Normal};
use reason::{Known, Survey, TECHNIQUES, technique};
use rulebook::{Claim, Puzzle};
use trail::{Argument, Cites, FactId, Proposal, TechniqueId, Trail};

/// A made-up walkthrough: each step fills a cell and rests on the step before and one other.
pub(crate) struct Made {
    pub(crate) id: String,
    pub(crate) course: Course,
    pub(crate) trail: Trail,
    surveys: Vec<Survey>,
}

pub(crate) fn luck(seed: u64) -> ChaCha8Rng {
    ChaCha8Rng::seed_from_u64(seed)
}

/// How many cells a made-up puzzle has to be filled.
pub(crate) const N_CELLS: usize = 60;

/// The digit that belongs into a cell. What it is does not matter.
pub(crate) fn digit_of(cell: Cell) -> Digit {
    Size::NINE.digit(1 + (cell.row() + cell.column()) % 9).unwrap()
}

/// A walkthrough whose steps use these techniques, each open in one to three places beside easier ones.
pub(crate) fn made(id: &str, techniques: &[TechniqueId], seed: u64) -> Made {
    let mut luck = luck(seed);
    let mut trail = Trail::from_page(&Puzzle::new(Grid::empty(Size::NINE), []));
    let mut facts: Vec<FactId> = Vec::new();
    for cell in Size::NINE.cells().take(N_CELLS) {
        // Three threads that do not need each other, so that people can take them in other orders.
        let before = facts.len().checked_sub(3).map(|at| facts[at]);
        let cites = before.into_iter().fold(Cites::default(), Cites::fact);
        let digit = digit_of(cell);
        let used = techniques[luck.random_range(0..techniques.len())];
        let argument = Argument::OneDigit { cell, digit };
        let step = Proposal { technique: used, argument, conclusions: vec![(Claim::Is(cell, digit), cites)] };
        let step = trail.push(step).unwrap();
        facts.push(trail.step(step).concludes()[0]);
    }
    let weight = |it: TechniqueId| technique(it).unwrap().weight();
    let surveys: Vec<Survey> = trail
        .steps()
        .map(|(step, it)| {
            let used = it.technique();
            let easier = techniques.iter().filter(|it| weight(**it) < weight(used));
            let open = easier.filter(|_| luck.random_range(0..4) == 0).map(|it| (*it, 1));
            let open: Vec<(TechniqueId, usize)> = open.collect();
            let own = (used, luck.random_range(1..=3));
            let open = open.into_iter().chain([own]).collect();
            Survey { step, technique: used, conclusions: 1, held: 1, eye: 1, open }
        })
        .collect();
    Made { id: id.to_owned(), course: Course::new(&surveys, &trail, Known::ALL), trail, surveys }
}

/// How people really are.
#[derive(Clone, Default)]
pub(crate) struct Truth {
    /// What is added to the logarithm of every time.
    pub(crate) pace: f64,
    /// By what the wait for a technique is multiplied.
    pub(crate) waits: BTreeMap<TechniqueId, f64>,
}

/// A person, and what is added to the logarithm of their times.
#[derive(Clone)]
pub(crate) struct Person {
    pub(crate) name: String,
    pub(crate) kind: Solver,
    pub(crate) pace: f64,
}

/// The person solves the puzzle on some day, cell by cell as the walkthrough does.
pub(crate) fn solved(made: &Made, person: &Person, truth: &Truth, luck: &mut ChaCha8Rng) -> Solve {
    let day: f64 = luck.sample(Normal::new(0.0, person.kind.spread).unwrap());
    let slow = (truth.pace + person.pace + day).exp();
    let mut at = 0.0;
    let entries = made.surveys.iter().map(|survey| {
        let rates = survey.open.iter().map(|(id, places)| {
            let it = technique(*id).unwrap();
            let notices = person.kind.notices[usize::from(it.rule().is_some())];
            *places as f64 / f64::from(it.weight()) * notices / truth.waits.get(id).unwrap_or(&1.0)
        });
        let wait = luck.sample::<f64, _>(Exp1) / rates.sum::<f64>();
        at += slow * (LEAST_WAIT + wait + CARRY_OUT * person.kind.hands);
        let fact = made.trail.step(survey.step).concludes()[0];
        let Claim::Is(cell, digit) = made.trail.fact(fact).claim() else { unreachable!() };
        Entry { at, cell, digit: Some(digit) }
    });
    let entries = entries.collect();
    Solve {
        puzzle: made.id.clone(),
        solver: person.name.clone(),
        kind: person.kind,
        is_aloud: false,
        entries,
        hints: Vec::new(),
        pauses: Vec::new(),
        outcome: Outcome::Solved,
    }
}

/// Everybody solves every puzzle.
pub(crate) fn all_solved(puzzles: &[Made], people: &[Person], truth: &Truth, seed: u64) -> Vec<Timed> {
    let mut luck = luck(seed);
    let solves = puzzles.iter().flat_map(|made| people.iter().map(move |person| (made, person)));
    solves
        .map(|(made, person)| Timed::new(&solved(made, person, truth, &mut luck), &made.course).unwrap())
        .collect()
}

/// So many people of one kind, who differ as people do.
pub(crate) fn people(kind: Solver, n: usize, seed: u64) -> Vec<Person> {
    let mut luck = luck(seed);
    let differs = Normal::new(0.0, 0.25).unwrap();
    let person = |at: usize| Person { name: format!("{} {at}", kind.name), kind, pace: luck.sample(differs) };
    (0..n).map(person).collect()
}

/// So many puzzles with those techniques.
pub(crate) fn puzzles(n: usize, techniques: &[TechniqueId], seed: u64) -> Vec<Made> {
    (0..n).map(|at| made(&format!("puzzle-{at}"), techniques, seed + at as u64)).collect()
}

/// A few techniques from easy to hard, of every puzzle and of the genre.
pub(crate) fn techniques() -> Vec<TechniqueId> {
    TECHNIQUES.iter().step_by(TECHNIQUES.len() / 6).map(|it| it.id()).collect()
}
