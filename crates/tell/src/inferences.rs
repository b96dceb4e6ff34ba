//! Words for chains: what is supposed, each link with its reason, and where it ends.

use grid::{Cell, DigitSet, House, Size};
use rulebook::Claim;
use trail::{Follows, Inference, Stated};

use crate::lists::{cells, digits, either_cell};
use crate::prose::{LONGEST, n_words};
use crate::telling::Telling;

/// Says the chain link by link. A link by which something is not so is told with the next, to which it
/// leads.
pub(crate) fn chain(it: &mut Telling<'_>, start: Stated, links: &[Inference]) {
    it.say(&format!("suppose {}", stated(start)));
    let mut before = start;
    let mut clauses: Vec<String> = Vec::new();
    let mut n_told = 0;
    for (at, link) in links.iter().enumerate() {
        let refs = refs(it, before, link);
        clauses.push(format!("{}{refs}", clause(it, before, link)));
        before = link.then;
        if link.then.holds || at + 1 == links.len() || clauses.len() == 2 {
            n_told += 1;
            it.say(&format!("link {n_told}"));
            let joined = clauses.join(", so ");
            match n_words(&joined) <= LONGEST {
                true => it.say(&joined),
                false => clauses.iter().for_each(|clause| it.say(clause)),
            }
            clauses.clear();
        }
    }
    match before == start.opposite() {
        true => it.say("that contradicts what was supposed"),
        false => it.say(&one_of_two(start.opposite(), before)),
    }
}

/// What a link says, with its reason.
fn clause(it: &Telling<'_>, from: Stated, link: &Inference) -> String {
    let then = link.then;
    let said = stated(then);
    match link.because {
        Follows::Cell if then.holds => match then.digits.single() {
            Some(_) if from.digits.len() > 1 => format!("{said}, the only filling digit left to it"),
            Some(_) => format!("{said}, the only digit left to it"),
            None => format!("{said}, as no other digit is left to it"),
        },
        Follows::Cell => said,
        Follows::House(house) => match (then.holds, then.digits.single()) {
            (true, Some(digit)) => format!("the {digit} of {house} is in {}", either_cell(then.cells)),
            (false, Some(_)) => format!("{said}, as {house} has it in {}", either_cell(from.cells)),
            (_, None) => said,
        },
        Follows::Clue(clue) => format!("by {}, {said}", it.clue(clue)),
        Follows::Known(claim) => match claim {
            Claim::Spent { line, filling } if filling.is_empty() => {
                format!("{said}, with nothing between the crusts of {line}")
            }
            Claim::Spent { line, filling } => {
                format!("{said}, with {} between the crusts of {line}", digits(filling))
            }
            _ => said,
        },
    }
}

/// References to the steps that leave a link its digits.
fn refs(it: &mut Telling<'_>, from: Stated, link: &Inference) -> String {
    let size = it.size;
    let lacks = |claim: &Claim, cell: &dyn Fn(Cell) -> bool, digits: DigitSet| {
        claim.leaves(size).is_some_and(|(at, leaves)| cell(at) && !digits.is_subset(leaves))
    };
    match link.because {
        Follows::Cell if link.then.holds => it.refs.to(|it| {
            lacks(it, &|at| link.then.cells.contains(at), size.digits() - (from.digits | link.then.digits))
        }),
        Follows::House(house) if link.then.holds => {
            let others = size.cells_of(house);
            let is_other =
                |at: Cell| others.contains(&at) && !link.then.cells.contains(at) && !from.cells.contains(at);
            it.refs.to(|it| lacks(it, &is_other, link.then.digits))
        }
        Follows::Cell | Follows::House(_) => String::new(),
        Follows::Clue(clue) => match it.puzzle.clue(clue).map(|it| it.line) {
            Some(line) => refs_to_line(it, size, line),
            None => String::new(),
        },
        Follows::Known(claim) => {
            let line = claim.house();
            let of_line = line.map(|it| size.cells_of(it)).unwrap_or_default();
            it.refs.to(|it| *it == claim || it.leaves(size).is_some_and(|it| of_line.contains(&it.0)))
        }
    }
}

fn refs_to_line(it: &mut Telling<'_>, size: Size, line: House) -> String {
    let of_line = size.cells_of(line);
    it.refs.to(|it| it.leaves(size).is_some_and(|it| of_line.contains(&it.0)))
}

/// Either the one or the other is so, and what follows from both.
fn one_of_two(a: Stated, b: Stated) -> String {
    let in_one_cell = a.cells.len() == 1 && b.cells.len() == 1;
    match a.digits.single().filter(|_| a.digits == b.digits) {
        Some(digit) if in_one_cell => {
            format!("one of {} is {digit}, and a cell that sees both is not", cells(a.cells | b.cells))
        }
        Some(digit) => format!(
            "either way {digit} is in {}, and a cell that sees all of these is not {digit}",
            either_cell(a.cells | b.cells)
        ),
        None => format!("either {}, or {}; both lead to the same", stated(a), stated(b)),
    }
}

/// `r4c7 is not 5`, `r4c7 is a crust`, `5 is in r4c7 or r4c8`.
fn stated(it: Stated) -> String {
    let one_cell = it.cells.first().filter(|_| it.cells.len() == 1);
    match (one_cell, it.digits.single(), it.holds) {
        (Some(cell), Some(digit), true) => format!("{cell} is {digit}"),
        (Some(cell), Some(digit), false) => format!("{cell} is not {digit}"),
        (Some(cell), None, true) => format!("{cell} is a crust"),
        (Some(cell), None, false) => format!("{cell} is filling"),
        (None, _, true) => format!("{} is in {}", digits(it.digits), either_cell(it.cells)),
        (None, _, false) => match it.cells.iter().collect::<Vec<_>>()[..] {
            [a, b] => format!("{} is in neither {a} nor {b}", digits(it.digits)),
            _ => format!("{} is in none of {}", digits(it.digits), cells(it.cells)),
        },
    }
}
