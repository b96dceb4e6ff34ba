//! Finding out everything about the pack, again whenever a file changes, without doing twice what has not changed.

use std::collections::BTreeMap;

use grade::Calibration;
use pack::{Entry, Pack, PackInfo, PuzzleId};
use rayon::prelude::*;
use reason::Known;
use study::{StudiedPack, Study, Walker, proved};

/// The work was broken off. What was found out until then is remembered.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct BrokenOff;

/// What was found out before. An answer counts as long as its puzzle's file says the same, the seal is as it was, and
/// test solves have taught nothing else.
#[derive(Debug, Default)]
pub(crate) struct Studying {
    proved: BTreeMap<PuzzleId, Study>,
    walked: BTreeMap<(PuzzleId, Known), Study>,
    calibration: Calibration,
    /// Whether the next study brings Galley down.
    #[cfg(test)]
    pub(crate) breaks: bool,
}

impl Studying {
    /// Studies the pack. `is_unsealed` says which seals count as opened. `order` takes the place of the pack's own, if
    /// there is one. It is broken off between two puzzles as soon as `is_asked` says so.
    pub(crate) fn study(
        &mut self,
        pack: &Pack,
        calibration: &Calibration,
        is_unsealed: impl Fn(&PuzzleId) -> bool,
        order: Option<Vec<PuzzleId>>,
        is_asked: &(dyn Fn() -> bool + Sync),
    ) -> Result<StudiedPack, BrokenOff> {
        #[cfg(test)]
        assert!(!std::mem::take(&mut self.breaks), "it was asked to break");
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
            .filter(|_| !is_asked())
            .map(|(entry, unsealed)| proved(entry.clone(), unsealed).calibrated(calibration))
            .collect();
        for it in found {
            self.walked.retain(|(id, _), _| *id != it.entry().id);
            self.proved.insert(it.entry().id.clone(), it);
        }
        self.proved.retain(|id, _| pack.entries.iter().any(|it| it.id == *id));
        self.walked.retain(|(id, _), _| pack.entries.iter().any(|it| it.id == *id));
        let studies =
            pack.entries.iter().map(|it| self.proved.get(&it.id).filter(|study| is_same(study, it)).cloned());
        let studies: Vec<Study> = studies.collect::<Option<_>>().ok_or(BrokenOff)?;
        let info = PackInfo { order: order.or_else(|| pack.info.order.clone()), ..pack.info.clone() };
        let mut walker = Remembering { walked: &mut self.walked, is_asked };
        let pack = StudiedPack::as_syllabus(info, studies, None, &mut walker)?;
        Ok(pack.unwrap_or_else(|| unreachable!("every puzzle has a place where none is chosen")))
    }
}

/// Walks through puzzles on all cores, but for those that were walked through before.
struct Remembering<'a> {
    walked: &'a mut BTreeMap<(PuzzleId, Known), Study>,
    is_asked: &'a (dyn Fn() -> bool + Sync),
}

impl Walker for Remembering<'_> {
    type Error = BrokenOff;

    fn walk(&mut self, puzzles: Vec<(Study, Known)>) -> Result<Vec<Study>, BrokenOff> {
        let key = |(study, known): &(Study, Known)| (study.entry().id.clone(), *known);
        let keys: Vec<(PuzzleId, Known)> = puzzles.iter().map(key).collect();
        let new: Vec<(Study, Known)> =
            puzzles.into_iter().filter(|it| !self.walked.contains_key(&key(it))).collect();
        let found: Vec<((PuzzleId, Known), Study)> = (new.into_par_iter())
            .filter(|_| !(self.is_asked)())
            .map(|it| (key(&it), it.0.for_solver(it.1)))
            .collect();
        self.walked.extend(found);
        keys.iter().map(|it| self.walked.get(it).cloned()).collect::<Option<_>>().ok_or(BrokenOff)
    }
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::{AtomicUsize, Ordering};

    use packfile::{SourceFile, read_pack};

    use super::*;

    fn pack() -> Pack {
        let puzzle = |name: &str, first: char| {
            let grid = format!("{first} . . .\n3 . 2 .\n. . . .\n. . 4 .");
            let text = format!(
                "format = 1\ntitle = \"{name}\"\nsetter = \"S\"\nsize = \"4x4\"\ngrid = \"\"\"\n{grid}\n\"\"\"\n"
            );
            SourceFile::new(format!("puzzles/{name}.toml"), text)
        };
        let info = SourceFile::new("pack.toml", "format = 1\ntitle = \"T\"\neditor = \"E\"\n");
        read_pack(Some(&info), &[puzzle("a", '1'), puzzle("b", '.'), puzzle("c", '1')]).0.pack
    }

    #[test]
    fn what_was_found_out_is_not_found_out_again() {
        let (pack, calibration) = (pack(), Calibration::default());
        let mut studying = Studying::default();
        let first = studying.study(&pack, &calibration, |_| false, None, &|| false).unwrap();
        // Nothing may be begun, and nothing need be.
        let again = studying.study(&pack, &calibration, |_| false, None, &|| true).unwrap();
        assert_eq!(first.order(), again.order());
        let mut changed = pack.clone();
        changed.entries[0].title = "Another".to_owned();
        let broken_off = studying.study(&changed, &calibration, |_| false, None, &|| true);
        assert_eq!(broken_off.err(), Some(BrokenOff));
        let whole = studying.study(&changed, &calibration, |_| false, None, &|| false).unwrap();
        assert_eq!(whole.all().filter(|it| it.entry().title == "Another").count(), 1);
    }

    #[test]
    fn work_that_is_broken_off_is_gone_on_with() {
        let (pack, calibration) = (pack(), Calibration::default());
        let mut studying = Studying::default();
        for allowed in 0..40 {
            let asked = AtomicUsize::new(0);
            let is_asked = || asked.fetch_add(1, Ordering::Relaxed) >= 1;
            if studying.study(&pack, &calibration, |_| false, None, &is_asked).is_ok() {
                assert!(allowed > 3, "each round does one puzzle's work at most: {allowed}");
                return;
            }
        }
        unreachable!("it is never done");
    }
}
