//! Everything that can be wrong with a pack, in one shape: what `packfile` says of files, and what
//! studying says of puzzles.

use std::collections::BTreeMap;

use pack::PuzzleId;
use packfile::{Problem, Severity, Span};
use prove::{Many, Solutions};
use reason::Stopped;
use study::{Finding, Repair, StudiedPack, Study};

use crate::load::PACK_FILE;

/// So many additions are named where it is told that there are several solutions.
const FEW: usize = 3;

/// One thing wrong with a pack.
#[derive(Clone, Debug)]
pub(crate) struct Trouble {
    /// What kind of trouble.
    pub(crate) code: &'static str,
    /// Whether it is an error rather than a warning.
    pub(crate) is_error: bool,
    /// The file, relative to the pack.
    pub(crate) file: String,
    /// Where in the file; none if it is about the file as a whole.
    pub(crate) at: Option<Span>,
    /// What was found; lower case, without a final dot.
    pub(crate) message: String,
    /// What shows it, in whole sentences or clauses.
    pub(crate) why: Option<String>,
    /// The next move.
    pub(crate) help: Option<String>,
}

impl From<Problem> for Trouble {
    fn from(it: Problem) -> Trouble {
        Trouble {
            code: it.code.name(),
            is_error: it.severity == Severity::Error,
            file: it.file,
            at: it.at,
            message: it.message,
            why: None,
            help: it.help,
        }
    }
}

/// What keeps a puzzle from being published, if anything does.
pub(crate) fn of_study(study: &Study, file: &str) -> Option<Trouble> {
    let title = &study.entry().title;
    let trouble = |code, message: &str, why, help: &str| Trouble {
        code,
        is_error: true,
        file: file.to_owned(),
        at: None,
        message: format!("\"{title}\" {message}"),
        why,
        help: Some(help.to_owned()),
    };
    match study.finding() {
        Finding::One if !study.lacks_walkthrough() => None,
        Finding::One => {
            let stopped = study.opened().and_then(|it| it.stopped);
            if let Some(Stopped::NotTeachable(_)) = stopped {
                let help = "one more given or clue may be enough to change that";
                return Some(trouble(
                    "not-teachable",
                    "is not teachable yet",
                    stopped.map(why_stopped),
                    help,
                ));
            }
            let help = "send the file to Galley's makers: every puzzle with one solution should have one";
            Some(trouble("no-walkthrough", "has no walkthrough", stopped.map(why_stopped), help))
        }
        Finding::None => {
            let (why, help) = none(study);
            Some(trouble("no-solution", "has no solution", why, &help))
        }
        Finding::Many => {
            let (why, help) = several(study);
            Some(trouble("several-solutions", "has more than one solution", why, &help))
        }
        Finding::Undecided => {
            let help = "more givens or clues make it easier to decide";
            let message = "may have any number of solutions: the proof reached its limit";
            Some(trouble("not-decided", message, None, help))
        }
    }
}

/// What in the pack is not as its files say: puzzles that are more than their shelves take, and recordings that say
/// what is no longer true; and that it was broken off before an order came to rest. All of it is a warning.
pub(crate) fn of_pack(pack: &StudiedPack, files: &BTreeMap<PuzzleId, String>) -> Vec<Trouble> {
    let title = |id: &PuzzleId| {
        let study = pack.all().find(|it| it.entry().id == *id);
        study.map(|it| it.entry().title.clone()).unwrap_or_default()
    };
    let warning = |code, id: &PuzzleId, message: String, help: &str| Trouble {
        code,
        is_error: false,
        file: files[id].clone(),
        at: None,
        message,
        why: None,
        help: Some(help.to_owned()),
    };
    let misfits = pack.misfits().into_iter().map(|it| {
        let why = tell::too_much_for_shelf(&it);
        let message = format!("\"{}\" is on the shelf \"{}\", but {why}", title(&it.id), it.shelf);
        warning("shelf-misfit", &it.id, message, "move it to another shelf, or change the shelf's limits")
    });
    let untrue = pack.untrue().into_iter().map(|(id, said)| {
        let message =
            format!("a recording says of \"{}\" \"{said}\", which is not true of this order", title(&id));
        warning("said-untrue", &id, message, "pin the puzzle to its place, or record that part again")
    });
    let not_shown = pack.all().filter_map(|it| {
        let (technique, account) = it.entry().features.zip(it.opened()?.account)?;
        let message = format!(
            "\"{}\" should show {}, and no walkthrough does that was found and takes at most {} % more effort than the \
             best",
            it.entry().title,
            tell::technique_name(technique),
            reason::FEATURED,
        );
        let help = "take `features` out of its file, or feature what `galley teaches` lists";
        (!account.techniques().contains(&technique))
            .then(|| warning("feature-not-shown", &it.entry().id, message, help))
    });
    let unsettled = pack.unsettled().map(|it| Trouble {
        code: "order-unsettled",
        is_error: false,
        file: PACK_FILE.to_owned(),
        at: None,
        message: tell::unsettled(it),
        why: None,
        help: Some("give the pack an `order`, or pin some of the puzzles".to_owned()),
    });
    misfits.chain(untrue).chain(not_shown).chain(unsettled).collect()
}

