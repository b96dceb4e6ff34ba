//! What the site tells machines: feed, map, metadata, pictures for previews, and the worker that keeps it offline.

mod common;

use std::collections::BTreeSet;

use common::{all, demo, hostile, info, one, pack_of, parsed, sample, site, text};
use pack::{Day, Entry, PackInfo};
use primer::Primer;
use quick_xml::Reader;
use quick_xml::events::Event;
use resvg::tiny_skia::Pixmap;
use site::Files;
use study::StudiedPack;

/// The text of a file.
fn file<'a>(files: &'a Files, path: &str) -> &'a str {
    std::str::from_utf8(&files[path]).unwrap()
}

/// An element of an XML document: its path of names, its attributes and its own text.
type Element = (String, Vec<(String, String)>, String);

/// Every element of a sound XML document.
fn elements(xml: &str) -> Vec<Element> {
    let mut reader = Reader::from_str(xml);
    let (mut path, mut found) = (Vec::<String>::new(), Vec::<Element>::new());
    let mut open: Vec<usize> = Vec::new();
    loop {
        match reader.read_event().unwrap() {
            Event::Start(it) => {
                path.push(it.name().as_ref().to_owned());
                found.push((path.join("/"), attributes(&it), String::new()));
                open.push(found.len() - 1);
            }
            Event::Empty(it) => {
                found.push((
                    format!("{}/{}", path.join("/"), it.name().as_ref()),
                    attributes(&it),
                    String::new(),
                ));
            }
            Event::End(_) => {
                path.pop();
                open.pop();
            }
            Event::Text(it) => {
                if let Some(at) = open.last() {
                    found[*at].2.push_str(&it);
                }
            }
            Event::GeneralRef(it) => {
                if let Some(at) = open.last() {
                    found[*at].2.push_str(quick_xml::escape::resolve_xml_entity(&it).unwrap());
                }
            }
            Event::Eof => break,
            _ => {}
        }
    }
    assert!(path.is_empty());
    found
}

fn attributes(element: &quick_xml::events::BytesStart) -> Vec<(String, String)> {
    let each = element.attributes().map(|it| {
        let it = it.unwrap();
        (it.key.as_ref().to_owned(), quick_xml::escape::unescape(&it.value).unwrap().into_owned())
    });
    each.collect()
}

/// A pack of hostile texts that has a place on the web all the same.
fn hostile_at_home() -> StudiedPack {
    let pack = hostile();
    let info = PackInfo { base_url: info().base_url, ..pack.info().clone() };
    StudiedPack::new(info, pack.studies().to_vec())
}

fn with_recordings() -> StudiedPack {
    let recorded = |id: &str, release| Entry {
        recording: Some(format!("https://video.example/{id}?a=1&b=2")),
        release,
        chapters: ["0:00 Opening", "12:30 <b>Row 4</b>"].map(|it| it.parse().unwrap()).into(),
        ..demo(id)
    };
    let entries = vec![
        recorded("first-light", None),
        recorded("low-wick", Day::new(2026, 12, 1)),
        recorded("two-moths", Day::new(2026, 12, 2)),
        Entry { release: Day::new(2027, 1, 6), ..demo("north-window") },
        demo("spent-match"),
    ];
    pack_of(info(), entries)
}

/// RFC 4287: 4.1.1 (`feed` has one `id`, `title` and `updated`, and an author), 4.1.2 (so has each `entry`; without
/// content it has an alternate link), 3.3 (dates are of RFC 3339), 4.2.6 (ids are absolute and never the same).
#[test]
fn the_feed_holds_what_the_standard_asks_for() {
    for pack in [sample(), with_recordings(), hostile_at_home()] {
        let files = site(&pack);
        let all = elements(file(&files, "feed.xml"));
        assert_eq!(all[0].0, "feed");
        assert_eq!(all[0].1, [("xmlns".to_owned(), "http://www.w3.org/2005/Atom".to_owned())]);
        let n = |path: &str| all.iter().filter(|it| it.0 == path).count();
        let n_entries = pack.published().len();
        assert_eq!(n("feed/entry"), n_entries);
        for needed in ["id", "title", "updated"] {
            assert_eq!(n(&format!("feed/{needed}")), 1, "{needed}");
            assert_eq!(n(&format!("feed/entry/{needed}")), n_entries, "{needed}");
        }
        assert!(n("feed/author/name") == 1 && n("feed/entry/author/name") == n_entries);
        for (path, attributes, text) in &all {
            match path.rsplit('/').next().unwrap() {
                "id" => assert!(text.starts_with("https://example.org/lantern-room/"), "{text}"),
                "updated" => {
                    assert!(
                        text.strip_suffix("T12:00:00Z").is_some_and(|it| it.parse::<Day>().is_ok()),
                        "{text}"
                    );
                }
                "title" | "name" => assert!(!text.trim().is_empty(), "{path}"),
                "link" => assert!(attributes.iter().any(|it| it.0 == "href" && it.1.starts_with("https://"))),
                _ => {}
            }
        }
        let ids: Vec<&String> = all.iter().filter(|it| it.0.ends_with("/id")).map(|it| &it.2).collect();
        assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len());
    }
}

