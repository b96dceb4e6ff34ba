//! Each technique by cases: `tests/data/<technique>/<case>.toml`.
//!
//! A case has a grid of givens (a character a cell, `.` for an empty one; spaces are for the eye), clues
//! as in a puzzle file, facts known beyond the page, and the steps that the technique of its folder
//! finds, each as its conclusions in short form (see `support/shorthand.rs`). Every conclusion has to
//! pass `replay`. One case of each folder has `example = true`: the guide to techniques shows it. `UPDATE_CASES=1 cargo test -p reason` writes the steps anew; judge each by hand before
//! keeping it.

use grid::{CellSet, Size};
use prove::{Limit, Verdict};
use reason::small_argument::Arguments;
use reason::{Settings, TECHNIQUES, Technique, View};
use replay::{Cap, Refusal, judge};
use rulebook::Claim;
use trail::{Argument, Cites, FactId, Proposal, TechniqueId};

use crate::support::case_file::{Case, all};
use crate::support::shorthand;

/// What one conclusion may cost; those of techniques take a node or a few.
const CAP: Cap = Cap(2000);

#[test]
fn techniques_find_what_their_cases_say() {
    let mut faults = Vec::new();
    for (folder, cases) in all() {
        let all = TECHNIQUES.into_iter().chain([&SmallArgument as &dyn Technique]);
        let technique = all.into_iter().find(|it| it.id().name() == folder);
        let technique = technique.unwrap_or_else(|| panic!("{folder}: no technique of that name"));
        faults.extend(cases.iter().filter_map(|it| check(technique, it).err()));
    }
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
}

/// The small argument, so that it can be tried like a technique. Its puzzles have one solution.
struct SmallArgument;

impl Technique for SmallArgument {
    fn id(&self) -> TechniqueId {
        TechniqueId::SMALL_ARGUMENT
    }

    fn weight(&self) -> u32 {
        u32::MAX
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        &[]
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let verdict = prove::verdict(view.puzzle(), Limit(1_000));
        let Verdict::One(solution) = verdict else { panic!("not one solution: {verdict:?}") };
        let effort = Settings::THOROUGH.argument;
        Arguments::new(&solution, effort).find(view, |_| 0).into_iter().collect()
    }
}

/// Whether the technique finds the case's steps and no others, and each is new and follows from what it
/// cites.
fn check(technique: &dyn Technique, case: &Case) -> Result<(), String> {
    let fault = |what: String| Err(format!("{}: {what}", case.path.display()));
    let mut view = View::new(&case.puzzle);
    if !case.known.is_empty() {
        view.take(given(&case.known)).unwrap();
    }
    let found = technique.find(&view);
    let claims: Vec<Vec<Claim>> =
        found.iter().map(|it| it.conclusions.iter().map(|it| it.0).collect()).collect();
    if let Some(open) = technique.open_claims(&view).filter(|it| *it != claims) {
        return fault(format!("{open:?} open, {claims:?} found"));
    }
    for proposal in &found {
        let mut after = view.clone();
        if let Err(error) = after.take(proposal.clone()) {
            return fault(error.to_string());
        }
        for (claim, cites) in &proposal.conclusions {
            let shown = shorthand::write(*claim);
            if let Err(refusal) = judge(&case.puzzle, view.trail(), claim, cites, CAP) {
                return fault(format!("{shown}: {refusal}"));
            }
            if contradict_each_other(&view, cites) {
                return fault(format!("{shown}: what it cites contradicts itself, so it shows nothing"));
            }
            if proposal.technique != technique.id() || !view.is_news(*claim) || after.is_news(*claim) {
                return fault(format!("{shown}: not news, or still news afterwards"));
            }
        }
        // A step that has been taken is not offered again.
        let taken = shown_step(proposal);
        if technique.find(&after).iter().any(|it| shown_step(it) == taken) {
            return fault(format!("{taken:?}: offered again"));
        }
    }

    let mut got: Vec<Vec<String>> = found.iter().map(shown_step).collect();
    got.sort();
    if std::env::var_os("UPDATE_CASES").is_some() {
        std::fs::write(&case.path, rewritten(case, &got)).unwrap();
    }
    match got == case.steps {
        true => Ok(()),
        false => fault(format!("\n--- expected\n{:#?}\n--- got\n{got:#?}", case.steps)),
    }
}

/// The facts of a case as a step that cites nothing.
fn given(known: &[Claim]) -> Proposal {
    let conclusions = known.iter().map(|it| (*it, Cites::default())).collect();
    let argument = Argument::SeesBothCrusts { cells: CellSet::EMPTY };
    Proposal { technique: TechniqueId::new("test-given"), argument, conclusions }
}

/// Whether not even a plain falsehood can be refuted from the citations.
fn contradict_each_other(view: &View, cites: &Cites) -> bool {
    let size = view.size();
    let of_fact = |it: &FactId| view.trail().fact(*it).claim();
    let of_clue = |it| Some(view.puzzle().clue(it)?.line);
    let house = (cites.houses.first().copied())
        .or(cites.clues.first().and_then(|it| of_clue(*it)))
        .or(cites.facts.iter().find_map(|it| of_fact(it).house()))
        .or(cites.facts.iter().find_map(|it| Some(size.houses_of(of_fact(it).cell()?)[0])));
    let falsehood = house.map(|house| Claim::CrustAmong { house, cells: CellSet::EMPTY });
    let judged = falsehood.map(|it| judge(view.puzzle(), view.trail(), &it, cites, Cap(100_000)));
    !matches!(judged, Some(Err(Refusal::Counterexample(_))))
}

fn shown_step(proposal: &Proposal) -> Vec<String> {
    let mut shown: Vec<String> = proposal.conclusions.iter().map(|it| shorthand::write(it.0)).collect();
    shown.sort();
    shown
}

/// The case's text with other steps, which come last in it.
fn rewritten(case: &Case, steps: &[Vec<String>]) -> String {
    let (before, _) = case.text.split_once("steps = ").unwrap();
    let line = |step: &Vec<String>| {
        let shown: Vec<String> = step.iter().map(|it| format!("\"{it}\"")).collect();
        match shown.iter().map(|it| it.len() + 2).sum::<usize>() < 100 {
            true => format!("    [{}],\n", shown.join(", ")),
            false => format!("    [\n        {},\n    ],\n", shown.join(",\n        ")),
        }
    };
    match steps {
        [] => format!("{before}steps = []\n"),
        steps => format!("{before}steps = [\n{}]\n", steps.iter().map(line).collect::<String>()),
    }
}

/// The short form is read back as it was written.
#[test]
fn the_short_form_says_what_it_is_given() {
    let texts = [
        "r1c2 is 5",
        "r1c4 not 7",
        "r1c4 crust",
        "r1c2 filling",
        "row 4 cells 3-5",
        "column 4 spent 2 3 8",
        "row 4 spent",
        "row 4 has 5 in r4c1 r4c2",
        "box 1 crust in r1c1 r3c2",
    ];
    for text in texts {
        assert_eq!(shorthand::read(Size::NINE, text).map(shorthand::write).as_deref(), Ok(text));
    }
    for text in ["r1c10 is 5", "r1c1 is 10", "row 4 cells 3", "row 4", "line 4 spent", "r1c1 is  5"] {
        assert!(shorthand::read(Size::NINE, text).is_err(), "{text}");
    }
}
