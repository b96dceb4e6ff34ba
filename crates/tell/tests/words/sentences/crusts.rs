//! Cases about the places of crusts.

use super::*;

pub(super) fn crusts() -> Vec<Case> {
    let row_4 = || house("row 4");
    vec![
        case("sees-both-one-cell", Scene::new(9, &[], &[("r4c1", 1), ("r9c5", 9)]), |it| {
            let argument = Argument::SeesBothCrusts { cells: cells("r4c5 r4c6") };
            let cites = it.givens().house(row_4()).house(house("column 5"));
            it.push(argument, &filling("r4c5"), cites)
        }),
        case("sees-both-known-to-differ", Scene::new(9, &[], &[("r4c1", 1)]), |it| {
            let removed = known(it, &not("r4c5", &[9]));
            let argument = Argument::SeesBothCrusts { cells: cells("r4c5") };
            let cites = it.givens().and(&removed).house(row_4());
            it.push(argument, &filling("r4c5"), cites)
        }),
        case("sees-both-several", Scene::new(9, &[], &[("r4c1", 1), ("r5c8", 9)]), |it| {
            let removed = known(it, &not("r4c5", &[9]));
            let argument = Argument::SeesBothCrusts { cells: cells("r4c5 r4c7 r4c9") };
            let cites = it.givens().and(&removed);
            it.push(argument, &filling("r4c5 r4c7 r4c9"), cites)
        }),
        case("crusts-found", Scene::new(9, &[], &[("r4c1", 1)]), |it| {
            let kind = known(it, &crust("r4c6"));
            let argument = Argument::CrustsFound { house: row_4(), crusts: cells("r4c1 r4c6") };
            let cites = it.givens().and(&kind).house(row_4());
            it.push(argument, &filling("r4c2 r4c3 r4c4 r4c5 r4c7 r4c9"), cites)
        }),
        case("crust-places", Scene::new(9, &[], &[]), |it| {
            let a = known(it, &filling("r4c2 r4c3 r4c4 r4c5"));
            let b = known(it, &filling("r4c7 r4c8 r4c9"));
            let argument = Argument::CrustPlaces { house: row_4(), cells: cells("r4c1 r4c6") };
            it.push(argument, &crust("r4c1 r4c6"), a.and(&b).house(row_4()))
        }),
        case("crust-held", Scene::new(9, &[], &[]), |it| {
            let kind = known(it, &crust("r5c6"));
            let away = known(it, &filling("r4c7 r4c8 r4c9"));
            let argument = Argument::CrustHeld {
                into: house("box 5"),
                line: row_4(),
                known: cell("r5c6"),
                cells: cells("r4c4 r4c5"),
            };
            let cites = kind.and(&away).house(row_4()).house(house("box 5"));
            it.push(argument, &filling("r5c4 r5c5 r6c4"), cites)
        }),
        case("crusts-confined-in-a-box", Scene::new(9, &[], &[]), |it| {
            let away = known(it, &filling("r5c4 r5c5 r5c6 r6c4"));
            let more = known(it, &filling("r6c5 r6c6"));
            let argument =
                Argument::CrustsConfined { of: house("box 5"), into: row_4(), cells: cells("r4c4 r4c6") };
            let cites = away.and(&more).house(row_4()).house(house("box 5"));
            it.push(argument, &filling("r4c1 r4c2 r4c9"), cites)
        }),
        case("crusts-confined-in-a-column", Scene::new(6, &[], &[("r3c2", 4)]), |it| {
            let away = known(it, &filling("r4c2 r5c2 r6c2"));
            let argument = Argument::CrustsConfined {
                of: house("column 2"),
                into: house("box 1"),
                cells: cells("r1c2 r2c2"),
            };
            let cites = it.givens().and(&away).house(house("column 2")).house(house("box 1"));
            it.push(argument, &filling("r1c1 r2c3"), cites)
        }),
        case("crusts-in-turn", Scene::new(9, &[], &[]), |it| {
            let kinds = known(it, &crust("r1c1 r1c5 r5c5 r4c8"));
            let argument =
                Argument::CrustsInTurn { kinds: ["r1c1 r5c5", "r1c5 r4c8"].map(cells), refused: None };
            let cites = ["row 1", "column 5", "row 5", "row 4"].map(house);
            let cites = cites.into_iter().fold(kinds, Cites::house);
            it.push(argument, &filling("r4c1"), cites)
        }),
        case("crust-turn-settled", Scene::new(6, &[], &[]), |it| {
            let kinds = known(it, &crust("r1c1 r1c5"));
            let more = known(it, &filling("r6c2 r6c3"));
            let refused = Some((house("row 6"), digit(6)));
            let argument = Argument::CrustsInTurn { kinds: ["r1c1", "r1c5"].map(cells), refused };
            let cites = ["row 1", "column 1", "column 5", "row 6"].map(house);
            let cites = cites.into_iter().fold(kinds.and(&more), Cites::house);
            it.push(argument, &[Claim::Is(cell("r1c1"), digit(1)), Claim::Is(cell("r1c5"), digit(6))], cites)
        }),
        case("crust-among", Scene::new(9, &[], &[]), |it| {
            let away = known(it, &filling("r4c7 r4c8 r4c9 r4c1 r4c2"));
            let argument =
                Argument::CrustAmong { of: row_4(), into: house("box 5"), cells: cells("r4c4 r4c6") };
            let claim = Claim::CrustAmong { house: row_4(), cells: cells("r4c4 r4c6") };
            it.push(argument, &[claim], away.house(row_4()))
        }),
        case("crusts-shared", Scene::new(9, &[], &[]), |it| {
            let first = known(it, &[Claim::CrustAmong { house: row_4(), cells: cells("r4c4 r4c6") }]);
            let second = known(it, &[Claim::CrustAmong { house: house("row 6"), cells: cells("r6c5 r6c6") }]);
            let parts = ["r4c4 r4c6", "r6c5 r6c6"].map(cells);
            let argument = Argument::CrustsShared { into: house("box 5"), parts };
            it.push(argument, &filling("r5c4 r5c5 r5c6"), first.and(&second).house(house("box 5")))
        }),
        case("crusts-shared-with-a-known-one", Scene::new(9, &[], &[]), |it| {
            let first = known(it, &[Claim::CrustAmong { house: house("box 5"), cells: cells("r4c4 r4c6") }]);
            let second = known(it, &crust("r4c9"));
            let parts = ["r4c4 r4c6", "r4c9"].map(cells);
            let argument = Argument::CrustsShared { into: row_4(), parts };
            it.push(argument, &filling("r4c1 r4c2"), first.and(&second).house(row_4()))
        }),
        case("crusts-touch", Scene::new(9, &[("row 4", 0)], &[]), |it| {
            let clue = it.clue("row 4");
            let argument = Argument::CrustsTouch { clue, line: row_4() };
            it.push(argument, &[spent("row 4", &[])], Cites::default().clue(clue))
        }),
        case("crusts-touch-and-act", Scene::new(9, &[("column 4", 0)], &[]), |it| {
            let kind = known(it, &filling("r2c4"));
            let clue = it.clue("column 4");
            let argument = Argument::CrustsTouch { clue, line: house("column 4") };
            it.push(argument, &filling("r1c4"), kind.clue(clue))
        }),
        case("crusts-at-ends", Scene::new(9, &[("row 4", 35)], &[]), |it| {
            let clue = it.clue("row 4");
            let argument = Argument::CrustsAtEnds { clue, line: row_4(), sum: 35 };
            let mut claims = crust("r4c1 r4c9");
            claims.extend(filling("r4c2 r4c3 r4c4 r4c5 r4c6 r4c7 r4c8"));
            claims.push(spent("row 4", &[2, 3, 4, 5, 6, 7, 8]));
            it.push(argument, &claims, Cites::default().clue(clue))
        }),
        case("crusts-at-ends-6x6", Scene::new(6, &[("row 4", 14)], &[]), |it| {
            let clue = it.clue("row 4");
            let argument = Argument::CrustsAtEnds { clue, line: row_4(), sum: 14 };
            it.push(argument, &crust("r4c1 r4c6"), Cites::default().clue(clue))
        }),
        distance("crust-distance", 9, 20, (3, 5), &[7, 8], &[2, 3, 4, 5, 6, 7]),
        distance("crust-distance-low-only", 9, 32, (6, 6), &[4, 5, 6, 7, 8], &[2, 3, 4, 5, 6, 7, 8]),
        distance("crust-distance-high-only", 9, 3, (1, 1), &[], &[2, 3]),
        distance("crust-distance-4x4", 4, 5, (2, 2), &[3], &[]),
        case("reach-many-pairs", Scene::new(9, &[], &[]), |it| {
            let apart = known(it, &[between("row 4", 4, 5)]);
            let argument = Argument::Reach { line: row_4(), fewest: 4, most: 5, pairs: pairs("row 4", 4, 5) };
            it.push(argument, &filling("r4c5"), apart.house(row_4()))
        }),
        case("reach-few-pairs", Scene::new(9, &[], &[]), |it| {
            let apart = known(it, &[between("row 4", 6, 6)]);
            let kind = known(it, &filling("r4c2"));
            let argument = Argument::Reach {
                line: row_4(),
                fewest: 6,
                most: 6,
                pairs: vec![(cell("r4c1"), cell("r4c8"))],
            };
            let mut claims = crust("r4c1 r4c8");
            claims.extend(filling("r4c3 r4c9"));
            it.push(argument, &claims, apart.and(&kind).house(row_4()))
        }),
        case("reach-covered-and-unreached", Scene::new(9, &[], &[("r4c6", 4)]), |it| {
            let apart = known(it, &[spent("row 4", &[4, 5, 6, 7, 8])]);
            let kind = known(it, &filling("r4c7 r4c9"));
            let argument = Argument::Reach {
                line: row_4(),
                fewest: 5,
                most: 5,
                pairs: vec![(cell("r4c2"), cell("r4c8"))],
            };
            let cites = it.givens().and(&apart).and(&kind).house(row_4());
            it.push(argument, &filling("r4c1 r4c3 r4c5"), cites)
        }),
        case("reach-argument-knew-more", Scene::new(9, &[], &[("r4c6", 1)]), |it| {
            let argument = Argument::Reach {
                line: row_4(),
                fewest: 1,
                most: 1,
                pairs: vec![(cell("r4c6"), cell("r4c8"))],
            };
            let apart = known(it, &[between("row 4", 1, 2)]);
            let cites = it.givens().and(&apart).house(row_4());
            it.push(argument, &filling("r4c2"), cites)
        }),
    ]
}

fn distance(
    name: &'static str,
    side: u8,
    sum: u16,
    (fewest, most): (u8, u8),
    short: &[u8],
    over: &[u8],
) -> Case {
    // `over` is given even where it is not too large, to be dropped here as the maker of steps does.
    let over = Some(digits(over)).filter(|it| it.sum() > sum).unwrap_or_default();
    case(name, Scene::new(side, &[("row 4", sum)], &[]), |it| {
        let clue = it.clue("row 4");
        let argument = Argument::CrustDistance {
            clue,
            line: house("row 4"),
            sum,
            fewest,
            most,
            short: digits(short),
            over,
        };
        it.push(argument, &[between("row 4", fewest, most)], Cites::default().clue(clue))
    })
}

/// Every pair of cells of a 9x9 line with that many cells between them.
fn pairs(line: &str, fewest: usize, most: usize) -> Vec<(grid::Cell, grid::Cell)> {
    let all = grid::Size::NINE.cells_of(house(line));
    let pairs = (0..9).flat_map(|a| (a + 1..9).map(move |b| (a, b)));
    pairs.filter(|(a, b)| (fewest..=most).contains(&(b - a - 1))).map(|(a, b)| (all[a], all[b])).collect()
}
