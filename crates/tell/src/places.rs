//! Why a puzzle stands where it stands in its pack.

use std::collections::BTreeSet;

use ::pack::{Costs, Placed};
use reason::by_ease;
use trail::TechniqueId;

use crate::{list, technique_name};

/// Why the puzzle of that number, from 1, stands where it stands: what is new in it and how it compares with the one
/// before; then what speaks against the place, if anything does. One to a few sentences.
pub fn why_here(number: usize, placed: &Placed) -> String {
    let step = placed.step_up.map(step).filter(|_| number > 1);
    let new = match (placed.new.len(), number) {
        (0, _) => "nothing new".to_owned(),
        (_, 1) => format!("it takes {}", techniques(&placed.new)),
        _ => format!("the first to take {}", techniques(&placed.new)),
    };
    let mut text = crate::capital(&format!("{}: {new}", ordinal(number)));
    if let Some(step) = step {
        text.push_str(&format!("; {step} {}", ordinal(number - 1)));
    }
    text.push('.');
    if !placed.practised.is_empty() {
        text.push_str(&format!(" It practises {}.", the_hardest(&placed.practised)));
    }
    for flaw in flaws(number, placed) {
        text.push_str(&format!(" {flaw}"));
    }
    text
}

/// What speaks against the place, a sentence each.
pub fn flaws(number: usize, placed: &Placed) -> Vec<String> {
    let flaws = placed.flaws;
    let before = if number > 1 { ordinal(number - 1) } else { String::new() };
    let mut sentences = Vec::new();
    if flaws.extra_new > 0 {
        let n = crate::capital(&crate::count(placed.new.len()));
        sentences.push(format!("{n} techniques are new at once."));
    }
    if !placed.unprepared.is_empty() {
        let (builds, has) = match placed.new.len() {
            1 => ("What is new builds", if placed.unprepared.len() == 1 { "has" } else { "have" }),
            _ => ("Some of what is new builds", if placed.unprepared.len() == 1 { "has" } else { "have" }),
        };
        sentences
            .push(format!("{builds} on {}, which {has} not been shown.", techniques(&placed.unprepared)));
    }
    if flaws.same_setter {
        sentences.push(format!("The {before} is by the same setter."));
    }
    if let Some(break_in) = placed.break_in.filter(|_| flaws.same_break_in) {
        sentences.push(format!("It opens as the {before} does, with {}.", technique_name(break_in)));
    }
    if flaws.shelf_back {
        sentences.push("A puzzle before it is of a later shelf.".to_owned());
    }
    sentences
}

/// What an order costs, part by part, without those that cost nothing: `20 for techniques that are new at once`.
pub fn costs(costs: Costs) -> String {
    let parts = [
        (costs.new_at_once, "techniques that are new at once"),
        (costs.prerequisites, "what has not been shown and is built on"),
        (costs.minutes_back, "effort that falls back"),
        (costs.same_setter, "setters twice running"),
        (costs.same_break_in, "break-ins twice running"),
        (costs.shelves, "shelves out of order"),
        (costs.not_taught, "techniques that are in none"),
        (costs.said_untrue, "what recordings say and is not so"),
    ];
    let said: Vec<String> =
        parts.iter().filter(|it| it.0 > 0).map(|(cost, what)| format!("{cost} for {what}")).collect();
    match said.is_empty() {
        true => "nothing".to_owned(),
        false => list(&said),
    }
}

/// `first`, `second` … `twentieth`; then in figures.
pub fn ordinal(n: usize) -> String {
    const WORDS: [&str; 20] = [
        "first",
        "second",
        "third",
        "fourth",
        "fifth",
        "sixth",
        "seventh",
        "eighth",
        "ninth",
        "tenth",
        "eleventh",
        "twelfth",
        "thirteenth",
        "fourteenth",
        "fifteenth",
        "sixteenth",
        "seventeenth",
        "eighteenth",
        "nineteenth",
        "twentieth",
    ];
    match (n, n % 10, n % 100) {
        (1..=20, ..) => WORDS[n - 1].to_owned(),
        (_, _, 11..=13) => format!("{n}th"),
        (_, 1, _) => format!("{n}st"),
        (_, 2, _) => format!("{n}nd"),
        (_, 3, _) => format!("{n}rd"),
        _ => format!("{n}th"),
    }
}

