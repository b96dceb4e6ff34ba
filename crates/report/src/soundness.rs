//! The verdict, and what shows it: two solutions side by side, what contradicts itself, or where a walkthrough
//! stopped; and what would make the puzzle sound.

use draw::{Marks, Scale};
use grid::CellSet;
use maud::{Markup, html};
use prove::{Conflict, Many, Member, Mend, Solutions};
use reason::Stopped;
use study::{Mending, Opened, Repair, Settlings, Study, Towards};

use crate::puzzle::{board, is_sound};
use crate::words;

/// So many changes of a kind are listed: those that are likeliest slips come first.
const MOST_CHANGES: usize = 12;

/// The verdict in the margin. It may be told while the puzzle is sealed: why a puzzle cannot have a
/// single solution is read off its page.
pub(crate) fn note(study: &Study) -> Markup {
    html! {
        dt { "Verdict" }
        dd {
            p {
                @if is_sound(study) { (words::verdict(study.finding())) }
                @else { strong.unsound { (words::verdict(study.finding())) } }
            }
            @if let Some((a, b)) = study.exchange() {
                p { (tell::exchange_explanation(study.entry().puzzle.size(), a, b)) }
            }
        }
    }
}

/// What there is to show for the verdict of an open puzzle.
pub(crate) fn details(study: &Study, opened: Opened) -> Markup {
    html! {
        @if let Some(many) = opened.many {
            h3 { "Two of its solutions" }
            (side_by_side(study, many))
        }
        @match opened.repair {
            Some(Repair::Mending(it)) => { (mending(study, it)) }
            Some(Repair::Settlings(it)) => { (settlings(study, it)) }
            None => {}
        }
        @if let Some(stopped) = opened.stopped {
            h3 { "No walkthrough" }
            (why_stopped(study, stopped))
        }
    }
}

fn side_by_side(study: &Study, many: &Many) -> Markup {
    let size = study.entry().puzzle.size();
    let differing: CellSet = size.cells().filter(|it| many.first.get(*it) != many.second.get(*it)).collect();
    let marks = Marks { conclusions: differing, ..Marks::default() };
    html! {
        p {
            "They differ in the " (differing.len()) " filled cells."
            @if let Some(cell) = differing.first() {
                @if let (Some(a), Some(b)) = (many.first.get(cell), many.second.get(cell)) {
                    " The first of them is " (cell) ": " (a) " or " (b) "."
                }
            }
        }
        div.pair {
            figure {
                (board(study, "one solution", &many.first, &marks, Scale::Small))
                figcaption { "One solution" }
            }
            figure {
                (board(study, "another solution", &many.second, &marks, Scale::Small))
                figcaption { "Another" }
            }
        }
    }
}

/// What contradicts itself, on the board, and the changes that would mend it.
fn mending(study: &Study, found: &Mending) -> Markup {
    html! {
        h3 { "What contradicts itself" }
        @match &found.conflict {
            Some(conflict) => {
                p { (tell::conflict(conflict)) }
                figure {
                    @let givens = study.entry().puzzle.givens();
                    (board(study, "what contradicts itself", givens, &marks(study, conflict), Scale::Small))
                }
            }
            None => { p { "It was not found within the work allowed." } }
        }
        h3 { "What would mend it" }
        p { (tell::mends_summary(&found.mends)) }
        @let one = found.mends.mends.iter().take_while(|it| it.solutions == Some(Solutions::Exactly(1))).count();
        @let (one, others) = found.mends.mends.split_at(one);
        (changes("Changes that leave exactly one solution", one))
        (changes("Other changes that leave solutions", others))
    }
}

/// The givens, clues and houses of a conflict, as they are used.
fn marks(study: &Study, conflict: &Conflict) -> Marks {
    let mut marks = Marks::default();
    for it in &conflict.members {
        match it {
            Member::Given(cell, _) => _ = marks.premises.insert(*cell),
            Member::Clue(it) => {
                marks.clues_used.extend(study.entry().puzzle.clue_at(it.rule, it.line).map(|(id, _)| id));
            }
            Member::House(house) => _ = marks.looked_at.insert(*house),
        }
    }
    marks
}

/// The likeliest of some changes.
fn changes(caption: &str, mends: &[Mend]) -> Markup {
    html! {
        @if !mends.is_empty() {
            table.changes {
                caption { (caption) }
                thead { tr {
                    th scope="col" { "Change" }
                    th scope="col" { "Solutions" }
                    th scope="col" { "If so, what happened" }
                } }
                tbody {
                    @for it in mends.iter().take(MOST_CHANGES) {
                        @let slips: Vec<&str> = it.slips.iter().map(|it| tell::slip(*it)).collect();
                        tr {
                            th scope="row" { (tell::change(it.change)) }
                            td { (tell::n_solutions(it.solutions)) }
                            td { (slips.join("; ")) }
                        }
                    }
                }
            }
            @if mends.len() > MOST_CHANGES {
                @let more = words::count(mends.len() - MOST_CHANGES);
                p { "And " (more) " more, which " code { "galley mend --all" } " shows." }
            }
        }
    }
}

/// What could be added.
fn settlings(study: &Study, found: &Settlings) -> Markup {
    let fewest =
        |it: &Towards| tell::fewest_additions(&study.entry().puzzle, it.givens.as_ref(), it.clues.as_ref());
    html! {
        h3 { "What would settle it" }
        p { (tell::single_givens(&found.single)) }
        dl.settlings {
            @for (name, it) in ["So that the first is left", "So that the other is left"].iter().zip(&found.towards) {
                dt { (name) }
                dd { p { (fewest(it)) } }
            }
        }
    }
}

fn why_stopped(study: &Study, stopped: &Stopped) -> Markup {
    let fault = "so the walkthrough was thrown away. That is a fault of Galley, not of the puzzle.";
    html! {
        @match stopped {
            Stopped::Stuck(grid) => {
                p { "From this board neither a technique nor a small argument within its limits leads on." }
                figure { (board(study, "where the walkthrough stopped", grid, &Marks::default(), Scale::Small)) }
            }
            Stopped::NotTeachable(n) => {
                p {
                    "Not teachable yet: its walkthrough takes " (n) " steps of last resort (small arguments, and what is "
                    "followed to an end), too many to be read out. One more given or clue may be enough to change that."
                }
            }
            Stopped::Wrong(step) => {
                p {
                    "A step (" (tell::technique_name(step.0.technique)) ") claimed what the proven solution "
                    "contradicts, " (fault)
                }
            }
            Stopped::Refused(_, refusal) => {
                p { "The check refused a step (" (refusal.to_string()) "), " (fault) }
            }
            Stopped::Misbuilt(error) => {
                p { "A step did not fit those before it (" (error.to_string()) "), " (fault) }
            }
        }
    }
}
