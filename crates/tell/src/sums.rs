//! Words for sums: which digits lie between the crusts and which outside.

use grid::{Cell, CellSet, Digit, DigitSet, House};
use rulebook::{Claim, ClueId, filling_digits, filling_sets, filling_total};
use trail::{Side, StepId};

use crate::Voice;
use crate::claims::how_many_cells;
use crate::earlier;
use crate::lists::{cells, count, digits, each_of, either_digit, listed, within};
use crate::prose::LONGEST;
use crate::telling::Telling;

/// Sets are listed up to this number, then counted. Every sum of a 9x9 line has fewer.
const MOST_SETS: usize = 8;

/// A sum in full, `7 + 8 = 15`; a single digit is just said.
pub(crate) fn sum_of(set: DigitSet) -> String {
    match set.len() {
        0 | 1 => set.sum().to_string(),
        _ => format!("{} = {}", added(set), set.sum()),
    }
}

/// `7 + 8`.
pub(crate) fn added(set: DigitSet) -> String {
    if set.is_empty() { "nothing".to_owned() } else { each_of(set).join(" + ") }
}

/// `between the crusts`, `outside the crusts`.
fn where_is(side: Side) -> &'static str {
    match side {
        Side::Between => "between the crusts",
        Side::Outside => "outside the crusts",
    }
}

fn other(side: Side) -> Side {
    match side {
        Side::Between => Side::Outside,
        Side::Outside => Side::Between,
    }
}

/// `the filling digits of row 4 add up to 35, so 35 − 29 = 6 is left outside the crusts`.
fn left_outside(it: &mut Telling<'_>, clue: ClueId, line: House, sum: u16) -> String {
    let total = filling_total(it.size);
    if let Some(before) = earlier::sum_outside(it, clue) {
        it.refs.note(before);
        let before = earlier::named(it.voice, before);
        return format!("{sum} is left outside the crusts of {line}{before}");
    }
    let is_known = earlier::total(it);
    let value = it.puzzle.clue(clue).map_or(total.saturating_sub(sum), |it| it.value);
    let is_spoken = it.voice == Voice::Spoken;
    match is_known || it.voice == Voice::Screen {
        true if is_spoken => format!("outside the crusts of {line}, {total} − {value} leaves {sum}"),
        true => format!("outside the crusts of {line}, {total} − {value} = {sum} is left"),
        false if is_spoken => format!(
            "the filling digits of {line} add up to {total}, and {total} − {value} leaves {sum} outside the crusts"
        ),
        false => format!(
            "the filling digits of {line} add up to {total}, so {total} − {value} = {sum} is left outside the \
             crusts"
        ),
    }
}

/// Says what the side adds up to, which sets make that and which do not, and what all or none hold.
pub(crate) fn sets(
    it: &mut Telling<'_>,
    clue: ClueId,
    line: House,
    side: Side,
    sum: u16,
    sets: &[DigitSet],
    excluded: &[(DigitSet, Digit)],
) {
    if let Some((step, listed)) = earlier::sets(it, clue, side, sets) {
        let gone: Vec<_> = excluded.iter().filter(|it| listed.contains(&it.0)).copied().collect();
        same_sets(it, line, side, sum, step, gone.is_empty());
        if !gone.is_empty() {
            which_sets(it, line, side, sets, &gone);
        }
    } else {
        all_sets(it, clue, line, side, sum, sets, excluded);
    }
    if sets.len() > 1 {
        all_or_none(it, side, sets);
    }
}

/// Says that the sum has the sets which a step near by has listed.
fn same_sets(it: &mut Telling<'_>, line: House, side: Side, sum: u16, step: StepId, is_all: bool) {
    let cited = it.trail.cites_of(step).facts;
    it.refs.leave_out(&cited.into_iter().map(|fact| it.trail.fact(fact).claim()).collect::<Vec<_>>());
    let refs = if is_all { it.refs.rest() } else { String::new() };
    let what = match side {
        Side::Between => format!("{line}'s clue of {sum}"),
        Side::Outside => format!("the {sum} outside the crusts of {line}"),
    };
    match it.voice {
        Voice::Spoken => it.say(&format!("{what} still has the same sets as before")),
        _ => it.say(&format!("{what} has the sets of step {}{refs}", step.number())),
    }
}

