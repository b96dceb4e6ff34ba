//! Techniques of classic puzzles, one file each.

mod almost_locked;
mod chain;
mod crossing_lines;
mod crossing_with_spare;
mod equal_pairs;
mod followed;
mod hidden_single;
mod joined_pairs;
mod last_empty_cell;
mod line_and_box;
mod locked_candidates;
mod naked_single;
mod shared_cells;
mod shared_digits;
mod two_colours;
mod wing;

pub(crate) use almost_locked::AlmostLocked;
pub(crate) use chain::ClassicChain;
pub(crate) use crossing_lines::{JELLYFISH, SWORDFISH, X_WING};
pub(crate) use crossing_with_spare::{JELLYFISH_WITH_SPARE, SWORDFISH_WITH_SPARE, X_WING_WITH_SPARE};
pub(crate) use equal_pairs::EqualPairs;
pub(crate) use followed::{FOLLOWED, FollowedToAnEnd};
pub(crate) use hidden_single::HiddenSingle;
pub(crate) use joined_pairs::JoinedPairs;
pub(crate) use last_empty_cell::LastEmptyCell;
pub(crate) use line_and_box::LineAndBox;
pub(crate) use locked_candidates::LockedCandidates;
pub(crate) use naked_single::NakedSingle;
pub(crate) use shared_cells::{HIDDEN_PAIR, HIDDEN_QUAD, HIDDEN_TRIPLE};
pub(crate) use shared_digits::{NAKED_PAIR, NAKED_QUAD, NAKED_TRIPLE};
pub(crate) use two_colours::TwoColours;
pub(crate) use wing::{XY_WING, XYZ_WING};

use grid::{Cell, CellSet, Digit};
use rulebook::Claim;
use trail::Cites;

use crate::View;

/// Calls `visit` with every choice of `n` of the sets, bit masks, that have exactly `n` members between
/// them, in order.
fn each_crowd(sets: &[u16], n: usize, visit: &mut impl FnMut(&[usize])) {
    each_choice(sets, n, n, visit);
}

/// Calls `visit` with every choice of `n` of the sets, bit masks, that have exactly `n_members` members
/// between them, in order.
///
/// No smaller choice has only as many members as sets: it would be a step of its own, and the other sets
/// would be cited for nothing.
fn each_choice(sets: &[u16], n: usize, n_members: usize, visit: &mut impl FnMut(&[usize])) {
    struct Choice<'a, V> {
        sets: &'a [u16],
        n: usize,
        n_members: usize,
        visit: &'a mut V,
    }
    impl<V: FnMut(&[usize])> Choice<'_, V> {
        fn extend(&mut self, chosen: &mut Vec<usize>, all: u16) {
            if chosen.len() == self.n {
                let of_each: Vec<u16> = chosen.iter().map(|it| self.sets[*it]).collect();
                if all.count_ones() as usize == self.n_members && each_part_has_room(&of_each, 1) {
                    (self.visit)(chosen);
                }
                return;
            }
            for at in chosen.last().map_or(0, |it| it + 1)..self.sets.len() {
                let with = all | self.sets[at];
                if with.count_ones() as usize <= self.n_members {
                    chosen.push(at);
                    self.extend(chosen, with);
                    chosen.pop();
                }
            }
        }
    }
    Choice { sets, n, n_members, visit }.extend(&mut Vec::with_capacity(n), 0);
}

/// Whether every smaller choice of `k` of the sets, bit masks, has at least `k + room` members.
///
/// Where one has fewer, a smaller step says as much, and the rest of the sets would be cited for nothing.
fn each_part_has_room(sets: &[u16], room: usize) -> bool {
    (1..(1u32 << sets.len()) - 1).all(|part| {
        let chosen = (0..sets.len()).filter(|it| part >> it & 1 == 1);
        let members = chosen.fold(0, |all, it| all | sets[it]);
        members.count_ones() as usize >= part.count_ones() as usize + room
    })
}

/// Every two of the cells, in order.
fn each_pair(cells: &[Cell]) -> impl Iterator<Item = [Cell; 2]> {
    cells.iter().enumerate().flat_map(|(at, a)| cells[at + 1..].iter().map(|b| [*a, *b]))
}

/// That none of `lost` is the digit, as each of them sees all of `holders`, one of which is: `cites` says
/// why.
fn sights(view: &View, lost: &[Cell], holders: &[Cell], digit: Digit, cites: &Cites) -> Vec<(Claim, Cites)> {
    let conclude = |cell: &Cell| {
        let mut cites = cites.clone();
        holders.iter().for_each(|it| view.cite_sight(*cell, *it, &mut cites));
        (Claim::IsNot(*cell, digit), cites)
    };
    lost.iter().map(conclude).collect()
}

/// Which of a house's cells, counted from 0, are in the set: a bit mask.
fn places_of(house: &[Cell], cells: CellSet) -> u16 {
    house.iter().enumerate().filter(|it| cells.contains(*it.1)).fold(0, |mask, it| mask | 1 << it.0)
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_part_of_a_choice_may_be_crowded() {
        use super::each_part_has_room;
        let (loose, crowded) = ([0b0011, 0b0110, 0b0101], [0b0011, 0b0011, 0b0111]);
        assert!(each_part_has_room(&loose, 1) && !each_part_has_room(&crowded, 1));
        assert!(each_part_has_room(&crowded, 0) && !each_part_has_room(&[0b01, 0b01, 0b11], 0));
    }

    #[test]
    fn crowds_are_all_there_in_order() {
        let crowds = |sets: &[u16], n| {
            let mut seen = Vec::new();
            super::each_crowd(sets, n, &mut |it| seen.push(it.to_vec()));
            seen
        };
        let sets = [0b0011, 0b0110, 0b0011, 0b0101, 0b1110];
        assert_eq!(crowds(&sets, 2), [[0, 2]]);
        // The first and the third are a crowd by themselves.
        assert_eq!(crowds(&sets, 3), [[0, 1, 3], [1, 2, 3]]);
        assert_eq!(crowds(&[0b11], 2), [[0; 2]; 0]);
        let mut seen = Vec::new();
        super::each_choice(&sets, 2, 3, &mut |it| seen.push(it.to_vec()));
        assert_eq!(seen, [[0, 1], [0, 3], [1, 2], [1, 3], [1, 4], [2, 3]]);
    }
}
