//! The voices: each keeps the promises of the words in its own way, whatever step it tells.

use std::collections::BTreeSet;

use crate::corpus::corpus;
use crate::sentences;
use crate::support::{
    self, Scene, allowed, cell, cells_named, digit, house, houses_named, n_words, numbers_named, recompute,
};
use grid::CellSet;
use rulebook::{Claim, Puzzle};
use tell::{Voice, says, says_in, ways_in, where_what_why};
use trail::{Argument, Cites, StepId, Trail};

/// Every step of the corpus and every case of the sentences.
pub(crate) fn each_step(mut tried: impl FnMut(&str, &Puzzle, &Trail, StepId)) {
    for it in sentences::cases() {
        tried(it.name, &it.scene.puzzle, &it.scene.trail, it.step);
    }
    for it in corpus() {
        it.trail().steps().for_each(|(step, _)| tried(&it.name, &it.puzzle, it.trail(), step));
    }
}

#[test]
fn what_is_said_aloud_can_be_spoken_and_names_only_what_the_step_holds() {
    each_step(|name, puzzle, trail, step| {
        let text = says_in(Voice::Spoken, puzzle, trail, step);
        let is_print = |it: char| !(it.is_alphanumeric() || " ,.?:;'-\n".contains(it));
        assert!(!text.contains(is_print), "{name}: {text}");
        assert!(cells_named(&text).is_empty(), "{name}: a cell as in print: {text}");
        keeps_sentences(name, &text);

        let (named, houses, numbers) = heard(&text);
        let allowed = allowed(puzzle, trail, step);
        assert!(named.is_subset(&allowed.cells), "{name}: names {:?}: {text}", named - allowed.cells);
        let strange: Vec<_> = houses.difference(&allowed.houses).collect();
        assert!(strange.is_empty(), "{name}: names {strange:?}: {text}");
        let strange: Vec<_> = numbers.difference(&allowed.numbers).collect();
        assert!(strange.is_empty(), "{name}: names {strange:?}: {text}");
        let concluded = trail.step(step).concludes().iter().map(|it| trail.fact(*it).claim());
        let concluded: CellSet = concluded.filter_map(|it| it.cell()).collect();
        assert!(concluded.is_subset(&named), "{name}: does not say {:?}: {text}", concluded - named);
    });
}

#[test]
fn what_is_shown_on_a_screen_is_shorter_and_names_only_what_the_step_holds() {
    let (mut n_screen, mut n_booklet) = (0, 0);
    each_step(|name, puzzle, trail, step| {
        let text = says_in(Voice::Screen, puzzle, trail, step);
        keeps_sentences(name, &text);
        recompute(&text).unwrap_or_else(|wrong| panic!("{name}: {wrong}"));
        compare(&text).unwrap_or_else(|wrong| panic!("{name}: {wrong}"));
        let allowed = allowed(puzzle, trail, step);
        let (cells, houses, numbers) = (cells_named(&text), houses_named(&text), numbers_named(&text));
        assert!(cells.is_subset(&allowed.cells), "{name}: {text}");
        assert!(houses.is_subset(&allowed.houses), "{name}: {text}");
        assert!(numbers.is_subset(&allowed.numbers), "{name}: {:?}: {text}", &numbers - &allowed.numbers);
        // All it leaves out stands before the conclusion, and is no reference.
        let booklet = says(puzzle, trail, step);
        let end =
            |text: &str| text.rfind(". So ").or(text.rfind("? So ")).map(|it| text[it + 2..].to_owned());
        assert_eq!(end(&text), end(&booklet), "{name}");
        assert_eq!(steps_named(&text), steps_named(&booklet), "{name}: {text}\n{booklet}");
        assert!(n_words(&text) <= n_words(&booklet), "{name}: {text}\n{booklet}");
        n_screen += n_words(&text);
        n_booklet += n_words(&booklet);
    });
    assert!(n_screen * 100 < n_booklet * 95, "{n_screen} words, {n_booklet} in print");
}

