//! A pack as a syllabus: each walkthrough takes for granted what the puzzles before it taught.
//!
//! The walkthroughs depend on the order, and the order that is proposed depends on the walkthroughs. The loop is closed
//! so: at first each puzzle is walked through by itself, for somebody who knows what the pack says is known; that gives
//! an order. In that order each is walked through anew, with what is known by then. Of all walkthroughs found so far, and
//! of all orders met, the next order is looked for: at each place of it that walkthrough of a puzzle counts which was
//! found for just what is known there, or that comes nearest. It costs no more than the cheapest order met. If it is one
//! of those, nothing is to be learnt from it; then the orders are tried that the walkthroughs in those met ask for as they
//! stand, where there are few enough puzzles for the best of them to be found. Each order that is new is walked through,
//! whereupon more is known of what costs what. With none the loop has come to rest; with a new one after [`MOST_ROUNDS`]
//! it has not, and [`StudiedPack::unsettled`] says so. In either case the cheapest order met is taken.

use std::collections::{BTreeMap, BTreeSet};

use ::pack::{Outcome, PackInfo, PuzzleId, Walked};
use reason::Known;
use trail::TechniqueId;

use crate::{StudiedPack, Study};

/// So many orders are tried at most.
const MOST_ROUNDS: usize = 12;

/// The loop of order and walkthroughs did not come to rest: so many orders were met, and there was another to be tried.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Unsettled(pub usize);

/// Walks through many puzzles, each for somebody who knows those techniques; the answers are in the order of the
/// questions. A caller may do so on many cores, show how far it is, and break off with an error.
pub trait Walker {
    /// Why it may break off.
    type Error;

    /// Walks through each of them: [`Study::for_solver`].
    ///
    /// # Errors
    ///
    /// If it breaks off.
    fn walk(&mut self, puzzles: Vec<(Study, Known)>) -> Result<Vec<Study>, Self::Error>;
}

/// One after the other, on the core of the caller.
#[derive(Clone, Copy, Debug, Default)]
pub struct OneByOne;

impl Walker for OneByOne {
    type Error = std::convert::Infallible;

    fn walk(&mut self, puzzles: Vec<(Study, Known)>) -> Result<Vec<Study>, Self::Error> {
        Ok(puzzles.into_iter().map(|(study, known)| study.for_solver(known)).collect())
    }
}

impl StudiedPack {
    /// Puts the puzzles in the editor's order, or proposes one; each walkthrough takes for granted what the puzzles
    /// before it taught. With `n_places`, so many are chosen among those in the pack and in its pool.
    ///
    /// None if more puzzles must have a place than there are places.
    ///
    /// # Errors
    ///
    /// If the walker breaks off.
    pub fn as_syllabus<W: Walker>(
        info: PackInfo,
        studies: Vec<Study>,
        n_places: Option<usize>,
        walker: &mut W,
    ) -> Result<Option<StudiedPack>, W::Error> {
        let start = Known::only(info.knows.iter().copied());
        let mut walks = Walks { walker, start, done: BTreeMap::new() };
        let alone = studies.into_iter().map(|it| (it, start)).collect();
        let studies = walks.walk(alone)?;
        let Some(mut pack) = StudiedPack::arranged(info, studies, n_places) else { return Ok(None) };
        if !pack.is_proposed() {
            return pack.in_turn(&mut walks).map(Some);
        }
        let mut met: Vec<Met> = Vec::new();
        let unsettled = loop {
            met.push(Met::new(pack.in_turn(&mut walks)?));
            let Some(next) = next_order(&met, &walks) else { break None };
            if met.len() == MOST_ROUNDS {
                break Some(Unsettled(MOST_ROUNDS));
            }
            pack = met[0].pack.clone().in_order(&next);
        };
        // Of equals the first.
        let best = met
            .into_iter()
            .map(|it| it.pack)
            .min_by_key(|it| (it.n_without_walkthrough(), it.costs().total()));
        Ok(best.map(|it| it.ended(unsettled)))
    }

