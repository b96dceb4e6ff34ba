//! The page for addresses at which there is nothing.

use maud::html;

use crate::address::folder;
use crate::contents::Contents;
use crate::frame::{Page, imprint, pack_title};
use crate::index;

/// Where it is: the name that most hosts look for.
pub(crate) const PATH: &str = "404.html";

pub(crate) fn page(contents: &Contents) -> String {
    let info = contents.info;
    // It is shown at any depth, so links start from the host if it is known where the site will be.
    let root = folder(info);
    let to_index = format!("{}{}", root.as_deref().unwrap_or(""), index::PATH);
    let page = Page {
        root,
        has_feed: contents.has_feed(),
        main: html! {
            header.masthead {
                p.kind { "Nothing here" }
                h1 { "There is no such page" }
            }
            p.lead { "It may have moved, or the address may have a slip in it." }
            p { a.primer href=(to_index) { "To the puzzles of " (pack_title(info)) } }
        },
        footer: html! { p.credits { (imprint(info)) } },
        ..Page::new(info, PATH, "There is no such page".to_owned())
    };
    page.render()
}
