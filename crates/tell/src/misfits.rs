//! Words for what a line has no way for: digits and crusts that leave its sum unmade, or a neighbour
//! without a way.

use std::collections::{BTreeMap, BTreeSet};

use grid::{Cell, CellSet, Digit, DigitSet, House};
use rulebook::{Claim, crusts, filling_digits};
use trail::Misfit;

use crate::Voice;
use crate::claims::how_many_cells;
use crate::lists::{count, digits, each_of, either_digit, houses, listed, within};
use crate::prose::Prose;
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
    for (digits, tried) in told_together(tries, filling_digits(it.size)) {
        let digit = tried.digits.single();
        let said = match digit {
            Some(digit) if digit == one => as_crust(cell, tried, &refused, Some((one.get(), last.get()))),
            Some(digit) if digit == last => as_crust(cell, tried, &refused, Some((last.get(), one.get()))),
            Some(_) => {
                let homeless = homeless(it, line, cell, tried);
                as_digit(&format!("with {} in {cell}", either_digit(digits)), tried, &refused, &homeless)
            }
            None if (tried.digits & filling_digits(it.size)).is_empty() => {
                as_crust(cell, tried, &refused, None)
            }
            None => as_filling(cell, tried, &refused),
        };
        said.with(it.voice, &refs).iter().for_each(|sentence| it.say(sentence));
        refs.clear();
    }
}

/// `row 4's clue is 13, column 2's is 20; look at box 4 too`, `row 4 has two cells between its crusts`.
fn demand(it: &mut Telling<'_>, line: House, around: &[House]) -> String {
    let mut said = String::new();
    match clue_of(it, line) {
        Some(value) => said += &format!("{line}'s clue is {value}"),
        None => said += &between(it, line),
    }
    let mut others = around.iter().filter_map(|house| Some((house, clue_of(it, *house)?)));
    if let Some((house, value)) = others.next() {
        let clue = if clue_of(it, line).is_some() { "" } else { " clue" };
        said += &format!(", {house}'s{clue} is {value}");
    }
    others.for_each(|(house, value)| said += &format!(", {house}'s is {value}"));
    let silent: BTreeSet<House> =
        around.iter().copied().filter(|house| clue_of(it, *house).is_none()).collect();
    if !silent.is_empty() {
        said += &format!("; look at {} too", listed(&houses(&silent), "and"));
    }
    said
}

/// The value of the line's clue, if that is cited.
fn clue_of(it: &Telling<'_>, line: House) -> Option<u16> {
    let clues = it.cites.clues.iter().filter_map(|id| it.puzzle.clue(*id));
    clues.filter(|it| it.line == line).map(|it| it.value).next()
}

/// `row 4 has 3 and 5 between its crusts (step 1)`, by the fact that is cited about it.
fn between(it: &mut Telling<'_>, line: House) -> String {
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
    let refs = it.refs.to(of_line);
    format!("{line} has {said} between its crusts{refs}")
}

/// How the ways of a try are refused.
struct Refused {
    line: House,
    voice: Voice,
    /// Each house that the ways are tried on, and what it cannot do if it refuses.
    around: BTreeMap<House, &'static str>,
    /// Where the ways have not been named.
    none: String,
    /// Whether the sum of the line counts.
    has_sum: bool,
}

impl Refused {
    fn new(it: &Telling<'_>, line: House, around: &[House]) -> Refused {
        let is_distance = |it: &Claim| matches!(it, Claim::FillingCells { line: of, .. } if *of == line);
        let is_spent =
            |of: House| it.facts_cited().any(|it| matches!(it, Claim::Spent { line, .. } if line == of));
        let cannot = |house: House| match clue_of(it, house).is_some() || is_spent(house) {
            true => "cannot make its clue",
            false => "cannot take each digit once",
        };
        let is_nothing = clue_of(it, line) == Some(0)
            || it.facts_cited().any(
                |it| matches!(it, Claim::Spent { line: of, filling } if of == line && filling.is_empty()),
            );
        let no_way = if is_nothing { "the crusts no places side by side" } else { "no way to make the sum" };
        let by = match around {
            [] => format!("the cells of {line} leave"),
            [only] => format!("{only} leaves"),
            _ => format!("{} leave", listed(&houses(&around.iter().copied().collect()), "and")),
        };
        Refused {
            line,
            voice: it.voice,
            around: around.iter().map(|it| (*it, cannot(*it))).collect(),
            none: format!("{by} {no_way}"),
            has_sum: clue_of(it, line).is_some() || !it.facts_cited().any(|it| is_distance(&it)),
        }
    }

