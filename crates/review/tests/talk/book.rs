//! What a phrase book has to have. Phrases hold places for what they are about: `{d}` a digit, `{c}` a clue, `{h}` row,
//! column or box, `{s}` some digits, `{t}` their sum, `{n}` and `{m}` numbers of cells, `{r}` what is left.

/// Phrases by what they are for.
#[derive(Debug)]
pub(crate) struct Book {
    pub(crate) opening: &'static [&'static str],
    pub(crate) closing: &'static [&'static str],
    pub(crate) fillers: &'static [&'static str],
    pub(crate) chatter: &'static [&'static str],
    /// A digit has one place in a house.
    pub(crate) one_place: &'static [&'static str],
    /// A cell has one digit.
    pub(crate) one_digit: &'static [&'static str],
    pub(crate) last_cell: &'static [&'static str],
    /// The last cell of a sum, with and without other digits in it.
    pub(crate) remainder: &'static [&'static str],
    pub(crate) whole: &'static [&'static str],
    /// What is said before the sum of an outside.
    pub(crate) outside: &'static [&'static str],
    pub(crate) too_few: &'static [&'static str],
    pub(crate) too_many: &'static [&'static str],
    pub(crate) distance: &'static [&'static str],
    pub(crate) touch: &'static [&'static str],
    pub(crate) ends: &'static [&'static str],
    pub(crate) reach: &'static [&'static str],
    pub(crate) crusts: &'static [&'static str],
    pub(crate) no_crust: &'static [&'static str],
    pub(crate) combos: &'static [&'static str],
    pub(crate) each_combo: &'static [&'static str],
    pub(crate) gone: &'static [&'static str],
    pub(crate) placed: &'static [&'static str],
    pub(crate) pair: &'static [&'static str],
    /// Sums said in words, with `{s}` and `{t}`.
    pub(crate) sums: &'static [&'static str],
    pub(crate) differences: &'static [&'static str],
    /// Bounds of `{n}` cells: `{t}` is the most, or the least.
    pub(crate) most: &'static [&'static str],
    pub(crate) least: &'static [&'static str],
    /// Bounds of the cells of a sum.
    pub(crate) fewest_cells: &'static [&'static str],
    pub(crate) most_cells: &'static [&'static str],
    /// Another clue is looked at, and nothing comes of it.
    pub(crate) elsewhere: &'static [&'static str],
    pub(crate) withdrawn: &'static [&'static str],
    /// Between something wrong and what is right.
    pub(crate) corrections: &'static [&'static str],
    /// Sounds like a sum and is none, or supposes one.
    pub(crate) no_sums: &'static [&'static str],
}
