//! What is said from one moment to another.

use crate::Time;

/// A text and the time during which it is shown.
///
/// Its lines are parted by `\n`. Nothing is promised of the times: what is read from a file can end before it begins.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Caption {
    /// When it appears.
    pub from: Time,
    /// When it is gone again.
    pub to: Time,
    /// What it says.
    pub text: String,
}

impl Caption {
    /// How long it is shown.
    pub fn lasts(&self) -> Time {
        self.to.since(self.from)
    }

    /// How many words stand in it.
    pub fn n_words(&self) -> usize {
        self.text.split_whitespace().filter(|it| it.contains(char::is_alphanumeric)).count()
    }

    /// How fast it has to be read; infinitely fast if it is not shown at all.
    pub fn words_a_minute(&self) -> f64 {
        self.n_words() as f64 * 60.0 / self.lasts().as_seconds()
    }
}
