//! What recordings say, in the numbers of a board: how much of it is not so, place by place.
//!
//! It means what [`Said::is_true`] means of a whole order. Most of it is seen as soon as the puzzle has its place; what
//! comes last, what comes before a puzzle that is left out, and what is said of one that is left out, only at the end.

use trail::TechniqueId;

use crate::board::{Bits, SoFar};
use crate::{PuzzleId, Said, Studied};

/// What is said of each puzzle.
pub(crate) struct Heard {
    /// By puzzle: its bit, if others are told to come before or after it.
    names: Vec<Bits>,
    /// By puzzle.
    says: Vec<Vec<Says>>,
    is_nothing: bool,
}

/// One thing that is said, with numbers for puzzles and techniques.
#[derive(Clone, Copy, Debug)]
enum Says {
    /// It has that place, from 0.
    Place(usize),
    Last,
    After(Bits),
    Before(usize, Bits),
    RightAfter(usize),
    FirstWith(Bits),
    NothingNew,
    LongestSoFar,
    /// What no order makes true: it names itself, or what is not among the puzzles.
    Never,
}

impl Heard {
    /// Numbers what is said; both lists are in order. So many puzzles can be named as a set has places: what names one
    /// more weighs nothing.
    pub(crate) fn new(studied: &[&Studied], techniques: &[TechniqueId]) -> Heard {
        let place_of = |id: &PuzzleId| studied.binary_search_by(|it| it.id.cmp(id)).ok();
        let mut names: Vec<Bits> = vec![0; studied.len()];
        let named = studied.iter().flat_map(|it| &it.said).filter_map(|it| match it {
            Said::After(id) | Said::Before(id) => place_of(id),
            _ => None,
        });
        let mut bits = (0..Bits::BITS).map(|it| 1 << it);
        for at in named {
            if names[at] == 0 {
                names[at] = bits.next().unwrap_or_default();
            }
        }
        let of = |at: usize, said: &Said| -> Option<Says> {
            let other = |id: &PuzzleId| place_of(id).filter(|it| *it != at);
            let bit = |other: usize| Some(names[other]).filter(|it| *it != 0);
            Some(match said {
                Said::First => Says::Place(0),
                Said::Number(number) => number.checked_sub(1).map_or(Says::Never, Says::Place),
                Said::Last => Says::Last,
                Said::After(id) => match other(id) {
                    Some(it) => Says::After(bit(it)?),
                    None => Says::Never,
                },
                Said::Before(id) => match other(id) {
                    Some(it) => Says::Before(it, bit(it)?),
                    None => Says::Never,
                },
                Said::RightAfter(id) => other(id).map_or(Says::Never, Says::RightAfter),
                Said::FirstWith(it) => match techniques.binary_search(it) {
                    Ok(it) => Says::FirstWith(1 << it),
                    Err(_) => Says::Never,
                },
                Said::NothingNew => Says::NothingNew,
                Said::LongestSoFar => Says::LongestSoFar,
            })
        };
        let all = studied.iter().enumerate();
        let says: Vec<Vec<Says>> =
            all.map(|(at, it)| it.said.iter().filter_map(|said| of(at, said)).collect()).collect();
        Heard { names, is_nothing: says.iter().all(Vec::is_empty), says }
    }

    /// Whether nothing is said of any puzzle.
    pub(crate) fn is_nothing(&self) -> bool {
        self.is_nothing
    }

    /// The puzzle's bit, if it is named.
    pub(crate) fn name(&self, at: usize) -> Bits {
        self.names[at]
    }

    /// How much of what is said of the next puzzle is not so, as far as that is seen there; so much of it is `new`.
    pub(crate) fn n_untrue_at(&self, next: usize, so_far: &SoFar, new: Bits, seconds: u64) -> u64 {
        let is_untrue = |it: &&Says| match **it {
            Says::Place(place) => place != so_far.n_placed,
            Says::After(other) => so_far.named & other == 0,
            Says::Before(_, other) => so_far.named & other != 0,
            Says::RightAfter(other) => so_far.last != Some(other),
            Says::FirstWith(technique) => new & technique == 0,
            Says::NothingNew => new != 0,
            Says::LongestSoFar => so_far.longest.is_some_and(|it| it >= seconds),
            Says::Never => true,
            Says::Last => false,
        };
        self.says[next].iter().filter(is_untrue).count() as u64
    }

    /// How much more is not so once the order ends with that puzzle.
    pub(crate) fn n_untrue_at_end(&self, last: Option<usize>, is_placed: impl Fn(usize) -> bool) -> u64 {
        let n_of = |(at, says): (usize, &Vec<Says>)| {
            let has_place = is_placed(at);
            let is_untrue = |it: &&Says| match **it {
                _ if !has_place => true,
                Says::Last => last != Some(at),
                Says::Before(other, _) => !is_placed(other),
                _ => false,
            };
            says.iter().filter(is_untrue).count() as u64
        };
        self.says.iter().enumerate().filter(|it| !it.1.is_empty()).map(n_of).sum()
    }
}
