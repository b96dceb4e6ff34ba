//! The likeliest way of a talk through the steps, and how likely each moment of it is.
//!
//! A hidden Markov model. Hidden is what is being spoken of: the opening, a step, or the close. After everything heard
//! the speaker stays, goes on to the next step, leaves some out, or jumps anywhere, rather to where a passage begins. The
//! numbers were tuned on invented talks (`docs/performance.md`).

use crate::Expected;
use crate::emission::Emission;
use crate::heard::Heard;

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

/// What is spoken of: the steps by their places, then the opening, then the close.
pub(crate) struct Path {
    /// What is likeliest spoken of at each thing heard, on the likeliest way as a whole.
    pub(crate) best: Vec<usize>,
    /// How likely each is spoken of at each thing heard.
    likely: Vec<f32>,
    n_states: usize,
    /// How likely all that is heard is, as a logarithm.
    pub(crate) fits: f64,
}

impl Path {
    /// How likely that is spoken of at that thing heard.
    pub(crate) fn likely(&self, heard: usize, state: usize) -> f64 {
        f64::from(self.likely[heard * self.n_states + state])
    }
}

/// The moves from step to step.
struct Moves {
    n_steps: usize,
    /// How likely a step goes on with the next thing heard.
    stays: Vec<f64>,
    /// Where jumps go, as shares.
    jumps_to: Vec<f64>,
}

impl Moves {
    fn new(expected: &Expected) -> Moves {
        let stays = expected.steps.iter().map(|it| {
            let n = it.places.len() + it.clues.len() + it.names.len() + it.counts.len();
            let length = (1.2 + 0.45 * n as f64).min(9.0);
            1.0 - 1.0 / length
        });
        let n_steps = expected.steps.len();
        let weight = |at: usize| if expected.begins_passage(at) { PASSAGE } else { 1.0 };
        let total: f64 = (0..n_steps).map(weight).sum::<f64>() + 1.0;
        let close = [0.0, 1.0 / total];
        let jumps_to = (0..n_steps).map(|it| weight(it) / total).chain(close);
        Moves { n_steps, stays: stays.collect(), jumps_to: jumps_to.collect() }
    }

    /// Every way into a state other than by a jump, with how likely it is.
    fn ways_into(&self, state: usize) -> impl Iterator<Item = (usize, f64)> + '_ {
        let (opening, close) = (self.n_steps, self.n_steps + 1);
        let goes_on = |from: usize| (1.0 - self.stays[from]) * (1.0 - JUMPS);
        let ahead: f64 = 1.0 - LEFT_OUT.iter().sum::<f64>();
        let stay = match state {
            it if it == opening => 1.0 - OPENING_ENDS,
            it if it == close => 1.0 - JUMPS,
            it => self.stays[it] * (1.0 - JUMPS),
        };
        // The close comes after the last step as if it were one more.
        let place = if state == close { self.n_steps } else { state };
        let from_steps = (0..LEFT_OUT.len() + 1).filter_map(move |over| {
            let from = place.checked_sub(over + 1).filter(|_| state != opening)?;
            let share = if over == 0 { ahead } else { LEFT_OUT[over - 1] };
            Some((from, goes_on(from) * share))
        });
        let from_opening = (place <= LEFT_OUT.len() && state != opening).then(|| {
            let share = if place == 0 { ahead } else { LEFT_OUT[place - 1] };
            (opening, OPENING_ENDS * share)
        });
        [(state, stay)].into_iter().chain(from_steps).chain(from_opening)
    }
}

/// Follows what is heard. `near` says how well a moment agrees with the log, if there is one.
pub(crate) fn path(
    expected: &Expected,
    emission: &Emission,
    heard: &[Heard],
    near: impl Fn(usize, &Heard) -> f64,
) -> Path {
    let moves = Moves::new(expected);
    let (n_steps, n_states) = (moves.n_steps, moves.n_steps + 2);
    let n = heard.len();
    let says = |at: usize, state: usize| match state {
        it if it < n_steps => emission.of(it, &heard[at].is) * near(it, &heard[at]),
        it if it == n_steps => emission.of_opening(&heard[at].is) * OPENING_IS_SHORT,
        _ => emission.of_anything(&heard[at].is) * CLOSE_IS_RARE,
    };
    let ways: Vec<Vec<(usize, f64)>> = (0..n_states).map(|it| moves.ways_into(it).collect()).collect();
    // Forwards, each column scaled to 1.
    let mut forward = vec![0.0_f32; n * n_states];
    let mut before = vec![0.0; n_states];
    let mut fits = 0.0;
    for at in 0..n {
        let jumping: f64 = before.iter().sum::<f64>() * JUMPS;
        let mut now: Vec<f64> = (0..n_states)
            .map(|it| {
                let comes: f64 = match at {
                    0 => begins(it, n_steps),
                    _ => {
                        ways[it].iter().map(|(from, share)| before[*from] * share).sum::<f64>()
                            + jumping * moves.jumps_to[it]
                    }
                };
                comes * says(at, it)
            })
            .collect();
        let total: f64 = now.iter().sum::<f64>().max(f64::MIN_POSITIVE);
        fits += total.ln();
        now.iter_mut().for_each(|it| *it /= total);
        for (state, it) in now.iter().enumerate() {
            forward[at * n_states + state] = *it as f32;
        }
        before = now;
    }
    let likely = backward(&moves, &ways, forward, n, says);
    let best = best(&moves, &ways, n, says);
    Path { best, likely, n_states, fits }
}

/// Where a recording begins: mostly with an opening, else with a step.
fn begins(state: usize, n_steps: usize) -> f64 {
    match state {
        0 => 0.15,
        it if it == n_steps => 0.8,
        _ => 0.05 / (n_steps + 1) as f64,
    }
}

/// How likely each state is at each moment, given everything heard before and after it.
fn backward(
    moves: &Moves,
    ways: &[Vec<(usize, f64)>],
    forward: Vec<f32>,
    n: usize,
    says: impl Fn(usize, usize) -> f64,
) -> Vec<f32> {
    let n_states = ways.len();
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
        for (to, ways) in ways.iter().enumerate() {
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
fn best(
    moves: &Moves,
    ways: &[Vec<(usize, f64)>],
    n: usize,
    says: impl Fn(usize, usize) -> f64,
) -> Vec<usize> {
    let n_states = ways.len();
    let mut came_from = vec![0_u16; n * n_states];
    let mut before: Vec<f64> = Vec::new();
    for at in 0..n {
        let mut now = vec![f64::NEG_INFINITY; n_states];
        let jump = before.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1));
        for (to, score) in now.iter_mut().enumerate() {
            let best = match jump {
                None => (0, begins(to, moves.n_steps).ln()),
                Some((from, score)) => {
                    let jump = (from, score + (JUMPS * moves.jumps_to[to]).ln());
                    let others = ways[to].iter().map(|(from, share)| (*from, before[*from] + share.ln()));
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
