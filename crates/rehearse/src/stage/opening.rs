//! The words of the opening: credit and rules.

use maud::{Markup, html};
use pack::Entry;
use page::text;
use tell::RuleWords;

/// Who set it and where it is from.
pub(super) fn credit(entry: &Entry, pack_title: &str) -> Markup {
    html! {
        p.setter { "Set by " (text(entry.credited())) }
        @if !pack_title.trim().is_empty() { p.pack { "From " (text(pack_title)) } }
    }
}

/// The rules in full.
pub(super) fn rules(rules: &[RuleWords]) -> Markup {
    html! {
        @for rule in rules {
            h3 { (rule.name) }
            @for it in &rule.full { p { (it) } }
        }
    }
}
