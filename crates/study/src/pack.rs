//! A whole pack: every puzzle studied, and those that have a place in order.

use std::collections::{BTreeMap, BTreeSet};

use ::pack::{Costs, Coverage, Objective, PackInfo, Placed, PuzzleId, State, Studied, coverage};
use grade::Calibration;
use reason::TECHNIQUES;
use trail::TechniqueId;

use crate::{Study, Unsettled};

/// A puzzle's place as it may be told even while it is sealed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Placement<'a> {
    /// From 1.
    pub number: usize,
    /// The shelf it falls on, if the pack has shelves: its own, else they share the puzzles out evenly.
    pub shelf: Option<&'a str>,
}

/// A pack's puzzles in order, with everything found out about them.
#[derive(Clone, Debug)]
pub struct StudiedPack {
    info: PackInfo,
    studies: Vec<Study>,
    aside: Vec<Study>,
    /// What no order costs less than, if this one is proposed.
    at_least: Option<u64>,
    /// Whether there are fewer places than puzzles that might have one, so that it was chosen among them.
    is_choice: bool,
    unsettled: Option<Unsettled>,
}

impl StudiedPack {
    /// Puts the studies in the editor's order, or proposes one, with the walkthroughs that they have. Puzzles without
    /// a walkthrough come last in a proposed order, by id; those whose state gives them no place are set aside.
    pub fn new(info: PackInfo, studies: Vec<Study>) -> StudiedPack {
        let pack = StudiedPack::arranged(info, studies, None);
        pack.unwrap_or_else(|| unreachable!("there are as many places as puzzles"))
    }

    /// The same; with `n_places`, so many are chosen among those in the pack and in its pool, whatever order the
    /// editor has given. None if more of them must have a place.
    pub(crate) fn arranged(
        info: PackInfo,
        studies: Vec<Study>,
        n_places: Option<usize>,
    ) -> Option<StudiedPack> {
        let is_choice = n_places.is_some();
        let objective = objective(&info);
        let studied = weighed(&info, studies.iter().filter(|it| may_have_place(it, is_choice)));
        let (order, at_least) = match (&info.order, n_places) {
            (Some(order), None) => (order.clone(), None),
            (_, n_places) => {
                let proposal = match n_places {
                    None => objective.propose(&studied),
                    Some(n_places) => objective.choose(&studied, n_places)?,
                };
                (proposal.order, Some(proposal.at_least))
            }
        };
        let nowhere =
            StudiedPack { info, studies: Vec::new(), aside: studies, at_least, is_choice, unsettled: None };
        Some(nowhere.in_order(&order))
    }

    /// The order with all others that may have a place at its end, by id; as it is, if it is a choice.
    pub(crate) fn with_others(&self, mut order: Vec<PuzzleId>) -> Vec<PuzzleId> {
        if !self.is_choice {
            let ids: BTreeSet<&PuzzleId> = self.placeable().map(|it| &it.entry().id).collect();
            let others: Vec<PuzzleId> = ids.into_iter().filter(|it| !order.contains(it)).cloned().collect();
            order.extend(others);
        }
        order
    }

    /// The same puzzles in another order: [`StudiedPack::with_others`].
    pub(crate) fn in_order(self, order: &[PuzzleId]) -> StudiedPack {
        let StudiedPack { studies, aside, is_choice, .. } = self;
        let all = studies.into_iter().chain(aside);
        let (inside, mut aside): (Vec<Study>, Vec<Study>) = all.partition(|it| may_have_place(it, is_choice));
        let mut by_id: BTreeMap<PuzzleId, Study> =
            inside.into_iter().map(|it| (it.entry().id.clone(), it)).collect();
        let mut studies: Vec<Study> = order.iter().filter_map(|it| by_id.remove(it)).collect();
        match is_choice {
            false => studies.extend(by_id.into_values()),
            true => aside.extend(by_id.into_values()),
        }
        aside.sort_by(|a, b| a.entry().id.cmp(&b.entry().id));
        let mut pack = StudiedPack { studies, aside, ..self };
        pack.place();
        pack
    }

