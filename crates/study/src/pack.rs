//! A whole pack: every puzzle studied, and all of them in order.

use std::collections::BTreeMap;

use ::pack::{Coverage, PackInfo, Placed, PuzzleId, Studied, coverage, place, propose_order};
use reason::TECHNIQUES;
use trail::TechniqueId;

use crate::Study;

/// A puzzle's place as it may be told even while it is sealed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Placement<'a> {
    /// From 1.
    pub number: usize,
    /// The shelf it falls on, if the pack has shelves: they share the puzzles out evenly.
    pub shelf: Option<&'a str>,
}

/// A pack's puzzles in order, with everything found out about them.
#[derive(Clone, Debug)]
pub struct StudiedPack {
    info: PackInfo,
    studies: Vec<Study>,
    is_proposed: bool,
}

impl StudiedPack {
    /// Puts the studies in the editor's order, or proposes one. Puzzles without a walkthrough come
    /// last in a proposed order, by id.
    pub fn new(info: PackInfo, studies: Vec<Study>) -> StudiedPack {
        let studied: Vec<Studied> = studies.iter().filter_map(Study::for_order).collect();
        let mut by_id: BTreeMap<PuzzleId, Study> =
            studies.into_iter().map(|it| (it.entry().id.clone(), it)).collect();
        let order = info.order.clone().unwrap_or_else(|| propose_order(&studied));
        let mut ordered: Vec<Study> = order.iter().filter_map(|it| by_id.remove(it)).collect();
        ordered.extend(by_id.into_values());
        let placed = placed_with_seals(&ordered);
        for study in &mut ordered {
            study.placed = placed.iter().find(|it| it.id == study.entry().id).cloned();
        }
        StudiedPack { is_proposed: info.order.is_none(), info, studies: ordered }
    }

    /// What `pack.toml` says.
    pub fn info(&self) -> &PackInfo {
        &self.info
    }

    /// Every puzzle, in order.
    pub fn studies(&self) -> &[Study] {
        &self.studies
    }

    /// Whether the order is Galley's proposal rather than the editor's.
    pub fn is_proposed(&self) -> bool {
        self.is_proposed
    }

    /// What the order costs: the number that a proposal makes as small as it can. One number for the
    /// whole pack, so it spoils nothing.
    pub fn cost(&self) -> u64 {
        let studied: Vec<Studied> = self.studies.iter().filter_map(Study::for_order).collect();
        let order: Vec<PuzzleId> = self.studies.iter().map(|it| it.entry().id.clone()).collect();
        ::pack::cost(&order, &studied)
    }

    /// The same pack in the order that Galley proposes, to compare with the editor's.
    #[must_use]
    pub fn proposed(&self) -> StudiedPack {
        StudiedPack::new(PackInfo { order: None, ..self.info.clone() }, self.studies.clone())
    }

    /// Where the puzzle at this place (from 0) stands. Only what may be published has a shelf.
    pub fn placement(&self, at: usize) -> Placement<'_> {
        let shelves = &self.info.shelves;
        let sound = |studies: &[Study]| studies.iter().filter(|it| it.is_publishable()).count();
        let shelf = || {
            self.studies.get(at).filter(|it| it.is_publishable())?;
            shelves.get(sound(&self.studies[..at]) * shelves.len() / sound(&self.studies))
        };
        Placement { number: at + 1, shelf: shelf().map(String::as_str) }
    }

    /// What each puzzle teaches first, for those that are not sealed.
    pub fn placed(&self) -> impl Iterator<Item = &Placed> {
        self.studies.iter().filter_map(|it| it.opened()?.placed)
    }

    /// Which unsealed puzzle uses which technique, in the order of the techniques; a technique that
    /// none uses has no puzzles.
    pub fn coverage(&self) -> Vec<Coverage> {
        let open: Vec<&Study> = self.studies.iter().filter(|it| !it.is_sealed()).collect();
        let studied: Vec<Studied> = open.iter().filter_map(|it| it.for_order()).collect();
        let order: Vec<PuzzleId> = open.iter().map(|it| it.entry().id.clone()).collect();
        let techniques = TECHNIQUES.iter().map(|it| it.id()).chain([TechniqueId::SMALL_ARGUMENT]);
        coverage(&techniques.collect::<Vec<_>>(), &order, &studied)
    }
}

/// What was weighed for each place, with nothing in it that would spoil a sealed puzzle.
///
/// What a sealed puzzle teaches does not count as taught, and no puzzle is compared in minutes with a
/// sealed one before it: either would tell something of it.
fn placed_with_seals(ordered: &[Study]) -> Vec<Placed> {
    let told: Vec<(bool, Studied)> = ordered
        .iter()
        .filter_map(|it| {
            let studied = it.for_order()?;
            let techniques = if it.is_sealed() { Default::default() } else { studied.techniques };
            Some((it.is_sealed(), Studied { techniques, ..studied }))
        })
        .collect();
    let (sealed, studied): (Vec<bool>, Vec<Studied>) = told.into_iter().unzip();
    let order: Vec<PuzzleId> = studied.iter().map(|it| it.id.clone()).collect();
    let mut placed = place(&order, &studied);
    for (it, before_is_sealed) in placed.iter_mut().skip(1).zip(sealed) {
        if before_is_sealed {
            it.step_up = None;
        }
    }
    placed
}
