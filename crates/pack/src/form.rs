//! The forms in which a booklet is printed.

use std::fmt;
use std::str::FromStr;

/// How a booklet is laid out and printed. The default is what most home printers and eyes are fit for.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
pub struct Form {
    /// The paper.
    pub paper: Paper,
    /// The ink.
    pub ink: Ink,
    /// How many puzzles share a page, and how large they are.
    pub layout: Layout,
    /// Whether the whole walkthroughs are in an appendix.
    pub walkthroughs: bool,
}

/// A size of paper.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
pub enum Paper {
    /// A4 of ISO 216: 210 by 297 mm.
    #[default]
    A4,
    /// US Letter of ANSI/ASME Y14.1: 8.5 by 11 inches.
    Letter,
}

/// What a booklet is printed with.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
pub enum Ink {
    /// Black, a blue pencil, and grey.
    #[default]
    Colour,
    /// Black alone, without a grey.
    Black,
}

/// How many puzzles share a page.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
pub enum Layout {
    /// One, with room for notes.
    #[default]
    One,
    /// Two.
    Two,
    /// Four.
    Four,
    /// One as large as it gets, and all type large: cells of 20 mm on boards up to 9x9.
    Large,
}

/// The words of a form, each with what it sets; the first of each pair or group is what goes without saying.
pub const FORM_WORDS: [&str; 9] =
    ["a4", "letter", "colour", "black", "one", "two", "four", "large", "walkthroughs"];

/// A word that says nothing of a form, or two that say different things.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct NoForm(pub String);

impl fmt::Display for NoForm {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "\"{}\" does not say how a booklet is printed; words for that are {}",
            self.0,
            FORM_WORDS.join(", ")
        )
    }
}

impl std::error::Error for NoForm {}

/// Reads words joined by `+`, such as `letter+black+two`; what is not said is as usual.
impl FromStr for Form {
    type Err = NoForm;

    fn from_str(text: &str) -> Result<Form, NoForm> {
        let (mut paper, mut ink, mut layout, mut walkthroughs) = (None, None, None, false);
        for word in text.split('+').map(str::trim) {
            let is_new = match word {
                "a4" => paper.replace(Paper::A4).is_none(),
                "letter" => paper.replace(Paper::Letter).is_none(),
                "colour" => ink.replace(Ink::Colour).is_none(),
                "black" => ink.replace(Ink::Black).is_none(),
                "one" => layout.replace(Layout::One).is_none(),
                "two" => layout.replace(Layout::Two).is_none(),
                "four" => layout.replace(Layout::Four).is_none(),
                "large" => layout.replace(Layout::Large).is_none(),
                "walkthroughs" => !std::mem::replace(&mut walkthroughs, true),
                _ => false,
            };
            if !is_new {
                return Err(NoForm(word.to_owned()));
            }
        }
        Ok(Form {
            paper: paper.unwrap_or_default(),
            ink: ink.unwrap_or_default(),
            layout: layout.unwrap_or_default(),
            walkthroughs,
        })
    }
}

/// The words that set it apart from the usual form, joined by hyphens: `letter-black-two`; nothing for the usual form.
impl fmt::Display for Form {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let paper = (self.paper == Paper::Letter).then_some("letter");
        let ink = (self.ink == Ink::Black).then_some("black");
        let layout = match self.layout {
            Layout::One => None,
            Layout::Two => Some("two"),
            Layout::Four => Some("four"),
            Layout::Large => Some("large"),
        };
        let walkthroughs = self.walkthroughs.then_some("walkthroughs");
        let words: Vec<&str> = [paper, ink, layout, walkthroughs].into_iter().flatten().collect();
        f.write_str(&words.join("-"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_form_is_read_from_its_words_in_any_order() {
        let form = "black+two+letter".parse::<Form>().unwrap();
        assert_eq!(
            form,
            Form { paper: Paper::Letter, ink: Ink::Black, layout: Layout::Two, walkthroughs: false }
        );
        assert_eq!(form.to_string(), "letter-black-two");
        assert_eq!("a4".parse::<Form>(), Ok(Form::default()));
        assert_eq!(Form::default().to_string(), "");
        for word in FORM_WORDS {
            let form = word.parse::<Form>().unwrap();
            assert!(form == Form::default() || form.to_string() == word, "{word}");
        }
        for bad in ["", "a5", "a4+letter", "one+large", "walkthroughs+walkthroughs", "a4,two"] {
            assert!(bad.parse::<Form>().is_err(), "{bad}");
        }
    }
}