    /// What `pack.toml` says.
    pub fn info(&self) -> &PackInfo {
        &self.info
    }

    /// Every puzzle that has a place, in order.
    pub fn studies(&self) -> &[Study] {
        &self.studies
    }

    /// On how many logged solves the minutes are calibrated; with none they are estimates.
    pub fn n_solves(&self) -> usize {
        self.all().filter_map(Study::minutes).map(|it| it.n_solves).max().unwrap_or_default()
    }

    /// What corrects the minutes of its puzzles: the same for all.
    pub fn calibration(&self) -> Calibration {
        self.all().next().map(|it| it.calibration().clone()).unwrap_or_default()
    }

    /// The puzzles that have no place, by id.
    pub fn aside(&self) -> &[Study] {
        &self.aside
    }

    /// Those among which it was chosen and that were left out, by id.
    pub(crate) fn not_chosen(&self) -> impl Iterator<Item = &Study> {
        self.aside.iter().filter(|it| self.is_choice && may_have_place(it, true))
    }

    /// All of them: first those that have a place.
    pub fn all(&self) -> impl Iterator<Item = &Study> {
        self.studies.iter().chain(&self.aside)
    }

    /// The same arrangement with these walkthroughs, in the order of [`StudiedPack::all`].
    pub(crate) fn with_walkthroughs(self, walked: Vec<Study>) -> StudiedPack {
        let n = self.studies.len();
        let (mut studies, mut aside) = (walked, Vec::new());
        aside.extend(studies.drain(n..));
        let mut pack = StudiedPack { studies, aside, ..self };
        pack.place();
        pack
    }

    /// The ids of those that have a place, in order.
    pub fn order(&self) -> Vec<PuzzleId> {
        self.studies.iter().map(|it| it.entry().id.clone()).collect()
    }

    /// Whether the order is Galley's proposal rather than the editor's.
    pub fn is_proposed(&self) -> bool {
        self.at_least.is_some()
    }

    /// What no order of the puzzles costs less than as long as their walkthroughs stay as they are; none if the
    /// order is the editor's. To be shown as [`StudiedPack::costs`] is.
    pub fn at_least(&self) -> Option<u64> {
        self.at_least
    }

    /// How the loop of order and walkthroughs ended if it did not come to rest; none if it did, or if the order is the
    /// editor's.
    pub fn unsettled(&self) -> Option<Unsettled> {
        self.unsettled
    }

    /// The same at the end of the loop: what no order costs less than with these walkthroughs, and how it ended.
    pub(crate) fn ended(self, unsettled: Option<Unsettled>) -> StudiedPack {
        let at_least = self.objective().at_least(&self.candidates(), self.studies.len());
        StudiedPack { at_least: Some(at_least), unsettled, ..self }
    }

    /// What an order of this pack is weighed by.
    pub fn objective(&self) -> Objective {
        objective(&self.info)
    }

    /// What the order, and the choice if it is one, costs, part by part: the total is the number that a proposal makes as
    /// small as it can. It counts sealed puzzles too, so it is not to be shown while there are any.
    pub fn costs(&self) -> Costs {
        self.objective().costs(&self.order(), &self.candidates())
    }

    /// How many that have a place nobody can be led through, if they come to it there.
    pub(crate) fn n_without_walkthrough(&self) -> usize {
        self.studies.iter().filter(|it| !it.is_publishable()).count()
    }

    /// Those that have a place, and those among which it was chosen.
    pub(crate) fn placeable(&self) -> impl Iterator<Item = &Study> {
        self.studies.iter().chain(self.not_chosen())
    }

    /// What is weighed of those.
    pub(crate) fn candidates(&self) -> Vec<Studied> {
        weighed(&self.info, self.placeable())
    }

