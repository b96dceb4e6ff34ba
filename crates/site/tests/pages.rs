//! The pages read as a visitor's browser reads them.

mod common;

use std::collections::BTreeSet;

use common::{
    DEMO, HOSTILE, all, demo, hostile, id, info, nearly_full, one, pack_of, pages, parsed, sample, site, text,
};
use grid::{Grid, Size};
use pack::{Entry, PackInfo};
use rulebook::Puzzle;
use scraper::{ElementRef, Html, Selector};
use study::StudiedPack;

/// Every pack that the tests look at.
fn packs() -> Vec<StudiedPack> {
    vec![sample(), hostile(), pack_of(info(), Vec::new()), mixed(Some("https://example.org/a/"))]
}

/// Boards of several sizes, without shelves.
fn mixed(base_url: Option<&str>) -> StudiedPack {
    let sizes = [(2, 2), (3, 2), (4, 3), (4, 4)].map(|(width, height)| Size::new(width, height).unwrap());
    let entries = sizes.map(|it| nearly_full(&format!("board-{}", it.side()), it)).into();
    let info =
        PackInfo { shelves: Vec::new(), licence: None, base_url: base_url.map(str::to_owned), ..info() };
    pack_of(info, entries)
}

#[test]
fn equal_packs_give_equal_bytes() {
    assert_eq!(site(&sample()), site(&sample()));
}

#[test]
fn every_page_is_sound_html_that_fetches_and_runs_only_what_is_the_sites_own() {
    for pack in packs() {
        for (path, html) in pages(&site(&pack)) {
            assert_eq!(one(&html, "html").attr("lang"), Some("en"));
            assert!(!text(one(&html, "head > title")).is_empty(), "{path}");
            one(&html, "meta[name=viewport]");
            let description = one(&html, "meta[name=description]").attr("content").unwrap();
            assert!(!description.is_empty());
            let policy = one(&html, "meta[http-equiv=Content-Security-Policy]").attr("content").unwrap();
            // No word that lets code of another origin or of a page's own text run.
            let sources = policy.split([' ', ';']).filter(|it| !it.ends_with("-src") && !it.is_empty());
            let known = ["'none'", "'self'", "file:", "'wasm-unsafe-eval'", "base-uri", "form-action"];
            assert!(sources.clone().all(|it| known.contains(&it)), "{policy}");
            assert!(policy.starts_with("default-src 'none';"), "{policy}");
            let foreign =
                "style, img, iframe, object, embed, form, base, [src]:not(script), [style], foreignObject";
            assert_eq!(all(&html, foreign).len(), 0, "{path}");
            for script in all(&html, "script") {
                match script.attr("src") {
                    Some(src) => {
                        let is_ours = src.ends_with("play/sheet.js") || src.ends_with("offline.js");
                        assert!(is_ours && text(script).is_empty(), "{src}");
                    }
                    None => {
                        let kind = script.attr("type").unwrap();
                        assert!(
                            ["application/json", "application/ld+json"].contains(&kind),
                            "{path}: {kind}"
                        );
                    }
                }
            }
            for element in all(&html, "*") {
                for (name, value) in element.value().attrs() {
                    assert!(!name.starts_with("on"), "{path}: {name}");
                    let is_known =
                        name == "xmlns" || element.attr("rel") == Some("canonical") || name == "content";
                    // A recording is a plain link, to be followed by whoever wants to.
                    let is_recording =
                        element.value().name() == "a" && element.attr("rel") == Some("noreferrer");
                    let is_known = is_known || is_recording;
                    assert!(
                        is_known || !value.contains("://") || name == "aria-label",
                        "{path}: {name}={value}"
                    );
                }
            }
        }
    }
    let style = String::from_utf8(site(&sample())["sheet.css"].clone()).unwrap();
    assert!(style.starts_with(draw::STYLE));
    assert!(!style.contains("url(") && !style.contains("@import"));
}

