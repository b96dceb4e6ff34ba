//! Finding out everything about the pack, again whenever a file changes, without doing twice what has not changed.

use std::collections::BTreeMap;
use std::convert::Infallible;

use grade::Calibration;
use pack::{Entry, Pack, PackInfo, PuzzleId};
use rayon::prelude::*;
use reason::Known;
use study::{StudiedPack, Study, Walker, proved};

/// What was found out before. An answer counts as long as its puzzle's file says the same, the seal is as it was, and
/// test solves have taught nothing else.
#[derive(Debug, Default)]
pub(crate) struct Studying {
    proved: BTreeMap<PuzzleId, Study>,
    walked: BTreeMap<(PuzzleId, Known), Study>,
    calibration: Calibration,
}

impl Studying {
    /// Studies the pack. `is_unsealed` says which seals count as opened. `order` takes the place of the pack's own, if
    /// there is one.
    pub(crate) fn study(
        &mut self,
        pack: &Pack,
        calibration: &Calibration,
        is_unsealed: impl Fn(&PuzzleId) -> bool,
        order: Option<Vec<PuzzleId>>,
    ) -> StudiedPack {
        if self.calibration != *calibration {
            *self = Studying { calibration: calibration.clone(), ..Studying::default() };
        }
        let is_same = |it: &Study, entry: &Entry| {
            it.entry() == entry && it.is_sealed() == (entry.sealed && !is_unsealed(&entry.id))
        };
        let known = |entry: &Entry| self.proved.get(&entry.id).filter(|it| is_same(it, entry));
        let new: Vec<&Entry> = pack.entries.iter().filter(|it| known(it).is_none()).collect();
        let unsealed: Vec<bool> = new.iter().map(|it| is_unsealed(&it.id)).collect();
        let found: Vec<Study> = (new.into_par_iter().zip(unsealed))
            .map(|(entry, unsealed)| proved(entry.clone(), unsealed).calibrated(calibration))
            .collect();
        for it in found {
            self.walked.retain(|(id, _), _| *id != it.entry().id);
            self.proved.insert(it.entry().id.clone(), it);
        }
        self.proved.retain(|id, _| pack.entries.iter().any(|it| it.id == *id));
        self.walked.retain(|(id, _), _| pack.entries.iter().any(|it| it.id == *id));
        let studies = pack.entries.iter().map(|it| self.proved[&it.id].clone()).collect();
        let info = PackInfo { order: order.or_else(|| pack.info.order.clone()), ..pack.info.clone() };
        match StudiedPack::as_syllabus(info, studies, None, &mut Remembering { walked: &mut self.walked }) {
            Ok(Some(it)) => it,
            Ok(None) => unreachable!("every puzzle has a place where none is chosen"),
        }
    }
}

/// Walks through puzzles on all cores, but for those that were walked through before.
struct Remembering<'a> {
    walked: &'a mut BTreeMap<(PuzzleId, Known), Study>,
}

impl Walker for Remembering<'_> {
    type Error = Infallible;

    fn walk(&mut self, puzzles: Vec<(Study, Known)>) -> Result<Vec<Study>, Infallible> {
        let key = |(study, known): &(Study, Known)| (study.entry().id.clone(), *known);
        let keys: Vec<(PuzzleId, Known)> = puzzles.iter().map(key).collect();
        let new: Vec<(Study, Known)> =
            puzzles.into_iter().filter(|it| !self.walked.contains_key(&key(it))).collect();
        let found: Vec<((PuzzleId, Known), Study)> =
            (new.into_par_iter()).map(|it| (key(&it), it.0.for_solver(it.1))).collect();
        self.walked.extend(found);
        Ok(keys.iter().map(|it| self.walked[it].clone()).collect())
    }
}
