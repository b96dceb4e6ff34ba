//! Sets of cells as bits, one for each cell in reading order.

/// A set of cells of a board with up to `64 * W` of them. `W` is a power of two.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Cells<const W: usize>([u64; W]);

impl<const W: usize> Cells<W> {
    /// No cell.
    pub(crate) const NONE: Cells<W> = Cells([0; W]);

    /// Adds a cell.
    #[inline(always)]
    pub(crate) fn insert(&mut self, cell: usize) {
        self.0[cell / 64 % W] |= 1 << (cell % 64);
    }

    /// Takes a cell out.
    #[inline(always)]
    pub(crate) fn remove(&mut self, cell: usize) {
        self.0[cell / 64 % W] &= !(1 << (cell % 64));
    }

    /// What both sets have.
    #[inline(always)]
    pub(crate) fn and(self, other: Cells<W>) -> Cells<W> {
        Cells(std::array::from_fn(|at| self.0[at] & other.0[at]))
    }

    /// What either set has.
    #[inline(always)]
    pub(crate) fn or(self, other: Cells<W>) -> Cells<W> {
        Cells(std::array::from_fn(|at| self.0[at] | other.0[at]))
    }

    /// What this set has and the other has not.
    #[inline(always)]
    pub(crate) fn without(self, other: Cells<W>) -> Cells<W> {
        Cells(std::array::from_fn(|at| self.0[at] & !other.0[at]))
    }

    /// Whether there is no cell.
    #[inline(always)]
    pub(crate) fn is_empty(self) -> bool {
        self.0.iter().fold(0, |all, it| all | it) == 0
    }

    /// The first cell.
    #[inline(always)]
    pub(crate) fn first(self) -> Option<usize> {
        let at = self.0.iter().position(|it| *it != 0)?;
        Some(64 * at + self.0[at].trailing_zeros() as usize)
    }

    /// Each cell, in order.
    #[inline(always)]
    pub(crate) fn iter(self) -> impl Iterator<Item = usize> {
        (0..W).flat_map(move |at| {
            let mut rest = self.0[at];
            std::iter::from_fn(move || {
                let bit = rest.trailing_zeros() as usize;
                let some = rest != 0;
                rest &= rest.wrapping_sub(1);
                some.then_some(64 * at + bit)
            })
        })
    }

    /// How many cells there are.
    #[inline]
    pub(crate) fn len(self) -> u32 {
        self.0.iter().map(|it| it.count_ones()).sum()
    }
}