#[test]
fn ids_are_unique_and_every_link_has_its_target() {
    let mut n_links = 0;
    for pack in packs() {
        let files = site(&pack);
        let pages = pages(&files);
        for (path, html) in &pages {
            let ids: Vec<&str> = all(html, "[id]").iter().filter_map(|it| it.attr("id")).collect();
            assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len(), "{path}");
            for link in all(html, "[href]:not([rel=canonical]):not([rel=noreferrer]), script[src]") {
                let href = link.attr("href").or(link.attr("src")).unwrap();
                let (to, fragment) = href.split_once('#').unwrap_or((href, ""));
                let target = match to {
                    "" => (*path).to_owned(),
                    // A page that is shown at any depth links from the site's own folder.
                    _ if to.starts_with('/') => to.splitn(3, '/').nth(2).unwrap().to_owned(),
                    _ => resolve(path, to),
                };
                assert!(files.contains_key(&target), "{path}: {href}");
                if !fragment.is_empty() {
                    one(&pages[target.as_str()], &format!("#{fragment}"));
                }
                n_links += 1;
            }
        }
    }
    assert!(n_links > 50);
}

/// The path that a link leads to.
fn resolve(from: &str, to: &str) -> String {
    let mut folders: Vec<&str> = from.split('/').collect();
    folders.pop();
    for part in to.split('/') {
        match part {
            ".." => assert!(folders.pop().is_some(), "{to} leaves the site"),
            part => folders.push(part),
        }
    }
    folders.join("/")
}

#[test]
fn addresses_on_the_web_are_those_of_the_pack() {
    let canonical = |pack: &StudiedPack, path: &str| -> Option<String> {
        let page = String::from_utf8(site(pack)[path].clone()).unwrap();
        let html = parsed(&page);
        let links = all(&html, "link[rel=canonical]");
        links.first().and_then(|it| it.attr("href")).map(str::to_owned)
    };
    let expected = "https://example.org/lantern-room/puzzles/first-light.html";
    assert_eq!(canonical(&sample(), "puzzles/first-light.html").as_deref(), Some(expected));
    let expected = "https://example.org/a/puzzles/board-4.html";
    let slash = mixed(Some("https://example.org/a/"));
    assert_eq!(canonical(&slash, "puzzles/board-4.html").as_deref(), Some(expected));
    let no_folder = ["javascript:alert(1)", "https://example.org/?a", "https://example.org/\" onload='x'"];
    for none in no_folder.map(Some).into_iter().chain([None]) {
        assert_eq!(canonical(&mixed(none), "index.html"), None);
    }
}

#[test]
fn headings_are_in_order_and_the_content_can_be_skipped_to() {
    for pack in packs() {
        for (path, html) in pages(&site(&pack)) {
            let levels = all(&html, "h1, h2, h3, h4, h5, h6");
            let levels: Vec<u32> = levels.iter().map(|it| it.value().name()[1..].parse().unwrap()).collect();
            assert_eq!(levels.iter().filter(|it| **it == 1).count(), 1, "{path}");
            assert_eq!(levels[0], 1, "{path}");
            assert!(levels.windows(2).all(|it| it[1] <= it[0] + 1), "{path}: {levels:?}");
            let first = all(&html, "body a")[0];
            assert_eq!(first.attr("href"), Some("#main"));
            one(&html, "main#main");
        }
    }
}

#[test]
fn the_index_has_the_puzzles_in_pack_order() {
    let pack = sample();
    let files = site(&pack);
    let html = &pages(&files)["index.html"];
    assert_eq!(text(one(html, "h1")), "The lantern room");
    let head = text(one(html, ".imprint"));
    assert!(head.contains("Edited by Ash") && head.contains("CC-BY-4.0"), "{head}");
    let links: Vec<&str> = all(html, ".entry a").iter().map(|it| it.attr("href").unwrap()).collect();
    let expected: Vec<String> = DEMO.iter().map(|it| format!("puzzles/{}.html", it.0)).collect();
    assert_eq!(links, expected);
    let shelves: Vec<String> = all(html, "h3.shelf").into_iter().map(text).collect();
    assert_eq!(shelves, ["Dusk", "Night"]);
    let numbers: Vec<String> = all(html, ".puzzles .number").into_iter().map(text).collect();
    assert_eq!(numbers, (1..=DEMO.len()).map(|it| it.to_string()).collect::<Vec<_>>());
    assert!(text(one(html, "#puzzles")).contains("estimate, not yet calibrated"));
    let mut n_new = 0;
    for (study, entry) in pack.studies().iter().zip(all(html, ".entry")) {
        let (told, range) = (text(entry), study.minutes().unwrap());
        assert!(told.contains(&format!("Set by {}", study.entry().setter)), "{told}");
        assert!(told.contains(&format!("{} to {} minutes", range.from, range.to)), "{told}");
        for new in &study.opened().unwrap().placed.unwrap().new {
            assert!(told.contains(tell::technique_name(*new)), "{told}");
            n_new += 1;
        }
    }
    assert!(n_new > DEMO.len());
    for rule in tell::rules(&demo("north-window").puzzle) {
        let told = text(one(html, "#rules"));
        assert!(rule.full.iter().all(|it| told.contains(it)), "{told}");
    }
}

