//! Which part of a puzzle without a solution already contradicts itself.

use std::fmt;

use batsat::Lit;
use grid::{Cell, Digit, Grid, House, Size};
use rulebook::{Clue, Puzzle};

use crate::clauses::{Answer, Clauses};
use crate::hitting::{Hitting, Set};
use crate::prover::with_kept;
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
    /// Questions, and contradictions that a general solver runs into over them, until one conflict is found and made
    /// irreducible.
    pub work: u64,
    /// For the search that is asked each question before the general solver is, which takes longer over most.
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
    // The solver says at once which part contradicts itself; what a search would leave, member by member, is larger by a
    // third.
    let first = match search.ask_solver(&{ search.everything }) {
        Told::Contradiction(it) => it,
        Told::Broken(_) | Told::GivenUp => return None,
    };
    let mut best = search.irreducible(first).ok()?;
    search.work = digging.more_work;
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
    /// By member: itself and, for a clue, its line.
    brings: Vec<Set>,
    /// How many more questions can be asked and contradictions run into.
    work: u64,
    /// The whole page for the general solver, written down once it is first asked.
    written: Option<Written>,
    hitting: Hitting,
}

struct Written {
    clauses: Clauses,
    /// By member.
    conditions: Vec<Lit>,
}

impl Search {
    /// None if there are too many members.
    fn new(puzzle: &Puzzle, digging: Digging) -> Option<Search> {
        let size = puzzle.size();
        let printed = Printed::all(puzzle).into_iter().map(|it| match it {
            Printed::Given(cell, digit) => Member::Given(cell, digit),
            Printed::Clue(clue) => Member::Clue(clue),
        });
        let members: Vec<Member> = printed.chain(size.houses().map(Member::House)).collect();
        let everything = Set::first(members.len())?;
        let first_house = members.len() - size.houses().count();
        let brought = members.iter().enumerate().map(|(at, it)| match it {
            Member::Clue(clue) => [at, first_house + size.house_index(clue.line)].into_iter().collect(),
            _ => [at].into_iter().collect(),
        });
        let brings: Vec<Set> = brought.collect();
        let hitting = Hitting::new(brings.clone());
        let Digging { work, limit, .. } = digging;
        Some(Search { size, limit, members, everything, brings, work, written: None, hitting })
    }

    /// What is told of these members: by a search if it gets there within its limit, else by the general solver.
    fn ask(&mut self, members: &Set) -> Told {
        let Some(left) = self.work.checked_sub(1) else { return Told::GivenUp };
        self.work = left;
        match self.searched(members) {
            Some(Some(board)) => Told::Broken(self.broken_on(&board)),
            Some(None) => Told::Contradiction(*members),
            None => self.ask_solver(members),
        }
    }

    /// A board on which these members hold, or that there is none; none if the limit is reached first.
    fn searched(&self, members: &Set) -> Option<Option<Grid>> {
        let held = members.iter().filter_map(|it| match self.members[it] {
            Member::House(house) => Some(house),
            Member::Given(..) | Member::Clue(_) => None,
        });
        let held: Vec<House> = held.collect();
        with_kept(|it| it.together(&self.page(members), &held, self.limit))
    }

    /// What is printed of these members.
    fn page(&self, members: &Set) -> Puzzle {
        let blank = Puzzle::new(Grid::empty(self.size), []);
        members.iter().fold(blank, |page, it| match self.members[it] {
            Member::Given(cell, digit) => Printed::Given(cell, digit).added_to(&page),
            Member::Clue(clue) => Printed::Clue(clue).added_to(&page),
            Member::House(_) => page,
        })
    }

    fn ask_solver(&mut self, members: &Set) -> Told {
        let written = match self.written.take() {
            Some(it) => self.written.insert(it),
            None => match Written::new(self.size, &self.members) {
                Some(it) => self.written.insert(it),
                None => return Told::GivenUp,
            },
        };
        let conditions: Vec<Lit> = members.iter().map(|it| written.conditions[it]).collect();
        match written.clauses.ask(&conditions, &mut self.work) {
            Answer::Together(board) => Told::Broken(self.broken_on(&board)),
            Answer::Contradiction(used) => {
                let used = members.iter().zip(conditions).filter(|it| used.contains(&it.1));
                Told::Contradiction(self.with_lines(used.map(|it| it.0).collect()))
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
        match verdict(&self.page(members), self.limit) {
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

impl Written {
    /// None if the caller wants no more.
    fn new(size: Size, members: &[Member]) -> Option<Written> {
        let mut clauses = Clauses::new(size);
        let houses: Vec<Lit> = size.houses().map(|it| clauses.house(it)).collect();
        let house = |it: House| houses[size.house_index(it)];
        let mut conditions = Vec::with_capacity(members.len());
        for it in members {
            conditions.push(match it {
                Member::Given(cell, digit) => clauses.given(*cell, *digit),
                // On 16x16 a clue has up to 2,951 ways, so the whole page takes a while.
                Member::Clue(_) if stop::is_asked() => return None,
                Member::Clue(clue) => clauses.ways(&clue.rule.ways(size, clue), house(clue.line)),
                Member::House(it) => house(*it),
            });
        }
        Some(Written { clauses, conditions })
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
