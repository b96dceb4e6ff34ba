//! Whole puzzles from a seed: what every walkthrough promises.

use std::collections::BTreeSet;
use std::sync::OnceLock;

use grid::{Grid, Size};
use reason::{Known, Search, Settings, Stopped, View, effort, explain, survey, technique};
use replay::Checked;
use replay::{Cap, judge};
use rulebook::Claim;
use trail::{Argument, FactId, Proposal, Step, TechniqueId, Trail};

use crate::support::seeded::{self, Made};

/// Side, sandwich clues, and seeds.
const CORPUS: [(u8, usize, std::ops::Range<u64>); 10] = [
    (9, 18, 0..28),
    // An argument once left out a link on which another rested.
    (9, 18, 32..33),
    (9, 18, 57..58),
    (9, 14, 0..4),
    (9, 0, 0..2),
    (6, 12, 0..8),
    (6, 6, 0..12),
    (6, 0, 0..8),
    (4, 8, 0..8),
    (4, 0, 0..4),
];

/// A puzzle of the corpus, explained.
pub(crate) struct Walked {
    pub(crate) name: String,
    pub(crate) made: Made,
    pub(crate) explained: Checked,
}

impl Walked {
    pub(crate) fn trail(&self) -> &Trail {
        self.explained.walkthrough().trail()
    }

    fn n_arguments(&self) -> usize {
        self.trail().steps().filter(|(_, it)| it.is_small_argument()).count()
    }
}

/// The corpus, explained once for all tests.
pub(crate) fn corpus() -> &'static [Walked] {
    static CORPUS_WALKED: OnceLock<Vec<Walked>> = OnceLock::new();
    CORPUS_WALKED.get_or_init(|| {
        CORPUS
            .into_iter()
            .flat_map(|it| it.2.map(move |seed| walk(it.0, it.1, seed, Settings::WHATEVER_IT_TAKES)))
            .collect()
    })
}

/// Some puzzles, explained once with the easier techniques alone, so that arguments abound whatever the
/// harder ones can do.
pub(crate) fn argued() -> &'static [Walked] {
    static ARGUED: OnceLock<Vec<Walked>> = OnceLock::new();
    ARGUED.get_or_init(|| {
        let known = Known::up_to(TechniqueId::new("naked-single"));
        let settings = Settings { known, search: Search::EasiestNext, ..Settings::WHATEVER_IT_TAKES };
        let seeds = [(9, 18, 0..7), (9, 0, 0..1), (6, 6, 0..12)];
        seeds.into_iter().flat_map(|it| it.2.map(move |seed| walk(it.0, it.1, seed, settings))).collect()
    })
}

fn walk(side: u8, n_clues: usize, seed: u64, settings: Settings) -> Walked {
    let made = seeded::puzzle(Size::of_side(side).unwrap(), n_clues, seed);
    let name = format!("seed {seed} on {side}x{side} with {n_clues} clues");
    let explained = explain(&made.puzzle, &made.solution, settings);
    let explained =
        explained.unwrap_or_else(|stopped| panic!("{name}: {stopped:?}\n{}", made.puzzle.givens()));
    Walked { name, made, explained }
}

#[test]
fn digits_concluded_fill_the_grid_with_the_solution() {
    for it in corpus() {
        let empty = Grid::empty(it.made.puzzle.size());
        let filled = it.trail().facts().fold(empty, |grid, (_, fact)| match fact.claim() {
            Claim::Is(cell, digit) => {
                assert_eq!(grid.get(cell), None, "{}: {cell} is concluded twice", it.name);
                grid.with(cell, Some(digit))
            }
            _ => grid,
        });
        assert_eq!(filled, it.made.solution, "{}", it.name);
    }
}

/// Nobody wants to hear that a filled cell is no crust. Arguments and chains name what they rest on.
#[test]
fn nothing_is_said_of_a_cell_that_is_filled_by_then() {
    for it in corpus() {
        let names_facts = |step: &Step| {
            matches!(
                step.argument(),
                Argument::Cases { .. } | Argument::Followed { .. } | Argument::Chain { .. }
            )
        };
        let named = it.trail().steps().filter(|it| names_facts(it.1));
        let named: BTreeSet<FactId> = named.flat_map(|(id, _)| it.trail().cites_of(id).facts).collect();
        let mut board = it.made.puzzle.givens().clone();
        for (id, fact) in it.trail().facts().filter(|it| it.1.step().is_some()) {
            let Some(cell) = fact.claim().cell() else { continue };
            assert!(board.get(cell).is_none() || named.contains(&id), "{}: {:?}", it.name, fact.claim());
            if let Claim::Is(cell, digit) = fact.claim() {
                board = board.with(cell, Some(digit));
            }
        }
    }
}

