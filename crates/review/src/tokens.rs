//! What of the words tells anything: numbers, and what kind of number each is.
//!
//! "this one" is no digit, "row three, column five" no sum, "three cells" a count. A numeral of several digits may
//! be a number or digits run together: "one nine" is often captioned 19. Both readings are kept, and whoever
//! reads decides by what fits. Fillers are dropped here.

use captions::Time;

use crate::words::Word;

/// Something said that tells something.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Token {
    pub(crate) is: Kind,
    /// Its first word and how many there are.
    pub(crate) word: usize,
    pub(crate) n_words: usize,
    pub(crate) at: Time,
    /// Whether a part of a sentence ends with it.
    pub(crate) stops: bool,
    /// Whether a sentence ends with it.
    pub(crate) ends: bool,
}

/// What it is.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) enum Kind {
    /// A number, and the digits that it may be if they were run together.
    Number { value: u16, run: Option<Vec<u16>> },
    /// So many cells, digits, ways and the like; with the noun.
    Count(u16, String),
    /// The number of a row, column or box.
    Place,
    /// Any other word.
    Word(String),
}

/// Sounds that say nothing.
const FILLERS: [&str; 14] = [
    "uh",
    "um",
    "er",
    "erm",
    "uhm",
    "hmm",
    "mm",
    "ah",
    "oh",
    "like",
    "basically",
    "literally",
    "obviously",
    "y'know",
];

const HOUSES: [&str; 8] = ["row", "rows", "column", "columns", "box", "boxes", "step", "puzzle"];

/// Nouns of which a number before them counts some.
const COUNTED: [&str; 38] = [
    "cell",
    "cells",
    "digit",
    "digits",
    "place",
    "places",
    "spot",
    "spots",
    "square",
    "squares",
    "option",
    "options",
    "way",
    "ways",
    "pair",
    "pairs",
    "box",
    "boxes",
    "row",
    "rows",
    "column",
    "columns",
    "number",
    "numbers",
    "more",
    "clue",
    "clues",
    "times",
    "minutes",
    "minute",
    "seconds",
    "second",
    "possibilities",
    "combinations",
    "things",
    "thing",
    "steps",
    "crusts",
];

/// Before "one" these make a pointing word of it, not a digit.
const POINTING: [&str; 22] = [
    "this", "that", "these", "those", "which", "other", "next", "last", "another", "each", "every", "any",
    "no", "same", "first", "only", "final", "easy", "nice", "tricky", "little", "second",
];

/// After "one" these make a pointing word of it ("the one that", "one of").
const POINTED: [&str; 10] = ["that", "where", "which", "we", "i", "of", "by", "thing", "way", "here's"];

/// The tokens of the words, fillers dropped.
pub(crate) fn tokens(words: &[Word]) -> Vec<Token> {
    let mut tokens: Vec<Token> = Vec::new();
    let mut at = 0;
    // Whether what comes next is the number of a house, or another of a list of such.
    let mut names_house = false;
    while at < words.len() {
        let word = &words[at];
        let (is, n_words) = match number(words, at) {
            Some((value, run, n_words)) => {
                let next = words.get(at + n_words).map_or("", |it| it.text.as_str());
                let stops = words[at + n_words - 1].stops;
                if names_house {
                    (Kind::Place, n_words)
                } else if value == 1 && is_pointing(words, at) {
                    (Kind::Word("one".to_owned()), n_words)
                } else if !stops && COUNTED.contains(&next) {
                    (Kind::Count(value, next.to_owned()), n_words)
                } else if !stops && ["empty", "filling", "different", "separate", "of"].contains(&next) && {
                    let after = words.get(at + n_words + 1).map_or("", |it| it.text.as_str());
                    COUNTED.contains(&after) || ["these", "those", "them"].contains(&after)
                } {
                    (Kind::Count(value, "cells".to_owned()), n_words)
                } else {
                    (Kind::Number { value, run }, n_words)
                }
            }
            None => (Kind::Word(word.text.clone()), 1),
        };
        let last = &words[at + n_words - 1];
        names_house = match &is {
            Kind::Word(it) if HOUSES.contains(&it.as_str()) => true,
            // A list of places goes on: "columns two, four and six".
            Kind::Word(it) if names_house => ["and", "to", "or", "number"].contains(&it.as_str()),
            Kind::Place => {
                let next = words.get(at + n_words).map_or("", |it| it.text.as_str());
                ["and", "or", "to"].contains(&next) && is_list(words, at)
            }
            _ => false,
        };
        let is_filler = matches!(&is, Kind::Word(it) if FILLERS.contains(&it.as_str()));
        if is_filler {
            // A pause after a filler is one after the word before it.
            if let Some(before) = tokens.last_mut() {
                before.stops |= last.stops;
                before.ends |= last.ends;
            }
        } else {
            tokens.push(Token { is, word: at, n_words, at: word.at, stops: last.stops, ends: last.ends });
        }
        at += n_words;
    }
    tokens
}

/// Whether several houses are listed: only the plural lists ("columns two and four", but "row two and four").
fn is_list(words: &[Word], at: usize) -> bool {
    let back = words[..at].iter().rev().take(6);
    back.map(|it| it.text.as_str()).find(|it| HOUSES.contains(it)).is_some_and(|it| it.ends_with('s'))
}

