//! Words for groups of cells that hold all but one of their digits, or all of them across two houses.

use grid::{CellSet, Digit, DigitSet, House};
use rulebook::Claim;

use crate::lists::{cells, count, digits, either_digit};
use crate::telling::Telling;

pub(crate) fn sets(it: &mut Telling<'_>, sets: [(CellSet, DigitSet); 2], joints: DigitSet) {
    let refs = it.refs.rest();
    let [a, b] = sets.map(holding);
    it.prose.say_in_turn("", "", &[a, format!("{b}{refs}")]);
    match joints.iter().collect::<Vec<_>>()[..] {
        [joint] => by_one(it, joint),
        [one, other] => by_two(it, one, other),
        _ => {}
    }
}

/// The groups cannot both hold the joint.
fn by_one(it: &mut Telling<'_>, joint: Digit) {
    it.say(&format!(
        "the {joint}s of one group see those of the other, so one group has no {joint} and holds all its other \
         digits"
    ));
    let lost = it.digits_removed();
    match lost.single() {
        Some(lost) => it.say(&format!(
            "either way {lost} is in one of the groups, and a cell that sees every place for it in both is not \
             {lost}"
        )),
        None => it.say(&format!(
            "either way {} are each in one of the groups, and a cell that sees every place for one of them in \
             both loses it",
            digits(lost)
        )),
    }
}

/// One group lacks one of the joints, the other the other.
fn by_two(it: &mut Telling<'_>, one: Digit, other: Digit) {
    it.say(&format!(
        "the {one}s of one group see those of the other, and so do the {other}s: so one group lacks {one}, the \
         other {other}"
    ));
    it.say(
        "both hold all their other digits, and a cell that sees every place for such a digit there loses it",
    );
}

pub(crate) fn line_and_box(
    it: &mut Telling<'_>,
    [line, within]: [House; 2],
    crossing: (CellSet, DigitSet),
    [of_line, of_box]: [(CellSet, DigitSet); 2],
    [held_by_line, held_by_box]: [DigitSet; 2],
) {
    let refs = it.refs.rest();
    let parts = [crossing, of_line, of_box].map(holding);
    let [crossing_holds, line_holds, box_holds] = parts;
    it.prose.say_in_turn(
        &format!("where {line} and {within} cross,"),
        "",
        &[crossing_holds, line_holds, format!("{box_holds}{refs}")],
    );
    let n = count((crossing.0 | of_line.0 | of_box.0).len());
    it.say(&format!(
        "what lies outside {within} and what lies outside {line} have no digit in common, so these {n} cells hold \
         each of these {n} digits"
    ));
    // Of what the line and the box have there, only what their rest loses is shown.
    let shown = [(line, held_by_line), (within, held_by_box)].map(|(house, held)| {
        let cells: CellSet = it.size.cells_of(house).into_iter().collect();
        let lost = it.claims.iter().filter_map(|claim| match *claim {
            Claim::IsNot(cell, digit) if cells.contains(cell) => Some(digit),
            _ => None,
        });
        let lost: DigitSet = lost.filter(|it| held.contains(*it)).collect();
        (!lost.is_empty()).then(|| (house, digits(lost)))
    });
    match shown {
        [Some((line, of_line)), Some((within, of_box))] => it
            .say(&format!("{line} has its {of_line} in these cells and nowhere else, {within} its {of_box}")),
        [Some((house, held)), None] | [None, Some((house, held))] => {
            it.say(&format!("{house} has its {held} in these cells and nowhere else"));
        }
        [None, None] => {}
    }
}

/// `r1c5 is 2 or 5`, `r1c1 and r1c2 hold two of 2, 5 and 7`.
fn holding((group, left): (CellSet, DigitSet)) -> String {
    match group.len() {
        1 => format!("{} is {}", cells(group), either_digit(left)),
        n => format!("{} hold {} of {}", cells(group), count(n), digits(left)),
    }
}