/// Says what the side adds up to, which sets make that and which do not.
fn all_sets(
    it: &mut Telling<'_>,
    clue: ClueId,
    line: House,
    side: Side,
    sum: u16,
    sets: &[DigitSet],
    excluded: &[(DigitSet, Digit)],
) {
    let made_in = cells_of_sets(it, sum, sets, excluded);
    match side {
        Side::Between if made_in.is_empty() => it.say(&format!("{line}'s clue is {sum}")),
        Side::Between => it.say(&format!("{line}'s clue of {sum} has to be made{made_in}")),
        Side::Outside => {
            let left = left_outside(it, clue, line, sum);
            it.say(&format!("{left}{made_in}"));
        }
    }
    which_sets(it, line, side, sets, excluded);
}

/// Says which sets fail and which are left.
fn which_sets(
    it: &mut Telling<'_>,
    line: House,
    side: Side,
    sets: &[DigitSet],
    excluded: &[(DigitSet, Digit)],
) {
    let mut parts = fails(it, line, side, excluded);
    let refs = it.refs.rest();
    let alone = |set: &DigitSet| if set.len() == 1 && sets.len() > 1 { " alone" } else { "" };
    let mut each: Vec<String> = sets.iter().map(|it| format!("{}{}", added(*it), alone(it))).collect();
    match each.as_mut_slice() {
        [] => {}
        [_] if sets[0].is_empty() => parts.push(format!("no filling digit lies {}{refs}", where_is(side))),
        [only] => parts.push(format!("only {only} will do{refs}")),
        [.., last] if sets.len() <= MOST_SETS => {
            last.push_str(&refs);
            let left = listed(&each, "or");
            let lead = if parts.is_empty() { "it can be" } else { "that leaves" };
            if it.voice.n_words(&left) > LONGEST / 2 {
                it.prose.say_in_turn("", "", &parts);
                it.prose.say_list("it can be", "it can also be", &each, "or");
                return;
            }
            parts.push(format!("{lead} {left}"));
        }
        _ => parts.push(format!("it can be made by {} sets of digits{refs}", count(sets.len()))),
    }
    it.prose.say_in_turn("", "", &parts);
}

/// ` in two cells (step 3)`, if sets with other numbers of digits make the sum too; else nothing.
fn cells_of_sets(
    it: &mut Telling<'_>,
    sum: u16,
    sets: &[DigitSet],
    excluded: &[(DigitSet, Digit)],
) -> String {
    let looked_at = || sets.iter().chain(excluded.iter().map(|it| &it.0)).map(|it| it.len());
    let all = filling_sets(it.size, sum);
    let (Some(fewest), Some(most)) = (looked_at().min(), looked_at().max()) else { return String::new() };
    match all.iter().all(|it| (fewest..=most).contains(&it.len())) {
        true => String::new(),
        false => {
            let refs = it.refs.to(|it| matches!(it, Claim::FillingCells { .. }));
            format!(" in {}{refs}", how_many_cells(it.size, fewest as u8, most as u8))
        }
    }
}

