//! What all pages of the site share: the head, the way past it, the foot, the style sheet, the icon.

use maud::{DOCTYPE, Markup, html};
use pack::PackInfo;

use crate::words::UNTITLED;
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
    page::style() + include_str!("site.css")
}

/// The icon: a crust.
pub(crate) fn icon() -> String {
    draw::standalone(&draw::swatch(draw::Mark::Crust, "A crust"))
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
    /// The script that makes more of it, if it has one: its path within the site.
    pub(crate) script: Option<&'static str>,
    /// What is skipped to.
    pub(crate) main: Markup,
    /// What stands above and below it.
    pub(crate) header: Markup,
    pub(crate) footer: Markup,
}

impl Page<'_> {
    /// The page as HTML.
    pub(crate) fn render(&self) -> String {
        let to_root = "../".repeat(self.path.matches('/').count());
        let page = html! {
            (DOCTYPE)
            html lang="en" {
                head {
                    meta charset="utf-8";
                    meta name="viewport" content="width=device-width, initial-scale=1";
                    meta http-equiv="Content-Security-Policy" content=(POLICY);
                    title { (self.title) }
                    meta name="description" content=(self.description);
                    @if let Some(address) = self.address() { link rel="canonical" href=(address); }
                    link rel="icon" type="image/svg+xml" href={ (to_root) (ICON_PATH) };
                    link rel="stylesheet" href={ (to_root) (STYLE_PATH) };
                    @if let Some(script) = self.script { script src={ (to_root) (script) } defer {} }
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

    /// Where the page will be on the web, if the pack names a folder there.
    fn address(&self) -> Option<String> {
        let base = self.info.base_url.as_deref()?;
        let is_web = base.starts_with("https://") || base.starts_with("http://");
        let is_folder = base.chars().all(|it| it.is_ascii_graphic() && !"\"'<>\\^`{|}?#".contains(it));
        let between = if base.ends_with('/') { "" } else { "/" };
        (is_web && is_folder).then(|| format!("{base}{between}{}", self.path))
    }
}

/// The pack's title in running text.
pub(crate) fn pack_title(info: &PackInfo) -> Markup {
    html! { @if info.title.trim().is_empty() { (UNTITLED) } @else { (text(&info.title)) } }
}

/// The pack's title where no element can stand.
pub(crate) fn bare_pack_title(info: &PackInfo) -> String {
    let title = bare(&info.title);
    if title.trim().is_empty() { UNTITLED.to_owned() } else { title }
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