#[test]
fn what_is_known_from_the_start_is_said_and_new_in_no_puzzle() {
    let known = pack_of(info(), vec![demo("first-light")]);
    let known = known.studies()[0].opened().unwrap().account.unwrap().techniques().iter().copied().collect();
    let info = PackInfo { knows: known, ..info() };
    let pack = pack_of(info, vec![demo("first-light"), demo("low-wick")]);
    let files = site(&pack);
    let pages = pages(&files);
    let html = &pages["index.html"];
    let said = text(one(html, ".known"));
    let entries: Vec<String> = all(html, ".entry").into_iter().map(text).collect();
    assert!(entries[0].ends_with("Practises what is known by then."), "{}", entries[0]);
    for id in &pack.info().knows {
        let name = tell::technique_name(*id);
        assert!(said.contains(name), "{name}: {said}");
        let new = entries[1].split("New: ").nth(1).unwrap();
        assert!(!new.trim_end_matches('.').split(", ").any(|it| it == name), "{name}: {new}");
    }
}

#[test]
fn rules_name_the_size_where_there_are_several() {
    let files = site(&mixed(None));
    let names: Vec<String> = all(&pages(&files)["index.html"], "#rules h3").into_iter().map(text).collect();
    let expected: Vec<String> = [4, 6, 12, 16]
        .iter()
        .flat_map(|it| ["Classic", "Sandwich"].map(|name| format!("{name}, {it}x{it}")))
        .collect();
    assert_eq!(names, expected);
}

/// The text of an element without what is folded away in it.
fn unfolded(element: ElementRef) -> String {
    let shown =
        element.descendants().filter(|it| !it.ancestors().filter_map(ElementRef::wrap).any(is_folded));
    shown.filter_map(|it| it.value().as_text().map(|it| it.to_string())).collect()
}

/// Whether it is shown only once the details around it are opened.
fn is_folded(element: ElementRef) -> bool {
    let parent = element.parent().and_then(ElementRef::wrap);
    let in_closed = parent.is_some_and(|it| it.value().name() == "details" && it.attr("open").is_none());
    in_closed && element.value().name() != "summary"
}

#[test]
fn nothing_that_spoils_is_shown_before_it_is_asked_for() {
    let pack = sample();
    let files = site(&pack);
    let pages = pages(&files);
    for study in pack.studies() {
        let (entry, account) = (study.entry(), study.opened().unwrap().account.unwrap());
        let html = &pages[format!("puzzles/{}.html", entry.id).as_str()];
        assert_eq!(all(html, "details[open]").len(), 0);
        assert_eq!(all(html, "summary").len(), all(html, "details").len());

        let shown = unfolded(one(html, "body"));
        let trail = account.explained.walkthrough().trail();
        for (step, _) in trail.steps() {
            let said = tell::says(&entry.puzzle, trail, step);
            assert!(said.lines().all(|it| !shown.contains(it)), "{said}");
        }
        let boards = all(html, "svg")
            .into_iter()
            .filter(|it| !it.ancestors().filter_map(ElementRef::wrap).any(is_folded));
        let figures: Vec<usize> =
            boards.map(|it| it.select(&Selector::parse("text").unwrap()).count()).collect();
        // One board: its givens, its clues, and its rows and columns numbered.
        let printed = entry.puzzle.givens().filled().count() + entry.puzzle.clues().len() + 18;
        assert_eq!(figures, [printed]);
    }
}

#[test]
fn hints_open_one_at_a_time() {
    let pack = sample();
    let files = site(&pack);
    let pages = pages(&files);
    for study in pack.studies() {
        let (entry, account) = (study.entry(), study.opened().unwrap().account.unwrap());
        let html = &pages[format!("puzzles/{}.html", entry.id).as_str()];
        let hints = tell::hints(&entry.puzzle, account.way_in().unwrap()).unwrap();
        let mut inside = String::from(".hints");
        for hint in &hints {
            inside += " > details";
            let told: Vec<String> = all(html, &format!("{inside} > p")).into_iter().map(text).collect();
            assert_eq!(told.join("\n"), *hint);
            one(html, &format!("{inside} > summary"));
        }
        assert_eq!(all(html, &format!("{inside} details")).len(), 0);
    }
}

