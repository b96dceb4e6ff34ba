//! The report read back as a reader's browser reads it.

mod common;

use std::collections::BTreeSet;

use common::{PACK, PUZZLES, Sample, all, one, parsed, puzzle, text};
use packfile::{Code, Problem, Unreadable};
use reason::{Known, Search, Settings, TECHNIQUES, Technique};
use report::Worths;
use scraper::{ElementRef, Selector};
use study::{Finding, StudiedPack, Worth, study, study_with};
use trail::TechniqueId;

/// Every page that the tests look at.
fn pages() -> Vec<String> {
    let hostile = hostile();
    vec![
        Sample::whole(false).report(),
        Sample::whole(true).report(),
        hostile.report(),
        Sample::of("", &[], false).report(),
        Sample::of(PACK, &[("cold-grate", puzzle("cold-grate"))], false).report(),
    ]
}

#[test]
fn equal_packs_give_equal_bytes() {
    let again = Sample::of(PACK, &PUZZLES, false);
    assert_eq!(Sample::whole(false).report(), again.report());
}

#[test]
fn the_page_is_sound_html_and_stands_alone() {
    for page in pages() {
        let html = parsed(&page);
        assert!(page.starts_with("<!DOCTYPE html>"));
        assert_eq!(one(&html, "html").attr("lang"), Some("en"));
        assert!(!text(one(&html, "head > title")).is_empty());
        let foreign = "script, link, img, iframe, object, embed, form, base, [src], [onclick], [onload]";
        assert_eq!(all(&html, foreign).len(), 0);
        let style = text(one(&html, "style"));
        assert!(!style.contains("url(") && !style.contains("@import"));
        for link in all(&html, "a") {
            assert!(link.attr("href").is_some_and(|it| it.starts_with('#')), "{}", link.html());
        }
    }
}

#[test]
fn ids_are_unique_and_every_link_has_its_target() {
    for page in pages() {
        let html = parsed(&page);
        let ids: Vec<&str> = all(&html, "[id]").iter().filter_map(|it| it.attr("id")).collect();
        let unique: BTreeSet<&str> = ids.iter().copied().collect();
        assert_eq!(unique.len(), ids.len());
        for link in all(&html, "a") {
            let target = link.attr("href").unwrap().trim_start_matches('#');
            assert!(unique.contains(target), "{target}");
        }
    }
}

/// WCAG 2.2: headings and labels (2.4.6), info and relationships (1.3.1), non-text content (1.1.1).
#[test]
fn headings_pictures_and_tables_are_named() {
    for page in pages() {
        let html = parsed(&page);
        let levels: Vec<u8> = all(&html, "h1, h2, h3, h4, h5, h6")
            .iter()
            .inspect(|it| assert!(!text(**it).is_empty()))
            .map(|it| it.value().name().as_bytes()[1] - b'0')
            .collect();
        assert_eq!(levels.first(), Some(&1));
        assert_eq!(levels.iter().filter(|it| **it == 1).count(), 1);
        assert!(levels.windows(2).all(|it| it[1] <= it[0] + 1), "{levels:?}");
        for picture in all(&html, "svg") {
            assert_eq!(picture.attr("role"), Some("img"));
            assert!(picture.attr("aria-label").is_some_and(|it| !it.trim().is_empty()));
        }
        for table in all(&html, "table") {
            let heads = table.select(&Selector::parse("th").unwrap()).collect::<Vec<_>>();
            assert!(heads.iter().all(|it| it.attr("scope").is_some()) && !heads.is_empty());
            assert_eq!(table.select(&Selector::parse("caption").unwrap()).count(), 1);
        }
        assert_eq!(all(&html, "body > a:first-child[href='#report']").len(), 1);
    }
}

