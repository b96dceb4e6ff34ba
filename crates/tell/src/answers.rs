//! Answers to a question about one claim: why it is so, and whether it is.

use grid::{Cell, Digit, DigitSet, House, Size};
use reason::{Judged, Judgement, Why};
use rulebook::Claim;
use trail::Trail;

use crate::Voice;
use crate::claims::{claim, together};
use crate::lists::{count, either_digit};
use crate::names::technique_name;
use crate::prose::Prose;

/// What comes of weighing a claim, which had to follow within so many steps. Where a reason belongs to it, that is for
/// [`because_of`] to say.
pub fn judged(judged: &Judged, claim: Claim, within: usize) -> String {
    let size = judged.board.size();
    match &judged.judgement {
        Judgement::WrongBoard(wrong) => wrong_board(size, wrong),
        Judgement::Follows(_) => true_and_follows(),
        Judgement::NotYet { missing, n_steps } => true_but_not_yet(size, within, missing, *n_steps),
        Judgement::Untrue { answer, open, against, .. } => {
            let untrue = claim.cell().map(|it| untrue(it, *answer, *open)).unwrap_or_default();
            let opposite = match against {
                Some(_) => opposite_follows(),
                None => opposite_not_yet(within),
            };
            format!("{untrue} {opposite}")
        }
    }
}

/// What settles a question, and how many steps lead there.
pub fn because_of(size: Size, why: &Why) -> String {
    because(size, why.goal, why.by, why.seen_in, why.trail().n_steps())
}

/// Why the goal is so: the fact `by` that settles it, and how many steps lead there. `seen_in` is the
/// house in which the goal's cell sees the digit of `by`, where that is how it is settled.
pub fn because(size: Size, goal: Claim, by: Claim, seen_in: Option<House>, n_steps: usize) -> String {
    let mut prose = Prose::default();
    let said = claim(size, &goal);
    let support = match n_steps {
        0 => "stands on the board".to_owned(),
        _ => format!("takes {}", steps(n_steps)),
    };
    match (seen_in, by) {
        _ if by == goal => prose.say(&format!("{said}: that {support}")),
        (Some(house), Claim::Is(at, digit)) => {
            prose.say(&format!("{said}, because {at} is {digit} and {house} has only one {digit}"));
            prose.say(&format!("that {at} is {digit} {support}"));
        }
        _ => {
            prose.say(&format!("{said}, because {}", of_same_cell(size, by)));
            prose.say(&format!("that {support}"));
        }
    }
    prose.finish()
}

/// That a claim is true and follows. What it follows from is for [`because`] to say.
fn true_and_follows() -> String {
    "True, and it follows from this board.".to_owned()
}

/// That a claim is true but does not follow within so many steps, and the facts from which it would.
pub fn true_but_not_yet(size: Size, within: usize, missing: &[Claim], n_steps: usize) -> String {
    let mut prose = Prose::default();
    prose.say(&format!(
        "true, but it does not follow yet: no way by techniques was found within {}",
        steps(within)
    ));
    let known = if missing.len() == 1 { "this were" } else { "these were" };
    // That a clue is spent is news of a step; what lies between the crusts says it all.
    let plain = |it: String| it.split_once("; ").map_or(it.clone(), |it| it.0.to_owned());
    let facts: Vec<String> = together(Voice::Booklet, size, missing).into_iter().map(plain).collect();
    let lead = format!("it would follow, in {}, if {known} known:", steps(n_steps));
    prose.say_in_turn(&lead, "and also:", &facts);
    prose.finish()
}

/// What would have justified a claim that was made too early: the steps that lead there, as [`reason::easiest_to`] finds
/// them.
pub fn would_have_taken(size: Size, trail: &Trail) -> String {
    let mut prose = Prose::default();
    let hardest = trail.steps().map(|(_, it)| it.technique()).max_by_key(|it| reason::rank(*it));
    let hardest = hardest.map(technique_name).unwrap_or_default();
    prose.say(&match trail.n_steps() {
        0 => "it stands on the board".to_owned(),
        1 => format!("one step: {hardest}"),
        n => format!("{}, the hardest of them “{hardest}”", steps(n)),
    });
    let on_the_way =
        trail.facts().filter(|(_, it)| it.step().is_some() && matches!(it.claim(), Claim::Is(..)));
    let mut digits: Vec<String> = on_the_way.map(|(_, it)| claim(size, &it.claim())).collect();
    // The last is the claim itself.
    digits.pop();
    if !digits.is_empty() {
        prose.say_in_turn("on the way,", "and", &digits);
    }
    prose.finish()
}

/// That techniques do not lead to a claim that was made too early.
pub fn nothing_leads_there() -> String {
    "No technique leads there: only trying it out, or a small argument.".to_owned()
}

/// That a claim about the cell is not true: what the cell holds, and what it could hold for all it sees
/// on the board.
pub fn untrue(cell: Cell, answer: Digit, open: DigitSet) -> String {
    let mut prose = Prose::default();
    prose.say(&format!("not true: {cell} is {answer}"));
    if open.len() > 1 {
        prose.say(&format!("for all that {cell} sees on this board, it could be {}", either_digit(open)));
    }
    prose.finish()
}

/// What is to be seen on the full board that shows that a claim is not true.
pub fn counterexample() -> &'static str {
    "A full board on which everything holds but the claim:"
}

/// That the opposite of an untrue claim follows. What it follows from is for [`because`] to say.
fn opposite_follows() -> String {
    "The opposite follows from this board.".to_owned()
}

/// That neither an untrue claim nor its opposite follows within so many steps.
pub fn opposite_not_yet(within: usize) -> String {
    format!("That does not follow yet: no way by techniques was found within {}.", steps(within))
}

/// That digits on the board are not the solution's, and which; without the digits that belong there.
pub fn wrong_board(size: Size, wrong: &[(Cell, Digit)]) -> String {
    let mut prose = Prose::default();
    prose.say("this board is wrong, so nothing that follows from it counts");
    let denied = wrong.iter().map(|(cell, digit)| claim(size, &Claim::IsNot(*cell, *digit)));
    prose.say_in_turn("in the solution,", "also,", &denied.collect::<Vec<_>>());
    prose.finish()
}

/// `it is 3`, `it is a crust`: a fact about the cell that was just named.
fn of_same_cell(size: Size, by: Claim) -> String {
    let said = claim(size, &by);
    match by.cell() {
        Some(cell) => said.replacen(&cell.to_string(), "it", 1),
        None => said,
    }
}

/// `one step`, `three steps`.
fn steps(n: usize) -> String {
    format!("{} step{}", count(n), if n == 1 { "" } else { "s" })
}
