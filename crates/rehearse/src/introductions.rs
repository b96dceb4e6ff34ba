//! What is new in a walkthrough and how to introduce it, and what needs no repeating.

use rulebook::{Clue, Rule, SANDWICH, filling_digits, filling_sets, filling_total};
use trail::{StepId, TechniqueId};

use crate::Setting;

/// More sets of one length than these are counted rather than written out.
const MOST_SETS: usize = 6;

/// A technique that is said for the first time.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Introduction {
    /// The technique.
    pub technique: TechniqueId,
    /// The step that needs it first.
    pub step: StepId,
    /// What it is, in a sentence or two.
    pub says: String,
    /// The sums to have at hand, written out, a line each.
    pub figures: Vec<String>,
}

/// A technique that was taught before.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Taught {
    /// The technique.
    pub technique: TechniqueId,
    /// The title of the puzzle that taught it; none if solvers know it from the start.
    pub by: Option<String>,
}

/// The techniques that the walkthrough is the first to use, in the order of their steps: those that solvers of this
/// place do not know. A puzzle outside a pack is for nobody in particular, so all of its techniques are introduced.
pub(crate) fn introductions(setting: &Setting) -> Vec<Introduction> {
    let trail = setting.account.explained.walkthrough().trail();
    let mut met: Vec<TechniqueId> = Vec::new();
    let mut introductions = Vec::new();
    for (id, step) in trail.steps() {
        let technique = step.technique();
        let is_known = setting.study.known().is_some_and(|it| it.has(technique));
        if met.contains(&technique) || is_known || step.is_small_argument() {
            continue;
        }
        met.push(technique);
        introductions.push(Introduction {
            technique,
            step: id,
            says: tell::technique_description(technique).to_owned(),
            figures: figures(setting, id),
        });
    }
    introductions
}

/// The techniques of the walkthrough that are known by then, easiest first.
pub(crate) fn taught(setting: &Setting) -> Vec<Taught> {
    let Some(known) = setting.study.known() else { return Vec::new() };
    let used = setting.account.techniques();
    let both = known.techniques().map(|it| it.id()).filter(|it| used.contains(it));
    both.map(|technique| Taught { technique, by: setting.taught.get(&technique).cloned() }).collect()
}

/// The sums of the clues that a step cites.
fn figures(setting: &Setting, step: StepId) -> Vec<String> {
    let puzzle = &setting.study.entry().puzzle;
    let trail = setting.account.explained.walkthrough().trail();
    let mut clues: Vec<&Clue> = trail.cites_of(step).clues.iter().filter_map(|it| puzzle.clue(*it)).collect();
    clues.retain(|it| it.rule.id() == SANDWICH.id());
    clues.sort_by_key(|it| it.value);
    clues.dedup_by_key(|it| it.value);
    clues.into_iter().flat_map(|it| sums(puzzle.size(), it.value)).collect()
}

/// `13 between: two cells 5 + 8, 6 + 7; three cells 2 + 3 + 8, …`, and the same for what lies outside.
fn sums(size: grid::Size, value: u16) -> [String; 2] {
    let outside = filling_total(size).saturating_sub(value);
    [("between", value), ("outside", outside)].map(|(place, sum)| {
        let sets = filling_sets(size, sum);
        let n_digits = filling_digits(size).len();
        let by_count = (0..=n_digits).filter_map(|n| {
            let of: Vec<_> = sets.iter().filter(|it| it.len() == n).collect();
            if of.is_empty() {
                return None;
            }
            let cells = if n == 1 { "one cell".to_owned() } else { format!("{} cells", tell::count(n)) };
            let written =
                |it: &&grid::DigitSet| it.iter().map(|it| it.to_string()).collect::<Vec<_>>().join(" + ");
            Some(match of.len() {
                _ if n == 0 => "no cell".to_owned(),
                ..=MOST_SETS => {
                    format!("{cells} {}", of.iter().map(written).collect::<Vec<_>>().join(", "))
                }
                many => format!("{cells} in {many} ways"),
            })
        });
        format!("{sum} {place}: {}", by_count.collect::<Vec<_>>().join("; "))
    })
}

#[cfg(test)]
mod tests {
    use grid::Size;

    use super::sums;

    /// The expected sets were listed by a program of three lines in another language (Python's `itertools`).
    #[test]
    fn sums_are_written_out_by_count() {
        for (value, between, outside) in [
            (
                8,
                "8 between: one cell 8; two cells 2 + 6, 3 + 5",
                "27 outside: five cells 2 + 4 + 6 + 7 + 8, 3 + 4 + 5 + 7 + 8; six cells 2 + 3 + 4 + 5 + 6 + 7",
            ),
            (
                17,
                "17 between: three cells 2 + 7 + 8, 3 + 6 + 8, 4 + 5 + 8, 4 + 6 + 7; four cells 2 + 3 + 4 + 8, \
                 2 + 3 + 5 + 7, 2 + 4 + 5 + 6",
                "18 outside: three cells 3 + 7 + 8, 4 + 6 + 8, 5 + 6 + 7; four cells 2 + 3 + 5 + 8, \
                 2 + 3 + 6 + 7, 2 + 4 + 5 + 7, 3 + 4 + 5 + 6",
            ),
            (35, "35 between: seven cells 2 + 3 + 4 + 5 + 6 + 7 + 8", "0 outside: no cell"),
        ] {
            assert_eq!(sums(Size::NINE, value), [between, outside]);
        }
        let large = Size::new(4, 4).unwrap();
        assert!(sums(large, 40)[0].contains("four cells in "), "{}", sums(large, 40)[0]);
    }
}
