//! A spoken text as captions that can be read in the time there is.

use crate::{Caption, Time};

/// How much a caption may hold, and how fast it may have to be read.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Limits {
    /// The most words a minute.
    pub words_a_minute: u64,
    /// The most characters of a line.
    pub line: usize,
    /// The most lines.
    pub lines: usize,
}

/// At most 180 words a minute and two lines: the BBC's subtitle guidelines, which have 160 to 180. A line of at
/// most 42 characters is common practice, no source.
pub const READABLE: Limits = Limits { words_a_minute: 180, line: 42, lines: 2 };

impl Limits {
    /// How long a text has to be shown at least.
    pub fn least(&self, n_words: usize) -> Time {
        Time((n_words as u64 * 60_000).div_ceil(self.words_a_minute))
    }
}

/// The text as captions that follow each other from one moment to another, each shown in proportion to
/// its words; none if it cannot be read in that time.
///
/// Captions end where a sentence does or, in long ones, where a part of it or at least a word does.
pub fn within(text: &str, from: Time, to: Time, limits: Limits) -> Option<Vec<Caption>> {
    let pieces = pieces(text, limits);
    let words: Vec<usize> = pieces.iter().map(|it| n_words(it)).collect();
    let all: usize = words.iter().sum();
    let time = to.since(from);
    if all == 0 {
        return Some(Vec::new());
    }
    let mut said = 0;
    let at = |said: usize| from + Time(time.0 * said as u64 / all as u64);
    let captions: Vec<Caption> = (pieces.into_iter().zip(&words))
        .map(|(text, n)| {
            let begins = at(said);
            said += n;
            Caption { from: begins, to: at(said), text }
        })
        .collect();
    // Shares are rounded to a millisecond, so each is looked at by itself.
    let is_readable = captions.iter().zip(words).all(|(it, n)| it.lasts() >= limits.least(n));
    is_readable.then_some(captions)
}

/// The text in pieces that fit a caption, each laid out in lines.
fn pieces(text: &str, limits: Limits) -> Vec<String> {
    let mut pieces: Vec<String> = Vec::new();
    for sentence in sentences(text) {
        let mut rest: Vec<&str> = sentence;
        while !rest.is_empty() {
            let most = fitting(&rest, limits);
            let n = if most == rest.len() { most } else { good_end(&rest[..most]) };
            pieces.push(laid_out(&rest[..n], limits));
            rest.drain(..n);
        }
    }
    pieces
}

/// The words of each sentence.
fn sentences(text: &str) -> Vec<Vec<&str>> {
    let mut sentences = vec![Vec::new()];
    for line in text.lines() {
        for word in line.split_whitespace() {
            if let Some(last) = sentences.last_mut() {
                last.push(word);
            }
            if word.ends_with(['.', '?', '!']) {
                sentences.push(Vec::new());
            }
        }
        sentences.push(Vec::new());
    }
    sentences.retain(|it| !it.is_empty());
    sentences
}

/// How many of the words fit a caption, at least one.
fn fitting(words: &[&str], limits: Limits) -> usize {
    (1..=words.len())
        .take_while(|n| lines(&words[..*n], limits.line).len() <= limits.lines)
        .last()
        .unwrap_or(1)
}

/// Where a caption that must break off within a sentence does so: after the last comma or the like in its later half, else
/// with its last word.
fn good_end(words: &[&str]) -> usize {
    let ends = |it: &&str| it.ends_with([',', ';', ':']);
    let later = words.iter().rposition(ends).map(|it| it + 1).filter(|it| it * 2 >= words.len());
    later.unwrap_or(words.len())
}

/// The words in lines, the first of two about as long as the second.
fn laid_out(words: &[&str], limits: Limits) -> String {
    let n = lines(words, limits.line).len();
    // The narrowest lines that are as few: so they are about equally long.
    let width = (1..=limits.line).find(|it| lines(words, *it).len() <= n).unwrap_or(limits.line);
    lines(words, width).join("\n")
}

/// The words in lines of at most that many characters; a longer word has a line of its own.
fn lines(words: &[&str], width: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= width => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push((*word).to_owned()),
        }
    }
    lines
}

fn n_words(text: &str) -> usize {
    let caption = Caption { from: Time(0), to: Time(0), text: text.to_owned() };
    // A sign that stands alone is read too, and nothing is shown in no time.
    caption.n_words().max(1)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn texts(text: &str, seconds: u64) -> Option<Vec<String>> {
        let captions = within(text, Time(0), Time::seconds(seconds), READABLE)?;
        Some(captions.into_iter().map(|it| it.text).collect())
    }

    #[test]
    fn captions_end_with_sentences() {
        let text = "Row 4 has a clue of 22. So its crusts are not in the middle.";
        assert_eq!(
            texts(text, 10).unwrap(),
            ["Row 4 has a clue of 22.", "So its crusts are not in the middle."]
        );
        let long = "The digits two, three, four and five are already fourteen together, so thirteen leaves \
                    at most three cells between the crusts of this row.";
        assert_eq!(
            texts(long, 20).unwrap(),
            [
                "The digits two, three, four and\nfive are already fourteen together,",
                "so thirteen leaves at most three\ncells between the crusts of this row."
            ]
        );
    }

    #[test]
    fn what_cannot_be_read_in_time_is_refused() {
        // The limit is 180 words a minute, three a second.
        assert!(within("one two three four five six", Time(0), Time(2_000), READABLE).is_some());
        assert!(within("one two three four five six", Time(0), Time(1_999), READABLE).is_none());
        assert_eq!(texts("", 0), Some(Vec::new()));
        assert_eq!(texts("word", 0), None);
    }

    proptest! {
        #[test]
        fn every_caption_keeps_the_limits(text in "([a-zß.,]{1,50} ?){0,60}", seconds in 0_u64..120) {
            let all: Vec<&str> = text.split_whitespace().collect();
            if let Some(captions) = within(&text, Time(0), Time::seconds(seconds), READABLE) {
                let mut at = Time(0);
                for it in &captions {
                    prop_assert_eq!(it.from, at, "no gap");
                    at = it.to;
                    let words: Vec<&str> = it.text.split_whitespace().collect();
                    prop_assert!(it.text.lines().count() <= 2);
                    prop_assert!(it.text.lines().all(|it| it.chars().count() <= 42 || !it.contains(' ')));
                    prop_assert!(it.words_a_minute() <= 180.0 || words.is_empty());
                }
                let said: Vec<String> = captions.iter()
                    .flat_map(|it| it.text.split_whitespace().map(str::to_owned).collect::<Vec<_>>()).collect();
                prop_assert_eq!(said, all, "nothing is lost");
            }
        }
    }
}