/// Text is ink, pencil or grey on paper, the pairs whose contrast `page` computes in its tests; the report
/// adds no colour of its own.
#[test]
fn every_colour_is_one_of_the_boards() {
    let css = include_str!("../src/report.css");
    assert!(!["#", "rgb(", "hsl(", "lab(", "oklch("].iter().any(|it| css.contains(it)));
    for name in css.split("var(").skip(1).filter_map(|it| it.split(')').next()) {
        assert!(draw::STYLE.contains(&format!("{name}:")), "{name}");
    }
    let colours =
        css.lines().filter_map(|it| it.trim().strip_prefix("color:").or(it.split("; color:").nth(1)));
    let used: BTreeSet<&str> = colours.filter_map(|it| it.split(';').next()).map(str::trim).collect();
    let text_colours = ["var(--ink)", "var(--pencil)", "var(--grey)", "inherit"];
    assert!(used.iter().all(|it| text_colours.contains(it)) && used.len() > 1, "{used:?}");
}

#[test]
fn the_head_and_the_table_say_how_the_pack_stands() {
    let sample = Sample::whole(false);
    let html = parsed(&sample.report());
    let head = text(one(&html, "header"));
    for part in [
        "The lantern room",
        "Edited by Ash. Licence: CC-BY-4.0.",
        "Seven puzzles, five of them sound (exactly one solution), in the order Galley proposes.",
        "One is sealed.",
        "One file could not be read as a puzzle.",
    ] {
        assert!(head.contains(part), "{part}: {head}");
    }
    let rows = all(&html, "table.pack tbody tr");
    assert_eq!(rows.len(), sample.pack.studies().len());
    for (at, (row, study)) in rows.iter().zip(sample.pack.studies()).enumerate() {
        let cells: Vec<String> = row.child_elements().map(text).collect();
        let entry = study.entry();
        assert_eq!(cells[..3], [(at + 1).to_string(), entry.title.clone(), entry.setter.clone()]);
        let range = study.minutes().map_or("not known".to_owned(), |it| format!("{} to {}", it.from, it.to));
        assert!(cells[4].contains(&range), "{cells:?}");
        assert_eq!(cells[6], sample.pack.placement(at).shelf.unwrap_or("none"));
    }
    let not_yet = html.root_element().text().filter(|it| it.contains("not yet calibrated")).count();
    // Below the table, and in the section of each puzzle whose minutes are told, of a sealed one too.
    let graded = sample.pack.studies().iter().filter(|it| it.minutes().is_some());
    assert_eq!(not_yet, 1 + graded.count());
}

#[test]
fn the_editors_order_is_called_that() {
    let info = format!("{PACK}order = [\"tide-bell\", \"first-light\"]");
    let files = [("first-light", puzzle("first-light")), ("tide-bell", puzzle("tide-bell"))];
    let html = parsed(&Sample::of(&info, &files, false).report());
    assert!(
        text(one(&html, "header"))
            .contains("Two puzzles, all of them sound (exactly one solution), in the editor’s order.")
    );
    let place = text(one(&html, "#puzzle-first-light .notes"));
    assert!(
        place.contains("2 of 2, on the shelf Night.")
            && place.contains("Second: the first to take ")
            && place.contains(" shorter than the first."),
        "{place}"
    );
}

#[test]
fn every_problem_stands_at_its_place() {
    let sample = Sample::whole(false);
    assert!(sample.problems.len() >= 4);
    let html = parsed(&sample.report());
    let section = one(&html, "#problems");
    let items = all(&html, "#problems li");
    assert_eq!(items.len(), sample.problems.len());
    assert!(text(section).contains("“Night ferry” could not be read as a puzzle"));
    for (item, problem) in items.iter().zip(&sample.problems) {
        let said = text(*item);
        let at = problem.at.unwrap();
        assert!(said.starts_with(&format!("Line {}, column {}", at.line, at.column)), "{said}");
        assert!(said.contains(&problem.message.replace('`', "")), "{said}");
        assert!(said.contains(&problem.help.as_ref().unwrap().replace('`', "")), "{said}");
        assert!(said.ends_with(problem.code.name()));
    }
    assert_eq!(all(&parsed(&Sample::of(PACK, &PUZZLES[..2], false).report()), "#problems").len(), 0);
}

