//! Crusts in turn: of two crusts in a house one is the 1 and one the largest digit, so along crusts that
//! share houses the two take turns, even while nobody knows which is which.
//!
//! ```text
//! A . . | . B . | . . .      crusts A, B, A, B in turn: x sees an A and a B, so it can be neither crust
//! . . . | . . . | . . .
//! . . . | . . . | . . .
//! ------+-------+------
//! x . . | . . . | . B .
//! . . . | . A . | . . .
//! ```
//!
//! And where one of the two ways round leaves a house no place for a crust, it is the other way round. That
//! a crust with a known digit decides its neighbours is for the naked single.

use grid::{Cell, CellSet, Digit, House};
use rulebook::{Claim, RuleId, crusts};
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::has_sandwiches;
use crate::{Technique, View};

/// A cell that sees both kinds is filling.
pub(crate) struct CrustsInTurn;

/// One way round leaves no place for a crust.
pub(crate) struct CrustTurnSettled;

impl Technique for CrustsInTurn {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crusts-in-turn") }
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        27
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("crusts-found")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        turns(view).iter().flat_map(|it| it.seen_both(self.id())).collect()
    }
}

impl Technique for CrustTurnSettled {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crust-turn-settled") }
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        39
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("hidden-single"), TechniqueId::new("crusts-in-turn")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        turns(view).iter().filter_map(|it| it.settled(self.id())).collect()
    }
}

/// Crusts that share houses one with the next, in two kinds: one kind is the 1s, the other the largest
/// digits.
struct Turn<'v, 'a> {
    view: &'v View<'a>,
    /// In the order in which they were met, each with the place of the one it was met from.
    met: Vec<(Cell, usize)>,
    kinds: [CellSet; 2],
}

/// Every turn of two crusts or more whose digits are not known.
fn turns<'v, 'a>(view: &'v View<'a>) -> Vec<Turn<'v, 'a>> {
    if !has_sandwiches(view) {
        return Vec::new();
    }
    let open = view.known_crusts().iter().filter(|it| view.candidates(*it).len() == 2);
    let mut open: CellSet = open.collect();
    let mut turns = Vec::new();
    while let Some(first) = open.first() {
        let mut turn = Turn { view, met: vec![(first, 0)], kinds: [CellSet::EMPTY; 2] };
        turn.kinds[0].insert(first);
        open.remove(first);
        let mut next = 0;
        while let Some(&(cell, _)) = turn.met.get(next) {
            let other = usize::from(turn.kinds[0].contains(cell));
            for mate in (view.peers(cell) & open).iter() {
                open.remove(mate);
                turn.met.push((mate, next));
                turn.kinds[other].insert(mate);
            }
            next += 1;
        }
        if turn.met.len() > 1 {
            turns.push(turn);
        }
    }
    turns
}

impl Turn<'_, '_> {
    /// The cells that see both kinds, each with the shortest way from one kind to the other: a step for
    /// each way.
    fn seen_both(&self, technique: TechniqueId) -> Vec<Proposal> {
        let view = self.view;
        let seen = self.kinds.map(|kind| self.seen_by(kind));
        let all = self.kinds[0] | self.kinds[1];
        let news = (seen[0] & seen[1]) - all - view.known_filling() - view.known_crusts();
        let mut steps: Vec<Proposal> = Vec::new();
        for cell in news.iter() {
            let ends = self.kinds.map(|kind| kind & view.peers(cell));
            let ways = ends[0].iter().filter_map(|from| self.way(from, ends[1]));
            // Two crusts of one house are for crusts found.
            let ways = ways.filter(|it| it.len() > 2);
            let Some(way) = ways.min_by_key(Vec::len) else { continue };
            let (Some(cites), [from, .., to]) = (self.why(&way), way.as_slice()) else { continue };
            let cites = [*from, *to].iter().fold(cites, |cites, end| cites.house(self.shared(cell, *end)));
            let conclusion = (Claim::Filling(cell), cites);
            let argument = self.argument(0, way.into_iter().collect(), None);
            match steps.iter_mut().find(|it| it.argument == argument) {
                Some(step) => step.conclusions.push(conclusion),
                None => steps.push(Proposal { technique, argument, conclusions: vec![conclusion] }),
            }
        }
        steps
    }

