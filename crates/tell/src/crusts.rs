//! Words for where crusts are and are not.

use grid::{Cell, CellSet, Digit, DigitSet, House, HouseKind, Size};
use rulebook::{Claim, crusts, filling_digits};
use trail::StepId;

use crate::Voice;
use crate::claims::how_many_cells;
use crate::earlier;
use crate::lists::{cells, count, digits, either_cell, listed, within};
use crate::sums::sum_of;
use crate::telling::{Telling, kind};

/// Pairs of places are named one by one up to this number.
const MOST_PAIRS: usize = 4;
/// Cells are named beside their common reason up to this number.
const MOST_CELLS: usize = 6;

pub(crate) fn sees_both(it: &mut Telling<'_>, among: CellSet) {
    let (one, last) = crusts(it.size);
    let meant = among & it.concluded_cells();
    match (meant.first(), meant.len()) {
        (Some(cell), 1) => {
            let why = match [one, last].map(|digit| seen_at(it, cell, digit)) {
                [Some(a), Some(b)] => format!("it sees the {one} at {a} and the {last} at {b}"),
                _ => format!("{}, and {}", why_not(it, cell, one), why_not(it, cell, last)),
            };
            it.say(&format!("{cell} can be neither crust: {why}"));
        }
        (_, few) => {
            let who = match few <= MOST_CELLS {
                true => format!("{} each", cells(meant)),
                false => "several cells".to_owned(),
            };
            let sees_all = !it.refs.has(|_| true);
            let refs = it.refs.rest();
            let known = match sees_all {
                true => String::new(),
                false => format!(", or are known not to be one of them{refs}"),
            };
            it.say(&format!("{who} see a {one} and a {last}{known}"));
        }
    }
}

/// `it sees the 1 at r4c2`, or that the cell is known not to be that digit.
fn why_not(it: &mut Telling<'_>, cell: Cell, digit: Digit) -> String {
    match seen_at(it, cell, digit) {
        Some(at) => format!("it sees the {digit} at {at}"),
        None => {
            let refs = it.refs.to(|it| *it == Claim::IsNot(cell, digit));
            format!("{digit} is ruled out{refs}")
        }
    }
}

/// Where the cell sees the digit.
fn seen_at(it: &Telling<'_>, cell: Cell, digit: Digit) -> Option<Cell> {
    (it.places_of(digit) & it.size.peers(cell)).first()
}

pub(crate) fn found(it: &mut Telling<'_>, house: House, known: CellSet) {
    let refs = it.refs.rest();
    it.say(&format!("the two crusts of {house} are known{refs}: {}", cells(known)));
}

pub(crate) fn places(it: &mut Telling<'_>, house: House, open: CellSet) {
    let refs = it.refs.rest();
    it.say(&format!(
        "{house} needs two crusts, and only {} can still be crusts; its other cells are filling{refs}",
        cells(open)
    ));
}

pub(crate) fn held(it: &mut Telling<'_>, into: House, line: House, known: Cell, open: CellSet) {
    let of_known = it.refs.to(|it| it.cell() == Some(known));
    let of_line = it.refs.rest();
    it.say(&format!(
        "one crust of {into} is {known}{of_known}, and {line} has a crust {}{of_line}, inside {into} too",
        within(open)
    ));
    it.explain(&format!("that makes two, so the rest of {into} has no crust"));
}

pub(crate) fn confined(it: &mut Telling<'_>, of: House, into: House) {
    let inside: CellSet = it.size.cells_of(into).into_iter().collect();
    // What is cited leaves no other place; more may have been known when the step was found.
    let away: CellSet = it.size.cells_of(of).into_iter().filter(|it| !inside.contains(*it)).collect();
    let refs = it.refs.rest();
    it.say(&format!("{} are filling{refs}, so both crusts of {of} lie in {into} too", cells(away)));
    it.explain(&format!("these are the two crusts of {into}, and the rest of it has none"));
}

pub(crate) fn among(it: &mut Telling<'_>, of: House, into: House) {
    let refs = it.refs.rest();
    it.say(&format!("{of} has two crusts, and they cannot both lie outside {into}{refs}"));
}

