//! Words for the techniques that need nothing but rows, columns and boxes.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, Digit, DigitSet, House};
use rulebook::{Claim, crusts, filling_digits};

use crate::Voice;
use crate::lists::{cells, count, digits, either_cell, houses, listed, within};
use crate::refs::EARLIER_STEPS;
use crate::telling::{Telling, kind};

pub(crate) fn last_cell(it: &mut Telling<'_>, house: House, digit: Digit) {
    it.say(&format!("only {digit} is missing from {house}"));
}

pub(crate) fn one_place(it: &mut Telling<'_>, house: House, digit: Digit) {
    let (lead, one_cell) = match it.voice {
        Voice::Screen => (format!("for {digit} in {house}, "), "only one cell"),
        _ => {
            it.say(&format!("where can {digit} go in {house}?"));
            (String::new(), "it only one empty cell")
        }
    };
    let others = of_other_kind(it, house, digit);
    let left = match (others, rulers_out(it, digit)) {
        (Some((kind, refs)), None) => format!("every other empty cell is {kind}{refs}"),
        (Some((kind, refs)), Some((who, verb))) => {
            let aside = if kind == FILLING { "filling cells" } else { "crusts" };
            format!("{aside} aside{refs}, {who} {} {one_cell}", leave(verb))
        }
        (None, Some((who, _))) if who == EARLIER_STEPS && it.voice == Voice::Spoken => {
            "we have ruled it out in every other empty cell".to_owned()
        }
        (None, Some((who, verb))) => format!("{who} {} {one_cell}", leave(verb)),
        (None, None) => "only one empty cell is left".to_owned(),
    };
    it.say(&format!("{lead}{left}"));
}

/// The kind of the cells of the house that cannot hold the digit because of their kind, with references: a
/// filling cell is no place for a crust, a crust none for a filling digit. None if no such cell is cited.
fn of_other_kind(it: &mut Telling<'_>, house: House, digit: Digit) -> Option<(&'static str, String)> {
    let inside: CellSet = it.size.cells_of(house).into_iter().collect();
    let is_filling = filling_digits(it.size).contains(digit);
    let is_other = |claim: &Claim| match *claim {
        Claim::Filling(cell) => !is_filling && inside.contains(cell),
        Claim::Crust(cell) => is_filling && inside.contains(cell),
        _ => false,
    };
    let refs = it.refs.has(is_other).then(|| it.refs.few(is_other))?;
    Some((if is_filling { "a crust" } else { FILLING }, refs))
}

const FILLING: &str = "filling";

fn leave(verb: &str) -> &'static str {
    if verb == "rule" { "leave" } else { "leaves" }
}

pub(crate) fn one_digit(it: &mut Telling<'_>, cell: Cell) {
    let peers = it.size.peers(cell);
    let seen: DigitSet = it.placed().filter(|(at, _)| peers.contains(*at)).map(|(_, digit)| digit).collect();
    let mut reasons = Vec::new();
    let (one, last) = crusts(it.size);
    let is = |it: &Telling<'_>, claim| it.facts_cited().any(|fact| fact == claim);
    let is_crust = is(it, Claim::Crust(cell));
    if is(it, Claim::Filling(cell)) {
        let refs = it.refs.to(|it| *it == Claim::Filling(cell));
        reasons.push(format!("as filling it is neither {one} nor {last}{refs}"));
    }
    if is_crust {
        let refs = it.refs.to(|it| *it == Claim::Crust(cell));
        reasons.push(match it.voice {
            Voice::Spoken => format!("as a crust it is the {one} or the {last}"),
            _ => format!("as a crust it is {one} or {last}{refs}"),
        });
    }
    let others = it.size.digits() - seen;
    match (seen.single().filter(|_| is_crust), others.single()) {
        _ if seen.is_empty() => {}
        (Some(digit), _) => {
            let at = it.places_of(digit) & peers;
            let at = at.first().map_or_else(String::new, |it| format!(" at {it}"));
            reasons.push(format!("it sees the {digit}{at}"));
        }
        (None, Some(only)) => reasons.push(format!("it sees every digit but {only}")),
        (None, None) => reasons.push(format!("it sees {}", digits(seen))),
    }
    let removed = it.facts_cited().filter_map(|fact| match fact {
        Claim::IsNot(at, digit) if at == cell => Some(digit),
        _ => None,
    });
    let removed: DigitSet = removed.collect();
    if !removed.is_empty() {
        let refs = it.refs.rest();
        let verb = if removed.len() == 1 { "is" } else { "are" };
        reasons.push(match it.voice {
            Voice::Spoken => format!("we have ruled out {}", digits(removed)),
            _ => format!("{} {verb} ruled out{refs}", digits(removed)),
        });
    }
    match reasons.is_empty() {
        true => it.say(&format!("{cell} has one digit left")),
        false => it.prose.say_in_turn(&format!("look at {cell}:"), "", &reasons),
    }
}

pub(crate) fn locked(it: &mut Telling<'_>, digit: Digit, from: House, into: House, places: CellSet) {
    let seen = it.places_of(digit);
    let where_is = format!("the {digit} of {from} can only be {}", within(places));
    match seen.is_empty() {
        true => {
            let refs = it.refs.rest();
            it.say(&format!("{where_is}{refs}"));
        }
        false => {
            let why = rulers_out(it, digit).map(|(who, verb)| format!("{who} {verb} out the rest"));
            let why = why.unwrap_or_default();
            let both = format!("{where_is}: {why}");
            let sentences = if it.prose.fits(&both) { vec![both] } else { vec![where_is, why] };
            sentences.iter().for_each(|sentence| it.say(sentence));
        }
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
    let is_plain = steps.as_deref() == Some(EARLIER_STEPS);
    if is_plain && !who.is_empty() {
        let verb = if seen.len() == 1 { "rules" } else { "rule" };
        return Some((format!("{}, with {EARLIER_STEPS},", who.concat()), verb));
    }
    let is_one = seen.len() + usize::from(steps.is_some()) == 1
        && steps.as_ref().is_none_or(|it| it.starts_with("step "));
    who.extend(steps);
    (!who.is_empty()).then(|| (listed(&who, "and"), if is_one { "rules" } else { "rule" }))
}
