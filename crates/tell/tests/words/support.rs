//! Trails built by hand, and readers of the sentences that come out.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, Digit, DigitSet, Grid, House, HouseKind, Size};
use rulebook::{Claim, Clue, ClueId, Puzzle, SANDWICH, crusts, filling_digits, filling_total};
use trail::{Argument, Cites, FactId, Proposal, StepId, TechniqueId, Trail};

const BY_HAND: TechniqueId = TechniqueId::new("by-hand");

/// A puzzle and a trail in the making.
pub(crate) struct Scene {
    pub(crate) puzzle: Puzzle,
    pub(crate) trail: Trail,
}

impl Scene {
    /// A puzzle with sandwich clues such as `("row 4", 20)` and givens such as `("r4c1", 5)`.
    pub(crate) fn new(side: u8, clues: &[(&str, u16)], givens: &[(&str, u8)]) -> Scene {
        let size = Size::of_side(side).unwrap();
        let givens = givens
            .iter()
            .fold(Grid::empty(size), |board, (at, digit)| board.with(cell(at), size.digit(*digit)));
        let clues =
            clues.iter().map(|(line, value)| Clue { rule: &SANDWICH, line: house(line), value: *value });
        let puzzle = Puzzle::new(givens, clues);
        Scene { trail: Trail::from_page(&puzzle), puzzle }
    }

    /// Adds a step that concludes the claims from nothing, so that later steps have something to cite.
    pub(crate) fn know(&mut self, claims: &[Claim]) -> Vec<FactId> {
        let argument = Argument::OneDigit { cell: cell("r1c1"), digit: digit(2) };
        let step = self.push(argument, claims, Cites::default());
        self.trail.step(step).concludes().to_vec()
    }

    /// The facts of the page, and the citations that hold them all.
    pub(crate) fn givens(&self) -> Cites {
        let page = self.trail.facts().filter(|(_, it)| it.step().is_none());
        page.fold(Cites::default(), |cites, (id, _)| cites.fact(id))
    }

    pub(crate) fn clue(&self, line: &str) -> ClueId {
        self.puzzle.clue_at(&SANDWICH, house(line)).unwrap().0
    }

    /// Adds a step whose conclusions all cite the same.
    pub(crate) fn push(&mut self, argument: Argument, claims: &[Claim], cites: Cites) -> StepId {
        let technique = match argument {
            Argument::Cases { .. } => TechniqueId::SMALL_ARGUMENT,
            _ => BY_HAND,
        };
        let conclusions = claims.iter().map(|it| (*it, cites.clone())).collect();
        self.trail.push(Proposal { technique, argument, conclusions }).unwrap()
    }
}

/// `"r4c7"`; any number of a 16x16 board.
pub(crate) fn cell(text: &str) -> Cell {
    let (row, column) = text.strip_prefix('r').and_then(|it| it.split_once('c')).unwrap();
    Size::of_side(16).unwrap().cell(row.parse().unwrap(), column.parse().unwrap()).unwrap()
}

/// `"r4c1 r4c2"`.
pub(crate) fn cells(text: &str) -> CellSet {
    text.split_whitespace().map(cell).collect()
}

/// `"row 4"`.
pub(crate) fn house(text: &str) -> House {
    let (kind, number) = text.split_once(' ').unwrap();
    let kind = match kind {
        "row" => HouseKind::Row,
        "column" => HouseKind::Column,
        "box" => HouseKind::Box,
        other => panic!("{other} is no house"),
    };
    Size::of_side(16).unwrap().house(kind, number.parse().unwrap()).unwrap()
}

pub(crate) fn digit(value: u8) -> Digit {
    Digit::new(value).unwrap()
}

pub(crate) fn digits(values: &[u8]) -> DigitSet {
    values.iter().map(|it| digit(*it)).collect()
}

/// The sentences of a text. A full stop ends one where a space or a line's end follows.
pub(crate) fn sentences(text: &str) -> Vec<&str> {
    text.lines()
        .flat_map(|line| line.split_inclusive(". ").flat_map(|it| it.split_inclusive("? ")))
        .map(str::trim)
        .filter(|it| !it.is_empty())
        .collect()
}

/// Words of a sentence: what has a letter or a figure in it.
pub(crate) fn n_words(sentence: &str) -> usize {
    sentence.split_whitespace().filter(|it| it.contains(char::is_alphanumeric)).count()
}

