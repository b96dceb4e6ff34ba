//! `galley check` on a list: how many solutions has the puzzle on each line?

use std::path::Path;
use std::time::Instant;

use prove::Verdict;

use crate::job::With;
use crate::json;
use crate::list::{self, Line};
use crate::load::{Sources, shown};
use crate::outcome::{Failure, Outcome};
use crate::trouble::Trouble;
use crate::{print, words};

/// So many lines with problems are printed; the count tells of the others.
const MOST_SHOWN: usize = 20;

/// Proves each line. Those without exactly one solution are problems. With `--json` there is one document a line.
pub(super) fn check_list(path: &Path, with: &With) -> Result<Outcome, Failure> {
    #[expect(clippy::disallowed_methods, reason = "how quick it was is told to people, in no document")]
    let start = Instant::now();
    let lines = list::prove_all(path, with)?;
    let seconds = start.elapsed().as_secs_f64();
    if lines.is_empty() {
        let help = "write a grid a line: a character a cell, row by row, `.` or 0 for an empty one";
        return Err(Failure::new(format!("there is no grid in {}", shown(path)), help));
    }
    let file = path.to_string_lossy();
    let troubles: Vec<Trouble> = lines.iter().filter_map(|it| trouble(it, &file)).collect();
    let note = format!(
        "{:.3} seconds, {:.0} puzzles a second on {}\n",
        seconds,
        lines.len() as f64 / seconds,
        words::counted(rayon::current_num_threads(), "core")
    );
    Ok(Outcome {
        problems: if with.is_json { String::new() } else { problems(&troubles, with) },
        result: match with.is_json {
            true => lines.iter().map(|it| json::line(&record(it, &file))).collect(),
            false => summary(&lines),
        },
        note: if with.is_json { String::new() } else { note },
        has_errors: !troubles.is_empty(),
    })
}

/// What keeps a line from being all good.
fn trouble(line: &Line, file: &str) -> Option<Trouble> {
    let (code, message, help) = match &line.found {
        Ok(Verdict::One(_)) => return None,
        Ok(Verdict::None) => ("no-solution", "the puzzle has no solution".to_owned(), None),
        Ok(Verdict::Many(many)) => {
            let first = prove::differences(many).into_iter().next();
            let shown = first.map_or(String::new(), |(cell, a, b)| format!(": {cell} can be {a} or {b}"));
            let message = format!("the puzzle has more than one solution{shown}");
            ("several-solutions", message, None)
        }
        Ok(Verdict::Undecided) => ("not-decided", "the proof reached its limit".to_owned(), None),
        Err(fault) => ("not-a-grid", fault.message.clone(), Some(fault.help.clone())),
    };
    let file = file.to_owned();
    Some(Trouble { code, is_error: true, file, at: Some(line.at), message, why: None, help })
}

fn problems(troubles: &[Trouble], with: &With) -> String {
    if troubles.is_empty() {
        return String::new();
    }
    let shown = &troubles[..troubles.len().min(MOST_SHOWN)];
    // The lines themselves are long and say nothing to a person, so they are not shown.
    let text = print::each_trouble(shown, &Sources::default(), with.stderr);
    match troubles.len() - shown.len() {
        0 => text + "\n",
        more => format!("{text}and {} more; --json has them all\n\n", words::counted(more, "such line")),
    }
}

/// How many puzzles there are, and how many of them have how many solutions.
fn summary(lines: &[Line]) -> String {
    let n = |is_meant: fn(&Result<Verdict, list::Fault>) -> bool| {
        lines.iter().filter(|it| is_meant(&it.found)).count()
    };
    let counts = [
        (n(|it| matches!(it, Ok(Verdict::One(_)))), "with exactly one solution"),
        (n(|it| matches!(it, Ok(Verdict::None))), "with no solution"),
        (n(|it| matches!(it, Ok(Verdict::Many(_)))), "with more than one solution"),
        (n(|it| matches!(it, Ok(Verdict::Undecided))), "not decided"),
        (n(Result::is_err), "that cannot be read"),
    ];
    let said = counts.iter().filter(|it| it.0 > 0).map(|(n, what)| format!("{n} {what}"));
    format!("{}: {}\n", words::counted(lines.len(), "puzzle"), said.collect::<Vec<_>>().join(", "))
}

fn record(line: &Line, file: &str) -> json::CheckedLine {
    let (verdict, solution) = match &line.found {
        Ok(Verdict::One(it)) => ("one", Some(it.to_string())),
        Ok(Verdict::None) => ("none", None),
        Ok(Verdict::Many(_)) => ("many", None),
        Ok(Verdict::Undecided) => ("undecided", None),
        Err(_) => (json::UNREADABLE, None),
    };
    let problem = trouble(line, file);
    json::CheckedLine {
        format: json::FORMAT,
        line: line.at.line,
        verdict,
        solution,
        problem: problem.as_ref().map(json::Problem::from),
    }
}
