//! The likeliest way of a talk through the steps, and how likely each moment of it is.
//!
//! A hidden Markov model. Hidden is what is being spoken of: the opening, a step, or the close. After everything heard
//! the speaker stays, goes on to the next step, leaves some out, or jumps anywhere, rather to where a passage begins. A
//! step that places digits has parts: what leads up to them, a digit of them, and what is said after; it is hardly left
//! before such a digit is said. The numbers were tuned on invented talks (`docs/performance.md`).

use crate::emission::Emission;
use crate::heard::Heard;
use crate::{Expected, ExpectedStep};

/// Of going on: how often one step is left out, or two, or three.
const LEFT_OUT: [f64; 3] = [0.05, 0.012, 0.004];
/// Of all moves: how often anything else is spoken of next.
const JUMPS: f64 = 0.006;
/// How much rather a jump goes to the beginning of a passage.
const PASSAGE: f64 = 5.0;
/// How often the opening, once begun, ends with what is heard next.
const OPENING_ENDS: f64 = 0.15;
/// How much less is said at the close than the model would have it, which knows of no end.
const CLOSE_IS_RARE: f64 = 0.3;
/// The same of the opening.
const OPENING_IS_SHORT: f64 = 0.5;

/// How often a step that places digits begins with one of them.
const DIGIT_FIRST: f64 = 0.5;
/// How often such a step is left without any being said.
const NO_DIGIT: f64 = 0.04;
/// After such a digit: how often it is said once more at once, and how often anything else of the step follows.
const DIGIT_AGAIN: f64 = 0.25;
const MORE_SAID: f64 = 0.2;

/// What is spoken of: the steps by their places, then the opening, then the close.
pub(crate) struct Path {
    /// What is likeliest spoken of at each thing heard, on the likeliest way as a whole.
    pub(crate) best: Vec<usize>,
    /// How likely each is spoken of at each thing heard.
    likely: Vec<f32>,
    n_subjects: usize,
    /// How likely all that is heard is, as a logarithm.
    pub(crate) fits: f64,
}

impl Path {
    /// How likely that is spoken of at that thing heard.
    pub(crate) fn likely(&self, heard: usize, subject: usize) -> f64 {
        f64::from(self.likely[heard * self.n_subjects + subject])
    }
}

/// Which part of a step is spoken.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    /// All of it, if it places no digit.
    Whole,
    /// What leads up to the digits.
    Before,
    /// A digit that it places.
    Digit,
    /// What is said after one.
    After,
}

/// The states and the moves between them.
struct Moves {
    n_steps: usize,
    /// What each state speaks of, and which part of it.
    states: Vec<(usize, Part)>,
    /// Every way into a state other than by a jump: from where, and how likely it is.
    ways: Vec<Vec<(usize, f64)>>,
    /// Where jumps go, as shares.
    jumps_to: Vec<f64>,
}

