//! Captions to words, each with its place and its time.
//!
//! A word's time is reckoned from where it stands in its caption, as if everything in it took equally long to say. What is
//! in brackets (`[music]`) is not spoken and left out.

use std::ops::Range;

use captions::{Caption, Time};

/// A word as it is spoken.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Word {
    /// In small letters, without what is around it: `it's`, `19`, `thirty-five` is two.
    pub(crate) text: String,
    /// Which caption it is in, and where.
    pub(crate) caption: usize,
    pub(crate) range: Range<usize>,
    /// When it is said.
    pub(crate) at: Time,
    /// Whether a sentence or a part of one ends after it.
    pub(crate) stops: bool,
    /// Whether a sentence ends after it.
    pub(crate) ends: bool,
}

/// Every word of the captions, in order.
pub(crate) fn words(captions: &[Caption]) -> Vec<Word> {
    let mut words = Vec::new();
    for (caption, it) in captions.iter().enumerate() {
        in_caption(caption, it, &mut words);
    }
    words
}

fn in_caption(caption: usize, it: &Caption, words: &mut Vec<Word>) {
    let text = &it.text;
    let lasts = it.to.since(it.from).0;
    let at = |byte: usize| it.from + Time(lasts.saturating_mul(byte as u64) / (text.len() as u64).max(1));
    let mut begins: Option<usize> = None;
    let mut brackets = 0_u32;
    let n_before = words.len();
    for (byte, c) in text.char_indices().chain([(text.len(), ' ')]) {
        let joins = c.is_alphanumeric()
            || (['\'', '’', ':', '.', ','].contains(&c) && joins(text, byte, c))
            || (c == '-' && text[..byte].ends_with(['x', 'X']));
        match (joins && brackets == 0, begins) {
            (true, None) => begins = Some(byte),
            (false, Some(begin)) => {
                let text = text[begin..byte].to_lowercase().replace('’', "'");
                words.push(Word {
                    text,
                    caption,
                    range: begin..byte,
                    at: at(begin),
                    stops: false,
                    ends: false,
                });
                begins = None;
            }
            _ => {}
        }
        match c {
            '[' => brackets += 1,
            ']' => brackets = brackets.saturating_sub(1),
            '.' | ',' | ';' | ':' | '?' | '!' | '–' | '—' | '…' if !joins => {
                if let Some(last) = words.get_mut(n_before..).and_then(<[Word]>::last_mut) {
                    last.stops = true;
                    last.ends |= ['.', '?', '!', ';', '…'].contains(&c);
                }
            }
            _ => {}
        }
    }
}

/// Whether a sign within a word belongs to it: `it's`, `12:05`, `1.5`, but not the dot at the end of a sentence.
fn joins(text: &str, byte: usize, sign: char) -> bool {
    let before = text[..byte].chars().next_back();
    let after = text[byte + sign.len_utf8()..].chars().next();
    match sign {
        '\'' | '’' => [before, after].iter().all(|it| it.is_some_and(char::is_alphabetic)),
        // `3,5` is two digits that a captioner wrote close together.
        ',' => false,
        _ => [before, after].iter().all(|it| it.is_some_and(|it| it.is_ascii_digit())),
    }
}

/// Whether the phrase stands at that place.
pub(crate) fn says(words: &[Word], at: usize, phrase: &[String]) -> bool {
    !phrase.is_empty()
        && words.len() >= at + phrase.len()
        && words[at..].iter().zip(phrase).all(|(word, it)| word.text == *it)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(text: &str) -> Vec<String> {
        let caption = Caption { from: Time(0), to: Time(1_000), text: text.to_owned() };
        let it = words(&[caption]).into_iter();
        it.map(|it| format!("{}{}", it.text, if it.stops { "|" } else { "" })).collect()
    }

    #[test]
    fn words_are_found_with_their_stops() {
        for (text, expected) in [
            ("So, it’s a 5.", "so| it's a 5|"),
            ("thirty-five at 12:05 [music] 3,5", "thirty five at 12:05 3| 5"),
            ("an X-wing\n— no", "an x-wing| no"),
            ("", ""),
            ("... 1.5", "1.5"),
        ] {
            assert_eq!(texts(text).join(" "), expected, "{text}");
        }
    }

    #[test]
    fn a_word_is_said_where_it_stands() {
        let caption = Caption { from: Time(10_000), to: Time(20_000), text: "abcd efgh ".to_owned() };
        let it = words(&[caption]);
        assert_eq!(it.iter().map(|it| it.at.0).collect::<Vec<_>>(), [10_000, 15_000]);
    }
}
