//! The places left for the two crusts of a line.

use std::sync::Arc;

use trail::Side;

/// Two places in a line, from 0, the left one (or upper one) first.
pub(crate) type Pair = (usize, usize);

/// The pairs of places left for a line's crusts, and what they mean for each place.
///
/// Sets of places are bit masks: bit 0 stands for the first place. Invariant: the masks say what the
/// pairs say.
#[derive(Clone, Debug)]
pub(crate) struct CrustPairs {
    /// How many places the line has.
    n: usize,
    pairs: Arc<[Pair]>,
    /// The places that some pair, and that every pair, puts a crust in.
    used: Quantified,
    /// The same for lying between the crusts, and for lying outside.
    between: Quantified,
    outside: Quantified,
    /// The fewest and the most cells that a pair has between; none without a pair.
    spread: Option<(usize, usize)>,
}

/// The places of which something holds in some pair, and in every pair.
#[derive(Clone, Copy, Debug)]
struct Quantified {
    some: u16,
    every: u16,
}

impl CrustPairs {
    /// Those pairs of a line of `n` places that `fits` lets through.
    pub(crate) fn new(n: usize, fits: impl Fn(Pair) -> bool) -> CrustPairs {
        CrustPairs::of(n, all_pairs(n).filter(|it| fits(*it)).collect())
    }

    /// Keeps those that `fits` lets through.
    pub(crate) fn retain(&mut self, fits: impl Fn(Pair) -> bool) {
        if !self.pairs.iter().all(|it| fits(*it)) {
            *self = CrustPairs::of(self.n, self.pairs.iter().copied().filter(|it| fits(*it)).collect());
        }
    }

    fn of(n: usize, pairs: Arc<[Pair]>) -> CrustPairs {
        let line = u16::MAX >> (16 - n);
        let every = if pairs.is_empty() { 0 } else { line };
        let mut sides = [Quantified { some: 0, every }; 3];
        for pair in &*pairs {
            let (ends, inside) = (ends(*pair), inside(*pair));
            for (side, places) in sides.iter_mut().zip([ends, inside, !(ends | inside)]) {
                side.some |= places & line;
                side.every &= places;
            }
        }
        let [used, between, outside] = sides;
        let counts = || pairs.iter().map(n_between);
        let spread = counts().min().zip(counts().max());
        CrustPairs { n, used, between, outside, spread, pairs }
    }

    /// The pairs, the leftmost first.
    pub(crate) fn pairs(&self) -> &[Pair] {
        &self.pairs
    }

    /// The fewest and the most cells that can lie between the crusts; none if there is no place for the crusts.
    pub(crate) fn spread(&self) -> Option<(usize, usize)> {
        self.spread
    }

    /// Whether some pair puts a crust there.
    pub(crate) fn may_be_crust(&self, at: usize) -> bool {
        self.used.some >> at & 1 == 1
    }

    /// Whether every pair puts a crust there; false if there is no pair.
    pub(crate) fn must_be_crust(&self, at: usize) -> bool {
        self.used.every >> at & 1 == 1
    }

    /// Whether some pair puts the place on that side.
    pub(crate) fn may_be(&self, side: Side, at: usize) -> bool {
        self.on(side).some >> at & 1 == 1
    }

    /// Whether every pair puts the place on that side; false if there is no pair.
    pub(crate) fn must_be(&self, side: Side, at: usize) -> bool {
        self.on(side).every >> at & 1 == 1
    }

    fn on(&self, side: Side) -> Quantified {
        match side {
            Side::Between => self.between,
            Side::Outside => self.outside,
        }
    }
}

/// Every pair of a line of `n` places, the leftmost first.
pub(crate) fn all_pairs(n: usize) -> impl Iterator<Item = Pair> {
    (0..n).flat_map(move |left| (left + 1..n).map(move |right| (left, right)))
}

/// The places where the pair puts the crusts.
fn ends((left, right): Pair) -> u16 {
    1 << left | 1 << right
}

/// The places between them.
fn inside((left, right): Pair) -> u16 {
    (1 << right) - (1 << (left + 1))
}

/// Whether the pair puts a crust there.
pub(crate) fn uses((left, right): Pair, at: usize) -> bool {
    left == at || right == at
}

/// Whether the pair puts the place on that side.
pub(crate) fn is_on(side: Side, (left, right): Pair, at: usize) -> bool {
    match side {
        Side::Between => left < at && at < right,
        Side::Outside => at < left || right < at,
    }
}

/// How many cells lie between the crusts.
pub(crate) fn n_between((left, right): &Pair) -> usize {
    right - left - 1
}