/// The trouble of asking for `what`, which the seal keeps back.
pub(crate) fn sealed(study: &Study, what: &str, file: &str) -> Trouble {
    Trouble {
        code: "sealed",
        is_error: true,
        file: file.to_owned(),
        at: None,
        message: format!("\"{}\" is sealed, so {what} is kept back", study.entry().title),
        why: None,
        help: Some("solve it first, or add --unseal".to_owned()),
    }
}

/// What shows that there is no solution, and the next move.
fn none(study: &Study) -> (Option<String>, String) {
    let compare = "compare the grid and the clues with what the setter sent";
    let Some(Repair::Mending(it)) = study.opened().and_then(|it| it.repair) else {
        return (None, compare.to_owned());
    };
    let one = it.mends.mends.iter().filter(|it| it.solutions == Some(Solutions::Exactly(1)));
    let help = match (one.clone().next(), one.count()) {
        (None, _) => format!("{compare}; no change of one thing leaves exactly one solution"),
        (Some(it), 1) => format!("one change leaves exactly one solution: {}", tell::change(it.change)),
        (Some(it), n) => format!(
            "{n} changes of one thing leave exactly one solution, such as {}; `galley mend` shows them all",
            tell::change(it.change)
        ),
    };
    (it.conflict.as_ref().map(tell::conflict), help)
}

/// What shows that there are several solutions, and the next move.
fn several(study: &Study) -> (Option<String>, String) {
    let puzzle = &study.entry().puzzle;
    let exchange = study.exchange().map(|(a, b)| tell::exchange_explanation(puzzle.size(), a, b));
    let opened = study.opened();
    let repair = opened.and_then(|it| it.repair);
    let (Some(many), Some(Repair::Settlings(settlings))) = (opened.and_then(|it| it.many), repair) else {
        return (exchange, "add a given or a clue; --unseal shows where two solutions differ".to_owned());
    };
    let fewest = settlings.towards.iter().flat_map(|it| [&it.givens, &it.clues]).flatten();
    let help = match fewest.min_by_key(|it| it.added.len()) {
        Some(it) if it.added.len() <= FEW => {
            let added: Vec<String> = it.added.iter().map(|it| tell::to_print(*it)).collect();
            format!("printing {} leaves one solution; `galley settle` shows other ways", tell::list(&added))
        }
        Some(it) => format!(
            "it takes more: {} givens or clues are enough, and `galley settle` shows which",
            it.added.len()
        ),
        None => "add clues or givens where the solutions differ".to_owned(),
    };
    (Some(exchange.unwrap_or_else(|| first_differences(many))), help)
}

/// `row 4 column 2 can be 3 or 7; row 4 column 6 can be 7 or 3`: the first cells in which two
/// solutions differ.
fn first_differences(many: &Many) -> String {
    const SHOWN: usize = 2;
    let differences = prove::differences(many).into_iter().take(SHOWN);
    let clauses = differences.map(|(cell, first, second)| {
        format!("row {} column {} can be {first} or {second}", cell.row(), cell.column())
    });
    clauses.collect::<Vec<_>>().join("; ")
}

/// Where a walkthrough ended, for the rare puzzle that has none.
fn why_stopped(stopped: &Stopped) -> String {
    match stopped {
        Stopped::Stuck(board) => {
            let n_open = board.size().n_cells() - board.filled().count();
            format!("no step within the limits leads on with {n_open} cells empty")
        }
        Stopped::NotTeachable(n) => {
            format!(
                "its walkthrough takes {n} steps of last resort (small arguments, and what is followed to an end), \
                 too many to be read out"
            )
        }
        Stopped::Wrong(_) => "a step contradicts the solution, which is a fault of Galley's".to_owned(),
        Stopped::Refused(..) => "a step did not pass its check, which is a fault of Galley's".to_owned(),
        Stopped::Misbuilt(_) => "a step is not well formed, which is a fault of Galley's".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use packfile::{SourceFile, read_puzzle};
    use reason::{Known, Search, Settings};
    use trail::TechniqueId;

    use super::*;

    /// To somebody who knows nothing but singles, this puzzle takes more small arguments than can be read out.
    #[test]
    fn a_puzzle_that_is_not_teachable_yet_says_so_and_what_may_help() {
        let text = include_str!("../../../demo/lantern-room/puzzles/small-hours.toml");
        let entry = read_puzzle(&SourceFile::new("small-hours.toml", text)).0.unwrap();
        let known = Known::up_to(TechniqueId::new("naked-single"));
        let singles = Settings { known, search: Search::EasiestNext, ..Settings::THOROUGH };
        let study = study::study_with(entry, true, singles);
        let Some(Stopped::NotTeachable(n)) = study.opened().and_then(|it| it.stopped) else {
            panic!("{:?}", study.finding())
        };
        let trouble = of_study(&study, "puzzles/small-hours.toml").unwrap();
        assert!(*n > 10 && trouble.is_error);
        assert_eq!(trouble.code, "not-teachable");
        assert_eq!(trouble.message, "\"Small hours\" is not teachable yet");
        let last_resorts = "steps of last resort (small arguments, and what is followed to an end)";
        let why = format!("its walkthrough takes {n} {last_resorts}, too many to be read out");
        assert_eq!(trouble.why, Some(why));
        assert_eq!(trouble.help.as_deref(), Some("one more given or clue may be enough to change that"));
    }
}