/// The excluded sets with what shows it: `the 3 at r2c4 leaves 3 no place between, which rules out 3 + 8`.
fn fails(it: &mut Telling<'_>, line: House, side: Side, excluded: &[(DigitSet, Digit)]) -> Vec<String> {
    let place = |side| if side == Side::Between { "between" } else { "outside" };
    if excluded.len() > MOST_SETS {
        return vec![format!(
            "of its sets {} fail, as each holds a digit that cannot lie {1} or lacks one that must lie {1}",
            count(excluded.len()),
            place(side)
        )];
    }
    let on_line: CellSet = it.size.cells_of(line).into_iter().collect();
    let mut groups: Vec<(Digit, bool, Vec<DigitSet>)> = Vec::new();
    for (set, digit) in excluded {
        let contains = set.contains(*digit);
        match groups.iter_mut().find(|it| (it.0, it.1) == (*digit, contains)) {
            Some((.., sets)) => sets.push(*set),
            None => groups.push((*digit, contains, vec![*set])),
        }
    }
    let mut said = Vec::new();
    for (digit, contains, sets) in groups {
        // A set that holds the digit fails where it lies elsewhere; one that lacks it, where it lies here.
        let (here, there) = if contains { (other(side), side) } else { (side, other(side)) };
        let seen = it.places_of(digit);
        let why = match ((seen & on_line).first(), seen.len()) {
            (Some(at), _) => format!("{digit} lies {}, at {at}", place(here)),
            (None, 0) if contains => format!("{digit} cannot lie {}", place(there)),
            (None, 0) => format!("{digit} must lie {}", place(here)),
            (None, 1) => format!("the {digit} at {} leaves {digit} no place {}", cells(seen), place(there)),
            (None, 2 | 3) => {
                format!("the {digit}s at {} leave {digit} no place {}", cells(seen), place(there))
            }
            (None, _) => format!("the {digit}s on the board leave {digit} no place {}", place(there)),
        };
        let refs = it.refs.to(|it| matches!(it, Claim::IsNot(_, gone) if *gone == digit));
        said.push(match sets.as_slice() {
            [only] if *only == DigitSet::only(digit) => format!("{why}{refs}"),
            _ => {
                let each: Vec<String> = sets.iter().map(|it| added(*it)).collect();
                let rules_out = |which: &str| format!("{why}{refs}, which rules out {which}");
                let named = rules_out(&listed(&each, "and"));
                if it.prose.fits(&named) { named } else { rules_out(&format!("{} sets", count(sets.len()))) }
            }
        });
    }
    said
}

/// Of the digits the conclusions speak of: which all sets hold and which none does, and on which side of the
/// crusts that keeps them.
fn all_or_none(it: &mut Telling<'_>, side: Side, sets: &[DigitSet]) {
    let used = sets.iter().fold(DigitSet::EMPTY, |all, set| all | *set);
    let common = sets.iter().fold(used, |all, set| all & *set);
    let unused = filling_digits(it.size) - used;
    let mut found = Vec::new();
    for (all, each) in [(true, common), (false, unused)] {
        let here = if all { side } else { other(side) };
        let who = |set: DigitSet| match all {
            true => format!("all of these use {}", digits(set)),
            false => format!("none of these uses {}", either_digit(set)),
        };
        let meant = each & (it.digits_placed() | it.digits_removed());
        if !meant.is_empty() {
            let them = if meant.len() == 1 { "it" } else { "them" };
            found.push(format!("{}, which keeps {them} {}", who(meant), where_is(here)));
        }
    }
    it.prose.say_in_turn("", "", &found);
}

pub(crate) fn spent_splits(
    it: &mut Telling<'_>,
    line: House,
    filling: DigitSet,
    between: CellSet,
    outside: CellSet,
) {
    let spent = it.refs.to(|it| matches!(it, Claim::Spent { .. }));
    let was_just_found =
        earlier::just_found(it, |it| matches!(it, Claim::Spent { line: of, .. } if *of == line));
    let rest = filling_digits(it.size) - filling;
    it.say(&match (filling.is_empty(), rest.is_empty()) {
        (true, _) => {
            format!("{line} has nothing between its crusts{spent}, so all its filling digits lie outside")
        }
        (_, true) => format!("{line} has all its filling digits between its crusts{spent}"),
        _ if was_just_found => {
            format!("{line}'s clue is spent{spent}, so {} must lie outside", digits(rest))
        }
        _ => format!("{line}'s filling is {}{spent}, so {} must lie outside", digits(filling), digits(rest)),
    });
    let meant = it.concluded_cells();
    // Where both are known already, nobody wonders where they are.
    let on_line: CellSet = it.size.cells_of(line).into_iter().collect();
    let are_known = (it.kinds_by_then().0 & on_line).len() == 2;
    let mut parts = Vec::new();
    for (cells_there, place) in [(between & meant, Side::Between), (outside & meant, Side::Outside)] {
        if !cells_there.is_empty() {
            let verb = if cells_there.len() == 1 { "lies" } else { "lie" };
            let place = match place {
                Side::Between if are_known => "between the crusts",
                Side::Between => "between them",
                Side::Outside => "outside",
            };
            parts.push(format!("{} {verb} {place}", cells(cells_there)));
        }
    }
    if !parts.is_empty() {
        let refs = it.refs.rest();
        it.say(&match are_known {
            true => format!("{}{refs}", parts.join(", and ")),
            false => format!("wherever the crusts are{refs}, {}", parts.join(", and ")),
        });
    }
}

