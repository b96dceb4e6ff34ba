//! Notes and logs of rehearsals: files with their expected problems in `tests/data/notes` and `tests/data/rehearsals`.
//!
//! `UPDATE_CASES=1 cargo test -p packfile` writes the expectations anew; read the difference before keeping it.

mod common;

use std::fmt::Write;

use common::{cases, cases_ending};
use packfile::{SourceFile, fingerprint, read_notes, read_puzzle, read_rehearsal};
use proptest::prelude::*;

#[test]
fn notes_have_the_problems_expected() {
    cases_ending("notes", "toml", |file| {
        let (it, problems) = read_notes(file);
        let mut got = format!("target {:?}, {:?} words a minute\n", it.target, it.words_a_minute);
        _ = writeln!(got, "opening {:?}, close {:?}, questions {:?}", it.opening, it.close, it.questions);
        got.extend(it.steps.iter().map(|it| format!("{}: {:?}\n", it.key, it.says)));
        got.extend(problems.iter().map(|it| format!("{it}\n")));
        got
    });
}

#[test]
fn rehearsals_have_the_problems_expected() {
    cases("rehearsals", |file| match read_rehearsal(file) {
        Err(problem) => format!("{problem}\n"),
        Ok(logged) => {
            let it = logged.rehearsal;
            let mut got = format!("{}, recording {}, {} long\n", it.puzzle, it.is_recording, it.total);
            _ = writeln!(got, "fingerprint {:?}, started {:?}", logged.fingerprint, logged.started);
            got.extend(it.events.iter().map(|it| format!("{} {:?}\n", it.at, it.is)));
            got
        }
    });
}

#[test]
fn a_rehearsal_of_another_puzzle_is_refused() {
    let puzzle = SourceFile::new("first-light.toml", include_str!("data/puzzles/nine-by-nine-reads.toml"));
    let entry = read_puzzle(&puzzle).0.unwrap();
    let text = include_str!("data/rehearsals/reads.json");
    let read = |text: String| read_rehearsal(&SourceFile::new("rehearsals/a.json", text)).unwrap();
    let now = text.replace("0123456789abcdef", &fingerprint(&entry.puzzle));
    assert_eq!(read(now.clone()).check(&entry), Ok(()));
    let words = |text: String| read(text).check(&entry).unwrap_err().to_string();
    assert_eq!(
        words(text.to_owned()),
        "rehearsals/a.json: warning[rehearsal-outdated]: `first-light` has changed since: a given or a clue is \
         another\n  help: record it again as it is now"
    );
    assert_eq!(
        words(now.replace("first-light", "low-tide")),
        "rehearsals/a.json: warning[rehearsal-outdated]: it is of `low-tide`, not of `first-light`\n  \
         help: name the log of this puzzle"
    );
}

proptest! {
    /// Bytes turned over, taken out or put in: it is read or refused, and never more than that.
    #[test]
    fn damaged_files_are_read_or_refused(
        at in any::<prop::sample::Index>(), put in prop::collection::vec(any::<u8>(), 0..4), take in 0_usize..20,
    ) {
        for text in [include_str!("data/rehearsals/reads.json"), include_str!("data/notes/reads.toml")] {
            let mut bytes = text.as_bytes().to_vec();
            let from = at.index(bytes.len());
            let to = (from + take).min(bytes.len());
            bytes.splice(from..to, put.iter().copied());
            let file = SourceFile::new("a", bytes);
            if let Ok(it) = read_rehearsal(&file) {
                let events = it.rehearsal.events;
                prop_assert!(events.is_sorted_by_key(|it| it.at));
                prop_assert!(events.last().is_none_or(|last| last.at <= it.rehearsal.total));
            }
            for problem in read_notes(&file).1 {
                prop_assert!(problem.to_string().lines().count() == 2, "{problem:?}");
            }
        }
    }
}
