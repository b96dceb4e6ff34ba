//! Words for what a line has no way for: digits and crusts that leave its sum unmade.

use grid::{Cell, CellSet, DigitSet, House};
use rulebook::{Claim, crusts, filling_digits};
use trail::Misfit;

use crate::claims::how_many_cells;
use crate::lists::{count, digits, each_of, listed, within};
use crate::prose::{LONGEST, n_words};
use crate::telling::Telling;

/// Sets and places are named one by one up to this number.
const MOST_NAMED: usize = 4;

/// Says what the line demands, and for each try what would be open and that the cells refuse it.
pub(crate) fn misfits(it: &mut Telling<'_>, line: House, cell: Cell, tries: &[Misfit]) {
    let (demand, has_sum) = demand(it, line);
    it.say(&demand);
    let refs = it.refs.rest();
    for (at, tried) in tries.iter().enumerate() {
        let refs = if at == 0 { refs.as_str() } else { "" };
        let filling = filling_digits(it.size);
        let said = if (tried.digits & filling).is_empty() {
            as_crust(it, cell, tried, has_sum)
        } else {
            match tried.digits.single() {
                Some(digit) => {
                    let with = format!("with {digit} in {cell}");
                    match open_sets(&tried.sets) {
                        Some(sets) => Said::new(
                            format!(
                                "{with}, {sets} would lie between the crusts, and the cells of {line} do not fit that"
                            ),
                            format!("{with}, the cells of {line} fit no set of digits that makes it"),
                        ),
                        None => Said::plain(format!("{with}, no set of digits makes it")),
                    }
                }
                None => as_filling(line, cell, tried, has_sum),
            }
        };
        it.say(&said.with(refs));
    }
}

/// `row 4's clue is 13`, `row 4 has two cells between its crusts`; and whether sums count.
fn demand(it: &mut Telling<'_>, line: House) -> (String, bool) {
    let clue = it.cites.clues.iter().filter_map(|id| it.puzzle.clue(*id)).find(|it| it.line == line);
    if let Some(clue) = clue {
        return (format!("{line}'s clue is {}", clue.value), true);
    }
    let of_line = |it: &Claim| match it {
        Claim::Spent { line: of, .. } | Claim::FillingCells { line: of, .. } => *of == line,
        _ => false,
    };
    let fact = it.facts_cited().find(of_line);
    let refs = it.refs.to(of_line);
    match fact {
        Some(Claim::Spent { filling, .. }) if filling.is_empty() => {
            (format!("{line} has nothing between its crusts{refs}"), true)
        }
        Some(Claim::Spent { filling, .. }) => {
            (format!("{line} has {} between its crusts{refs}", digits(filling)), true)
        }
        Some(Claim::FillingCells { fewest, most, .. }) => {
            (format!("{line} has {} between its crusts{refs}", how_many_cells(it.size, fewest, most)), false)
        }
        _ => (format!("look at the crusts of {line}"), false),
    }
}

/// The cell is supposed to be a crust, or one of the two.
fn as_crust(it: &Telling<'_>, cell: Cell, tried: &Misfit, has_sum: bool) -> Said {
    let (one, last) = crusts(it.size);
    let (lead, other) = match tried.digits.single() {
        Some(digit) => {
            (format!("with {digit} in {cell}"), format!("the {}", if digit == one { last } else { one }))
        }
        None => (format!("with a crust in {cell}"), "the other crust".to_owned()),
    };
    let partners: CellSet =
        tried.pairs.iter().map(|(a, b)| if *a == cell { *b } else { *a }).filter(|it| *it != cell).collect();
    match (partners.is_empty(), has_sum) {
        (true, true) => Said::plain(format!("{lead}, {other} has no place that leaves room for the sum")),
        (true, false) => Said::plain(format!("{lead}, {other} has no place at the right distance")),
        (false, false) => Said::new(
            format!("{lead}, {other} would be {}, and cannot be there", within(partners)),
            format!("{lead}, {other} has no place at the right distance"),
        ),
        (false, true) => {
            let sets = open_sets(&tried.sets).unwrap_or_else(|| "no set of digits".to_owned());
            Said::new(
                format!(
                    "{lead}, {other} would be {} with {sets} between, and the cells do not fit that",
                    within(partners)
                ),
                format!("{lead}, no place for {other} lets the cells make the sum"),
            )
        }
    }
}

/// The cell is supposed to be no crust.
fn as_filling(line: House, cell: Cell, tried: &Misfit, has_sum: bool) -> Said {
    let lead = format!("without a crust in {cell}");
    if !has_sum {
        return Said::plain(format!("{lead}, the crusts of {line} have no places at the right distance"));
    }
    let plain = format!("{lead}, no places for the crusts let the cells of {line} make the sum");
    let pairs: Vec<String> = tried.pairs.iter().map(|(a, b)| format!("{a} with {b}")).collect();
    match pairs.len() {
        1..=MOST_NAMED => Said::new(
            format!(
                "{lead}, the crusts would be {}, and the cells do not make the sum there",
                listed(&pairs, "or")
            ),
            plain,
        ),
        _ => Said::plain(plain),
    }
}

/// `2 + 8 or 4 + 6`, `nothing`, `one of nine sets of digits`; none if there is no set.
fn open_sets(sets: &[DigitSet]) -> Option<String> {
    let each: Vec<String> = sets.iter().map(|it| each_of(*it).join(" + ")).collect();
    match sets {
        [] => None,
        [only] if only.is_empty() => Some("nothing".to_owned()),
        few if few.len() <= MOST_NAMED => Some(listed(&each, "or")),
        many => Some(format!("one of {} sets of digits", count(many.len()))),
    }
}

/// A sentence, and a shorter one to take if it grows too long.
struct Said {
    full: String,
    short: String,
}

impl Said {
    fn new(full: String, short: String) -> Said {
        Said { full, short }
    }

    fn plain(only: String) -> Said {
        Said { short: only.clone(), full: only }
    }

    fn with(&self, refs: &str) -> String {
        let full = format!("{}{refs}", self.full);
        if n_words(&full) <= LONGEST { full } else { format!("{}{refs}", self.short) }
    }
}
