//! The whole walkthroughs as values, for an appendix.

use study::Published;
use trail::{Passage, Trail};
use typst::foundations::{Array, Dict, IntoValue, Value, dict};

use typeset::board;

/// Every puzzle's passages, in the order of the puzzles.
pub(crate) fn walkthroughs(published: &[Published<'_>]) -> Array {
    let of = |it: &Published<'_>| -> Value {
        let puzzle = &it.study.entry().puzzle;
        let walkthrough = it.account.explained.walkthrough();
        let titles = tell::passage_titles(puzzle, walkthrough);
        let passages = walkthrough.passages().iter().zip(titles);
        Value::Array(
            passages
                .map(|(passage, title)| Value::Dict(told(it, walkthrough.trail(), passage, &title)))
                .collect(),
        )
    };
    published.iter().map(of).collect()
}

/// A passage: its title, its steps in words, and the board as it leaves it.
fn told(it: &Published<'_>, trail: &Trail, passage: &Passage, title: &str) -> Dict {
    let puzzle = &it.study.entry().puzzle;
    let step = |id: &trail::StepId| -> Value {
        let says = tell::says(puzzle, trail, *id);
        let lines: Array = says.lines().map(|it| it.to_owned().into_value()).collect();
        Value::Dict(dict! {
            "number" => id.number() as i64,
            "technique" => tell::technique_name(trail.step(*id).technique()),
            "says" => lines,
        })
    };
    let last = passage.steps.last().map_or(0, |it| it.number());
    dict! {
        "title" => title,
        "last" => last as i64,
        "steps" => passage.steps.iter().map(step).collect::<Array>(),
        "board" => board::after(puzzle, trail, &passage.steps),
    }
}
