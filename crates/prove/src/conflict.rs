//! Which part of a puzzle without a solution already contradicts itself.

use std::fmt;

use batsat::Lit;
use grid::{Cell, Digit, Grid, House, Size};
use rulebook::{Clue, Puzzle};

use crate::clauses::{Answer, Clauses};
use crate::hitting::{Hitting, Set};
use crate::{Limit, Many, Printed, Verdict, stop, verdict};

/// One thing that takes part in a contradiction.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Member {
    /// A digit printed in a cell.
    Given(Cell, Digit),
    /// A number printed beside a line. The line takes part too: without each digit once in it, a clue says
    /// nothing.
    Clue(Clue),
    /// That a row, column or box holds each digit once.
    House(House),
}

/// Givens, clues and houses that cannot all hold.
///
/// Invariant: without any one of them the others can hold together, whatever is in all other cells. (Without a
/// line that has a clue here, it is without that clue too.)
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Conflict {
    /// The givens in reading order, then the clues, then the houses.
    pub members: Vec<Member>,
    /// No fewer than so many contradict each other: where that is the number of members, there is no smaller
    /// conflict anywhere in the puzzle.
    pub at_least: usize,
}

/// How much work a search for a conflict may take.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Digging {
    /// Questions to the general solver, and contradictions that it runs into, until one conflict is found and
    /// made irreducible.
    pub work: u64,
    /// For each verdict that tells more quickly whether a given or a clue is needed.
    pub limit: Limit,
    /// The same, from then on, until it is made, or proved, the smallest.
    pub more_work: u64,
    /// Nodes of the search for a smallest choice.
    pub choices: u64,
}

impl Conflict {
    /// Whether it is proved that no conflict has fewer members.
    pub fn is_smallest(&self) -> bool {
        self.at_least == self.members.len()
    }
}

/// A small conflict of a puzzle; none if it has a solution, or the work allowed was used up before one was
/// found and made irreducible, or the page and its houses are more than 384 things: with clues of three rules beside
/// every line of a full 16x16 board.
///
/// A contradiction among everything is cut down member by member. Each trial that fails gives a board on
/// which something is broken, and one of what is broken belongs to every conflict; smallest choices
/// from these tell how small a conflict can be, and whether there is one that small.
pub fn conflict(puzzle: &Puzzle, digging: Digging) -> Option<Conflict> {
    if matches!(verdict(puzzle, digging.limit), Verdict::One(_) | Verdict::Many(_)) {
        return None;
    }
    let mut search = Search::new(puzzle, digging)?;
    let first = match search.ask(&{ search.everything }) {
        Told::Contradiction(it) => it,
        Told::Broken(_) | Told::GivenUp => return None,
    };
    let mut best = search.irreducible(first).ok()?;
    search.clauses.allow(digging.more_work);
    // Whether it came to its end is told by the bound.
    _ = search.dig(&mut best, digging.choices);
    let members = best.iter().map(|it| search.members[it]).collect();
    Some(Conflict { members, at_least: search.hitting.at_least().min(best.len()) })
}

/// The work allowed is used up.
struct GivenUp;

/// What is told of some members.
enum Told {
    /// These of them contradict each other.
    Contradiction(Set),
    /// They can hold together; then at least these others are broken, of which none is among them.
    Broken(Set),
    /// The work allowed is used up.
    GivenUp,
}

struct Search {
    size: Size,
    limit: Limit,
    members: Vec<Member>,
    /// All members.
    everything: Set,
    conditions: Vec<Lit>,
    /// By member: itself and, for a clue, its line.
    brings: Vec<Set>,
    clauses: Clauses,
    hitting: Hitting,
}

impl Search {
    /// None if there are too many members, or the caller wants no more.
    fn new(puzzle: &Puzzle, digging: Digging) -> Option<Search> {
        let size = puzzle.size();
        let printed = Printed::all(puzzle).into_iter().map(|it| match it {
            Printed::Given(cell, digit) => Member::Given(cell, digit),
            Printed::Clue(clue) => Member::Clue(clue),
        });
        let members: Vec<Member> = printed.chain(size.houses().map(Member::House)).collect();
        let everything = Set::first(members.len())?;
        let mut clauses = Clauses::new(size, digging.work);
        let first_house = members.len() - size.houses().count();
        let houses: Vec<Lit> = size.houses().map(|it| clauses.house(it)).collect();
        let house_of = |clue: &Clue| size.house_index(clue.line);
        let mut conditions = Vec::with_capacity(members.len());
        for it in &members {
            conditions.push(match it {
                Member::Given(cell, digit) => clauses.given(*cell, *digit),
                // On 16x16 a clue has up to 2,951 ways, so the whole page takes a while.
                Member::Clue(_) if stop::is_asked() => return None,
                Member::Clue(clue) => clauses.ways(&puzzle.ways(clue), houses[house_of(clue)]),
                Member::House(house) => houses[size.house_index(*house)],
            });
        }
        let brought = members.iter().enumerate().map(|(at, it)| match it {
            Member::Clue(clue) => [at, first_house + house_of(clue)].into_iter().collect(),
            _ => [at].into_iter().collect(),
        });
        let brings: Vec<Set> = brought.collect();
        let hitting = Hitting::new(brings.clone());
        let limit = digging.limit;
        Some(Search { size, limit, members, everything, conditions, brings, clauses, hitting })
    }

