//! Words for steps that look at a cell or a place both ways.

use grid::{Cell, CellSet, Digit, DigitSet, House};

use crate::lists::{each_of, either_cell, either_digit, houses, listed};
use crate::telling::Telling;

pub(crate) fn wing(
    it: &mut Telling<'_>,
    pivot: Cell,
    left: DigitSet,
    ends: [(Cell, DigitSet); 2],
    digit: Digit,
) {
    let refs = it.refs.rest();
    let [(a, of_a), (b, of_b)] = ends.map(|(cell, left)| (cell, left.without(digit)));
    let only = |cell: Cell, left| format!("{cell} only {}", either_digit(left));
    it.say(&format!(
        "{pivot} can be only {}, {} and {}{refs}",
        either_digit(left),
        only(a, ends[0].1),
        only(b, ends[1].1)
    ));
    let either = format!(
        "if {pivot} is {}, {a} is {digit}; if it is {}, {b} is {digit}",
        either_digit(of_a),
        either_digit(of_b)
    );
    match left.contains(digit) {
        true => {
            it.say(&format!("{either}; or it is {digit} itself"));
            it.say(&format!("a cell that sees all three is not {digit}"));
        }
        false => {
            it.say(&either);
            it.say(&format!("a cell that sees both {a} and {b} is not {digit} either way"));
        }
    }
}

pub(crate) fn joined_pairs(
    it: &mut Telling<'_>,
    [a, b]: [Cell; 2],
    house: House,
    joint: Digit,
    places: CellSet,
    digit: Digit,
) {
    let refs = it.refs.rest();
    let left = DigitSet::only(joint).with(digit);
    it.say(&format!("{a} and {b} can each be only {}{refs}", either_digit(left)));
    it.say(&format!(
        "the {joint} of {house} is at {}, and each of these sees {a} or {b}",
        either_cell(places)
    ));
    it.say(&format!(
        "one of {a} and {b} is then not {joint} but {digit}, and a cell that sees both is not {digit}"
    ));
}

pub(crate) fn two_colours(
    it: &mut Telling<'_>,
    digit: Digit,
    chain: &[Cell],
    joints: &[House],
    clash: Option<House>,
) {
    let (Some(first), Some(last)) = (chain.first(), chain.last()) else { return };
    // What leads from end to end needs the joints between only to keep the digit from both of their cells.
    let deciding = joints.iter().copied().step_by(if clash.is_none() { 2 } else { 1 }).collect();
    let refs = it.refs.rest();
    it.say(&format!("{digit} has just two places in each of {}{refs}", listed(&houses(&deciding), "and")));
    let cells: Vec<String> = chain.iter().map(Cell::to_string).collect();
    it.prose.say_list("follow the chain of", "and on through", &cells, "and");
    match clash {
        None => it.say(&format!(
            "if {first} is not {digit}, the next cell is, and so on by turns to {last}, so one end is {digit}, \
             and a cell that sees both ends is not"
        )),
        Some(house) => it.say(&format!(
            "either every second one from {first} on is {digit}, or none of these; but {first} and {last} \
             both lie in {house}"
        )),
    }
}

pub(crate) fn equal_pairs(it: &mut Telling<'_>, both: DigitSet, chain: &[Cell]) {
    let (Some(first), Some(last)) = (chain.first(), chain.last()) else { return };
    let refs = it.refs.rest();
    let said: Vec<String> = chain.iter().map(Cell::to_string).collect();
    it.prose.say_list("follow the chain of", "and on through", &said, "and");
    it.say(&format!("each can be only {}{refs} and sees the next, so they take turns", either_digit(both)));
    let one_each = listed(&each_of(both).iter().map(|it| format!("one is {it}")).collect::<Vec<_>>(), "and");
    it.say(&format!(
        "the ends {first} and {last} differ: {one_each}, and a cell that sees both of them is neither"
    ));
}
