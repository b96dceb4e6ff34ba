//! Cases of crossing lines, wings, colours and chains.

use super::*;

fn crossing(base: &[&str], cover: &[&str], at: &str, spare: &str) -> (Argument, Cites) {
    let [base, cover] = [base, cover].map(|it| it.iter().map(|it| house(it)).collect::<BTreeSet<_>>());
    let cites = base.iter().chain(&cover).fold(Cites::default(), |cites, it| cites.house(*it));
    (Argument::Crossing { digit: digit(5), base, cover, cells: cells(at), spare: cells(spare) }, cites)
}

fn two_colours(cells: &[&str], joints: &[&str], clash: Option<&str>) -> (Argument, Cites) {
    let (houses, clash): (Vec<_>, _) = (joints.iter().map(|it| house(it)).collect(), clash.map(house));
    let cites = houses.iter().chain(&clash).fold(Cites::default(), |cites, it| cites.house(*it));
    let cells = cells.iter().map(|it| cell(it)).collect();
    (Argument::TwoColours { digit: digit(5), cells, houses, clash }, cites)
}

pub(super) fn wings() -> Vec<Case> {
    let wing = |pivot: &[u8]| {
        let ends = [(cell("r5c9"), digits(&[2, 4])), (cell("r2c5"), digits(&[4, 7]))];
        Argument::Wing { pivot: cell("r5c5"), digits: digits(pivot), ends, digit: digit(4) }
    };
    let seen = || {
        ["row 5", "column 5", "row 2", "column 9"]
            .iter()
            .fold(Cites::default(), |cites, it| cites.house(house(it)))
    };
    vec![
        case("wing", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r5c5", &[1, 3]));
            it.push(wing(&[2, 7]), &not("r2c9", &[4]), removed.and(&seen()))
        }),
        case("wing-of-three", Scene::new(9, &[], &[]), |it| {
            it.push(wing(&[2, 4, 7]), &not("r5c6 r5c4", &[4]), seen())
        }),
        case("two-colours-seen", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r9c2", &[5]));
            let (argument, cites) =
                two_colours(&["r2c1", "r9c1", "r9c5", "r3c5"], &["column 1", "row 9", "column 5"], None);
            it.push(argument, &not("r3c2 r2c6", &[5]), removed.and(&cites))
        }),
        case("two-colours-clash", Scene::new(9, &[], &[]), |it| {
            let cells = ["r1c1", "r1c5", "r9c5", "r9c2", "r2c2"];
            let (argument, cites) =
                two_colours(&cells, &["row 1", "column 5", "row 9", "column 2"], Some("box 1"));
            it.push(argument, &not("r1c1 r9c5 r2c2", &[5]), cites)
        }),
        case("equal-pairs", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r1c1 r1c5 r5c5 r5c2", &[1, 3]));
            let argument = Argument::EqualPairs {
                digits: digits(&[2, 7]),
                cells: ["r1c1", "r1c5", "r5c5", "r5c2"].map(cell).to_vec(),
            };
            it.push(argument, &not("r3c2 r6c1", &[2, 7]), removed.house(house("row 1")))
        }),
        case("joined-pairs", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r5c5", &[1, 3]));
            let argument = Argument::JoinedPairs {
                ends: [cell("r1c1"), cell("r2c5")],
                house: house("row 4"),
                joint: digit(7),
                places: cells("r4c1 r4c5"),
                digit: digit(2),
            };
            it.push(argument, &not("r1c5 r2c1", &[2]), removed.house(house("row 4")))
        }),
    ]
}

/// `r4c7 5` is so, `!r4c7 5` is not; `r4c7 C` stands for a crust.
fn stated(text: &str) -> Stated {
    let (holds, text) = text.strip_prefix('!').map_or((true, text), |it| (false, it));
    let (at, value) = text.rsplit_once(' ').unwrap();
    let of = if value == "C" { digits(&[1, 9]) } else { digits(&[value.parse().unwrap()]) };
    Stated { cells: cells(at), digits: of, holds }
}

fn chain(start: &str, links: &[(&str, Follows)]) -> Argument {
    let links = links.iter().map(|(then, because)| Inference { then: stated(then), because: *because });
    Argument::Chain { start: stated(start), links: links.collect() }
}

