//! What clues demand of a line, in the forms that the search computes with. Worked out once for each
//! size, rule and value, and kept.

use grid::{Cell, HouseKind, Size};
use rulebook::{Between, Clue, Rule, RuleId};

use crate::compile::Mask;
use crate::lanes::Lanes;
use crate::lines::{Choices, N_CHOICES, Pair, all_pairs};

/// What a clue of one rule and value demands of a line, wherever it stands.
#[expect(clippy::large_enum_variant, reason = "all conditions but those of tests are in closed form")]
pub(crate) enum Condition<const L: usize> {
    /// In closed form.
    Slices(Slices<L>),
    /// As a list of all ways, for rules that have no closed form.
    Listed(Vec<Lanes<L>>),
}

/// Which digits may stand between two end digits, and so how far apart these may stand.
pub(crate) struct Slices<const L: usize> {
    /// The two end digits, counted from 0.
    pub(crate) ends: [usize; 2],
    /// All other digits.
    pub(crate) filling: Mask,
    /// The choices there are: by their number in `written`, or in [`all_pairs`] where nothing is written.
    pub(crate) choices: Choices,
    /// Each two places with each set that may lie between them; nothing if these are too many.
    pub(crate) written: Vec<Written<L>>,
    /// For each place, the choices written out in which no end stands there.
    pub(crate) without_end_at: [Choices; 16],
    /// For each distance, where its sets begin in the list; one more entry says where the last ends.
    starts: [u16; 18],
    sets: Vec<Mask>,
}

/// Two places for the ends and a set between them, written out cell by cell.
pub(crate) struct Written<const L: usize> {
    /// The first place.
    pub(crate) left: u8,
    /// The second.
    pub(crate) right: u8,
    /// What each cell may hold: both end digits in the two places.
    pub(crate) digits: Lanes<L>,
}

impl<const L: usize> Slices<L> {
    /// What a rule's form demands, with its choices written out if there are no more than so many.
    pub(crate) fn new(size: Size, form: &Between, n_few: usize) -> Slices<L> {
        let ends = [form.ends.0, form.ends.1].map(|it| usize::from(it.get() - 1));
        let filling = ends.iter().fold(size.digits().bits(), |all, it| all & !(1 << it));
        let mut sets: Vec<Mask> = form.sets.iter().map(|it| it.bits()).collect();
        sets.sort_by_key(|it| it.count_ones());
        let mut starts = [0; 18];
        for (distance, start) in starts.iter_mut().enumerate() {
            // As many digits lie between the ends as they stand apart, less one. At most 16,384 sets.
            *start = sets.partition_point(|it| (it.count_ones() as usize) + 1 < distance) as u16;
        }
        let mut it = Slices {
            ends,
            filling,
            choices: [0; 2],
            written: Vec::new(),
            without_end_at: [[!0; 2]; 16],
            starts,
            sets,
        };
        let side = usize::from(size.side());
        let pairs = all_pairs::<L>(side);
        let n_sets = |pair: &Pair<L>| it.at_distance(usize::from(pair.right - pair.left)).len();
        if pairs.iter().map(n_sets).sum::<usize>() <= n_few {
            it.written = pairs.iter().flat_map(|pair| it.written_out(pair, side)).collect();
            for (at, choice) in it.written.iter().enumerate() {
                let (word, bit) = (at / 64, 1 << (at % 64));
                it.choices[word] |= bit;
                for place in [choice.left, choice.right] {
                    it.without_end_at[usize::from(place)][word] ^= bit;
                }
            }
        } else {
            let possible = pairs.iter().enumerate().filter(|(_, pair)| n_sets(pair) > 0);
            let choices = possible.fold([0; 2], |mut choices: Choices, (at, _)| {
                choices[at / 64] |= 1 << (at % 64);
                choices
            });
            it.choices = choices;
        }
        it
    }

    /// Two places with each set that may lie between them.
    fn written_out(&self, pair: &Pair<L>, side: usize) -> Vec<Written<L>> {
        let (left, right) = (usize::from(pair.left), usize::from(pair.right));
        let in_place = |set: Mask, place: usize| match place {
            _ if place == left || place == right => self.ends.iter().fold(0, |both, it| both | 1 << it),
            _ if left < place && place < right => set,
            _ => self.filling & !set,
        };
        let sets = self.at_distance(right - left).iter();
        sets.map(|set| Written {
            left: pair.left,
            right: pair.right,
            digits: Lanes::of((0..side).map(|place| in_place(*set, place))),
        })
        .collect()
    }

    /// The sets that may stand between ends so many places apart.
    #[inline(always)]
    pub(crate) fn at_distance(&self, distance: usize) -> &[Mask] {
        &self.sets[usize::from(self.starts[distance])..usize::from(self.starts[distance + 1])]
    }
}

/// The conditions met so far on one size.
pub(crate) struct Conditions<const L: usize> {
    size: Size,
    known: Vec<Condition<L>>,
    /// For each rule, where the condition of each value stands in `known`, if it has been met.
    places: Vec<(RuleId, Vec<Option<u32>>)>,
}

impl<const L: usize> Conditions<L> {
    /// None yet.
    pub(crate) fn new(size: Size) -> Conditions<L> {
        Conditions { size, known: Vec::new(), places: Vec::new() }
    }

    /// The condition that stands at a place.
    #[inline(always)]
    pub(crate) fn get(&self, place: usize) -> &Condition<L> {
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

fn condition<const L: usize>(size: Size, clue: &Clue) -> Condition<L> {
    match clue.rule.between(size, clue.value) {
        Some(form) => Condition::Slices(Slices::new(size, &form, N_CHOICES)),
        None => Condition::Listed(lanes_of(size, clue.rule, clue.value)),
    }
}

/// All ways of a clue, one lane for each cell of its line. Clues of one rule and value have the same
/// lanes wherever they stand, so the first row serves for all.
fn lanes_of<const L: usize>(size: Size, rule: &'static dyn Rule, value: u16) -> Vec<Lanes<L>> {
    let Some(line) = size.house(HouseKind::Row, 1) else { return Vec::new() };
    let ways = rule.ways(size, &Clue { rule, line, value });
    let cells = size.cells_of(line);
    let lane_of = |cell: &Cell| cells.iter().position(|it| it == cell);
    debug_assert!(ways.cells().iter().all(|it| lane_of(it).is_some()), "a clue speaks of its own line");
    ways.iter()
        .map(|way| {
            // A cell that the ways do not speak of can hold anything.
            let mut masks = [0; 16];
            masks[..cells.len()].fill(size.digits().bits());
            for (cell, digits) in ways.cells().iter().zip(way) {
                if let Some(lane) = lane_of(cell) {
                    masks[lane] = digits.bits();
                }
            }
            Lanes::of(masks)
        })
        .collect()
}
