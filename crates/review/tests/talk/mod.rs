//! Invented talk about real walkthroughs, for tests and measurements.
//!
//! Its language has nothing from `tell`: phrase books of their own ([`TUNED`], and [`HELD`], which was written without trying
//! it and is kept for the measurement), pointing words for cells, digits that captions run together, withdrawn claims,
//! slips, other clues looked at in between, steps left out, passages in another order, silences. Everything comes from a seed.

mod book;
mod held;
mod parts;
mod speaker;
mod tuned;

use captions::{Caption, Time};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use rulebook::Puzzle;
use trail::Walkthrough;

pub(crate) use book::Book;
pub(crate) use held::HELD;
pub(crate) use tuned::TUNED;

use speaker::{Said, Speaker};

/// A recording's captions, and what is true of them.
#[derive(Clone, Debug)]
pub(crate) struct Talk {
    /// The captions, without gaps but for silences.
    pub(crate) captions: Vec<Caption>,
    /// Each step that is spoken, by its place in the walkthrough, with its first moment and its last.
    pub(crate) spoken: Vec<(usize, Time, Time)>,
    /// Wrong sums that are said, and whether they are put right soon after.
    pub(crate) slips: Vec<Planted>,
    /// Silences of ten seconds and more.
    pub(crate) silences: Vec<Time>,
}

/// A slip that was planted.
#[derive(Clone, Debug)]
pub(crate) struct Planted {
    /// When its last word is said.
    pub(crate) at: Time,
    /// What is right.
    pub(crate) right: u16,
    /// Whether it is put right soon after.
    pub(crate) corrected: bool,
}

/// Talks about a walkthrough, with a time every so many seconds.
pub(crate) fn talk(puzzle: &Puzzle, walkthrough: &Walkthrough, book: &Book, seed: u64, stamp: u64) -> Talk {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    let said = Speaker::new(puzzle, walkthrough, book, &mut random).says();
    timed(&said, stamp, &mut random)
}

/// Puts times to what is said: about 170 words a minute, with pauses, and a caption every `stamp` seconds.
fn timed(said: &[Said], stamp: u64, random: &mut ChaCha8Rng) -> Talk {
    let mut talk = Talk { captions: Vec::new(), spoken: Vec::new(), slips: Vec::new(), silences: Vec::new() };
    let has_stops = random.random_bool(0.5);
    let pace = random.random_range(290..420_u64);
    let mut now = Time(0);
    let mut line: Vec<String> = Vec::new();
    let mut begun = now;
    for it in said {
        if it.pause > Time::seconds(1) {
            flush(&mut talk, &mut line, begun, now);
            if it.pause >= Time::seconds(10) {
                talk.silences.push(now);
            }
            now = now + it.pause;
        }
        let from = now;
        let words: Vec<&str> = it.text.split_whitespace().collect();
        for (nth, word) in words.iter().enumerate() {
            if line.is_empty() {
                begun = now;
            } else if now.since(begun) >= Time::seconds(stamp) {
                flush(&mut talk, &mut line, begun, now);
                begun = now;
            }
            let is_last = nth + 1 == words.len();
            let word = if has_stops { (*word).to_owned() } else { word.replace([',', '.', '?'], "") };
            line.push(if is_last && has_stops { format!("{}.", word.trim_end_matches(',')) } else { word });
            now = now + Time(pace + random.random_range(0..80));
        }
        if let Some(step) = it.step {
            match talk.spoken.iter_mut().find(|it| it.0 == step) {
                Some(known) => known.2 = now,
                None => talk.spoken.push((step, from, now)),
            }
        }
        if let Some((right, corrected)) = it.slip {
            talk.slips.push(Planted { at: now, right, corrected });
        }
    }
    flush(&mut talk, &mut line, begun, now);
    talk
}

fn flush(talk: &mut Talk, line: &mut Vec<String>, from: Time, to: Time) {
    if !line.is_empty() {
        talk.captions.push(Caption { from, to, text: line.join(" ") });
        line.clear();
    }
}
