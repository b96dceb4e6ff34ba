//! The two pages that anybody may see: where editors sign in, and where an invitation is followed.

use std::sync::Arc;

use axum::extract::State;
use axum::response::Html;
use maud::html;

use super::frame::{Here, Page};
use crate::state::Desk;

/// What stands in the place of any page while nobody is signed in; afterwards the page itself does.
pub(crate) fn sign_in(desk: &Desk) -> Html<String> {
    let main = html! {
        h1 { "Sign in" }
        p.lead { "This desk is its editors’. If you were invited to solve puzzles or to read about yours, follow your link once more." }
        form #sign-in {
            p { label for="name" { "Name" } input #name name="name" required maxlength="80" autocomplete="username"; }
            p {
                label for="password" { "Password" }
                input #password name="password" type="password" required maxlength="1024" autocomplete="current-password";
            }
            p.actions { button { "Sign in" } }
        }
        p.said role="status" #said {}
    };
    Page { title: "Sign in".to_owned(), script: Some("signing.js"), here: Here::Door, main }.render(desk)
}

/// Where a link of an invitation leads. Its token stands behind a `#`, which only the page's script can read; the script
/// takes it out of the address and sends it when somebody says so, for a page that is only fetched must begin nothing.
pub(super) async fn invited(State(desk): State<Arc<Desk>>) -> Html<String> {
    let main = html! {
        h1 { "You are invited" }
        p.lead {
            "The link that brought you here is yours: whoever has it can come in as you. It is no longer in the address; \
             keep the message that it came with, to come back from another browser."
        }
        form #come-in { p.actions { button disabled { "Come in" } } }
        p.said role="status" #said {}
        noscript { p { "This page needs its script." } }
    };
    let title = "You are invited".to_owned();
    Page { title, script: Some("signing.js"), here: Here::Door, main }.render(&desk)
}