#[test]
fn coverage_is_the_packs() {
    for unseal in [false, true] {
        let sample = Sample::whole(unseal);
        let html = parsed(&sample.report());
        let number = |id: &pack::PuzzleId| {
            sample.pack.studies().iter().position(|it| it.entry().id == *id).unwrap() + 1
        };
        let expected: Vec<Vec<usize>> = (sample.pack.coverage().iter())
            .map(|it| it.puzzles.iter().map(number).collect())
            .filter(|it: &Vec<usize>| !it.is_empty())
            .collect();
        let numbers = |row: &ElementRef| -> Vec<usize> {
            let cells = row.child_elements().skip(1).map(text).collect::<Vec<_>>().join(", ");
            cells.split(", ").filter_map(|it| it.parse().ok()).collect()
        };
        let rows = all(&html, "table.coverage tbody tr");
        assert_eq!(rows.iter().map(numbers).collect::<Vec<_>>(), expected);

        let missing: Vec<TechniqueId> = (sample.pack.coverage().iter())
            .filter(|it| it.puzzles.is_empty() && it.technique != TechniqueId::SMALL_ARGUMENT)
            .map(|it| it.technique)
            .collect();
        let said = all(&html, "ul.missing .technique").into_iter().map(text).collect::<Vec<_>>();
        let names: Vec<&str> = missing.iter().map(|it| tell::technique_name(*it)).collect();
        assert_eq!(said, if unseal { names } else { Vec::new() });
    }
}

#[test]
fn a_walkthrough_is_told_in_full_and_in_order() {
    let sample = Sample::whole(true);
    told_in_full(&sample.pack);
    // To somebody who knows little, a puzzle has narrow places.
    let entry = sample.pack.studies().iter().find(|it| it.entry().id.as_str() == "small-hours");
    let entry = entry.unwrap().entry();
    let with_little = |it: &&dyn Technique| {
        let known = Known::up_to(it.id());
        let settings = Settings { known, search: Search::EasiestNext, ..Settings::THOROUGH };
        let study = study_with(entry.clone(), true, settings);
        study.is_publishable().then_some(study)
    };
    let study = TECHNIQUES.iter().find_map(with_little).unwrap();
    assert!(!study.opened().unwrap().account.unwrap().estimate.narrow_places().is_empty());
    told_in_full(&StudiedPack::new(sample.pack.info().clone(), vec![study]));
}

/// What was found out of what techniques are worth is said of those that are new, and of those that the setter meant; of
/// a sealed puzzle nothing, whatever the caller hands over.
#[test]
fn what_is_taught_is_held_against_what_was_meant() {
    let technique = TechniqueId::new("crusts-at-ends");
    for unseal in [false, true] {
        let Sample { pack, problems, unreadable, .. } = Sample::whole(unseal);
        let worths: Worths = pack
            .studies()
            .iter()
            .map(|it| (it.entry().id.clone(), vec![(technique, Worth::Needed)]))
            .collect();
        let html = parsed(&report::report(pack, &worths, problems, unreadable));
        let notes = text(one(&html, "#puzzle-first-light .notes"));
        let needed = tell::worth(Worth::Needed);
        assert!(notes.contains(&format!("crusts at the ends, {needed}")), "{notes}");
        assert!(notes.contains(&format!("crusts at the ends: {needed}.")), "{notes}");
        assert!(notes.contains("patience: no technique is called that, so it is not checked."), "{notes}");
        for sealed in pack.studies().iter().filter(|it| it.is_sealed()) {
            let section = text(one(&html, &format!("#puzzle-{}", sealed.entry().id)));
            assert!(!section.contains(&needed), "{section}");
        }
    }
    // What was not found out is not made up.
    let html = parsed(&Sample::whole(true).report());
    let notes = text(one(&html, "#puzzle-first-light .notes"));
    assert!(!notes.contains("does not use") && !notes.contains("needed"), "{notes}");
}

