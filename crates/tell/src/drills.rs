//! Words for drills: the question, and the answer of the key.

use grid::{CellSet, House, Size};
use rulebook::Claim;

use crate::claims::together;
use crate::{Voice, lists};

/// The question about these houses whose answer is these claims, which are all about the same thing. Where one cell is
/// a crust, or filling, it is to be told from the others that are `named`, if there are any.
pub fn drill_question(size: Size, houses: &[House], answer: &[Claim], named: CellSet) -> String {
    let names: Vec<String> = named.iter().map(|it| it.to_string()).collect();
    let names = lists::list(&names);
    match answer.first() {
        None => String::new(),
        Some(Claim::Is(cell, _)) => format!("Which digit is in {cell}?"),
        Some(Claim::IsNot(cell, _)) => format!("Which of the digits left to {cell} cannot be there?"),
        Some(Claim::Crust(cell) | Claim::Filling(cell)) if named.len() < 2 => {
            format!("Is {cell} a crust, or filling?")
        }
        Some(Claim::Crust(_)) => format!("Which of {names} is sure to be a crust?"),
        Some(Claim::Filling(_)) => format!("Which of {names} is sure to be filling?"),
        Some(Claim::FillingCells { line, .. }) => {
            format!("How many cells lie between the crusts of {line}, at least and at most?")
        }
        Some(Claim::Spent { line, .. }) => format!("Which digits lie between the crusts of {line}?"),
        Some(Claim::CrustAmong { house, cells }) => {
            let holds =
                |it: &&House| *it != house && cells.iter().all(|cell| size.houses_of(cell).contains(it));
            match houses.iter().find(holds) {
                Some(other) => format!("In which cells of {other} is a crust of {house} sure to be?"),
                None => format!("In which cells is a crust of {house} sure to be?"),
            }
        }
        Some(Claim::DigitAmong { house, digit, .. }) => {
            format!("In which cells is the {digit} of {house} sure to be?")
        }
    }
}

/// The answer, and the sentence of the step that shows it. What is shown beside the question counts as its first
/// `told` steps, and is not referred to.
pub fn drill_answer(size: Size, answer: &[Claim], says: &str, told: usize) -> String {
    let answered = lists::list(&together(Voice::Booklet, size, answer));
    // The name of a cell is written small wherever it stands.
    let begins_with_cell = answer.first().is_some_and(|it| it.cell().is_some());
    let answered = if begins_with_cell { answered } else { lists::capital(&answered) };
    let mut says = says.to_owned();
    for number in 1..=told {
        says = says.replace(&format!(" (step {number})"), "");
    }
    says = says.replace(" (steps 1 and 2)", "");
    format!("{answered}. {says}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_crust_is_asked_for_within_the_other_house() {
        let size = Size::NINE;
        let cell =
            |row, column| size.cell(row, column).unwrap_or_else(|| unreachable!("a cell of the board"));
        let [row, column, boxed] = size.houses_of(cell(1, 1));
        let claim = Claim::CrustAmong { house: row, cells: [cell(1, 1), cell(1, 2)].into_iter().collect() };
        assert_eq!(
            drill_question(size, &[row, column, boxed], &[claim], CellSet::EMPTY),
            "In which cells of box 1 is a crust of row 1 sure to be?"
        );
    }

    #[test]
    fn questions_and_answers_are_sentences() {
        let size = Size::NINE;
        let cell = size.cell(4, 7).unwrap_or_else(|| unreachable!("a cell of the board"));
        let row = size.houses_of(cell)[0];
        let claims = [Claim::Crust(cell)];
        assert_eq!(drill_question(size, &[row], &claims, CellSet::EMPTY), "Is r4c7 a crust, or filling?");
        let named = [2, 7, 9].into_iter().filter_map(|it| size.cell(4, it)).collect();
        let question = drill_question(size, &[row], &claims, named);
        assert_eq!(question, "Which of r4c2, r4c7 and r4c9 is sure to be a crust?");
        let says = "With two cells between (step 1), r4c7 is one (steps 1 and 2).";
        let answer = drill_answer(size, &claims, says, 2);
        assert_eq!(answer, "r4c7 is a crust. With two cells between, r4c7 is one.");
        let not = |digit| Claim::IsNot(cell, size.digit(digit).unwrap_or_else(|| unreachable!("a digit")));
        assert_eq!(drill_answer(size, &[not(5), not(7)], "So.", 0), "r4c7 is neither 5 nor 7. So.");
        assert_eq!(drill_answer(size, &[not(5)], "So.", 0), "r4c7 is not 5. So.");
        assert_eq!(
            drill_question(
                size,
                &[row],
                &[Claim::FillingCells { line: row, fewest: 2, most: 3 }],
                CellSet::EMPTY
            )
            .matches('?')
            .count(),
            1
        );
    }
}
