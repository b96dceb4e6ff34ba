//! The program's own words: verdicts, minutes, reasons for places. Words for techniques and steps are
//! `tell`'s.

use grade::Solver;
use pack::{Placed, State};
use study::{Finding, Knowing, MinutesRange, Study};
use trail::TechniqueId;

/// Beside every number of minutes: what they are, and on how many logged solves they rest.
pub(crate) fn minutes_note(n_solves: usize) -> String {
    match n_solves {
        0 => "Minutes are estimates for solvers who know the techniques; they are not yet calibrated."
            .to_owned(),
        n => format!("Minutes are for solvers who know the techniques, {}.", tell::basis(n)),
    }
}

/// `1 puzzle`, `2 puzzles`.
pub(crate) fn counted(n: usize, noun: &str) -> String {
    format!("{n} {noun}{}", if n == 1 { "" } else { "s" })
}

/// Solvers of that kind, as people.
pub(crate) fn kinds(solver: Solver) -> String {
    format!("{}s", solver.name)
}

/// Of a file that is no puzzle.
pub(crate) const UNREADABLE: &str = "cannot be read";

/// `First light, by Fern`, on a line of its own.
pub(crate) fn head(study: &Study) -> String {
    format!("{}, by {}\n", study.entry().title, study.entry().setter)
}

/// How many solutions a puzzle has.
pub(crate) fn verdict(finding: Finding) -> &'static str {
    match finding {
        Finding::One => "exactly one solution",
        Finding::None => "no solution",
        Finding::Many => "more than one solution",
        Finding::Undecided => "not decided",
    }
}

/// The same as a figure for a narrow column.
pub(crate) fn n_solutions(finding: Finding) -> &'static str {
    match finding {
        Finding::One => "one",
        Finding::None => "none",
        Finding::Many => "several",
        Finding::Undecided => "undecided",
    }
}

/// `5 to 10`.
pub(crate) fn minutes(range: MinutesRange) -> String {
    format!("{} to {}", range.from, range.to)
}

/// How far the techniques go that a solver knows.
pub(crate) fn knowing(it: &Knowing) -> String {
    match it {
        Knowing::Enough(_) => "What is known is enough.".to_owned(),
        Knowing::OneMore(id, _) => format!("One technique more opens it: {}.", tell::technique_name(*id)),
        Knowing::More(missing) => {
            let missing = techniques(&missing.iter().copied().collect::<Vec<_>>());
            format!("It takes more than one technique more; its own walkthrough uses {missing}.")
        }
    }
}

/// The techniques' names, as a list.
pub(crate) fn techniques(ids: &[TechniqueId]) -> String {
    tell::list(&ids.iter().map(|it| tell::technique_name(*it)).collect::<Vec<_>>())
}

/// The technique with that name in files and documents; small arguments have one too.
pub(crate) fn technique_named(name: &str) -> Option<TechniqueId> {
    let is_argument = name == TechniqueId::SMALL_ARGUMENT.name();
    reason::named(name).or(is_argument.then_some(TechniqueId::SMALL_ARGUMENT))
}

/// The techniques' names in files and documents.
pub(crate) fn ids(ids: &[TechniqueId]) -> Vec<&'static str> {
    ids.iter().map(|it| it.name()).collect()
}

/// Why the puzzle of that number stands where it stands.
pub(crate) fn place(number: usize, study: &Study, placed: Option<&Placed>) -> String {
    match placed {
        Some(placed) => tell::why_here(number, placed),
        None if study.is_sealed() => "Sealed: its reasons are kept back.".to_owned(),
        None => "There is no walkthrough to weigh.".to_owned(),
    }
}

/// The state of a puzzle that has no place.
pub(crate) fn state(state: State) -> &'static str {
    match state {
        State::Undecided | State::In => "not chosen",
        State::Pool => "in the pool",
        State::Later => "for later",
        State::Declined => "declined",
    }
}