/// Numbers of steps that are referred to.
fn steps_named(text: &str) -> BTreeSet<u16> {
    let mut named = BTreeSet::new();
    let (mut counts, mut last, mut stretch) = (false, 0, false);
    for token in text.split_whitespace() {
        let word = token.trim_matches(['(', ')', '.', ',', ';', ':']).to_lowercase();
        match word.parse::<u16>() {
            Ok(number) if counts => {
                named.extend(if stretch { last..=number } else { number..=number });
                (last, stretch) = (number, false);
                counts = !token.ends_with([')', '.', ';', ':']);
            }
            _ if word == "step" || word == "steps" => counts = true,
            _ if counts && word == "to" => stretch = true,
            _ if counts && word == "and" => {}
            _ => counts = false,
        }
    }
    named
}

#[test]
fn the_margin_says_where_what_and_why_of_every_step() {
    each_step(|name, puzzle, trail, step| {
        let [look, what, why] = where_what_why(puzzle, trail, step);
        keeps_sentences(name, &look);
        keeps_sentences(name, &what);
        assert_eq!(why, says(puzzle, trail, step));
        // Where to look gives away nothing of what is concluded, and is not more than the step holds.
        let allowed = allowed(puzzle, trail, step);
        assert!(cells_named(&look).is_subset(&allowed.cells), "{name}: {look}");
        assert!(houses_named(&look).is_subset(&allowed.houses), "{name}: {look}");
    });
}

/// Two hidden singles of one box are told apart; a way that nothing is like is told shortly.
#[test]
fn no_two_ways_in_read_alike() {
    let way = |at: &str, value: u8, n_before: usize| {
        let mut scene = Scene::new(9, &[], &[]);
        (0..n_before).for_each(|_| _ = scene.know(&[Claim::Filling(cell("r9c9"))]));
        let argument = Argument::OnePlace { house: house("box 1"), cell: cell(at), digit: digit(value) };
        scene.push(argument, &[Claim::Is(cell(at), digit(value))], Cites::default());
        scene.trail
    };
    let puzzle = Scene::new(9, &[], &[]).puzzle;
    let said = ways_in(&puzzle, &[way("r3c3", 2, 0), way("r1c3", 7, 0), way("r2c2", 4, 2)]);
    assert_eq!(
        said,
        [
            "Look at box 1 (by-hand, for 2 at r3c3)",
            "Look at box 1 (by-hand, for 7 at r1c3)",
            "Look at box 1 (by-hand, after two steps)"
        ]
    );
}

fn keeps_sentences(name: &str, text: &str) {
    for sentence in support::sentences(text) {
        assert!(n_words(sentence) <= 30, "{name}: {} words: {sentence}", n_words(sentence));
        let start = sentence.chars().next().unwrap();
        assert!(start.is_uppercase() || start.is_ascii_digit() || start == 'r', "{name}: {sentence}");
        assert!(sentence.ends_with(['.', '?']), "{name}: {sentence}");
    }
    assert!(!text.contains("  ") && !text.contains(" ,") && !text.contains(",,"), "{name}: {text}");
}

/// Checks every `c < d` and `c > d`.
fn compare(text: &str) -> Result<(), String> {
    let tokens: Vec<&str> = text.split_whitespace().map(|it| it.trim_end_matches(['.', ',', ';'])).collect();
    for at in (0..tokens.len()).filter(|at| ["<", ">"].contains(&tokens[*at])) {
        let number = |it: usize| tokens[it].parse::<u16>().map_err(|_| text.to_owned());
        let (left, right) = (number(at - 1)?, number(at + 1)?);
        if (tokens[at] == "<") != (left < right) || left == right {
            return Err(format!("{left} {} {right}", tokens[at]));
        }
    }
    Ok(())
}