    /// Where the puzzle at this place (from 0) stands. Only what may be published has a shelf.
    pub fn placement(&self, at: usize) -> Placement<'_> {
        let shelves = &self.info.shelves;
        let sound = |studies: &[Study]| studies.iter().filter(|it| it.is_publishable()).count();
        let shelf = || {
            let study = self.studies.get(at).filter(|it| it.is_publishable())?;
            match &study.entry().shelf {
                Some(own) => shelves.iter().find(|it| it.name == *own),
                None => shelves.get(sound(&self.studies[..at]) * shelves.len() / sound(&self.studies)),
            }
        };
        Placement { number: at + 1, shelf: shelf().map(|it| &it.name[..]) }
    }

    /// What each puzzle teaches first, for those that are not sealed.
    pub fn placed(&self) -> impl Iterator<Item = &Placed> {
        self.studies.iter().filter_map(|it| it.opened()?.placed)
    }

    /// Which unsealed puzzle with a place uses which technique, in the order of the techniques; a technique that
    /// none uses has no puzzles.
    pub fn coverage(&self) -> Vec<Coverage> {
        let open: Vec<&Study> = self.studies.iter().filter(|it| !it.is_sealed()).collect();
        let studied: Vec<Studied> = open.iter().filter_map(|it| it.for_order(&self.info)).collect();
        let order: Vec<PuzzleId> = open.iter().map(|it| it.entry().id.clone()).collect();
        let techniques = TECHNIQUES.iter().map(|it| it.id()).chain([TechniqueId::SMALL_ARGUMENT]);
        coverage(&techniques.collect::<Vec<_>>(), &self.info.knows, &order, &studied)
    }

    /// Tells each puzzle what was weighed for its place.
    fn place(&mut self) {
        let mut placed: BTreeMap<PuzzleId, Placed> =
            self.placed_with_seals().into_iter().map(|it| (it.id.clone(), it)).collect();
        for study in &mut self.studies {
            study.placed = placed.remove(&study.entry().id);
        }
        for study in &mut self.aside {
            study.placed = None;
        }
    }

    /// What was weighed for each place, with nothing in it that would spoil a sealed puzzle.
    ///
    /// What a sealed puzzle teaches does not count as taught, how it opens is not said, and no puzzle is compared in
    /// minutes with a sealed one before it: each would tell something of it.
    fn placed_with_seals(&self) -> Vec<Placed> {
        let told: Vec<(bool, Studied)> = (self.studies.iter())
            .filter_map(|it| {
                let studied = it.for_order(&self.info)?;
                Some(match it.is_sealed() {
                    true => (true, Studied { techniques: Default::default(), break_in: None, ..studied }),
                    false => (false, studied),
                })
            })
            .collect();
        let (sealed, studied): (Vec<bool>, Vec<Studied>) = told.into_iter().unzip();
        let order: Vec<PuzzleId> = studied.iter().map(|it| it.id.clone()).collect();
        let mut placed = self.objective().place(&order, &studied);
        for (it, before_is_sealed) in placed.iter_mut().skip(1).zip(sealed) {
            if before_is_sealed {
                it.step_up = None;
                it.flaws.seconds_back = 0;
            }
        }
        placed
    }
}

/// What an order of a pack is weighed by.
fn objective(info: &PackInfo) -> Objective {
    let prerequisites = TECHNIQUES.iter().map(|it| (it.id(), it.prerequisites().iter().copied().collect()));
    Objective {
        weights: info.weights,
        knows: info.knows.iter().copied().collect(),
        prerequisites: prerequisites.collect(),
        pins: info.pins.clone(),
    }
}

fn weighed<'a>(info: &PackInfo, studies: impl IntoIterator<Item = &'a Study>) -> Vec<Studied> {
    studies.into_iter().filter_map(|it| it.for_order(info)).collect()
}

/// Whether a puzzle may have a place in a pack, or in a choice.
fn may_have_place(study: &Study, is_choice: bool) -> bool {
    let state = study.entry().state;
    state.has_place() || is_choice && state == State::Pool
}