#[test]
fn a_recording_is_linked_to_from_the_day_it_is_out() {
    let files = site(&with_recordings());
    let links: Vec<String> = elements(file(&files, "feed.xml"))
        .into_iter()
        .filter(|it| it.1.contains(&("rel".to_owned(), "related".to_owned())))
        .map(|it| it.1[1].1.clone())
        .collect();
    let address = |id: &str| format!("https://video.example/{id}?a=1&b=2");
    assert_eq!(links, [address("first-light"), address("low-wick")]);

    let notes = |id: &str| {
        let page = parsed(file(&files, &format!("puzzles/{id}.html")));
        let link = all(&page, ".about a").first().and_then(|it| it.attr("href")).map(str::to_owned);
        (link, text(one(&page, ".about")))
    };
    assert_eq!(notes("first-light").0, Some(address("first-light")));
    assert_eq!(notes("low-wick").0, Some(address("low-wick")));
    // Chapters stand beside it, folded, as the editor wrote them.
    let page = parsed(file(&files, "puzzles/first-light.html"));
    let chapters = one(&page, ".about details.chapters:not([open])");
    assert_eq!(text(chapters), "Chapters0:00Opening12:30<b>Row 4</b>");
    // Nothing that is not out is given away.
    for (id, said) in [("two-moths", "It comes out on 2 December 2026."), ("north-window", "6 January 2027")]
    {
        let (link, text) = notes(id);
        assert!(link.is_none() && text.contains(said), "{text}");
        let page = file(&files, &format!("puzzles/{id}.html"));
        assert!(!page.contains("video.example") && !page.contains("chapters"));
    }
    assert!(!notes("spent-match").1.contains("Recording"));
    // Without a day nobody knows what is out by then.
    let undated = site::site(&with_recordings(), &Primer::default(), None);
    assert!(!undated.contains_key("feed.xml"));
    assert!(!file(&undated, "puzzles/low-wick.html").contains("video.example"));
    assert!(file(&undated, "puzzles/first-light.html").contains("video.example"));
}

/// sitemaps.org, protocol 0.9: `urlset`, each `url` with one `loc`.
#[test]
fn the_map_names_every_page() {
    let files = site(&sample());
    let found = elements(file(&files, "sitemap.xml"));
    assert_eq!(found[0].1[0].1, "http://www.sitemaps.org/schemas/sitemap/0.9");
    let addresses: BTreeSet<&str> =
        found.iter().filter(|it| it.0 == "urlset/url/loc").map(|it| &it.2[..]).collect();
    let pages = files.keys().filter(|it| it.ends_with(".html") && *it != "404.html");
    let expected: Vec<String> = pages.map(|it| format!("https://example.org/lantern-room/{it}")).collect();
    assert_eq!(addresses, expected.iter().map(|it| &it[..]).collect());
    assert!(file(&files, "robots.txt").ends_with("Sitemap: https://example.org/lantern-room/sitemap.xml\n"));
}

#[test]
fn without_an_address_there_is_nothing_that_needs_one() {
    let pack = pack_of(PackInfo { base_url: None, ..info() }, vec![demo("first-light")]);
    let files = site(&pack);
    let for_machines = |it: &&String| [".xml", ".txt", ".png"].iter().any(|end| it.ends_with(end));
    assert_eq!(files.keys().find(for_machines), None);
    let page = parsed(file(&files, "index.html"));
    assert!(all(&page, "[property], [rel=canonical], [rel=alternate]").is_empty());
}

#[test]
fn every_page_says_what_it_is_and_every_link_preview_has_its_picture() {
    for pack in [sample(), hostile_at_home()] {
        let files = site(&pack);
        for (path, html) in common::pages(&files) {
            let is_puzzle = path.starts_with("puzzles/");
            for data in all(&html, "script[type='application/ld+json']") {
                let data = text(data);
                assert!(!data.contains('<'));
                let data: serde_json::Value = serde_json::from_str(&data).unwrap();
                assert_eq!(data["@context"], "https://schema.org");
                assert!(data["url"].as_str().unwrap().ends_with(path));
                assert_eq!(data["teaches"].is_array(), is_puzzle, "{path}");
            }
            if is_puzzle || path == "index.html" {
                one(&html, "script[type='application/ld+json']");
                let property =
                    |it: &str| one(&html, &format!("meta[property='og:{it}']")).attr("content").unwrap();
                let picture = property("image").strip_prefix("https://example.org/lantern-room/").unwrap();
                assert!(files.contains_key(picture), "{picture}");
                assert!(!property("image:alt").is_empty() && !property("title").is_empty());
                let data = text(one(&html, "script[type='application/ld+json']"));
                assert!(data.contains(&format!("\"image\":\"{}\"", property("image"))));
            }
        }
        // The signature of a PNG file, then its width and height: W3C, Portable Network Graphics, 5.2 and 11.2.1.
        let pictures: Vec<&[u8]> =
            files.iter().filter(|it| it.0.ends_with(".png")).map(|it| &it.1[..]).collect();
        // One a puzzle and one for the pack.
        assert_eq!(pictures.len(), pack.published().len() + 1);
        for it in pictures {
            assert_eq!(it[..8], *b"\x89PNG\r\n\x1a\n");
            assert_eq!((&it[16..20], &it[20..24]), (&1200u32.to_be_bytes()[..], &630u32.to_be_bytes()[..]));
            assert!(it.len() < 80_000, "{}", it.len());
        }
    }
}

