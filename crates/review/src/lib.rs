//! What was really said in a recording, held against the walkthrough.
//!
//! [`review`] takes a recording's captions as they come and what was to be said ([`Expected`]). It says which step is spoken
//! when and how surely ([`Placing`]), proposes chapters, proof-reads what is reckoned aloud ([`Slip`]), and points out long
//! silences, steps that were never spoken and terms that were misheard; those it also puts right in the captions.
//! [`spoken_at`] and [`answer`] answer a viewer's question about a time, [`correction_note`] says what was wrong.
//!
//! Speakers hardly ever name a cell. So what is listened for is numbers, in order: digits, clues, sums, counts; and
//! the words in a [`Glossary`]. The way through the steps is a hidden Markov model (`path`). Where the likeliest
//! placing is not sure, it is said to be unsure. Left out: who speaks, how it is said, and whether what is said of
//! cells is true, as only the picture tells which is meant.

mod align;
mod arithmetic;
mod ask;
mod bounds;
mod emission;
mod expected;
mod findings;
mod glossary;
mod heard;
mod path;
mod sums;
mod tokens;
mod words;

pub use align::{Match, Placing, SURE};
pub use arithmetic::Slip;
pub use ask::{MOST_WORDS, Spoken, answer, correction_note, spoken_at};
pub use expected::{Expected, ExpectedStep};
pub use findings::{LONG_SILENCE, Misheard, Silence};
pub use glossary::{GLOSSARY, Glossary, GlossaryError};
pub use heard::House;

use captions::{Caption, Chapter, ReadFault, Time};

/// Everything found out about a recording.
#[derive(Clone, PartialEq, Debug)]
pub struct Review {
    /// Whether it is of the puzzle it was held against.
    pub matches: Match,
    /// How much better it fits the steps in their order than in the opposite one, for each number and cue heard, as a
    /// logarithm. Another puzzle's recording has about 0.
    pub fit: f64,
    /// Where each step is spoken.
    pub steps: Vec<Placing>,
    /// Chapters proposed; none if no step is placed.
    pub chapters: Vec<Chapter>,
    /// What was reckoned wrongly, also where it was put right soon after.
    pub slips: Vec<Slip>,
    /// Where nothing is said for long.
    pub silences: Vec<Silence>,
    /// What was misheard.
    pub misheard: Vec<Misheard>,
    /// The captions with that put right.
    pub captions: Vec<Caption>,
    /// What is wrong with the file itself.
    pub faults: Vec<ReadFault>,
    /// When the last caption ends.
    pub total: Time,
}

impl Review {
    /// The steps that were never spoken, by their places; none if the recording is not of this puzzle.
    pub fn unspoken(&self) -> impl Iterator<Item = usize> + '_ {
        let placings = self.steps.iter().enumerate().filter(|_| self.matches != Match::No);
        placings.filter(|it| *it.1 == Placing::NotSpoken).map(|it| it.0)
    }
}

/// Looks at a recording: its captions as a file, WebVTT, SubRip or text with times.
pub fn review(file: &[u8], expected: &Expected, glossary: &Glossary) -> Review {
    let read = captions::read(file);
    Review { faults: read.faults, ..review_captions(&read.captions, expected, glossary) }
}

/// The same for captions that have been read, in order of time.
pub fn review_captions(captions: &[Caption], expected: &Expected, glossary: &Glossary) -> Review {
    let total = captions.iter().map(|it| it.to).max().unwrap_or_default();
    let words = words::words(captions);
    let tokens = tokens::tokens(&words);
    let heard = heard::heard(&words, &tokens, glossary);
    let aligned = align::align(expected, glossary, &words, &heard);
    let misheard = findings::misheard(&words, &heard, &aligned.spoken, expected, glossary);
    Review {
        matches: aligned.matches,
        fit: aligned.fit,
        chapters: findings::proposed(expected, &aligned.placings, total),
        steps: aligned.placings,
        slips: arithmetic::slips(&words, &tokens, expected.side),
        silences: findings::silences(captions, total),
        captions: findings::corrected(captions, &words, &misheard),
        misheard: misheard
            .into_iter()
            .map(|(range, say)| Misheard {
                at: words[range.start].at,
                heard: words[range].iter().map(|it| it.text.as_str()).collect::<Vec<_>>().join(" "),
                say,
            })
            .collect(),
        faults: Vec::new(),
        total,
    }
}
