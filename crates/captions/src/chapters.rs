//! Chapters, as lists of them are read under recordings.

use crate::Time;

/// No chapter is shorter (common practice, no source).
pub const LEAST_CHAPTER: Time = Time::seconds(10);

/// A stretch of a recording, up to the next.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Chapter {
    /// When it begins.
    pub at: Time,
    /// What it is called.
    pub title: String,
}

/// Chapters that a list may have: in order, the first at the beginning, none shorter than [`LEAST_CHAPTER`].
///
/// What would be shorter is taken in by the chapter before it, what is too short at the very beginning by the one
/// after it. A recording shorter than two chapters has one.
pub fn chapters(mut parts: Vec<Chapter>, total: Time) -> Vec<Chapter> {
    parts.sort_by_key(|it| it.at);
    let mut kept: Vec<Chapter> = Vec::new();
    let ends: Vec<Time> = parts.iter().skip(1).map(|it| it.at).chain([total]).collect();
    for (part, end) in parts.into_iter().zip(ends) {
        let Some(last) = kept.last_mut() else {
            kept.push(Chapter { at: Time(0), ..part });
            continue;
        };
        let is_first = last.at == Time(0);
        if is_first && part.at.since(last.at) < LEAST_CHAPTER {
            last.title = part.title;
        } else if end.since(part.at) >= LEAST_CHAPTER {
            kept.push(part);
        }
    }
    kept
}

/// A line a chapter, `1:05 Place the crusts`, with the time rounded down to a second.
///
/// Two chapters never get the same time, because none is shorter than a second.
pub fn chapter_lines(chapters: &[Chapter]) -> String {
    chapters.iter().map(|it| format!("{} {}\n", it.at.clock(), it.title.replace('\n', " "))).collect()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn named(times: &[u64]) -> Vec<Chapter> {
        let named = times.iter().enumerate();
        named.map(|(at, it)| Chapter { at: Time::seconds(*it), title: format!("part {at}") }).collect()
    }

    #[test]
    fn short_chapters_are_taken_in() {
        for (times, total, lines) in [
            (&[0, 30, 60][..], 90, "0:00 part 0\n0:30 part 1\n1:00 part 2\n"),
            // Too short in the middle: the one before it goes on.
            (&[0, 30, 35, 60], 90, "0:00 part 0\n0:35 part 2\n1:00 part 3\n"),
            // Too short at the end.
            (&[0, 30, 60], 65, "0:00 part 0\n0:30 part 1\n"),
            // Too short at the beginning: the second gives its name.
            (&[0, 5, 30], 90, "0:00 part 1\n0:30 part 2\n"),
            // The first begins late.
            (&[4, 40], 90, "0:00 part 0\n0:40 part 1\n"),
            (&[0], 3, "0:00 part 0\n"),
            (&[], 3, ""),
        ] {
            assert_eq!(chapter_lines(&chapters(named(times), Time::seconds(total))), lines, "{times:?}");
        }
    }

    proptest! {
        #[test]
        fn every_list_keeps_the_rules(times in prop::collection::vec(0_u64..500, 0..20), total in 500_u64..600) {
            let n = times.len();
            let kept = chapters(named(&times), Time::seconds(total));
            prop_assert_eq!(kept.is_empty(), n == 0);
            prop_assert!(kept.first().is_none_or(|it| it.at == Time(0)));
            let ends = kept.iter().skip(1).map(|it| it.at).chain([Time::seconds(total)]);
            for (it, end) in kept.iter().zip(ends) {
                prop_assert!(end.since(it.at) >= LEAST_CHAPTER, "{kept:?}");
            }
        }
    }
}
