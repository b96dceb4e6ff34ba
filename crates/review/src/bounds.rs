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
/// A reason near by makes a bound of its own line of it; a supposition or a question none at all.
const REASONS: [&str; 16] = [
    "because", "since", "with", "without", "here", "already", "given", "now", "if", "suppose", "imagine",
    "does", "do", "could", "as", "unless",
];

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
    let filling = side - 2;
    if !CELLS.contains(&noun.as_str()) || *n == 0 || *n > filling {
        return None;
    }
    let clause = clause(tokens, at);
    if words(tokens, clause.clone()).any(|it| REASONS.contains(&it)) {
        return None;
    }
    let before = said_bound(tokens, clause.start..at);
    let after = said_bound(tokens, at + 1..clause.end);
    let numbers: Vec<usize> =
        clause.clone().filter(|it| matches!(tokens[*it].is, Kind::Number { .. })).collect();
    let [number] = numbers[..] else { return None };
    let Kind::Number { value, .. } = tokens[number].is else { return None };
    if value > total {
        return None;
    }
    let first = clause.start.max(at.min(number).saturating_sub(4));
    let found = |last: usize, said: u16, right: u16, because: String| {
        (said != right).then_some(Found { tokens: (first.min(last), last), said, right, because })
    };
    // "at least three cells for 20", "20 takes three cells at most": it is the cells that are bounded.
    let qualifies = before.filter(|it| it.1 == at && it.2).map(|it| it.0);
    let trailing = after.filter(|_| number < at).map(|it| it.0);
    if let Some(it) = qualifies.or(trailing) {
        let (fewest, most) = cells_of(side, value)?;
        let last = at.max(number);
        return match it {
            Bound::Least if *n > fewest => {
                found(last, *n, fewest, format!("{} = {value}", digits(side, value, fewest)?))
            }
            Bound::Most if *n < most => {
                found(last, *n, most, format!("{} = {value}", digits(side, value, most)?))
            }
            _ => None,
        };
    }
    // "the most two cells can be is 15", "two cells hold at most 15", "two cells are 15 at most"
    let (bound, is_exact) = match (before, after) {
        (Some((it, ..)), _) => (it, true),
        (None, Some((it, ..))) => (it, false),
        (None, None) => return None,
    };
    if number < at {
        return None;
    }
    let (smallest, largest) = (2..2 + n, side - n..side);
    let (terms, right) = match bound {
        Bound::Most => (joined(largest.clone()), largest.sum::<u16>()),
        Bound::Least => (joined(smallest.clone()), smallest.sum::<u16>()),
    };
    let is_wrong = match bound {
        Bound::Most => value < right,
        Bound::Least => value > right,
    };
    if is_wrong || is_exact { found(number, value, right, format!("{terms} = {right}")) } else { None }
}

/// The words around a count that can belong to it: up to eight on each side, within the sentence and up to the second
/// number.
fn clause(tokens: &[Token], at: usize) -> std::ops::Range<usize> {
    let is_other = |it: &Token| matches!(it.is, Kind::Count(..));
    let mut start = at;
    while start > 0 && at - start < 7 && !tokens[start - 1].ends && !is_other(&tokens[start - 1]) {
        start -= 1;
    }
    let mut end = at + 1;
    while end < tokens.len() && end - at < 9 && !tokens[end - 1].ends && !is_other(&tokens[end]) {
        end += 1;
        // What is said after the number belongs to it only if it bounds it.
        if matches!(tokens[end - 1].is, Kind::Number { .. }) {
            let more = said_bound(tokens, end..tokens.len().min(end + 3));
            end = more.map_or(end, |it| it.1);
            break;
        }
    }
    // Numbers before belong to it only if there is none after.
    let has_number = tokens[at..end].iter().any(|it| matches!(it.is, Kind::Number { .. }));
    let is_number = |it: &usize| matches!(tokens[*it].is, Kind::Number { .. });
    let first = (start..at).rev().filter(is_number).nth(usize::from(!has_number));
    (first.map_or(start, |it| it + 1))..end
}

fn words(tokens: &[Token], range: std::ops::Range<usize>) -> impl Iterator<Item = &str> {
    tokens[range].iter().filter_map(|it| if let Kind::Word(it) = &it.is { Some(it.as_str()) } else { None })
}

/// The last bound that is said there: which, the token after it, and whether it is of those that stand right before what
/// they bound ("at most", but not "the most").
fn said_bound(tokens: &[Token], range: std::ops::Range<usize>) -> Option<(Bound, usize, bool)> {
    let word = |at: usize| match &tokens.get(at)?.is {
        Kind::Word(it) => Some(it.as_str()),
        _ => None,
    };
    let mut found = None;
    for at in range.clone() {
        let Some(it) = word(at) else { continue };
        let before = at.checked_sub(1).and_then(word).unwrap_or("");
        let (next, then) = (word(at + 1).unwrap_or(""), word(at + 2).unwrap_or(""));
        let denied = range.clone().take_while(|it| *it < at).filter_map(word);
        let is_denied = denied.last().is_some_and(|it| ["no", "not", "be", "never", "than"].contains(&it))
            || range
                .clone()
                .filter(|it| *it < at)
                .filter_map(word)
                .any(|it| ["can't", "cannot", "never", "won't", "no"].contains(&it));
        found = match (before, it, next) {
            ("at", "most", _) => Some((Bound::Most, at + 1, true)),
            ("at", "least", _) => Some((Bound::Least, at + 1, true)),
            ("very", "least", _) => Some((Bound::Least, at + 1, true)),
            ("very", "most", _) => Some((Bound::Most, at + 1, true)),
            (_, "minimum" | "fewest", "of") => Some((Bound::Least, at + 2, true)),
            (_, "maximum", "of") => Some((Bound::Most, at + 2, true)),
            (_, "most" | "maximum" | "biggest" | "largest" | "max", _) => Some((Bound::Most, at + 1, false)),
            (_, "least" | "minimum" | "smallest" | "lowest", _) if then != "of" => {
                Some((Bound::Least, at + 1, false))
            }
            (_, "more", "than") if is_denied => Some((Bound::Most, at + 2, true)),
            (_, "exceed", _) if is_denied => Some((Bound::Most, at + 1, true)),
            (_, "less" | "fewer", "than") if is_denied => Some((Bound::Least, at + 2, true)),
            _ => found,
        };
    }
    found
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
