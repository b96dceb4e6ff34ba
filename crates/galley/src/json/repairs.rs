//! What `mend`, `settle` and `spare` print.

use grid::{House, HouseKind};
use prove::{Member, Solutions};
use serde::Serialize;
use study::Study;

/// One of the verdicts of `check`.
pub(crate) fn verdict_on(study: Option<&Study>) -> &'static str {
    study.map_or(super::UNREADABLE, |it| super::verdict(it.finding()))
}

/// A row, a column, or the cell of a given.
#[derive(Serialize, Debug)]
struct Place {
    place: &'static str,
    index: Index,
    /// The rule that a clue belongs to; none for a given.
    rule: Option<&'static str>,
}

/// A line's number, from 1, or a cell.
#[derive(Serialize, Debug)]
#[serde(untagged)]
enum Index {
    Line(u8),
    Cell(String),
}

impl Place {
    fn of(printed: prove::Printed) -> Place {
        match printed {
            prove::Printed::Given(cell, _) => {
                Place { place: "given", index: Index::Cell(cell.to_string()), rule: None }
            }
            prove::Printed::Clue(clue) => Place {
                place: kind(clue.line),
                index: Index::Line(clue.line.number()),
                rule: Some(clue.rule.id().name()),
            },
        }
    }
}

fn kind(house: House) -> &'static str {
    match house.kind() {
        HouseKind::Row => "row",
        HouseKind::Column => "column",
        HouseKind::Box => "box",
    }
}

/// A given or a clue.
#[derive(Serialize, Debug)]
pub(crate) struct Printed {
    #[serde(flatten)]
    place: Place,
    value: u16,
}

impl Printed {
    pub(crate) fn of(it: prove::Printed) -> Printed {
        Printed { place: Place::of(it), value: it.value() }
    }
}

/// What `mend` says of a puzzle. Conflict and changes are null, and there are no mends, unless it has no solution.
#[derive(Serialize, Debug)]
pub(crate) struct Mending {
    pub(crate) verdict: &'static str,
    pub(crate) conflict: Option<Conflict>,
    /// How many changes were tried.
    pub(crate) changes: Option<usize>,
    pub(crate) mends: Vec<Mend>,
}

/// What contradicts itself.
#[derive(Serialize, Debug)]
pub(crate) struct Conflict {
    printed: Vec<Printed>,
    houses: Vec<String>,
    smallest: bool,
    says: String,
}

impl Conflict {
    pub(crate) fn of(it: &prove::Conflict) -> Conflict {
        let printed = it.members.iter().filter_map(|it| match it {
            Member::Given(cell, digit) => Some(prove::Printed::Given(*cell, *digit)),
            Member::Clue(clue) => Some(prove::Printed::Clue(*clue)),
            Member::House(_) => None,
        });
        let houses = it.members.iter().filter_map(|it| match it {
            Member::House(house) => Some(house.to_string()),
            _ => None,
        });
        Conflict {
            printed: printed.map(Printed::of).collect(),
            houses: houses.collect(),
            smallest: it.is_smallest(),
            says: tell::conflict(it),
        }
    }
}

/// A change of one thing printed that leaves a solution, or may.
#[derive(Serialize, Debug)]
pub(crate) struct Mend {
    #[serde(flatten)]
    place: Place,
    from: u16,
    /// None for a blank.
    to: Option<u16>,
    /// None if the limit was reached.
    solutions: Option<u64>,
    /// Whether counting ended there.
    or_more: bool,
    slips: Vec<&'static str>,
}

impl Mend {
    pub(crate) fn of(it: &prove::Mend) -> Mend {
        let (solutions, or_more) = match it.solutions {
            Some(Solutions::Exactly(n)) => (Some(n), false),
            Some(Solutions::AtLeast(n)) => (Some(n), true),
            None => (None, false),
        };
        Mend {
            place: Place::of(it.change.printed()),
            from: it.change.printed().value(),
            to: it.change.to(),
            solutions,
            or_more,
            slips: it.slips.iter().map(|it| it.name()).collect(),
        }
    }
}

/// What `settle` says of a puzzle; empty and null unless it has several solutions.
#[derive(Serialize, Debug)]
pub(crate) struct Settled {
    pub(crate) verdict: &'static str,
    /// Two of them.
    pub(crate) solutions: Vec<String>,
    pub(crate) differ: Vec<Difference>,
    pub(crate) single: Vec<Printed>,
    /// How many more givens might settle it alone.
    pub(crate) undecided: Option<usize>,
    pub(crate) towards: Vec<Towards>,
}

/// A cell in which two solutions differ.
#[derive(Serialize, Debug)]
pub(crate) struct Difference {
    cell: String,
    first: u8,
    second: u8,
}

/// Where two solutions differ.
pub(crate) fn differences(many: &prove::Many) -> Vec<Difference> {
    let differing = prove::differences(many).into_iter();
    differing
        .map(|(cell, first, second)| Difference {
            cell: cell.to_string(),
            first: first.get(),
            second: second.get(),
        })
        .collect()
}

/// The fewest additions that leave one chosen solution.
#[derive(Serialize, Debug)]
pub(crate) struct Towards {
    solution: String,
    givens: Option<Settling>,
    clues: Option<Settling>,
}

#[derive(Serialize, Debug)]
struct Settling {
    add: Vec<Printed>,
    /// It takes at least so many.
    at_least: usize,
}

impl Towards {
    pub(crate) fn of(it: &study::Towards) -> Towards {
        let settling = |it: &prove::Settling| Settling {
            add: it.added.iter().map(|it| Printed::of(*it)).collect(),
            at_least: it.at_least,
        };
        Towards {
            solution: it.solution.to_string(),
            givens: it.givens.as_ref().map(settling),
            clues: it.clues.as_ref().map(settling),
        }
    }
}

/// What `spare` says of a puzzle; empty and null unless it has one solution and is open.
#[derive(Serialize, Debug)]
pub(crate) struct Spared {
    pub(crate) verdict: &'static str,
    pub(crate) spare: Vec<Printed>,
    pub(crate) needed: Vec<Printed>,
    pub(crate) undecided: Vec<Printed>,
    pub(crate) irreducible: Option<Irreducible>,
}

/// A form with nothing to spare.
#[derive(Serialize, Debug)]
pub(crate) struct Irreducible {
    pub(crate) gone: Vec<Printed>,
    pub(crate) undecided: Vec<Printed>,
    /// The puzzle file.
    pub(crate) text: String,
}
