//! Cases of what a line has no way for.

use super::*;

/// What is tried in a cell, with places for the crusts such as `"r4c1 r4c4"` and the digits between.
fn tried(supposed: &[u8], places: &[&str], between: &[&[u8]]) -> Misfit {
    let pair = |text: &&str| text.split_once(' ').map(|(a, b)| (cell(a), cell(b))).unwrap();
    Misfit {
        digits: digits(supposed),
        pairs: places.iter().map(pair).collect(),
        sets: between.iter().map(|it| digits(it)).collect(),
        refused: Vec::new(),
    }
}

/// The same, with the houses that have no way with each of the sets.
fn refused(tried: Misfit, by: &[(&[u8], &str)]) -> Misfit {
    Misfit { refused: by.iter().map(|(set, by)| (digits(set), house(by))).collect(), ..tried }
}

fn misfit(at: &str, tries: Vec<Misfit>) -> Argument {
    Argument::Misfits { line: house("row 4"), cell: cell(at), tries, around: Vec::new() }
}

const FILLING: [u8; 7] = [2, 3, 4, 5, 6, 7, 8];

pub(super) fn misfits() -> Vec<Case> {
    vec![
        case("misfit-mate", Scene::new(9, &[], &[("r5c5", 9)]), |it| {
            let apart = known(it, &[between("row 4", 2, 2)]);
            let argument = misfit("r4c2", vec![tried(&[1], &["r4c2 r4c5"], &[])]);
            let cites = it.givens().and(&apart).house(house("box 5"));
            it.push(argument, &not("r4c2", &[1]), cites)
        }),
        case("misfit-no-mate", Scene::new(9, &[], &[]), |it| {
            let apart = known(it, &[between("row 4", 5, 6)]);
            let argument = misfit("r4c5", vec![tried(&[1, 9], &[], &[])]);
            it.push(argument, &filling("r4c5"), apart)
        }),
        case("misfit-mates-either-side", Scene::new(9, &[], &[]), |it| {
            let apart = known(it, &[between("row 4", 1, 1)]);
            let kinds = known(it, &filling("r4c3 r4c7"));
            let argument = misfit("r4c5", vec![tried(&[1, 9], &["r4c3 r4c5", "r4c5 r4c7"], &[])]);
            it.push(argument, &filling("r4c5"), apart.and(&kinds))
        }),
        case("misfit-crust-without-mates", Scene::new(9, &[], &[]), |it| {
            let apart = known(it, &[between("row 4", 6, 6)]);
            let argument = misfit("r4c2", vec![tried(&FILLING, &["r4c2 r4c9"], &[])]);
            it.push(argument, &crust("r4c2"), apart)
        }),
        case("misfit-crust-and-sum", Scene::new(9, &[("row 4", 16)], &[]), |it| {
            let kinds = known(it, &not("r4c4", &[7, 8]));
            let clue = it.clue("row 4");
            let argument = misfit("r4c3", vec![tried(&[1, 9], &["r4c3 r4c7"], &[&[2, 6, 8], &[4, 5, 7]])]);
            it.push(argument, &filling("r4c3"), kinds.clue(clue))
        }),
        case("misfit-crust-nowhere", Scene::new(9, &[("row 4", 16)], &[]), |it| {
            let clue = it.clue("row 4");
            let argument = misfit("r4c3", vec![tried(&[9], &[], &[])]);
            it.push(argument, &not("r4c3", &[9]), Cites::default().clue(clue))
        }),
        case("misfit-must-be-crust", Scene::new(9, &[("row 4", 16)], &[]), |it| {
            let clue = it.clue("row 4");
            let places = ["r4c1 r4c4", "r4c2 r4c5"];
            let argument = misfit("r4c9", vec![tried(&FILLING, &places, &[&[7, 8]])]);
            it.push(argument, &crust("r4c9"), Cites::default().clue(clue))
        }),
        case("misfit-must-be-crust-of-many", Scene::new(6, &[("row 4", 9)], &[]), |it| {
            let clue = it.clue("row 4");
            let argument = misfit("r4c6", vec![tried(&[2, 3, 4, 5], &[], &[])]);
            it.push(argument, &crust("r4c6"), Cites::default().clue(clue))
        }),
        case("misfit-partners", Scene::new(9, &[("row 4", 12)], &[("r4c1", 1)]), |it| {
            let kind = known(it, &crust("r4c5"));
            let clue = it.clue("row 4");
            let places = ["r4c1 r4c5"];
            let tries = vec![tried(&[8], &places, &[]), tried(&[5], &places, &[&[2, 4, 5, 7], &[3, 4, 5]])];
            let argument = misfit("r4c2", tries);
            it.push(argument, &not("r4c2", &[8, 5]), it.givens().and(&kind).clue(clue))
        }),
        case("misfit-partners-of-many-sets", Scene::new(9, &[("row 4", 17)], &[]), |it| {
            let clue = it.clue("row 4");
            let sets: [&[u8]; 5] = [&[2, 7, 8], &[3, 6, 8], &[4, 5, 8], &[4, 6, 7], &[2, 3, 5, 7]];
            let argument = misfit("r4c2", vec![tried(&[5], &["r4c1 r4c5"], &sets)]);
            it.push(argument, &not("r4c2", &[5]), Cites::default().clue(clue))
        }),
        case("misfit-with-a-neighbour", Scene::new(9, &[("row 4", 12), ("row 5", 9)], &[]), |it| {
            let kinds = known(it, &crust("r4c1 r4c4"));
            let clues = ["row 4", "row 5"].map(|line| it.clue(line));
            let argument = Argument::Misfits {
                line: house("row 4"),
                cell: cell("r4c2"),
                tries: vec![refused(tried(&[4], &["r4c1 r4c4"], &[&[4, 8]]), &[(&[4, 8], "row 5")])],
                around: vec![house("row 5"), house("box 4")],
            };
            let cites = kinds.clue(clues[0]).clue(clues[1]).house(house("box 4"));
            it.push(argument, &not("r4c2", &[4]), cites)
        }),
        case("misfit-refused-by-two", Scene::new(9, &[("row 4", 12), ("row 5", 9)], &[]), |it| {
            let kinds = known(it, &filling("r4c2"));
            let clues = ["row 4", "row 5"].map(|line| it.clue(line));
            let sets: [(&[u8], &str); 2] = [(&[4, 8], "row 5"), (&[5, 7], "box 4")];
            let tried = refused(tried(&[1, 9], &["r4c1 r4c4"], &sets.map(|it| it.0)), &sets);
            let argument = Argument::Misfits {
                line: house("row 4"),
                cell: cell("r4c1"),
                tries: vec![tried],
                around: vec![house("row 5"), house("box 4")],
            };
            let cites = kinds.clue(clues[0]).clue(clues[1]).house(house("box 4"));
            it.push(argument, &filling("r4c1"), cites)
        }),
        case("misfit-with-many-neighbours", Scene::new(9, &[("row 4", 12), ("column 5", 9)], &[]), |it| {
            let set = known(it, &[spent("row 4", &[4, 8])]);
            let clue = it.clue("column 5");
            let around = ["row 5", "column 2", "column 5", "column 7", "box 4", "box 6"].map(house).to_vec();
            let cites = around.iter().fold(set.clue(clue), |cites, it| cites.house(*it));
            let pairs = ["r4c1 r4c4", "r4c2 r4c5", "r4c6 r4c9"];
            let tries = vec![tried(&[1, 9], &pairs, &[&[4, 8]]), tried(&FILLING, &pairs, &[&[4, 8]])];
            let argument = Argument::Misfits { line: house("row 4"), cell: cell("r4c2"), tries, around };
            it.push(argument, &[filling("r4c2"), crust("r4c2")].concat(), cites)
        }),
        case("misfit-spent", Scene::new(9, &[("row 4", 8)], &[]), |it| {
            let set = known(it, &[spent("row 4", &[3, 5])]);
            let removed = known(it, &not("r4c3", &[3]));
            let argument = misfit("r4c2", vec![tried(&[5], &["r4c1 r4c4"], &[&[3, 5]])]);
            it.push(argument, &not("r4c2", &[5]), set.and(&removed))
        }),
        case("misfit-each-set-lacks-a-place", Scene::new(9, &[("row 4", 14)], &[]), |it| {
            let removed = known(it, &[not("r4c3", &[3, 8]), not("r4c4", &[3, 8])].concat());
            let clue = it.clue("row 4");
            let argument = misfit("r4c2", vec![tried(&[4], &["r4c1 r4c5"], &[&[2, 4, 8], &[3, 4, 7]])]);
            it.push(argument, &not("r4c2", &[4]), removed.clue(clue))
        }),
        case("misfit-nothing-between", Scene::new(9, &[("row 4", 0)], &[("r1c3", 1)]), |it| {
            let set = known(it, &[spent("row 4", &[])]);
            let argument = misfit("r4c2", vec![tried(&[9], &["r4c2 r4c3"], &[&[]])]);
            it.push(argument, &not("r4c2", &[9]), set)
        }),
    ]
}
