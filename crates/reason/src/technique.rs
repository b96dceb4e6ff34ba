//! What a technique is, and the list of all of them.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::LazyLock;

use rulebook::{Claim, RuleId};
use trail::{Proposal, TechniqueId};

use crate::{Part, View, classic, sandwich};

/// Every technique, easiest first: by rising weight.
pub static TECHNIQUES: [&dyn Technique; 51] = [
    &classic::LastEmptyCell,
    &sandwich::CrustsAtEnds,
    &sandwich::CrustsAdjacent,
    &sandwich::CrustsFound,
    &classic::HiddenSingle,
    &sandwich::SeesBothCrusts,
    &sandwich::CrustDistance,
    &classic::NakedSingle,
    &sandwich::CrustPlaces,
    &sandwich::LAST_OUTSIDE,
    &sandwich::LAST_IN_SUM,
    &sandwich::OUTSIDE_DIGITS,
    &sandwich::FILLING_SETS,
    &sandwich::SpentClue,
    &sandwich::CrustReach,
    &sandwich::CrustsShared,
    &sandwich::CrustMates,
    &sandwich::CrustsConfined,
    &classic::LockedCandidates,
    &sandwich::CrustsInTurn,
    &sandwich::CrustHeld,
    &sandwich::CrustAmong,
    &sandwich::SideHolds,
    &sandwich::HeldDigit,
    &classic::NAKED_PAIR,
    &sandwich::CrustSums,
    &sandwich::SUM_PARTNERS,
    &sandwich::CrustTurnSettled,
    &classic::HIDDEN_PAIR,
    &sandwich::PARTNERS_ANYWHERE,
    &classic::NAKED_TRIPLE,
    &classic::HIDDEN_TRIPLE,
    &classic::X_WING,
    &sandwich::NeighbourTrials,
    &classic::NAKED_QUAD,
    &classic::X_WING_WITH_SPARE,
    &classic::XY_WING,
    &classic::SWORDFISH,
    &classic::TwoColours,
    &classic::EqualPairs,
    &classic::SWORDFISH_WITH_SPARE,
    &classic::HIDDEN_QUAD,
    &classic::XYZ_WING,
    &classic::JoinedPairs,
    &classic::JELLYFISH,
    &classic::ClassicChain,
    &classic::AlmostLocked,
    &classic::JELLYFISH_WITH_SPARE,
    &classic::LineAndBox,
    &sandwich::ChainThroughClues,
    &classic::FollowedToAnEnd,
];

/// The technique with that id; none for a small argument, which is no technique.
pub fn technique(id: TechniqueId) -> Option<&'static dyn Technique> {
    Some(TECHNIQUES[place(id)?])
}

/// The technique with that name in files and documents.
pub fn named(name: &str) -> Option<TechniqueId> {
    TECHNIQUES.iter().map(|it| it.id()).find(|it| it.name() == name)
}

/// These, easiest first; what is no technique, a small argument for instance, comes last.
pub fn by_ease(ids: impl IntoIterator<Item = TechniqueId>) -> Vec<TechniqueId> {
    let mut ids: Vec<TechniqueId> = ids.into_iter().collect();
    ids.sort_by_key(|it| rank(*it));
    ids
}

/// How many techniques are easier; for what is no technique, all of them.
pub fn rank(id: TechniqueId) -> usize {
    place(id).unwrap_or(TECHNIQUES.len())
}

/// The place in [`TECHNIQUES`] of the technique with that id.
pub(crate) fn place(id: TechniqueId) -> Option<usize> {
    static PLACES: LazyLock<BTreeMap<TechniqueId, usize>> =
        LazyLock::new(|| TECHNIQUES.iter().enumerate().map(|(at, it)| (it.id(), at)).collect());
    PLACES.get(&id).copied()
}

/// A way of thinking that offers steps.
pub trait Technique: Sync {
    /// Its name.
    fn id(&self) -> TechniqueId;

    /// The rule whose clues it reads; none if it is of the kind that every puzzle of rows, columns and boxes has.
    fn rule(&self) -> Option<RuleId> {
        None
    }

    /// About how many seconds it takes a person who knows it to see one such step where only one is
    /// open. An estimate, not yet calibrated; it also decides what counts as easier.
    fn weight(&self) -> u32;

    /// The techniques to be understood first, easiest first: each is lighter, and its thought is taken for
    /// granted here.
    fn prerequisites(&self) -> &'static [TechniqueId];

    /// Whether it is looked for only where nothing easier that the solver knows is open: because it finds something
    /// nearly everywhere.
    fn is_last_resort(&self) -> bool {
        false
    }

    /// The parts of what is known that decide, with the page, whether a step is open: where it found nothing it finds
    /// nothing until one of them has changed. What one part follows from counts too: the places left for crusts follow
    /// from kinds and lines. [`Part::ALL`] promises nothing.
    fn looks_at(&self) -> &'static [Part] {
        Part::ALL
    }

    /// Every step of this kind that is open and says something new, in a fixed order.
    fn find(&self, view: &View) -> Vec<Proposal>;

    /// Those of the steps that conclude something wanted; conclusions that are not wanted may be left out.
    /// Techniques that cite only after a search spare themselves the search for those.
    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        let mut steps = self.find(view);
        steps.retain(|it| it.conclusions.iter().any(|(claim, _)| is_wanted(claim)));
        steps
    }

    /// What each step that [`Technique::find`] would list concludes, in the same order, where that is said
    /// without looking for what to cite; none where that would save little.
    fn open_claims(&self, _view: &View) -> Option<Vec<Vec<Claim>>> {
        None
    }

    /// How many steps [`Technique::find`] would list.
    fn n_open(&self, view: &View) -> usize {
        self.open_claims(view).map_or_else(|| self.find(view).len(), |it| it.len())
    }
}

impl fmt::Debug for dyn Technique {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.id().fmt(f)
    }
}
