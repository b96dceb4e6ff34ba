//! The position as clauses: candidates are fixed, each premise has a switch.

use batsat::{BasicSolver, Lit, SolverInterface, lbool};
use grid::{Cell, Digit, DigitSet, House, Size};
use rulebook::Ways;

use super::premise::{self, Goal, Premise};
use crate::View;

/// A SAT solver that knows the position. Known facts hold always; a premise holds if it is assumed.
pub(super) struct Prover {
    clauses: Clauses,
    premises: Vec<(Premise, Lit)>,
}

impl Prover {
    pub(super) fn new(view: &View) -> Prover {
        let mut clauses = Clauses::new(view.size(), |cell| view.candidates(cell));
        // A clue's switch turns its line's house on too, as a citation does.
        let houses: Vec<(House, Lit)> = view
            .size()
            .houses()
            .map(|house| {
                let switch = clauses.new_lit();
                clauses.house(house, Some(switch));
                (house, switch)
            })
            .collect();
        let mut premises = Vec::new();
        for premise in premise::premises(view) {
            let Some((_, of_house)) = houses.iter().find(|it| it.0 == premise.house()) else { continue };
            let switch = match premise.ways(view) {
                None => *of_house,
                Some(ways) => {
                    let switch = clauses.new_lit();
                    clauses.add([!switch, *of_house]);
                    clauses.ways(&ways, Some(switch));
                    switch
                }
            };
            premises.push((premise, switch));
        }
        Prover { clauses, premises }
    }

    /// Every premise.
    pub(super) fn premises(&self) -> Vec<Premise> {
        self.premises.iter().map(|it| it.0).collect()
    }

    /// The premises among `offered` that the solver used to prove the goal; none if they do not
    /// prove it.
    pub(super) fn core(&mut self, goal: Goal, offered: &[Premise]) -> Option<Vec<Premise>> {
        let on = self.premises.iter().filter(|it| offered.contains(&it.0)).map(|it| it.1);
        let assumed: Vec<Lit> = on.chain(self.clauses.denial(goal)).collect();
        let used = self.clauses.core(&assumed)?;
        Some(self.premises.iter().filter(|it| used.contains(&it.1)).map(|it| it.0).collect())
    }
}

/// Clauses about which cell holds which digit.
pub(super) struct Clauses {
    solver: BasicSolver,
    size: Size,
    /// By [`Cell::slot`]: the digits the cell can hold, each with its literal.
    holds: Vec<Vec<(Digit, Lit)>>,
}

impl Clauses {
    /// Each cell holds one of the digits that `candidates` gives it, and only one.
    pub(super) fn new(size: Size, candidates: impl Fn(Cell) -> DigitSet) -> Clauses {
        let mut it = Clauses { solver: BasicSolver::default(), size, holds: vec![Vec::new(); Cell::SLOTS] };
        for cell in size.cells() {
            let holds: Vec<(Digit, Lit)> =
                candidates(cell).iter().map(|digit| (digit, it.new_lit())).collect();
            let lits: Vec<Lit> = holds.iter().map(|it| it.1).collect();
            it.add(lits.iter().copied());
            it.at_most_one(&lits, None);
            it.holds[cell.slot()] = holds;
        }
        it
    }

    pub(super) fn new_lit(&mut self) -> Lit {
        Lit::new(self.solver.new_var_default(), true)
    }

    pub(super) fn add(&mut self, clause: impl IntoIterator<Item = Lit>) {
        let mut clause: Vec<Lit> = clause.into_iter().collect();
        self.solver.add_clause_reuse(&mut clause);
    }

    /// The literal that the cell holds the digit; none if it cannot.
    pub(super) fn holds(&self, cell: Cell, digit: Digit) -> Option<Lit> {
        self.holds[cell.slot()].iter().find(|it| it.0 == digit).map(|it| it.1)
    }

    /// The house holds each digit once, if the switch is on.
    pub(super) fn house(&mut self, house: House, switch: Option<Lit>) {
        let cells = self.size.cells_of(house);
        for digit in self.size.digits().iter() {
            let places: Vec<Lit> = cells.iter().filter_map(|it| self.holds(*it, digit)).collect();
            self.add(switch.map(|it| !it).into_iter().chain(places.iter().copied()));
            self.at_most_one(&places, switch);
        }
    }

    /// The cells lie in one of the ways, if the switch is on. A way that a cell contradicts is left
    /// out.
    pub(super) fn ways(&mut self, ways: &Ways, switch: Option<Lit>) {
        let mut chosen: Vec<Lit> = switch.map(|it| !it).into_iter().collect();
        for way in ways.iter() {
            let cells: Vec<(Cell, DigitSet)> =
                ways.cells().iter().copied().zip(way.iter().copied()).collect();
            let possible = cells
                .iter()
                .all(|(cell, digits)| self.holds[cell.slot()].iter().any(|it| digits.contains(it.0)));
            if !possible {
                continue;
            }
            let this = self.new_lit();
            chosen.push(this);
            for (cell, digits) in cells {
                let lost: Vec<Lit> = self.holds[cell.slot()]
                    .iter()
                    .filter(|it| !digits.contains(it.0))
                    .map(|it| it.1)
                    .collect();
                lost.into_iter().for_each(|it| self.add([!this, !it]));
            }
        }
        self.add(chosen);
    }

    fn at_most_one(&mut self, lits: &[Lit], switch: Option<Lit>) {
        for (at, a) in lits.iter().enumerate() {
            for b in &lits[at + 1..] {
                self.add(switch.map(|it| !it).into_iter().chain([!*a, !*b]));
            }
        }
    }

    /// What to assume so that the goal's claim is false.
    pub(super) fn denial(&self, goal: Goal) -> Vec<Lit> {
        let cell = self.holds[goal.cell.slot()].iter();
        cell.filter(|it| !goal.denied.contains(it.0)).map(|it| !it.1).collect()
    }

    /// The assumptions that contradict each other; none if all can hold together.
    pub(super) fn core(&mut self, assumed: &[Lit]) -> Option<Vec<Lit>> {
        // The solver states its core as a clause, so each assumption in it is negated.
        (self.solver.solve_limited(assumed) == lbool::FALSE)
            .then(|| self.solver.unsat_core().iter().map(|it| !*it).collect())
    }
}
