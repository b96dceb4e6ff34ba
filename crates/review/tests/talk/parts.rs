//! How numbers are said and captioned.

use rand::{Rng, RngExt};

const SMALL: [&str; 20] = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];
const TENS: [&str; 10] =
    ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];

/// In words.
fn in_words(n: u16) -> String {
    match n {
        0..20 => SMALL[usize::from(n)].to_owned(),
        20..100 if n.is_multiple_of(10) => TENS[usize::from(n / 10)].to_owned(),
        20..100 => format!("{} {}", TENS[usize::from(n / 10)], SMALL[usize::from(n % 10)]),
        _ => format!("a hundred and {}", in_words(n - 100)),
    }
}

/// A number, by turns in words and in figures.
pub(super) fn number(n: u16, random: &mut impl Rng) -> String {
    if random.random_bool(if n < 10 { 0.5 } else { 0.25 }) { in_words(n) } else { n.to_string() }
}

/// Some digits one after the other.
pub(super) fn list(digits: &[u16], random: &mut impl Rng) -> String {
    let each: Vec<String> = digits.iter().map(|it| number(*it, random)).collect();
    let Some((last, before)) = each.split_last().filter(|it| !it.1.is_empty()) else { return each.concat() };
    match random.random_range(0..10) {
        0 if digits.iter().all(|it| *it < 10) => digits.iter().map(u16::to_string).collect(),
        1..3 => each.join(" plus "),
        3 => each.join(" and "),
        4..6 => format!("{} {last}", before.join(" ")),
        _ => format!("{} and {last}", before.join(", ")),
    }
}
