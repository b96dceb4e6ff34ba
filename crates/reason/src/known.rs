//! The techniques that a solver is taken to know.

use trail::TechniqueId;

use crate::technique::place;
use crate::{TECHNIQUES, Technique};

/// Some of the techniques.
///
/// A small argument is no technique: whether it may be used is for [`Settings`](crate::Settings) to say.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Known(u64);

impl Known {
    /// Every technique.
    pub const ALL: Known = Known(u64::MAX);

    /// The technique with that id and all that are easier. Every one, if there is no such technique.
    pub fn up_to(hardest: TechniqueId) -> Known {
        let last = place(hardest).unwrap_or(TECHNIQUES.len());
        Known::only(TECHNIQUES.iter().take(last + 1).map(|it| it.id()))
    }

    /// These techniques; ids of none are passed over.
    pub fn only(ids: impl IntoIterator<Item = TechniqueId>) -> Known {
        ids.into_iter().fold(Known(0), Known::with)
    }

    /// These techniques and one more.
    #[must_use]
    pub fn with(self, id: TechniqueId) -> Known {
        Known(self.0 | place(id).map_or(0, |at| 1 << at))
    }

    /// These techniques but that one.
    #[must_use]
    pub fn without(self, id: TechniqueId) -> Known {
        Known(self.0 & !place(id).map_or(0, |at| 1 << at))
    }

    /// What takes the place of one of them for whoever does not know it: the others, but no last resort, since that
    /// would take the place of nearly anything, as small arguments would.
    #[must_use]
    pub fn in_place_of(self, id: TechniqueId) -> Known {
        Known::only(self.techniques().filter(|it| !it.is_last_resort()).map(|it| it.id())).without(id)
    }

    /// Those of them whose weight is at most that.
    #[must_use]
    pub(crate) fn weighing_at_most(self, most: u32) -> Known {
        let light = self.techniques().filter(|it| it.weight() <= most);
        Known::only(light.map(|it| it.id()))
    }

    /// Whether the technique is among them.
    pub fn has(self, id: TechniqueId) -> bool {
        place(id).is_some_and(|at| self.0 >> at & 1 == 1)
    }

    /// The techniques, easiest first.
    pub fn techniques(self) -> impl Iterator<Item = &'static dyn Technique> {
        self.places().map(|at| TECHNIQUES[at])
    }

    /// Their places in [`TECHNIQUES`], easiest first.
    pub(crate) fn places(self) -> impl Iterator<Item = usize> {
        const { assert!(TECHNIQUES.len() <= 64, "a set of techniques has 64 places") };
        (0..TECHNIQUES.len()).filter(move |at| self.0 >> at & 1 == 1)
    }
}