/// The techniques' names as a list, easiest first.
fn techniques(ids: &BTreeSet<TechniqueId>) -> String {
    list(&names(ids))
}

fn names(ids: &BTreeSet<TechniqueId>) -> Vec<&'static str> {
    by_ease(ids.iter().copied()).into_iter().map(technique_name).collect()
}

/// So many of the techniques that are practised are named.
const MOST_NAMED: usize = 3;

/// The same of the hardest, and how many others there are.
fn the_hardest(ids: &BTreeSet<TechniqueId>) -> String {
    let names = names(ids);
    match names.len().saturating_sub(MOST_NAMED) {
        // One more name takes no more room than to say that there is one.
        0 | 1 => list(&names),
        n => {
            let mut named: Vec<String> = names[n..].iter().rev().map(|it| (*it).to_owned()).collect();
            named.push(format!("{} others", crate::count(n)));
            list(&named)
        }
    }
}

/// How much longer it takes than the one before, up to the ordinal of that.
pub(crate) fn step(seconds: i64) -> String {
    let minutes = (seconds.unsigned_abs() + 30) / 60;
    let unit = if minutes == 1 { "minute" } else { "minutes" };
    match seconds {
        30.. => format!("about {minutes} {unit} longer than the"),
        ..=-30 => format!("about {minutes} {unit} shorter than the"),
        _ => "about as long as the".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use ::pack::{Flaws, PuzzleId};
    use reason::TECHNIQUES;

    use super::*;

    const SINGLE: TechniqueId = TechniqueId::new("hidden-single");
    const PAIR: TechniqueId = TechniqueId::new("naked-pair");
    const WING: TechniqueId = TechniqueId::new("x-wing");

    fn placed(new: &[TechniqueId], practised: &[TechniqueId]) -> Placed {
        Placed {
            id: PuzzleId::new("one").unwrap(),
            new: new.iter().copied().collect(),
            practised: practised.iter().copied().collect(),
            unprepared: BTreeSet::new(),
            step_up: None,
            break_in: None,
            flaws: Flaws::default(),
        }
    }

    #[test]
    fn places_are_explained() {
        let first = placed(&[SINGLE], &[]);
        assert_eq!(why_here(1, &first), "First: it takes hidden single.");
        let ninth = Placed { step_up: Some(360), ..placed(&[WING], &[PAIR, SINGLE]) };
        let expected = "Ninth: the first to take X-wing; about 6 minutes longer than the eighth. \
                        It practises hidden single and naked pair.";
        assert_eq!(why_here(9, &ninth), expected);
        let even = Placed { step_up: Some(-29), ..placed(&[], &[SINGLE]) };
        let expected = "Twenty-second: nothing new; about as long as the 21st. It practises hidden single.";
        assert_eq!(why_here(22, &even), expected.replace("Twenty-second", "22nd"));
    }

    #[test]
    fn what_speaks_against_a_place_is_said() {
        let flaws = Flaws {
            extra_new: 1,
            unprepared: 1,
            seconds_back: 60,
            same_setter: true,
            same_break_in: true,
            shelf_back: true,
        };
        let it = Placed {
            unprepared: [SINGLE].into(),
            step_up: Some(-60),
            break_in: Some(PAIR),
            flaws,
            ..placed(&[PAIR, WING], &[])
        };
        let expected = "Third: the first to take naked pair and X-wing; about 1 minute shorter than the second. \
                        Two techniques are new at once. Some of what is new builds on hidden single, which has not \
                        been shown. The second is by the same setter. It opens as the second does, with naked pair. \
                        A puzzle before it is of a later shelf.";
        assert_eq!(why_here(3, &it), expected);
    }

    #[test]
    fn of_much_that_is_practised_the_hardest_is_named() {
        let many: Vec<TechniqueId> = TECHNIQUES.iter().take(9).map(|it| it.id()).collect();
        let said = why_here(1, &placed(&[], &many));
        let [.., third, second, first] = &many[..] else { unreachable!() };
        let [first, second, third] = [first, second, third].map(|it| technique_name(*it));
        assert_eq!(
            said,
            format!("First: nothing new. It practises {first}, {second}, {third} and six others.")
        );
    }

    #[test]
    fn ordinals() {
        for (n, said) in
            [(1, "first"), (20, "twentieth"), (21, "21st"), (32, "32nd"), (43, "43rd"), (111, "111th")]
        {
            assert_eq!(ordinal(n), said);
        }
    }
}
