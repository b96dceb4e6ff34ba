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
