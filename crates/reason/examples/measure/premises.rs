//! How much of the board a step asks to be looked at.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, House};
use replay::{Cap, judge};
use rulebook::{Claim, Puzzle};
use trail::{Argument, Cites, FactId, Proposal, StepId, TechniqueId, Trail};

/// How many houses a step holds in view: the lines of its clues, and those of which it counts that they hold each
/// digit. A house in which only a placed digit is seen, which rules that digit out for others, does not count: what
/// it shows is replaced by just that, and the step still follows.
pub(crate) fn n_in_view(puzzle: &Puzzle, trail: &Trail, step: StepId, cap: Cap) -> usize {
    let concluded = trail.step(step).concludes().iter().map(|it| trail.fact(*it));
    let each = concluded.filter_map(|it| Some(in_view(puzzle, trail, &it.claim(), it.cites()?, cap)));
    each.flatten().collect::<BTreeSet<House>>().len()
}

/// The houses that the claim needs as such, as few as leaving out one at a time leads to.
fn in_view(puzzle: &Puzzle, trail: &Trail, claim: &Claim, cites: &Cites, cap: Cap) -> BTreeSet<House> {
    let mut seen = trail.clone();
    let mut cites = cites.clone();
    for house in cites.houses.clone() {
        let mut without = cites.clone();
        without.houses.remove(&house);
        without.facts.extend(ruled_out(puzzle, &mut seen, &cites, house));
        if judge(puzzle, &seen, claim, &without, cap).is_ok() {
            cites = without;
        }
    }
    houses(puzzle, trail, &cites)
}

/// What the placed digits that are cited rule out in the house, as facts.
fn ruled_out(puzzle: &Puzzle, seen: &mut Trail, cites: &Cites, house: House) -> Vec<FactId> {
    let inside: CellSet = puzzle.size().cells_of(house).into_iter().collect();
    let placed = cites.facts.iter().filter_map(|it| match seen.fact(*it).claim() {
        Claim::Is(cell, digit) if inside.contains(cell) => Some((cell, digit)),
        _ => None,
    });
    let others = placed.flat_map(|(at, digit)| {
        inside.iter().filter(move |it| *it != at).map(move |it| (Claim::IsNot(it, digit), Cites::default()))
    });
    let conclusions: Vec<(Claim, Cites)> = others.collect();
    let argument = Argument::SeesBothCrusts { cells: CellSet::EMPTY };
    let step = seen.push(Proposal { technique: TechniqueId::new("seen"), argument, conclusions });
    step.map_or_else(|_| Vec::new(), |it| seen.step(it).concludes().to_vec())
}

/// The lines of the clues that are cited, the bare houses, and those that a cited fact is about.
fn houses(puzzle: &Puzzle, trail: &Trail, cites: &Cites) -> BTreeSet<House> {
    let lines = cites.clues.iter().filter_map(|it| puzzle.clue(*it)).map(|it| it.line);
    let of_facts = cites.facts.iter().filter(|it| it.index() < trail.n_facts());
    let of_facts = of_facts.filter_map(|it| trail.fact(*it).claim().house());
    lines.chain(cites.houses.iter().copied()).chain(of_facts).collect()
}

/// How many cells that facts are cited about lie outside the house looked at: the one that leaves fewest
/// outside. All of them do if there is no such house.
pub(crate) fn n_beside(puzzle: &Puzzle, trail: &Trail, cites: &Cites) -> usize {
    let cells: BTreeSet<Cell> = cites.facts.iter().filter_map(|it| trail.fact(*it).claim().cell()).collect();
    let outside = |house: House| {
        let inside = puzzle.size().cells_of(house);
        cells.iter().filter(|it| !inside.contains(it)).count()
    };
    houses(puzzle, trail, cites).into_iter().map(outside).min().unwrap_or(cells.len())
}
