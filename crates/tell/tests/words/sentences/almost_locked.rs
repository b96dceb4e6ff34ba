//! Cases of almost locked sets, and of a line and a box that share a set.

use super::*;

fn sets(a: (&str, &[u8]), b: (&str, &[u8]), joints: &[u8]) -> Argument {
    let [a, b] = [a, b].map(|(at, left)| (cells(at), digits(left)));
    Argument::AlmostLocked { sets: [a, b], joints: digits(joints) }
}

fn in_houses(names: &[&str]) -> Cites {
    names.iter().fold(Cites::default(), |cites, it| cites.house(house(it)))
}

pub(super) fn almost_locked() -> Vec<Case> {
    vec![
        case("almost-locked-sets", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r1c1 r1c3", &[1, 3]));
            let argument = sets(("r1c1 r1c3", &[2, 5, 7]), ("r1c5 r2c6", &[2, 3, 7]), &[7]);
            it.push(argument, &not("r1c4", &[2]), removed.and(&in_houses(&["row 1", "box 2"])))
        }),
        case("almost-locked-sets-and-two-digits", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r1c1 r1c3", &[1, 4])).and(&known(it, &not("r5c5", &[1])));
            let argument = sets(("r1c1 r1c2 r1c3", &[2, 3, 5, 7]), ("r5c5", &[2, 3]), &[2]);
            it.push(argument, &not("r1c5 r5c1", &[3, 7]), removed.and(&in_houses(&["row 1"])))
        }),
        case("almost-locked-sets-with-two-joints", Scene::new(9, &[], &[]), |it| {
            let argument = sets(("r1c1 r1c2", &[2, 5, 7]), ("r1c5 r1c6 r2c4", &[2, 3, 4, 7]), &[2, 7]);
            it.push(argument, &not("r1c9 r3c5", &[4, 5]), in_houses(&["row 1", "box 2"]))
        }),
        case("line-and-box", Scene::new(9, &[], &[]), |it| {
            let removed = known(it, &not("r1c1 r1c2", &[1, 4]));
            let argument = Argument::LineAndBox {
                houses: [house("row 1"), house("box 1")],
                crossing: (cells("r1c1 r1c2"), digits(&[2, 3, 5, 7])),
                parts: [(cells("r1c5"), digits(&[2, 5])), (cells("r3c3"), digits(&[3, 7]))],
                held: [digits(&[2, 5]), digits(&[3, 7])],
            };
            it.push(argument, &not("r1c9", &[2, 5]), removed.and(&in_houses(&["row 1", "box 1"])))
        }),
        case("line-and-box-with-more-cells", Scene::new(9, &[], &[]), |it| {
            let argument = Argument::LineAndBox {
                houses: [house("column 4"), house("box 5")],
                crossing: (cells("r4c4 r5c4 r6c4"), digits(&[1, 2, 3, 5, 7])),
                parts: [(cells("r1c4"), digits(&[2, 5])), (cells("r4c5"), digits(&[3, 7]))],
                held: [digits(&[1, 2, 5]), digits(&[1, 3, 7])],
            };
            it.push(argument, &not("r5c5 r5c6", &[1, 3]), in_houses(&["column 4", "box 5"]))
        }),
    ]
}
