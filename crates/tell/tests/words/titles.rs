//! Titles of passages: short, no two alike in a walkthrough, and no more than the steps show.

use std::collections::BTreeSet;

use crate::corpus::{Walked, corpus};
use crate::support::{Scene, cell, cells, cells_named, digit, house, houses_named, n_words, numbers_named};
use grid::{CellSet, House, HouseKind};
use rulebook::Claim;
use tell::{Voice, passage_titles, passage_titles_in};
use trail::{Argument, Branch, Cites, End, Passage, Theme, Walkthrough};

#[test]
fn no_two_titles_of_a_walkthrough_are_alike_and_all_are_short() {
    let mut n_plain = 0;
    let mut n_all = 0;
    for it in corpus() {
        let titles = passage_titles(&it.puzzle, it.walkthrough());
        assert_eq!(titles.len(), it.walkthrough().passages().len());
        let distinct: BTreeSet<&String> = titles.iter().collect();
        assert_eq!(distinct.len(), titles.len(), "{}: {titles:?}", it.name);
        for title in &titles {
            // What tells it from an equal one may take one word more.
            let most = if title.contains(", ") { 10 } else { 8 };
            assert!(n_words(title) <= most && !title.ends_with('.'), "{}: {title}", it.name);
            n_plain += usize::from(!title.contains(", again") && !title.contains(", from "));
        }
        n_all += titles.len();
    }
    // Most need nothing to tell them apart.
    assert!(n_plain * 4 >= n_all * 3, "{n_plain} of {n_all}");
}

#[test]
fn titles_name_only_what_the_steps_hold_and_a_line_falls_only_if_it_is_full() {
    for it in corpus() {
        let mut board = it.puzzle.givens().clone();
        for (title, passage) in
            passage_titles(&it.puzzle, it.walkthrough()).iter().zip(it.walkthrough().passages())
        {
            let (held, claims) = held(it, passage);
            for claim in &claims {
                if let Claim::Is(cell, digit) = claim {
                    board = board.with(*cell, Some(*digit));
                }
            }
            let name = &it.name;
            assert!(cells_named(title).is_subset(&cells_named(&held)), "{name}: {title}");
            let mut numbers = numbers_named(title);
            let of_digit = |word: &str| word.trim_end_matches(',').strip_suffix('s')?.parse::<u16>().ok();
            numbers.extend(title.split(' ').filter_map(of_digit));
            let spoken = title.starts_with("The last ") || title.contains(", from step ");
            assert!(spoken || numbers.is_subset(&numbers_named(&held)), "{name}: {title}");
            let size = it.puzzle.size();
            let named = houses_named(&title.to_lowercase());
            let of_title: Vec<House> = size.houses().filter(|it| named.contains(&it.to_string())).collect();
            let inside = |house: &House| {
                let cells: CellSet = size.cells_of(*house).into_iter().collect();
                claims.iter().any(|it| it.cell().is_some_and(|it| cells.contains(it)))
            };
            for house in &of_title {
                let is_row_of_boxes = house.kind() == HouseKind::Box && title.contains("boxes");
                assert!(
                    inside(house) || held.contains(&house.to_string()) || is_row_of_boxes,
                    "{name}: {title}"
                );
            }
            // Whatever is said to be somewhere is there.
            if let Some((_, at)) = title.split_once(" in ") {
                let at = at.split(", again").next().and_then(|it| it.split(", from ").next()).unwrap();
                let all = size.houses().filter(|it| is_named(size, at, *it)).flat_map(|it| size.cells_of(it));
                let all: CellSet = all.collect();
                let of_claims = claims.iter().filter(|it| is_meant(title, it)).filter_map(Claim::cell);
                assert!(of_claims.collect::<CellSet>().is_subset(&all), "{name}: {title}");
            }
            if title.contains(" fall") {
                let full = |it: &House| size.cells_of(*it).iter().all(|it| board.get(*it).is_some());
                assert!(!of_title.is_empty() && of_title.iter().all(full), "{name}: {title}");
            }
            if title.starts_with("All ") {
                let digits = numbers_named(&title.replace("s", " "));
                let n_placed = |value: u16| {
                    size.cells()
                        .filter(|it| board.get(*it).is_some_and(|it| u16::from(it.get()) == value))
                        .count()
                };
                let all = |value: &u16| n_placed(*value) == usize::from(size.side());
                assert!(!digits.is_empty() && digits.iter().all(all), "{name}: {title}");
            }
            if title.starts_with("The last ") {
                assert!(size.cells().all(|it| board.get(it).is_some()), "{name}: {title}");
            }
        }
    }
}

