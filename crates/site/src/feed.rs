//! The feed: an Atom document (RFC 4287) with an entry a puzzle, and the map of the site for search engines.

use std::io;

use pack::Day;
use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesText, Event};

use crate::address::address;
use crate::contents::Contents;
use crate::frame::bare_pack_title;
use crate::{index, primer, puzzle, recording};
use page::bare;
use study::Published;

/// Where the feed is.
pub(crate) const PATH: &str = "feed.xml";

/// Where the map is.
pub(crate) const MAP_PATH: &str = "sitemap.xml";

/// The feed; none without an address on the web or a day of issue, for a feed must have both.
///
/// An entry is updated when its recording comes out, and otherwise on the day of issue. Its id is the address of its
/// page, which does not change.
pub(crate) fn feed(contents: &Contents) -> Option<String> {
    let info = contents.info;
    let (site, own) = (address(info, index::PATH)?, address(info, PATH)?);
    let issued = contents.issued?;
    let mut xml = begun();
    let written = xml
        .create_element("feed")
        .with_attribute(("xmlns", "http://www.w3.org/2005/Atom"))
        .write_inner_content(|xml| {
            put(xml, "title", &bare_pack_title(info))?;
            put(xml, "id", &site)?;
            put(xml, "updated", &moment(issued))?;
            link(xml, "self", &own)?;
            link(xml, "alternate", &site)?;
            // RFC 4287, 4.1.1: a feed has an author, unless all its entries have.
            if let Some(editor) = said(&info.editor) {
                person(xml, &editor)?;
            }
            if let Some(licence) = info.licence.as_deref().and_then(said) {
                put(xml, "rights", &licence)?;
            }
            contents.published.iter().try_for_each(|it| entry(xml, contents, it, issued))
        });
    let is_whole = written.is_ok();
    finished(xml, is_whole)
}

fn entry(xml: &mut Writer<Vec<u8>>, contents: &Contents, it: &Published, issued: Day) -> io::Result<()> {
    let entry = it.study.entry();
    let Some(page) = address(contents.info, &puzzle::path(&entry.id)) else { return Ok(()) };
    let recording = recording::out(entry, Some(issued));
    let updated = recording.and(entry.release).unwrap_or(issued);
    xml.create_element("entry").write_inner_content(|xml| {
        put(xml, "title", &said(&entry.title).unwrap_or_else(|| entry.id.to_string()))?;
        put(xml, "id", &page)?;
        put(xml, "updated", &moment(updated))?;
        link(xml, "alternate", &page)?;
        if let Some(recording) = recording {
            link(xml, "related", recording)?;
        }
        person(xml, &said(entry.credited()).unwrap_or_else(|| "unnamed".to_owned()))?;
        let said = if recording.is_some() { "Its recording is out." } else { "A puzzle to solve." };
        put(xml, "summary", said)
    })?;
    Ok(())
}

/// The map; none without an address on the web.
pub(crate) fn map(contents: &Contents) -> Option<String> {
    let puzzles = contents.published.iter().map(|it| puzzle::path(&it.study.entry().id));
    let lessons = (!contents.primer.lessons.is_empty()).then(|| primer::PATH.to_owned());
    let paths = std::iter::once(index::PATH.to_owned()).chain(lessons).chain(puzzles);
    let addresses: Option<Vec<String>> = paths.map(|it| address(contents.info, &it)).collect();
    let addresses = addresses?;
    let mut xml = begun();
    let urlset =
        xml.create_element("urlset").with_attribute(("xmlns", "http://www.sitemaps.org/schemas/sitemap/0.9"));
    let written = urlset.write_inner_content(|xml| {
        addresses.iter().try_for_each(|it| {
            xml.create_element("url").write_inner_content(|xml| put(xml, "loc", it)).map(|_| ())
        })
    });
    let is_whole = written.is_ok();
    finished(xml, is_whole)
}

fn begun() -> Writer<Vec<u8>> {
    let mut xml = Writer::new_with_indent(Vec::new(), b' ', 2);
    let written = xml.write_event(Event::Decl(BytesDecl::new("1.0", Some("utf-8"), None)));
    debug_assert!(written.is_ok(), "memory takes everything");
    xml
}

fn finished(xml: Writer<Vec<u8>>, is_whole: bool) -> Option<String> {
    let text = String::from_utf8(xml.into_inner()).ok().filter(|_| is_whole);
    text.map(|it| it + "\n")
}

fn put(xml: &mut Writer<Vec<u8>>, name: &str, text: &str) -> io::Result<()> {
    xml.create_element(name).write_text_content(BytesText::new(text)).map(|_| ())
}

fn link(xml: &mut Writer<Vec<u8>>, rel: &str, href: &str) -> io::Result<()> {
    xml.create_element("link")
        .with_attribute(("rel", rel))
        .with_attribute(("href", href))
        .write_empty()
        .map(|_| ())
}

fn person(xml: &mut Writer<Vec<u8>>, name: &str) -> io::Result<()> {
    xml.create_element("author").write_inner_content(|xml| put(xml, "name", name)).map(|_| ())
}

/// A text of the pack as it can stand in XML; none if nothing of it is left.
fn said(text: &str) -> Option<String> {
    Some(bare(text)).filter(|it| !it.trim().is_empty())
}

/// Noon on that day, as RFC 3339 has it: the feed knows no hours.
fn moment(day: Day) -> String {
    format!("{day}T12:00:00Z")
}