/// Demands every step of every walkthrough, in order, with what makes it stand out.
fn told_in_full(pack: &StudiedPack) {
    let html = parsed(&report::report(pack, &Default::default(), &[], &[]));
    for (at, study) in pack.studies().iter().enumerate() {
        let Some(account) = study.opened().unwrap().account else { continue };
        let entry = study.entry();
        let walkthrough = account.explained.walkthrough();
        let section = format!("#puzzle-{}", entry.id);
        let titles: Vec<String> = all(&html, &format!("{section} h4")).into_iter().map(text).collect();
        assert_eq!(titles.len(), walkthrough.passages().len());
        for (title, expected) in titles.iter().zip(tell::passage_titles(&entry.puzzle, walkthrough)) {
            assert!(title.starts_with(&expected));
        }
        let steps = all(&html, &format!("{section} .passage li"));
        assert_eq!(steps.len(), walkthrough.trail().n_steps());
        for (item, (id, step)) in steps.iter().zip(walkthrough.trail().steps()) {
            assert_eq!(item.attr("id"), Some(&*format!("p{}-step-{}", at + 1, id.number())));
            let notes: Vec<String> = item.select(&Selector::parse("p.ways").unwrap()).map(text).collect();
            assert_eq!(notes, account.landmarks_at(id).map(tell::landmark).collect::<Vec<_>>());
            let said = item.child_elements().filter(|it| it.attr("class") != Some("ways"));
            let lines: Vec<String> = said.map(text).collect();
            let told = tell::says_in(tell::Voice::Screen, &entry.puzzle, walkthrough.trail(), id);
            let expected: Vec<&str> =
                [tell::technique_name(step.technique())].into_iter().chain(told.lines()).collect();
            assert_eq!(lines, expected);
        }
        // Lists go on counting where the one before stopped.
        let mut next = 1;
        for list in all(&html, &format!("{section} .passage ol")) {
            assert_eq!(list.attr("start"), Some(&*next.to_string()));
            next += list.child_elements().count();
        }
        let boards = all(&html, &format!("{section} .stretch svg"));
        assert!(boards.len() >= titles.len() && boards.len() * 8 >= steps.len());
        let minutes = text(one(&html, &format!("{section} .notes")));
        assert!(minutes.contains(&format!("{} steps, ", steps.len())), "{minutes}");
        // Where many steps are open it is not narrow, however long one of them is looked for.
        let narrow = account.estimate.narrow_places();
        assert!(narrow.iter().all(|it| it.open <= 4));
        let wide = account.estimate.narrowest(3).into_iter().filter(|it| !narrow.contains(it)).collect();
        for (places, is_named) in [(&narrow, true), (&wide as &Vec<_>, false)] {
            for it in places {
                let named = format!("step {}, ", it.step.number());
                assert_eq!(minutes.contains(&named), is_named, "{minutes}");
            }
        }
        assert_eq!(all(&html, &format!("{section} details:not([open]) svg")).len(), 1);
    }
}

/// What spoils a puzzle, taken from a study of it whose seal is broken.
struct Spoilers {
    rows: Vec<String>,
    steps: Vec<String>,
    techniques: BTreeSet<TechniqueId>,
}

impl Spoilers {
    fn of(id: &str) -> Spoilers {
        let sample = Sample::of(PACK, &[(id, puzzle(id))], true);
        let study = &sample.pack.studies()[0];
        let opened = study.opened().unwrap();
        let account = opened.account.unwrap();
        let trail = account.explained.walkthrough().trail();
        let digits: Vec<char> = opened.solution.unwrap().to_string().chars().collect();
        let row = |it: &[char]| it.iter().collect::<String>();
        let column = |at: usize| digits.iter().skip(at).step_by(9).collect::<String>();
        Spoilers {
            rows: digits.chunks(9).map(row).chain((0..9).map(column)).collect(),
            steps: trail
                .steps()
                .map(|(step, _)| tell::says_in(tell::Voice::Screen, &study.entry().puzzle, trail, step))
                .collect(),
            techniques: account.techniques().clone(),
        }
    }
}

