//! The harder techniques of classic puzzles, for somebody who knows neither wings nor chains: they are rare
//! beside these, and have to be right all the same.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use grid::Size;
use reason::{Known, Search, Settings, TECHNIQUES, Technique, View, explain};
use replay::{Cap, judge, spares};
use trail::{Proposal, Step, TechniqueId, Trail};

use crate::corpus::Walked;
use crate::spare::is_unseen_without;
use crate::support::seeded;

/// What one question may cost.
const CAP: Cap = Cap(100_000);

/// What is looked for.
const RARE: [&str; 3] = ["chain-of-equal-pairs", "almost-locked-sets", "line-and-box-share-a-set"];

fn is_rare(id: TechniqueId) -> bool {
    RARE.contains(&id.name())
}

/// Classic puzzles that what is easier and one of the rare techniques finish.
fn puzzles() -> &'static [Walked] {
    static WALKED: OnceLock<Vec<Walked>> = OnceLock::new();
    let easy = Known::up_to(TechniqueId::new("x-wing"));
    let walk = |rare: &'static str, seed| {
        let known = easy.with(TechniqueId::new(rare));
        let settings = Settings { known, search: Search::EasiestNext, ..Settings::TECHNIQUES_ALONE };
        let made = seeded::puzzle(Size::NINE, 0, seed);
        let explained = explain(&made.puzzle, &made.solution, settings).ok()?;
        Some(Walked { name: format!("seed {seed} by {rare}"), made, explained })
    };
    WALKED.get_or_init(|| {
        RARE.iter().flat_map(|rare| (0..60).filter_map(move |seed| walk(rare, seed))).collect()
    })
}

/// The step as it was before it was taken.
fn proposal(trail: &Trail, step: &Step) -> Proposal {
    let concluded = step.concludes().iter().map(|it| trail.fact(*it));
    let conclusions = concluded.filter_map(|it| Some((it.claim(), it.cites()?.clone())));
    Proposal {
        technique: step.technique(),
        argument: step.argument().clone(),
        conclusions: conclusions.collect(),
    }
}

#[test]
fn whatever_rare_is_open_on_the_way_follows_from_what_it_cites() {
    let rare: Vec<&dyn Technique> = TECHNIQUES.into_iter().filter(|it| is_rare(it.id())).collect();
    let mut n_found: BTreeMap<&str, usize> = BTreeMap::new();
    let mut faults = Vec::new();
    for it in puzzles() {
        let puzzle = &it.made.puzzle;
        let mut view = View::new(puzzle);
        for (_, step) in it.trail().steps() {
            for found in rare.iter().flat_map(|it| it.find(&view)) {
                *n_found.entry(found.technique.name()).or_default() += 1;
                for (claim, cites) in &found.conclusions {
                    if let Err(refusal) = judge(puzzle, view.trail(), claim, cites, CAP) {
                        faults.push(format!("{}, {}: {claim:?}: {refusal}", it.name, found.technique));
                    }
                }
            }
            view.take(proposal(it.trail(), step)).unwrap();
        }
    }
    assert!(faults.is_empty(), "{n_found:?}\n{}", faults.join("\n"));
    assert!(RARE.iter().all(|it| n_found.get(it).is_some_and(|n| *n >= 10)), "{n_found:?}");
}

#[test]
fn rare_steps_cite_nothing_to_spare() {
    let mut n_steps: BTreeMap<&str, usize> = BTreeMap::new();
    let mut faults = Vec::new();
    for it in puzzles() {
        for (id, step) in it.trail().steps().filter(|it| is_rare(it.1.technique())) {
            *n_steps.entry(step.technique().name()).or_default() += 1;
            for (claim, cites) in proposal(it.trail(), step).conclusions {
                let spared = spares(&it.made.puzzle, it.trail(), &claim, &cites, CAP);
                let spared = spared.filter(|spare| !is_unseen_without(it, step, &claim, &cites, spare.cited));
                faults.extend(spared.map(|spare| {
                    format!("{}, step {}: {claim:?} spares {}", it.name, id.number(), spare.cited)
                }));
            }
        }
    }
    assert!(faults.is_empty(), "{n_steps:?}\n{}", faults.join("\n"));
    // No walkthrough here that comes to its end takes what a line and a box share.
    assert!(n_steps.values().sum::<usize>() > 20, "{n_steps:?}");
}
