//! What was to be said: the walkthrough as far as talk can be held against it.

use std::collections::BTreeSet;

use captions::{Caption, Time};
use rulebook::{Claim, Puzzle, crusts};
use tell::Voice;
use trail::{Cites, StepId, Trail, Walkthrough};

use crate::heard::{House, house};
use crate::tokens::{Kind, tokens};
use crate::words::words;

/// The script of a puzzle, in order, and when its steps were reached if that was logged.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Expected {
    /// The number of rows: digits go from 1 to it.
    pub side: u16,
    /// Every clue's value.
    pub clues: Vec<u16>,
    /// The steps.
    pub steps: Vec<ExpectedStep>,
    /// When steps were reached, by their places in `steps`, in order of time; may be empty.
    pub log: Vec<(Time, usize)>,
}

/// One step of it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ExpectedStep {
    /// The number that people read.
    pub number: usize,
    /// The title of its passage.
    pub passage: String,
    /// The technique's id.
    pub technique: String,
    /// The technique's name.
    pub name: String,
    /// The values of the clues it uses.
    pub clues: Vec<u16>,
    /// The digits it places, in order.
    pub places: Vec<u16>,
    /// The digits and sums it speaks of besides, in the order in which it does.
    pub names: Vec<u16>,
    /// How many cells and the like it speaks of.
    pub counts: Vec<u16>,
    /// The kinds of houses that it speaks of.
    pub houses: Vec<House>,
    /// The whole step as it was to be said.
    pub says: String,
}

impl Expected {
    /// The script of a walkthrough, without a log.
    pub fn of(puzzle: &Puzzle, walkthrough: &Walkthrough) -> Expected {
        let titles = tell::passage_titles_in(Voice::Spoken, puzzle, walkthrough);
        let passages = walkthrough.passages().iter().zip(titles);
        let steps = passages.flat_map(|(passage, title)| {
            passage.steps.iter().map(move |it| step(puzzle, walkthrough.trail(), *it, &title))
        });
        Expected {
            side: u16::from(puzzle.size().side()),
            clues: puzzle.clues().iter().map(|it| it.value).collect(),
            steps: steps.collect(),
            log: Vec::new(),
        }
    }

    /// The steps at which a passage begins.
    pub(crate) fn begins_passage(&self, step: usize) -> bool {
        step == 0 || self.steps[step - 1].passage != self.steps[step].passage
    }
}

fn step(puzzle: &Puzzle, trail: &Trail, id: StepId, title: &str) -> ExpectedStep {
    let step = trail.step(id);
    let says = tell::says_in(Voice::Spoken, puzzle, trail, id);
    let mut cited = Cites::default();
    let mut places = Vec::new();
    let mut speaks_of_crusts = false;
    for it in step.concludes() {
        let fact = trail.fact(*it);
        if let Some(cites) = fact.cites() {
            cited.merge(cites);
        }
        match fact.claim() {
            Claim::Is(_, digit) => places.push(u16::from(digit.get())),
            Claim::Crust(_) | Claim::CrustAmong { .. } => speaks_of_crusts = true,
            _ => {}
        }
    }
    let clues: BTreeSet<u16> =
        cited.clues.iter().filter_map(|it| puzzle.clue(*it)).map(|it| it.value).collect();
    let (mut names, counts, houses) = told(&says);
    // Who speaks of crusts says "a one or a nine" where we say "a crust".
    if speaks_of_crusts && !names.contains(&1) {
        let (one, last) = crusts(puzzle.size());
        names.extend([one, last].map(|it| u16::from(it.get())));
    }
    ExpectedStep {
        number: id.number(),
        passage: title.to_owned(),
        technique: step.technique().name().to_owned(),
        name: tell::technique_name(step.technique()).to_owned(),
        clues: clues.into_iter().collect(),
        places,
        names,
        counts,
        houses,
        says,
    }
}

/// The digits and sums of a text, its counts, and the kinds of houses.
fn told(text: &str) -> (Vec<u16>, Vec<u16>, Vec<House>) {
    let caption = Caption { from: Time(0), to: Time(1), text: text.to_owned() };
    let (mut names, mut counts) = (Vec::new(), Vec::new());
    let tokens = tokens(&words(&[caption]));
    let houses: BTreeSet<House> = (0..tokens.len()).filter_map(|it| house(&tokens, it)).collect();
    for it in tokens {
        match it.is {
            Kind::Number { value, .. } => names.push(value),
            Kind::Count(n, _) => counts.push(n),
            Kind::Place | Kind::Word(_) => {}
        }
    }
    (names, counts, houses.into_iter().collect())
}