pub(super) fn chains() -> Vec<Case> {
    let by = |name: &str| Follows::House(house(name));
    vec![
        case("chain-with-two-ends", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r4c1", &[5])).and(&known(it, &not("r6c2", &[3])));
            let links = [
                ("r4c2 5", by("row 4")),
                ("!r6c2 5", by("column 2")),
                ("r6c2 7", Follows::Cell),
                ("!r6c9 7", by("row 6")),
                ("r5c8 r6c8 7", by("box 6")),
            ];
            let houses = ["row 4", "column 2", "row 6", "box 6"];
            let cites = houses.iter().fold(removed, |cites, it| cites.house(house(it)));
            it.push(chain("!r4c7 5", &links), &not("r4c8", &[5]), cites)
        }),
        case("chain-with-one-digit-at-both-ends", Scene::new(9, &[], &[]), |it| {
            let links = [("r4c2 5", by("row 4")), ("!r6c2 5", by("column 2")), ("r6c9 5", by("row 6"))];
            let cites = Cites::default().house(house("row 4")).house(house("column 2")).house(house("row 6"));
            it.push(chain("!r4c7 5", &links), &not("r6c7", &[5]), cites)
        }),
        case("chain-from-cells-of-a-box", Scene::new(9, &[], &[]), |it| {
            let links = [("r5c2 7", by("row 5")), ("!r7c2 7", by("column 2")), ("r7c8 7", by("row 7"))];
            let houses = ["row 5", "column 2", "row 7", "column 8"];
            let cites = houses.iter().fold(Cites::default(), |cites, it| cites.house(house(it)));
            it.push(chain("!r5c7 r5c8 7", &links), &not("r4c8", &[7]), cites)
        }),
        case("chain-to-its-opposite", Scene::new(9, &[("row 4", 20), ("column 2", 7)], &[]), |it| {
            let row = Follows::Clue(it.clue("row 4"));
            let column = Follows::Known(Claim::Spent { line: house("column 2"), filling: digits(&[3, 4]) });
            let spent = known(it, &[Claim::Spent { line: house("column 2"), filling: digits(&[3, 4]) }]);
            let links = [
                ("r4c2 C", row),
                ("!r6c2 5", column),
                ("!r6c2 C", column),
                ("r6c2 7", Follows::Cell),
                ("!r6c7 7", by("row 6")),
                ("r4c7 7", by("column 7")),
            ];
            let cites = spent.clue(it.clue("row 4")).house(house("row 6")).house(house("column 7"));
            it.push(chain("!r4c7 7", &links), &[is("r4c7", 7)], cites)
        }),
    ]
}

pub(super) fn crossings() -> Vec<Case> {
    let rows_1_and_4 =
        |spare| crossing(&["row 1", "row 4"], &["column 3", "column 8"], "r1c3 r1c8 r4c3 r4c8", spare);
    vec![
        case("crossing-of-rows", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r4c1 r4c9", &[5]));
            let (argument, cites) = rows_1_and_4("");
            it.push(argument, &not("r2c3 r8c3 r9c8", &[5]), removed.and(&cites))
        }),
        case("crossing-of-columns", Scene::new(9, &[], &[]), |it| {
            let (base, cover) = (["column 1", "column 5", "column 6"], ["row 2", "row 3", "row 4"]);
            let (argument, cites) = crossing(&base, &cover, "r2c1 r3c1 r3c5 r4c5 r2c6 r4c6", "");
            it.push(argument, &not("r3c9", &[5]), cites)
        }),
        case("crossing-with-one-spare", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r4c1 r4c9", &[5]));
            let (argument, cites) = rows_1_and_4("r1c7");
            it.push(argument, &not("r2c8 r3c8", &[5]), removed.and(&cites).house(house("box 3")))
        }),
        case("crossing-with-two-spare", Scene::new(9, &[], &[]), |it| {
            let (argument, cites) = rows_1_and_4("r1c7 r1c9");
            it.push(argument, &not("r2c8", &[5]), cites.house(house("box 3")))
        }),
        case("crossing-with-many-spare", Scene::new(9, &[], &[]), |it| {
            let (base, cover) = (["row 1", "row 3", "row 4"], ["column 3", "column 5", "column 8"]);
            let (argument, cites) = crossing(&base, &cover, "r1c3 r1c8 r3c3 r4c5", "r1c7 r1c9 r3c7");
            it.push(argument, &not("r2c8", &[5]), cites.house(house("box 3")))
        }),
    ]
}
