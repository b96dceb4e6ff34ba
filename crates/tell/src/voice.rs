//! The voices a step is told in, and all in which they differ.
//!
//! Each argument is worded once, as the booklet prints it. Another voice differs in what is left out
//! (the screen leaves out why a technique holds, the spoken voice where a step is printed), in how a sum
//! is put where that is the heart of the sentence, and in how names and signs are read out (`read_out`).

use std::borrow::Cow;

use crate::prose::n_words;
use crate::read_out::read_out;

/// How a step is told.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
pub enum Voice {
    /// To be read in print: full sentences, cells as `r4c7`, references to numbered steps.
    #[default]
    Booklet,
    /// To be said aloud: `row 4, column 7`, sums in words, nothing that cannot be spoken.
    Spoken,
    /// To be seen beside a board: sums as equations and inequalities, and what follows.
    Screen,
}

impl Voice {
    /// All voices.
    pub const ALL: [Voice; 3] = [Voice::Booklet, Voice::Spoken, Voice::Screen];

    /// The sentence as this voice puts it.
    pub(crate) fn puts(self, sentence: &str) -> Cow<'_, str> {
        match self {
            Voice::Booklet | Voice::Screen => sentence.into(),
            Voice::Spoken => read_out(sentence).into(),
        }
    }

    /// How many words the text has when this voice puts it.
    pub(crate) fn n_words(self, text: &str) -> usize {
        n_words(&self.puts(text))
    }

    /// The text that belongs to this voice, which is told in one of two ways.
    pub(crate) fn pick<T>(self, in_full: T, on_screen: T) -> T {
        if self == Voice::Screen { on_screen } else { in_full }
    }
}
