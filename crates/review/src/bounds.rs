//! Bounds as they are spoken: the most and the least that some cells hold, the most and the fewest cells of a sum.
//!
//! All are reckoned for a line with nothing in it. What is known of a line only makes bounds tighter; so "at most" is wrong
//! if it is below what any line reaches and no reason is given near by.

use crate::arithmetic::Found;
use crate::tokens::{Kind, Token};

/// What is said to be bounded, and which way.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Bound {
    Most,
    Least,
}

/// Nouns that are cells between crusts, or digits in them.
const CELLS: [&str; 8] = ["cell", "cells", "digit", "digits", "square", "squares", "number", "numbers"];
/// Words that deny what follows.
const DENIALS: [&str; 9] = ["can't", "cannot", "never", "won't", "no", "not", "don't", "doesn't", "couldn't"];
/// A reason near by makes a bound of its own line of it; a supposition or a question none at all.
const REASONS: [&str; 15] = [
    "because", "since", "with", "without", "here", "already", "given", "now", "if", "suppose", "imagine",
    "does", "could", "as", "unless",
];

/// How many tokens from what is said a reason counts.
const REASON_IS_NEAR: usize = 4;

/// Wrong bounds.
pub(crate) fn bounds(tokens: &[Token], side: u16) -> Vec<Found> {
    // No board is smaller.
    if side < 4 {
        return Vec::new();
    }
    // Everything that can lie between crusts.
    let total = (2..side).sum();
    (0..tokens.len()).filter_map(|at| bound(tokens, at, side, total)).collect()
}

fn bound(tokens: &[Token], at: usize, side: u16, total: u16) -> Option<Found> {
    let Kind::Count(n, noun) = &tokens[at].is else { return None };
    if !CELLS.contains(&noun.as_str()) || *n == 0 || *n > side - 2 {
        return None;
    }
    let (start, end) = sentence(tokens, at);
    let before = (start..at).rev().take(6).find(|it| number(tokens, *it).is_some());
    // Words after the count are part of the noun: the first is the noun itself.
    let after = (at + 1..end).take(8).find(|it| number(tokens, *it).is_some());
    let found = |number: usize, said: u16, right: u16, because: String| {
        let (first, last) = (at.min(number), at.max(number));
        let near =
            start.max(first.saturating_sub(REASON_IS_NEAR))..end.max(last).min(last + 1 + REASON_IS_NEAR);
        let has_reason = words(tokens, near).any(|it| REASONS.contains(&it));
        (said != right && !has_reason).then_some(Found { tokens: (first, last), said, right, because })
    };
    if let Some(bound) = of_cells(tokens, start, at, end) {
        // "at least three cells for 20", else "20 takes at least three cells"
        let leads = |it: &usize| {
            let before = word(tokens, it - 1).unwrap_or("");
            *it < at + 6 && ["for", "reach", "make", "of", "get", "in", "into", "to"].contains(&before)
        };
        let number_at = after.filter(leads).or(before)?;
        let value = number(tokens, number_at)?;
        let (fewest, most) = cells_of(side, value)?;
        return match bound {
            Bound::Least if *n > fewest => {
                found(number_at, *n, fewest, format!("{} = {value}", digits(side, value, fewest)?))
            }
            Bound::Most if *n < most => {
                found(number_at, *n, most, format!("{} = {value}", digits(side, value, most)?))
            }
            _ => None,
        };
    }
    // "the most you get into two cells is 15" has its number after, "15 is the most you get out of two cells" before.
    let is_into =
        word(tokens, at.wrapping_sub(1)).is_some_and(|it| ["into", "of", "from", "in", "for"].contains(&it));
    let number_at = match after {
        Some(it) if !is_into || said_after(tokens, at, it) => it,
        _ if is_into => (start..at).rev().take(9).find(|it| number(tokens, *it).is_some())?,
        _ => return None,
    };
    let value = number(tokens, number_at).filter(|it| *it <= total)?;
    // "the most two cells can be is 15", or "two cells hold at most 15", "two cells are 15 at most"
    let (exact, loose) = if number_at < at {
        let between = said_bound(tokens, number_at + 1..at);
        (between, said_bound(tokens, start.max(number_at.saturating_sub(5))..number_at))
    } else {
        let after = said_bound(tokens, number_at + 1..end.max(number_at + 1).min(number_at + 4));
        let exact = said_bound(tokens, start.max(at.saturating_sub(7))..at);
        (exact, said_bound(tokens, at + 1..number_at).or(after))
    };
    let bound = exact.or(loose)?;
    let (smallest, largest) = (2..2 + n, side - n..side);
    let (terms, right) = match bound {
        Bound::Most => (joined(largest.clone()), largest.sum::<u16>()),
        Bound::Least => (joined(smallest.clone()), smallest.sum::<u16>()),
    };
    let is_wrong = match bound {
        Bound::Most => value < right,
        Bound::Least => value > right,
    };
    if is_wrong || exact.is_some() {
        found(number_at, value, right, format!("{terms} = {right}"))
    } else {
        None
    }
}

