//! What a line has no way for, with the facts to cite for it: no fact is cited that can be spared.

use grid::{Cell, DigitSet, House};
use rulebook::{Claim, ClueId, crusts};
use trail::{Argument, Cites, FactId, Follows, Misfit, Proposal, Side, TechniqueId};

use super::grounds::{Known, without_spare};
use super::line_rules::LineRules;
use crate::View;
use crate::grounds::{Ground, cite, grounds_of};
use crate::layouts::fitting;
use crate::view::{CluedLine, Fits, Implied, Pair, all_pairs, is_on, n_between, uses};

/// A line of a position with what its crusts, and its sum if it has one, leave to its cells.
#[derive(Clone)]
pub(crate) struct Misfits<'v, 'a> {
    view: &'v View<'a>,
    pub(super) line: House,
    pub(super) cells: &'v [Cell],
    base: Base,
    pub(super) rules: LineRules<'v>,
    /// The digits known to be left to each cell.
    left: Vec<DigitSet>,
    /// What the line leaves of them.
    pub(super) fits: &'v Fits,
}

/// Where the rules of the line come from.
#[derive(Clone, Copy)]
enum Base {
    /// A fact about the distance of its crusts: sums do not count.
    Distance(FactId),
    /// Its clue.
    Clue(ClueId),
    /// The fact that its clue is spent.
    Spent(FactId),
}

impl<'v, 'a> Misfits<'v, 'a> {
    /// With the distance of the crusts alone; none if it is not known.
    pub(crate) fn of_distance(view: &'v View<'a>, line: House) -> Option<Self> {
        let (fact, fewest, most) = view.distance(line)?;
        Some(Misfits::new(view, line, Base::Distance(fact), (fewest.into(), most.into()), None))
    }

    /// With the sum of its clue.
    pub(crate) fn of_sum(view: &'v View<'a>, clued: &'v CluedLine) -> Self {
        let spent = view.spent(clued.line);
        let spent = spent.and_then(|(fact, set)| Some((fact, clued.sets.iter().find(|it| **it == set)?)));
        let (base, sets) = match spent {
            Some((fact, set)) => (Base::Spent(fact), std::slice::from_ref(set)),
            None => (Base::Clue(clued.clue), clued.sets.as_slice()),
        };
        Misfits::new(view, clued.line, base, (0, usize::MAX), Some(sets))
    }

    fn new(
        view: &'v View<'a>,
        line: House,
        base: Base,
        spread: (usize, usize),
        sets: Option<&'v [DigitSet]>,
    ) -> Self {
        let cells = view.cells_of(line);
        let (one, last) = crusts(view.size());
        let crusts = (DigitSet::only(one), DigitSet::only(last));
        let rules = LineRules { filling: view.filling_digits(), crusts, spread, sets };
        let left: Vec<DigitSet> = cells.iter().map(|it| view.candidates(*it)).collect();
        let remembered = match base {
            Base::Distance(_) => &view.line_fits(line).by_distance,
            Base::Clue(_) | Base::Spent(_) => &view.line_fits(line).by_sum,
        };
        let fits = remembered.get_or_init(|| {
            let (in_ways, n_pairs) = rules.leaves(&left);
            let in_house = fitting(&left).unwrap_or_else(|| vec![DigitSet::EMPTY; left.len()]);
            Fits { in_house, in_ways, n_pairs }
        });
        Misfits { view, line, cells, base, rules, left, fits }
    }

