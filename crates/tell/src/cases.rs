//! Words for small arguments, and for what is tried and followed: suppose the opposite, follow it, and see it fail.
//!
//! One conclusion is told in one run; several are numbered cases, a line each. Where an argument has
//! to try every digit of a cell, those are cases within the case: 1.1, 1.2.

use std::collections::BTreeMap;

use grid::{Cell, CellSet, DigitSet, Size};
use rulebook::{Claim, crusts, filling_digits};
use trail::{Because, Branch, End, Link};

use crate::Voice;
use crate::claims::{claim, together};
use crate::lists::{cells, digits, either_digit, houses};
use crate::telling::Telling;

/// Consequences of one clue are said together as long as they take no more words than this.
const TOGETHER: usize = 20;

/// What a supposition comes to is said if no more digits than this are left.
const MOST_LEFT: usize = 4;

/// What the reader has been told a cell is left with: what stands on the board, what is supposed, and
/// what followed. A cell that settles on what was said of it is not said again.
type Said = BTreeMap<Cell, DigitSet>;

pub(crate) fn argument(it: &mut Telling<'_>, branches: &[Branch], is_smallest: bool) {
    followed(it, branches);
    if !is_smallest {
        it.say("this may not be the smallest argument");
    }
}

/// Says each supposition and what follows, to its end.
pub(crate) fn followed(it: &mut Telling<'_>, branches: &[Branch]) {
    look_at(it, branches);
    let claims = it.claims.clone();
    let board: Said = it.placed().map(|(cell, digit)| (cell, DigitSet::only(digit))).collect();
    let numbered = branches.len() > 1;
    for (at, (branch, conclusion)) in branches.iter().zip(&claims).enumerate() {
        let label = if numbered { (at + 1).to_string() } else { String::new() };
        if numbered {
            it.prose.new_line();
            it.say(&format!("case {label}"));
        }
        suppose(it, branch, Some(conclusion));
        follow(it, &label, branch, board.clone());
        it.say(&format!("so {}", claim(it.size, conclusion)));
    }
    if numbered {
        it.prose.new_line();
        it.prose.say_in_turn("altogether,", "also,", &together(it.voice, it.size, &claims));
    }
}

/// Says which houses, clues and earlier steps the argument needs.
fn look_at(it: &mut Telling<'_>, branches: &[Branch]) {
    // Facts that a case names are referred to there.
    let mut named = Vec::new();
    facts_named(branches, &mut named);
    it.refs.to(|it| named.contains(it));

    let clues: Vec<String> = it.cites.clues.iter().map(|clue| it.clue(*clue)).collect();
    let mut plain = it.cites.houses.clone();
    for clue in it.cites.clues.iter().filter_map(|clue| it.puzzle.clue(*clue)) {
        plain.remove(&clue.line);
    }
    let mut items = houses(&plain);
    items.extend(clues);
    it.prose.say_list("look at", "look also at", &items, "and");
    it.rests_on();
}

fn facts_named(branches: &[Branch], named: &mut Vec<Claim>) {
    for branch in branches {
        named.extend(branch.chain.iter().filter_map(|link| match link.because {
            Because::Known(fact) => Some(fact),
            _ => None,
        }));
        match &branch.end {
            End::Breaks(fact) => named.push(*fact),
            End::Split(parts) => facts_named(parts, named),
            End::NoDigit(_) | End::NoPlace(..) | End::NoFit(_) | End::NoWay(_) => {}
        }
    }
}

/// Says what is supposed: the opposite of the conclusion, and what that comes to where fewer digits
/// are left to the cell.
fn suppose(it: &mut Telling<'_>, branch: &Branch, conclusion: Option<&Claim>) {
    let own = conclusion.filter(|it| it.cell() == Some(branch.cell));
    let opposite = match own {
        Some(Claim::Filling(_)) => "a crust".to_owned(),
        Some(Claim::Crust(_)) => "filling".to_owned(),
        Some(Claim::Is(_, digit)) => format!("anything but {digit}"),
        _ => one_of(it.size, branch.digits),
    };
    let left = one_of(it.size, branch.digits);
    let is_all = left == opposite || branch.digits.len() > MOST_LEFT;
    it.say(&match own {
        _ if is_all => format!("suppose {} were {opposite}", branch.cell),
        Some(Claim::Is(_, digit)) => format!("suppose {} were not {digit} but {left}", branch.cell),
        _ => format!("suppose {} were {opposite}, which here means {left}", branch.cell),
    });
}

/// Says what follows within a case, and how it ends.
fn follow(it: &mut Telling<'_>, label: &str, branch: &Branch, mut said: Said) {
    said.insert(branch.cell, branch.digits);
    let mut chain: Vec<&Link> = Vec::new();
    for link in &branch.chain {
        let repeats = said.insert(link.cell, link.leaves) == Some(link.leaves);
        if !(repeats && link.because == Because::OneDigit) {
            chain.push(link);
        }
    }
    let links = consequences(it, &chain);
    it.prose.say_in_turn("then", "next,", &links);
    let but = if links.is_empty() { "then" } else { "but then" };
    match &branch.end {
        End::NoDigit(cell) => it.say(&format!("{but} {cell} has no digit left")),
        End::NoPlace(house, digit) => it.say(&format!("{but} {house} has no place for {digit}")),
        End::NoFit(house) => it.say(&format!("{but} the digits of {house} do not all find a place")),
        End::NoWay(clue) => it.say(&format!("{but} {} cannot be made", it.clue(*clue))),
        End::Breaks(fact) => {
            let step = it.refs.to(|it| it == fact);
            it.say(&format!("but it is known that {}{step}", in_short(it.size, fact)));
        }
        End::Split(parts) => split(it, label, parts, &said),
    }
}

