//! The editable list of what captions get wrong, and of words that point to a technique.

use std::fmt;

use serde::Deserialize;

/// The list that Galley brings along, in TOML; it says itself what its entries mean.
pub const GLOSSARY: &str = include_str!("glossary.toml");

/// What is commonly misheard, and what speakers call techniques.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Glossary {
    pub(crate) terms: Vec<Term>,
    pub(crate) cues: Vec<Cue>,
}

/// A term and what captions make of it, each as its words.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Term {
    pub(crate) say: String,
    pub(crate) heard: Vec<Vec<String>>,
}

/// Phrases, each as its words, and the techniques that they point to.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Cue {
    pub(crate) phrases: Vec<Vec<String>>,
    pub(crate) techniques: Vec<String>,
}

/// Why a list cannot be read, with the line and what stands in it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct GlossaryError(String);

impl fmt::Display for GlossaryError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the glossary cannot be read: {}", self.0)
    }
}

impl std::error::Error for GlossaryError {}

/// The file as it is written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    #[serde(default)]
    term: Vec<FileTerm>,
    #[serde(default)]
    cue: Vec<FileCue>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FileTerm {
    say: String,
    heard: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FileCue {
    words: Vec<String>,
    techniques: Vec<String>,
}

impl Glossary {
    /// The list in that text.
    ///
    /// # Errors
    ///
    /// If it is no TOML, or has other fields than such a list.
    pub fn read(text: &str) -> Result<Glossary, GlossaryError> {
        let file: File =
            toml::from_str(text).map_err(|it| GlossaryError(it.to_string().trim_end().to_owned()))?;
        let terms = file.term.into_iter();
        let terms =
            terms.map(|it| Term { heard: it.heard.iter().map(|it| words(it)).collect(), say: it.say });
        let cues = file.cue.into_iter();
        let cues = cues.map(|it| Cue {
            phrases: it.words.iter().map(|it| words(it)).collect(),
            techniques: it.techniques,
        });
        Ok(Glossary { terms: terms.collect(), cues: cues.collect() })
    }

    /// The list that Galley brings along.
    pub fn of_galley() -> Glossary {
        Glossary::read(GLOSSARY).unwrap_or_else(|it| unreachable!("a test reads it: {it}"))
    }
}

fn words(phrase: &str) -> Vec<String> {
    phrase.split_whitespace().map(str::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn the_list_that_is_brought_along_can_be_read() {
        let it = Glossary::of_galley();
        assert!(it.terms.len() > 10 && it.cues.len() > 10);
        // Nothing is heard for two terms, and no term for itself.
        let heard: Vec<_> = it.terms.iter().flat_map(|it| &it.heard).collect();
        assert_eq!(heard.iter().collect::<BTreeSet<_>>().len(), heard.len());
        assert!(it.terms.iter().all(|it| !it.heard.contains(&words(&it.say))));
    }

    #[test]
    fn every_technique_it_points_to_exists() {
        let known: BTreeSet<&str> = tell::known_techniques().iter().map(|it| it.id.name()).collect();
        for cue in Glossary::of_galley().cues {
            for it in cue.techniques {
                assert!(known.contains(it.as_str()), "{it}");
            }
        }
    }

    #[test]
    fn a_mistake_is_told_with_its_line() {
        let error = Glossary::read("[[term]]\nsay = \"x\"\nherd = []\n").unwrap_err().to_string();
        assert!(error.contains("line 3") && error.contains("herd"), "{error}");
    }
}
