//! A pack as a syllabus: each walkthrough takes for granted what the puzzles before it taught.
//!
//! The walkthroughs depend on the order, and the order that is proposed depends on the walkthroughs. The loop is closed
//! so: at first each puzzle is walked through by itself, for somebody who knows what the pack says is known; that gives
//! an order. In that order each is walked through anew, with what is known by then. That gives the order anew, and so
//! on until the same order comes again, or [`MOST_ROUNDS`] times. Of the orders met, each held against the walkthroughs
//! that go with it, the one that costs least is taken; of equals the first. Where the loop did not come to rest, so that
//! each order met makes for walkthroughs that ask for another, [`StudiedPack::unsettled`] says so.

use std::collections::BTreeMap;

use ::pack::{PackInfo, PuzzleId};
use reason::Known;

use crate::{StudiedPack, Study};

/// So many orders are tried at most.
const MOST_ROUNDS: usize = 6;

/// How the loop of order and walkthroughs ended, if it did not come to rest.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Unsettled {
    /// So many orders ask for each other in turn.
    InTurn(usize),
    /// There were so many orders, each another, when it was broken off.
    BrokenOff(usize),
}

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
        let mut walks = Walks { walker, done: BTreeMap::new() };
        let start = Known::only(info.knows.iter().copied());
        let alone = studies.into_iter().map(|it| (it, start)).collect();
        let studies = walks.walk(alone)?;
        let Some(mut pack) = StudiedPack::arranged(info, studies, n_places) else { return Ok(None) };
        let mut best: Option<StudiedPack> = None;
        let mut met: Vec<Vec<PuzzleId>> = Vec::new();
        let unsettled = loop {
            let order = pack.order();
            match met.iter().position(|it| *it == order) {
                Some(at) if at + 1 == met.len() => break None,
                Some(at) => break Some(Unsettled::InTurn(met.len() - at)),
                None if met.len() == MOST_ROUNDS => break Some(Unsettled::BrokenOff(MOST_ROUNDS)),
                None => met.push(order),
            }
            pack = pack.in_turn(&mut walks)?;
            if !pack.is_proposed() {
                return Ok(Some(pack));
            }
            let Some(next) = pack.proposed_anew(n_places) else { break None };
            pack.bound_by(&next);
            if best.as_ref().is_none_or(|it| pack.costs().total() < it.costs().total()) {
                best = Some(pack);
            }
            pack = next;
        };
        Ok(best.map(|it| it.ended(unsettled)))
    }

    /// The order that these walkthroughs ask for.
    fn proposed_anew(&self, n_places: Option<usize>) -> Option<StudiedPack> {
        StudiedPack::arranged(self.info().clone(), self.all().cloned().collect(), n_places)
    }

    /// The same pack in the same order, each walkthrough for somebody who knows what was taught before it.
    fn in_turn<W: Walker>(self, walks: &mut Walks<'_, W>) -> Result<StudiedPack, W::Error> {
        let mut pack = self;
        // The first puzzle's walkthrough is settled at once, so the second's the next time, and so on.
        for _ in 0..=pack.studies().len() {
            let known = pack.known_by_then();
            let (studies, aside) = (pack.studies().iter(), pack.aside().iter());
            let start = Known::only(pack.info().knows.iter().copied());
            let asked = studies.cloned().zip(known).chain(aside.cloned().map(|it| (it, start)));
            let asked: Vec<(Study, Known)> = asked.collect();
            if asked.iter().all(|(study, known)| study.known() == Some(*known)) {
                break;
            }
            let walked = walks.walk(asked)?;
            pack = pack.with_walkthroughs(walked);
        }
        Ok(pack)
    }

    /// What a solver knows before each puzzle that has a place: what the pack says, and what those before it taught,
    /// as far as they are not sealed.
    fn known_by_then(&self) -> Vec<Known> {
        let mut known = Known::only(self.info().knows.iter().copied());
        let mut by_then = Vec::new();
        for study in self.studies() {
            by_then.push(known);
            let account = study.opened().and_then(|it| it.account);
            for id in account.map(|it| it.techniques()).into_iter().flatten() {
                known = known.with(*id);
            }
        }
        by_then
    }
}

/// Walkthroughs that were found already.
struct Walks<'a, W> {
    walker: &'a mut W,
    done: BTreeMap<(PuzzleId, Known), Study>,
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