/// Whether `at` names the house: itself, or the boxes at a side of the board.
fn is_named(size: grid::Size, at: &str, house: House) -> bool {
    let n = house.number() - 1;
    let across = size.side() / size.box_width();
    let down = size.side() / across;
    let is_box = house.kind() == HouseKind::Box;
    match at {
        "the upper boxes" => is_box && n / across == 0,
        "the lower boxes" => is_box && n / across == down - 1,
        "the left boxes" => is_box && n.is_multiple_of(across),
        "the right boxes" => is_box && n % across == across - 1,
        _ => houses_named(at).contains(&house.to_string()),
    }
}

/// Whether the title's place is about this claim: crusts found, or digits placed, if there are any.
fn is_meant(title: &str, claim: &Claim) -> bool {
    match title.split(' ').next().unwrap() {
        "Place" if title.starts_with("Place crusts") => matches!(claim, Claim::Crust(_)),
        "Place" | "Digits" => matches!(claim, Claim::Is(..)),
        _ => true,
    }
}

/// Everything the steps hold, and what they conclude.
fn held(it: &Walked, passage: &Passage) -> (String, Vec<Claim>) {
    let steps = passage.steps.iter().map(|step| it.trail().step(*step));
    let concluded =
        steps.clone().flat_map(|step| step.concludes().iter().map(|fact| it.trail().fact(*fact).claim()));
    let claims: Vec<Claim> = concluded.collect();
    let arguments: Vec<&Argument> = steps.map(trail::Step::argument).collect();
    let clues = passage.steps.iter().flat_map(|step| it.trail().cites_of(*step).clues);
    let clues: Vec<_> = clues.filter_map(|clue| it.puzzle.clue(clue)).collect();
    (format!("{arguments:?} {claims:?} {clues:?}"), claims)
}

/// One passage of that theme with one step.
fn title_of(theme: Theme, argument: Argument, claims: &[Claim]) -> String {
    let mut scene = Scene::new(9, &[("row 4", 20)], &[]);
    scene.push(argument, claims, Cites::default());
    let walkthrough = Walkthrough::new(scene.trail.clone(), |_, _| theme);
    passage_titles(&scene.puzzle, &walkthrough).concat()
}

