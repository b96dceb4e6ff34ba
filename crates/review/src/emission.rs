//! How likely a step makes a speaker say something, as a share of what is said.

use std::collections::BTreeMap;

use crate::heard::{House, Sign};
use crate::{Expected, Glossary};

/// How much of what is said while a step is spoken has nothing to do with it (tuned on invented talks).
const ANYTHING: f64 = 0.32;
/// How much likelier a digit that is placed, and a clue, are said than a number that is only mentioned.
const PLACED: f64 = 4.0;
const CLUE: f64 = 3.0;
/// How much more often something is heard with a step that is told by it.
const TELLING: f64 = 1.6;
/// How often the rules name each of the smallest and the largest digit.
const RULES: f64 = 0.12;

/// The shares of what is said, for each step and for talk about anything.
pub(crate) struct Emission {
    steps: Vec<Shares>,
    anything: Shares,
    n_cues: usize,
    side: u16,
    /// What is added so that nothing is impossible.
    floor: f64,
}

#[derive(Default)]
struct Shares {
    numbers: BTreeMap<u16, f64>,
    counts: BTreeMap<u16, f64>,
    /// The cues that point to the step.
    cues: Vec<usize>,
    houses: Vec<House>,
}

impl Shares {
    fn normal(mut self) -> Shares {
        for map in [&mut self.numbers, &mut self.counts] {
            let total: f64 = map.values().sum();
            map.values_mut().for_each(|it| *it /= total);
        }
        self
    }
}

impl Emission {
    pub(crate) fn new(expected: &Expected, glossary: &Glossary) -> Emission {
        let mut anything = Shares::default();
        let steps = expected.steps.iter().map(|step| {
            let mut it = Shares::default();
            let placed = step.places.iter().map(|it| (*it, PLACED));
            let clues = step.clues.iter().map(|it| (*it, CLUE));
            let named = step.names.iter().map(|it| (*it, 1.0));
            for (number, weight) in placed.chain(clues).chain(named) {
                *it.numbers.entry(number).or_default() += weight;
                *anything.numbers.entry(number).or_default() += weight;
            }
            for n in &step.counts {
                *it.counts.entry(*n).or_default() += 1.0;
                *anything.counts.entry(*n).or_default() += 1.0;
            }
            let points = |cue: &usize| glossary.cues[*cue].techniques.contains(&step.technique);
            it.cues = (0..glossary.cues.len()).filter(points).collect();
            it.houses.clone_from(&step.houses);
            it.normal()
        });
        let steps: Vec<Shares> = steps.collect();
        // Digits are also named for their own sake, and other clues looked at.
        for digit in 1..=expected.side {
            *anything.numbers.entry(digit).or_default() += 1.0;
        }
        for clue in &expected.clues {
            *anything.numbers.entry(*clue).or_default() += 0.5;
        }
        let total: f64 = anything.numbers.values().sum();
        Emission {
            steps,
            anything: anything.normal(),
            n_cues: glossary.cues.len().max(1),
            side: expected.side,
            floor: 0.5 / (total + 100.0),
        }
    }

    /// How likely it is heard while that step is spoken.
    pub(crate) fn of(&self, step: usize, sign: &Sign) -> f64 {
        let own = match sign {
            Sign::Number(value, run) => self.number(&self.steps[step], *value, run.as_deref()),
            Sign::Count(n) => share(&self.steps[step].counts, *n),
            Sign::Cue(it) => {
                let cues = &self.steps[step].cues;
                if cues.contains(it) { 1.0 / cues.len() as f64 } else { 0.0 }
            }
            Sign::House(it) => {
                let houses = &self.steps[step].houses;
                if houses.contains(it) { 1.0 / houses.len() as f64 } else { 0.0 }
            }
        };
        (1.0 - ANYTHING) * own + ANYTHING * self.of_anything(sign)
    }

    /// Whether it tells the step from others: it is heard there far more often than elsewhere.
    pub(crate) fn tells(&self, step: usize, sign: &Sign) -> bool {
        self.of(step, sign) >= TELLING * self.of_anything(sign)
    }

    /// How likely it is heard in talk about anything.
    pub(crate) fn of_anything(&self, sign: &Sign) -> f64 {
        let own = match sign {
            Sign::Number(value, run) => self.number(&self.anything, *value, run.as_deref()),
            Sign::Count(n) => share(&self.anything.counts, *n),
            Sign::Cue(_) => 1.0 / self.n_cues as f64,
            Sign::House(_) => 1.0 / 3.0,
        };
        own + self.floor
    }

    /// How likely it is heard while the rules are told, which speak of the smallest digit and the largest.
    pub(crate) fn of_opening(&self, sign: &Sign) -> f64 {
        let is_end = |it: &u16| *it == 1 || *it == self.side;
        let is_rule = match sign {
            Sign::Number(value, run) => is_end(value) || run.as_ref().is_some_and(|it| it.iter().all(is_end)),
            Sign::Count(_) | Sign::Cue(_) | Sign::House(_) => false,
        };
        self.of_anything(sign).max(if is_rule { RULES } else { 0.0 })
    }

    /// A number or, if that is likelier, digits run together.
    fn number(&self, shares: &Shares, value: u16, run: Option<&[u16]>) -> f64 {
        let whole = share(&shares.numbers, value);
        let each = run.map_or(0.0, |run| {
            let product: f64 = run.iter().map(|it| share(&shares.numbers, *it) + self.floor).product();
            product.powf(1.0 / run.len() as f64)
        });
        whole.max(each)
    }
}

fn share(map: &BTreeMap<u16, f64>, it: u16) -> f64 {
    map.get(&it).copied().unwrap_or(0.0)
}
