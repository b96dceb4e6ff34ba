//! The pack held against what the editor has said of it: limits of shelves, and what recordings say.

use ::pack::{PuzzleId, Said};
use reason::rank;
use trail::TechniqueId;

use crate::{StudiedPack, Study};

/// A puzzle that is more than its shelf takes.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Misfit {
    /// The puzzle.
    pub id: PuzzleId,
    /// The shelf's name.
    pub shelf: String,
    /// The minutes that it takes and those that the shelf allows, if it takes more.
    pub minutes: Option<(u32, u32)>,
    /// The hardest technique that it needs and the hardest that the shelf allows, if it is harder.
    pub hardest: Option<(TechniqueId, TechniqueId)>,
}

impl StudiedPack {
    /// The puzzles that are more than their shelves take, in order. Of sealed ones nothing is said: it would tell
    /// something of them.
    pub fn misfits(&self) -> Vec<Misfit> {
        let misfit = |at: usize| {
            let name = self.placement(at).shelf?;
            let shelf = self.info().shelves.iter().find(|it| it.name == name)?;
            let study = &self.studies()[at];
            let account = study.opened()?.account?;
            let taken = account.estimate.minutes().ceil() as u32;
            let hardest = account.techniques().iter().copied().max_by_key(|it| rank(*it))?;
            let minutes = shelf.minutes.filter(|most| taken > *most).map(|most| (taken, most));
            let hardest = shelf.hardest.filter(|it| rank(hardest) > rank(*it)).map(|most| (hardest, most));
            (minutes.is_some() || hardest.is_some()).then(|| Misfit {
                id: study.entry().id.clone(),
                shelf: name.to_owned(),
                minutes,
                hardest,
            })
        };
        (0..self.studies().len()).filter_map(misfit).collect()
    }

    /// What recordings say and is not true of this order, puzzle by puzzle; of a puzzle that a choice left out nothing is. Of
    /// sealed puzzles only what concerns their place is held against it.
    pub fn untrue(&self) -> Vec<(PuzzleId, Said)> {
        let weighed: Vec<_> = self.studies().iter().filter(|it| it.placed.is_some()).collect();
        let placed: Vec<_> = weighed.iter().filter_map(|it| it.placed.clone()).collect();
        let seconds: Vec<u64> =
            weighed.iter().filter_map(|it| it.for_order(self.info())).map(|it| it.seconds).collect();
        let mut untrue = Vec::new();
        for (at, study) in weighed.iter().enumerate() {
            for said in &study.entry().said {
                let tells = matches!(said, Said::FirstWith(_) | Said::NothingNew | Said::LongestSoFar);
                let is_kept_back = tells && weighed[..=at].iter().any(|it| it.is_sealed());
                if !is_kept_back && !said.is_true(at, &placed, &seconds) {
                    untrue.push((study.entry().id.clone(), said.clone()));
                }
            }
        }
        let of_one = |it: &Study| {
            let id = it.entry().id.clone();
            it.entry().said.clone().into_iter().map(move |said| (id.clone(), said))
        };
        untrue.extend(self.not_chosen().flat_map(of_one));
        untrue
    }
}