/// Works out every statement `a + b = c`, `a − b = c` in the text again. Gives how many there are.
///
/// # Errors
///
/// The first statement that is wrong.
pub(crate) fn recompute(text: &str) -> Result<usize, String> {
    let tokens: Vec<&str> = text.split_whitespace().collect();
    let number = |it: &str| it.trim_end_matches(['.', ',', ';', ':', ')']).parse::<i64>().ok();
    let mut n_found = 0;
    for at in (0..tokens.len()).filter(|at| tokens[*at] == "=") {
        let total = tokens.get(at + 1).and_then(|it| number(it)).ok_or("nothing after =")?;
        let mut terms = number(tokens[at - 1]).ok_or("no number before =")?;
        let mut before = at - 1;
        let mut sum = 0;
        while before >= 2 && ["+", "−"].contains(&tokens[before - 1]) {
            sum += if tokens[before - 1] == "+" { terms } else { -terms };
            terms = number(tokens[before - 2]).ok_or("no number before a sign")?;
            before -= 2;
        }
        sum += terms;
        if before == at - 1 || sum != total {
            return Err(format!("{} {}", tokens[before..=at].join(" "), tokens[at + 1]));
        }
        n_found += 1;
    }
    Ok(n_found)
}

/// Every cell the text names, with those inside a stretch `r4c1 to r4c4`.
pub(crate) fn cells_named(text: &str) -> CellSet {
    let words: Vec<&str> = text.split(|it: char| !it.is_alphanumeric()).filter(|it| !it.is_empty()).collect();
    let is_cell = |word: &str| {
        word.strip_prefix('r')
            .and_then(|it| it.split_once('c'))
            .is_some_and(|(row, column)| row.parse::<u8>().is_ok() && column.parse::<u8>().is_ok())
    };
    let mut named = CellSet::EMPTY;
    for (at, word) in words.iter().enumerate().filter(|(_, it)| is_cell(it)) {
        named.insert(cell(word));
        if let ["to", end, ..] = words[at + 1..]
            && is_cell(end)
        {
            let (first, last) = (cell(word), cell(end));
            let all = Size::of_side(16).unwrap();
            named.extend(all.cells().filter(|it| {
                (first.row()..=last.row()).contains(&it.row())
                    && (first.column()..=last.column()).contains(&it.column())
            }));
        }
    }
    named
}

/// Every house the text names: `row 4`, `rows 2 to 4 and 7`, `row 4's`.
pub(crate) fn houses_named(text: &str) -> BTreeSet<String> {
    let text = text.replace("'s", " ");
    let words: Vec<&str> = text.split(|it: char| !it.is_alphanumeric()).filter(|it| !it.is_empty()).collect();
    let mut named = BTreeSet::new();
    for (at, word) in words.iter().enumerate() {
        let kind = match *word {
            "row" | "rows" => "row",
            "column" | "columns" => "column",
            "box" | "boxes" => "box",
            _ => continue,
        };
        let plural = *word != kind;
        let mut last = 0;
        let mut stretch = false;
        for word in &words[at + 1..] {
            match word.parse::<u8>() {
                Ok(number) => {
                    let first = if stretch { last + 1 } else { number };
                    named.extend((first..=number).map(|it| format!("{kind} {it}")));
                    (last, stretch) = (number, false);
                }
                Err(_) if *word == "to" && plural => stretch = true,
                Err(_) if *word == "and" && plural => {}
                Err(_) => break,
            }
            if !plural {
                break;
            }
        }
    }
    named
}

/// The numbers a text names that stand for digits and sums: not those of steps, cases, cells and houses.
pub(crate) fn numbers_named(text: &str) -> BTreeSet<u16> {
    let text = text.replace("'s", " of").to_lowercase();
    let words = text.split(|it: char| !(it.is_alphanumeric() || it == '.')).map(|it| it.trim_matches('.'));
    let mut named = BTreeSet::new();
    // Whether the next number counts something, and whether others may follow it that do too.
    let (mut counts, mut several) = (false, false);
    for word in words.filter(|it| !it.is_empty()) {
        match word.parse::<u16>() {
            Ok(number) if !counts => _ = named.insert(number),
            Ok(_) => counts = several,
            Err(_) if several && ["to", "and"].contains(&word) => {}
            Err(_) => {
                several = ["steps", "rows", "columns", "boxes"].contains(&word);
                counts = several || ["step", "case", "row", "column", "box"].contains(&word);
            }
        }
    }
    named
}

/// What the sentences about a step may speak of.
pub(crate) struct Allowed {
    pub(crate) cells: CellSet,
    pub(crate) houses: BTreeSet<String>,
    pub(crate) numbers: BTreeSet<u16>,
}

