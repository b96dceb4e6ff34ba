//! The pace of speaking: two numbers, why they are what they are, and how an editor's own are learnt.

use captions::Time;

use crate::log::Reached;
use crate::script::Script;
use crate::speech::n_spoken_words;

/// Words a minute.
///
/// Captions follow the speech, so the speech should have a pace that captions can be read at. Of
/// the paces tried on 578 viewers, 145 words a minute was the most comfortable to read (C. Jensema,
/// 1998); the BBC's subtitle guidelines allow 160 to 180. The slower one leaves a pupil time to find
/// the cell.
pub const WORDS_A_MINUTE: u64 = 145;

/// Milliseconds of pause for each mark that is put on the board: a digit, a struck candidate, a
/// crust, a ring, a struck clue.
///
/// An estimate, no source: half the three seconds that a solver is given to write a conclusion down
/// (`grade`), because a presenter speaks while writing.
pub const MARK_MILLISECONDS: u64 = 1_500;

/// An own pace is learnt from at least so many steps: fewer say more of the steps than of who spoke.
const LEAST_STEPS: usize = 20;

/// A pace that is more times as slow or as fast as the usual one than this is no pace but a mistake.
const FARTHEST: f64 = 2.5;

/// How fast somebody speaks and writes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Pace {
    /// Words a minute.
    pub words_a_minute: u64,
    /// For each mark on the board.
    pub mark: Time,
    /// On how many steps of rehearsals it rests; none for one that was assumed or given.
    pub n_steps: usize,
}

impl Default for Pace {
    fn default() -> Pace {
        Pace::speaking(WORDS_A_MINUTE)
    }
}

impl Pace {
    /// So many words a minute, at least one, and the usual time for a mark.
    pub fn speaking(words_a_minute: u64) -> Pace {
        Pace { words_a_minute: words_a_minute.max(1), mark: Time(MARK_MILLISECONDS), n_steps: 0 }
    }

    /// The pace at which those steps were said, each of them as it stands in its script: the usual one made slower or
    /// faster by the middle of how much longer or shorter they took. None if they are too few.
    ///
    /// The middle, because a step that was talked about for five minutes says nothing of the others.
    pub fn learned<'a>(said: impl IntoIterator<Item = (&'a Script, Vec<Reached>)>) -> Option<Pace> {
        let usual = Pace::default();
        let mut ratios: Vec<f64> = Vec::new();
        for (script, reached) in said {
            for it in reached {
                let Some(cue) = it.step.and_then(|at| script.cue(at)) else { continue };
                let expected = usual.takes_exactly(&cue.says, cue.n_marks);
                ratios.push(it.spoken().as_seconds() / expected.as_seconds().max(0.1));
            }
        }
        if ratios.len() < LEAST_STEPS {
            return None;
        }
        ratios.sort_by(f64::total_cmp);
        let ratio = ratios[ratios.len() / 2].clamp(1.0 / FARTHEST, FARTHEST);
        Some(Pace {
            words_a_minute: ((WORDS_A_MINUTE as f64 / ratio).round() as u64).max(1),
            mark: Time((MARK_MILLISECONDS as f64 * ratio).round() as u64),
            n_steps: ratios.len(),
        })
    }

    /// To read the text out and to put so many marks on the board.
    ///
    /// Rounded to the nearest second (half a second up, and never to nothing). Times of passages and wholes are sums of
    /// those, so that the figures on a page add up; over a walkthrough the roundings even out.
    pub fn takes(&self, text: &str, n_marks: usize) -> Time {
        Time::seconds(((self.takes_exactly(text, n_marks).0 + 500) / 1_000).max(1))
    }

    fn takes_exactly(&self, text: &str, n_marks: usize) -> Time {
        let speaking = n_spoken_words(text) as u64 * 60_000 / self.words_a_minute;
        Time(speaking + n_marks as u64 * self.mark.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_rounded_once() {
        let takes = |text: &str, n_marks| Pace::default().takes(text, n_marks);
        // 145 words take a minute, by the definition of the pace.
        assert_eq!(takes(&"word ".repeat(145), 0), Time::seconds(60));
        assert_eq!(takes(&"word ".repeat(290), 4), Time::seconds(126));
        // One word: 0.41 s; one mark: 1.5 s; both: 1.91 s.
        assert_eq!(takes("word", 0), Time::seconds(1));
        assert_eq!(takes("", 1), Time::seconds(2));
        assert_eq!(takes("word", 1), Time::seconds(2));
        assert_eq!(Pace::speaking(290).takes(&"word ".repeat(290), 0), Time::seconds(60));
    }
}
