//! The position as clauses: candidates are fixed, each premise has a switch.

use std::collections::BTreeMap;

use batsat::{BasicSolver, Lit, SolverInterface, lbool};
use grid::{Cell, Digit, DigitSet, Grid, House, Size};
use rulebook::Ways;

use super::premise::{self, Goal, Premise};
use crate::View;

/// A SAT solver that knows the position. Known facts hold always; a premise holds if it is assumed.
pub(super) struct Prover {
    clauses: Clauses,
    premises: Vec<(Premise, Lit)>,
}

/// What came of a question.
pub(super) enum Answer {
    /// These premises, of those offered, prove it.
    Proved(Vec<Premise>),
    /// A full board on which all that was offered holds and the goal does not.
    Counterexample(Grid),
}

impl Prover {
    /// `solution` is where the solver looks first, so that its boards break little.
    pub(super) fn new(view: &View, solution: &Grid) -> Prover {
        let mut clauses = Clauses::new(view.size(), |cell| view.candidates(cell), Some(solution));
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
        match self.ask(goal, offered) {
            Answer::Proved(premises) => Some(premises),
            Answer::Counterexample(_) => None,
        }
    }

    /// Whether the premises offered prove the goal, and by which of them or why not.
    pub(super) fn ask(&mut self, goal: Goal, offered: &[Premise]) -> Answer {
        let on = self.premises.iter().filter(|it| offered.contains(&it.0)).map(|it| it.1);
        let assumed: Vec<Lit> = on.chain(self.clauses.denial(goal)).collect();
        match self.clauses.core(&assumed) {
            None => Answer::Counterexample(self.clauses.board()),
            Some(used) => {
                let used = self.premises.iter().filter(|it| used.contains(&it.1));
                Answer::Proved(used.map(|it| it.0).collect())
            }
        }
    }
}

/// Clauses about which cell holds which digit.
pub(super) struct Clauses {
    solver: BasicSolver,
    size: Size,
    /// By [`Cell::slot`]: the digits the cell can hold, each with its literal.
    holds: Vec<Vec<(Digit, Lit)>>,
    /// For cells and sets of some of their digits: a literal from which it follows that the cell holds one
    /// of them.
    within: BTreeMap<(usize, u16), Lit>,
}

impl Clauses {
    /// Each cell holds one of the digits that `candidates` gives it, and only one. Where the solver has a
    /// choice, it tries the digits of `first`.
    pub(super) fn new(size: Size, candidates: impl Fn(Cell) -> DigitSet, first: Option<&Grid>) -> Clauses {
        let holds = vec![Vec::new(); Cell::SLOTS];
        let mut it = Clauses { solver: BasicSolver::default(), size, holds, within: BTreeMap::new() };
        for cell in size.cells() {
            let tried_first = |digit| match first {
                None => lbool::UNDEF,
                Some(board) => lbool::new(board.get(cell) == Some(digit)),
            };
            let mut new_lit = |digit| Lit::new(it.solver.new_var(tried_first(digit), true), true);
            let holds: Vec<(Digit, Lit)> =
                candidates(cell).iter().map(|digit| (digit, new_lit(digit))).collect();
            let lits: Vec<Lit> = holds.iter().map(|it| it.1).collect();
            it.add(lits.iter().copied());
            it.at_most_one(&lits, None);
            it.holds[cell.slot()] = holds;
        }
        it
    }

    /// A literal beside those of the cells.
    ///
    /// The solver never has to decide it: each is a condition that may be left open once every cell has
    /// its digit. (A way is false as soon as one of its cells has another digit, so a way that is not
    /// false is there.)
    pub(super) fn new_lit(&mut self) -> Lit {
        Lit::new(self.solver.new_var(lbool::UNDEF, false), true)
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
    ///
    /// While the switch is off nothing is worked out about the ways: most questions are about few premises.
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
                if let Some(within) = self.within(cell, digits) {
                    self.add(switch.map(|it| !it).into_iter().chain([!this, within]));
                }
            }
        }
        self.add(chosen);
    }

    /// A literal from which it follows that the cell holds one of the digits; none if that is so anyway.
    fn within(&mut self, cell: Cell, digits: DigitSet) -> Option<Lit> {
        let (kept, lost): (Vec<_>, Vec<_>) =
            self.holds[cell.slot()].iter().copied().partition(|it| digits.contains(it.0));
        match (&kept[..], &lost[..]) {
            (_, []) => None,
            ([(_, only)], _) => Some(*only),
            (_, [(_, only)]) => Some(!*only),
            _ => {
                let kept: DigitSet = kept.iter().map(|it| it.0).collect();
                let known = self.within.get(&(cell.slot(), kept.bits())).copied();
                Some(known.unwrap_or_else(|| {
                    let within = self.new_lit();
                    lost.iter().for_each(|(_, it)| self.add([!within, !*it]));
                    self.within.insert((cell.slot(), kept.bits()), within);
                    within
                }))
            }
        }
    }

    /// The board that the solver found when it last found no contradiction.
    fn board(&self) -> Grid {
        let holds = |(_, lit): &&(Digit, Lit)| self.solver.value_lit(*lit) == lbool::TRUE;
        self.size.cells().fold(Grid::empty(self.size), |board, cell| {
            let digit = self.holds[cell.slot()].iter().find(holds).map(|it| it.0);
            board.with(cell, digit)
        })
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