pub(crate) fn shared(it: &mut Telling<'_>, into: House, parts: [CellSet; 2]) {
    let [first, second] = parts.map(|part| {
        let refs = it.refs.to(|it| match it {
            Claim::CrustAmong { cells, .. } => *cells == part,
            other => other.cell().is_some_and(|it| part.contains(it)),
        });
        format!("{}{refs}", within(part))
    });
    it.say(&format!("{into} has a crust {first} and another {second}"));
    it.say("that makes two, so the rest of it has none");
}

pub(crate) fn in_turn(it: &mut Telling<'_>, kinds: [CellSet; 2], refused: Option<(House, Digit)>) {
    let (one, last) = crusts(it.size);
    let refs = it.refs.rest();
    let known = format!("of two crusts in a house one is {one} and one is {last}");
    let [first, second] = kinds.map(cells);
    let hold = if kinds[0].len() == 1 { "holds" } else { "hold" };
    let full = format!("{known}, so {first} {hold} one of them and {second} the other{refs}");
    let short = format!("{known}, so along crusts that share houses they take turns{refs}");
    it.say(if it.prose.fits(&full) { &full } else { &short });
    match refused {
        Some((house, digit)) => {
            let other = if digit == one { last } else { one };
            let supposed = format!("with {digit} in {first} and {other} in {second}");
            let full = format!("{supposed}, {house} has no place for {digit}");
            let short = format!("with {digit} in {first}, {house} has no place for {digit}");
            it.say(if it.prose.fits(&full) { &full } else { &short });
        }
        None => {
            let seeing = it.concluded_filling();
            let see = if seeing.len() == 1 { "sees" } else { "see" };
            it.say(&format!("{} {see} both kinds", cells(seeing)));
        }
    }
}

pub(crate) fn touch(it: &mut Telling<'_>, line: House) {
    let (one, last) = crusts(it.size);
    it.say(&format!(
        "{line}'s clue is 0, less than any filling digit: its {one} and its {last} stand side by side"
    ));
    if !(it.concluded_filling() | it.concluded_crusts()).is_empty() {
        let refs = it.refs.rest();
        it.say(&format!("each needs a neighbour in the {} that can be the other{refs}", kind(line)));
    }
}

pub(crate) fn at_ends(it: &mut Telling<'_>, line: House, sum: u16) {
    if let Some((step, true)) = earlier::same_value(it) {
        return it.say(&same_value(it.voice, line, sum, step));
    }
    let all = filling_digits(it.size);
    it.say(&match it.voice {
        Voice::Booklet => format!("{line}'s clue is {sum}, the sum of all filling digits: {}", sum_of(all)),
        Voice::Spoken => {
            format!("{line}'s clue is {sum}, and {} make just that, all filling digits", digits(all))
        }
        Voice::Screen => format!("{line}'s clue is all filling digits: {}", sum_of(all)),
    });
    it.explain("none is left for outside, which puts the crusts at the two ends");
}

pub(crate) fn distance(
    it: &mut Telling<'_>,
    line: House,
    sum: u16,
    (fewest, _): (u8, u8),
    short: DigitSet,
    over: DigitSet,
) {
    if let Some((step, is_same_sum)) = earlier::same_value(it) {
        let refs = it.refs.rest();
        if !is_same_sum {
            return it.say(&format!("{}{refs}", same_bounds(it.voice, line, sum, step, [short, over])));
        }
        return it.say(&format!("{}{refs}", same_value(it.voice, line, sum, step)));
    }
    let mut bounds = Vec::new();
    if !short.is_empty() {
        bounds.push(bound(it.voice, short, sum));
    } else if fewest == 1 && over.is_empty() {
        bounds.push("no cell at all would make 0, which is too little".to_owned());
    }
    if !over.is_empty() {
        bounds.push(bound(it.voice, over, sum));
    }
    let refs = it.refs.rest();
    let look = format!("{line}'s clue is {sum}{refs}");
    match bounds.as_slice() {
        [first, rest @ ..] if it.voice != Voice::Spoken => {
            it.say(&format!("{look}: {first}"));
            rest.iter().for_each(|bound| it.say(bound));
        }
        all => {
            it.say(&look);
            all.iter().for_each(|bound| it.say(bound));
        }
    }
}