impl Moves {
    fn new(expected: &Expected) -> Moves {
        let n_steps = expected.steps.len();
        let (opening, close) = (n_steps, n_steps + 1);
        let parts = |it: usize| match expected.steps.get(it) {
            Some(step) if !step.places.is_empty() => &[Part::Before, Part::Digit, Part::After][..],
            _ => &[Part::Whole],
        };
        let states: Vec<(usize, Part)> =
            (0..n_steps + 2).flat_map(|it| parts(it).iter().map(move |part| (it, *part))).collect();
        let mut first = vec![0; n_steps + 2];
        for (at, it) in states.iter().enumerate().rev() {
            first[it.0] = at;
        }
        // Where a subject can begin, with how often it begins so.
        let entries = |subject: usize| match parts(subject).len() {
            1 => vec![(first[subject], 1.0)],
            _ => vec![(first[subject], 1.0 - DIGIT_FIRST), (first[subject] + 1, DIGIT_FIRST)],
        };
        let mut ways: Vec<Vec<(usize, f64)>> = vec![Vec::new(); states.len()];
        for (from, (subject, part)) in states.iter().enumerate() {
            let stays: Vec<(usize, f64)> = match part {
                _ if *subject == opening => vec![(from, 1.0 - OPENING_ENDS)],
                _ if *subject == close => vec![(from, 1.0)],
                Part::Whole => vec![(from, stays(&expected.steps[*subject]))],
                Part::Before => {
                    let stays = stays(&expected.steps[*subject]) - 0.1;
                    vec![(from, stays), (from + 1, 1.0 - stays - NO_DIGIT)]
                }
                Part::Digit => vec![(from, DIGIT_AGAIN), (from + 1, MORE_SAID)],
                Part::After => {
                    let stays = stays(&expected.steps[*subject]) / 2.0;
                    vec![(from, stays), (from - 1, stays / 2.0)]
                }
            };
            let leaves = 1.0 - stays.iter().map(|it| it.1).sum::<f64>();
            for (to, share) in stays {
                ways[to].push((from, share * (1.0 - JUMPS)));
            }
            if *subject == close {
                continue;
            }
            let next = if *subject == opening { 0 } else { subject + 1 };
            let ahead = 1.0 - LEFT_OUT.iter().sum::<f64>();
            for (over, share) in [ahead].into_iter().chain(LEFT_OUT).enumerate() {
                // The close comes after the last step as if it were one more.
                let to = match next + over {
                    it if it < n_steps => it,
                    it if it == n_steps => close,
                    _ => continue,
                };
                for (entry, part) in entries(to) {
                    ways[entry].push((from, leaves * share * part * (1.0 - JUMPS)));
                }
            }
        }
        let weight = |at: usize| if expected.begins_passage(at) { PASSAGE } else { 1.0 };
        let total: f64 = (0..n_steps).map(weight).sum::<f64>() + 1.0;
        let mut jumps_to = vec![0.0; states.len()];
        for subject in 0..n_steps {
            for (entry, part) in entries(subject) {
                jumps_to[entry] = weight(subject) / total * part;
            }
        }
        jumps_to[first[close]] = 1.0 / total;
        Moves { n_steps, states, ways, jumps_to }
    }

    /// Where a recording begins: mostly with an opening, else with a step.
    fn begins(&self, state: usize) -> f64 {
        match self.states[state].0 {
            0 if self.n_steps > 0 => 0.07,
            it if it == self.n_steps => 0.8,
            _ => 0.05 / self.states.len() as f64,
        }
    }
}

/// How likely a step goes on with the next thing heard.
fn stays(step: &ExpectedStep) -> f64 {
    let n = step.places.len() + step.clues.len() + step.names.len() + step.counts.len();
    let length = (1.2 + 0.45 * n as f64).min(9.0);
    1.0 - 1.0 / length
}

