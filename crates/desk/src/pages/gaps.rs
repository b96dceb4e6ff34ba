//! What the pack lacks, each with a way to have a puzzle set for it; and what was set, to be kept or let go.

use maud::{Markup, html};
use study::StudiedPack;
use trail::TechniqueId;

use super::jobs::jobs;
use crate::setting::Gaps;

pub(super) fn gaps(pack: &StudiedPack) -> Markup {
    html! {
        section #gaps aria-labelledby="gaps-head" {
            h2 #gaps-head { "What the pack lacks" }
            @match Gaps::of(pack) {
                None => p { "It is not said while a puzzle is sealed: that one might have it." },
                Some(it) if it.never_taught.is_empty() && it.never_practised.is_empty() => {
                    p { "Nothing: each technique is introduced, and practised after." }
                }
                Some(it) => {
                    (list("Never taught", "never-taught", &it.never_taught))
                    (list("Introduced and never practised", "never-practised", &it.never_practised))
                    (how())
                }
            }
        }
    }
}

/// The jobs, and the puzzles that they have set: the script shows them (`play/gaps.js`).
pub(super) fn set_puzzles() -> Markup {
    html! {
        (jobs(&[]))
        section #made aria-labelledby="made-head" hidden {
            h2 #made-head tabindex="-1" { "Puzzles that were set" }
            p.lead { "One that is kept gets a file of its own in the pool, unless you give it a place. What is neither kept nor let go is forgotten with the desk; its seed makes it again." }
            div.list {}
        }
    }
}

fn list(head: &str, id: &str, lacking: &[TechniqueId]) -> Markup {
    html! {
        @if !lacking.is_empty() {
            h3 id=(id) { (head) }
            ul.gaps aria-labelledby=(id) {
                @for it in lacking {
                    li {
                        span { (tell::capital(tell::technique_name(*it))) }
                        button type="button" data-technique=(it.name()) aria-label={ "Set one for " (tell::technique_name(*it)) } { "Set one" }
                    }
                }
            }
        }
    }
}

/// How puzzles are set: the same for each of the list.
fn how() -> Markup {
    html! {
        form #how {
            p.lead { "A puzzle is set that cannot be finished without the technique, for a solver who knows what the pack teaches." }
            div.choices {
                p { label for="seed" { "Seed (empty: any)" } input #seed name="seed" inputmode="numeric" pattern="[0-9]*" maxlength="19" autocomplete="off"; }
                p { label for="count" { "How many" } select #count name="count" { @for n in 1..=5 { option value=(n) { (n) } } } }
                p { label for="tries" { "Tries at most" } input #tries name="tries" type="number" min="1" max="100000" value=(crate::setting::USUAL_TRIES); }
            }
            p.said #set-said role="status" {}
        }
    }
}