/// That another clue of the same value has been worked out.
fn same_value(voice: Voice, line: House, sum: u16, step: StepId) -> String {
    match voice {
        Voice::Spoken => format!("{line}'s clue is {sum} again, which works out the same"),
        _ => format!("{line}'s clue is {sum} again, as in step {}", step.number()),
    }
}

/// That another clue, somewhat larger or smaller, has been worked out with the same digits.
fn same_bounds(voice: Voice, line: House, sum: u16, step: StepId, [short, over]: [DigitSet; 2]) -> String {
    let of = |set: DigitSet, what: &str| (!set.is_empty()).then(|| format!("{} {what}", hold(set.len())));
    let bounds = [of(short, "too little"), of(over, "too much")].into_iter().flatten().collect::<Vec<_>>();
    let as_before = match voice {
        Voice::Spoken => "as before".to_owned(),
        _ => format!("as in step {}", step.number()),
    };
    format!("{line}'s clue is {sum}: {as_before}, {}", bounds.join(" and "))
}

/// That the digits fall short of the sum or exceed it: so many cells hold no more, or no less.
fn bound(voice: Voice, set: DigitSet, sum: u16) -> String {
    let n = set.len();
    let is_short = set.sum() < sum;
    match (voice, is_short) {
        (Voice::Booklet, true) => format!("{} at most {}, which is too little", hold(n), sum_of(set)),
        (Voice::Booklet, false) => format!("{} at least {}, which is too much", hold(n), sum_of(set)),
        (Voice::Spoken, true) if n == 1 => format!("{} at most {}, which is too little", hold(n), set.sum()),
        (Voice::Spoken, true) => {
            format!("even {} make only {}: {} are too few", digits(set), set.sum(), n_cells(n))
        }
        (Voice::Spoken, false) => {
            format!("even {} make {} already: {} are too many", digits(set), set.sum(), n_cells(n))
        }
        (Voice::Screen, _) => format!("{} {} {sum}", sum_of(set), if is_short { "<" } else { ">" }),
    }
}

/// `two cells`, `one cell`.
fn n_cells(n: usize) -> String {
    if n == 1 { "one cell".to_owned() } else { format!("{} cells", count(n)) }
}

/// `two cells hold`, `one cell holds`.
fn hold(n: usize) -> String {
    format!("{} hold{}", n_cells(n), if n == 1 { "s" } else { "" })
}

pub(crate) fn reach(it: &mut Telling<'_>, line: House, shown: &[(Cell, Cell)]) {
    let pairs = pairs_cited(it, line, shown);
    let apart = match distance_cited(it, line) {
        Some((fewest, most)) => {
            let refs = it.refs.to(|it| is_distance(it, line));
            format!("with {} between them{refs}, ", how_many_cells(it.size, fewest, most))
        }
        None => String::new(),
    };
    let refs = it.refs.rest();
    let look = format!("{apart}the crusts of {line} have");
    let kinds = it.kinds_by_then();
    if let [(a, b)] = pairs[..] {
        it.say(&format!("{look} only one pair of places left{refs}: {a} and {b}"));
        return;
    }
    // What the step does not rest on may rule some of them out; then they are not all that is left.
    let places = match pairs.iter().all(|pair| is_open(pair, it.size, line, kinds)) {
        true => format!("{look} {} pairs of places left{refs}", count(pairs.len())),
        false => {
            format!("{apart}the crusts of {line} would fit in {} pairs of places{refs}", count(pairs.len()))
        }
    };
    if pairs.len() <= MOST_PAIRS {
        let open: Vec<String> = pairs.iter().map(|(a, b)| format!("{a} with {b}")).collect();
        let all = format!("{places}: {}", listed(&open, "and"));
        match it.prose.fits(&all) {
            true => it.say(&all),
            false => {
                it.say(&places);
                it.prose.say_list("these are", "others are", &open, "and");
            }
        }
    } else {
        it.say(&places);
    }
    reach_reasons(it, &pairs);
}

