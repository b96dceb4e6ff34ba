//! Steps as a person makes them: accepted as they stand; refused when the conclusion is another one or
//! a citation is left out.

mod common;

use common::{assert_counterexample, claim, house, list, puzzle, supposing};
use replay::{Cap, Refusal, judge};
use rulebook::Claim;
use trail::Cites;

const EMPTY: &str = ".................................................................................";
/// Enough for any of these; what each really takes is asserted.
const CAP: Cap = Cap(1000);

/// One step. Nothing in `houses`, `clues` and `facts` is superfluous.
struct Case {
    name: &'static str,
    /// Cited houses.
    houses: &'static str,
    /// The puzzle's clues, all cited.
    clues: &'static str,
    /// Cited facts.
    facts: &'static str,
    /// Conclusions that follow, each by itself.
    follows: &'static str,
    /// Conclusions that do not follow.
    not: &'static str,
}

const STEPS: [Case; 19] = [
    Case {
        name: "last cell of a house",
        houses: "row 1",
        clues: "",
        facts: "r1c1=1, r1c2=2, r1c3=3, r1c4=4, r1c5=5, r1c6=6, r1c7=7, r1c8=8",
        follows: "r1c9=9",
        not: "r1c9=8, r1c9!=9, r1c9 filling",
    },
    Case {
        name: "naked single",
        houses: "row 5, column 5, box 5",
        clues: "",
        facts: "r5c1=1, r5c2=2, r5c8=3, r1c5=4, r9c5=5, r7c5=6, r4c4=7, r6c6=8",
        follows: "r5c5=9, r5c5 crust",
        not: "r5c5=1, r5c5!=9, r5c6=9",
    },
    Case {
        name: "hidden single",
        houses: "row 1, row 2, column 1, column 2, box 1",
        clues: "",
        facts: "r1c9=7, r2c5=7, r5c1=7, r9c2=7",
        follows: "r3c3=7",
        not: "r3c3=8, r3c3!=7, r3c3 crust",
    },
    Case {
        name: "locked candidates, from a box into a row",
        houses: "row 1",
        clues: "",
        facts: "5 of box 1 in r1c1 r1c2 r1c3",
        follows: "r1c4!=5, r1c9!=5, 5 of row 1 in r1c1 r1c2 r1c3",
        not: "r1c3!=5, r2c4!=5, r1c4!=6",
    },
    Case {
        name: "naked pair",
        houses: "column 3",
        clues: "",
        facts: "r1c3 crust, r7c3 crust",
        follows: "r4c3!=1, r4c3!=9, r4c3 filling",
        not: "r4c3!=5, r1c3=1, r4c4 filling",
    },
    Case {
        name: "hidden pair",
        houses: "",
        clues: "",
        facts: "2 of box 9 in r7c7 r8c8, 3 of box 9 in r7c7 r8c8",
        follows: "r7c7!=4, r8c8!=9, r7c7 filling",
        not: "r7c7!=2, r7c8!=9",
    },
    Case {
        name: "two houses full of a digit empty two others",
        houses: "column 2, column 6",
        clues: "",
        facts: "4 of row 3 in r3c2 r3c6, 4 of row 8 in r8c2 r8c6",
        follows: "r1c2!=4, r9c6!=4",
        not: "r3c2!=4, r1c3!=4",
    },
    Case {
        name: "a cell that sees a 1 and a 9",
        houses: "row 2, column 7",
        clues: "",
        facts: "r2c1=1, r8c7=9",
        follows: "r2c7 filling",
        not: "r2c7 crust, r2c8 filling",
    },
    Case {
        name: "both crusts of a house are found",
        houses: "box 4",
        clues: "",
        facts: "r4c1 crust, r6c2 crust",
        follows: "r5c3 filling, r5c3!=9",
        not: "r4c1=9, r5c3=5, r4c4 filling",
    },
    Case {
        name: "two places are left for the crusts",
        houses: "box 5",
        clues: "",
        facts: "r4c4 filling, r4c5 filling, r4c6 filling, r5c4 filling, r5c5 filling, r5c6 filling, r6c4 filling",
        follows: "r6c5 crust, r6c6 crust",
        not: "r6c5=1, r6c5 filling",
    },
    Case {
        name: "a sum of 0 puts the crusts side by side",
        houses: "",
        clues: "row 3: 0",
        facts: "r3c4=1, r3c3 filling",
        follows: "r3c5=9, r3c5 crust, row 3 holds 0 to 0",
        not: "r3c5=1, row 3 holds 1 to 2",
    },
    Case {
        name: "a sum of 35 puts the crusts at the ends",
        houses: "",
        clues: "column 8: 35",
        facts: "",
        follows: "r1c8 crust, r9c8 crust, r5c8 filling, column 8 spent 2 3 4 5 6 7 8",
        not: "r1c8=1, r1c8 filling",
    },
    // The filling cells of a sum and the crusts of 22 or more: `facts.md`, section 1 (exact).
    Case {
        name: "crust distance",
        houses: "",
        clues: "row 4: 22",
        facts: "",
        follows: "row 4 holds 4 to 5, r4c5 filling, row 4 holds 3 to 6",
        not: "row 4 holds 5 to 5, row 4 holds 4 to 4, r4c4 filling, r4c4 crust",
    },
    Case {
        name: "a crust out of reach",
        houses: "",
        clues: "",
        facts: "row 4 holds 4 to 5, r4c2 crust",
        follows: "r4c1 filling, r4c6 filling, r4c9 filling, crust of row 4 in r4c7 r4c8",
        not: "r4c7 crust, r4c7 filling, crust of row 4 in r4c8",
    },
    Case {
        name: "the last outside digit",
        houses: "",
        clues: "row 7: 32",
        facts: "r7c1 filling",
        follows: "r7c1=3, r7c2 crust, row 7 spent 2 4 5 6 7 8",
        not: "r7c1=4, r7c2=9, row 7 spent 2 3 4 5 6 7",
    },
    Case {
        name: "a digit that no filling set contains",
        houses: "",
        clues: "column 1: 10",
        facts: "r1c1 crust, r4c1 crust",
        follows: "r2c1!=5, r3c1!=5, column 1 holds 2 to 2",
        not: "r2c1!=8, r5c1!=8, column 1 spent 3 7",
    },
    Case {
        name: "a clue is spent",
        houses: "",
        clues: "column 6: 6",
        facts: "column 6 holds 2 to 2",
        follows: "column 6 spent 2 4",
        not: "column 6 spent 6, column 6 spent 2 5, column 6 spent",
    },
    Case {
        name: "a spent clue splits the cells that are on one side for certain",
        houses: "",
        clues: "",
        facts: "column 6 spent 2 4, r1c6 crust",
        follows: "r2c6!=5, r3c6!=8, r4c6 crust, r5c6!=4, r9c6!=2",
        not: "r2c6=2, r5c6!=5, r4c6=9",
    },
    Case {
        name: "what is left of a sum",
        houses: "",
        clues: "row 1: 15",
        facts: "r1c1 crust, r1c4 crust, r1c2=8",
        follows: "r1c3=7, row 1 spent 7 8, r1c5 filling",
        not: "r1c3=6, r1c3!=7, r1c5!=6, r1c4=1",
    },
];

