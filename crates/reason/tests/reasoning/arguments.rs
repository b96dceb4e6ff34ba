//! Small arguments, and what is tried and followed, as told: every case can be followed, and spoiled ones cannot.

use rulebook::Claim;
use trail::{Argument, Because, Branch, Cites, End};

use crate::corpus::{Walked, argued, corpus};
use crate::follow::{Fault, follow};

/// A conclusion of a small argument with the case that shows it.
struct Told {
    it: &'static Walked,
    /// Where it stands, for messages.
    place: String,
    claim: Claim,
    cites: &'static Cites,
    branch: &'static Branch,
}

impl Told {
    fn follow(&self, cites: &Cites, branch: &Branch) -> Result<(), Fault> {
        follow(&self.it.made.puzzle, self.it.trail(), &self.claim, cites, branch)
    }

    /// Every spoiled form must be refused.
    fn refuse(&self, what: &str, spoiled: impl IntoIterator<Item = Branch>) -> usize {
        let refused = spoiled.into_iter().map(|branch| {
            let followed = self.follow(self.cites, &branch);
            assert!(followed.is_err(), "{}: {what} goes unnoticed in {branch:?}", self.place);
        });
        refused.count()
    }
}

/// Every conclusion of every small argument, and of what is tried and followed, of the corpus and of the puzzles explained by easier techniques.
fn told() -> Vec<Told> {
    let mut told = Vec::new();
    for it in corpus().iter().chain(argued()) {
        for (id, step) in it.trail().steps() {
            let (Argument::Cases { branches, .. } | Argument::Followed { branches }) = step.argument() else {
                continue;
            };
            for (fact, branch) in step.concludes().iter().zip(branches) {
                let fact = it.trail().fact(*fact);
                let (claim, cites) = (fact.claim(), fact.cites().unwrap());
                let place = format!("{}, step {}, {claim:?}", it.name, id.number());
                told.push(Told { it, place, claim, cites, branch });
            }
        }
    }
    told
}

#[test]
fn every_case_can_be_followed() {
    let told = told();
    let followed = told.iter().map(|it| (it, it.follow(it.cites, it.branch)));
    let faults: Vec<String> =
        followed.filter_map(|(it, followed)| Some(format!("{}, {}", it.place, followed.err()?))).collect();
    assert!(faults.is_empty(), "{} of {}:\n{}", faults.len(), told.len(), faults.join("\n"));
    let n_links: usize = told.iter().map(|it| n_links(it.branch)).sum();
    assert!(told.len() > 60 && n_links > 800, "{} conclusions, {n_links} links", told.len());
}

/// Nothing is cited to spare, so a reader who lacks any one citation must stumble somewhere.
#[test]
fn no_case_can_be_followed_without_one_of_its_citations() {
    let mut n = 0;
    for it in told() {
        for cited in it.cites.each() {
            let followed = it.follow(&cited.left_out_of(it.cites), it.branch);
            assert!(followed.is_err(), "{}: {cited} is not missed", it.place);
            n += 1;
        }
    }
    assert!(n > 1_000, "only {n} citations were left out");
}

#[test]
fn spoiled_cases_are_refused() {
    let (mut n_parts, mut n_reasons, mut n_left, mut n_ends) = (0, 0, 0, 0);
    for it in told() {
        n_parts += it.refuse("a missing part", without_a_part(it.branch));
        n_reasons += it.refuse("a reason that is not cited", with_a_reason_not_cited(&it));
        n_left += it.refuse(
            "a cell without digits",
            with_a_link_that(it.branch, |link| {
                link.leaves = grid::DigitSet::EMPTY;
            }),
        );
        n_ends += it.refuse("an end too early", ended_at_once(it.branch));
    }
    let all = [n_parts, n_reasons, n_left, n_ends];
    assert!(all.iter().all(|it| *it > 2), "{all:?}");
}

fn n_links(branch: &Branch) -> usize {
    let inner = match &branch.end {
        End::Split(parts) => parts.iter().map(n_links).sum(),
        _ => 0,
    };
    branch.chain.len() + inner
}

/// The case with its end told at once, where links took the digits or places that it misses.
fn ended_at_once(branch: &Branch) -> Option<Branch> {
    let is_plain = matches!(branch.end, End::NoDigit(_) | End::NoPlace(..));
    (is_plain && !branch.chain.is_empty()).then(|| Branch { chain: Vec::new(), ..branch.clone() })
}

/// The case with one part of one split left out, in every way.
fn without_a_part(branch: &Branch) -> Vec<Branch> {
    let End::Split(parts) = &branch.end else { return Vec::new() };
    let with = |parts| Branch { end: End::Split(parts), ..branch.clone() };
    let mut spoiled = Vec::new();
    for at in 0..parts.len() {
        let mut fewer = parts.clone();
        let part = fewer.remove(at);
        spoiled.push(with(fewer));
        spoiled.extend(without_a_part(&part).into_iter().map(|it| {
            let mut parts = parts.clone();
            parts[at] = it;
            with(parts)
        }));
    }
    spoiled
}

/// The case with each link of its own (not of its parts) changed in turn.
fn with_a_link_that(branch: &Branch, change: impl Fn(&mut trail::Link)) -> Vec<Branch> {
    let changed = |at| {
        let mut spoiled = branch.clone();
        change(&mut spoiled.chain[at]);
        spoiled
    };
    (0..branch.chain.len()).map(changed).collect()
}

/// The case with each of its links resting on a house that the argument does not look at.
fn with_a_reason_not_cited(it: &Told) -> Vec<Branch> {
    let puzzle = &it.it.made.puzzle;
    let of_clues = it.cites.clues.iter().map(|id| puzzle.clue(*id).unwrap().line);
    let of_facts = it.cites.facts.iter().filter_map(|id| it.it.trail().fact(*id).claim().house());
    let looked_at: Vec<_> = it.cites.houses.iter().copied().chain(of_clues).chain(of_facts).collect();
    let Some(other) = puzzle.size().houses().find(|it| !looked_at.contains(it)) else { return Vec::new() };
    with_a_link_that(it.branch, |link| link.because = Because::Fit(other))
}
