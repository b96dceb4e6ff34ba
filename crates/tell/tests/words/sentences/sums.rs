//! Cases about sums, their sets and what is left of them.

use super::*;

/// The sets that are left, and those excluded with the digit that shows it.
type Listed<'a> = (&'a [&'a [u8]], &'a [(&'a [u8], u8)]);

/// A step about the sets of one side of row 4.
fn sets(
    name: &'static str,
    clue: u16,
    side: Side,
    (left, excluded): Listed<'_>,
    knows: &[Vec<Claim>],
    concludes: &[Claim],
) -> Case {
    case(name, Scene::new(9, &[("row 4", clue)], &[]), |it| {
        let cites = knows.iter().fold(Cites::default(), |cites, claims| cites.and(&known(it, claims)));
        let id = it.clue("row 4");
        let argument = Argument::Sets {
            clue: id,
            line: house("row 4"),
            side,
            sum: if side == Side::Between { clue } else { 35 - clue },
            cells: (1, 3),
            sets: left.iter().map(|it| digits(it)).collect(),
            excluded: excluded.iter().map(|(set, why)| (digits(set), digit(*why))).collect(),
        };
        it.push(argument, concludes, cites.clue(id))
    })
}

pub(super) fn sums() -> Vec<Case> {
    let row_4 = || house("row 4");
    let mut all = vec![
        sets(
            "sets-between-none-uses",
            12,
            Side::Between,
            (&[&[4, 8], &[5, 7]], &[]),
            &[vec![between("row 4", 2, 2)], crust("r4c3")],
            &not("r4c4", &[2, 3, 6]),
        ),
        sets(
            "sets-between-spent",
            12,
            Side::Between,
            (&[&[5, 7]], &[(&[4, 8], 8)]),
            &[vec![between("row 4", 2, 2)], not("r4c4 r4c5", &[8])],
            &[spent("row 4", &[5, 7])],
        ),
        sets(
            "sets-between-of-seventeen",
            17,
            Side::Between,
            (
                &[
                    &[2, 7, 8],
                    &[3, 6, 8],
                    &[4, 5, 8],
                    &[4, 6, 7],
                    &[2, 3, 4, 8],
                    &[2, 3, 5, 7],
                    &[2, 4, 5, 6],
                ],
                &[],
            ),
            &[],
            &[held("row 4", 2, "r4c1 r4c2")],
        ),
        sets(
            "sets-outside-all-use",
            29,
            Side::Outside,
            (&[&[2, 4]], &[(&[6], 6)]),
            &[not("r4c1 r4c9", &[6])],
            &[spent("row 4", &[3, 5, 6, 7, 8])],
        ),
        sets(
            "sets-outside-open",
            25,
            Side::Outside,
            (&[&[2, 8], &[2, 3, 5]], &[(&[3, 7], 7), (&[4, 6], 2)]),
            &[not("r4c1", &[7]), not("r4c2", &[2])],
            &[not("r4c5", &[2]), not("r4c1", &[4, 6])].concat(),
        ),
        sets(
            "sets-left-no-place-by-digits-on-the-board",
            12,
            Side::Between,
            (&[&[5, 7]], &[(&[4, 8], 8)]),
            &[vec![Claim::Is(cell("r1c2"), digit(8)), Claim::Is(cell("r7c3"), digit(8))]],
            &[spent("row 4", &[5, 7])],
        ),
        sets(
            "sets-between-one-reason-for-several",
            20,
            Side::Between,
            (
                &[&[2, 5, 6, 7]],
                &[
                    (&[5, 7, 8], 8),
                    (&[2, 3, 7, 8], 3),
                    (&[3, 4, 5, 8], 3),
                    (&[3, 4, 6, 7], 3),
                    (&[2, 4, 6, 8], 4),
                ],
            ),
            &[vec![between("row 4", 3, 4)], vec![is("r4c9", 3)], not("r4c4 r4c5", &[8])],
            &[spent("row 4", &[2, 5, 6, 7])],
        ),
        sets(
            "sets-outside-33",
            33,
            Side::Outside,
            (&[&[2]], &[]),
            &[],
            &[spent("row 4", &[3, 4, 5, 6, 7, 8])],
        ),
        sets(
            "sets-outside-nothing",
            35,
            Side::Outside,
            (&[&[]], &[]),
            &[],
            &[spent("row 4", &[2, 3, 4, 5, 6, 7, 8])],
        ),
    ];
    all.extend([
        case("spent-splits", Scene::new(9, &[], &[]), |it| {
            let clue = known(it, &[spent("row 4", &[2, 3, 8])]);
            let kinds = known(it, &filling("r4c3 r4c4 r4c9"));
            let argument = Argument::SpentSplits {
                line: row_4(),
                filling: digits(&[2, 3, 8]),
                between: cells("r4c3 r4c4"),
                outside: cells("r4c8 r4c9"),
            };
            let lost = [not("r4c3 r4c4", &[4, 5, 6, 7]), not("r4c9", &[2, 8])].concat();
            it.push(argument, &lost, clue.and(&kinds).house(row_4()))
        }),
        case("spent-splits-sliced", Scene::new(9, &[], &[]), |it| {
            let clue = known(it, &[spent("row 4", &[2, 3, 8])]);
            let argument = Argument::SpentSplits {
                line: row_4(),
                filling: digits(&[2, 3, 8]),
                between: cells("r4c3 r4c4"),
                outside: cells("r4c8 r4c9"),
            };
            it.push(argument, &not("r4c9", &[8]), clue.house(row_4()))
        }),
        case("spent-splits-nothing-between", Scene::new(9, &[], &[]), |it| {
            let clue = known(it, &[spent("row 4", &[])]);
            let argument = Argument::SpentSplits {
                line: row_4(),
                filling: digits(&[]),
                between: cells(""),
                outside: cells("r4c9"),
            };
            it.push(argument, &not("r4c9", &[1, 9]), clue.house(row_4()))
        }),
        case("side-holds-spent", Scene::new(9, &[], &[]), |it| {
            let clue = known(it, &[spent("row 4", &[2, 3, 5, 6, 7, 8])]);
            let kinds = known(it, &filling("r4c3"));
            let argument = Argument::SideHolds {
                line: row_4(),
                side: Side::Outside,
                digit: digit(4),
                cells: cells("r4c1 r4c2"),
            };
            it.push(argument, &[held("row 4", 4, "r4c1 r4c2")], clue.and(&kinds).house(row_4()))
        }),
        case("side-holds-by-clue", Scene::new(9, &[("row 4", 11)], &[]), |it| {
            let removed = known(it, &not("r4c8 r4c9", &[8]));
            let clue = it.clue("row 4");
            let argument = Argument::SideHolds {
                line: row_4(),
                side: Side::Between,
                digit: digit(8),
                cells: cells("r4c1 r4c2 r4c3 r4c4"),
            };
            let claim = held("row 4", 8, "r4c1 r4c2 r4c3 r4c4");
            it.push(argument, &[claim], removed.clue(clue))
        }),
        case("side-holds-one-cell", Scene::new(9, &[], &[]), |it| {
            let clue = known(it, &[spent("row 4", &[2, 3])]);
            let argument = Argument::SideHolds {
                line: row_4(),
                side: Side::Between,
                digit: digit(3),
                cells: cells("r4c2"),
            };
            it.push(argument, &[held("row 4", 3, "r4c2")], clue.house(row_4()))
        }),
        case("held-acts", Scene::new(9, &[], &[]), |it| {
            let fact = known(it, &[held("row 4", 8, "r4c1 r4c3")]);
            let argument = Argument::HeldActs { line: row_4(), digit: digit(8), cells: cells("r4c1 r4c3") };
            it.push(argument, &not("r5c2 r6c1 r6c2 r6c3", &[8]), fact.house(house("box 4")))
        }),
        case(
            "remainder-between",
            Scene::new(9, &[("row 4", 17)], &[("r4c1", 1), ("r4c2", 3), ("r4c4", 8), ("r4c5", 9)]),
            |it| {
                let clue = it.clue("row 4");
                let argument = Argument::Remainder {
                    clue,
                    line: row_4(),
                    side: Side::Between,
                    sum: 17,
                    placed: digits(&[3, 8]),
                    cell: cell("r4c3"),
                    digit: digit(6),
                };
                let cites = it.givens().clue(clue);
                it.push(argument, &[is("r4c3", 6)], cites)
            },
        ),
        case("remainder-outside", Scene::new(9, &[("row 4", 29)], &[("r4c1", 2)]), |it| {
            let kinds = known(it, &crust("r4c2 r4c8"));
            let clue = it.clue("row 4");
            let argument = Argument::Remainder {
                clue,
                line: row_4(),
                side: Side::Outside,
                sum: 6,
                placed: digits(&[2]),
                cell: cell("r4c9"),
                digit: digit(4),
            };
            let cites = it.givens().and(&kinds).clue(clue);
            it.push(argument, &[is("r4c9", 4)], cites)
        }),
        case(
            "remainder-outside-once-the-total-is-known",
            Scene::new(9, &[("row 3", 29), ("row 4", 29)], &[("r4c1", 2)]),
            |it| {
                let mut step = |line: &str, at: &str, placed: &[u8], value| {
                    let clue = it.clue(line);
                    let argument = Argument::Remainder {
                        clue,
                        line: house(line),
                        side: Side::Outside,
                        sum: 6,
                        placed: digits(placed),
                        cell: cell(at),
                        digit: digit(value),
                    };
                    let cites = it.givens().clue(clue);
                    it.push(argument, &[is(at, value)], cites)
                };
                step("row 3", "r3c9", &[], 6);
                step("row 4", "r4c9", &[2], 4)
            },
        ),
        case("remainder-whole", Scene::new(6, &[("row 4", 5)], &[]), |it| {
            let kinds = known(it, &crust("r4c2 r4c4"));
            let clue = it.clue("row 4");
            let argument = Argument::Remainder {
                clue,
                line: row_4(),
                side: Side::Between,
                sum: 5,
                placed: digits(&[]),
                cell: cell("r4c3"),
                digit: digit(5),
            };
            it.push(argument, &[is("r4c3", 5)], kinds.clue(clue))
        }),
    ]);
    all
}
