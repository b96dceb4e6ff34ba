//! What all pages of the site share: the head, the way past it, the foot, the style sheet, the icon.

use maud::{DOCTYPE, Markup, PreEscaped, html};
use pack::PackInfo;

use crate::address::address;
use crate::words::UNTITLED;
use crate::{feed, offline, play, preview};
use page::{bare, text};

/// Where the style sheet is.
pub(crate) const STYLE_PATH: &str = "sheet.css";

/// Where the icon is.
pub(crate) const ICON_PATH: &str = "icon.svg";

/// Nothing may run, and nothing may be fetched but the site's own files, whatever a file of the pack holds.
/// `file:` is for reading from a disk, where some browsers do not count a neighbour as `'self'`;
/// `wasm-unsafe-eval` lets the engine run, and no other code.
const POLICY: &str = "default-src 'none'; script-src 'self' file: 'wasm-unsafe-eval'; connect-src 'self'; \
     style-src 'self' file:; img-src 'self' file:; worker-src 'self'; base-uri 'none'; form-action 'none'";

/// The style sheet: what all of Galley's pages share, then the rules of the site.
pub(crate) fn style() -> String {
    [&page::style(), BOARD_STYLE, include_str!("site.css")].concat()
}

/// The rules for a board to write on, beside those that all pages share.
pub const BOARD_STYLE: &str = include_str!("play.css");

/// The icon: a crust.
pub(crate) fn icon() -> String {
    draw::standalone(&draw::swatch(draw::Mark::Crust, "A crust"))
}

/// A picture for link previews.
pub(crate) struct Picture {
    /// Its path within the site.
    pub(crate) path: String,
    /// What it shows, in words.
    pub(crate) says: String,
}

/// A page of the site.
pub(crate) struct Page<'a> {
    pub(crate) info: &'a PackInfo,
    /// Its path within the site.
    pub(crate) path: &'a str,
    /// The title of the window.
    pub(crate) title: String,
    /// What a search engine would show below it.
    pub(crate) description: String,
    /// What links to the site's own files begin with, where that is not the way from the page's own folder.
    pub(crate) root: Option<String>,
    /// Whether it is a sheet to write on.
    pub(crate) is_sheet: bool,
    /// Whether the site has a feed.
    pub(crate) has_feed: bool,
    /// What a link to it may be shown with.
    pub(crate) picture: Option<Picture>,
    /// What machines are told of it: JSON that can stand in a script element.
    pub(crate) metadata: Option<String>,
    /// What is skipped to.
    pub(crate) main: Markup,
    /// What stands above and below it.
    pub(crate) header: Markup,
    pub(crate) footer: Markup,
}

impl<'a> Page<'a> {
    /// A page at that path with nothing on it but its title.
    pub(crate) fn new(info: &'a PackInfo, path: &'a str, title: String) -> Page<'a> {
        Page {
            info,
            path,
            description: title.clone(),
            title,
            root: None,
            is_sheet: false,
            has_feed: false,
            picture: None,
            metadata: None,
            main: html! {},
            header: html! {},
            footer: html! {},
        }
    }

    /// The page as HTML.
    pub(crate) fn render(&self) -> String {
        let to_root = self.root.clone().unwrap_or_else(|| "../".repeat(self.path.matches('/').count()));
        let address = address(self.info, self.path);
        let picture = self
            .picture
            .as_ref()
            .and_then(|it| Some((crate::address::address(self.info, &it.path)?, &it.says)));
        let page = html! {
            (DOCTYPE)
            html lang="en" {
                head {
                    meta charset="utf-8";
                    meta name="viewport" content="width=device-width, initial-scale=1";
                    meta http-equiv="Content-Security-Policy" content=(POLICY);
                    title { (self.title) }
                    meta name="description" content=(self.description);
                    @if let Some(address) = &address {
                        link rel="canonical" href=(address);
                        meta property="og:type" content="website";
                        meta property="og:url" content=(address);
                        meta property="og:title" content=(self.title);
                        meta property="og:description" content=(self.description);
                        meta property="og:site_name" content=(bare_pack_title(self.info));
                        @if let Some((picture, says)) = picture {
                            meta property="og:image" content=(picture);
                            meta property="og:image:type" content="image/png";
                            meta property="og:image:width" content=(preview::SIZE.width);
                            meta property="og:image:height" content=(preview::SIZE.height);
                            meta property="og:image:alt" content=(says);
                        }
                        @if self.has_feed {
                            link rel="alternate" type="application/atom+xml" title=(bare_pack_title(self.info))
                                href={ (to_root) (feed::PATH) };
                        }
                    }
                    @if let Some(metadata) = &self.metadata {
                        script type="application/ld+json" { (PreEscaped(metadata)) }
                    }
                    link rel="icon" type="image/svg+xml" href={ (to_root) (ICON_PATH) };
                    link rel="stylesheet" href={ (to_root) (STYLE_PATH) };
                    @if self.is_sheet { script src={ (to_root) (play::SCRIPT_PATH) } defer {} }
                    script src={ (to_root) (offline::SCRIPT_PATH) } defer {}
                }
                body {
                    a.skip href="#main" { "Skip to the content" }
                    (self.header)
                    main #main tabindex="-1" { (self.main) }
                    footer { (self.footer) }
                }
            }
        };
        page.into_string()
    }
}

/// The pack's title in running text.
pub(crate) fn pack_title(info: &PackInfo) -> Markup {
    html! { @if is_untitled(info) { (UNTITLED) } @else { (text(&info.title)) } }
}

/// The pack's title where no element can stand.
pub(crate) fn bare_pack_title(info: &PackInfo) -> String {
    if is_untitled(info) { UNTITLED.to_owned() } else { bare(&info.title) }
}

/// Whether the pack has no title.
pub(crate) fn is_untitled(info: &PackInfo) -> bool {
    bare(&info.title).trim().is_empty()
}

/// Who edits the pack and how it may be used, as far as that is known.
pub(crate) fn imprint(info: &PackInfo) -> Markup {
    html! {
        @if !info.editor.trim().is_empty() { "Edited by " (text(&info.editor)) ". " }
        @match &info.licence {
            Some(licence) => { "Licence: " (text(licence)) "." }
            None => { "No licence is named: ask the editor before you copy it." }
        }
    }
}
