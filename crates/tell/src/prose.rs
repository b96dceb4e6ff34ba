//! Sentences put one after the other: capital letter, full stop, and never too long.

use crate::Voice;
use crate::lists::listed;

/// The most words a sentence may have.
pub(crate) const LONGEST: usize = 30;

/// How many words a text has. The signs of a sum are not words; its numbers are.
pub(crate) fn n_words(text: &str) -> usize {
    text.split_whitespace().filter(|it| it.contains(char::is_alphanumeric)).count()
}

/// A text that grows by sentences.
#[derive(Debug, Default)]
pub(crate) struct Prose {
    text: String,
    voice: Voice,
}

/// A sentence longer than this is said in two, where it draws a conclusion.
const LONG_TO_SAY: usize = 16;

impl Prose {
    /// No text yet, in that voice.
    pub(crate) fn new(voice: Voice) -> Prose {
        Prose { text: String::new(), voice }
    }

    /// Whether the text is short enough for a sentence.
    pub(crate) fn fits(&self, text: &str) -> bool {
        self.voice.n_words(text) <= LONGEST
    }

    /// Adds a sentence, given without its capital and its full stop. Aloud it may take several.
    pub(crate) fn say(&mut self, sentence: &str) {
        if self.voice != Voice::Spoken {
            return self.print(sentence);
        }
        for part in sentence.split("; ") {
            let draws = part.split_once(": so ").or_else(|| part.split_once(", so "));
            match draws.filter(|_| self.voice.n_words(part) > LONG_TO_SAY) {
                Some((reason, then)) => {
                    self.print(reason);
                    // "So" is kept for what the step concludes.
                    self.print(&format!("that means {then}"));
                }
                None => self.print(part),
            }
        }
    }

    fn print(&mut self, sentence: &str) {
        let sentence = &*self.voice.puts(sentence);
        if !self.text.is_empty() && !self.text.ends_with('\n') {
            self.text.push(' ');
        }
        // A cell's name keeps its small letter even at the start.
        let is_cell = sentence.starts_with('r') && sentence[1..].starts_with(|it: char| it.is_ascii_digit());
        let mut letters = sentence.chars();
        match letters.next() {
            Some(first) if !is_cell => {
                self.text.extend(first.to_uppercase());
                self.text.push_str(letters.as_str());
            }
            _ => self.text.push_str(sentence),
        }
        if !sentence.ends_with('?') {
            self.text.push('.');
        }
    }

    /// Adds the items after `lead`, joined by semicolons, in as many sentences as they need; those
    /// after the first begin with `again`.
    pub(crate) fn say_in_turn(&mut self, lead: &str, again: &str, items: &[String]) {
        self.say_packed(lead, again, items, |it| it.join("; "));
    }

    /// Adds the items after `lead` as a list that ends with `last` ("and", "or"), in as many
    /// sentences as they need; those after the first begin with `again`.
    pub(crate) fn say_list(&mut self, lead: &str, again: &str, items: &[String], last: &str) {
        self.say_packed(lead, again, items, |it| listed(it, last));
    }

    fn say_packed(&mut self, lead: &str, again: &str, items: &[String], join: impl Fn(&[String]) -> String) {
        let mut rest = items;
        let mut lead = lead;
        while !rest.is_empty() {
            let sentence = |n| format!("{lead} {}", join(&rest[..n])).trim_start().to_owned();
            let fits = (1..=rest.len()).rev().find(|n| self.fits(&sentence(*n))).unwrap_or(1);
            self.say(&sentence(fits));
            (rest, lead) = (&rest[fits..], again);
        }
    }

    /// Starts a new line.
    pub(crate) fn new_line(&mut self) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
    }

    /// The text.
    pub(crate) fn finish(self) -> String {
        self.text
    }
}
