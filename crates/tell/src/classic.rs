//! Words for the techniques that need nothing but rows, columns and boxes.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, Digit, DigitSet, House};
use rulebook::{Claim, crusts};

use crate::Voice;
use crate::lists::{cells, count, digits, either_cell, houses, listed, within};
use crate::telling::{Telling, kind};

pub(crate) fn last_cell(it: &mut Telling<'_>, house: House, digit: Digit) {
    it.say(&format!("{house} has one empty cell left, and {digit} is the digit it lacks"));
}

pub(crate) fn one_place(it: &mut Telling<'_>, house: House, digit: Digit) {
    if it.voice == Voice::Screen {
        let only = match rulers_out(it, digit) {
            Some((who, verb)) => format!("in {house}, {who} {verb} out every cell but one for {digit}"),
            None => format!("{house} has one cell open to {digit}"),
        };
        return it.say(&only);
    }
    it.say(&format!("where can {digit} go in {house}?"));
    match rulers_out(it, digit) {
        Some((who, verb)) => it.say(&format!("{who} {verb} out every empty cell but one")),
        None => it.say("only one of its empty cells is open to it"),
    }
}

pub(crate) fn one_digit(it: &mut Telling<'_>, cell: Cell) {
    let peers = it.size.peers(cell);
    let seen: DigitSet = it.placed().filter(|(at, _)| peers.contains(*at)).map(|(_, digit)| digit).collect();
    let mut reasons = Vec::new();
    if !seen.is_empty() {
        reasons.push(format!("it sees {}", digits(seen)));
    }
    let (one, last) = crusts(it.size);
    let is = |it: &Telling<'_>, claim| it.facts_cited().any(|fact| fact == claim);
    if is(it, Claim::Filling(cell)) {
        let refs = it.refs.to(|it| *it == Claim::Filling(cell));
        reasons.push(format!("as filling it is neither {one} nor {last}{refs}"));
    }
    if is(it, Claim::Crust(cell)) {
        let refs = it.refs.to(|it| *it == Claim::Crust(cell));
        reasons.push(match it.voice {
            Voice::Spoken => format!("as a crust it is the {one} or the {last}"),
            _ => format!("as a crust it is {one} or {last}{refs}"),
        });
    }
    let removed = it.facts_cited().filter_map(|fact| match fact {
        Claim::IsNot(at, digit) if at == cell => Some(digit),
        _ => None,
    });
    let removed: DigitSet = removed.collect();
    if !removed.is_empty() {
        let refs = it.refs.rest();
        let verb = if removed.len() == 1 { "is" } else { "are" };
        reasons.push(format!("{} {verb} ruled out{refs}", digits(removed)));
    }
    match reasons.is_empty() {
        true => it.say(&format!("{cell} has one digit left")),
        false => it.prose.say_in_turn(&format!("look at {cell}:"), "", &reasons),
    }
}

pub(crate) fn locked(it: &mut Telling<'_>, digit: Digit, from: House, into: House, places: CellSet) {
    match rulers_out(it, digit) {
        Some((who, verb)) => {
            let leave = if verb == "rule" { "leave" } else { "leaves" };
            it.say(&format!("{who} {leave} only {} for the {digit} of {from}", cells(places)));
        }
        None => it.say(&format!("the {digit} of {from} must be {}", within(places))),
    }
    let lie = match places.len() {
        1 => "that cell lies",
        2 => "both cells lie",
        _ => "all these cells lie",
    };
    let lie = format!("{lie} in {into} as well");
    it.say(&it.voice.pick(format!("{lie}, so {into} has its {digit} there and nowhere else"), lie));
}

pub(crate) fn shared_digits(it: &mut Telling<'_>, house: House, places: CellSet, shared: DigitSet) {
    let refs = it.refs.rest();
    it.say(&format!("in {house}, {} can hold only {}{refs}", cells(places), digits(shared)));
    it.explain(&format!(
        "{} cells use {} digits up, so no other cell of {house} holds {}",
        count(places.len()),
        count(shared.len()),
        if shared.len() == 2 { "either" } else { "any of them" }
    ));
}

pub(crate) fn shared_cells(it: &mut Telling<'_>, house: House, places: CellSet, shared: DigitSet) {
    let refs = it.refs.rest();
    it.say(&format!("in {house}, {} fit only {}{refs}", digits(shared), cells(places)));
    it.explain(&format!(
        "{} digits take {} cells, so no other digit fits there",
        count(shared.len()),
        count(places.len())
    ));
}

pub(crate) fn crossing(
    it: &mut Telling<'_>,
    digit: Digit,
    base: &BTreeSet<House>,
    cover: &BTreeSet<House>,
    spare: CellSet,
) {
    let refs = it.refs.rest();
    let (lines, crossing) = (listed(&houses(base), "and"), listed(&houses(cover), "and"));
    let n = count(base.len());
    let all = if base.len() == 2 { "both".to_owned() } else { format!("all {n}") };
    let [across, down] = [base, cover].map(|it| it.first().map_or("line", |it| kind(*it)));
    if spare.is_empty() {
        it.say(&format!("in {lines}, the {digit} can only be in {crossing}{refs}"));
        it.explain(&format!(
            "these {n} {across}s take the {digit}s of {all} {down}s, so no other {across} has its \
             {digit} there"
        ));
        return;
    }
    let (one_of, them) = match spare.len() {
        1 => (cells(spare), cells(spare)),
        2 => (either_cell(spare), "both of these".to_owned()),
        _ => (format!("one of {}", cells(spare)), "all of these".to_owned()),
    };
    it.say(&format!("in {lines}, the {digit} can only be in {crossing}, or at {}{refs}", either_cell(spare)));
    it.say(&format!("unless {one_of} is {digit}, these {n} {across}s take the {digit}s of {all} {down}s"));
    it.say(&format!("a cell of these {down}s that sees {them} is not {digit} either way"));
}

/// What keeps the digit out of other cells, and "rule" or "rules": the places the digit has, and
/// earlier steps. None if nothing of the kind is cited.
fn rulers_out(it: &mut Telling<'_>, digit: Digit) -> Option<(String, &'static str)> {
    let seen = it.places_of(digit);
    let mut who = Vec::new();
    match seen.len() {
        0 => {}
        1 => who.push(format!("the {digit} at {}", cells(seen))),
        4.. if it.voice == Voice::Spoken => who.push(format!("the {digit}s on the board")),
        _ => who.push(format!("the {digit}s at {}", cells(seen))),
    }
    let steps = it.refs.rest_named();
    let one = seen.len() + usize::from(steps.is_some()) == 1
        && steps.as_ref().is_none_or(|it| !it.starts_with("steps"));
    who.extend(steps);
    (!who.is_empty()).then(|| (listed(&who, "and"), if one { "rules" } else { "rule" }))
}
