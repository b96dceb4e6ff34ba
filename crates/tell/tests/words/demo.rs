//! The walkthroughs of the demo, word for word: `tests/data/demo/<puzzle>.txt`.
//!
//! A change of words or of choice shows here as a reader would meet it. `UPDATE_CASES=1 cargo test -p tell demo` writes
//! the files anew; read the difference before keeping it.

use std::fmt::Write;
use std::path::{Path, PathBuf};

use tell::{passage_titles, says, technique_name, ways_in};

use crate::corpus::{Walked, corpus};

#[test]
fn the_demo_is_told_word_for_word() {
    let told = corpus().iter().filter(|it| !it.name.starts_with("seed"));
    let mut changed = Vec::new();
    let mut n = 0;
    for walked in told {
        n += 1;
        let (path, text) = (path(&walked.name), text(walked));
        if std::env::var_os("UPDATE_CASES").is_some() {
            std::fs::write(&path, text).unwrap();
        } else if std::fs::read_to_string(&path).unwrap_or_default() != text {
            changed.push(difference(&path, &text));
        }
    }
    assert_eq!(n, 12);
    assert!(changed.is_empty(), "{}", changed.join("\n"));
}

fn path(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/demo").join(format!("{name}.txt"))
}

/// The first line that is another.
fn difference(path: &Path, text: &str) -> String {
    let kept = std::fs::read_to_string(path).unwrap_or_default();
    let n_alike = kept.lines().zip(text.lines()).take_while(|(a, b)| a == b).count();
    let line = |text: &str| text.lines().nth(n_alike).unwrap_or("(its end)").to_owned();
    format!("{}, line {}:\nkept: {}\ntold: {}", path.display(), n_alike + 1, line(&kept), line(text))
}

fn text(walked: &Walked) -> String {
    let (puzzle, trail) = (&walked.puzzle, walked.trail());
    // The way to the first thing that can be written down, as hints are made from it.
    let first =
        trail.facts().find(|(_, it)| it.step().is_some() && matches!(it.claim(), rulebook::Claim::Is(..)));
    let way = trail.needed_for([first.unwrap().0]);
    let mut text = String::new();
    for line in ways_in(puzzle, std::slice::from_ref(&way))
        .into_iter()
        .chain(tell::hints(puzzle, &way).into_iter().flatten())
    {
        writeln!(text, "{line}").unwrap();
    }
    let titles = passage_titles(puzzle, walked.walkthrough());
    for (passage, title) in walked.walkthrough().passages().iter().zip(titles) {
        writeln!(text, "\n{title}").unwrap();
        for it in &passage.steps {
            let technique = technique_name(trail.step(*it).technique());
            writeln!(text, "{}. ({technique}) {}", it.number(), says(puzzle, trail, *it)).unwrap();
        }
    }
    text
}