    /// The same pack in the same order, each walkthrough for somebody who knows what was taught before it.
    fn in_turn<W: Walker>(self, walks: &mut Walks<'_, W>) -> Result<StudiedPack, W::Error> {
        let mut pack = self;
        let mut walked_for: Vec<Known> = Vec::new();
        loop {
            let known = pack.objective().known_along(&pack.order(), &walks.of(&pack));
            let known = known.into_iter().map(|it| it.into_iter().fold(walks.start, Known::with));
            let known: Vec<Known> = known.chain(pack.aside().iter().map(|_| walks.start)).collect();
            // What is known before the first is certain, so before the second the next time, and so on.
            if known == walked_for {
                return Ok(pack);
            }
            let walked = walks.walk(pack.all().cloned().zip(known.iter().copied()).collect())?;
            pack = pack.with_walkthroughs(walked);
            walked_for = known;
        }
    }
}

/// An order that was walked through.
struct Met {
    pack: StudiedPack,
    /// The order that its walkthroughs ask for as they stand, if there are few enough puzzles for it to be proved the best.
    asks_for: Option<Vec<PuzzleId>>,
}

impl Met {
    fn new(pack: StudiedPack) -> Met {
        let best = pack.objective().best(&pack.candidates(), pack.studies().len());
        Met { asks_for: best.map(|it| pack.with_others(it.order)), pack }
    }
}

/// The order to be walked through next; none if there is none that is new.
fn next_order<W>(met: &[Met], walks: &Walks<'_, W>) -> Option<Vec<PuzzleId>> {
    let pack = &met.first()?.pack;
    let orders: Vec<Vec<PuzzleId>> = met.iter().map(|it| it.pack.order()).collect();
    let by_all = pack.objective().propose_walked(&walks.of(pack), pack.studies().len(), &orders);
    let by_all = by_all.map(|it| pack.with_others(it));
    let as_they_stand = met.iter().rev().filter_map(|it| it.asks_for.clone());
    by_all.into_iter().chain(as_they_stand).find(|it| !orders.contains(it))
}

/// Walkthroughs that were found already.
struct Walks<'a, W> {
    walker: &'a mut W,
    /// What is known before the first puzzle.
    start: Known,
    done: BTreeMap<(PuzzleId, Known), Study>,
}

impl<W> Walks<'_, W> {
    /// All walkthroughs of the puzzles that may have a place in the pack, as they are weighed: first those of each by
    /// itself. Nothing of puzzles that nobody can be led through.
    fn of(&self, pack: &StudiedPack) -> Vec<Walked> {
        let ids: BTreeSet<&PuzzleId> = pack.placeable().map(|it| &it.entry().id).collect();
        let has_way = |id: &PuzzleId| self.done.iter().any(|it| it.0.0 == *id && it.1.is_publishable());
        let ids: BTreeSet<&PuzzleId> = ids.into_iter().filter(|it| has_way(it)).collect();
        let done = self.done.iter().filter(|((id, _), _)| ids.contains(id));
        let (alone, others): (Vec<_>, Vec<_>) = done.partition(|((_, known), _)| *known == self.start);
        let walked = |((_, known), study): (&(PuzzleId, Known), &Study)| {
            let known: BTreeSet<TechniqueId> = known.techniques().map(|it| it.id()).collect();
            let studied = study.for_order(pack.info());
            let outcome = match &studied {
                None => Outcome::IsMissing,
                Some(_) if study.is_sealed() => Outcome::IsSealed,
                Some(_) => Outcome::Teaches,
            };
            let studied = studied.unwrap_or_else(|| study.without_walkthrough(pack.info()));
            Walked { known, studied, outcome }
        };
        alone.into_iter().chain(others).map(walked).collect()
    }
}

impl<W: Walker> Walks<'_, W> {
    fn walk(&mut self, asked: Vec<(Study, Known)>) -> Result<Vec<Study>, W::Error> {
        let key = |(study, known): &(Study, Known)| (study.entry().id.clone(), *known);
        let keys: Vec<(PuzzleId, Known)> = asked.iter().map(key).collect();
        let new: Vec<(Study, Known)> =
            asked.into_iter().filter(|it| !self.done.contains_key(&key(it))).collect();
        let new_keys: Vec<(PuzzleId, Known)> = new.iter().map(key).collect();
        if !new.is_empty() {
            self.done.extend(new_keys.into_iter().zip(self.walker.walk(new)?));
        }
        Ok(keys.iter().map(|it| self.done[it].clone()).collect())
    }
}
