//! Cases of steps that houses alone make.

use super::*;

pub(super) fn classic() -> Vec<Case> {
    let row_4 = || house("row 4");
    vec![
        case(
            "last-cell",
            Scene::new(
                9,
                &[],
                &[
                    ("r4c1", 1),
                    ("r4c2", 2),
                    ("r4c3", 3),
                    ("r4c4", 4),
                    ("r4c5", 6),
                    ("r4c6", 7),
                    ("r4c8", 8),
                    ("r4c9", 9),
                ],
            ),
            |it| {
                let argument = Argument::LastCell { house: row_4(), cell: cell("r4c7"), digit: digit(5) };
                let cites = it.givens().house(row_4());
                it.push(argument, &[is("r4c7", 5)], cites)
            },
        ),
        case("one-place-seen", Scene::new(9, &[], &[("r2c1", 5), ("r6c5", 5), ("r8c9", 5)]), |it| {
            let argument = Argument::OnePlace { house: row_4(), cell: cell("r4c7"), digit: digit(5) };
            let cites = it.givens().house(row_4());
            it.push(argument, &[is("r4c7", 5)], cites)
        }),
        case("one-place-seen-and-removed", Scene::new(9, &[], &[("r2c1", 5)]), |it| {
            let removed = known(it, &not("r4c2 r4c3", &[5]));
            let kinds = known(it, &crust("r4c4"));
            let argument = Argument::OnePlace { house: row_4(), cell: cell("r4c7"), digit: digit(5) };
            let cites = it.givens().and(&removed).and(&kinds).house(row_4());
            it.push(argument, &[is("r4c7", 5)], cites)
        }),
        case("one-place-one-step", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r4c2 r4c3", &[5]));
            let argument = Argument::OnePlace { house: row_4(), cell: cell("r4c7"), digit: digit(5) };
            it.push(argument, &[is("r4c7", 5)], removed.house(row_4()))
        }),
        case("one-place-of-a-crust", Scene::new(9, &[("row 4", 20)], &[]), |it| {
            let kinds = known(it, &filling("r4c1 r4c2 r4c3 r4c4 r4c5 r4c6 r4c8 r4c9"));
            let argument = Argument::OnePlace { house: row_4(), cell: cell("r4c7"), digit: digit(9) };
            it.push(argument, &[is("r4c7", 9)], kinds.house(row_4()))
        }),
        case("one-place-of-a-crust-that-is-seen", Scene::new(9, &[("row 4", 20)], &[("r2c1", 9)]), |it| {
            let kinds = known(it, &filling("r4c2 r4c3 r4c4 r4c5 r4c6 r4c8 r4c9"));
            let argument = Argument::OnePlace { house: row_4(), cell: cell("r4c7"), digit: digit(9) };
            let cites = it.givens().and(&kinds).house(row_4()).house(house("column 1"));
            it.push(argument, &[is("r4c7", 9)], cites)
        }),
        case("one-place-of-many-steps", Scene::new(9, &[], &[]), |it| {
            let steps = ["r4c1", "r4c2", "r4c3", "r4c4", "r4c5", "r4c6", "r4c8", "r4c9"].map(|at| {
                known(it, &filling("r9c9"));
                known(it, &not(at, &[5]))
            });
            let cites = steps.iter().fold(Cites::default().house(row_4()), Cites::and);
            let argument = Argument::OnePlace { house: row_4(), cell: cell("r4c7"), digit: digit(5) };
            it.push(argument, &[is("r4c7", 5)], cites)
        }),
        case(
            "one-digit-seen",
            Scene::new(
                9,
                &[],
                &[
                    ("r4c1", 1),
                    ("r4c2", 2),
                    ("r4c3", 3),
                    ("r1c7", 4),
                    ("r2c7", 6),
                    ("r3c7", 7),
                    ("r5c8", 8),
                    ("r5c9", 9),
                ],
            ),
            |it| {
                let cites = it.givens().house(row_4()).house(house("column 7")).house(house("box 6"));
                let argument = Argument::OneDigit { cell: cell("r4c7"), digit: digit(5) };
                it.push(argument, &[is("r4c7", 5)], cites)
            },
        ),
        case(
            "one-digit-of-filling",
            Scene::new(9, &[], &[("r4c1", 2), ("r4c2", 3), ("r1c7", 4), ("r2c7", 6)]),
            |it| {
                let kind = known(it, &filling("r4c7"));
                let removed = known(it, &not("r4c7", &[7, 8]));
                let argument = Argument::OneDigit { cell: cell("r4c7"), digit: digit(5) };
                let cites = it.givens().and(&kind).and(&removed);
                it.push(argument, &[is("r4c7", 5)], cites)
            },
        ),
        case("one-digit-of-crust", Scene::new(9, &[], &[("r4c1", 1)]), |it| {
            let kind = known(it, &crust("r4c7"));
            let argument = Argument::OneDigit { cell: cell("r4c7"), digit: digit(9) };
            let cites = it.givens().and(&kind).house(row_4());
            it.push(argument, &[is("r4c7", 9)], cites)
        }),
        case("locked-by-digits", Scene::new(9, &[], &[("r5c1", 3), ("r6c9", 3)]), |it| {
            let argument = Argument::Locked {
                digit: digit(3),
                from: house("box 5"),
                into: row_4(),
                cells: cells("r4c4 r4c6"),
            };
            let cites = it.givens().house(house("box 5")).house(row_4());
            it.push(argument, &not("r4c1 r4c8", &[3]), cites)
        }),
        case("locked-by-step", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r5c4 r5c5 r5c6 r6c4 r6c5 r6c6", &[3]));
            let argument = Argument::Locked {
                digit: digit(3),
                from: house("box 5"),
                into: row_4(),
                cells: cells("r4c4 r4c5 r4c6"),
            };
            it.push(argument, &not("r4c1", &[3]), removed.house(house("box 5")).house(row_4()))
        }),
        case("locked-plainly", Scene::new(9, &[], &[]), |it| {
            let argument = Argument::Locked {
                digit: digit(3),
                from: row_4(),
                into: house("box 5"),
                cells: cells("r4c4 r4c5"),
            };
            it.push(argument, &not("r5c4 r6c6", &[3]), Cites::default().house(row_4()))
        }),
        case("shared-digits", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r4c1", &[3, 4]));
            let argument =
                Argument::SharedDigits { house: row_4(), cells: cells("r4c1 r4c5"), digits: digits(&[2, 7]) };
            let lost: Vec<Claim> = [not("r4c2 r4c3", &[2, 7]), not("r4c9", &[7])].concat();
            it.push(argument, &lost, removed.house(row_4()))
        }),
        case("shared-digits-of-three", Scene::new(9, &[], &[]), |it| {
            let argument = Argument::SharedDigits {
                house: house("column 2"),
                cells: cells("r1c2 r2c2 r3c2"),
                digits: digits(&[2, 5, 7]),
            };
            it.push(argument, &not("r9c2", &[2, 5, 7]), Cites::default().house(house("column 2")))
        }),
        case("shared-cells", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r4c2 r4c3", &[2, 7]));
            let argument =
                Argument::SharedCells { house: row_4(), cells: cells("r4c1 r4c5"), digits: digits(&[2, 7]) };
            let lost: Vec<Claim> = [not("r4c1", &[3, 5, 8]), not("r4c5", &[4])].concat();
            it.push(argument, &lost, removed.house(row_4()))
        }),
    ]
}