#[test]
fn the_walkthrough_is_told_step_by_step() {
    let pack = sample();
    let files = site(&pack);
    let pages = pages(&files);
    for study in pack.studies() {
        let (entry, opened) = (study.entry(), study.opened().unwrap());
        let html = &pages[format!("puzzles/{}.html", entry.id).as_str()];
        let account = opened.account.unwrap();
        let walkthrough = account.explained.walkthrough();
        let titles: Vec<String> = all(html, ".passage h3").into_iter().map(text).collect();
        assert_eq!(titles, tell::passage_titles(&entry.puzzle, walkthrough));
        let steps = all(html, ".passage li");
        assert_eq!(steps.len(), walkthrough.trail().n_steps());
        for (item, (id, step)) in steps.iter().zip(walkthrough.trail().steps()) {
            let lines: Vec<String> = item.child_elements().map(text).collect();
            let told = tell::says(&entry.puzzle, walkthrough.trail(), id);
            let name = tell::technique_name(step.technique());
            assert!(lines.iter().map(String::as_str).eq([name].into_iter().chain(told.lines())));
        }
        let mut next = 1;
        for list in all(html, ".passage ol") {
            assert_eq!(list.attr("start"), Some(&*next.to_string()));
            next += list.child_elements().count();
        }
        // A board for every passage, and never more than eight steps beside one.
        let boards = all(html, ".passage svg").len();
        assert!(boards >= walkthrough.passages().len() && boards * 8 >= steps.len());
        assert!(
            all(html, ".passage").iter().all(|it| it.select(&Selector::parse("svg").unwrap()).count() > 0)
        );

        let used: Vec<String> = all(html, ".techniques dt").into_iter().map(text).collect();
        assert_eq!(used.len(), account.techniques().len());
        for technique in account.techniques() {
            let name = tell::technique_name(*technique);
            let listed = |it: &&String| it.trim_end_matches(" new here").eq_ignore_ascii_case(name);
            let entry = used.iter().find(listed).unwrap();
            assert_eq!(
                entry.ends_with("new here"),
                opened.placed.unwrap().new.contains(technique),
                "{entry}"
            );
        }
        let solution: Vec<String> =
            all(html, ".solution svg [font-weight='700'] text, .solution svg .fill-pencil text")
                .into_iter()
                .map(text)
                .collect();
        assert_eq!(solution.len(), 81);
    }
}

#[test]
fn the_way_on_is_there() {
    let files = site(&sample());
    let pages = pages(&files);
    let onward = |id: &str| -> Vec<String> {
        let links = all(&pages[format!("puzzles/{id}.html").as_str()], ".onward a");
        links.iter().map(|it| format!("{} {}", it.attr("rel").unwrap(), it.attr("href").unwrap())).collect()
    };
    assert_eq!(onward("first-light"), ["next low-wick.html"]);
    assert_eq!(onward("two-moths"), ["prev low-wick.html", "next north-window.html"]);
    assert_eq!(onward("spent-match"), ["prev north-window.html"]);
    let credits = text(one(&pages["puzzles/two-moths.html"], ".credits"));
    assert_eq!(
        credits,
        "Two moths, set by Yarrow. From The lantern room. Edited by Ash. Licence: CC-BY-4.0."
    );
    let credits = text(one(&pages["index.html"], ".credits"));
    assert!(credits.starts_with("Puzzles set by Fern, Moss, Yarrow and Bracken. "), "{credits}");
}

/// What may not be published: a sealed puzzle, one with several solutions, one with none.
fn unpublished() -> Vec<Entry> {
    let sealed = Entry {
        id: id("kept-dark"),
        title: "Kept dark".into(),
        setter: "Nettle".into(),
        sealed: true,
        ..demo("spent-match")
    };
    let several = Entry {
        id: id("two-ways"),
        title: "Two ways".into(),
        setter: "Nettle".into(),
        puzzle: Puzzle::new(Grid::empty(Size::NINE), []),
        ..demo("first-light")
    };
    let mut clues = demo("first-light").puzzle.clues().to_vec();
    clues[0].value = 2;
    let none = Entry {
        id: id("no-way"),
        title: "No way".into(),
        setter: "Nettle".into(),
        puzzle: Puzzle::new(demo("first-light").puzzle.givens().clone(), clues),
        ..demo("first-light")
    };
    vec![sealed, several, none]
}

