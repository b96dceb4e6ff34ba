//! Measures the review on invented recordings: `cargo run -p review --example recordings [tuned|held|both] [-v]`.
//!
//! Two sets of 24: one of the phrase book, the puzzles and the seeds that the review was tuned on, one of those that
//! were kept apart. What is measured is said in `docs/performance.md`.
#![allow(clippy::print_stdout)]

#[path = "../tests/demo/mod.rs"]
mod demo;
#[path = "../tests/talk/mod.rs"]
mod talk;

use captions::{Caption, Time};
use review::{Expected, Glossary, Match, Placing, Review, review_captions};
use talk::{Book, HELD, TUNED, Talk};

/// Seconds between two times of a recording.
const STAMPS: [u64; 6] = [2, 3, 5, 8, 15, 25];
const ROUNDS: u64 = 4;

fn main() {
    let which = std::env::args().nth(1).unwrap_or("both".to_owned());
    let is_verbose = std::env::args().any(|it| it == "-v");
    for (name, book, parity, seeds) in [("tuned", &TUNED, 0, 1_000), ("held", &HELD, 1, 5_000)] {
        if which == name || which == "both" {
            measure(name, book, parity, seeds, is_verbose);
        }
    }
}

#[derive(Default, Debug)]
struct Tally {
    recordings: usize,
    steps: usize,
    near_beginning: usize,
    within: usize,
    placed: usize,
    placed_wrongly: usize,
    unsure: usize,
    unsure_rightly: usize,
    left_out: usize,
    left_out_said: usize,
    said_not_spoken: usize,
    slips: usize,
    slips_found: usize,
    corrected: usize,
    corrected_seen: usize,
    false_alarms: usize,
    silences: usize,
    silences_found: usize,
    own: usize,
    others: usize,
    others_refused: usize,
}

fn measure(name: &str, book: &'static Book, parity: usize, seeds: u64, is_verbose: bool) {
    let puzzles = demo::demo(|it| it % 2 == parity);
    let glossary = Glossary::of_galley();
    let expected: Vec<Expected> = puzzles.iter().map(|it| Expected::of(&it.1, &it.2)).collect();
    let mut all = Tally::default();
    let mut by_stamp: Vec<(u64, Tally)> = STAMPS.iter().map(|it| (*it, Tally::default())).collect();
    for round in 0..ROUNDS {
        for (nth, stamp) in STAMPS.iter().enumerate() {
            let number = (nth as u64 + round) as usize % puzzles.len();
            let (id, puzzle, walkthrough) = &puzzles[number];
            let talk = talk::talk(puzzle, walkthrough, book, seeds + round * 10 + nth as u64, *stamp);
            let review = review_captions(&talk.captions, &expected[number], &glossary);
            let other = &expected[(number + 1) % puzzles.len()];
            let other = review_captions(&talk.captions, other, &glossary);
            for tally in [&mut all, &mut by_stamp[nth].1] {
                count(tally, &talk, &review, &other);
            }
            if is_verbose {
                println!("== {id}, every {stamp} s, fit {:.3}, other {:.3}", review.fit, other.fit);
                tell(&talk, &expected[number], &review);
            }
        }
    }
    println!("{name}: {}", summary(&all));
    for (stamp, it) in by_stamp {
        println!("  every {stamp:2} s: {}", summary(&it));
    }
}

/// Which caption a time is in.
fn caption(captions: &[Caption], at: Time) -> usize {
    captions.partition_point(|it| it.from <= at).saturating_sub(1)
}

/// Whether a placing is at most one caption off the beginning, and off the whole of the step.
fn near(talk: &Talk, from: Time, step: usize) -> (bool, bool) {
    let Some((_, first, last)) = talk.spoken.iter().find(|it| it.0 == step) else { return (false, false) };
    let at = caption(&talk.captions, from);
    let (first, last) = (caption(&talk.captions, *first), caption(&talk.captions, *last));
    (at.abs_diff(first) <= 1, at + 1 >= first && at <= last + 1)
}

