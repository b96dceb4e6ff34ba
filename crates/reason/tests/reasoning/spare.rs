//! Enough and nothing to spare: every premise of a conclusion is needed for it.
//!
//! Needed is what the conclusion does not follow without: `replay` has a counterexample then, and refuses the walkthrough
//! otherwise. Beside its premises a step of a technique may cite a fact if the technique is not seen without it; those
//! are few. A chain cites all that its links rest on, and what is followed all that its looks do: they cannot be followed
//! without.

use std::collections::BTreeMap;

use reason::{View, technique};
use replay::{Cap, spares};
use rulebook::Claim;
use trail::{Argument, Cited, Cites, Proposal, Step};

use crate::corpus::{Walked, corpus};
use crate::follow_chain::follow_chain;

/// What one question may cost.
const CAP: Cap = Cap(100_000);

/// How many conclusions a technique draws, and how many of them cite something that is needed only to
/// see the step.
type Tally = BTreeMap<&'static str, (usize, usize)>;

#[test]
fn nothing_is_cited_to_spare() {
    let mut tally = Tally::new();
    let mut faults = Vec::new();
    let mut n_chains = 0;
    for it in corpus() {
        for (id, step) in it.trail().steps() {
            for fact in step.concludes().iter().map(|fact| it.trail().fact(*fact)) {
                let (claim, cites) = (fact.claim(), fact.cites().unwrap());
                let name = format!("{}, step {}: {claim:?}", it.name, id.number());
                let premises = cites.premises();
                let spared = spares(&it.made.puzzle, it.trail(), &claim, &premises, CAP);
                faults.extend(spared.map(|spare| format!("{name} spares {}", spare.cited)));

                let entry = tally.entry(step.technique().name()).or_default();
                entry.0 += 1;
                match step.argument() {
                    // Its citations are left out one by one in `arguments`.
                    Argument::Followed { .. } => {}
                    Argument::Chain { start, links } => {
                        let follows = |cites: &Cites| {
                            follow_chain(&it.made.puzzle, it.trail(), (&claim, cites), *start, links)
                        };
                        follows(cites).unwrap_or_else(|why| panic!("{name}: {why}"));
                        let spared = cites.each().filter(|it| follows(&it.left_out_of(cites)).is_ok());
                        faults.extend(spared.map(|cited| format!("{name}: the chain spares {cited}")));
                        n_chains += 1;
                    }
                    _ => {
                        entry.1 += usize::from(!cites.beside.is_empty());
                        let seen = cites.beside.iter();
                        let seen = seen.filter(|cited| !is_unseen_without(it, step, &claim, cites, **cited));
                        faults.extend(seen.map(|cited| format!("{name} is seen without {cited}")));
                    }
                }
            }
        }
    }
    assert!(faults.is_empty(), "{tally:?}\n{}", faults.join("\n"));
    let (n, n_for_sight) = tally.values().fold((0, 0), |sum, it| (sum.0 + it.0, sum.1 + it.1));
    assert!(n_chains > 20, "{n_chains}");
    assert!(n > 3_000 && n_for_sight * 8 < n, "{n_for_sight} of {n}: {tally:?}");
}

/// Whether the citation is an earlier step's fact without which the technique does not offer the claim
/// to someone who knows the page and what is cited.
pub(crate) fn is_unseen_without(
    it: &Walked,
    step: &Step,
    claim: &Claim,
    cites: &Cites,
    cited: Cited,
) -> bool {
    let Cited::Fact(spared) = cited else { return false };
    let Some(technique) = technique(step.technique()) else { return false };
    let mut view = View::new(&it.made.puzzle);
    let others = cites.facts.iter().filter(|it| **it != spared).map(|id| it.trail().fact(*id));
    let others = others.filter(|it| it.step().is_some()).map(|it| (it.claim(), Cites::default()));
    let known = Proposal {
        technique: step.technique(),
        argument: Argument::SeesBothCrusts { cells: grid::CellSet::EMPTY },
        conclusions: others.collect(),
    };
    if !known.conclusions.is_empty() {
        view.take(known).unwrap();
    }
    let offered = technique.find(&view);
    it.trail().fact(spared).step().is_some()
        && !offered.iter().flat_map(|it| &it.conclusions).any(|it| it.0 == *claim)
}
