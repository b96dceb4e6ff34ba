//! The documents of orders.

use serde::Serialize;

use super::{Problem, UnreadableFile};

/// What `order` prints.
#[derive(Serialize, Debug)]
pub(crate) struct Order {
    pub(crate) format: u8,
    pub(crate) by: &'static str,
    /// None while a puzzle is sealed, and so are the next two.
    pub(crate) cost: Option<u64>,
    pub(crate) costs: Option<Costs>,
    /// None where the order is the editor's.
    pub(crate) at_least: Option<u64>,
    pub(crate) puzzles: Vec<Place>,
    pub(crate) aside: Vec<Aside>,
    pub(crate) proposed: Proposed,
    pub(crate) unreadable: Vec<UnreadableFile>,
    pub(crate) problems: Vec<Problem>,
}

/// What an order costs, part by part.
#[derive(Serialize, Debug)]
pub(crate) struct Costs {
    new_at_once: u64,
    prerequisites: u64,
    minutes_back: u64,
    same_setter: u64,
    same_break_in: u64,
    shelves: u64,
    not_taught: u64,
    said_untrue: u64,
}

impl From<pack::Costs> for Costs {
    fn from(it: pack::Costs) -> Costs {
        Costs {
            new_at_once: it.new_at_once,
            prerequisites: it.prerequisites,
            minutes_back: it.minutes_back,
            same_setter: it.same_setter,
            same_break_in: it.same_break_in,
            shelves: it.shelves,
            not_taught: it.not_taught,
            said_untrue: it.said_untrue,
        }
    }
}

/// The order that Galley proposes.
#[derive(Serialize, Debug)]
pub(crate) struct Proposed {
    pub(crate) cost: Option<u64>,
    pub(crate) puzzles: Vec<String>,
}

/// A puzzle's place and the reasons for it; those are null where they are kept back.
#[derive(Serialize, Debug)]
pub(crate) struct Place {
    pub(crate) place: usize,
    pub(crate) id: String,
    pub(crate) sealed: bool,
    pub(crate) new: Option<Vec<&'static str>>,
    pub(crate) practised: Option<Vec<&'static str>>,
    pub(crate) not_shown: Option<Vec<&'static str>>,
    pub(crate) opens_with: Option<&'static str>,
    pub(crate) seconds_more: Option<i64>,
    pub(crate) same_setter: Option<bool>,
    pub(crate) same_break_in: Option<bool>,
    pub(crate) shelf_back: Option<bool>,
    pub(crate) why: String,
}

/// A puzzle that has no place.
#[derive(Serialize, Debug)]
pub(crate) struct Aside {
    pub(crate) id: String,
    pub(crate) sealed: bool,
    pub(crate) state: &'static str,
    pub(crate) reason: Option<String>,
    pub(crate) why: String,
}

/// What `order --move` prints.
#[derive(Serialize, Debug)]
pub(crate) struct Moved {
    pub(crate) format: u8,
    /// None while a puzzle is sealed, and so are the next two.
    pub(crate) cost: Option<u64>,
    pub(crate) cost_before: Option<u64>,
    pub(crate) costs: Option<Costs>,
    pub(crate) puzzles: Vec<Place>,
    pub(crate) worse: Vec<Flaw>,
    pub(crate) better: Vec<Flaw>,
    pub(crate) problems: Vec<Problem>,
}

/// What speaks against the place of a puzzle.
#[derive(Serialize, Debug)]
pub(crate) struct Flaw {
    pub(crate) id: String,
    pub(crate) title: String,
    pub(crate) says: String,
}