#[test]
fn no_step_is_a_guess() {
    for it in corpus() {
        let surveys = survey(View::new(&it.made.puzzle), it.trail());
        assert_eq!(surveys.len(), it.trail().n_steps(), "{}", it.name);
        for ((id, step), survey) in it.trail().steps().zip(&surveys) {
            let is_told = step.is_small_argument() && matches!(step.argument(), Argument::Cases { .. });
            assert!(is_told || technique(step.technique()).is_some(), "{}: {id:?} {step:?}", it.name);
            // What was taken was on offer.
            let offered = survey.open.iter().any(|(open, _)| is_same_look(*open, step.technique()));
            assert!(survey.step == id && (is_told || offered), "{}: {survey:?}", it.name);
        }
    }
}

/// Most of what is open in a position is needed by nobody, from the beginning to the end: marks that say nothing about
/// what is still to be found out.
#[test]
fn only_what_leads_on_counts_as_open() {
    let (mut n_leading, mut n_idle) = (0, 0);
    for it in corpus().iter().step_by(4) {
        let mut view = View::new(&it.made.puzzle);
        for survey in survey(View::new(&it.made.puzzle), it.trail()) {
            let ahead = it.trail().facts().filter(|fact| fact.1.step() >= Some(survey.step));
            let ahead: BTreeSet<Claim> = ahead.map(|it| it.1.claim()).collect();
            for (id, places) in survey.open {
                let found = technique(id).unwrap().find(&view);
                let leads_on = |it: &&Proposal| it.conclusions.iter().any(|(claim, _)| ahead.contains(claim));
                let leading = found.iter().filter(leads_on).count();
                assert_eq!(places, leading.max(usize::from(id == survey.technique)), "{}: {id}", it.name);
                (n_leading, n_idle) = (n_leading + leading, n_idle + found.len() - leading);
            }
            view.take(it.trail().proposal(survey.step)).unwrap();
        }
    }
    assert!(n_idle > n_leading, "{n_idle} idle, {n_leading} not: the corpus no longer shows the difference");
}

/// Whether both are one technique, or the two sides from which a sum is looked at: which side has fewer
/// cells can change with what else has been told before.
fn is_same_look(a: TechniqueId, b: TechniqueId) -> bool {
    let is_sum = |it: TechniqueId| ["filling-sets", "outside-digits"].contains(&it.name());
    a == b || (is_sum(a) && is_sum(b))
}

/// Small arguments are checked by far more puzzles than need one; this holds the corpus to its purpose.
#[test]
fn the_corpus_has_puzzles_of_both_kinds() {
    let n_arguments: Vec<usize> = corpus().iter().chain(argued()).map(|it| it.n_arguments()).collect();
    assert!(n_arguments.iter().filter(|it| **it == 0).count() >= 5, "{n_arguments:?}");
    assert!(n_arguments.iter().sum::<usize>() >= 5, "{n_arguments:?}");
}

#[test]
fn what_is_chosen_takes_no_more_effort_than_the_easiest_step_again_and_again() {
    let (mut by_ease, mut chosen) = (0, 0);
    for it in corpus().iter().filter(|it| it.n_arguments() == 0) {
        let greedy = Settings { search: Search::EasiestNext, ..Settings::WHATEVER_IT_TAKES };
        let greedy = explain(&it.made.puzzle, &it.made.solution, greedy).unwrap();
        let (a, b) = (effort(greedy.walkthrough().trail()), effort(it.trail()));
        assert!(b <= a, "{}: {b} after {a}", it.name);
        (by_ease, chosen) = (by_ease + a, chosen + b);
    }
    assert!(chosen * 100 <= by_ease * 97, "{chosen} is hardly less than {by_ease}");
}

/// The chosen steps were once compared before citations to spare were cut, and took more effort in the end.
#[test]
fn bug_what_is_chosen_is_compared_as_it_is_told() {
    let chosen = walk(9, 18, 399, Settings::WHATEVER_IT_TAKES);
    let greedy = Settings { search: Search::EasiestNext, ..Settings::WHATEVER_IT_TAKES };
    let by_ease = walk(9, 18, 399, greedy);
    assert!(effort(chosen.trail()) <= effort(by_ease.trail()));
}