fn check(case: &Case, most_nodes: u64) {
    let name = case.name;
    let puzzle = puzzle(EMPTY, case.clues);
    let size = puzzle.size();
    let facts: Vec<Claim> = list(case.facts).map(|it| claim(size, it)).collect();
    let (trail, ids) = supposing(&puzzle, &facts);
    let cites = Cites {
        houses: list(case.houses).map(|it| house(size, it)).collect(),
        clues: puzzle.clue_ids().map(|it| it.0).collect(),
        facts: ids.into_iter().collect(),
        ..Cites::default()
    };
    let refused =
        |conclusion: &Claim, cites: &Cites, why: &str| match judge(&puzzle, &trail, conclusion, cites, CAP) {
            Err(Refusal::Counterexample(filling)) => {
                assert_counterexample(&puzzle, &trail, conclusion, cites, &filling);
            }
            other => panic!("{name}, {why}: {conclusion:?} gave {other:?}"),
        };

    for text in list(case.follows) {
        match judge(&puzzle, &trail, &claim(size, text), &cites, CAP) {
            Ok(nodes) => assert!(nodes <= most_nodes, "{name}: {text} took {nodes} nodes"),
            Err(refusal) => panic!("{name}: {text} is refused: {refusal}"),
        }
    }
    for text in list(case.not) {
        refused(&claim(size, text), &cites, "which is wrong");
    }

    // Whatever is left out, the first conclusion does not follow any more.
    let first = claim(size, list(case.follows).next().unwrap());
    for house in &cites.houses {
        let mut fewer = cites.clone();
        fewer.houses.remove(house);
        refused(&first, &fewer, &format!("without {house}"));
    }
    for clue in &cites.clues {
        let mut fewer = cites.clone();
        fewer.clues.remove(clue);
        refused(&first, &fewer, &format!("without {:?}", puzzle.clue(*clue)));
    }
    for fact in &cites.facts {
        let mut fewer = cites.clone();
        fewer.facts.remove(fact);
        refused(&first, &fewer, &format!("without {:?}", trail.fact(*fact).claim()));
    }
}

#[test]
fn ordinary_steps_take_one_node() {
    for case in &STEPS {
        check(case, 1);
    }
}

#[test]
fn long_chains_take_few_nodes() {
    let chains = [
        Case {
            name: "one digit along six houses: if not r1c1, then r5c7, then r3c2",
            houses: "column 4, column 7, box 1",
            clues: "",
            facts: "5 of row 1 in r1c1 r1c4, 5 of row 5 in r5c4 r5c7, 5 of row 3 in r3c7 r3c2",
            follows: "r2c3!=5, r2c1!=5",
            not: "r1c1=5, r3c2=5, r9c1!=5, r9c2!=5",
        },
        Case {
            name: "crusts that would have to alternate round an odd ring of seven houses",
            houses: "row 1, column 5, row 6, column 8, row 9, column 2, box 1",
            clues: "",
            facts: "r1c1 crust, r1c5 crust, r6c5 crust, r6c8 crust, r9c8 crust, r9c2 crust",
            follows: "r3c2 filling",
            not: "r3c3 filling, r3c2=5",
        },
        Case {
            name: "cells of two digits: if r1c2 is 7, r1c1 is 8, then r1c6 6, r4c6 5, r4c2 7",
            houses: "row 1, column 6, row 4, column 2",
            clues: "",
            facts: "r1c1!=1, r1c1!=2, r1c1!=3, r1c1!=4, r1c1!=5, r1c1!=6, r1c1!=9, \
                    r1c6!=1, r1c6!=2, r1c6!=3, r1c6!=4, r1c6!=5, r1c6!=9, \
                    r4c6!=1, r4c6!=2, r4c6!=3, r4c6!=4, r4c6!=7, r4c6!=8, r4c6!=9, \
                    r4c2!=1, r4c2!=2, r4c2!=3, r4c2!=4, r4c2!=6, r4c2!=8, r4c2!=9",
            follows: "r1c2!=7",
            not: "r1c1=7, r4c2=7, r1c3!=7",
        },
    ];
    for case in &chains {
        check(case, 3);
    }
}
