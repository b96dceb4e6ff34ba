//! What clues demand of a line, in the forms that the search computes with. Worked out once for each
//! size, rule and value, and kept.

use grid::{HouseKind, Size};
use rulebook::{Between, Clue, Rule, RuleId};

use crate::compile::{Lanes, Mask};

/// What a clue of one rule and value demands of a line, wherever it stands.
pub(crate) enum Condition {
    /// In closed form.
    Slices(Slices),
    /// As a list of all ways, for rules that have no closed form.
    Listed(Vec<Lanes>),
}

/// Which digits may stand between two end digits, and so how far apart these may stand.
pub(crate) struct Slices {
    /// The two end digits, one bit each.
    pub(crate) ends: (Mask, Mask),
    /// All other digits.
    pub(crate) filling: Mask,
    /// Bit `d` says whether the ends may stand `d` places apart.
    pub(crate) distances: u32,
    /// For each distance, where its sets begin in the list; one more entry says where the last ends.
    starts: [u16; 18],
    sets: Vec<Mask>,
}

impl Slices {
    fn new(size: Size, form: &Between) -> Slices {
        let bit = |digit: grid::Digit| 1 << (digit.get() - 1);
        let ends = (bit(form.ends.0), bit(form.ends.1));
        let mut sets: Vec<Mask> = form.sets.iter().map(|it| it.bits()).collect();
        sets.sort_by_key(|it| it.count_ones());
        let mut starts = [0; 18];
        for (distance, start) in starts.iter_mut().enumerate() {
            // As many digits lie between the ends as they stand apart, less one. At most 16,384 sets.
            *start = sets.partition_point(|it| (it.count_ones() as usize) + 1 < distance) as u16;
        }
        let distances = sets.iter().fold(0, |all, it| all | 1 << (it.count_ones() + 1));
        Slices { ends, filling: size.digits().bits() & !ends.0 & !ends.1, distances, starts, sets }
    }

    /// The sets that may stand between ends so many places apart.
    #[inline(always)]
    pub(crate) fn at_distance(&self, distance: usize) -> &[Mask] {
        &self.sets[usize::from(self.starts[distance])..usize::from(self.starts[distance + 1])]
    }
}

/// The conditions met so far on one size.
pub(crate) struct Conditions {
    size: Size,
    known: Vec<Condition>,
    /// For each rule, where the condition of each value stands in `known`, if it has been met.
    places: Vec<(RuleId, Vec<Option<u32>>)>,
}

impl Conditions {
    /// None yet.
    pub(crate) fn new(size: Size) -> Conditions {
        Conditions { size, known: Vec::new(), places: Vec::new() }
    }

    /// The condition that stands at a place.
    #[inline(always)]
    pub(crate) fn get(&self, place: usize) -> &Condition {
        &self.known[place]
    }

    /// The place of a clue's condition, which is worked out if it is new.
    pub(crate) fn place_of(&mut self, clue: &Clue) -> usize {
        let rule = clue.rule.id();
        let rule_at = self.places.iter().position(|it| it.0 == rule).unwrap_or_else(|| {
            self.places.push((rule, Vec::new()));
            self.places.len() - 1
        });
        let places = &mut self.places[rule_at].1;
        let value = usize::from(clue.value);
        if places.len() <= value {
            places.resize(value + 1, None);
        }
        let place = *places[value].get_or_insert_with(|| {
            self.known.push(condition(self.size, clue));
            self.known.len() as u32 - 1
        });
        place as usize
    }
}

fn condition(size: Size, clue: &Clue) -> Condition {
    match clue.rule.between(size, clue.value) {
        Some(form) => Condition::Slices(Slices::new(size, &form)),
        None => Condition::Listed(lanes_of(size, clue.rule, clue.value)),
    }
}

/// All ways of a clue, one lane for each cell of its line. Clues of one rule and value have the same
/// lanes wherever they stand, so the first row serves for all.
fn lanes_of(size: Size, rule: &'static dyn Rule, value: u16) -> Vec<Lanes> {
    let Some(line) = size.house(HouseKind::Row, 1) else { return Vec::new() };
    let ways = rule.ways(size, &Clue { rule, line, value });
    let cells = size.cells_of(line);
    let lane_of = |cell| cells.iter().position(|it| it == cell);
    debug_assert!(ways.cells().iter().all(|it| lane_of(it).is_some()), "a clue speaks of its own line");
    // A cell that the ways do not speak of can hold anything.
    let mut anything = [0; 16];
    anything[..cells.len()].fill(size.digits().bits());
    let lanes: Vec<Option<usize>> = ways.cells().iter().map(lane_of).collect();
    ways.iter()
        .map(|way| {
            let mut it = anything;
            for (lane, digits) in lanes.iter().zip(way) {
                if let Some(lane) = lane {
                    it[*lane] = digits.bits();
                }
            }
            it
        })
        .collect()
}
