//! Words for how long a puzzle takes, and why.

use grade::{Estimate, StepTime};
use trail::Trail;

use crate::landmarks::as_easy;
use crate::lists::{count, list};
use crate::names::technique_name;

/// What minutes rest on: `estimate, not yet calibrated`, or `calibrated on 14 solves`.
pub fn basis(n_solves: usize) -> String {
    match n_solves {
        0 => "estimate, not yet calibrated".to_owned(),
        1 => "calibrated on 1 solve".to_owned(),
        n => format!("calibrated on {n} solves"),
    }
}

/// Why a puzzle takes as long as it is expected to, in three sentences: its steps, its narrowest place, and where the
/// time goes.
pub fn why_minutes(trail: &Trail, estimate: &Estimate) -> [String; 3] {
    let narrowest = estimate.narrow_places().first().map_or_else(no_narrow_place, |it| {
        let technique = technique_name(trail.step(it.step).technique());
        format!("Its narrowest place is step {}, {technique}: {}.", it.step.number(), wait(it))
    });
    [steps(trail), narrowest, shares(estimate)]
}

/// `79 steps, the hardest of them hidden pair, twice.`; a small argument is the hardest.
pub fn steps(trail: &Trail) -> String {
    let n_steps = trail.n_steps();
    let weight = |it: &trail::Step| reason::technique(it.technique()).map_or(u32::MAX, |it| it.weight());
    let Some((_, hardest)) = trail.steps().max_by_key(|it| weight(it.1)) else {
        return "No steps: it is printed solved.".to_owned();
    };
    let n = trail.steps().filter(|it| it.1.technique() == hardest.technique()).count();
    let name = technique_name(hardest.technique());
    let steps = if n_steps == 1 { "One step".to_owned() } else { format!("{n_steps} steps") };
    match n {
        _ if n == n_steps => format!("{steps}, {name}."),
        1 => format!("{steps}, the hardest of them {name}, once."),
        2 => format!("{steps}, the hardest of them {name}, twice."),
        n => format!("{steps}, the hardest of them {name}, {} times.", count(n)),
    }
}

/// What is said where the search for a walkthrough of little effort ended at its limit.
pub fn limit_reached() -> &'static str {
    "The search for the easiest way ended at its limit: there may be one that takes less effort."
}

/// What is said where a puzzle has no narrow place.
pub fn no_narrow_place() -> String {
    "It has no narrow place: where little leads on, the next step is soon seen.".to_owned()
}

/// `about 25 seconds, one other step open on this way is as easy`: how long a step is waited for, and how many are open
/// that lead on and are no harder.
pub fn wait(it: &StepTime) -> String {
    let seconds = it.wait.round().max(1.0) as u32;
    let unit = if seconds == 1 { "second" } else { "seconds" };
    format!("about {seconds} {unit}, {}", as_easy(it.open))
}

/// `Most of the time goes to crust reach (31%), outside digits (22%) and hidden single (15%).`
pub fn shares(estimate: &Estimate) -> String {
    let all: f64 = estimate.by_technique.values().sum();
    let mut largest: Vec<_> = estimate.by_technique.iter().collect();
    largest.sort_by(|a, b| b.1.total_cmp(a.1).then(a.0.cmp(b.0)));
    largest.truncate(3);
    let share = |seconds: f64| if all > 0.0 { (100.0 * seconds / all).round() as u32 } else { 0 };
    let said: Vec<String> =
        largest.into_iter().map(|(id, it)| format!("{} ({}%)", technique_name(*id), share(*it))).collect();
    match said.is_empty() {
        true => "It takes no time.".to_owned(),
        false => format!("Most of the time goes to {}.", list(&said)),
    }
}

#[cfg(test)]
mod tests {
    use super::basis;

    #[test]
    fn an_estimate_is_called_one() {
        assert_eq!(basis(0), "estimate, not yet calibrated");
        assert_eq!([basis(1), basis(14)], ["calibrated on 1 solve", "calibrated on 14 solves"]);
    }
}