/// Whether a number after a count is what is said of it: a verb stands between.
fn said_after(tokens: &[Token], at: usize, number: usize) -> bool {
    words(tokens, at + 2..number)
        .any(|it| ["is", "are", "be", "makes", "make", "that's", "it's"].contains(&it))
}

/// The words around a count, up to ten on each side, within the sentence and up to another count.
fn sentence(tokens: &[Token], at: usize) -> (usize, usize) {
    let is_other = |it: &Token| matches!(it.is, Kind::Count(..));
    let before = tokens[..at].iter().rev().take(10);
    let start = at - before.take_while(|it| !it.ends && !is_other(it)).count();
    let mut end = at + 1;
    while end < tokens.len() && end - at < 10 && !tokens[end - 1].ends && !is_other(&tokens[end]) {
        end += 1;
    }
    (start, end)
}

/// Whether it is the cells that are bounded: "at least three cells", "no more than three cells", "three cells at most"
/// (but not "three cells at most 21").
fn of_cells(tokens: &[Token], start: usize, at: usize, end: usize) -> Option<Bound> {
    let joined_words = |range: std::ops::Range<usize>| {
        range.map(|it| word(tokens, it).unwrap_or("#")).collect::<Vec<_>>().join(" ")
    };
    let before = joined_words(start.max(at.saturating_sub(3))..at);
    for (ending, bound) in [
        ("at least", Bound::Least),
        ("minimum of", Bound::Least),
        ("no fewer than", Bound::Least),
        ("no less than", Bound::Least),
        ("at most", Bound::Most),
        ("maximum of", Bound::Most),
        ("no more than", Bound::Most),
    ] {
        if before.ends_with(ending) {
            return Some(bound);
        }
    }
    let all_before = joined_words(start.max(at.saturating_sub(8))..at);
    let is_denied = DENIALS.iter().any(|it| all_before.split(' ').any(|word| word == *it));
    for (ending, bound) in
        [("fewer than", Bound::Least), ("less than", Bound::Least), ("more than", Bound::Most)]
    {
        if is_denied && before.ends_with(ending) {
            return Some(bound);
        }
    }
    let after = joined_words(at + 2..end.min(at + 7));
    for (beginning, bound) in [
        ("at the very least", Bound::Least),
        ("at the very most", Bound::Most),
        ("at the least", Bound::Least),
        ("at the most", Bound::Most),
        ("at least", Bound::Least),
        ("at most", Bound::Most),
    ] {
        if after.strip_prefix(beginning).is_some_and(|it| !it.starts_with(" #")) {
            return Some(bound);
        }
    }
    None
}

fn number(tokens: &[Token], at: usize) -> Option<u16> {
    match tokens.get(at)?.is {
        Kind::Number { value, .. } => Some(value),
        _ => None,
    }
}

fn word(tokens: &[Token], at: usize) -> Option<&str> {
    match &tokens.get(at)?.is {
        Kind::Word(it) => Some(it),
        _ => None,
    }
}

fn words(tokens: &[Token], range: std::ops::Range<usize>) -> impl Iterator<Item = &str> {
    tokens[range].iter().filter_map(|it| if let Kind::Word(it) = &it.is { Some(it.as_str()) } else { None })
}

/// The bound that is said there, if any.
fn said_bound(tokens: &[Token], range: std::ops::Range<usize>) -> Option<Bound> {
    let is_denied = words(tokens, range.clone()).any(|it| DENIALS.contains(&it));
    words(tokens, range).find_map(|it| match it {
        "most" | "maximum" | "biggest" | "largest" | "max" => Some(Bound::Most),
        "least" | "minimum" | "smallest" | "lowest" | "min" => Some(Bound::Least),
        "more" | "exceed" | "over" | "above" if is_denied => Some(Bound::Most),
        "less" | "fewer" | "under" | "below" if is_denied => Some(Bound::Least),
        _ => None,
    })
}

/// The fewest and the most digits that make a sum; none for a sum that cannot be made.
fn cells_of(side: u16, sum: u16) -> Option<(u16, u16)> {
    let sizes = (1..=side - 2).filter(|n| set_of(side, sum, *n).is_some());
    let sizes: Vec<u16> = sizes.collect();
    Some((*sizes.first()?, *sizes.last()?))
}

/// So many different filling digits with that sum: as small as the first can be, and so on.
fn set_of(side: u16, sum: u16, n: u16) -> Option<Vec<u16>> {
    let mut set = Vec::new();
    let (mut sum, mut least) = (sum, 2);
    for left in (0..n).rev() {
        // The others are at most the largest digits.
        let rest: u16 = (side - left..side).sum();
        let digit = sum.saturating_sub(rest).max(least);
        set.push(digit);
        sum = sum.checked_sub(digit)?;
        least = digit + 1;
    }
    (sum == 0 && set.last().is_none_or(|it| *it < side)).then_some(set)
}

fn digits(side: u16, sum: u16, n: u16) -> Option<String> {
    set_of(side, sum, n).map(|it| joined(it.into_iter()))
}

fn joined(digits: impl Iterator<Item = u16>) -> String {
    digits.map(|it| it.to_string()).collect::<Vec<_>>().join(" + ")
}