    fn ask(&mut self, members: &Set) -> Told {
        let conditions: Vec<Lit> = members.iter().map(|it| self.conditions[it]).collect();
        match self.clauses.ask(&conditions) {
            Answer::Together(board) => Told::Broken(self.broken_on(&board)),
            Answer::Contradiction(used) => {
                let used = members.iter().filter(|it| used.contains(&self.conditions[*it]));
                Told::Contradiction(self.with_lines(used.collect()))
            }
            Answer::GivenUp => Told::GivenUp,
        }
    }

    /// With the lines of the clues.
    fn with_lines(&self, members: Set) -> Set {
        members.iter().fold(members, |set, it| set.union(&self.brings[it]))
    }

    /// What does not hold on a full board. A clue counts as broken only where its line is not: whoever
    /// cites the clue cites the line.
    fn broken_on(&self, board: &Grid) -> Set {
        let size = board.size();
        let is_house_broken = |house| {
            let digits = size.cells_of(house).into_iter().filter_map(|it| board.get(it));
            digits.collect::<grid::DigitSet>() != size.digits()
        };
        let is_broken = |it: &Member| match *it {
            Member::Given(cell, digit) => board.get(cell) != Some(digit),
            Member::Clue(clue) => !is_house_broken(clue.line) && !Printed::Clue(clue).is_true_of(board),
            Member::House(house) => is_house_broken(house),
        };
        (0..self.members.len()).filter(|it| is_broken(&self.members[*it])).collect()
    }

    /// Something broken if all houses hold, and the givens and clues among these; none if there is nothing such or
    /// the limit is reached first. A verdict is much quicker than a general question.
    fn broken_beside_all_houses(&self, members: &Set) -> Option<Set> {
        let blank = Puzzle::new(Grid::empty(self.size), []);
        let page = members.iter().fold(blank, |page, it| match self.members[it] {
            Member::Given(cell, digit) => Printed::Given(cell, digit).added_to(&page),
            Member::Clue(clue) => Printed::Clue(clue).added_to(&page),
            Member::House(_) => page,
        });
        match verdict(&page, self.limit) {
            Verdict::One(board) | Verdict::Many(Many { first: board, .. }) => Some(self.broken_on(&board)),
            Verdict::None | Verdict::Undecided => None,
        }
    }

    /// The same conflict without what can be left out: clues first, which bring a line along, then
    /// houses, then givens.
    fn irreducible(&mut self, mut conflict: Set) -> Result<Set, GivenUp> {
        let mut needed = Set::default();
        let kind = |it: &Member| match it {
            Member::Clue(_) => 0,
            Member::House(_) => 1,
            Member::Given(..) => 2,
        };
        loop {
            let open = conflict.without(&needed).iter().filter(|it| self.is_free(*it, &conflict));
            let Some(tried) = open.min_by_key(|it| kind(&self.members[*it])) else { return Ok(conflict) };
            let fewer = conflict.without(&[tried].into_iter().collect());
            let broken = match self.members[tried] {
                Member::House(_) => None,
                Member::Given(..) | Member::Clue(_) => self.broken_beside_all_houses(&fewer),
            };
            let told = match broken {
                Some(it) => Told::Broken(it),
                None => self.ask(&fewer),
            };
            match told {
                Told::Contradiction(fewer) => conflict = fewer,
                Told::Broken(it) => {
                    self.hitting.add(it);
                    needed.insert(tried);
                }
                Told::GivenUp => return Err(GivenUp),
            }
        }
    }

    /// Whether nothing in the conflict brings this member along.
    fn is_free(&self, member: usize, conflict: &Set) -> bool {
        conflict.iter().all(|it| it == member || !self.brings[it].contains(member))
    }

    /// Goes on until the best conflict known is proved to be the smallest.
    fn dig(&mut self, best: &mut Set, mut choices: u64) -> Result<(), GivenUp> {
        loop {
            let mut with = self.hitting.smallest(&mut choices).ok_or(GivenUp)?;
            if with.len() == best.len() {
                return Ok(());
            }
            // Going on from the choice until it is a contradiction gives several sets at once.
            let found = loop {
                match self.ask(&with) {
                    Told::GivenUp => return Err(GivenUp),
                    Told::Contradiction(it) => break it,
                    Told::Broken(it) => {
                        let broken = self.least_broken(it)?;
                        self.hitting.add(broken);
                        let next = broken.iter().next().ok_or(GivenUp)?;
                        with = with.union(&self.brings[next]);
                    }
                }
            };
            let found = self.irreducible(found)?;
            if found.len() < best.len() {
                *best = found;
            }
        }
    }

    /// Less of what was broken on some board, so that no board breaks only a part of it.
    fn least_broken(&mut self, mut broken: Set) -> Result<Set, GivenUp> {
        let mut looked_at = Set::default();
        while let Some(it) = broken.without(&looked_at).iter().next() {
            looked_at.insert(it);
            // A clue on a broken line is not broken itself, but cannot be demanded without the line.
            let kept = self.everything.without(&broken).union(&self.brings[it]);
            let kept: Set =
                kept.iter().filter(|it| !self.brings[*it].meets(&broken.without(&kept))).collect();
            match self.ask(&kept) {
                Told::GivenUp => return Err(GivenUp),
                Told::Contradiction(_) => {}
                Told::Broken(fewer) => broken = fewer,
            }
        }
        Ok(broken)
    }
}

/// Prints `r4c7 = 5`, `sandwich row 4 = 12` or `row 4`.
impl fmt::Debug for Member {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Member::Given(cell, digit) => Printed::Given(*cell, *digit).fmt(f),
            Member::Clue(clue) => clue.fmt(f),
            Member::House(house) => house.fmt(f),
        }
    }
}