/// Follows what is heard. `near` says how well a moment agrees with the log, if there is one.
pub(crate) fn path(
    expected: &Expected,
    emission: &Emission,
    heard: &[Heard],
    near: impl Fn(usize, &Heard) -> f64,
) -> Path {
    let moves = Moves::new(expected);
    let (n_steps, n_states) = (moves.n_steps, moves.states.len());
    let n = heard.len();
    let says = |at: usize, state: usize| {
        let sign = &heard[at].is;
        match moves.states[state] {
            (step, part) if step < n_steps => {
                let own = match part {
                    Part::Digit => emission.of_placed(step, sign),
                    Part::Before => {
                        emission.of(step, sign)
                            - 0.5 * emission.of_placed(step, sign).min(emission.of(step, sign))
                    }
                    Part::Whole | Part::After => emission.of(step, sign),
                };
                own * near(step, &heard[at])
            }
            (subject, _) if subject == n_steps => emission.of_opening(sign) * OPENING_IS_SHORT,
            _ => emission.of_anything(sign) * CLOSE_IS_RARE,
        }
    };
    // Forwards, each column scaled to 1.
    let mut forward = vec![0.0_f32; n * n_states];
    let mut before = vec![0.0; n_states];
    let mut fits = 0.0;
    for at in 0..n {
        let jumping: f64 = before.iter().sum::<f64>() * JUMPS;
        let comes = |it: usize| match at {
            0 => moves.begins(it),
            _ => {
                let moved: f64 = moves.ways[it].iter().map(|(from, share)| before[*from] * share).sum();
                moved + jumping * moves.jumps_to[it]
            }
        };
        let mut now: Vec<f64> = (0..n_states).map(|it| comes(it) * says(at, it)).collect();
        let total: f64 = now.iter().sum::<f64>().max(f64::MIN_POSITIVE);
        fits += total.ln();
        now.iter_mut().for_each(|it| *it /= total);
        for (state, it) in now.iter().enumerate() {
            forward[at * n_states + state] = *it as f32;
        }
        before = now;
    }
    let likely = backward(&moves, forward, n, says);
    let best = best(&moves, n, says).into_iter().map(|it| moves.states[it].0).collect();
    // Parts of a step are one subject.
    let n_subjects = n_steps + 2;
    let mut of_subjects = vec![0.0; n * n_subjects];
    for at in 0..n {
        for (state, (subject, _)) in moves.states.iter().enumerate() {
            of_subjects[at * n_subjects + subject] += likely[at * n_states + state];
        }
    }
    Path { best, likely: of_subjects, n_subjects, fits }
}

/// How likely each state is at each moment, given everything heard before and after it.
fn backward(moves: &Moves, forward: Vec<f32>, n: usize, says: impl Fn(usize, usize) -> f64) -> Vec<f32> {
    let n_states = moves.states.len();
    let mut likely = forward;
    let mut after = vec![1.0; n_states];
    for at in (0..n).rev() {
        let here = &mut likely[at * n_states..(at + 1) * n_states];
        let total: f64 = here.iter().zip(&after).map(|(it, after)| f64::from(*it) * after).sum();
        for (it, after) in here.iter_mut().zip(&after) {
            *it = (f64::from(*it) * after / total.max(f64::MIN_POSITIVE)) as f32;
        }
        let told: Vec<f64> = (0..n_states).map(|it| says(at, it) * after[it]).collect();
        let jumping: f64 = told.iter().zip(&moves.jumps_to).map(|(it, share)| it * share * JUMPS).sum();
        let mut earlier = vec![jumping; n_states];
        for (to, ways) in moves.ways.iter().enumerate() {
            for (from, share) in ways {
                earlier[*from] += told[to] * share;
            }
        }
        let largest = earlier.iter().copied().fold(f64::MIN_POSITIVE, f64::max);
        earlier.iter_mut().for_each(|it| *it /= largest);
        after = earlier;
    }
    likely
}

/// The likeliest way as a whole (Viterbi).
fn best(moves: &Moves, n: usize, says: impl Fn(usize, usize) -> f64) -> Vec<usize> {
    let n_states = moves.states.len();
    let mut came_from = vec![0_u16; n * n_states];
    let mut before: Vec<f64> = Vec::new();
    for at in 0..n {
        let mut now = vec![f64::NEG_INFINITY; n_states];
        let jump = before.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1));
        for (to, score) in now.iter_mut().enumerate() {
            let best = match jump {
                None => (0, moves.begins(to).ln()),
                Some((from, score)) => {
                    let jump = (from, score + (JUMPS * moves.jumps_to[to]).ln());
                    let others =
                        moves.ways[to].iter().map(|(from, share)| (*from, before[*from] + share.ln()));
                    others.chain([jump]).max_by(|a, b| a.1.total_cmp(&b.1)).unwrap_or(jump)
                }
            };
            came_from[at * n_states + to] = best.0 as u16;
            *score = best.1 + says(at, to).ln();
        }
        before = now;
    }
    let Some((mut state, _)) = before.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1)) else {
        return Vec::new();
    };
    let mut best = vec![0; n];
    for at in (0..n).rev() {
        best[at] = state;
        state = usize::from(came_from[at * n_states + state]);
    }
    best
}