pub(crate) fn side_holds(it: &mut Telling<'_>, line: House, side: Side, digit: Digit, places: CellSet) {
    let is_spent = it.refs.has(|it| matches!(it, Claim::Spent { .. }));
    let spent = it.refs.to(|it| matches!(it, Claim::Spent { .. }));
    let clue = it.cites.clues.iter().filter_map(|id| it.puzzle.clue(*id)).find(|it| it.line == line);
    match (!is_spent, clue.map(|it| it.value)) {
        (true, Some(value)) => it.say(&format!(
            "every way left to make {line}'s clue of {value} has its {digit} {}",
            where_is(side)
        )),
        _ => it.say(&format!("the {digit} of {line} lies {}{spent}", where_is(side))),
    }
    let refs = it.refs.rest();
    let can = match places.len() {
        1 => format!("only {} can hold it there", cells(places)),
        _ => format!("the cells there that can hold it are {}", cells(places)),
    };
    it.say(&format!("{can}{refs}"));
}

pub(crate) fn held_acts(it: &mut Telling<'_>, line: House, digit: Digit, places: CellSet) {
    let refs = it.refs.rest();
    it.say(&format!("the {digit} of {line} is {}{refs}", within(places)));
    let sees = match places.len() {
        1 => "it",
        2 => "both",
        _ => "all of these",
    };
    it.explain(&format!("another cell that sees {sees} cannot be {digit}"));
}

pub(crate) fn remainder(
    it: &mut Telling<'_>,
    clue: ClueId,
    line: House,
    side: Side,
    sum: u16,
    placed: DigitSet,
    cell: Cell,
) {
    let refs = it.refs.rest();
    if it.voice == Voice::Screen && !placed.is_empty() {
        let rest = sum.saturating_sub(placed.sum());
        let sum_of_rest = format!("{sum} − {} = {rest}", placed.sum());
        if side == Side::Outside {
            let left = left_outside(it, clue, line, sum);
            it.say(&left);
        }
        let lead = if side == Side::Between { format!("{line}: ") } else { String::new() };
        let placed = if placed.len() > 1 { format!("{}; ", sum_of(placed)) } else { String::new() };
        return it
            .say(&format!("{lead}{placed}{sum_of_rest} is left for {cell}, alone {}{refs}", where_is(side)));
    }
    match side {
        Side::Between => {
            it.say(&format!(
                "{line}'s clue is {sum}, and only {cell} is still empty between the crusts{refs}"
            ));
        }
        Side::Outside => {
            let left = left_outside(it, clue, line, sum);
            it.say(&left);
            it.say(&format!("only {cell} is still empty there{refs}"));
        }
    }
    let rest = sum.saturating_sub(placed.sum());
    match placed.len() {
        0 => it.say(&format!("it takes the whole {sum}")),
        1 => {
            it.say(&format!("the other one holds {}, and {sum} − {} = {rest}", sum_of(placed), placed.sum()))
        }
        _ => it.say(&format!("the others hold {}, and {sum} − {} = {rest}", sum_of(placed), placed.sum())),
    }
}