    /// The line's cells in order.
    pub(crate) fn cells(&self) -> &'v [Cell] {
        self.cells
    }

    /// What the line leaves to its cells if these digits are left to them; none if it has no way then.
    pub(crate) fn leaves(&self, cells: &[DigitSet]) -> Option<Vec<DigitSet>> {
        let (leaves, n_pairs) = self.rules.leaves(cells);
        (n_pairs > 0).then_some(leaves)
    }

    /// How many pairs of places the crusts have in some way.
    pub(crate) fn n_pairs(&self) -> usize {
        self.fits.n_pairs
    }

    /// What each of the [`Misfits::steps`] concludes.
    pub(crate) fn open_claims(&self, is_wanted: impl Fn(&Claim) -> bool) -> Vec<Vec<Claim>> {
        let of_cell = |at| {
            let mut claims = self.claims(at, self.fits.in_ways[at]);
            claims.retain(&is_wanted);
            claims
        };
        (0..self.cells.len()).map(of_cell).filter(|it| !it.is_empty()).collect()
    }

    /// A step for each cell about which a new claim that `is_wanted` picks can be made.
    pub(crate) fn steps(&self, technique: TechniqueId, is_wanted: impl Fn(&Claim) -> bool) -> Vec<Proposal> {
        let steps = (0..self.cells.len()).filter_map(|at| self.step(technique, at, &is_wanted));
        steps.collect()
    }

    fn step(
        &self,
        technique: TechniqueId,
        at: usize,
        is_wanted: impl Fn(&Claim) -> bool,
    ) -> Option<Proposal> {
        let (mut conclusions, mut tries) = (Vec::new(), Vec::new());
        for claim in self.claims(at, self.fits.in_ways[at]).into_iter().filter(is_wanted) {
            let (cites, misfit) = self.reason(at, claim)?;
            conclusions.push((claim, cites));
            tries.push(misfit);
        }
        let argument = Argument::Misfits { line: self.line, cell: self.cells[at], tries, around: Vec::new() };
        (!conclusions.is_empty()).then_some(Proposal { technique, argument, conclusions })
    }

    /// What is new about a cell that can hold no other digits than `fits`: its kind if that follows, and
    /// else digits that do not fit there.
    pub(super) fn claims(&self, at: usize, fits: DigitSet) -> Vec<Claim> {
        let (cell, filling) = (self.cells[at], self.rules.filling);
        let (left, in_house) = (self.left[at], self.fits.in_house[at]);
        let mut lost = left - fits;
        let mut claims = Vec::new();
        if fits.is_empty() || lost.is_empty() || self.view.digit(cell).is_some() {
            return claims;
        }
        if fits.is_subset(filling) && !left.is_subset(filling) {
            claims.push(Claim::Filling(cell));
            lost = lost & filling;
        } else if (fits & filling).is_empty() && !(left & filling).is_empty() {
            claims.push(Claim::Crust(cell));
            lost = lost - filling;
        }
        claims.extend(lost.iter().map(|it| Claim::IsNot(cell, it)));
        // What the digits of the line show without its crusts is for other techniques.
        let size = self.view.size();
        let is_ours = |it: &Claim| it.leaves(size).is_some_and(|(_, leaves)| !in_house.is_subset(leaves));
        claims.retain(|it| self.view.is_news(*it) && is_ours(it));
        claims
    }

    /// What to cite for the claim about the cell, and how its opposite fails.
    fn reason(&self, at: usize, claim: Claim) -> Option<(Cites, Misfit)> {
        let size = self.view.size();
        let supposed = [(self.cells[at], size.digits() - claim.leaves(size)?.1)];
        let grounds = self.grounds_against(&supposed)?;
        let mut cites = self.base_cites();
        let shown = cite(self.view, &grounds, &mut cites);
        let known = Known::from(size.digits(), &grounds, &supposed);
        shown.then(|| (cites, self.misfit(at, supposed[0].1, &known)))
    }

    /// Adds to `cites` why the line has no way while each of these cells holds one of the digits beside it.
    pub(crate) fn cite_against(&self, supposed: &[(Cell, DigitSet)], cites: &mut Cites) -> Option<()> {
        let grounds = self.grounds_against(supposed)?;
        *cites = std::mem::take(cites).and(&self.base_cites());
        cite(self.view, &grounds, cites).then_some(())
    }

    /// Few of the grounds, enough for the line to have no way while each of these cells holds one of the
    /// digits beside it; none if it has one.
    fn grounds_against(&self, supposed: &[(Cell, DigitSet)]) -> Option<Vec<Ground>> {
        let all = self.view.size().digits();
        let grounds: Vec<Ground> = self.cells.iter().flat_map(|it| grounds_of(self.view, *it)).collect();
        let fails =
            |grounds: &[Ground]| !self.rules.has_way(&Known::from(all, grounds, supposed).each(self.cells));
        fails(&grounds).then(|| without_spare(grounds, fails))
    }

    /// What the rules of the line rest on.
    pub(crate) fn base_cites(&self) -> Cites {
        match self.base {
            Base::Clue(clue) => Cites::default().clue(clue),
            Base::Spent(fact) | Base::Distance(fact) => Cites::default().fact(fact),
        }
    }

    /// What a person could call the reason for what is known of the line: its clue, or that it is spent.
    pub(crate) fn follows(&self) -> Follows {
        match self.base {
            Base::Clue(clue) => Follows::Clue(clue),
            Base::Spent(fact) | Base::Distance(fact) => Follows::Known(self.view.trail().fact(fact).claim()),
        }
    }

    /// What one digit or crust of the line says of another; none where there are too many ways to look at.
    pub(crate) fn implied(&self) -> Option<&'v Implied> {
        let remembered = &self.view.line_fits(self.line).implied;
        remembered.get_or_init(|| Implied::of(&self.rules, &self.left)).as_ref()
    }

    /// The ways that seem open while the digits other than crusts are not looked at cell by cell.
    pub(super) fn misfit(&self, at: usize, supposed: DigitSet, known: &Known) -> Misfit {
        let sets = self.rules.sets.unwrap_or_default();
        let agrees = |pair: &Pair, set: DigitSet| {
            let digit = supposed.single().filter(|it| self.rules.filling.contains(*it));
            set.len() == n_between(pair)
                && digit.is_none_or(|it| set.contains(it) == is_on(Side::Between, *pair, at))
        };
        if self.rules.sets.is_none() {
            let is_far = |it: &Pair| !self.rules.allows(it) || !uses(*it, at);
            let pairs = all_pairs(self.cells.len()).filter(|it| !is_far(it));
            let pairs = pairs.map(|it| (self.cells[it.0], self.cells[it.1])).collect();
            return Misfit { digits: supposed, pairs, sets: Vec::new(), refused: Vec::new() };
        }
        let pairs: Vec<Pair> = self.rules.pairs(&known.each(self.cells)).collect();
        let open = |pair: &Pair| sets.iter().any(|it| agrees(pair, *it));
        let shown = pairs.iter().filter(|it| open(it)).map(|it| (self.cells[it.0], self.cells[it.1]));
        Misfit {
            digits: supposed,
            pairs: shown.collect(),
            sets: sets.iter().copied().filter(|set| pairs.iter().any(|it| agrees(it, *set))).collect(),
            refused: Vec::new(),
        }
    }
}
