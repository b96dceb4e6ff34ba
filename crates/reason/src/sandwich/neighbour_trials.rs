//! Ways tried on the neighbours: where a clue can be made in a few ways only, each is tried on the lines
//! and boxes around; those that leave a neighbour without a way are out, and with them the digits and
//! crusts that only they have.
//!
//! ```text
//! 14 | . 6 8 .      6 + 8 or 8 + 6: with 8 in the second column its clue of 9 cannot be made
//!        9
//! ```

use std::collections::BTreeSet;

use grid::{Cell, CellSet, DigitSet, House};
use rulebook::Claim;
use trail::{Argument, Cites, Misfit, Proposal, TechniqueId};

use super::grounds::{Known, without_spare};
use super::misfits::Misfits;
use crate::grounds::{Ground, cite, grounds_of};
use crate::layouts::has_layout;
use crate::{Technique, View};

/// More ways than this nobody tries one by one.
const MOST_WAYS: usize = 8;

pub(crate) struct NeighbourTrials;

impl Technique for NeighbourTrials {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("neighbour-trials") }
    }

    fn weight(&self) -> u32 {
        70
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("crust-sums"), TechniqueId::new("sum-partners")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        Trial::all(view).flat_map(|it| it.steps(self.id(), is_wanted)).collect()
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        Some(Trial::all(view).flat_map(|it| it.open_claims()).collect())
    }
}

/// A clued line whose ways are tried on what is around it.
struct Trial<'v, 'a> {
    view: &'v View<'a>,
    own: Misfits<'v, 'a>,
    around: Vec<Neighbour<'v, 'a>>,
    /// For each cell of the line, the digits it has in some way that its neighbours allow.
    fits: Vec<DigitSet>,
}

/// A house that shares a cell with the line, or a box with a line beside it.
#[derive(Clone)]
struct Neighbour<'v, 'a> {
    house: House,
    /// Its sum, where that counts.
    sum: Option<Misfits<'v, 'a>>,
}