fn count(tally: &mut Tally, talk: &Talk, review: &Review, other: &Review) {
    tally.recordings += 1;
    tally.steps += talk.spoken.len();
    for (step, it) in review.steps.iter().enumerate() {
        let is_spoken = talk.spoken.iter().any(|it| it.0 == step);
        tally.left_out += usize::from(!is_spoken);
        match it {
            Placing::At { from, .. } => {
                let (beginning, within) = near(talk, *from, step);
                tally.placed += 1;
                tally.near_beginning += usize::from(beginning);
                tally.within += usize::from(within);
                tally.placed_wrongly += usize::from(!within);
            }
            Placing::Unsure { perhaps, .. } => {
                tally.unsure += 1;
                let would_be = perhaps.is_some_and(|it| near(talk, it, step).1);
                tally.unsure_rightly += usize::from(!would_be);
            }
            Placing::NotSpoken => {
                tally.said_not_spoken += 1;
                tally.left_out_said += usize::from(!is_spoken);
            }
        }
    }
    let close = |a: Time, b: Time| a.since(b).max(b.since(a)) <= Time::seconds(5);
    for planted in &talk.slips {
        let found = review.slips.iter().find(|it| close(it.at, planted.at) && it.right == planted.right);
        tally.slips += 1;
        tally.slips_found += usize::from(found.is_some());
        tally.corrected += usize::from(planted.corrected);
        let is_seen = found.is_some_and(|it| it.corrected.is_some());
        tally.corrected_seen += usize::from(planted.corrected && is_seen);
    }
    let is_false = |it: &&review::Slip| !talk.slips.iter().any(|planted| close(it.at, planted.at));
    tally.false_alarms += review.slips.iter().filter(is_false).count();
    tally.silences += talk.silences.len();
    // With a time every so often, a silence is only known to lie between two of them.
    let has =
        |at: &&Time| review.silences.iter().any(|it| it.from <= **at + Time::seconds(30) && it.to >= **at);
    tally.silences_found += talk.silences.iter().filter(has).count();
    tally.own += usize::from(review.matches == Match::Yes);
    tally.others += 1;
    tally.others_refused += usize::from(other.matches == Match::No);
}

fn percent(part: usize, of: usize) -> String {
    if of == 0 { "none".to_owned() } else { format!("{:.1} % of {of}", part as f64 * 100.0 / of as f64) }
}

fn summary(it: &Tally) -> String {
    format!(
        "{} recordings; within one stamp {} (of the beginning {}); wrong {}; unsure {}, rightly {}; \
         said to be left out {}, of those rightly {}; slips found {}; corrections seen {}; \
         false alarms {:.2} a recording; silences {}; own recognised {}; others refused {}",
        it.recordings,
        percent(it.within, it.steps),
        percent(it.near_beginning, it.steps),
        percent(it.placed_wrongly, it.placed),
        it.unsure,
        percent(it.unsure_rightly, it.unsure),
        percent(it.left_out_said, it.left_out),
        percent(it.left_out_said, it.said_not_spoken),
        percent(it.slips_found, it.slips),
        percent(it.corrected_seen, it.corrected),
        it.false_alarms as f64 / it.recordings as f64,
        percent(it.silences_found, it.silences),
        percent(it.own, it.recordings),
        percent(it.others_refused, it.others),
    )
}

/// What went wrong, to tune by.
fn tell(talk: &Talk, expected: &Expected, review: &Review) {
    let close = |a: Time, b: Time| a.since(b).max(b.since(a)) <= Time::seconds(5);
    for it in &review.slips {
        if !talk.slips.iter().any(|planted| close(it.at, planted.at)) {
            println!("  false alarm at {}: {} ({})", it.at, it.quote, it.because);
        }
    }
    for planted in &talk.slips {
        let found = review.slips.iter().find(|it| close(it.at, planted.at) && it.right == planted.right);
        let at = caption(&talk.captions, planted.at);
        let around: Vec<&str> =
            talk.captions[at.saturating_sub(2)..=at].iter().map(|it| it.text.as_str()).collect();
        let around = around.join(" / ");
        match found {
            None => println!("  missed at {}, right is {}: {around}", planted.at, planted.right),
            Some(it) if planted.corrected && it.corrected.is_none() => {
                println!("  not seen as corrected at {}: {around}", planted.at);
            }
            Some(_) => {}
        }
    }
    for (step, it) in review.steps.iter().enumerate() {
        let Placing::At { from, sure, .. } = it else { continue };
        if !near(talk, *from, step).1 {
            let real = talk.spoken.iter().find(|it| it.0 == step).map(|it| it.1);
            let technique = &expected.steps[step].technique;
            println!("  step {step} {technique} at {from} ({sure:.2}), really {real:?}");
        }
    }
}
