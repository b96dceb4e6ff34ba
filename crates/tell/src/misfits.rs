//! Words for what a line has no way for: digits and crusts that leave its sum unmade, or a neighbour
//! without a way.

use grid::{Cell, CellSet, DigitSet, House};
use rulebook::{Claim, crusts, filling_digits};
use trail::Misfit;

use crate::claims::how_many_cells;
use crate::lists::{count, digits, each_of, houses, listed, within};
use crate::prose::{LONGEST, n_words};
use crate::telling::Telling;

/// Sets and places are named one by one up to this number.
const MOST_NAMED: usize = 4;

/// Says what the line demands, and for each try what would be open and what refuses it.
pub(crate) fn misfits(it: &mut Telling<'_>, line: House, cell: Cell, tries: &[Misfit], around: &[House]) {
    let refused = Refused::new(it, line, around);
    let demand = demand(it, line, around);
    it.say(&demand);
    let mut refs = it.refs.rest();
    let (one, last) = crusts(it.size);
    for tried in tries {
        let digit = tried.digits.single();
        let said = match digit {
            Some(digit) if digit == one => as_crust(cell, tried, &refused, Some((one.get(), last.get()))),
            Some(digit) if digit == last => as_crust(cell, tried, &refused, Some((last.get(), one.get()))),
            Some(digit) => as_digit(&format!("with {digit} in {cell}"), tried, &refused),
            None if (tried.digits & filling_digits(it.size)).is_empty() => {
                as_crust(cell, tried, &refused, None)
            }
            None => as_filling(cell, tried, &refused),
        };
        it.say(&said.with(&refs));
        refs.clear();
    }
}

/// `row 4's clue is 13, column 2's is 20`, `row 4 has two cells between its crusts`.
fn demand(it: &mut Telling<'_>, line: House, around: &[House]) -> String {
    let clue_of = |line: House| {
        it.cites
            .clues
            .iter()
            .filter_map(|id| it.puzzle.clue(*id))
            .find(|it| it.line == line)
            .map(|it| it.value)
    };
    let others = around.iter().filter_map(|it| Some(format!(", {it}'s is {}", clue_of(*it)?)));
    let others: String = others.collect();
    if let Some(value) = clue_of(line) {
        return format!("{line}'s clue is {value}{others}");
    }
    let of_line = |it: &Claim| match it {
        Claim::Spent { line: of, .. } | Claim::FillingCells { line: of, .. } => *of == line,
        _ => false,
    };
    let fact = it.facts_cited().find(of_line);
    let said = match fact {
        Some(Claim::Spent { filling, .. }) if filling.is_empty() => "nothing".to_owned(),
        Some(Claim::Spent { filling, .. }) => digits(filling),
        Some(Claim::FillingCells { fewest, most, .. }) => how_many_cells(it.size, fewest, most),
        _ => "its filling".to_owned(),
    };
    let others = others.replacen(", ", "; ", 1).replacen("'s is", "'s clue is", 1);
    let refs = it.refs.to(of_line);
    format!("{line} has {said} between its crusts{refs}{others}")
}

/// How the ways of a try are refused.
struct Refused {
    /// After the ways have been named.
    all_of_these: String,
    /// Where they have not.
    none: String,
    /// Whether the sum of the line counts.
    has_sum: bool,
}

impl Refused {
    fn new(it: &Telling<'_>, line: House, around: &[House]) -> Refused {
        let is_distance = |it: &Claim| matches!(it, Claim::FillingCells { line: of, .. } if *of == line);
        let has_clue = it.cites.clues.iter().filter_map(|id| it.puzzle.clue(*id)).any(|it| it.line == line);
        let has_sum = has_clue || !it.facts_cited().any(|it| is_distance(&it));
        match around {
            [] => Refused {
                all_of_these: format!("the cells of {line} do not fit that"),
                none: format!("no way to make the sum fits the cells of {line}"),
                has_sum,
            },
            _ => {
                let others = listed(&houses(&around.iter().copied().collect()), "and");
                Refused {
                    all_of_these: format!("none of that agrees with {others}"),
                    none: format!("no way to make the sum agrees with {others}"),
                    has_sum,
                }
            }
        }
    }
}

/// The cell is supposed to hold a filling digit.
fn as_digit(with: &str, tried: &Misfit, refused: &Refused) -> Said {
    let short = format!("{with}, {}", refused.none);
    match open_sets(&tried.sets) {
        Some(sets) => Said::new(
            format!("{with}, {sets} would lie between the crusts, and {}", refused.all_of_these),
            short,
        ),
        None => Said::plain(format!("{with}, no set of digits makes it")),
    }
}

/// The cell is supposed to be a crust; if it is known which, that one and the other.
fn as_crust(cell: Cell, tried: &Misfit, refused: &Refused, which: Option<(u8, u8)>) -> Said {
    let (with, other) = match which {
        Some((this, other)) => (format!("with {this} in {cell}"), format!("the {other}")),
        None => (format!("with a crust in {cell}"), "the other crust".to_owned()),
    };
    let ends = tried.pairs.iter().flat_map(|(a, b)| [*a, *b]);
    let mates: CellSet = ends.filter(|it| *it != cell).collect();
    let no_place = format!("{with}, {other} has no place at the right distance");
    match (mates.is_empty(), refused.has_sum) {
        (true, true) => Said::plain(format!("{with}, {other} has no place that leaves room for the sum")),
        (true, false) => Said::plain(no_place),
        (false, false) => {
            Said::new(format!("{with}, {other} would be {}, and cannot be there", within(mates)), no_place)
        }
        (false, true) => {
            let between = open_sets(&tried.sets).unwrap_or_else(|| "nothing".to_owned());
            let where_is = within(mates);
            let full = format!(
                "{with}, {other} would be {where_is} with {between} between, and {}",
                refused.all_of_these
            );
            Said::new(full, format!("{with}, {}", refused.none))
        }
    }
}

/// The cell is supposed to be no crust.
fn as_filling(cell: Cell, tried: &Misfit, refused: &Refused) -> Said {
    let without = format!("without a crust in {cell}");
    if !refused.has_sum {
        return Said::plain(format!("{without}, the crusts have no places at the right distance"));
    }
    let short = format!("{without}, {}", refused.none);
    let pairs: Vec<String> = tried.pairs.iter().map(|(a, b)| format!("{a} with {b}")).collect();
    match pairs.len() {
        1..=MOST_NAMED => {
            let pairs = listed(&pairs, "or");
            Said::new(format!("{without}, the crusts would be {pairs}, and {}", refused.all_of_these), short)
        }
        _ => Said::plain(short),
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
