//! Proof-reads what is reckoned aloud: sums, differences and bounds.
//!
//! Whatever is not surely reckoned is let pass: talk is full of numbers, and a proof-reader that cries wolf is switched
//! off. So counting, "one or nine", the names of cells, times, questions and what is only supposed are no sums.
//! How sums are put is looked for in `sums`, bounds in `bounds`.

use captions::Time;

use crate::bounds::bounds;
use crate::sums::sums;
use crate::tokens::{Kind, Token};
use crate::words::Word;

/// Something wrong that was said.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Slip {
    /// When it begins.
    pub from: Time,
    /// When its last word begins.
    pub at: Time,
    /// What was said, word by word.
    pub quote: String,
    /// The number that is wrong.
    pub said: u16,
    /// What it should have been.
    pub right: u16,
    /// The reckoning, written out: `3 + 5 + 6 = 14`.
    pub because: String,
    /// When it was put right, if it was.
    pub corrected: Option<Time>,
}

/// A slip by its tokens, before it is known whether it was put right.
pub(crate) struct Found {
    /// First token and last; the last is the number that is wrong unless `number` says otherwise.
    pub(crate) tokens: (usize, usize),
    pub(crate) said: u16,
    pub(crate) right: u16,
    pub(crate) because: String,
}

/// The slips of what is said, in order, on a board with digits up to `side`.
pub(crate) fn slips(words: &[Word], tokens: &[Token], side: u16) -> Vec<Slip> {
    let (wrong, right) = sums(words, tokens, side);
    let mut found: Vec<Found> = wrong;
    found.extend(bounds(tokens, side));
    found.sort_by_key(|it| it.tokens);
    found.dedup_by_key(|it| it.tokens.1);
    let slip = |it: Found| {
        let (first, last) = (&tokens[it.tokens.0], &tokens[it.tokens.1]);
        let quote: Vec<&str> =
            words[first.word..last.word + last.n_words].iter().map(|it| it.text.as_str()).collect();
        let corrected = corrected(tokens, &it, &right);
        Slip {
            from: first.at,
            at: last.at,
            quote: quote.join(" "),
            said: it.said,
            right: it.right,
            because: it.because,
            corrected,
        }
    };
    found.into_iter().map(slip).collect()
}

/// Words with which speakers take something back.
const SORRY: [&str; 16] = [
    "sorry",
    "no",
    "wait",
    "mean",
    "actually",
    "rather",
    "correction",
    "oops",
    "correct",
    "wrong",
    "excuse",
    "hang",
    "pardon",
    "whoops",
    "mistake",
    "apologies",
];
/// How many tokens after a slip it can be taken back, and how many more until what is right is said.
const SOON: usize = 6;
const THEN: usize = 7;
/// How many tokens after a slip the same sum can be said once more and rightly.
const AGAIN: usize = 25;

/// When a slip was put right, if that was soon: by "no, fourteen", or by the same sum said again.
fn corrected(tokens: &[Token], slip: &Found, right: &[(usize, u16)]) -> Option<Time> {
    let after = slip.tokens.1 + 1;
    let again = right.iter().find(|(at, sum)| *at >= after && *at < after + AGAIN && *sum == slip.right);
    let at = put_right(tokens, slip.tokens.1, slip.right).or(again.map(|it| it.0));
    at.map(|it| tokens[it].at)
}

/// Whether a speaker takes back what was just said, and says this instead.
pub(crate) fn is_put_right(tokens: &[Token], said: usize, right: u16) -> bool {
    put_right(tokens, said, right).is_some()
}

fn put_right(tokens: &[Token], said: usize, right: u16) -> Option<usize> {
    let says = |at: usize, word: &str| {
        tokens.get(at).is_some_and(|it| matches!(&it.is, Kind::Word(it) if it == word))
    };
    let is_sorry =
        |at: &usize| SORRY.iter().any(|it| says(*at, it)) || (says(*at, "make") && says(at + 1, "that"));
    let sorry = (said + 1..tokens.len()).take(SOON).find(is_sorry)?;
    let mut then = (sorry..tokens.len()).take(THEN);
    then.find(|it| value(&tokens[*it]) == Some(right))
}

fn value(token: &Token) -> Option<u16> {
    match token.is {
        Kind::Number { value, .. } | Kind::Count(value, _) => Some(value),
        Kind::Place | Kind::Word(_) => None,
    }
}

#[cfg(test)]
mod tests;
