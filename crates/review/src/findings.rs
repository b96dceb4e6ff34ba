//! What the review proposes and points out: chapters, silences, terms misheard, corrected captions.

use std::ops::Range;

use captions::{Caption, Chapter, Time, chapters};

use crate::align::Placing;
use crate::heard::{Heard, Sign};
use crate::words::{Word, says};
use crate::{Expected, Glossary};

/// Nothing said for so long is pointed out (common practice, no source).
pub const LONG_SILENCE: Time = Time::seconds(10);
/// What is said before the first step, as a chapter is called for it.
const OPENING: &str = "Credit and rules";
/// A slow word: who needs longer for it has stopped speaking.
const SLOW_WORD: u64 = 600;
/// How many captions around it a number is looked at in before it is taken apart.
const NEAR: usize = 1;

/// A term that was misheard, or digits run together, and what stands in the corrected captions instead.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Misheard {
    /// When it is said.
    pub at: Time,
    /// What the captions had.
    pub heard: String,
    /// What they have now.
    pub say: String,
}

/// A stretch of nothing said.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Silence {
    /// From the end of the last word before it.
    pub from: Time,
    /// To the first word after it.
    pub to: Time,
}

/// A chapter a passage, from where the first of its steps begins that is surely placed; what is before the first is
/// one of its own.
pub(crate) fn proposed(expected: &Expected, placings: &[Placing], total: Time) -> Vec<Chapter> {
    let begun = |range: Range<usize>| {
        let placed = placings[range.clone()].iter().filter_map(|it| match it {
            Placing::At { from, .. } => Some(*from),
            Placing::Unsure { .. } | Placing::NotSpoken => None,
        });
        let at = placed.min()?;
        Some(Chapter { at, title: expected.steps[range.start].passage.clone() })
    };
    let starts: Vec<usize> = (0..expected.steps.len()).filter(|it| expected.begins_passage(*it)).collect();
    let ends = starts.iter().skip(1).copied().chain([expected.steps.len()]);
    let mut parts: Vec<Chapter> =
        starts.iter().zip(ends).filter_map(|(start, end)| begun(*start..end)).collect();
    if !parts.is_empty() {
        parts.push(Chapter { at: Time(0), title: OPENING.to_owned() });
    }
    chapters(parts, total)
}

/// Where nothing is said for long: between captions, or within one that has far fewer words than time.
pub(crate) fn silences(captions: &[Caption], total: Time) -> Vec<Silence> {
    let nexts = captions.iter().skip(1).map(|it| it.from).chain([total]);
    let gaps = captions.iter().zip(nexts).map(|(it, next)| {
        let spoken = it.from + Time(it.n_words() as u64 * SLOW_WORD);
        Silence { from: spoken.min(it.to), to: next }
    });
    let first = captions.first().map(|it| Silence { from: Time(0), to: it.from });
    first.into_iter().chain(gaps).filter(|it| it.to.since(it.from) >= LONG_SILENCE).collect()
}

/// What was misheard, with its words.
pub(crate) fn misheard(
    words: &[Word],
    heard: &[Heard],
    best: &[Option<usize>],
    expected: &Expected,
    glossary: &Glossary,
) -> Vec<(Range<usize>, String)> {
    let mut found: Vec<(Range<usize>, String)> = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let terms = glossary.terms.iter().flat_map(|it| it.heard.iter().map(move |heard| (heard, &it.say)));
        let longest = terms.filter(|it| says(words, at, it.0)).max_by_key(|it| it.0.len());
        match longest {
            Some((heard, say)) => {
                found.push((at..at + heard.len(), say.clone()));
                at += heard.len();
            }
            None => at += 1,
        }
    }
    let run = heard.iter().zip(best).filter_map(|(it, step)| {
        let Sign::Number(value, Some(run)) = &it.is else { return None };
        is_run_together(expected, *step, *value, run)
            .then(|| (it.words.clone(), run.iter().map(u16::to_string).collect::<Vec<_>>().join(" ")))
    });
    found.extend(run);
    found.sort_by_key(|it| it.0.start);
    found
}

/// Whether a numeral is digits that were said one after the other: nothing spoken of near by is that number, and
/// all the digits are.
fn is_run_together(expected: &Expected, step: Option<usize>, value: u16, run: &[u16]) -> bool {
    let Some(step) = step else { return false };
    let near = &expected.steps[step.saturating_sub(NEAR)..(step + NEAR + 1).min(expected.steps.len())];
    let spoken = |n: u16| near.iter().any(|it| it.names.contains(&n) || it.clues.contains(&n));
    let is_digits = run.iter().all(|it| (1..=expected.side).contains(it));
    let own = &expected.steps[step];
    let all_named = run.iter().all(|it| own.names.contains(it) || own.places.contains(it));
    is_digits
        && !spoken(value)
        && !expected.clues.contains(&value)
        && (all_named || *run == [1, expected.side])
}

/// The captions with what was misheard put right. What was said wrongly stays as it was said.
pub(crate) fn corrected(
    captions: &[Caption],
    words: &[Word],
    misheard: &[(Range<usize>, String)],
) -> Vec<Caption> {
    let mut corrected = captions.to_vec();
    for (range, say) in misheard.iter().rev() {
        let (first, last) = (&words[range.start], &words[range.end - 1]);
        if first.caption == last.caption {
            corrected[first.caption].text.replace_range(first.range.start..last.range.end, say);
        } else {
            // A term that runs over into the next caption is put where it begins.
            corrected[last.caption].text.replace_range(..last.range.end, "");
            let end = captions[first.caption].text.len();
            corrected[first.caption].text.replace_range(first.range.start..end, say);
        }
    }
    // What a term leaves behind at the beginning of a caption is no sentence.
    let leaves = |it: char| it.is_whitespace() || [',', '.', ';', '?', '!'].contains(&it);
    for it in corrected.iter_mut().filter(|it| !captions.iter().any(|caption| caption.text == it.text)) {
        it.text = it.text.trim_start_matches(leaves).trim_end().to_owned();
    }
    corrected.retain(|it| !it.text.is_empty());
    corrected
}
