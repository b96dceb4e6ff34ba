//! `galley check`: are the files right, and how many solutions has each puzzle?

use study::Finding;

use super::check_list::check_list;
use crate::job::With;
use crate::json::{self, CheckedPuzzle};
use crate::outcome::{Failure, Outcome};
use crate::studies::{Found, Target};
use crate::{list, print, words};

/// The command.
#[derive(Debug)]
pub(crate) struct Check {
    /// What to check.
    pub(crate) target: Target,
}

impl Check {
    /// Says for each puzzle how many solutions it has.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        if list::is_list(&self.target.path) {
            return check_list(&self.target.path, with);
        }
        let found = self.target.study(with)?;
        let result = match with.is_json {
            true => json::text(&document(&found)),
            false => in_words(&found),
        };
        Ok(Outcome {
            problems: found.problems(with),
            result,
            note: String::new(),
            has_errors: found.has_errors(),
        })
    }
}

/// A line a puzzle in order of id, and how many puzzles are sound.
fn in_words(found: &Found) -> String {
    let readable = found.pack.all().map(|it| {
        let sealed = if it.is_sealed() { " (sealed)" } else { "" };
        (it.entry().id.to_string(), words::verdict(it.finding()), sealed)
    });
    let unreadable = found.unreadable.iter().map(|it| (print::visible(&it.name), words::UNREADABLE, ""));
    let mut lines: Vec<(String, &str, &str)> = readable.chain(unreadable).collect();
    lines.sort();
    let width = lines.iter().map(|it| it.0.chars().count()).max().unwrap_or_default();

    let mut text: String =
        lines.iter().map(|(id, verdict, sealed)| format!("{id:<width$}  {verdict}{sealed}\n")).collect();
    if lines.len() > 1 {
        let n_sound = found.pack.all().filter(|it| it.finding() == Finding::One).count();
        let n_files = lines.len();
        let has = if n_sound == 1 { "has" } else { "have" };
        text.push_str(&format!("\n{n_sound} of {n_files} puzzles {has} exactly one solution\n"));
    }
    text
}

fn document(found: &Found) -> json::Check {
    let readable = found.pack.all().map(|it| CheckedPuzzle {
        id: it.entry().id.to_string(),
        file: found.file_of(it).to_owned(),
        title: Some(it.entry().title.clone()),
        sealed: Some(it.is_sealed()),
        verdict: json::verdict(it.finding()),
        solution: it.opened().and_then(|it| it.solution).map(ToString::to_string),
        problems: found.problems_of(found.file_of(it)),
    });
    let unreadable = found.unreadable.iter().map(|it| CheckedPuzzle {
        id: it.name.clone(),
        file: it.file.clone(),
        title: it.title.clone(),
        sealed: None,
        verdict: json::UNREADABLE,
        solution: None,
        problems: found.problems_of(&it.file),
    });
    let mut puzzles: Vec<CheckedPuzzle> = readable.chain(unreadable).collect();
    puzzles.sort_by(|a, b| (&a.id, &a.file).cmp(&(&b.id, &b.file)));
    json::Check { format: json::FORMAT, puzzles, problems: found.problems_of_pack() }
}
