//! The part of a puzzle's page that is about its setter: whether they have approved it, and what to write to them.

use ::pack::Entry;
use maud::{Markup, html};
use packfile::fingerprint;
use page::{paragraphs, text};
use season::Approved;

/// What the part is made from: it is another as soon as anything of that is.
fn state(entry: &Entry, approved: Approved) -> String {
    format!("{} {} {:?}", fingerprint(&entry.puzzle), approved.says(), entry.credit)
}

/// The part. The letter itself comes when it is asked for.
pub(super) fn section(entry: &Entry) -> Markup {
    let approved = Approved::of(entry);
    let is_current = matches!(approved, Approved::Yes(_));
    html! {
        section #letter aria-labelledby="letter-head" data-puzzle=(entry.id) data-fingerprint=(fingerprint(&entry.puzzle))
            data-state=(state(entry, approved)) {
            h2 #letter-head { "To its setter" }
            p.approved data-current=(is_current) { (approved.says()) }
            p.actions {
                @if !is_current { button type="button" data-approve="yes" { "The setter has approved it as it is" } }
                @if approved != Approved::No { button type="button" data-approve="no" { "Take the approval back" } }
            }
            @if let Some(wishes) = &entry.credit.wishes {
                dl.notes { dt { "What " (text(&entry.setter)) " wishes" } dd { (paragraphs(wishes)) } }
            }
            details.letter {
                summary { "A letter to copy" }
                p { label for="letter-subject" { "Subject" } input #letter-subject type="text" readonly value=""; }
                p { label for="letter-text" { "Letter" } textarea #letter-text rows="16" readonly {} }
                p.actions {
                    button type="button" data-copy="letter" disabled { "Copy the letter" }
                    a href={ "/api/1/puzzles/" (entry.id) "/letter.txt" } { "As plain text" }
                }
            }
            p.said role="status" {}
        }
    }
}