/// The pixels of a picture that are not paper: how many, and the first and last column and row of them.
fn drawn(png: &[u8]) -> (usize, [u32; 2], [u32; 2]) {
    let picture = Pixmap::decode_png(png).unwrap();
    let paper = picture.pixels()[0];
    let at = (0..).zip(picture.pixels()).filter(|it| *it.1 != paper);
    let at: Vec<(u32, u32)> = at.map(|(at, _)| (at % picture.width(), at / picture.width())).collect();
    let ends = |it: fn(&(u32, u32)) -> u32| {
        [at.iter().map(it).min().unwrap_or(0), at.iter().map(it).max().unwrap_or(0)]
    };
    (at.len(), ends(|it| it.0), ends(|it| it.1))
}

#[test]
fn a_preview_shows_givens_clues_title_and_setter_and_cuts_nothing_off() {
    for pack in [sample(), hostile_at_home()] {
        let files = site(&pack);
        for (path, png) in files.iter().filter(|it| it.0.ends_with(".png")) {
            let (_, [left, right], [top, bottom]) = drawn(png);
            assert!(left > 20 && right < 1180 && top > 20 && bottom < 610, "{path}");
            // There are words to the right of the boards.
            assert!(right > 700, "{path}");
        }
    }
    let with = |entry: Entry| {
        let files = site::site(&pack_of(info(), vec![entry]), &Primer::default(), None);
        files["previews/first-light.png"].clone()
    };
    let plain = demo("first-light");
    let picture = with(plain.clone());
    for other in [
        Entry { title: "Last light".into(), ..plain.clone() },
        Entry { setter: "Bracken".into(), ..plain.clone() },
        Entry { puzzle: demo("low-wick").puzzle, ..plain.clone() },
    ] {
        assert_ne!(with(other), picture);
    }
    // With more givens there is more ink: the solution is not on it.
    let solved = sample().published()[0].solution.clone();
    let filled = rulebook::Puzzle::new(solved, plain.puzzle.clues().to_vec());
    assert!(drawn(&with(Entry { puzzle: filled, ..plain })).0 > drawn(&picture).0 + 5_000);
}

/// XML 1.0, production 2: what a character of a document may be. The feed's reader here does not ask, others do.
#[test]
fn no_text_of_a_pack_breaks_the_feed_or_the_map() {
    let files = site(&hostile_at_home());
    for path in ["feed.xml", "sitemap.xml"] {
        for it in file(&files, path).chars() {
            let is_sound = matches!(it, '\t' | '\n' | '\r' | ' '..='\u{fffd}' | '\u{10000}'..);
            assert!(is_sound, "{path}: {it:?}");
        }
    }
}

#[test]
fn every_page_links_to_the_feed() {
    let files = site(&sample());
    for (path, html) in common::pages(&files) {
        let feed = one(&html, "link[rel=alternate][type='application/atom+xml']").attr("href").unwrap();
        let expected = match path {
            "404.html" => "/lantern-room/feed.xml",
            _ if path.contains('/') => "../feed.xml",
            _ => "feed.xml",
        };
        assert_eq!(feed, expected, "{path}");
    }
}

#[test]
fn errata_stand_on_the_index() {
    let erratum =
        pack::Erratum { noted: Day::new(2026, 12, 5).unwrap(), says: common::HOSTILE[0].to_owned() };
    let pack = pack_of(PackInfo { errata: vec![erratum], ..info() }, vec![demo("first-light")]);
    let files = site(&pack);
    let page = parsed(file(&files, "index.html"));
    let said = text(one(&page, "#errata"));
    assert!(said.contains("5 December 2026") && said.contains("<script>alert(1)</script>"), "{said}");
    assert!(all(&parsed(file(&site(&sample()), "index.html")), "#errata").is_empty());
}

#[test]
fn the_worker_keeps_what_visitors_need_under_a_name_that_changes_with_it() {
    let files = site(&sample());
    let worker = file(&files, "sw.js");
    let list = worker.lines().nth(1).unwrap().strip_prefix("const FILES = ").unwrap().trim_end_matches(';');
    let list: Vec<String> = serde_json::from_str(list).unwrap();
    for path in &list {
        assert!(files.contains_key(path), "{path}");
    }
    for path in
        files.keys().filter(|it| [".html", ".css", ".svg", ".wasm"].iter().any(|end| it.ends_with(end)))
    {
        assert!(list.contains(path), "{path}");
    }
    assert!(list.contains(&"play/sheet.js".to_owned()) && !list.contains(&"sw.js".to_owned()));
    let other = site(&with_recordings());
    assert_ne!(worker.lines().next(), file(&other, "sw.js").lines().next());
    assert_eq!(worker, file(&site(&sample()), "sw.js"));
}
