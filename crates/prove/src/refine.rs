//! The canonical form of a grid under all symmetries of the classic rule.
//!
//! There are millions of ways to put the rows and columns of a 9x9 grid, so they are not tried. Rows,
//! columns, bands, stacks and digits get colours instead, at first by what they are. What sees different colours
//! gets different colours, until nothing changes; where some still share one, each of them in turn is given
//! a colour of its own, and of these states only those are followed that look the same as the best. That is how
//! graphs are brought to a canonical form (B. McKay, Practical graph isomorphism, Congressus Numerantium 30,
//! 1981). When each colour is had by one, colours are places.

use std::collections::BTreeMap;

use grid::{Digit, Grid, Size};

use crate::{Limit, stop};

/// One grid for all that can be turned into each other; none if the limit of states is reached first, or the
/// caller wants no more.
pub(crate) fn canonical(grid: &Grid, limit: Limit) -> Option<Grid> {
    let size = grid.size();
    let is_square = size.box_width() == size.box_height();
    let boards: Vec<Board> =
        [false, true].into_iter().filter(|it| is_square || !it).map(|it| Board::new(grid, it)).collect();
    let mut n_left = limit.0;
    let mut states = Vec::new();
    for board in &boards {
        states.push(State::new(board, board.kinds(), &mut n_left)?);
    }
    loop {
        keep_best(&mut states);
        if states.first()?.is_discrete() {
            return states.iter().map(State::arranged).min();
        }
        let mut next = Vec::new();
        for state in &states {
            for one in state.alternatives() {
                next.push(State::new(state.board, state.singled_out(one), &mut n_left)?);
            }
        }
        states = next;
    }
}

/// Those that look alike, and come first.
fn keep_best(states: &mut Vec<State>) {
    if let Some(best) = states.iter().map(|it| it.look).min() {
        states.retain(|it| it.look == best);
    }
}

/// A grid as relations between rows, columns, bands, stacks and digits, all numbered in this order.
struct Board {
    size: Size,
    /// Row, column and digit of each given.
    givens: Vec<[usize; 3]>,
    /// A row or column, and the band or stack it lies in.
    within: Vec<[usize; 2]>,
    /// How many there are of each kind.
    kinds: [usize; 5],
}

/// The board with colours that nothing more can tell apart.
struct State<'a> {
    board: &'a Board,
    colors: Vec<usize>,
    n_colors: usize,
    /// A number that is the same for all states that can be turned into each other.
    look: (std::cmp::Reverse<usize>, u64),
}

impl Board {
    fn new(grid: &Grid, transposed: bool) -> Board {
        let size = grid.size();
        let side = usize::from(size.side());
        let (height, width) = (usize::from(size.box_height()), usize::from(size.box_width()));
        let kinds = [side, side, side / height, side / width, side];
        let digits = kinds[..4].iter().sum::<usize>();
        let given = |(cell, digit): (grid::Cell, Digit)| {
            let (row, column) = (usize::from(cell.row() - 1), usize::from(cell.column() - 1));
            let (row, column) = if transposed { (column, row) } else { (row, column) };
            [row, side + column, digits + usize::from(digit.get() - 1)]
        };
        let rows = (0..side).map(|it| [it, 2 * side + it / height]);
        let columns = (0..side).map(|it| [side + it, 2 * side + side / height + it / width]);
        Board {
            size,
            givens: grid.filled().map(given).collect(),
            within: rows.chain(columns).collect(),
            kinds,
        }
    }

    /// A colour for each kind.
    fn kinds(&self) -> Vec<usize> {
        self.kinds.iter().enumerate().flat_map(|(kind, n)| std::iter::repeat_n(kind, *n)).collect()
    }

    /// For each, whether it has no given. Two such of one colour can change places without a trace, if they
    /// lie in the same band or stack, or in such as have no given either.
    fn blanks(&self) -> Vec<bool> {
        let mut is_blank = vec![true; self.kinds.iter().sum()];
        for it in self.givens.iter().flatten() {
            is_blank[*it] = false;
        }
        for [line, whole] in &self.within {
            is_blank[*whole] &= is_blank[*line];
        }
        is_blank
    }
}