#[test]
fn a_seal_keeps_back_everything_else() {
    let spoilers = Spoilers::of("small-hours");
    // Alone, so that no other puzzle can have a word in common with it.
    let page = Sample::of(PACK, &[("small-hours", puzzle("small-hours"))], false).report();
    for technique in &spoilers.techniques {
        assert!(!page.contains(tell::technique_name(*technique)), "{technique}");
        assert!(!page.contains(technique.name()), "{technique}");
    }
    // Among others: what they have in common with it may stand there, but not in its section.
    let whole = Sample::whole(false);
    let others: BTreeSet<TechniqueId> = (whole.pack.studies().iter())
        .filter_map(|it| it.opened()?.account)
        .flat_map(|it| it.techniques().clone())
        .collect();
    let only_its_own: Vec<&TechniqueId> = spoilers.techniques.difference(&others).collect();
    assert!(!only_its_own.is_empty());
    let whole = whole.report();
    for technique in only_its_own {
        assert!(!whole.contains(tell::technique_name(*technique)), "{technique}");
    }
    for page in [&page, &whole] {
        let html = parsed(page);
        let all_text = text(html.root_element());
        let digits: String = all_text.chars().filter(|it| !it.is_whitespace()).collect();
        assert!(spoilers.rows.iter().all(|it| !digits.contains(it)));
        let own_steps = spoilers.steps.iter().filter(|it| it.contains("So r"));
        let section = text(one(&html, "#puzzle-small-hours"));
        assert!(own_steps.clone().count() > 20);
        assert!(own_steps.into_iter().all(|it| !section.contains(&**it)));
        assert_eq!(all(&html, "#puzzle-small-hours svg, #puzzle-small-hours details").len(), 0);
        assert!(section.contains("This puzzle is sealed."));
        assert!(section.contains("Exactly one solution") && section.contains(" to "), "{section}");
    }
}

/// Two sealed puzzles under one name: the page may differ in their minutes range and nowhere else, so
/// neither their neighbours nor the coverage can give them away.
#[test]
fn a_sealed_puzzle_changes_nothing_but_its_range() {
    let info = format!("{PACK}order = [\"first-light\", \"small-hours\", \"tide-bell\"]");
    let sealed_as_small_hours = |id: &str| {
        let grid = &puzzle(id)[puzzle(id).find("grid").unwrap()..];
        let text =
            format!("format = 1\ntitle = \"Small hours\"\nsetter = \"Thistle\"\nsealed = true\n{grid}");
        let files = [
            ("first-light", puzzle("first-light")),
            ("small-hours", &*text),
            ("tide-bell", puzzle("tide-bell")),
        ];
        let sample = Sample::of(&info, &files, false);
        let study = &sample.pack.studies()[1];
        assert_eq!((study.finding(), study.is_sealed()), (Finding::One, true));
        let range = study.minutes().unwrap();
        let page = sample.report();
        let (before, rest) = page.split_once("<figure class=\"curve\">").unwrap();
        let after = rest.split_once("</figure>").unwrap().1;
        (format!("{before}{after}"), format!("{} to {}", range.from, range.to), page)
    };
    let (one, range, page) = sealed_as_small_hours("small-hours");
    let (other, other_range, _) = sealed_as_small_hours("smoked-glass");
    assert_ne!(range, other_range);
    let without_ranges = |page: &str| page.replace(&range, "?").replace(&other_range, "?");
    assert!(without_ranges(&one) == without_ranges(&other));
    assert!(page.contains("is sealed, so their minutes are not compared."));
}

/// Texts that would become markup, turn the page around or push it apart.
const HOSTILE: [&str; 5] = [
    "</bdi></title><script>alert(1)</script>",
    "\" onload='x' & &lt;b> `",
    "\u{202e}drawkcab \u{2067}כותרת",
    "Donaudampfschifffahrtsgesellschaftskapitaenskajuetenschluesselbundhalterungsschraubengewindeschneider",
    "--> <!-- ]]> <svg><style>*{display:none}</style>",
];