/// Tells the cases within a case, and that none of them holds.
fn split(it: &mut Telling<'_>, label: &str, parts: &[Branch], said: &Said) {
    if let Some(first) = parts.first() {
        let all = parts.iter().fold(DigitSet::EMPTY, |all, part| all | part.digits);
        it.say(&format!("now {} can only be {}", first.cell, one_of(it.size, all)));
    }
    for (at, part) in parts.iter().enumerate() {
        let label = if label.is_empty() { (at + 1).to_string() } else { format!("{label}.{}", at + 1) };
        it.prose.new_line();
        it.say(&format!("case {label}"));
        suppose(it, part, None);
        follow(it, &label, part, said.clone());
    }
    it.prose.new_line();
    let fails = match parts.len() {
        1 => "that case does not hold",
        2 => "neither case holds",
        _ => "none of these cases holds",
    };
    match label {
        "" => it.say(fails),
        _ => it.say(&format!("{fails}, so case {label} fails")),
    }
}

/// The consequences in order, those in a row that one clue brings about said together.
fn consequences(it: &mut Telling<'_>, chain: &[&Link]) -> Vec<String> {
    let mut said = Vec::new();
    let joins = |it: Because| matches!(it, Because::Clue(_) | Because::Fit(_));
    for run in chain.chunk_by(|a, b| joins(a.because) && a.because == b.because) {
        match run[0].because {
            Because::Clue(clue) => {
                said.extend(brought_about(it.voice, &format!("by {}", it.clue(clue)), it.size, run))
            }
            Because::Fit(house) => {
                said.extend(brought_about(
                    it.voice,
                    &format!("to leave room for the rest of {house}"),
                    it.size,
                    run,
                ));
            }
            _ => said.extend(run.iter().map(|link| consequence(it, link))),
        }
    }
    said
}

/// What one premise brings about: `by row 4's clue of 20, r4c2 and r4c3 are each 2 or 8, and r4c5 is 9`.
fn brought_about(voice: Voice, why: &str, size: Size, run: &[&Link]) -> Vec<String> {
    let alike = run.chunk_by(|a, b| a.leaves == b.leaves);
    let each = alike.map(|it| leaves(size, it.iter().map(|link| link.cell).collect(), it[0].leaves));
    let mut parts: Vec<Vec<String>> = Vec::new();
    for it in each {
        match parts.last_mut() {
            Some(part) if voice.n_words(&part.join(" ")) + voice.n_words(&it) <= TOGETHER => part.push(it),
            _ => parts.push(vec![it]),
        }
    }
    let part = |it: &Vec<String>| match it.as_slice() {
        [before @ .., last] if !before.is_empty() => format!("{why}, {}, and {last}", before.join(", ")),
        only => format!("{why}, {}", only.concat()),
    };
    parts.iter().map(part).collect()
}

/// `r4c3 is 2 or 8`, `r4c2 and r4c3 are each 2 or 8`.
fn leaves(size: Size, of: CellSet, digits: DigitSet) -> String {
    let what = one_of(size, digits);
    match of.len() {
        1 => format!("{} is {what}", cells(of)),
        _ if what == "a crust" => format!("{} are crusts", cells(of)),
        _ if what == "filling" => format!("{} are filling", cells(of)),
        _ => format!("{} are each {what}", cells(of)),
    }
}

/// One consequence: `r4c2 is 9, the only place for 9 in row 4`.
fn consequence(it: &mut Telling<'_>, link: &Link) -> String {
    let is = leaves(it.size, [link.cell].into_iter().collect(), link.leaves);
    match (link.because, link.leaves.single()) {
        (Because::OneDigit, Some(_)) => format!("{is}, the only digit left to it"),
        (Because::OneDigit, None) => format!("{is}, all that is left to it"),
        (Because::OnePlace(house), Some(digit)) => format!("{is}, the only place for {digit} in {house}"),
        (Because::OnePlace(house), None) => format!("{is}, with no other place for it in {house}"),
        (Because::Fit(house), _) => format!("to leave room for the rest of {house}, {is}"),
        (Because::Clue(clue), _) => format!("by {}, {is}", it.clue(clue)),
        (Because::Known(fact), _) => {
            let step = it.refs.to(|it| *it == fact);
            let is_same = fact.cell() == Some(link.cell);
            match is_same && !step.is_empty() {
                false if is_same && it.voice == Voice::Spoken => format!("{is}, as we know"),
                true => format!("{is}{step}"),
                false => format!("{is}, as {}{step}", in_short(it.size, &fact)),
            }
        }
    }
}

/// The fact in words; of a spent clue only what is spoken of here, the filling.
fn in_short(size: Size, fact: &Claim) -> String {
    match fact {
        Claim::Spent { line, filling } if !filling.is_empty() => {
            format!("{line}'s filling is {}", digits(*filling))
        }
        _ => claim(size, fact),
    }
}

/// More digits than this are said by what is missing, if that is shorter.
const MOST_DIGITS: usize = 7;

/// What a cell is that holds one of the digits: `5`, `2 or 7`, `a crust`, `filling`, `anything but 5`.
fn one_of(size: Size, digits: DigitSet) -> String {
    let (one, last) = crusts(size);
    let others = size.digits() - digits;
    match others.len() {
        _ if digits == DigitSet::only(one).with(last) => "a crust".to_owned(),
        _ if digits == filling_digits(size) => "filling".to_owned(),
        1 => format!("anything but {}", either_digit(others)),
        few if digits.len() > MOST_DIGITS && few < digits.len() => {
            format!("anything but {}", either_digit(others))
        }
        _ => either_digit(digits),
    }
}