impl<'v> Trial<'v, 'v> {
    fn all(view: &'v View<'_>) -> impl Iterator<Item = Trial<'v, 'v>> {
        view.clued_lines().iter().filter_map(|it| Trial::new(view, Misfits::of_sum(view, it)))
    }

    /// None if the line has too many ways, or all of them stand.
    fn new(view: &'v View<'v>, own: Misfits<'v, 'v>) -> Option<Trial<'v, 'v>> {
        if own.cells.iter().all(|it| view.digit(*it).is_some()) {
            return None;
        }
        let known = Known::of(view);
        let mut ways: Vec<Vec<DigitSet>> = Vec::new();
        own.rules.each_way(&known.each(own.cells), &mut |_, way| {
            ways.push(way);
            ways.len() <= MOST_WAYS
        });
        if ways.len() > MOST_WAYS {
            return None;
        }
        let mut trial = Trial { view, around: neighbours(view, own.line), own, fits: Vec::new() };
        let n_ways = ways.len();
        ways.retain(|it| trial.refuses(&known, it, &trial.around).is_none());
        trial.fits = ways.iter().fold(vec![DigitSet::EMPTY; trial.own.cells.len()], |all, way| {
            all.into_iter().zip(way).map(|(all, it)| all | *it).collect()
        });
        (ways.len() < n_ways).then_some(trial)
    }

    fn open_claims(&self) -> Vec<Vec<Claim>> {
        (0..self.fits.len()).map(|at| self.claims(at)).filter(|it| !it.is_empty()).collect()
    }

    fn steps(&self, technique: TechniqueId, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        (0..self.fits.len()).filter_map(|at| self.step(technique, at, is_wanted)).collect()
    }

    fn step(
        &self,
        technique: TechniqueId,
        at: usize,
        is_wanted: &dyn Fn(&Claim) -> bool,
    ) -> Option<Proposal> {
        let (mut conclusions, mut tries, mut around) = (Vec::new(), Vec::new(), Vec::new());
        for claim in self.claims(at).into_iter().filter(is_wanted) {
            let (cites, misfit, houses) = self.reason(at, claim)?;
            conclusions.push((claim, cites));
            tries.push(misfit);
            around.extend(houses);
        }
        around.sort();
        around.dedup();
        let argument = Argument::Misfits { line: self.own.line, cell: self.own.cells[at], tries, around };
        (!conclusions.is_empty()).then_some(Proposal { technique, argument, conclusions })
    }

    /// What is new about a cell, apart from what the line shows without its neighbours.
    fn claims(&self, at: usize) -> Vec<Claim> {
        let mut claims = self.own.claims(at, self.fits[at]);
        let size = self.view.size();
        let in_ways = self.own.fits.in_ways[at];
        claims.retain(|it| it.leaves(size).is_some_and(|(_, leaves)| !in_ways.is_subset(leaves)));
        claims
    }

    /// What to cite for the claim about the cell, how its opposite fails, and on which neighbours.
    fn reason(&self, at: usize, claim: Claim) -> Option<(Cites, Misfit, Vec<House>)> {
        let view = self.view;
        let all = view.size().digits();
        let supposed = (self.own.cells[at], all - claim.leaves(view.size())?.1);
        let around = self.needed(supposed)?;
        let touched = around.iter().fold(view.members(self.own.line), |all, it| all | view.members(it.house));
        let grounds = touched.iter().flat_map(|it| grounds_of(view, it)).collect();
        let fails = |grounds: &[Ground]| self.all_fall(&Known::from(all, grounds, &[supposed]), &around);
        let grounds = without_spare(grounds, fails);
        let mut cites = self.own.base_cites();
        for it in &around {
            match &it.sum {
                Some(sum) => cites.merge(&sum.base_cites()),
                None => _ = cites.houses.insert(it.house),
            }
        }
        let known = Known::from(all, &grounds, &[supposed]);
        let refused = self.refused(&known, &around);
        let misfit = Misfit { refused, ..self.own.misfit(at, supposed.1, &known) };
        let houses = around.iter().map(|it| it.house).collect();
        cite(view, &grounds, &mut cites).then_some((cites, misfit, houses))
    }

    /// Which neighbour has no way with the digits of each way of the line.
    fn refused(&self, known: &Known, around: &[Neighbour]) -> Vec<(DigitSet, House)> {
        let mut refused = BTreeSet::new();
        let filling = self.view.filling_digits();
        self.own.rules.each_way(&known.each(self.own.cells), &mut |pair, way| {
            let between = way[pair.0 + 1..pair.1].iter().fold(DigitSet::EMPTY, |all, it| all | *it);
            refused.extend(self.refuses(known, &way, around).map(|it| (between & filling, it)));
            true
        });
        refused.into_iter().collect()
    }

    /// The neighbours that are enough, with all that is known, to bring down every way of the line.
    fn needed(&self, (cell, supposed): (Cell, DigitSet)) -> Option<Vec<Neighbour<'v, 'v>>> {
        let mut known = Known::of(self.view);
        known.cross_off(cell, self.view.size().digits() - supposed);
        let mut needed = self.around.clone();
        if !self.all_fall(&known, &needed) {
            return None;
        }
        let mut next = 0;
        while next < needed.len() {
            let mut fewer = needed.clone();
            fewer.remove(next);
            match self.all_fall(&known, &fewer) {
                true => needed = fewer,
                false => next += 1,
            }
        }
        for at in 0..needed.len() {
            let sum = needed[at].sum.take();
            if !self.all_fall(&known, &needed) {
                needed[at].sum = sum;
            }
        }
        Some(needed)
    }

    /// Whether no way of the line stands.
    fn all_fall(&self, known: &Known, around: &[Neighbour]) -> bool {
        let mut any_stands = false;
        self.own.rules.each_way(&known.each(self.own.cells), &mut |_, way| {
            any_stands = self.refuses(known, &way, around).is_none();
            !any_stands
        });
        !any_stands
    }

    /// The first neighbour that cannot be filled any more when the line is filled in that way.
    fn refuses(&self, known: &Known, way: &[DigitSet], around: &[Neighbour]) -> Option<House> {
        let (view, cells) = (self.view, self.own.cells);
        let mut then = known.clone();
        // What is supposed of the line counts as changed, too: it may be impossible.
        let of_line = cells.iter().zip(way).filter(|(cell, digits)| view.candidates(**cell) != **digits);
        let mut changed: CellSet = of_line.map(|it| *it.0).collect();
        let mut lose = |cell: Cell, digits| {
            if then.cross_off(cell, digits) {
                changed.insert(cell);
            }
        };
        for (cell, digits) in cells.iter().zip(way) {
            lose(*cell, view.size().digits() - *digits);
        }
        // A digit that the way has inside a neighbour is nowhere else in that neighbour.
        let line = view.members(self.own.line);
        for digit in view.size().digits().iter() {
            let places: CellSet =
                cells.iter().zip(way).filter(|it| it.1.contains(digit)).map(|it| *it.0).collect();
            for it in around.iter().map(|it| view.members(it.house)).filter(|it| places.is_subset(it)) {
                (it - line).iter().for_each(|it| lose(it, DigitSet::only(digit)));
            }
        }
        let refusing = around.iter().find(|it| {
            let left = || then.each(view.cells_of(it.house));
            let is_as_before = (view.members(it.house) & changed).is_empty();
            !is_as_before
                && !it.sum.as_ref().map_or_else(|| has_layout(&left()), |sum| sum.rules.has_way(&left()))
        });
        refusing.map(|it| it.house)
    }
}

/// The houses that cross the line, and the lines beside it that share its boxes.
fn neighbours<'v>(view: &'v View<'v>, line: House) -> Vec<Neighbour<'v, 'v>> {
    let boxes = view.houses().iter().filter(|it| !it.is_line());
    let near = boxes.map(|it| view.members(*it)).filter(|it| !(*it & view.members(line)).is_empty());
    let near = near.fold(CellSet::EMPTY, |all, it| all | it);
    let touches = |it: &&House| {
        let shared = view.members(**it) & if it.is_line() { near } else { view.members(line) };
        **it != line && !shared.is_empty()
    };
    let neighbour = |house: &House| {
        let clued = view.clued_lines().iter().find(|it| it.line == *house);
        Neighbour { house: *house, sum: clued.map(|it| Misfits::of_sum(view, it)) }
    };
    view.houses().iter().filter(touches).map(neighbour).collect()
}