/// Who knows fewer techniques gets a walkthrough with those alone, or is told that there is none.
#[test]
fn only_what_is_known_is_used() {
    let known = Known::up_to(TechniqueId::new("filling-sets"));
    let mut n_explained = 0;
    for it in corpus() {
        let settings = Settings { known, ..Settings::TECHNIQUES_ALONE };
        match explain(&it.made.puzzle, &it.made.solution, settings) {
            Ok(explained) => {
                let trail = explained.walkthrough().trail();
                assert!(trail.steps().all(|(_, step)| known.has(step.technique())), "{}", it.name);
                n_explained += 1;
            }
            Err(Stopped::Stuck(board)) => assert!(!board.is_full(), "{}", it.name),
            Err(other) => panic!("{}: {other:?}", it.name),
        }
    }
    assert!(n_explained > 2 && n_explained < corpus().len(), "{n_explained}");
}

/// A walkthrough with more steps of last resort than may be read out is none, and says how many it takes.
#[test]
fn a_walkthrough_with_too_many_last_resorts_is_not_given() {
    let singles = Known::up_to(TechniqueId::new("naked-single"));
    let it = argued().iter().find(|it| it.n_arguments() > 1).unwrap();
    for known in [singles, singles.with(TechniqueId::new("followed-to-an-end"))] {
        let settings = Settings { known, search: Search::EasiestNext, ..Settings::WHATEVER_IT_TAKES };
        let within = |readable| {
            let settings = Settings { readable, ..settings };
            explain(&it.made.puzzle, &it.made.solution, settings)
        };
        let told = within(usize::MAX).unwrap();
        let is_last_resort =
            |it: &Step| matches!(it.argument(), Argument::Followed { .. } | Argument::Cases { .. });
        let n = told.walkthrough().trail().steps().filter(|it| is_last_resort(it.1)).count();
        assert!(n > 1, "{}", it.name);
        assert_eq!(within(n - 1).err(), Some(Stopped::NotTeachable(n)), "{}", it.name);
        assert_eq!(within(n).ok(), Some(told), "{}", it.name);
    }
}

#[test]
fn equal_puzzles_are_explained_alike() {
    for it in corpus().iter().step_by(3) {
        let again = explain(&it.made.puzzle, &it.made.solution, Settings::WHATEVER_IT_TAKES).unwrap();
        assert_eq!(again.walkthrough(), it.explained.walkthrough(), "{}", it.name);
    }
}

/// A case once supposed only what the candidates left of the opposite, with nothing cited for the rest.
#[test]
fn bug_cases_suppose_the_whole_opposite() {
    for it in corpus() {
        let size = it.made.puzzle.size();
        for (_, step) in it.trail().steps() {
            let Argument::Cases { branches, .. } = step.argument() else { continue };
            for (fact, branch) in step.concludes().iter().zip(branches) {
                let claim = it.trail().fact(*fact).claim();
                let (cell, leaves) = claim.leaves(size).unwrap();
                assert_eq!((branch.cell, branch.digits), (cell, size.digits() - leaves), "{claim:?}");
            }
        }
    }
}

/// A clue was once cited where its line's house alone would do.
#[test]
fn bug_no_clue_stands_where_its_house_would_do() {
    let mut n_clues = 0;
    for it in corpus().iter().chain(argued()) {
        for (_, step) in it.trail().steps().filter(|(_, step)| step.is_small_argument()) {
            for fact in step.concludes().iter().map(|it| it.to_owned()) {
                let fact = it.trail().fact(fact);
                let Some(cites) = fact.cites() else { continue };
                for clue in &cites.clues {
                    n_clues += 1;
                    let mut bare = cites.clone().house(it.made.puzzle.clue(*clue).unwrap().line);
                    bare.clues.remove(clue);
                    let judged = judge(&it.made.puzzle, it.trail(), &fact.claim(), &bare, Cap(100_000));
                    assert!(
                        judged.is_err(),
                        "{}: {:?} needs no {clue:?} of {cites:?}",
                        it.name,
                        fact.claim()
                    );
                }
            }
        }
    }
    assert!(n_clues > 10, "only {n_clues} clues were tried");
}