    /// The step that settles which kind is which; none if neither way round is refused.
    fn settled(&self, technique: TechniqueId) -> Option<Proposal> {
        let (one, last) = crusts(self.view.size());
        let ways_round = [(one, last), (last, one)];
        ways_round.into_iter().find_map(|(first, second)| {
            let supposed = [(0, first), (1, second)];
            supposed.into_iter().find_map(|(kind, digit)| self.refused(technique, kind, digit))
        })
    }

    /// The step that is open if some house has no place for the digit once the crusts of that kind hold it.
    fn refused(&self, technique: TechniqueId, which: usize, digit: Digit) -> Option<Proposal> {
        let view = self.view;
        let (kind, other_kind) = (self.kinds[which], self.kinds[1 - which]);
        let lost = self.seen_by(kind) | other_kind;
        let house = *view.houses().iter().find(|it| {
            let has_place = !(view.places(**it, digit) - lost).is_empty();
            !has_place && (view.members(**it) & kind).is_empty()
        })?;
        let places = view.places(house, digit);
        let mut cites = Cites::default().house(house);
        let mut told = places & other_kind;
        for place in (places - other_kind).iter() {
            // A crust that is looked at already is taken before a new one.
            let seers = view.peers(place) & kind;
            let seer = (seers & told).first().or(seers.first())?;
            told.insert(seer);
            cites.houses.insert(self.shared(place, seer));
        }
        let shown = view.why_nowhere(view.members(house) - places, digit, &mut cites);
        // What one crust shows is for easier techniques.
        let first = told.first().filter(|_| shown && told.len() > 1)?;
        for it in told.iter() {
            let way = self.way(first, [it].into_iter().collect())?;
            cites.merge(&self.why(&way)?);
            told.extend(way);
        }
        let (one, last) = crusts(view.size());
        let other = if digit == one { last } else { one };
        let conclude =
            |it: Cell| (Claim::Is(it, if kind.contains(it) { other } else { digit }), cites.clone());
        Some(Proposal {
            technique,
            argument: self.argument(which, told, Some((house, digit))),
            conclusions: told.iter().map(conclude).collect(),
        })
    }

    /// Those of the cells that are of that kind, and those that are not.
    fn argument(&self, which: usize, cells: CellSet, refused: Option<(House, Digit)>) -> Argument {
        let kinds = [which, 1 - which].map(|it| self.kinds[it] & cells);
        Argument::CrustsInTurn { kinds, refused }
    }

    fn seen_by(&self, cells: CellSet) -> CellSet {
        cells.iter().fold(CellSet::EMPTY, |all, it| all | self.view.peers(it))
    }

    /// The shortest way from one crust to one of the others, each sharing a house with the next.
    fn way(&self, from: Cell, to: CellSet) -> Option<Vec<Cell>> {
        let mut met = vec![(from, 0)];
        let mut open = (self.kinds[0] | self.kinds[1]) - [from].into_iter().collect();
        let mut next = 0;
        while let Some(&(cell, before)) = met.get(next) {
            if to.contains(cell) {
                let mut way = vec![cell];
                let mut at = before;
                while way.last() != Some(&from) {
                    way.push(met[at].0);
                    at = met[at].1;
                }
                return Some(way);
            }
            for mate in (self.view.peers(cell) & open).iter() {
                open.remove(mate);
                met.push((mate, next));
            }
            next += 1;
        }
        None
    }

    /// Why the crusts of a way take turns.
    fn why(&self, way: &[Cell]) -> Option<Cites> {
        let mut cites = Cites::default();
        let shown = way.iter().all(|it| self.view.why_crust(*it, &mut cites));
        way.windows(2).for_each(|it| _ = cites.houses.insert(self.shared(it[0], it[1])));
        shown.then_some(cites)
    }

    /// The first house that holds both cells.
    fn shared(&self, a: Cell, b: Cell) -> House {
        let size = self.view.size();
        let of_b = size.houses_of(b);
        size.houses_of(a)
            .into_iter()
            .find(|it| of_b.contains(it))
            .unwrap_or_else(|| unreachable!("{a} sees {b}"))
    }
}
