//! A drill in words: the question, what may be answered, and the key.

use grid::{Digit, DigitSet};
use make::{Drill, Shown};
use rulebook::Claim;

use crate::strip::{Strip, clue};

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
    /// `5`, or `a crust`.
    pub label: String,
    /// Whether it is (a part of) the answer.
    pub is_right: bool,
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
        Exercise {
            about: tell::list(&houses),
            question: tell::drill_question(size, &drill.houses, &drill.answer),
            known: drill.known.iter().map(|it| tell::claim(size, it)).chain(struck(&drill)).collect(),
            strips: Strip::of_drill(&drill),
            choices: choices(&drill),
            answer: tell::drill_answer(size, &drill.answer, &says, drill.step.number() - 1),
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

/// The digits left to the cell that is asked about (all digits if only one is), or the two kinds; nothing where the answer
/// is a set of cells, of digits or a pair of numbers.
fn choices(drill: &Drill) -> Vec<Choice> {
    let digits = |is_right: &dyn Fn(Digit) -> bool| {
        let shown = drill.cells.iter().find(|it| Some(it.cell) == drill.cell);
        let digits = match kept_back(drill) {
            Some(_) => drill.puzzle.size().digits(),
            None => shown.map_or(DigitSet::EMPTY, |it| it.digits),
        };
        digits.iter().map(|it| Choice { label: it.get().to_string(), is_right: is_right(it) }).collect()
    };
    match drill.answer.first() {
        Some(Claim::Is(_, answer)) => digits(&|it| it == *answer),
        Some(Claim::IsNot(cell, _)) => digits(&|it| drill.answer.contains(&Claim::IsNot(*cell, it))),
        Some(kind @ (Claim::Crust(_) | Claim::Filling(_))) => {
            let is_crust = matches!(kind, Claim::Crust(_));
            [("a crust", is_crust), ("filling", !is_crust)]
                .map(|(label, is_right)| Choice { label: label.to_owned(), is_right })
                .into()
        }
        _ => Vec::new(),
    }
}