/// What the step's argument, its conclusions and what these cite hold, and the digits that follow from
/// the size alone: the crusts and the total.
pub(crate) fn allowed(puzzle: &Puzzle, trail: &Trail, step: StepId) -> Allowed {
    let size = puzzle.size();
    let cites = trail.cites_of(step);
    let argument = trail.step(step).argument();
    let claims: Vec<Claim> =
        trail.step(step).concludes().iter().chain(&cites.facts).map(|it| trail.fact(*it).claim()).collect();
    let clues: Vec<&Clue> = cites.clues.iter().filter_map(|it| puzzle.clue(*it)).collect();
    let held = format!("{argument:?} {claims:?} {:?} {clues:?}", cites.houses);
    let mut numbers = numbers_named(&held);
    let (one, last) = crusts(size);
    numbers.extend([u16::from(one.get()), u16::from(last.get()), filling_total(size)]);
    let more = match argument {
        Argument::SpentSplits { filling, .. } => filling_digits(size) - *filling,
        Argument::CrustsAtEnds { .. } => filling_digits(size),
        _ => DigitSet::EMPTY,
    };
    numbers.extend(more.iter().map(|it| u16::from(it.get())));
    // What arithmetic works out is checked by working it out again.
    match argument {
        Argument::CrustDistance { short, over, .. } => numbers.extend([short.sum(), over.sum()]),
        // On large boards many digits are said by those that are missing.
        Argument::Cases { .. } | Argument::Followed { .. } if size.side() > 9 => {
            numbers.extend(1..=u16::from(size.side()))
        }
        // The digits outside may be known from a spent clue, whose value is on the page.
        Argument::Remainder { placed, clue, .. } => {
            numbers.extend(puzzle.clue(*clue).map(|it| it.value).into_iter().chain([placed.sum()]));
        }
        // Links are counted.
        Argument::Chain { links, .. } => numbers.extend(1..=links.len() as u16),
        Argument::Misfits { tries, .. } => numbers.extend(tries.iter().map(|it| it.sets.len() as u16)),
        Argument::Sets { sets, excluded, .. } => numbers.extend([sets.len() as u16, excluded.len() as u16]),
        _ => {}
    }
    let mut cells = cells_named(&held);
    if let Argument::Reach { line, .. } = argument {
        // The places left are worked out from the cited facts; all lie on the line.
        cells.extend(size.cells_of(*line));
    }
    Allowed { cells, houses: houses_named(&held), numbers }
}

/// Fails unless the text keeps every promise made for the words of a step.
pub(crate) fn check(name: &str, puzzle: &Puzzle, trail: &Trail, step: StepId, text: &str) {
    for sentence in sentences(text) {
        assert!(n_words(sentence) <= 30, "{name}: {} words: {sentence}", n_words(sentence));
        assert!(sentence.ends_with(['.', '?']), "{name}: no end: {sentence}");
        let start = sentence.chars().next().unwrap();
        assert!(
            start.is_uppercase() || start.is_ascii_digit() || sentence.starts_with('r'),
            "{name}: {sentence}"
        );
    }
    assert!(!text.contains("  ") && !text.contains(['<', '>', '&', '*', '_']), "{name}: not plain: {text}");
    recompute(text).unwrap_or_else(|wrong| panic!("{name}: {wrong}"));

    let allowed = allowed(puzzle, trail, step);
    let (cells, houses, numbers) = (cells_named(text), houses_named(text), numbers_named(text));
    assert!(cells.is_subset(&allowed.cells), "{name}: names {:?}: {text}", cells - allowed.cells);
    let strange: Vec<_> = houses.difference(&allowed.houses).collect();
    assert!(strange.is_empty(), "{name}: names {strange:?}: {text}");
    let strange: Vec<_> = numbers.difference(&allowed.numbers).collect();
    assert!(strange.is_empty(), "{name}: names {strange:?}: {text}");

    // The end says every conclusion and nothing else.
    let concluded: Vec<Claim> =
        trail.step(step).concludes().iter().map(|it| trail.fact(*it).claim()).collect();
    let expected = cells_named(&format!("{concluded:?}"));
    let starts = [". So ", "? So ", "\nAltogether, "];
    let end = starts
        .iter()
        .filter_map(|it| text.rfind(it))
        .max()
        .unwrap_or_else(|| panic!("{name}: no end: {text}"));
    assert_eq!(cells_named(&text[end..]), expected, "{name}: {text}");
    for claim in concluded.iter().filter(|it| it.house().is_some()) {
        assert!(text[end..].contains(&tell::claim(puzzle.size(), claim)), "{name}: {claim:?}: {text}");
    }
}