impl<'a> State<'a> {
    /// Tells apart all that sees different colours.
    fn new(board: &'a Board, mut colors: Vec<usize>, n_left: &mut u64) -> Option<State<'a>> {
        *n_left = n_left.checked_sub(1)?;
        if stop::is_asked() {
            return None;
        }
        let mut n_colors = colors.iter().collect::<std::collections::BTreeSet<_>>().len();
        let mut look = 0;
        loop {
            let seen = board.seen(&colors);
            let mut order: Vec<usize> = (0..colors.len()).collect();
            order.sort_by_key(|it| (colors[*it], seen[*it]));
            let mut next = vec![0; colors.len()];
            let mut color = 0;
            for pair in 0..order.len() {
                let (this, before) = (order[pair], order[pair.saturating_sub(1)]);
                color += usize::from((colors[this], seen[this]) != (colors[before], seen[before]));
                next[this] = color;
                look = mixed(&[look, color as u64, seen[this]]);
            }
            colors = next;
            if color + 1 == n_colors {
                break;
            }
            n_colors = color + 1;
        }
        Some(State { board, colors, n_colors, look: (std::cmp::Reverse(n_colors), look) })
    }

    fn is_discrete(&self) -> bool {
        self.n_colors == self.colors.len()
    }

    /// Of the largest set of one colour, those that are to be told apart from the others in turn.
    fn alternatives(&self) -> Vec<usize> {
        let mut sets: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (it, color) in self.colors.iter().enumerate() {
            sets.entry(*color).or_default().push(it);
        }
        let open = sets.into_values().filter(|it| it.len() > 1);
        // The largest set says the most (tried: with the smallest, full 9x9 grids take a hundred times as
        // long); bands and stacks say little, and are told apart by their rows and columns soon. Among
        // equals the first counts: `min_by_key` keeps it.
        let is_whole = |it: usize| self.board.within.iter().any(|[_, whole]| *whole == it);
        let set = open.min_by_key(|it| (is_whole(it[0]), std::cmp::Reverse(it.len()))).unwrap_or_default();
        let is_blank = self.board.blanks();
        let whole = |it: usize| self.board.within.iter().find(|[line, _]| *line == it).map(|it| it[1]);
        let can_move = |a: Option<usize>, b| a == b || [a, b].into_iter().flatten().all(|it| is_blank[it]);
        let like = |a: usize, b: usize| is_blank[a] && is_blank[b] && can_move(whole(a), whole(b));
        let mut alternatives: Vec<usize> = Vec::new();
        for it in set {
            if !alternatives.iter().any(|other| like(*other, it)) {
                alternatives.push(it);
            }
        }
        alternatives
    }

    /// The colours with one told apart from the others of its colour.
    fn singled_out(&self, one: usize) -> Vec<usize> {
        let color = |(it, color): (usize, &usize)| 2 * color + usize::from(it != one);
        self.colors.iter().enumerate().map(color).collect()
    }

    /// The grid in which bands, stacks, rows, columns and digits stand in the order of their colours.
    fn arranged(&self) -> Grid {
        let size = self.board.size;
        let side = usize::from(size.side());
        let places = |lines: std::ops::Range<usize>| {
            let mut order: Vec<[usize; 2]> = self.board.within[lines].to_vec();
            order.sort_by_key(|[line, whole]| (self.colors[*whole], self.colors[*line]));
            let mut places = vec![0; 2 * side];
            order.iter().enumerate().for_each(|(place, [line, _])| places[*line] = place);
            places
        };
        let (rows, columns) = (places(0..side), places(side..2 * side));
        let first_digit = self.colors.len() - side;
        let rank =
            |digit: usize| self.colors[first_digit..].iter().filter(|it| **it < self.colors[digit]).count();
        self.board.givens.iter().fold(Grid::empty(size), |grid, [row, column, digit]| {
            // Numbers below 16, so they fit.
            let at = size.cell(rows[*row] as u8 + 1, columns[*column] as u8 + 1);
            let digit = size.digit(rank(*digit) as u8 + 1);
            at.map_or(grid.clone(), |at| grid.with(at, digit))
        })
    }
}

impl Board {
    /// For each, the colours that it sees, as a number that does not depend on their order.
    fn seen(&self, colors: &[usize]) -> Vec<u64> {
        let color = |it: usize| colors[it] as u64;
        let mut seen = vec![0u64; colors.len()];
        let mut see = |at: usize, what: &[u64]| seen[at] = seen[at].wrapping_add(mixed(what));
        for &[row, column, digit] in &self.givens {
            see(row, &[1, color(column), color(digit)]);
            see(column, &[2, color(row), color(digit)]);
            see(digit, &[3, color(row), color(column)]);
        }
        for &[line, whole] in &self.within {
            see(line, &[4, color(whole)]);
            see(whole, &[5, color(line)]);
        }
        seen
    }
}

/// Numbers stirred into one. Two that come out alike by chance are told apart later than they could be, and
/// that is all: what is compared in the end are grids.
fn mixed(numbers: &[u64]) -> u64 {
    numbers.iter().fold(0x9E37_79B9_7F4A_7C15, |sum, it| {
        let it = (sum ^ it).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let it = (it ^ (it >> 29)).wrapping_mul(0x94D0_49BB_1331_11EB);
        it ^ (it >> 32)
    })
}
