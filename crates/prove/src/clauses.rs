//! A puzzle as clauses in which each given, clue and house is a condition that can be put or left out.

use std::collections::BTreeMap;

use batsat::{Callbacks, ClauseKind, Lit, Solver, SolverInterface, SolverOpts, lbool};
use grid::{Cell, Digit, DigitSet, Grid, House, Size};
use rulebook::Ways;

use crate::stop;

/// Asks a general solver which conditions can hold together. Each cell holds exactly one digit; all else
/// is a condition.
pub(crate) struct Clauses {
    solver: Solver<Work>,
    size: Size,
    /// By cell in reading order, then by digit.
    holds: Vec<Vec<Lit>>,
    /// For cells and sets of digits: a literal that says that the cell holds one of them.
    within: BTreeMap<(usize, u16), Lit>,
}

/// What came of a question.
pub(crate) enum Answer {
    /// The conditions hold together on this board.
    Together(Grid),
    /// These of the conditions contradict each other.
    Contradiction(Vec<Lit>),
    /// The work allowed is used up.
    GivenUp,
}

/// Counts what the solver learns, and stops it when that was enough.
struct Work {
    left: u64,
}

impl Callbacks for Work {
    fn on_new_clause(&mut self, _: &[Lit], kind: ClauseKind) {
        if kind == ClauseKind::Learnt {
            self.left = self.left.saturating_sub(1);
        }
    }

    fn stop(&self) -> bool {
        self.left == 0 || stop::is_asked()
    }
}

impl Clauses {
    /// Nothing but the cells.
    pub(crate) fn new(size: Size) -> Clauses {
        let solver = Solver::new(SolverOpts::default(), Work { left: 0 });
        let mut it = Clauses { solver, size, holds: Vec::new(), within: BTreeMap::new() };
        for _ in size.cells() {
            let digits = size.digits().iter();
            let holds: Vec<Lit> =
                digits.map(|_| Lit::new(it.solver.new_var(lbool::TRUE, true), true)).collect();
            it.add(holds.iter().copied());
            it.at_most_one(&holds, None);
            it.holds.push(holds);
        }
        it
    }

    /// The condition that the cell holds the digit.
    pub(crate) fn given(&self, cell: Cell, digit: Digit) -> Lit {
        self.holds[self.size.index(cell)][usize::from(digit.get() - 1)]
    }

    /// The condition that the house holds each digit once.
    pub(crate) fn house(&mut self, house: House) -> Lit {
        let condition = self.new_lit();
        let cells = self.size.cells_of(house);
        for digit in self.size.digits().iter() {
            let places: Vec<Lit> = cells.iter().map(|it| self.given(*it, digit)).collect();
            self.add([!condition].into_iter().chain(places.iter().copied()));
            self.at_most_one(&places, Some(condition));
        }
        condition
    }

    /// The condition that cells lie in one of the ways, which brings along the condition `house`, because
    /// the ways mean what they say only where that holds.
    pub(crate) fn ways(&mut self, ways: &Ways, house: Lit) -> Lit {
        let condition = self.new_lit();
        self.add([!condition, house]);
        let mut chosen = vec![!condition];
        for way in ways.iter() {
            let this = self.new_lit();
            chosen.push(this);
            for (cell, digits) in ways.cells().iter().zip(way) {
                let within = self.within(*cell, *digits);
                self.add([!this, within]);
            }
        }
        self.add(chosen);
        condition
    }

    /// Whether all these conditions can hold together. `work` is how many more contradictions the solver may run
    /// into.
    pub(crate) fn ask(&mut self, conditions: &[Lit], work: &mut u64) -> Answer {
        if *work == 0 {
            return Answer::GivenUp;
        }
        self.solver.cb_mut().left = *work;
        let told = self.solver.solve_limited(conditions);
        *work = self.solver.cb().left;
        match told {
            it if it == lbool::TRUE => Answer::Together(self.board()),
            // The solver states its core as a clause, so each condition in it is negated.
            it if it == lbool::FALSE => {
                Answer::Contradiction(self.solver.unsat_core().iter().map(|it| !*it).collect())
            }
            _ => Answer::GivenUp,
        }
    }

    fn board(&self) -> Grid {
        Grid::from_fn(self.size, |cell| {
            let is_held = |it: &Digit| self.solver.value_lit(self.given(cell, *it)) == lbool::TRUE;
            self.size.digits().iter().find(is_held)
        })
    }

    /// A literal beside those of the cells. The solver never has to decide it: once every cell has its
    /// digit, whether it is so can be read off.
    fn new_lit(&mut self) -> Lit {
        Lit::new(self.solver.new_var(lbool::UNDEF, false), true)
    }

    fn within(&mut self, cell: Cell, digits: DigitSet) -> Lit {
        if let Some(only) = digits.single() {
            return self.given(cell, only);
        }
        let key = (self.size.index(cell), digits.bits());
        if let Some(known) = self.within.get(&key) {
            return *known;
        }
        let within = self.new_lit();
        for digit in (self.size.digits() - digits).iter() {
            let other = self.given(cell, digit);
            self.add([!within, !other]);
        }
        // It follows, because the cell holds something; said outright, it shows a way to be dead as soon as
        // its digits are gone, which halves the work and more.
        let any = digits.iter().map(|it| self.given(cell, it));
        self.add([!within].into_iter().chain(any.collect::<Vec<_>>()));
        self.within.insert(key, within);
        within
    }

    fn at_most_one(&mut self, lits: &[Lit], condition: Option<Lit>) {
        for (at, a) in lits.iter().enumerate() {
            for b in &lits[at + 1..] {
                self.add(condition.map(|it| !it).into_iter().chain([!*a, !*b]));
            }
        }
    }

    fn add(&mut self, clause: impl IntoIterator<Item = Lit>) {
        let mut clause: Vec<Lit> = clause.into_iter().collect();
        self.solver.add_clause_reuse(&mut clause);
    }
}
