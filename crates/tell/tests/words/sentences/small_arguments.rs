//! Cases of small arguments.

use super::*;

fn link(at: &str, leaves: &[u8], because: Because) -> Link {
    Link { cell: cell(at), leaves: digits(leaves), because }
}

fn branch(at: &str, supposed: &[u8], chain: Vec<Link>, end: End) -> Branch {
    Branch { cell: cell(at), digits: digits(supposed), chain, end }
}

pub(super) fn small_arguments() -> Vec<Case> {
    let row = |n: u8| house(&format!("row {n}"));
    vec![
        case("argument-of-one-case", Scene::new(9, &[("row 4", 20)], &[("r1c1", 3)]), |it| {
            let clue = it.clue("row 4");
            let fact = held("row 2", 8, "r2c1 r2c2");
            let cites = known(it, &[fact]);
            let removed = known(it, &not("r5c5", &[7]));
            let chain = vec![
                // The supposition itself and a digit on the board settle without a word.
                link("r4c7", &[5], Because::OneDigit),
                link("r1c1", &[3], Because::OneDigit),
                link("r4c2", &[9], Because::OnePlace(row(4))),
                link("r4c2", &[9], Because::OneDigit),
                link("r4c3", &[2, 8], Because::Clue(clue)),
                link("r4c4", &[2, 8], Because::Clue(clue)),
                link("r4c5", &[1, 9], Because::Clue(clue)),
                link("r5c2", &[4], Because::OneDigit),
                link("r2c1", &[8], Because::Known(fact)),
            ];
            let end = End::NoPlace(row(2), digit(3));
            let argument =
                Argument::Cases { branches: vec![branch("r4c7", &[5], chain, end)], is_smallest: true };
            let cites =
                it.givens().and(&cites).and(&removed).clue(clue).house(row(2)).house(house("column 2"));
            it.push(argument, &not("r4c7", &[5]), cites)
        }),
        case("followed-to-an-end", Scene::new(9, &[("row 4", 20)], &[("r1c1", 3)]), |it| {
            let clue = it.clue("row 4");
            let removed = known(it, &not("r5c5", &[7]));
            let chain = vec![
                link("r4c2", &[9], Because::OnePlace(row(4))),
                link("r4c3", &[2, 8], Because::Clue(clue)),
                link("r4c5", &[1, 9], Because::Clue(clue)),
            ];
            let branches = vec![
                branch("r4c7", &[5], chain, End::NoFit(house("column 3"))),
                branch("r4c8", &[5], vec![link("r5c8", &[4], Because::OneDigit)], End::NoWay(clue)),
            ];
            let claims = [Claim::IsNot(cell("r4c7"), digit(5)), Claim::IsNot(cell("r4c8"), digit(5))];
            let cites = it.givens().and(&removed).clue(clue).house(house("column 3"));
            it.push(Argument::Followed { branches }, &claims, cites.house(house("column 8")))
        }),
        case("argument-of-several-cases", Scene::new(9, &[("row 4", 20)], &[]), |it| {
            let clue = it.clue("row 4");
            let apart = between("row 7", 5, 6);
            let cites = known(it, &[apart]);
            let argument = Argument::Cases {
                branches: vec![
                    branch(
                        "r4c7",
                        &[1, 9],
                        vec![link("r4c2", &[1, 9], Because::Clue(clue))],
                        End::Breaks(apart),
                    ),
                    branch("r4c8", &[2, 3, 4, 6], vec![], End::NoWay(clue)),
                    branch("r4c9", &[2, 3, 4, 5, 6, 7, 8], vec![], End::NoDigit(cell("r4c1"))),
                ],
                is_smallest: true,
            };
            let claims = [Claim::Filling(cell("r4c7")), is("r4c8", 5), Claim::Crust(cell("r4c9"))];
            it.push(argument, &claims, cites.clue(clue).house(row(7)))
        }),
        case("argument-with-splits", Scene::new(9, &[], &[]), |it| {
            let inner = End::Split(vec![
                branch("r6c6", &[3], vec![], End::NoPlace(row(6), digit(4))),
                branch("r6c6", &[4], vec![], End::NoDigit(cell("r6c1"))),
                branch("r6c6", &[7], vec![], End::NoDigit(cell("r6c2"))),
            ]);
            let end = End::Split(vec![
                branch(
                    "r5c5",
                    &[2],
                    vec![link("r5c1", &[7], Because::OnePlace(row(5)))],
                    End::NoPlace(house("box 4"), digit(2)),
                ),
                branch("r5c5", &[7], vec![link("r5c2", &[2], Because::OnePlace(row(5)))], inner),
            ]);
            let chain = vec![link("r5c4", &[4], Because::OnePlace(row(5)))];
            let argument =
                Argument::Cases { branches: vec![branch("r4c7", &[5], chain, end)], is_smallest: true };
            it.push(argument, &not("r4c7", &[5]), Cites::default().house(row(5)).house(row(6)))
        }),
        case("argument-with-numbered-splits", Scene::new(9, &[], &[]), |it| {
            let split = || {
                End::Split(vec![
                    branch("r5c5", &[2], vec![], End::NoDigit(cell("r5c1"))),
                    branch("r5c5", &[7], vec![], End::NoDigit(cell("r5c2"))),
                ])
            };
            let argument = Argument::Cases {
                branches: vec![branch("r4c7", &[5], vec![], split()), branch("r4c7", &[6], vec![], split())],
                is_smallest: true,
            };
            it.push(argument, &not("r4c7", &[5, 6]), Cites::default().house(row(4)).house(row(5)))
        }),
        case("argument-about-room-in-a-row", Scene::new(9, &[("row 4", 20)], &[]), |it| {
            let chain = vec![
                link("r4c2", &[2, 8], Because::Fit(row(4))),
                link("r4c3", &[2, 8], Because::Fit(row(4))),
                link("r4c5", &[9], Because::Fit(row(4))),
            ];
            let argument = Argument::Cases {
                branches: vec![branch("r4c7", &[5], chain, End::NoFit(row(4)))],
                is_smallest: false,
            };
            it.push(argument, &not("r4c7", &[5]), Cites::default().house(row(4)))
        }),
        case("argument-with-a-long-chain", Scene::new(9, &[("row 1", 20), ("column 8", 17)], &[]), |it| {
            let clues = ["row 1", "column 8"].map(|line| it.clue(line));
            let kind = Claim::Filling(cell("r1c2"));
            let kinds = known(it, &[kind]);
            let mut chain: Vec<Link> =
                (1..=8).map(|n| link(&format!("r{n}c{n}"), &[n, 9], Because::Clue(clues[1]))).collect();
            chain.push(link("r1c2", &[3, 4], Because::Known(kind)));
            chain.extend((1..=7).map(|n| link(&format!("r{n}c9"), &[n], Because::OnePlace(row(n)))));
            let argument = Argument::Cases {
                branches: vec![branch("r9c9", &[8], chain, End::NoWay(clues[0]))],
                is_smallest: true,
            };
            let cites =
                (1..=9).map(row).fold(kinds, Cites::house).house(house("box 9")).house(house("column 9"));
            it.push(argument, &not("r9c9", &[8]), cites.clue(clues[0]).clue(clues[1]))
        }),
    ]
}
