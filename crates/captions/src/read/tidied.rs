//! What was found under times, put in order: ends where there were none, and nothing said twice.

use super::{Fault, Found, ReadFault};
use crate::{Caption, Time};

/// How long a word takes to say where nothing else tells when a text ends: 170 words a minute (common practice, no source).
const MILLISECONDS_A_WORD: u64 = 350;
/// A text that nothing follows lasts at least so long.
const LEAST: Time = Time(1_000);

/// The captions in order of time with their lines.
pub(super) fn tidied(mut found: Vec<Found>, faults: &mut Vec<ReadFault>) -> Vec<(Caption, usize)> {
    for it in &mut found {
        if it.to.is_some_and(|to| to <= it.from) {
            faults.push(ReadFault { line: it.line, fault: Fault::Backward });
            it.to = None;
        }
    }
    for pair in found.windows(2) {
        if pair[1].from < pair[0].from {
            faults.push(ReadFault { line: pair[1].line, fault: Fault::OutOfOrder });
        } else if pair[0].to.is_some_and(|it| pair[1].from < it) {
            faults.push(ReadFault { line: pair[1].line, fault: Fault::Overlapping });
        }
    }
    found.sort_by_key(|it| it.from);
    let mut kept: Vec<(Caption, usize)> = Vec::new();
    // The last lines on show, which a rolling caption begins with again.
    let mut before = String::new();
    for (at, it) in found.iter().enumerate() {
        let next = found[at + 1..].iter().map(|it| it.from).find(|next| *next > it.from);
        let to = it.to.unwrap_or_else(|| next.unwrap_or(it.from + spoken(&it.text)));
        let rolls = kept.last().is_some_and(|last| it.from.since(last.0.to) < Time(1_000));
        let text = if rolls { unrolled(&before, &it.text) } else { it.text.clone() };
        before.clone_from(&it.text);
        if text.is_empty() {
            faults.push(ReadFault { line: it.line, fault: Fault::Repeated });
            if let Some(last) = kept.last_mut() {
                last.0.to = last.0.to.max(to);
            }
            continue;
        }
        kept.push((Caption { from: it.from, to, text }, it.line));
    }
    kept
}

fn spoken(text: &str) -> Time {
    LEAST.max(Time(text.split_whitespace().count() as u64 * MILLISECONDS_A_WORD))
}

/// The lines of a text without those at its beginning that the text before it ends with.
fn unrolled(before: &str, text: &str) -> String {
    let (before, lines): (Vec<&str>, Vec<&str>) = (before.lines().collect(), text.lines().collect());
    // A single short word is said twice more often than it is shown twice.
    let is_worth = |n: usize| lines[..n].iter().map(|it| it.split_whitespace().count()).sum::<usize>() > 2;
    let n = (1..=before.len().min(lines.len())).rev();
    let n = n.into_iter().find(|n| before.ends_with(&lines[..*n]) && is_worth(*n)).unwrap_or(0);
    lines[n..].join("\n")
}
