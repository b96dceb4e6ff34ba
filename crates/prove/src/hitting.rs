//! Smallest choices: the fewest elements that have a member in each of many sets.
//!
//! The sets become known one after another, each because the last choice was not enough. A choice found here
//! is the smallest, so the first that is enough is proved to be the fewest. The published name for that is
//! implicit hitting sets (as in E. Gamba, B. Bogaerts, T. Guns, JAIR 78, 2023).

use crate::stop;

/// So many nodes are looked into before it is asked again whether to stop.
const NODES_BETWEEN_STOPS: u64 = 1 << 6;

/// A set of elements, by number: 0 to 383. A 16x16 page with every cell given and all sums has 288 things, and
/// 48 houses.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) struct Set([u64; 6]);

impl Set {
    /// The first so many elements; none if there are not so many.
    pub(crate) fn first(n: usize) -> Option<Set> {
        (n <= 6 * 64).then(|| (0..n).collect())
    }

    pub(crate) fn insert(&mut self, element: usize) {
        self.0[element / 64] |= 1 << (element % 64);
    }

    pub(crate) fn contains(&self, element: usize) -> bool {
        self.0[element / 64] >> (element % 64) & 1 == 1
    }

    pub(crate) fn len(&self) -> usize {
        self.0.iter().map(|it| it.count_ones() as usize).sum()
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.0 == [0; 6]
    }

    pub(crate) fn meets(&self, other: &Set) -> bool {
        self.0.iter().zip(other.0).any(|(a, b)| a & b != 0)
    }

    pub(crate) fn union(&self, other: &Set) -> Set {
        Set(std::array::from_fn(|at| self.0[at] | other.0[at]))
    }

    pub(crate) fn without(&self, other: &Set) -> Set {
        Set(std::array::from_fn(|at| self.0[at] & !other.0[at]))
    }

    pub(crate) fn iter(self) -> impl Iterator<Item = usize> {
        (0..6 * 64).filter(move |it| self.contains(*it))
    }
}

impl FromIterator<usize> for Set {
    fn from_iter<I: IntoIterator<Item = usize>>(elements: I) -> Set {
        let mut set = Set::default();
        elements.into_iter().for_each(|it| set.insert(it));
        set
    }
}

/// The sets known so far, and how small a choice can be at best.
#[derive(Clone, Debug)]
pub(crate) struct Hitting {
    /// By element: what is chosen with it, itself included.
    brings: Vec<Set>,
    sets: Vec<Set>,
    at_least: usize,
}

impl Hitting {
    /// No set yet. `brings` says of each element what has to be chosen with it, itself included.
    pub(crate) fn new(brings: Vec<Set>) -> Hitting {
        Hitting { brings, sets: Vec::new(), at_least: 0 }
    }

    /// Demands a member of this set, which must have one.
    pub(crate) fn add(&mut self, set: Set) {
        debug_assert!(!set.is_empty(), "nothing can be chosen from an empty set");
        self.sets.push(set);
    }

    /// No choice smaller than this has a member in each set.
    pub(crate) fn at_least(&self) -> usize {
        self.at_least
    }

    /// A smallest choice; none if the work allowed, in nodes of the search, is used up first or the caller
    /// wants no more.
    pub(crate) fn smallest(&mut self, work: &mut u64) -> Option<Set> {
        loop {
            match self.choose(Set::default(), Set::default(), work) {
                Found::Choice(it) => return Some(it),
                // Sets are only ever added, so what was too small once stays too small.
                Found::TooSmall => self.at_least += 1,
                Found::GivenUp => return None,
            }
        }
    }

    /// A choice of `at_least` elements that goes on from `chosen` and has none of `banned`.
    fn choose(&self, chosen: Set, mut banned: Set, work: &mut u64) -> Found {
        let Some(left) = work.checked_sub(1) else { return Found::GivenUp };
        *work = left;
        if left.is_multiple_of(NODES_BETWEEN_STOPS) && stop::is_asked() {
            return Found::GivenUp;
        }
        let open = self.sets.iter().filter(|it| !it.meets(&chosen)).map(|it| it.without(&banned));
        let mut open: Vec<Set> = open.collect();
        open.sort_by_key(Set::len);
        let Some(scarcest) = open.first().copied() else { return Found::Choice(chosen) };
        if chosen.len() + disjoint(&open) > self.at_least {
            return Found::TooSmall;
        }
        let n_hit = |element: &usize| open.iter().filter(|it| it.contains(*element)).count();
        let mut elements: Vec<usize> = scarcest.iter().collect();
        elements.sort_by_cached_key(|it| std::cmp::Reverse(n_hit(it)));
        for element in elements {
            let with = chosen.union(&self.brings[element]);
            if with.len() <= self.at_least && !with.meets(&banned) {
                match self.choose(with, banned, work) {
                    Found::TooSmall => {}
                    other => return other,
                }
            }
            // Every choice with it was looked at.
            banned.insert(element);
        }
        Found::TooSmall
    }
}

enum Found {
    Choice(Set),
    TooSmall,
    GivenUp,
}

/// How many of these sets, taken greedily, have no element in common: each needs a choice of its own.
fn disjoint(sets: &[Set]) -> usize {
    let mut met = Set::default();
    let mut n = 0;
    for set in sets {
        if !set.meets(&met) {
            met = met.union(set);
            n += 1;
        }
    }
    n
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// All choices, tried in order of size.
    fn slowly(brings: &[Set], sets: &[Set]) -> usize {
        let n = brings.len();
        let sizes = (0u32..1 << n).filter_map(|mask| {
            let chosen: Set = (0..n).filter(|it| mask >> it & 1 == 1).collect();
            let is_whole = chosen.iter().all(|it| brings[it].without(&chosen).is_empty());
            (is_whole && sets.iter().all(|it| it.meets(&chosen))).then_some(chosen.len())
        });
        sizes.min().expect("all elements together hit everything")
    }

    #[test]
    fn no_set_has_more_elements_than_there_are() {
        for n in [0, 1, 64, 383, 384] {
            assert_eq!(Set::first(n).map(|it| it.iter().eq(0..n)), Some(true), "{n}");
        }
        assert_eq!(Set::first(385), None);
    }

    proptest! {
        #[test]
        fn nothing_smaller_has_a_member_in_each(
            sets in prop::collection::vec(prop::collection::btree_set(0..8usize, 1..5), 0..9),
            with in prop::collection::vec(prop::option::weighted(0.3, 0..8usize), 8),
        ) {
            let brings: Vec<Set> = with.iter().enumerate().map(|(at, it)| {
                // What is brought along brings nothing further, as houses do not.
                let also = it.filter(|it| with[*it].is_none());
                [Some(at), also].into_iter().flatten().collect()
            }).collect();
            let sets: Vec<Set> = sets.into_iter().map(|it| it.into_iter().collect()).collect();
            let mut hitting = Hitting::new(brings.clone());
            let mut before = 0;
            for n in 0..=sets.len() {
                let smallest = hitting.smallest(&mut { u64::MAX }).expect("work enough");
                prop_assert!(sets[..n].iter().all(|it| it.meets(&smallest)));
                prop_assert_eq!(smallest.len(), slowly(&brings, &sets[..n]));
                prop_assert!(smallest.len() >= before && smallest.len() == hitting.at_least());
                before = smallest.len();
                if let Some(next) = sets.get(n) {
                    hitting.add(*next);
                }
            }
            prop_assert_eq!(hitting.smallest(&mut 0), None);
            let asked = || hitting.clone().smallest(&mut { 64 * 64 + 1 });
            prop_assert_eq!(stop::interruptible(|| true, asked), None);
        }
    }
}