fn hostile() -> Sample {
    let sample = Sample::whole(true);
    let mut info = sample.pack.info().clone();
    info.title = HOSTILE.concat();
    info.editor = HOSTILE[1].into();
    info.licence = Some(HOSTILE[0].into());
    info.shelves = HOSTILE.iter().map(|it| (*it).into()).collect();
    let mut at = 0;
    let mut next = || {
        at += 1;
        HOSTILE[at % HOSTILE.len()].to_owned()
    };
    let studies = sample.pack.studies().iter().map(|it| {
        let mut entry = it.entry().clone();
        entry.title = next();
        entry.setter = next();
        entry.permission = Some(next());
        entry.intends = vec![next(), next()];
        entry.note = Some(format!("{}\n\n{}", next(), next()));
        entry.sealed = entry.id.as_str() == "tide-bell";
        study(entry, false)
    });
    let studies = studies.collect();
    let (file, text) = (format!("puzzles/{}", HOSTILE[0]), HOSTILE.concat());
    let problem = Problem {
        code: Code::NotToml,
        severity: Code::NotToml.severity(),
        file: file.clone(),
        at: None,
        message: text.clone(),
        help: Some(text.clone()),
    };
    let unreadable = Unreadable { file, name: text.clone(), title: Some(text) };
    let other = Unreadable { file: "b.toml".into(), name: HOSTILE[1].into(), title: None };
    Sample {
        pack: StudiedPack::new(info, studies),
        problems: vec![problem],
        unreadable: vec![unreadable, other],
        worths: Worths::new(),
    }
}

#[test]
fn no_text_of_the_pack_becomes_anything_but_text() {
    let sample = hostile();
    let page = sample.report();
    let html = parsed(&page);
    // The elements are those of the same pack with harmless texts.
    let kinds: BTreeSet<&str> = all(&html, "body *").iter().map(|it| it.value().name()).collect();
    let harmless = parsed(&Sample::whole(true).report());
    let known: BTreeSet<&str> = all(&harmless, "body *").iter().map(|it| it.value().name()).collect();
    assert!(kinds.is_subset(&known), "{:?}", kinds.difference(&known));
    assert_eq!(all(&html, "style").len(), 1);
    for attribute in all(&html, "*").iter().flat_map(|it| it.value().attrs().map(|it| it.0)) {
        assert!(!attribute.starts_with("on"), "{attribute}");
    }
    let shown = text(html.root_element());
    for it in HOSTILE {
        let turns = |it: &char| ('\u{202a}'..='\u{2069}').contains(it);
        let visible: String = it.chars().filter(|it| !turns(it)).collect();
        assert!(shown.contains(&visible), "{it}");
        assert!(!page.contains(|it| turns(&it)));
    }
}

#[test]
fn packs_with_little_in_them_read_well() {
    let empty = parsed(&Sample::of("", &[], false).report());
    let said = text(one(&empty, "body"));
    assert!(said.contains("Untitled pack") && said.contains("No puzzle yet."), "{said}");
    assert!(said.contains("No licence is named.") && !said.contains("Edited by"), "{said}");
    assert_eq!(all(&empty, "table, .curve, .puzzle").len(), 0);

    let unsound = parsed(&Sample::of(PACK, &[("cold-grate", puzzle("cold-grate"))], false).report());
    let said = text(one(&unsound, "body"));
    assert!(said.contains("One puzzle, which is not sound"), "{said}");
    assert!(said.contains("No open puzzle has a walkthrough"), "{said}");
    assert_eq!(all(&unsound, "table.coverage, .curve").len(), 0);
    assert_eq!(text(one(&unsound, "#puzzle-cold-grate h2")), "1 Cold grate");

    let sealed = parsed(&Sample::of(PACK, &[("small-hours", puzzle("small-hours"))], false).report());
    assert_eq!(all(&sealed, "#marks, table.coverage, ul.missing").len(), 0);
}
