//! People: the editors' accounts, whom they invited, and what happened at the door.

use std::collections::BTreeSet;
use std::sync::Arc;

use axum::extract::{Extension, State};
use axum::response::Html;
use maud::{Markup, html};
use page::text;

use super::frame::{Here, NoPage, Page};
use crate::api::{InvitationNow, MOST_DAYS, People, people_of};
use crate::doors::{Caller, Who};
use crate::folder::Reading;
use crate::state::Desk;

pub(super) async fn page(
    State(desk): State<Arc<Desk>>,
    Extension(caller): Extension<Caller>,
) -> Result<Html<String>, NoPage> {
    let people = people_of(&desk).await?;
    let reading = desk.view().reading;
    let main = html! {
        h1 { "People" }
        (accounts(&people, &caller.who))
        @if !people.accounts.is_empty() { (form(&reading)) }
        (invitations(&people, &reading))
        (notes(&people))
    };
    let title = "People".to_owned();
    Ok(Page { title, script: Some("people.js"), here: Here::People, main }.render(&desk))
}

fn accounts(people: &People, who: &Who) -> Markup {
    html! {
        section aria-labelledby="accounts-head" {
            h2 #accounts-head { "Editors" }
            @if people.accounts.is_empty() {
                p {
                    "There are no accounts: whoever can reach this desk, on this machine, is its editor. With the first account every \
                     page asks who comes, and testers and setters can be invited. Add one in a terminal:"
                }
                p { code { "galley desk PACK --add-account NAME" } }
            } @else {
                ul { @for it in &people.accounts { li { (text(it)) @if who.name() == it { " (you)" } } } }
                p { "Accounts are added and removed in a terminal, with " code.option { "--add-account" } ", " code.option { "--change-password" } " and " code.option { "--remove-account" } "." }
                p.actions { button type="button" #sign-out { "Sign out" } }
            }
        }
    }
}

fn form(reading: &Reading) -> Markup {
    let entries = &reading.read.pack.entries;
    let setters: BTreeSet<&str> = entries.iter().map(|it| &it.setter[..]).collect();
    html! {
        section aria-labelledby="invite-head" {
            h2 #invite-head { "Invite somebody" }
            form #invite {
                fieldset {
                    legend { "What for" }
                    p.choice { input #for-tester type="radio" name="role" value="tester" checked; label for="for-tester" { "To solve puzzles, without anything of their solutions" } }
                    p.choice { input #for-setter type="radio" name="role" value="setter"; label for="for-setter" { "To read what was found out about their own puzzles" } }
                }
                p data-for="tester" { label for="tester" { "Who solves" } input #tester name="tester" maxlength="80" autocomplete="off"; }
                p data-for="setter" hidden {
                    label for="setter" { "Which setter" }
                    select #setter name="setter" { @for it in setters { option value=(it) { (text(it)) } } }
                }
                fieldset data-for="tester" {
                    legend { "Which puzzles" }
                    div.choices { @for it in entries {
                        p.choice {
                            input id={ "solve-" (it.id) } type="checkbox" name="puzzle" value=(it.id);
                            label for={ "solve-" (it.id) } { (text(&it.title)) }
                        }
                    } }
                }
                p { label for="days" { "For how many days" } input #days name="days" type="number" min="1" max=(MOST_DAYS) value="14" required; }
                p.actions { button { "Make a link" } }
            }
            p.said role="status" #said {}
            p #made hidden {
                label for="link" { "The link. It is shown this once; send it to nobody else" }
                input #link readonly;
                button type="button" #copy { "Copy it" }
            }
        }
    }
}

fn invitations(people: &People, reading: &Reading) -> Markup {
    let title = |id: &str| {
        let entry = reading.read.pack.entries.iter().find(|it| it.id.as_str() == id);
        entry.map_or_else(|| id.to_owned(), |it| it.title.clone())
    };
    let what_for = |it: &InvitationNow| match it.role == "setter" {
        true => "reads about their own puzzles".to_owned(),
        false => tell::list(&it.puzzles.iter().map(|it| title(it)).collect::<Vec<_>>()),
    };
    html! {
        section #invitations aria-labelledby="invitations-head" {
            h2 #invitations-head { "Invitations" }
            @if people.invitations.is_empty() { p { "Nobody was invited yet." } }
            @else { ul.invitations { @for it in &people.invitations { li {
                p { strong { (text(&it.person)) } ": " (text(&what_for(it))) }
                p.setter {
                    @match &it.state[..] {
                        "open" => { "Open for " @if it.days_left == 0 { "less than a day" } @else if it.days_left == 1 { "1 day" } @else { (it.days_left) " days" } }
                        "over" => { "Over" }
                        _ => { "Revoked" }
                    }
                    @if it.is_used { ", was followed" } @else { ", not followed yet" }
                    ", made by " (text(&it.made_by)) "."
                }
                @if it.state == "open" {
                    p.actions { button type="button" data-revoke=(it.id) aria-label={ "Revoke it: the invitation of " (page::bare(&it.person)) } { "Revoke it" } }
                }
            } } } }
        }
    }
}

fn notes(people: &People) -> Markup {
    html! {
        section #door aria-labelledby="door-head" {
            h2 #door-head { "At the door" }
            @if people.notes.is_empty() { p { "Nothing has happened there yet." } }
            @else { div.wide tabindex="0" role="region" aria-label="What happened at the door" { table {
                caption { "The latest 200 things that happened, in the time of Greenwich." }
                thead { tr { th scope="col" { "When" } th scope="col" { "What" } th scope="col" { "Who" } th scope="col" { "From" } } }
                tbody { @for it in &people.notes { tr {
                    td { (it.noted_at) }
                    td { (happened(&it.what)) @if !it.about.is_empty() { ": " (text(&it.about)) } }
                    td { (text(&it.who)) }
                    td { (text(&it.address)) }
                } } }
            } } }
        }
    }
}

/// What happened, in words.
fn happened(what: &str) -> &'static str {
    match what {
        "signed-in" => "signed in",
        "refused-sign-in" => "sign-in refused",
        "signed-out" => "signed out",
        "invited" => "invited",
        "came-in" => "followed an invitation",
        "refused-invitation" => "no such invitation",
        "revoked" => "revoked an invitation",
        "write-refused" => "write refused",
        "account-added" => "account added",
        "password-changed" => "password changed",
        "account-removed" => "account removed",
        _ => "something else",
    }
}
