//! How hard the words are to read, voice by voice, over whole walkthroughs.
//!
//! `cargo test -p tell --test words reading -- --nocapture` prints the figures.
//!
//! The grade is J. P. Kincaid, R. P. Fishburne, R. L. Rogers, B. S. Chissom: Derivation of New
//! Readability Formulas for Navy Enlisted Personnel, Research Branch Report 8-75 (1975):
//! 0.39 x words / sentences + 11.8 x syllables / words - 15.59. The formula leaves open how syllables are
//! counted; here a word has as many as it has groups of vowels (y among them), a silent e at its end
//! aside, and at least one. A number has those of its name, a sign of a sum those of the words it is read
//! with, and `r4c7` is one word that is spelled out.

use crate::corpus::corpus;
use crate::support::{n_words, sentences};
use tell::{Voice, says_in};

/// The highest grade a voice may have.
const GRADES: [(Voice, f64); 3] = [(Voice::Booklet, 6.0), (Voice::Spoken, 3.5), (Voice::Screen, 6.5)];

#[test]
#[allow(clippy::print_stdout)] // the figures are wanted
fn reading_is_easy_in_every_voice() {
    for (voice, most) in GRADES {
        let texts = corpus()
            .iter()
            .flat_map(|it| it.trail().steps().map(|(step, _)| says_in(voice, &it.puzzle, it.trail(), step)));
        let texts: Vec<String> = texts.collect();
        let all: Vec<&str> = texts.iter().flat_map(|it| sentences(it)).collect();
        let longest = all.iter().max_by_key(|it| n_words(it)).unwrap();
        let words: usize = texts.iter().map(|it| n_words(it)).sum();
        let demo = corpus().iter().filter(|it| !it.name.starts_with("seed"));
        let demo = demo.flat_map(|it| it.trail().steps().map(move |(step, _)| (it, step)));
        let of_demo: usize =
            demo.map(|(it, step)| n_words(&says_in(voice, &it.puzzle, it.trail(), step))).sum();
        let grade = grade(&all);
        println!(
            "{voice:?}: grade {grade:.1}, {} steps, {} sentences, {words} words ({of_demo} in the demo pack), longest {}: {longest}",
            texts.len(),
            all.len(),
            n_words(longest)
        );
        assert!(n_words(longest) <= 30, "{voice:?}: {longest}");
        assert!(grade <= most, "{voice:?}: grade {grade:.1}");
    }
}

/// The grade of the sentences by the formula above.
fn grade(sentences: &[&str]) -> f64 {
    let words: Vec<&str> = sentences.iter().flat_map(|it| it.split_whitespace()).collect();
    let words: Vec<&str> = words.into_iter().filter(|it| n_syllables(it) > 0).collect();
    let syllables: usize = words.iter().map(|it| n_syllables(it)).sum();
    let n = words.len() as f64;
    0.39 * n / sentences.len() as f64 + 11.8 * syllables as f64 / n - 15.59
}

/// The syllables of what stands between two spaces.
fn n_syllables(token: &str) -> usize {
    match token {
        "+" | "=" => return 1,
        "−" => return 2,
        "<" | ">" => return 3,
        _ => {}
    }
    let token = token.replace("'s", "").to_lowercase();
    let parts = token.split(|it: char| !it.is_alphanumeric()).filter(|it| !it.is_empty());
    parts.map(n_of_part).sum()
}

fn n_of_part(part: &str) -> usize {
    let plain = part.trim_end_matches('s');
    if let Ok(number) = plain.parse::<usize>() {
        return n_of_number(number);
    }
    let cell = part.strip_prefix('r').and_then(|it| it.split_once('c'));
    if let Some((Ok(row), Ok(column))) = cell.map(|(r, c)| (r.parse::<usize>(), c.parse::<usize>())) {
        return 2 + n_of_number(row) + n_of_number(column);
    }
    let is_vowel = |it: char| "aeiouy".contains(it);
    let letters: Vec<char> = part.chars().collect();
    let groups = letters.chunk_by(|a, b| is_vowel(*a) == is_vowel(*b)).filter(|it| is_vowel(it[0])).count();
    // "five" ends in a silent e, "title" does not.
    let is_silent = match letters.as_slice() {
        [.., before, 'l', 'e'] if !is_vowel(*before) => false,
        [.., before, 'e'] => !is_vowel(*before),
        _ => false,
    };
    groups.saturating_sub(usize::from(is_silent)).max(1)
}

fn n_of_number(number: usize) -> usize {
    // Zero to nineteen.
    const NAMES: [usize; 20] = [2, 1, 1, 1, 1, 1, 1, 2, 1, 1, 1, 3, 1, 2, 2, 2, 2, 3, 2, 2];
    match number {
        0..=19 => NAMES[number],
        20..=99 => {
            let tens = if number / 10 == 7 { 3 } else { 2 };
            tens + if number.is_multiple_of(10) { 0 } else { NAMES[number % 10] }
        }
        // "a hundred and" and the rest
        _ => 4 + n_of_number(number % 100),
    }
}

#[test]
fn reading_is_graded_by_the_formula() {
    let syllables = [
        ("row", 1),
        ("column", 2),
        ("sandwich", 2),
        ("five", 1),
        ("title", 2),
        ("the", 1),
        ("either", 2),
        ("7", 2),
        ("17", 3),
        ("35", 3),
        ("70", 3),
        ("r4c7", 5),
        ("5s", 1),
        ("+", 1),
        ("−", 2),
        ("(step", 1),
    ];
    for (word, expected) in syllables {
        assert_eq!(n_syllables(word), expected, "{word}");
    }
    // By hand: 13 words in 2 sentences, 15 syllables ("filling" and "column" have two).
    let graded = grade(&["So r is filling.", "The last cell of the column is now 5."]);
    let expected = 0.39 * 13.0 / 2.0 + 11.8 * 15.0 / 13.0 - 15.59;
    assert!((graded - expected).abs() < 1e-9, "{graded} {expected}");
}
