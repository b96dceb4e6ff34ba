//! A drill in words: the question, what may be answered, and the key.

use grid::{Cell, DigitSet};
use make::{Drill, Shown};
use rulebook::Claim;

use crate::strip::{Strip, apart, clue, is_untold};

/// A drill, ready to be set before somebody.
#[derive(Clone, Debug)]
pub struct Exercise {
    /// The drill.
    pub drill: Drill,
    /// What it shows: `row 4 with clue 24 and box 5`.
    pub about: String,
    /// The question.
    pub question: String,
    /// What is known besides, that the cells do not show.
    pub known: Vec<String>,
    /// The same cell by cell.
    pub strips: Vec<Strip>,
    /// What may be answered, where that can be listed; each by itself is right or wrong.
    pub choices: Vec<Choice>,
    /// The answer, and the sentence of the step that proves it.
    pub answer: String,
}

/// One thing that may be answered.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Choice {
    /// `5`, `r4c7`, or `A crust`.
    pub label: String,
    /// Whether it is (a part of) the answer.
    pub is_right: bool,
    /// What it is worth saying to whoever answers it: why it is right, or what is the matter with it.
    pub says: String,
}

impl Exercise {
    /// The drill in words.
    pub fn new(drill: Drill) -> Exercise {
        let size = drill.puzzle.size();
        let houses: Vec<String> = drill
            .houses
            .iter()
            .map(|it| match clue(&drill, *it) {
                Some(clue) => format!("{it} with clue {clue}"),
                None => it.to_string(),
            })
            .collect();
        let says = tell::says(&drill.puzzle, &drill.trail, drill.step);
        let answer = tell::drill_answer(size, &drill.answer, &says, drill.step.number() - 1);
        Exercise {
            about: tell::list(&houses),
            question: tell::drill_question(size, &drill.houses, &drill.answer, drill.named()),
            known: drill
                .known
                .iter()
                .map(|it| tell::claim(size, it))
                .chain(struck(&drill))
                .chain(untold(&drill))
                .collect(),
            strips: Strip::of_drill(&drill),
            choices: choices(&drill, &answer),
            answer,
            drill,
        }
    }
}

/// The cell whose only digit is asked for: to show what is left to it would be to tell.
pub(crate) fn kept_back(drill: &Drill) -> Option<&Shown> {
    let is_digit = matches!(drill.answer.first(), Some(Claim::Is(..)));
    drill.cells.iter().find(|it| is_digit && Some(it.cell) == drill.cell && it.digits.len() == 1)
}

/// What such a cell cannot hold, beside the digits that are seen in the houses shown.
fn struck(drill: &Drill) -> Option<String> {
    let size = drill.puzzle.size();
    let cell = kept_back(drill)?;
    let sees = drill.houses.iter().filter(|it| size.houses_of(cell.cell).contains(it));
    let seen: DigitSet =
        sees.flat_map(|it| size.cells_of(*it)).filter_map(|it| drill.puzzle.givens().get(it)).collect();
    let struck: Vec<String> =
        (size.digits() - cell.digits - seen).iter().map(|it| it.get().to_string()).collect();
    (!struck.is_empty()).then(|| format!("{} cannot hold {}", cell.cell, tell::list(&struck)))
}

/// That nothing is known of the cells that are named, where it is so and they are not shown.
fn untold(drill: &Drill) -> Option<String> {
    let names: Vec<String> = apart(drill).iter().map(|it| it.to_string()).collect();
    is_untold(drill).then(|| format!("nothing of {}", tell::list(&names)))
}

/// The digits left to the cell that is asked about (all digits if only one is), the cells that are named, or the two
/// kinds; nothing where the answer is a set of cells, of digits or a pair of numbers.
fn choices(drill: &Drill, answer: &str) -> Vec<Choice> {
    let choice = |label: String, is_right: bool, why_not: String| {
        let says = if is_right { answer.to_owned() } else { why_not };
        Choice { label, is_right, says }
    };
    let cell = |it: Cell, kind: &str| {
        let is_right = Some(it) == drill.cell;
        choice(it.to_string(), is_right, format!("From what is shown, {it} may still be {kind}."))
    };
    match drill.answer[..] {
        [Claim::Is(asked, right), ..] => digits_of(drill)
            .iter()
            .map(|it| choice(it.to_string(), it == right, format!("{asked} cannot be {it}.")))
            .collect(),
        [Claim::IsNot(asked, _), ..] => {
            let is_right = |it| drill.answer.contains(&Claim::IsNot(asked, it));
            let may_be = |it| format!("From what is shown, {asked} may still be {it}.");
            digits_of(drill).iter().map(|it| choice(it.to_string(), is_right(it), may_be(it))).collect()
        }
        [Claim::Crust(asked) | Claim::Filling(asked)] if drill.beside.is_empty() => {
            let is_crust = matches!(drill.answer[0], Claim::Crust(_));
            vec![
                choice("A crust".to_owned(), is_crust, format!("{asked} cannot be a crust.")),
                choice("Filling".to_owned(), !is_crust, format!("{asked} cannot be filling.")),
            ]
        }
        [Claim::Crust(_)] => drill.named().iter().map(|it| cell(it, "filling")).collect(),
        [Claim::Filling(_)] => drill.named().iter().map(|it| cell(it, "a crust")).collect(),
        _ => Vec::new(),
    }
}

/// The digits that may be answered.
fn digits_of(drill: &Drill) -> DigitSet {
    let shown = drill.cells.iter().find(|it| Some(it.cell) == drill.cell);
    match kept_back(drill) {
        Some(_) => drill.puzzle.size().digits(),
        None => shown.map_or(DigitSet::EMPTY, |it| it.digits),
    }
}