/// The pairs of places that the cited facts leave to the crusts of the line.
///
/// When the step was found more may have been known than it rests on, so that it was shown fewer
/// pairs; a reader who has followed the citations can be sure only of these.
fn pairs_cited(it: &Telling<'_>, line: House, shown: &[(Cell, Cell)]) -> Vec<(Cell, Cell)> {
    let filling = filling_digits(it.size);
    let (fewest, most) = distance_cited(it, line).unwrap_or((0, it.size.side()));
    let mut free = it.size.cells_of(line);
    let mut known = CellSet::EMPTY;
    for (cell, digits) in it.facts_cited().filter_map(|claim| claim.leaves(it.size)) {
        if (digits & filling).is_empty() {
            known.insert(cell);
        } else if digits.is_subset(filling) {
            free.retain(|it| *it != cell);
        }
    }
    let on_line: CellSet = it.size.cells_of(line).into_iter().collect();
    let place = |cell: Cell| if line.kind() == HouseKind::Row { cell.column() } else { cell.row() };
    let fits = |(a, b): &(Cell, Cell)| {
        (fewest..=most).contains(&(place(*b) - place(*a) - 1))
            && (known & on_line).is_subset(&[*a, *b].into_iter().collect())
    };
    let pairs = free.iter().enumerate().flat_map(|(at, a)| free[at + 1..].iter().map(|b| (*a, *b)));
    let pairs: Vec<(Cell, Cell)> = pairs.filter(fits).collect();
    match shown.iter().all(|it| pairs.contains(it)) {
        true => pairs,
        false => shown.to_vec(),
    }
}

/// Whether a reader who knows these crusts and filling cells sees nothing against that pair of places.
fn is_open(&(a, b): &(Cell, Cell), size: Size, line: House, (crusts, filling): (CellSet, CellSet)) -> bool {
    let pair: CellSet = [a, b].into_iter().collect();
    let on_line: CellSet = size.cells_of(line).into_iter().collect();
    (pair & filling).is_empty() && (crusts & on_line).is_subset(&pair)
}

fn is_distance(claim: &Claim, of: House) -> bool {
    matches!(claim, Claim::FillingCells { line, .. } | Claim::Spent { line, .. } if *line == of)
}

/// The tightest bounds that a cited fact puts on the number of cells between the crusts of the line.
fn distance_cited(it: &Telling<'_>, of: House) -> Option<(u8, u8)> {
    let bounds = |claim| match claim {
        Claim::FillingCells { line, fewest, most } if line == of => Some((fewest, most)),
        Claim::Spent { line, filling } if line == of => Some((filling.len() as u8, filling.len() as u8)),
        _ => None,
    };
    it.facts_cited().filter_map(bounds).min_by_key(|(fewest, most)| most.saturating_sub(*fewest))
}

/// Says which of the concluded cells every pair uses, every pair covers, or no pair uses.
fn reach_reasons(it: &mut Telling<'_>, pairs: &[(Cell, Cell)]) {
    // Cells of one line are in the line's own order when they are in reading order.
    let covers = |cell: &Cell| pairs.iter().all(|(a, b)| a < cell && cell < b);
    let filling = it.concluded_filling();
    let covered: CellSet = filling.iter().filter(covers).collect();
    let used = it.concluded_crusts();
    let mut reasons = Vec::new();
    if !used.is_empty() {
        reasons.push(format!("every pair uses {}", cells(used)));
    }
    if !covered.is_empty() {
        let verb = if covered.len() == 1 { "lies" } else { "lie" };
        reasons.push(format!("{} always {verb} between the crusts", cells(covered)));
    }
    if !(filling - covered).is_empty() {
        reasons.push(format!("no pair uses {}", either_cell(filling - covered)));
    }
    it.prose.say_in_turn("", "", &reasons);
}
