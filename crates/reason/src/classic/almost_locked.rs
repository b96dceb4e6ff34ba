//! Almost locked sets: cells of a house that can hold only one digit more than they are, so they hold all of
//! these but one. Two such sets are joined by a digit that both of them cannot hold, as its places in the one
//! see its places in the other: so one of the two lacks the joint and holds all its other digits, and what
//! sees every place of a digit of both loses that digit. Joined by two digits, one set lacks the one
//! and one the other: then each holds all the rest of its digits.
//!
//! ```text
//! a{2 5} .      a{5 7} | . b{3 7} .          a and a hold two of 2, 5 and 7, b and b two of 2, 3 and 7:
//! .      .      .      | . .      .          7 is at one a or at one b, so the others have their 2
//! x      .      .      | . .      b{2 3}
//!                                            x sees the 2 of a and the 2 of b
//! ```
//!
//! A pair of cells with two digits and the cell of an XY-wing are such sets. Left out are sets of five cells and
//! more, seven cells and more in all, sets that overlap, and chains of three sets and more.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, Digit, DigitSet, House};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::each_choice;
use crate::{Technique, View};

/// The most cells of one set.
const MOST_CELLS: usize = 4;

/// The most cells of two sets.
const MOST_TOGETHER: usize = 6;

pub(crate) struct AlmostLocked;

impl Technique for AlmostLocked {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("almost-locked-sets") }
    }

    fn weight(&self) -> u32 {
        114
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("naked-triple"), TechniqueId::new("xyz-wing")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let sets = sets(view);
        let mut pairs = joined(view, &sets);
        pairs.sort_by_key(|it| it.sets[0].n_cells + it.sets[1].n_cells);
        // What smaller sets show is not said of larger ones, which would rest on more than they need.
        let mut said = BTreeSet::new();
        let mut found = Vec::new();
        for Pair { sets, lost } in pairs {
            let new: Vec<Lost> = lost.into_iter().filter(|it| said.insert((it.cell, it.digit))).collect();
            // Sets in one house are a naked pair, triple or quad.
            if !is_in_one_house(view, sets[0].cells | sets[1].cells) {
                // What another joint shows is another step.
                let by_joints = new.chunk_by(|a, b| a.joints == b.joints);
                found.extend(by_joints.filter_map(|lost| offer(view, self.id(), sets, lost)));
            }
        }
        found
    }
}

/// Cells of a house that can hold one digit more than they are.
struct Set {
    cells: CellSet,
    n_cells: usize,
    digits: DigitSet,
    /// By digit, from 0: the cells of the set that can hold it, and the cells that see all of these.
    places: [CellSet; 16],
    seers: [CellSet; 16],
}

impl Set {
    fn new(view: &View, cells: CellSet, digits: DigitSet) -> Set {
        let mut set = Set {
            cells,
            n_cells: cells.len(),
            digits,
            places: [CellSet::EMPTY; 16],
            seers: [CellSet::EMPTY; 16],
        };
        for digit in digits.iter() {
            let places = view.places_among(cells, digit);
            set.places[at(digit)] = places;
            let seers = places.iter().map(|it| view.peers(it)).reduce(|a, b| a & b);
            set.seers[at(digit)] = seers.unwrap_or(CellSet::EMPTY);
        }
        set
    }
}

fn at(digit: Digit) -> usize {
    usize::from(digit.get()) - 1
}

/// The almost locked sets, each once, in order of houses.
fn sets(view: &View) -> Vec<Set> {
    let mut found = Vec::new();
    let mut known = BTreeSet::new();
    for &house in view.houses() {
        let cells = view.cells_of(house).iter().copied();
        let open: Vec<Cell> = cells.filter(|it| view.digit(*it).is_none()).collect();
        let few: Vec<Cell> =
            open.into_iter().filter(|it| view.candidates(*it).len() <= MOST_CELLS + 1).collect();
        let of_each: Vec<u16> = few.iter().map(|it| view.candidates(*it).bits()).collect();
        for n in 1..=MOST_CELLS {
            each_choice(&of_each, n, n + 1, &mut |chosen| {
                let cells: CellSet = chosen.iter().map(|it| few[*it]).collect();
                let digits = chosen.iter().fold(0, |all, it| all | of_each[*it]);
                if known.insert(cells) {
                    found.push(Set::new(view, cells, DigitSet::from_bits(digits)));
                }
            });
        }
    }
    found
}

/// Two sets with what they show.
struct Pair<'s> {
    sets: [&'s Set; 2],
    lost: Vec<Lost>,
}

/// A digit that a cell loses.
struct Lost {
    cell: Cell,
    digit: Digit,
    /// The one or two digits that join the sets.
    joints: DigitSet,
    /// The sets whose places of the digit the cell sees: all, unless one is sure to hold it.
    seen: [bool; 2],
}

