//! A test solve as a file of the pack's `solves` tells it, and as it is held against a walkthrough.

use grade::{Entry, Outcome, Solve, Solver};
use grid::Size;
use serde_json::{Value, json};

use crate::store::{Begun, SolveEvent};

/// What was logged, as `grade` knows solves. Time stands still while the page is out of sight, so there are no pauses.
pub(crate) fn solve(begun: &Begun, events: &[SolveEvent], size: Size) -> Solve {
    let cells: Vec<_> = size.cells().collect();
    let entry = |it: &SolveEvent| {
        let cell = usize::try_from(it.cell?).ok().and_then(|at| cells.get(at).copied())?;
        let digit = u8::try_from(it.value.unwrap_or_default()).ok().and_then(|it| size.digit(it));
        Some(Entry { at: seconds(it), cell, digit })
    };
    let of = |what: &'static str| events.iter().filter(move |it| it.what == what);
    Solve {
        puzzle: begun.puzzle.clone(),
        solver: begun.solver.clone(),
        kind: Solver::named(&begun.kind).unwrap_or(grade::REGULAR),
        is_aloud: false,
        entries: of("ink").filter_map(entry).collect(),
        hints: of("hint").map(seconds).collect(),
        pauses: Vec::new(),
        outcome: match (of("solved").next(), of("gave-up").next()) {
            (Some(_), _) => Outcome::Solved,
            (None, Some(_)) => Outcome::GaveUp,
            (None, None) => Outcome::Left,
        },
    }
}

/// The file of a solve, as `docs/format.md` describes it.
pub(crate) fn file(begun: &Begun, solve: &Solve) -> String {
    let entry =
        |it: &Entry| json!({"at": it.at, "cell": it.cell.to_string(), "digit": it.digit.map(|it| it.get())});
    let hints: Vec<Value> = solve.hints.iter().map(|it| json!({"at": it})).collect();
    let written = json!({
        "format": packfile::FORMAT,
        "puzzle": solve.puzzle,
        "fingerprint": begun.fingerprint,
        "solver": solve.solver,
        "kind": solve.kind.name,
        "aloud": solve.is_aloud,
        "started": begun.begun_at,
        "entries": solve.entries.iter().map(entry).collect::<Vec<_>>(),
        "hints": hints,
        "pauses": [],
        "outcome": match solve.outcome {
            Outcome::Solved => "solved",
            Outcome::GaveUp => "gave up",
            Outcome::Left => "left",
        },
    });
    format!("{written:#}\n")
}

fn seconds(it: &SolveEvent) -> f64 {
    it.after_ms as f64 / 1000.0
}

#[cfg(test)]
mod tests {
    use packfile::{SourceFile, read_solve};

    use super::*;

    #[test]
    fn a_file_reads_back_as_the_solve_that_was_logged() {
        let begun = Begun {
            id: "a".to_owned(),
            puzzle: "first-light".to_owned(),
            fingerprint: "5fc199382fb2741f".to_owned(),
            solver: "Sorrel \"the quick\"".to_owned(),
            kind: "old hand".to_owned(),
            begun_at: "2026-11-27 03:00:00".to_owned(),
        };
        let event = |after_ms: i64, what: &str, cell, value| SolveEvent {
            id: after_ms.to_string(),
            after_ms,
            what: what.to_owned(),
            cell,
            value,
        };
        let events = [
            event(1500, "ink", Some(30), Some(5)),
            event(2000, "pencil", Some(31), Some(6)),
            event(2500, "ink", Some(30), Some(0)),
            event(3000, "hint", None, None),
            event(4000, "gave-up", None, None),
        ];
        let solve = solve(&begun, &events, Size::NINE);
        let read = read_solve(&SourceFile::new("solves/a.json", file(&begun, &solve))).unwrap();
        assert_eq!(read.solve, solve);
        assert_eq!((read.fingerprint.as_deref(), read.solve.entries.len()), (Some("5fc199382fb2741f"), 2));
        assert_eq!((read.solve.entries[1].digit, read.solve.outcome), (None, Outcome::GaveUp));
    }
}