fn is_pointing(words: &[Word], at: usize) -> bool {
    let before = at.checked_sub(1).map_or("", |it| words[it].text.as_str());
    let before_stops = at.checked_sub(1).is_some_and(|it| words[it].stops);
    let after = words.get(at + 1).map_or("", |it| it.text.as_str());
    // The digit is written 1 more often than the pronoun is.
    let is_word = words[at].text == "one";
    is_word
        && ((POINTING.contains(&before) && !before_stops) || (!words[at].stops && POINTED.contains(&after)))
}

/// A number that begins there, the digits that it may be instead, and how many words it takes.
fn number(words: &[Word], at: usize) -> Option<(u16, Option<Vec<u16>>, usize)> {
    // "the 2s"
    let text = &words[at].text;
    let text = text.strip_suffix('s').filter(|it| it.len() == 1).unwrap_or(text);
    if text.bytes().all(|it| it.is_ascii_digit()) && text.len() <= 9 {
        let value: u32 = text.parse().ok()?;
        let digits: Vec<u16> = text.bytes().map(|it| u16::from(it - b'0')).collect();
        let run = (digits.len() > 1 && digits.iter().all(|it| *it > 0)).then_some(digits);
        return match u16::try_from(value).ok().filter(|it| *it < 1_000) {
            Some(value) => Some((value, run, 1)),
            None => run.map(|run| (u16::MAX, Some(run), 1)),
        };
    }
    let follows = |at: usize| (!words[at - 1].stops).then(|| words.get(at)).flatten();
    // "a hundred and nineteen", "one hundred nineteen"
    if ["a", "one"].contains(&text) && follows(at + 1).is_some_and(|it| it.text == "hundred") {
        let and = usize::from(follows(at + 2).is_some_and(|it| it.text == "and"));
        let rest =
            follows(at + 2).and(words.get(at + 2 + and)).and_then(|_| below_hundred(words, at + 2 + and));
        return Some(rest.map_or((100, None, 2), |(value, n)| (100 + value, None, 2 + and + n)));
    }
    let (value, n_words) = below_hundred(words, at)?;
    // "thirty five" may be 35 or what is said of the digits 30 and 5, which do not exist: 35 it is.
    Some((value, None, n_words))
}

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
const TENS: [&str; 8] = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];

fn below_hundred(words: &[Word], at: usize) -> Option<(u16, usize)> {
    let word = words.get(at)?;
    let singular = match word.text.as_str() {
        // "the threes", "two sevens"
        "ones" | "twos" | "threes" | "fours" | "fives" | "sevens" | "eights" | "nines" => {
            &word.text[..word.text.len() - 1]
        }
        "sixes" => "six",
        "nought" | "nothing" => "zero",
        it => it,
    };
    if let Some(it) = SMALL.iter().position(|it| *it == singular) {
        return Some((it as u16, 1));
    }
    let ten = TENS.iter().position(|it| *it == word.text)?;
    let ten = (ten as u16 + 2) * 10;
    let next = (!word.stops).then(|| words.get(at + 1)).flatten();
    let unit = next.and_then(|it| SMALL[1..10].iter().position(|unit| *unit == it.text));
    Some(unit.map_or((ten, 1), |it| (ten + it as u16 + 1, 2)))
}

#[cfg(test)]
mod tests {
    use captions::Caption;

    use super::*;

    /// Numbers as `5`, with digits that they may be `19(1 9)`, counts `3 cells`, places `@`.
    fn told(text: &str) -> String {
        let caption = Caption { from: Time(0), to: Time(1_000), text: text.to_owned() };
        let words = crate::words::words(&[caption]);
        let told = tokens(&words).into_iter().filter_map(|it| match it.is {
            Kind::Number { value, run: None } => Some(value.to_string()),
            Kind::Number { value, run: Some(run) } => {
                let run: Vec<String> = run.iter().map(u16::to_string).collect();
                Some(format!("{value}({})", run.join(" ")))
            }
            Kind::Count(n, noun) => Some(format!("{n} {noun}")),
            Kind::Place => Some("@".to_owned()),
            Kind::Word(_) => None,
        });
        told.collect::<Vec<_>>().join(", ")
    }

    #[test]
    fn numbers_are_told_apart() {
        for (text, expected) in [
            ("three, five and six make thirteen", "3, 5, 6, 13"),
            ("the clue is thirty five, so 19 goes here", "35, 19(1 9)"),
            ("thirty, five", "30, 5"),
            ("a hundred and nineteen and one hundred four", "119, 104"),
            ("this one sees that one, one of these, the other one", ""),
            ("the one and the nine", "1, 9"),
            ("row three column five is seven", "@, @, 7"),
            ("columns two and four and six have a nine", "@, @, @, 9"),
            ("row 2 and a 5", "@, 5"),
            ("at least three cells, two empty cells, four of these", "3 cells, 2 cells, 4 cells"),
            ("at 12:05 there are two sevens", "2, 7"),
            ("twenty um two", "20, 2"),
            ("the 2s there and 6s", "2, 6"),
            ("356 make 14", "356(3 5 6), 14(1 4)"),
            ("123456789", "65535(1 2 3 4 5 6 7 8 9)"),
            ("nothing between them", "0"),
        ] {
            assert_eq!(told(text), expected, "{text}");
        }
    }
}