    /// After the ways have been named: what comes of them, in a second sentence where houses differ.
    fn all_of(&self, ways: String, tried: &Misfit, short: String) -> Said {
        let Refused { line, around, .. } = self;
        if around.is_empty() {
            return Said::new(format!("{ways}, but the cells of {line} do not fit that"), short);
        }
        let mut sets: BTreeMap<House, Vec<DigitSet>> = BTreeMap::new();
        tried.refused.iter().for_each(|(set, by)| sets.entry(*by).or_default().push(*set));
        let cannot = |by: &House| around.get(by).map_or_else(String::new, |it| format!("{by} {it}"));
        if sets.len() == 1 {
            let cannot = sets.keys().map(cannot).collect::<String>();
            return Said::new(format!("{ways}, but {cannot} then"), short);
        }
        let n_refused = tried.refused.iter().map(|it| it.0).collect::<BTreeSet<DigitSet>>().len();
        let each =
            sets.iter().filter_map(|(by, it)| Some(format!("with {}, {}", open_sets(it)?, cannot(by))));
        let each = each.collect::<Vec<_>>().join("; ");
        // Where each set has one house that refuses it.
        if n_refused > 1
            && n_refused == tried.refused.len()
            && fits(self.voice, &each)
            && fits(self.voice, &ways)
        {
            return Said { then: Some(each), ..Said::plain(ways) };
        }
        let by = listed(&houses(&around.keys().copied().collect()), "and");
        Said::new(format!("{ways}, but none of that agrees with {by}"), short)
    }
}

/// The cell is supposed to hold a filling digit, or each of several in turn of which the same is to be said;
/// `homeless` tells of each set which digit has no place, or is empty.
fn as_digit(with: &str, tried: &Misfit, refused: &Refused, homeless: &[Digit]) -> Said {
    let short = format!("{with}, {}", refused.none);
    let Some(sets) = open_sets(&tried.sets) else {
        return Said::plain(format!("{with}, no set of digits makes the sum"));
    };
    let ways = format!("{with}, {sets} would lie between the crusts");
    let who = match homeless {
        [] => return refused.all_of(ways, tried, short),
        [digit, others @ ..] if others.iter().all(|it| it == digit) => digit.to_string(),
        _ => {
            let each = tried.sets.iter().zip(homeless);
            let each: Vec<String> =
                each.map(|(set, digit)| format!("the {digit} of {}", each_of(*set).join(" + "))).collect();
            listed(&each, "or")
        }
    };
    let (one, two) =
        (format!("{ways}, but no cell there can be {who}"), format!("no cell there can be {who}"));
    match homeless.len() <= MOST_NAMED && !fits(refused.voice, &one) && fits(refused.voice, &two) {
        true => Said { full: ways, short, then: Some(two) },
        false => Said::new(one, short),
    }
}

/// For each set that could lie between the crusts if the cell held that digit, another of its digits that no cell there
/// can be, by what is cited; nothing if one set has none such, or the houses around refuse it.
fn homeless(it: &Telling<'_>, line: House, cell: Cell, tried: &Misfit) -> Vec<Digit> {
    let on_line = it.size.cells_of(line);
    let place = |cell: &Cell| on_line.iter().position(|it| it == cell);
    let between = tried.pairs.iter().filter_map(|(a, b)| Some(place(a)? + 1..place(b)?));
    let between: CellSet = between.filter(|it| it.start < it.end).flatten().map(|at| on_line[at]).collect();
    let has_no_place =
        |digit: &Digit| !between.iter().filter(|at| *at != cell).any(|at| it.can_be(at, *digit));
    let homeless = |set: &DigitSet| (*set - tried.digits).iter().find(has_no_place);
    let found: Option<Vec<Digit>> = tried.sets.iter().map(homeless).collect();
    found.filter(|_| tried.refused.is_empty() && !between.is_empty()).unwrap_or_default()
}

/// The tries that are told in one sentence: digits with which no set is left at all.
fn told_together(tries: &[Misfit], filling: DigitSet) -> Vec<(DigitSet, &Misfit)> {
    let mut told: Vec<(DigitSet, &Misfit)> = Vec::new();
    let is_alike =
        |it: &Misfit| it.sets.is_empty() && it.digits.single().is_some_and(|it| filling.contains(it));
    for tried in tries {
        match told.iter_mut().find(|it| is_alike(it.1) && is_alike(tried)) {
            Some(with) => with.0 = with.0 | tried.digits,
            None => told.push((tried.digits, tried)),
        }
    }
    told
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
            let mates = within(mates);
            Said::new(format!("{with}, {other} would have to be {mates}, where it cannot be"), no_place)
        }
        (false, true) => {
            let between = open_sets(&tried.sets).unwrap_or_else(|| "nothing".to_owned());
            let where_is = within(mates);
            let ways = format!("{with}, {other} would be {where_is} with {between} between");
            refused.all_of(ways, tried, format!("{with}, {}", refused.none))
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
            refused.all_of(format!("{without}, the crusts would be {pairs}"), tried, short)
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

/// Whether the text is short enough for a sentence.
fn fits(voice: Voice, text: &str) -> bool {
    Prose::new(voice).fits(text)
}

/// A sentence, and a shorter one to take if it grows too long.
struct Said {
    full: String,
    short: String,
    /// One more that follows the full one.
    then: Option<String>,
}

impl Said {
    fn new(full: String, short: String) -> Said {
        Said { full, short, then: None }
    }

    fn plain(only: String) -> Said {
        Said::new(only.clone(), only)
    }

    /// One sentence or two, the first with `refs`.
    fn with(self, voice: Voice, refs: &str) -> Vec<String> {
        let full = format!("{}{refs}", self.full);
        match fits(voice, &full) {
            true => [Some(full), self.then].into_iter().flatten().collect(),
            false => vec![format!("{}{refs}", self.short)],
        }
    }
}
