//! Conclusions and what they cite, as clauses for a general SAT solver, straight from the definitions.
//!
//! Nothing of `replay` or `reason` is used, nor the ways of a rule or claim. Each house and clue has a
//! switch, each claim a literal that is true exactly if the claim is. The digits between the crusts of
//! a line are stated like this: a digit is inside if it stands in a cell that has a crust before it and
//! a crust after it; and for each set of filling digits, that just these are inside decides what is
//! said of the line.

use std::collections::BTreeMap;

use cadical::Solver;
use grid::{Cell, Digit, DigitSet, House, Size};
use rulebook::{Claim, ClueId, Puzzle};
use trail::{Cites, Trail};

/// A puzzle's rules and claims, none of which holds before it is assumed. Only that each cell has one
/// digit always holds.
pub(crate) struct Encoding<'a> {
    puzzle: &'a Puzzle,
    solver: Solver,
    n_variables: i32,
    /// Each house's switch: it holds each digit once.
    houses: BTreeMap<House, i32>,
    /// For each line asked about, which filling digits are inside: true exactly where its house holds.
    inside: BTreeMap<House, Vec<(Digit, i32)>>,
    clues: BTreeMap<ClueId, i32>,
    claims: BTreeMap<Claim, i32>,
}

impl<'a> Encoding<'a> {
    pub(crate) fn new(puzzle: &'a Puzzle) -> Encoding<'a> {
        let size = puzzle.size();
        let mut it = Encoding {
            puzzle,
            solver: Solver::new(),
            n_variables: (size.n_cells() * usize::from(size.side())) as i32,
            houses: BTreeMap::new(),
            inside: BTreeMap::new(),
            clues: BTreeMap::new(),
            claims: BTreeMap::new(),
        };
        for cell in size.cells() {
            let here: Vec<i32> = size.digits().iter().map(|digit| holds(size, cell, digit)).collect();
            it.exactly_one(&here, None);
        }
        for house in size.houses() {
            let switch = it.fresh();
            for digit in size.digits().iter() {
                let places: Vec<i32> =
                    size.cells_of(house).iter().map(|cell| holds(size, *cell, digit)).collect();
                it.exactly_one(&places, Some(switch));
            }
            it.houses.insert(house, switch);
        }
        it
    }

    /// Whether everything cited can hold while the claim does not.
    pub(crate) fn has_counterexample(&mut self, trail: &Trail, claim: &Claim, cites: &Cites) -> bool {
        let mut assumed = self.assumed(trail, cites);
        assumed.extend(claim.house().map(|it| self.houses[&it]));
        assumed.push(-self.claim(claim));
        self.solver.solve_with(assumed).expect("no limit was set")
    }

    /// The houses, clues and facts cited, each clue and fact with its house.
    fn assumed(&mut self, trail: &Trail, cites: &Cites) -> Vec<i32> {
        let mut assumed: Vec<i32> = cites.houses.iter().map(|it| self.houses[it]).collect();
        for &clue in &cites.clues {
            assumed.push(self.clue(clue));
            assumed.extend(self.puzzle.clue(clue).map(|it| self.houses[&it.line]));
        }
        for claim in cites.facts.iter().map(|it| trail.fact(*it).claim()) {
            assumed.push(self.claim(&claim));
            assumed.extend(claim.house().map(|it| self.houses[&it]));
        }
        assumed
    }

    /// The literal that the clue holds, given its line's house.
    fn clue(&mut self, id: ClueId) -> i32 {
        if let Some(known) = self.clues.get(&id) {
            return *known;
        }
        let clue = self.puzzle.clue(id).expect("a clue of the puzzle");
        assert_eq!(clue.rule.id().name(), "sandwich", "no other rule is written as clauses here");
        let literal = self.of_inside(clue.line, |inside| inside.sum() == clue.value);
        self.clues.insert(id, literal);
        literal
    }

    /// The literal that is true exactly if the claim is, given its house.
    fn claim(&mut self, claim: &Claim) -> i32 {
        if let Some(known) = self.claims.get(claim) {
            return *known;
        }
        let size = self.puzzle.size();
        let crusts = |cell: Cell| ends(size).map(|digit| holds(size, cell, digit));
        let literal = match *claim {
            Claim::Is(cell, digit) => holds(size, cell, digit),
            Claim::IsNot(cell, digit) => -holds(size, cell, digit),
            Claim::Crust(cell) => self.any_of(&crusts(cell)),
            Claim::Filling(cell) => -self.any_of(&crusts(cell)),
            Claim::CrustAmong { cells, .. } => {
                let all: Vec<i32> = cells.iter().flat_map(crusts).collect();
                self.any_of(&all)
            }
            Claim::DigitAmong { digit, cells, .. } => {
                let all: Vec<i32> = cells.iter().map(|it| holds(size, it, digit)).collect();
                self.any_of(&all)
            }
            Claim::FillingCells { line, fewest, most } => {
                let is_meant = |n: usize| usize::from(fewest) <= n && n <= usize::from(most);
                self.of_inside(line, |inside| is_meant(inside.len()))
            }
            Claim::Spent { line, filling } => self.of_inside(line, |inside| inside == filling),
        };
        self.claims.insert(*claim, literal);
        literal
    }

    /// A literal that is true exactly if what is inside the line satisfies `is_meant`.
    fn of_inside(&mut self, line: House, is_meant: impl Fn(DigitSet) -> bool) -> i32 {
        let inside = self.inside(line);
        let all: DigitSet = inside.iter().map(|it| it.0).collect();
        let literal = self.fresh();
        for set in all.subsets() {
            let just_these = inside.iter().map(|(digit, it)| if set.contains(*digit) { -it } else { *it });
            let clause: Vec<i32> =
                just_these.chain([if is_meant(set) { literal } else { -literal }]).collect();
            self.solver.add_clause(clause);
        }
        literal
    }

    /// For each filling digit, whether it is inside the line, given the line's house.
    fn inside(&mut self, line: House) -> Vec<(Digit, i32)> {
        if let Some(known) = self.inside.get(&line) {
            return known.clone();
        }
        let size = self.puzzle.size();
        let house = self.houses[&line];
        let cells = size.cells_of(line);
        let crust: Vec<i32> = cells
            .iter()
            .map(|cell| self.any_of(&ends(size).map(|digit| holds(size, *cell, digit))))
            .collect();
        let before: Vec<i32> = (0..cells.len()).map(|at| self.any_of(&crust[..at])).collect();
        let after: Vec<i32> = (0..cells.len()).map(|at| self.any_of(&crust[at + 1..])).collect();
        let mut inside = Vec::new();
        for digit in size.digits().iter().filter(|it| !ends(size).contains(it)) {
            let literal = self.fresh();
            for (at, cell) in cells.iter().enumerate() {
                let elsewhere = [-house, -holds(size, *cell, digit)];
                for clause in [
                    vec![-before[at], -after[at], literal],
                    vec![before[at], -literal],
                    vec![after[at], -literal],
                ] {
                    self.solver.add_clause(elsewhere.into_iter().chain(clause));
                }
            }
            inside.push((digit, literal));
        }
        self.inside.insert(line, inside.clone());
        inside
    }

    /// A literal that is true exactly if one of the others is.
    fn any_of(&mut self, others: &[i32]) -> i32 {
        let literal = self.fresh();
        self.solver.add_clause(others.iter().copied().chain([-literal]));
        others.iter().for_each(|it| self.solver.add_clause([-it, literal]));
        literal
    }

    /// Just one of the literals is true, if the switch is on.
    fn exactly_one(&mut self, literals: &[i32], switch: Option<i32>) {
        let off: Vec<i32> = switch.map(|it| -it).into_iter().collect();
        let clause = |literals: &[i32]| off.iter().chain(literals).copied().collect::<Vec<_>>();
        self.solver.add_clause(clause(literals));
        for (at, a) in literals.iter().enumerate() {
            literals[at + 1..].iter().for_each(|b| self.solver.add_clause(clause(&[-a, -b])));
        }
    }

    fn fresh(&mut self) -> i32 {
        self.n_variables += 1;
        self.n_variables
    }
}

/// The variable that says that the cell holds the digit.
fn holds(size: Size, cell: Cell, digit: Digit) -> i32 {
    (size.index(cell) * usize::from(size.side()) + usize::from(digit.get())) as i32
}

/// The two crusts: the 1 and the largest digit.
fn ends(size: Size) -> [Digit; 2] {
    [1, size.side()].map(|it| size.digit(it).expect("a digit of the size"))
}
