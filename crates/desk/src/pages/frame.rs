//! What all pages share: the head, the way between them, and the line that says what happens.

use axum::response::{Html, IntoResponse, Response};
use maud::{DOCTYPE, Markup, html};
use page::{bare, sentence};

use crate::answers::Refused;
use crate::state::Desk;

/// A page.
pub(super) struct Page<'a> {
    /// The title of the window.
    pub(super) title: String,
    /// The script of the page; none for a page that only shows.
    pub(super) script: Option<&'a str>,
    /// Which of the ways between pages leads here.
    pub(super) here: Here,
    /// What it is about.
    pub(super) main: Markup,
}

/// A way between pages.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Here {
    Pack,
    Puzzle,
    Season,
    Solves,
    Press,
    /// A page with the site's playing sheet.
    Sheet,
    People,
    /// What anybody may see: no way leads on.
    Door,
    /// What an invited person comes to.
    Yours,
    /// A sheet of an invited tester.
    InvitedSheet,
}

const WAYS: [(Here, &str, &str); 5] = [
    (Here::Pack, "/", "Pack"),
    (Here::Season, "/season", "Season"),
    (Here::Solves, "/solves", "Test solves"),
    (Here::Press, "/press", "Press"),
    (Here::People, "/people", "People"),
];

const INVITED_WAYS: [(Here, &str, &str); 1] = [(Here::Yours, "/yours", "Your puzzles")];

/// The ways that lead on from there.
fn ways(here: Here) -> &'static [(Here, &'static str, &'static str)] {
    match here {
        Here::Door => &[],
        Here::Yours | Here::InvitedSheet => &INVITED_WAYS,
        _ => &WAYS,
    }
}

impl Page<'_> {
    pub(super) fn render(&self, desk: &Desk) -> Html<String> {
        let ways = ways(self.here);
        let page = html! {
            (DOCTYPE)
            html lang="en" {
                head {
                    meta charset="utf-8";
                    meta name="viewport" content="width=device-width, initial-scale=1";
                    meta name="desk-token" content=(desk.token.to_string());
                    title { (bare(&self.title)) }
                    link rel="icon" href="/icon.svg" type="image/svg+xml";
                    @if matches!(self.here, Here::Sheet | Here::InvitedSheet) { link rel="stylesheet" href="/sheet.css"; }
                    link rel="stylesheet" href="/desk.css";
                    @if let Some(script) = self.script {
                        script type="module" src={ "/play/" (script) } {}
                    }
                }
                body {
                    a.skip href="#main" { "Skip to the page" }
                    header.running {
                        @if !ways.is_empty() {
                            nav aria-label="Pages of the desk" {
                                ul {
                                    @for (here, address, name) in ways {
                                        li {
                                            a href=(address) aria-current=[(*here == self.here).then_some("page")] { (name) }
                                        }
                                    }
                                }
                            }
                        }
                        p #news role="status" {}
                    }
                    main #main tabindex="-1" { (self.main) }
                }
            }
        };
        Html(page.into_string())
    }
}

/// A page that there is not, said as a page.
#[derive(Debug)]
pub(crate) struct NoPage(Refused);

impl From<Refused> for NoPage {
    fn from(it: Refused) -> NoPage {
        NoPage(it)
    }
}

impl IntoResponse for NoPage {
    fn into_response(self) -> Response {
        let Refused { status, body } = self.0;
        let page = html! {
            (DOCTYPE)
            html lang="en" {
                head {
                    meta charset="utf-8";
                    meta name="viewport" content="width=device-width, initial-scale=1";
                    title { "Nothing to show" }
                    link rel="icon" href="/icon.svg" type="image/svg+xml";
                    link rel="stylesheet" href="/desk.css";
                }
                body {
                    main {
                        h1 { "Nothing to show" }
                        p { (sentence(&tell::capital(&body.message))) }
                        p { (sentence(&tell::capital(&body.help))) }
                        p { a href="/" { "The pack" } }
                    }
                }
            }
        };
        (status, Html(page.into_string())).into_response()
    }
}