/// What a listener hears: the cells, the houses that are no part of a cell's name, and other numbers.
fn heard(text: &str) -> (CellSet, BTreeSet<String>, BTreeSet<u16>) {
    let mut cells = CellSet::EMPTY;
    let mut rest = String::new();
    let tokens: Vec<&str> = text.split_whitespace().collect();
    let number = |it: &str| it.trim_end_matches(['.', ',', ':', ';', '?']).parse::<u8>().ok();
    let mut at = 0;
    // The line of the cells named last.
    let mut last_line = (String::new(), 0);
    while at < tokens.len() {
        // `row 4, columns 1 and 5; and columns 2 and 6`: more cells of the same line.
        let after_semicolon = at.checked_sub(1).is_some_and(|before| {
            let before =
                if ["and", "or"].contains(&tokens[before]) { before.saturating_sub(1) } else { before };
            tokens[before].ends_with(';')
        });
        let more = [("row", "columns"), ("column", "rows")].contains(&(last_line.0.as_str(), tokens[at]));
        if after_semicolon && more {
            for n in [at + 1, at + 3].map(|it| number(tokens[it]).unwrap()) {
                let (row, column) = if last_line.0 == "row" { (last_line.1, n) } else { (n, last_line.1) };
                cells.insert(cell(&format!("r{row}c{column}")));
            }
            at += 4;
            continue;
        }
        let line = tokens[at].to_lowercase();
        let crossing = if line == "row" { "column" } else { "row" };
        // `row 4,` and then `column` or `columns`.
        let is_cell = (line == "row" || line == "column")
            && tokens.get(at + 1).is_some_and(|it| it.ends_with(',') && number(it).is_some())
            && tokens.get(at + 2).is_some_and(|it| it.trim_end_matches('s') == crossing);
        if !is_cell {
            rest += tokens[at];
            rest.push(' ');
            at += 1;
            continue;
        }
        let of = number(tokens[at + 1]).unwrap();
        last_line = (line.clone(), of);
        let is_either = tokens.get(at + 4) == Some(&"or");
        let several = tokens[at + 2].ends_with('s') || is_either;
        at += 3;
        let (mut last, mut stretch) = (0, false);
        while at < tokens.len() {
            let Some(n) = number(tokens[at]) else { break };
            for k in if stretch { last..=n } else { n..=n } {
                let (row, column) = if crossing == "column" { (of, k) } else { (k, of) };
                cells.insert(cell(&format!("r{row}c{column}")));
            }
            (last, stretch) = (n, false);
            let ends = tokens[at].ends_with(['.', ':', ';', '?']);
            at += 1;
            let link = tokens.get(at).filter(|it| ["to", "and", "or"].contains(it));
            let goes_on = several && !ends;
            match link {
                Some(it) if goes_on && tokens.get(at + 1).is_some_and(|it| number(it).is_some()) => {
                    stretch = *it == "to";
                    at += 1;
                }
                _ if goes_on && tokens[at - 1].ends_with(',') => {}
                _ => break,
            }
        }
        rest += "there. ";
    }
    let mut numbers = numbers_named(&rest);
    // `case 1, part 2`: a label.
    rest.split("part ").skip(1).for_each(|it| {
        _ = it.split([',', '.', ' ']).next().map(|it| numbers.remove(&it.parse().unwrap_or(0)))
    });
    (cells, houses_named(&rest.to_lowercase()), numbers)
}

/// The readers that these tests trust do notice faults.
#[test]
fn the_readers_hear_what_is_said() {
    let (cells, houses, numbers) = heard(
        "In row 4, columns 1, 3 to 5 and 7 hold 2 and 8. Column 2, row 9 sees row 3 and box 1's clue of 20. Left are \
         column 6, rows 1 and 3; rows 3 and 5; and rows 7 and 9.",
    );
    assert_eq!(cells, support::cells("r4c1 r4c3 r4c4 r4c5 r4c7 r9c2 r1c6 r3c6 r5c6 r7c6 r9c6"));
    assert_eq!(houses.into_iter().collect::<Vec<_>>(), ["box 1", "row 3"]);
    assert_eq!(numbers.into_iter().collect::<Vec<_>>(), [2, 8, 20]);
    assert!(compare("8 + 9 = 17 < 20.").is_ok() && compare("17 > 20").is_err() && compare("3 < 3").is_err());
}
