//! A test solve as a file of the pack's `solves` tells it, and as it is held against a walkthrough.

use grade::{Entry, Outcome, Solve, Solver};
use grid::{Grid, Size};
use rulebook::Puzzle;
use serde_json::{Value, json};

use crate::store::{Begun, SolveEvent};

/// What was logged, as `grade` knows solves. Time stands still while the page is out of sight, so there are no pauses. What
/// an undo put back is an entry too, for the board would not end as it did without it.
pub(crate) fn solve(begun: &Begun, events: &[SolveEvent], size: Size) -> Solve {
    let of = |what: &'static str| events.iter().filter(move |it| it.what == what);
    // A key that was pressed too often comes after the end.
    let end = events.iter().position(|it| it.what == "solved").unwrap_or(events.len());
    Solve {
        puzzle: begun.puzzle.clone(),
        solver: begun.solver.clone(),
        kind: Solver::named(&begun.kind).unwrap_or(grade::REGULAR),
        is_aloud: false,
        entries: entries(&events[..end], size).collect(),
        hints: hints(&events[..end]).map(seconds).collect(),
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

/// What stands on the board in ink after all that was logged.
pub(crate) fn board(events: &[SolveEvent], puzzle: &Puzzle) -> Grid {
    let is_open = |it: &Entry| puzzle.givens().get(it.cell).is_none();
    let open = entries(events, puzzle.size()).filter(is_open);
    open.fold(puzzle.givens().clone(), |board, it| board.with(it.cell, it.digit))
}

/// The hints. What and why of a hint whose place was told is the same one, as long as nothing was written meanwhile.
pub(crate) fn hints(events: &[SolveEvent]) -> impl Iterator<Item = &SolveEvent> {
    let mut told = None;
    events.iter().filter(move |it| match &it.what[..] {
        "hint" => {
            let goes_on = told.is_some() && told < it.value && matches!(it.value, Some(2 | 3));
            told = it.value;
            !goes_on
        }
        "ink" | "pencil" | "mark" | "clue" => {
            told = None;
            false
        }
        _ => false,
    })
}

/// Every event, and whether an undo or redo before it has made it: then nobody has written it just then.
pub(crate) fn with_put_back(events: &[SolveEvent]) -> impl Iterator<Item = (&SolveEvent, bool)> {
    let mut n_left = 0;
    events.iter().map(move |it| {
        let is_change = matches!(&it.what[..], "ink" | "pencil" | "mark" | "clue");
        let is_put_back = is_change && n_left > 0;
        match &it.what[..] {
            "undo" | "redo" => n_left = it.value.unwrap_or_default(),
            _ if is_put_back => n_left -= 1,
            _ => {}
        }
        (it, is_put_back)
    })
}

/// The digits that somebody wrote, those that are kept back too.
pub(crate) fn digits(events: &[SolveEvent]) -> impl Iterator<Item = &SolveEvent> {
    let is_digit = |it: &SolveEvent| it.what == "ink" && it.value != Some(0);
    with_put_back(events).filter(move |(it, is_put_back)| is_digit(it) && !is_put_back).map(|it| it.0)
}

fn entries(events: &[SolveEvent], size: Size) -> impl Iterator<Item = Entry> {
    let cells: Vec<_> = size.cells().collect();
    let inked = events.iter().filter(|it| it.what == "ink");
    inked.filter_map(move |it| {
        let cell = usize::try_from(it.cell?).ok().and_then(|at| cells.get(at).copied())?;
        let digit = u8::try_from(it.value.unwrap_or_default()).ok().and_then(|it| size.digit(it));
        Some(Entry { at: seconds(it), cell, digit })
    })
}

fn seconds(it: &SolveEvent) -> f64 {
    it.after_ms as f64 / 1000.0
}

#[cfg(test)]
mod tests {
    use packfile::{SourceFile, read_solve};

    use super::*;

    fn begun() -> Begun {
        Begun {
            id: "a".to_owned(),
            puzzle: "first-light".to_owned(),
            fingerprint: "5fc199382fb2741f".to_owned(),
            solver: "Sorrel \"the quick\"".to_owned(),
            kind: "old hand".to_owned(),
            begun_at: "2026-11-27 03:00:00".to_owned(),
        }
    }

    #[test]
    fn a_file_reads_back_as_the_solve_that_was_logged() {
        let begun = begun();
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

    /// One event a millisecond, of these kinds with these values.
    fn happened(all: &[(&str, i64)]) -> Vec<SolveEvent> {
        let event = |(n, (what, value)): (i64, &(&str, i64))| SolveEvent {
            id: n.to_string(),
            after_ms: n,
            what: (*what).to_owned(),
            cell: Some(30),
            value: Some(*value),
        };
        (0..).zip(all).map(event).collect()
    }

    #[test]
    fn what_an_undo_puts_back_was_not_written_and_stands_there_all_the_same() {
        let events = happened(&[("ink", 5), ("ink", 6), ("undo", 1), ("ink", 5), ("ink", 7)]);
        let put_back: Vec<bool> = with_put_back(&events).map(|it| it.1).collect();
        assert_eq!(put_back, [false, false, false, true, false]);
        assert_eq!(digits(&events).map(|it| it.value.unwrap()).collect::<Vec<_>>(), [5, 6, 7]);
        assert_eq!(entries(&events, Size::NINE).count(), 4);
        let board = board(&events[..4], &Puzzle::new(Grid::empty(Size::NINE), []));
        assert_eq!(board.filled().map(|(_, it)| it.get()).collect::<Vec<_>>(), [5]);
    }

    #[test]
    fn what_was_written_after_the_end_is_no_part_of_a_solve() {
        let events = happened(&[("ink", 5), ("solved", 0), ("ink", 0), ("hint", 1)]);
        let solve = solve(&begun(), &events, Size::NINE);
        assert_eq!((solve.entries.len(), solve.hints.len(), solve.outcome), (1, 0, Outcome::Solved));
    }

    #[test]
    fn a_hint_that_is_told_further_is_one_and_after_something_was_written_it_is_another() {
        let n = |all: &[(&str, i64)]| hints(&happened(all)).count();
        assert_eq!(n(&[("hint", 1), ("hint", 2), ("pause", 0), ("hint", 3)]), 1);
        assert_eq!(n(&[("hint", 1), ("ink", 5), ("hint", 2)]), 2);
        assert_eq!(n(&[("hint", 1), ("hint", 1), ("hint", 2)]), 2);
        assert_eq!(n(&[("hint", 3), ("hint", 2)]), 2);
        assert_eq!(n(&[("hint", 3), ("hint", 4)]), 2);
    }
}
