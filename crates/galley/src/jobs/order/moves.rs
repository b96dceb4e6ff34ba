//! What becomes of an order when puzzles are moved by hand.

use std::str::FromStr;

use pack::PuzzleId;
use study::StudiedPack;
use tell::{Against, OrderChanges, order_changes};

use super::document::place;
use crate::job::With;
use crate::json;
use crate::outcome::{Failure, Outcome};
use crate::places::{self, Places};
use crate::studies::Found;
use crate::{print, words};

/// A puzzle, and the place it is moved to, from 1: `first-light=3`.
#[derive(Clone, Debug)]
pub(crate) struct Move {
    id: PuzzleId,
    to: usize,
}

impl FromStr for Move {
    type Err = String;

    fn from_str(text: &str) -> Result<Move, String> {
        let parsed = text.split_once('=').and_then(|(id, to)| Some((PuzzleId::new(id)?, to.parse().ok()?)));
        match parsed {
            Some((id, to)) if to > 0 => Ok(Move { id, to }),
            _ => Err("expected a puzzle's id and a place counted from 1, such as first-light=3".to_owned()),
        }
    }
}

/// Moves the puzzles, and says what gets worse and what gets better.
pub(super) fn run(found: Found, moves: &[Move], with: &With) -> Result<Outcome, Failure> {
    let order = moved(found.pack.order(), moves)?;
    let after = found.with_order(Some(order), with)?;
    let before = found.pack.clone();
    // What is wrong is told of the order after the move, which is the one that is weighed.
    let found = found.arranged(after);
    let changes = order_changes(&before, &found.pack);
    let result = match with.is_json {
        true => json::text(&document(&before, &found, &changes)),
        false => in_words(&before, &found.pack, &changes, with),
    };
    Ok(Outcome {
        problems: found.problems(with),
        result,
        note: String::new(),
        has_errors: found.has_errors(),
    })
}

/// The order once each move is made, one after the other.
fn moved(mut order: Vec<PuzzleId>, moves: &[Move]) -> Result<Vec<PuzzleId>, Failure> {
    for Move { id, to } in moves {
        let Some(from) = order.iter().position(|it| it == id) else {
            let ids: Vec<&str> = order.iter().map(PuzzleId::as_str).collect();
            return Err(Failure::new(
                format!("`{id}` has no place that it could be moved from"),
                format!("name one of these: {}", ids.join(", ")),
            ));
        };
        if *to > order.len() {
            let message =
                format!("there is no place {to}: the pack has {}", words::counted(order.len(), "puzzle"));
            return Err(Failure::new(message, "name a smaller place"));
        }
        let it = order.remove(from);
        order.insert(to - 1, it);
    }
    Ok(order)
}

fn in_words(before: &StudiedPack, after: &StudiedPack, changes: &OrderChanges, with: &With) -> String {
    let places = Places::of(after);
    let places = places.iter().map(|(place, study, placed)| {
        (place, format!("{}: {}", study.entry().title, words::place(place, study, placed)))
    });
    let places = print::numbered(places, with.stdout);
    let costs = match (places::costs(before), places::costs(after)) {
        (Some(before), Some(after)) => format!(
            "Before, the order costs {} ({}); so, {} ({}).",
            before.total(),
            tell::costs(before),
            after.total(),
            tell::costs(after)
        ),
        _ => "What these orders cost is kept back while a puzzle is sealed.".to_owned(),
    };
    let said = |head: &str, of: &[Against]| match of.is_empty() {
        true => String::new(),
        false => {
            let lines = of.iter().map(|it| format!("- {}: {}", name(after, it), it.says));
            let lines = lines.map(|it| print::folded(&it, with.stdout));
            format!("{head}\n{}\n", lines.collect::<String>())
        }
    };
    let worse = said("What gets worse:", &changes.worse);
    let better = said("What gets better:", &changes.better);
    let nothing = match changes.worse.is_empty() && changes.better.is_empty() {
        true => "Nothing that is weighed gets worse or better.\n\n",
        false => "",
    };
    format!(
        "The order after the move.\n\n{places}\n{worse}{better}{nothing}{}",
        print::folded(&costs, with.stdout)
    )
}

/// The puzzle's title, with its id where another has the same title.
fn name(pack: &StudiedPack, it: &Against) -> String {
    match pack.all().filter(|other| other.entry().title == it.title).count() {
        0 | 1 => it.title.clone(),
        _ => format!("{} ({})", it.title, it.id),
    }
}

fn document(before: &StudiedPack, found: &Found, changes: &OrderChanges) -> json::Moved {
    let said = |of: &[Against]| {
        let flaw = |it: &Against| json::Flaw {
            id: it.id.to_string(),
            title: it.title.clone(),
            says: it.says.clone(),
        };
        of.iter().map(flaw).collect()
    };
    let after = &found.pack;
    json::Moved {
        format: json::FORMAT,
        cost: places::costs(after).map(|it| it.total()),
        cost_before: places::costs(before).map(|it| it.total()),
        costs: places::costs(after).map(json::Costs::from),
        puzzles: Places::of(after).iter().map(place).collect(),
        worse: said(&changes.worse),
        better: said(&changes.better),
        problems: found.all_problems(),
    }
}