#[test]
fn titles_say_what_a_passage_is_about() {
    let sees = |at| Argument::SeesBothCrusts { cells: cells(at) };
    let crusts = |at: &str| cells(at).iter().map(Claim::Crust).collect::<Vec<_>>();
    let filling = |at: &str| cells(at).iter().map(Claim::Filling).collect::<Vec<_>>();
    let is = |at, value| Claim::Is(cell(at), digit(value));
    let of_row = Argument::SideHolds {
        line: house("row 4"),
        side: trail::Side::Between,
        digit: digit(5),
        cells: cells("r4c1"),
    };
    let suppose = |digits: &[u8]| Argument::Cases {
        branches: vec![Branch {
            cell: cell("r4c7"),
            digits: crate::support::digits(digits),
            chain: Vec::new(),
            end: End::NoDigit(cell("r4c8")),
        }],
        is_smallest: true,
    };
    let by_clue = {
        let clue = Scene::new(9, &[("row 4", 20)], &[]).clue("row 4");
        let case = |at| Branch {
            cell: cell(at),
            digits: crate::support::digits(&[2]),
            chain: Vec::new(),
            end: End::NoWay(clue),
        };
        Argument::Cases { branches: vec![case("r4c7"), case("r4c8")], is_smallest: true }
    };
    let found = Argument::CrustsFound { house: house("row 4"), crusts: cells("r4c1 r4c5") };
    let cases = [
        (Theme::Crusts, found.clone(), crusts("r1c1 r3c9"), "Place crusts in the upper boxes"),
        (Theme::Crusts, found.clone(), crusts("r4c1 r5c9"), "Place crusts in boxes 4 to 6"),
        (Theme::Crusts, found.clone(), crusts("r1c1 r9c9"), "Crusts here and there"),
        (Theme::Crusts, found.clone(), crusts("r1c1 r9c9 r9c2"), "Place crusts around row 9"),
        (Theme::Crusts, sees("r1c7"), filling("r1c7 r9c9"), "Cells without crusts in the right boxes"),
        (Theme::Sums, of_row.clone(), vec![is("r4c1", 5)], "The sum of row 4"),
        (Theme::House(house("row 4")), of_row, vec![is("r4c1", 5)], "Digits in row 4"),
        (Theme::Digits, found.clone(), vec![is("r4c1", 5)], "Place 5 at r4c1"),
        (Theme::Digits, found.clone(), vec![is("r4c1", 5), is("r5c2", 7)], "Place 5s and 7s in box 4"),
        (
            Theme::Digits,
            found.clone(),
            vec![is("r4c1", 5), is("r5c5", 7), is("r9c9", 2)],
            "Digits here and there",
        ),
        (
            Theme::Digits,
            found,
            vec![is("r4c1", 5), is("r5c5", 7), is("r9c9", 2), is("r4c9", 8)],
            "Digits around row 4 and column 9",
        ),
        (Theme::Argument, suppose(&[5]), vec![Claim::IsNot(cell("r4c7"), digit(5))], "Can r4c7 be 5?"),
        (Theme::Argument, suppose(&[1, 9]), filling("r4c7"), "Can r4c7 be a crust?"),
        (Theme::Argument, suppose(&[2, 3, 4, 5]), vec![is("r4c7", 6)], "A small argument about r4c7"),
        (Theme::Argument, by_clue, filling("r4c7 r4c8"), "A small argument: row 4"),
    ];
    for (theme, argument, claims, expected) in cases {
        assert_eq!(title_of(theme, argument, &claims), expected);
    }
}

/// A title can be read out: no cell as in print, and as many titles in every voice.
#[test]
fn titles_can_be_spoken() {
    let mut n_cells = 0;
    for it in corpus() {
        let [printed, aloud] = [Voice::Booklet, Voice::Spoken]
            .map(|voice| passage_titles_in(voice, &it.puzzle, it.walkthrough()));
        assert_eq!(printed, passage_titles(&it.puzzle, it.walkthrough()));
        assert_eq!(printed.len(), aloud.len());
        for (printed, aloud) in printed.iter().zip(aloud) {
            assert!(cells_named(&aloud).is_empty(), "{}: {aloud}", it.name);
            n_cells += usize::from(!cells_named(printed).is_empty());
            assert!(!cells_named(printed).is_empty() || *printed == aloud, "{}: {printed}, {aloud}", it.name);
        }
    }
    assert!(n_cells >= 3, "{n_cells}");
    let mut scene = Scene::new(9, &[], &[]);
    let argument = Argument::OneDigit { cell: cell("r4c1"), digit: digit(5) };
    scene.push(argument, &[Claim::Is(cell("r4c1"), digit(5))], Cites::default());
    let walkthrough = Walkthrough::new(scene.trail.clone(), |_, _| Theme::Digits);
    let aloud = passage_titles_in(Voice::Spoken, &scene.puzzle, &walkthrough);
    assert_eq!(aloud, ["Place 5 at row 4, column 1"]);
}
