//! What of the tokens an alignment can go by: numbers, counts, and words that point to techniques.

use std::ops::Range;

use captions::Time;

use crate::Glossary;
use crate::tokens::{Kind, Token};
use crate::words::{Word, says};

/// Something heard that some steps would make a speaker say rather than others.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Heard {
    pub(crate) is: Sign,
    /// Its words.
    pub(crate) words: Range<usize>,
    pub(crate) at: Time,
}

/// What it is.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) enum Sign {
    /// A number, and the digits that it may be instead.
    Number(u16, Option<Vec<u16>>),
    /// So many cells and the like.
    Count(u16),
    /// A phrase of that entry of the glossary.
    Cue(usize),
    /// "this row", "the boxes": which kind of house is looked at.
    House(House),
}

/// Kinds of houses.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum House {
    /// A row.
    Row,
    /// A column.
    Column,
    /// A box.
    Box,
}

impl House {
    /// The kind that a word names.
    pub(crate) fn named(word: &str) -> Option<House> {
        match word {
            "row" | "rows" => Some(House::Row),
            "column" | "columns" => Some(House::Column),
            "box" | "boxes" => Some(House::Box),
            _ => None,
        }
    }
}

/// The kinds of houses that a token names, if it does not belong to the name of a cell ("row three, column five").
pub(crate) fn house(tokens: &[Token], at: usize) -> Option<House> {
    let named = |at: usize| match &tokens.get(at)?.is {
        Kind::Word(it) => House::named(it),
        _ => None,
    };
    let is_place = |at: usize| tokens.get(at).is_some_and(|it| it.is == Kind::Place);
    let begins_cell = is_place(at + 1) && (named(at + 2).is_some() && is_place(at + 3));
    let ends_cell = is_place(at + 1) && at > 1 && is_place(at - 1) && named(at - 2).is_some();
    named(at).filter(|_| !begins_cell && !ends_cell)
}

/// Everything heard, in order.
pub(crate) fn heard(words: &[Word], tokens: &[Token], glossary: &Glossary) -> Vec<Heard> {
    let numbers = tokens.iter().filter_map(|it| {
        let is = match &it.is {
            Kind::Number { value, run } => Sign::Number(*value, run.clone()),
            Kind::Count(n, _) => Sign::Count(*n),
            Kind::Place | Kind::Word(_) => return None,
        };
        Some(Heard { is, words: it.word..it.word + it.n_words, at: it.at })
    });
    let mut heard: Vec<Heard> = numbers.collect();
    let houses = tokens.iter().enumerate().filter_map(|(nth, it)| {
        let words = it.word..it.word + it.n_words;
        house(tokens, nth).map(|kind| Heard { is: Sign::House(kind), words, at: it.at })
    });
    heard.extend(houses);
    for (at, word) in words.iter().enumerate() {
        for (nth, cue) in glossary.cues.iter().enumerate() {
            if let Some(phrase) = cue.phrases.iter().find(|it| says(words, at, it)) {
                let words = at..at + phrase.len();
                heard.push(Heard { is: Sign::Cue(nth), words, at: word.at });
            }
        }
    }
    heard.sort_by_key(|it| it.words.start);
    heard
}