/// The pairs of sets that are joined and show something new.
fn joined<'s>(view: &View, sets: &'s [Set]) -> Vec<Pair<'s>> {
    let open: CellSet = view.open_cells().collect();
    let mut found = Vec::new();
    for (number, a) in sets.iter().enumerate() {
        for b in &sets[number + 1..] {
            let common = a.digits & b.digits;
            if common.len() < 2 || a.n_cells + b.n_cells > MOST_TOGETHER || !(a.cells & b.cells).is_empty() {
                continue;
            }
            let is_joint = |it: &Digit| a.places[at(*it)].is_subset(&b.seers[at(*it)]);
            let joints: Vec<Digit> = common.iter().filter(is_joint).collect();
            let lost = match joints[..] {
                [] => continue,
                [joint] => lost_by_one(view, [a, b], open, joint),
                [first, second, ..] => {
                    let mut lost = lost_by_one(view, [a, b], open, first);
                    lost.extend(
                        lost_by_one(view, [a, b], open, second).into_iter().filter(|it| it.digit == first),
                    );
                    lost.extend(lost_by_two(view, [a, b], open, DigitSet::only(first).with(second)));
                    lost
                }
            };
            if !lost.is_empty() {
                found.push(Pair { sets: [a, b], lost });
            }
        }
    }
    found
}

/// What sees a digit of both sets, other than their joint, in each.
fn lost_by_one(view: &View, [a, b]: [&Set; 2], open: CellSet, joint: Digit) -> Vec<Lost> {
    let of_digit = |digit: Digit| {
        let seers = a.seers[at(digit)] & b.seers[at(digit)] & open;
        let lost = view.places_among(seers, digit).iter();
        lost.map(move |cell| Lost { cell, digit, joints: DigitSet::only(joint), seen: [true; 2] })
    };
    (a.digits & b.digits).without(joint).iter().flat_map(of_digit).collect()
}

/// What sees a digit of one set that is not among its two joints.
fn lost_by_two(view: &View, sets: [&Set; 2], open: CellSet, joints: DigitSet) -> Vec<Lost> {
    let of_set = |(number, set): (usize, &Set)| {
        let seen = [number == 0, number == 1];
        let own = (set.digits - joints).iter().flat_map(|digit| {
            let lost = view.places_among(set.seers[at(digit)] & open, digit).iter();
            lost.map(move |cell| Lost { cell, digit, joints, seen })
        });
        own.collect::<Vec<_>>()
    };
    sets.into_iter().enumerate().flat_map(of_set).collect()
}

/// The step of digits that are lost by the same joints. None if something cannot be cited, which does
/// not happen.
fn offer(view: &View, technique: TechniqueId, sets: [&Set; 2], lost: &[Lost]) -> Option<Proposal> {
    let conclude = |it: &Lost| Some((Claim::IsNot(it.cell, it.digit), cites(view, sets, it)?));
    let joints = lost.first()?.joints;
    Some(Proposal {
        technique,
        argument: Argument::AlmostLocked { sets: sets.map(|it| (it.cells, it.digits)), joints },
        conclusions: lost.iter().map(conclude).collect::<Option<_>>()?,
    })
}

/// What the loss rests on, with as few houses as may be.
fn cites(view: &View, sets: [&Set; 2], lost: &Lost) -> Option<Cites> {
    let [of_a, of_b] = sets.map(|it| homes(view, it.cells));
    let homes = of_a.iter().flat_map(|a| of_b.iter().map(|b| [*a, *b]));
    let with_homes = homes.map(|homes| {
        let cites = homes.into_iter().flatten().fold(Cites::default(), Cites::house);
        with_sights(view, sets, lost, cites)
    });
    let mut cites = with_homes.min_by_key(|it| it.houses.len())?;
    let others = sets.into_iter().zip(lost.seen).flat_map(|(set, is_seen)| {
        // Where the joints and the digit lost can be matters; of the rest only that there is no more.
        let placed = if is_seen { lost.joints.with(lost.digit) } else { lost.joints };
        let none_of = view.size().digits() - (set.digits - placed);
        let others = move |cell| (none_of - view.candidates(cell)).iter().map(move |it| (cell, it));
        set.cells.iter().flat_map(others)
    });
    view.why_none(others, &mut cites).then_some(cites)
}

/// Adds why not both sets hold a joint, and why the cell sees what it has to.
fn with_sights(view: &View, sets: [&Set; 2], lost: &Lost, mut cites: Cites) -> Cites {
    let [a, b] = sets;
    for joint in lost.joints.iter() {
        for one in a.places[at(joint)].iter() {
            b.places[at(joint)].iter().for_each(|it| view.cite_sight(one, it, &mut cites));
        }
    }
    for set in sets.iter().zip(lost.seen).filter(|it| it.1).map(|it| it.0) {
        set.places[at(lost.digit)].iter().for_each(|it| view.cite_sight(lost.cell, it, &mut cites));
    }
    cites
}

/// The houses that hold all the cells; none is needed for a single one.
fn homes(view: &View, cells: CellSet) -> Vec<Option<House>> {
    match cells.first() {
        Some(first) if cells.len() > 1 => {
            let houses = view.size().houses_of(first).into_iter();
            houses.filter(|it| cells.is_subset(&view.members(*it))).map(Some).collect()
        }
        _ => vec![None],
    }
}

fn is_in_one_house(view: &View, cells: CellSet) -> bool {
    cells.first().is_some_and(|first| {
        view.size().houses_of(first).iter().any(|it| cells.is_subset(&view.members(*it)))
    })
}