#[test]
fn what_may_not_be_published_leaves_no_trace() {
    let info = || PackInfo { shelves: Vec::new(), ..info() };
    let published = || vec![demo("first-light"), demo("low-wick"), demo("two-moths")];
    let without = site(&pack_of(info(), published()));
    assert_eq!(site(&pack_of(info(), [published(), unpublished()].concat())), without);
    // Among the others they leave their numbers free, and nothing else.
    let mut entries = published();
    for (at, entry) in unpublished().into_iter().enumerate() {
        entries.insert(at * 2, entry);
    }
    let with = site(&pack_of(info(), entries));
    assert!(with.keys().eq(without.keys()));
    let pages = pages(&with);
    let index = &pages["index.html"];
    let numbers: Vec<String> = all(index, ".puzzles .number").into_iter().map(text).collect();
    assert_eq!(numbers, ["2", "4", "6"]);
    for it in unpublished() {
        for page in with.values().map(|it| String::from_utf8_lossy(it)) {
            assert!(!page.contains(it.id.as_str()) && !page.contains(&it.title), "{}", it.id);
        }
    }
}

#[test]
fn a_pack_of_which_nothing_may_be_published_says_so() {
    let site = site(&pack_of(info(), unpublished()));
    assert_eq!(
        site.keys().collect::<Vec<_>>(),
        ["404.html", "icon.svg", "index.html", "offline.js", "sheet.css", "sw.js"]
    );
    let html = &pages(&site)["index.html"];
    assert!(text(one(html, "main")).contains("No puzzle of this pack is published yet."));
    assert_eq!(site::read_back(&site), Ok(Vec::new()));
}

#[test]
fn what_only_the_editor_should_read_stays_out() {
    let private = "Ask about the cellar key";
    let entry = Entry {
        note: Some(private.into()),
        permission: Some(private.into()),
        intends: vec![private.into()],
        ..demo("first-light")
    };
    let site = site(&pack_of(info(), vec![entry]));
    assert!(site.values().all(|it| !String::from_utf8_lossy(it).contains(private)));
}

#[test]
fn no_text_of_the_pack_becomes_anything_but_text() {
    let kinds = |html: &Html| -> BTreeSet<String> {
        all(html, "*").iter().map(|it| it.value().name().to_owned()).collect()
    };
    let plain = site(&sample());
    let known: BTreeSet<String> = pages(&plain).values().flat_map(kinds).collect();
    let files = site(&hostile());
    let mut shown = String::new();
    for (path, html) in pages(&files) {
        assert!(kinds(&html).is_subset(&known), "{path}");
        shown += &html.root_element().text().collect::<String>();
        // What would turn the direction of the rest is taken out.
        assert!(!String::from_utf8_lossy(&files[path]).contains(['\u{202e}', '\u{2067}']), "{path}");
    }
    for it in &HOSTILE[..5] {
        let it = it.replace(['\u{202e}', '\u{2067}'], "");
        assert!(shown.contains(&it), "{it}");
    }
    assert!(shown.contains("a\u{fffd}b\u{fffd} c \u{fffd}  d "));
}

#[test]
fn a_pack_without_a_title_reads_well() {
    let info = PackInfo { title: " ".into(), editor: String::new(), licence: None, ..info() };
    let files = site(&pack_of(info, vec![demo("first-light")]));
    let html = &pages(&files)["index.html"];
    assert_eq!(text(one(html, "h1")), "Untitled pack");
    assert_eq!(text(one(html, "head > title")), "Untitled pack");
    assert!(text(one(html, ".lead")).starts_with("One puzzle."));
    assert!(text(one(html, ".imprint")).starts_with("No licence is named"));
}

#[test]
fn the_icon_is_a_picture() {
    let icon = String::from_utf8(site(&sample())["icon.svg"].clone()).unwrap();
    assert!(icon.starts_with("<?xml") && icon.contains("<svg ") && icon.trim_end().ends_with("</svg>"));
}
