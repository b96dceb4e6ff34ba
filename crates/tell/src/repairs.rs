//! Words for what contradicts itself on a page, and for what would make it sound.

use std::collections::BTreeSet;

use grid::House;
use prove::{Change, Conflict, Member, Mends, Printed, Settling, SingleGivens, Slip, Solutions};
use rulebook::Puzzle;

use crate::lists;

/// What to print where: `5 in r4c7`, `12 beside row 3`.
pub fn to_print(printed: Printed) -> String {
    match printed {
        Printed::Given(cell, digit) => format!("{digit} in {cell}"),
        Printed::Clue(clue) => format!("{} beside {}", clue.value, clue.line),
    }
}

/// A change: `row 3: 21 instead of 12`, `row 3: no clue instead of 12`, `r4c7: empty instead of 5`.
pub fn change(change: Change) -> String {
    let (place, nothing) = match change.printed() {
        Printed::Given(cell, _) => (cell.to_string(), "empty"),
        Printed::Clue(clue) => (clue.line.to_string(), "no clue"),
    };
    let to = change.to().map_or(nothing.to_owned(), |it| it.to_string());
    format!("{place}: {to} instead of {}", change.printed().value())
}

/// What happened, if it was that slip.
pub fn slip(slip: Slip) -> &'static str {
    match slip {
        Slip::Transposed => "two digits changed places",
        Slip::Neighbour => "taken from the place beside it",
        Slip::Misread => "taken for a digit that looks like it",
        Slip::OneOff => "one off",
        Slip::DigitLost => "a digit was lost",
        Slip::DigitExtra => "a digit too many",
    }
}

/// How many solutions, in figures: `1`, `12`, `100 or more`; `not decided` where the limit was reached.
pub fn n_solutions(solutions: Option<Solutions>) -> String {
    match solutions {
        Some(Solutions::Exactly(n)) => n.to_string(),
        Some(Solutions::AtLeast(n)) => format!("{n} or more"),
        None => "not decided".to_owned(),
    }
}

/// What was tried, and how much of it helps: `641 changes of one thing printed were tried: 3 leave exactly
/// one solution and 20 leave several.`
pub fn mends_summary(mends: &Mends) -> String {
    let with = |is_meant: fn(&Option<Solutions>) -> bool| {
        mends.mends.iter().filter(|it| is_meant(&it.solutions)).count()
    };
    let one = with(|it| *it == Some(Solutions::Exactly(1)));
    let undecided = with(Option::is_none);
    let several = mends.mends.len() - one - undecided;
    let leave = |n: usize| if n == 1 { "leaves" } else { "leave" };
    let none = |n: usize| if n == 0 { "none".to_owned() } else { lists::count(n) };
    let mut parts = vec![format!("{} {} exactly one solution", none(one), leave(one.max(1)))];
    if several > 0 {
        parts.push(format!("{} {} several", lists::count(several), leave(several)));
    }
    if undecided > 0 {
        parts.push(format!("of {} it was not decided", lists::count(undecided)));
    }
    format!("{} changes of one thing printed were tried: {}.", mends.n_changes, lists::list(&parts))
}

/// What contradicts itself, in short sentences: givens, clues, and where each digit has to stand once.
///
/// The lines of clues are not named beside them: without its line a clue says nothing.
pub fn conflict(conflict: &Conflict) -> String {
    let (mut givens, mut clues) = (Vec::new(), Vec::new());
    let (mut with_clue, mut houses) = (BTreeSet::new(), BTreeSet::new());
    for it in &conflict.members {
        match it {
            Member::Given(cell, digit) => givens.push(to_print(Printed::Given(*cell, *digit))),
            Member::Clue(clue) => {
                with_clue.insert(clue.line);
                clues.push(to_print(Printed::Clue(*clue)));
            }
            Member::House(house) => _ = houses.insert(*house),
        }
    }
    let houses: BTreeSet<House> = houses.difference(&with_clue).copied().collect();
    let part = |what: &str, parts: Vec<String>| {
        (!parts.is_empty()).then(|| format!("{what}: {}.", lists::list(&parts)))
    };
    let parts =
        [part("Givens", givens), part("Clues", clues), part("Each digit once in", lists::houses(&houses))];
    let bound = match conflict.is_smallest() {
        true => "No fewer things on this page contradict each other.",
        false => "Whether fewer things on this page contradict each other was not decided.",
    };
    let sentences = ["A part of the page contradicts itself.".to_owned()].into_iter();
    let sentences = sentences.chain(parts.into_iter().flatten());
    let last = format!("Without any one of these, the others can hold together. {bound}");
    sentences.chain([last]).collect::<Vec<_>>().join(" ")
}

/// The givens that leave one solution alone, in sentences.
pub fn single_givens(found: &SingleGivens) -> String {
    let givens: Vec<String> = found.givens.iter().map(|it| to_print(*it)).collect();
    let alone = match &givens[..] {
        [] => "No given leaves one solution by itself.".to_owned(),
        [only] => format!("One given leaves one solution by itself: {only}."),
        several => {
            let n = lists::capital(&lists::count(several.len()));
            format!("{n} givens leave one solution, each by itself: {}.", lists::list(several))
        }
    };
    match found.n_undecided {
        0 => alone,
        n => format!("{alone} Of {} more it was not decided.", lists::count(n)),
    }
}

/// The fewest givens, and the fewest clues, that leave one chosen solution: in sentences. Nothing is said of
/// clues where the puzzle has none.
pub fn fewest_additions(puzzle: &Puzzle, givens: Option<&Settling>, clues: Option<&Settling>) -> String {
    let givens = match givens {
        Some(it) => format!("The fewest givens to add: {}.", settling(it)),
        None => "No givens to add were found within the work allowed.".to_owned(),
    };
    match clues {
        _ if puzzle.clues().is_empty() => givens,
        Some(it) => format!("{givens} The fewest clues to add: {}.", settling(it)),
        None => format!("{givens} Clues alone are not enough, or were not found within the work allowed."),
    }
}

/// The fewest additions: `5 in r4c7 and 3 in r5c1`, and whether fewer could do.
fn settling(settling: &Settling) -> String {
    let added: Vec<String> = settling.added.iter().map(|it| to_print(*it)).collect();
    let bound = match settling.at_least {
        _ if settling.is_fewest() => String::new(),
        0 | 1 => " (perhaps fewer are enough)".to_owned(),
        least => format!(" (perhaps fewer are enough, but not fewer than {})", lists::count(least)),
    };
    format!("{}{bound}", lists::list(&added))
}
