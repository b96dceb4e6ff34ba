//! Words for drills: the question, and the answer of the key.

use grid::{House, Size};
use rulebook::Claim;

use crate::{claim, lists};

/// The question about these houses whose answer is these claims, which are all about the same thing.
pub fn drill_question(size: Size, houses: &[House], answer: &[Claim]) -> String {
    match answer.first() {
        None => String::new(),
        Some(Claim::Is(cell, _)) => format!("Which digit is in {cell}?"),
        Some(Claim::IsNot(cell, _)) => format!("Which of the digits left to {cell} cannot be there?"),
        Some(Claim::Crust(cell) | Claim::Filling(cell)) => format!("Is {cell} a crust, or filling?"),
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
    let claims: Vec<String> = answer.iter().map(|it| claim(size, it)).collect();
    let mut says = says.to_owned();
    for number in 1..=told {
        says = says.replace(&format!(" (step {number})"), "");
    }
    says = says.replace(" (steps 1 and 2)", "");
    format!("{}. {says}", lists::capital(&lists::list(&claims)))
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
            drill_question(size, &[row, column, boxed], &[claim]),
            "In which cells of box 1 is a crust of row 1 sure to be?"
        );
    }

    #[test]
    fn questions_and_answers_are_sentences() {
        let size = Size::NINE;
        let cell = size.cell(4, 7).unwrap_or_else(|| unreachable!("a cell of the board"));
        let row = size.houses_of(cell)[0];
        let claims = [Claim::Crust(cell)];
        assert_eq!(drill_question(size, &[row], &claims), "Is r4c7 a crust, or filling?");
        let says = "With two cells between (step 1), r4c7 is one (steps 1 and 2).";
        let answer = drill_answer(size, &claims, says, 2);
        assert_eq!(answer, "R4c7 is a crust. With two cells between, r4c7 is one.");
        assert_eq!(
            drill_question(size, &[row], &[Claim::FillingCells { line: row, fewest: 2, most: 3 }])
                .matches('?')
                .count(),
            1
        );
    }
}
