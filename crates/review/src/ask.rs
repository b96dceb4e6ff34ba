//! A viewer's question about a time of the published recording, and a note where something was said wrongly.

use captions::Time;

use crate::align::Placing;
use crate::arithmetic::Slip;
use crate::{Expected, Review};

/// An answer has no more words.
pub const MOST_WORDS: usize = 80;

/// What is known of a moment of a recording.
#[derive(Clone, PartialEq, Debug)]
pub enum Spoken {
    /// A step is spoken there, by its place among the expected ones.
    Step {
        /// The step.
        step: usize,
        /// How sure that is.
        sure: f64,
    },
    /// It is before the first step that is placed.
    BeforeFirst,
    /// What is spoken there is not known surely; these are the placed steps before and after it.
    Unsure {
        /// The last step that is surely placed before.
        after: Option<usize>,
        /// The first that is surely placed later.
        before: Option<usize>,
    },
}

/// What is spoken at a time of the recording.
///
/// A step is spoken from where it begins until the next that is placed begins; but if a step between the two is unsure,
/// only until the last that was heard of it.
pub fn spoken_at(review: &Review, at: Time) -> Spoken {
    let placed = review.steps.iter().enumerate().filter_map(|(step, it)| match it {
        Placing::At { from, to, sure } => Some((*from, *to, step, *sure)),
        Placing::Unsure { .. } | Placing::NotSpoken => None,
    });
    let mut placed: Vec<_> = placed.collect();
    placed.sort_by_key(|it| it.0);
    let next = placed.iter().position(|it| it.0 > at).unwrap_or(placed.len());
    let before = placed.get(next).map(|it| it.2);
    let Some(&(_, to, step, sure)) = next.checked_sub(1).map(|it| &placed[it]) else {
        return if before.is_some() { Spoken::BeforeFirst } else { Spoken::Unsure { after: None, before } };
    };
    let until = placed.get(next).map(|it| it.0);
    let hides = |it: &Placing| matches!(it, Placing::Unsure { perhaps: Some(it), .. } if *it > to && until.is_none_or(|until| *it < until));
    if at <= to || !review.steps.iter().any(hides) {
        Spoken::Step { step, sure }
    } else {
        Spoken::Unsure { after: Some(step), before }
    }
}

/// The answer to a question about a step, in at most [`MOST_WORDS`] words: as it was to be said, shortened to its first
/// sentences and its last where it is longer.
pub fn answer(expected: &Expected, step: usize) -> String {
    let Some(step) = expected.steps.get(step) else { return String::new() };
    shortened(&step.says, MOST_WORDS)
}

fn shortened(text: &str, most: usize) -> String {
    let sentences: Vec<&str> = text.split_inclusive([' ', '\n']).collect();
    if sentences.len() <= most {
        return text.split_whitespace().collect::<Vec<_>>().join(" ");
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    let ends = |it: &&str| it.ends_with(['.', '?', '!', ':']);
    // The last sentence, which says what follows, cut at its end if it is too long by itself.
    let last = words[..words.len() - 1].iter().rposition(ends).map_or(0, |it| it + 1);
    let last = &words[last.max(words.len().saturating_sub(most - 1))..];
    let room = most - last.len() - 1;
    let first = words[..room].iter().rposition(ends).map_or(0, |it| it + 1);
    let parts: Vec<&str> = words[..first].iter().copied().chain(["…"]).chain(last.iter().copied()).collect();
    parts.join(" ")
}

/// A note to put under the recording: what was said wrongly, when, and what is right.
pub fn correction_note(slip: &Slip) -> String {
    let (at, said, right) = (slip.at.clock(), slip.said, slip.right);
    format!("At {at} I say {said} where it should be {right}: {}.", slip.because)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn answers_are_short_and_keep_what_follows() {
        let filler = "This takes some words to say. ".repeat(20);
        let long = format!("Look here first. {filler}So row 4, column 2 is 7.");
        let it = shortened(&long, MOST_WORDS);
        assert!(it.split_whitespace().count() <= MOST_WORDS, "{it}");
        assert!(it.starts_with("Look here first. This takes"), "{it}");
        assert!(it.ends_with("say. … So row 4, column 2 is 7."), "{it}");
        let endless = "word ".repeat(200);
        assert_eq!(shortened(&endless, MOST_WORDS).split_whitespace().count(), MOST_WORDS);
        assert_eq!(
            shortened("Only 5 is missing.\nSo it is 5.", MOST_WORDS),
            "Only 5 is missing. So it is 5."
        );
    }

    #[test]
    fn a_note_says_when_and_what() {
        let slip = Slip {
            from: Time::seconds(722),
            at: Time::seconds(725),
            quote: "three five and six make thirteen".to_owned(),
            said: 13,
            right: 14,
            because: "3 + 5 + 6 = 14".to_owned(),
            corrected: None,
        };
        assert_eq!(correction_note(&slip), "At 12:05 I say 13 where it should be 14: 3 + 5 + 6 = 14.");
    }
}
