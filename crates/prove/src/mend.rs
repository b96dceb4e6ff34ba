//! Which change of one thing printed gives a puzzle without a solution one: every such change is tried.

use grid::Size;
use rulebook::{Clue, Puzzle};

use crate::{Limit, Printed, Slip, Verdict, count, slip, verdict};

/// Another value for one thing printed, or none.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Change {
    printed: Printed,
    /// Invariant: stands in the same place.
    to: Option<Printed>,
}

/// A change that leaves at least one solution, or may do so.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Mend {
    /// The change.
    pub change: Change,
    /// How many solutions there are then; none if the limit was reached first.
    pub solutions: Option<Solutions>,
    /// The slips by which what should have been printed became what is, the likeliest first.
    pub slips: Vec<Slip>,
}

/// A number of solutions, counted up to a cap.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Solutions {
    /// So many.
    Exactly(u64),
    /// So many and perhaps more: the cap was reached.
    AtLeast(u64),
}

/// All mends of a puzzle.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Mends {
    /// Those that leave exactly one solution first, then those that leave several, then the undecided;
    /// among these the likeliest slips first, and in the order of the page where nothing else tells them
    /// apart.
    pub mends: Vec<Mend>,
    /// How many changes were judged.
    pub n_changes: usize,
}

/// Judges every change of one thing printed. Solutions are counted up to `cap` (at least 2); `limit` is
/// for each count.
pub fn mends(puzzle: &Puzzle, cap: u64, limit: Limit) -> Mends {
    Printed::all(puzzle).into_iter().map(|it| mends_at(puzzle, it, cap, limit)).collect()
}

/// Judges every change of this one thing, so that whoever has several cores can share the page out;
/// [`Mends`] is collected from the parts in the order of the page.
pub fn mends_at(puzzle: &Puzzle, printed: Printed, cap: u64, limit: Limit) -> Mends {
    let changes = changes_at(puzzle, printed);
    let n_changes = changes.len();
    let mends = judged(puzzle, printed, changes, cap.max(2), limit);
    // Put together even if it is the only part, so that it is in order.
    [Mends { mends, n_changes }].into_iter().collect()
}

/// Every change of this one thing: each other value that can stand there, rising, and then the blank.
pub fn changes_at(puzzle: &Puzzle, printed: Printed) -> Vec<Change> {
    let size = puzzle.size();
    let values: Vec<u16> = match printed {
        Printed::Given(..) => size.digits().iter().map(|it| u16::from(it.get())).collect(),
        Printed::Clue(clue) => clue.rule.reachable(size),
    };
    let others = values.into_iter().filter(|it| *it != printed.value()).map(Some);
    others.chain([None]).filter_map(|to| Change::new(size, printed, to)).collect()
}

impl Change {
    /// Another digit or number in the place of what is printed, or a blank. None if what would stand in a cell is
    /// no digit of the size.
    pub fn new(size: Size, printed: Printed, to: Option<u16>) -> Option<Change> {
        let Some(value) = to else { return Some(Change { printed, to: None }) };
        let to = match printed {
            Printed::Given(cell, _) => {
                Printed::Given(cell, u8::try_from(value).ok().and_then(|it| size.digit(it))?)
            }
            Printed::Clue(clue) => Printed::Clue(Clue { value, ..clue }),
        };
        Some(Change { printed, to: Some(to) })
    }

    /// What is printed now.
    pub fn printed(self) -> Printed {
        self.printed
    }

    /// The digit or number that would stand there; none for a blank.
    pub fn to(self) -> Option<u16> {
        self.to.map(Printed::value)
    }

    /// The puzzle with this change.
    #[must_use]
    pub fn applied_to(self, puzzle: &Puzzle) -> Puzzle {
        match self.to {
            Some(it) => it.added_to(puzzle),
            None => self.printed.taken_from(puzzle),
        }
    }
}

/// The changes of one thing that leave a solution, or may.
///
/// The blank is decided first, because it settles most of the others: without the thing there are at
/// least as many solutions as with any value of it, and each solution is one of exactly one value.
fn judged(puzzle: &Puzzle, printed: Printed, changes: Vec<Change>, cap: u64, limit: Limit) -> Vec<Mend> {
    let mend = |change: Change, solutions| {
        let slips = slip::slips(puzzle, change);
        Mend { change, solutions, slips }
    };
    let blank = printed.taken_from(puzzle);
    match verdict(&blank, limit) {
        Verdict::None => Vec::new(),
        Verdict::One(only) => {
            let is_met = |it: &Change| it.to.is_none_or(|it| it.is_true_of(&only));
            let met = changes.into_iter().filter(is_met);
            met.map(|it| mend(it, Some(Solutions::Exactly(1)))).collect()
        }
        Verdict::Many(_) | Verdict::Undecided => {
            let all = solutions(&blank, cap, limit);
            // How many solutions of the blank belong to values not looked at yet, if that is known.
            let mut n_left = match all {
                Some(Solutions::Exactly(n)) => Some(n),
                _ => None,
            };
            let mut found = Vec::new();
            for change in changes {
                let counted = match (change.to, n_left) {
                    (None, _) => all,
                    (Some(_), Some(0)) => continue,
                    (Some(_), _) => solutions(&change.applied_to(puzzle), cap, limit),
                };
                match counted {
                    Some(Solutions::Exactly(0)) => continue,
                    Some(Solutions::Exactly(n)) if change.to.is_some() => {
                        n_left = n_left.map(|it| it.saturating_sub(n));
                    }
                    _ => {}
                }
                found.push(mend(change, counted));
            }
            found
        }
    }
}

fn solutions(puzzle: &Puzzle, cap: u64, limit: Limit) -> Option<Solutions> {
    let n = count(puzzle, cap, limit)?;
    Some(if n < cap { Solutions::Exactly(n) } else { Solutions::AtLeast(n) })
}

impl Mend {
    /// Exactly one solution, then several, then undecided; then by slip, a blank last.
    fn rank(&self) -> impl Ord + use<> {
        let certain = match self.solutions {
            Some(Solutions::Exactly(1)) => 0,
            Some(_) => 1,
            None => 2,
        };
        let likeliest = self.slips.first().copied();
        let several_slips = std::cmp::Reverse(self.slips.len());
        (certain, likeliest.is_none(), likeliest, several_slips, self.change.to.is_none())
    }
}

/// Puts the parts together, given in the order of the page.
impl FromIterator<Mends> for Mends {
    fn from_iter<I: IntoIterator<Item = Mends>>(parts: I) -> Mends {
        let mut all = Mends { mends: Vec::new(), n_changes: 0 };
        for part in parts {
            all.n_changes += part.n_changes;
            all.mends.extend(part.mends);
        }
        // Stable, so that the order of the page decides among equals.
        all.mends.sort_by_key(Mend::rank);
        all
    }
}
