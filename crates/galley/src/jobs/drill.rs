//! `galley make --drill`: exercises of a house or a few for a technique.

use std::fmt::Write;

use grid::{Cell, House};
use make::{Brief, Drill, Shown, drill, usually_known};
use trail::TechniqueId;

use crate::args::RawMake;
use crate::job::With;
use crate::jobs::make::asked;
use crate::outcome::{Failure, Outcome};
use crate::screen::Screen;
use crate::{json, print, progress, steps, words};

/// How many, unless it is said.
const COUNT: u16 = 3;

/// The command.
#[derive(Debug)]
pub(crate) struct Drills {
    technique: TechniqueId,
    brief: Brief,
    seed: u64,
    count: usize,
    tries: u64,
}

impl Drills {
    /// What was asked for, if that is what was asked for.
    pub(crate) fn asked(raw: &RawMake) -> Result<Option<Drills>, Failure> {
        let Some(technique) = raw.drill.as_deref().and_then(words::technique_named) else { return Ok(None) };
        let mut brief = asked::brief(raw)?;
        if raw.hardest.is_none() && raw.knows.is_none() {
            brief.known = usually_known(&[technique]);
        }
        brief.known = brief.known.with(technique);
        Ok(Some(Drills {
            technique,
            brief,
            seed: raw.seed.unwrap_or_default(),
            count: usize::from(raw.count.unwrap_or(COUNT)),
            tries: raw.tries,
        }))
    }

    /// Looks for drills, and prints them with a key.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let sign = progress::waiting("looking for drills", with);
        let stop = || with.stop.is_asked();
        let drills = drill(&self.brief, self.technique, self.seed, (self.count, self.tries), &stop);
        sign.finish_and_clear();
        let drills = drills.ok_or_else(Failure::interrupted)?;
        if drills.is_empty() {
            return Err(Failure::new(
                format!("no drill for `{}` found in {} puzzles", self.technique, self.tries),
                "more of them may be looked through with --tries; `galley make --teaches` sets whole puzzles",
            ));
        }
        let is_short = drills.len() < self.count;
        let short =
            format!("error: {} of {} drills found in {} puzzles\n", drills.len(), self.count, self.tries);
        Ok(Outcome {
            problems: if is_short && !with.is_json { short } else { String::new() },
            result: match with.is_json {
                true => json::text(&self.document(&drills)),
                false => self.in_words(&drills, with.stdout),
            },
            note: String::new(),
            has_errors: is_short,
        })
    }

    fn in_words(&self, drills: &[Drill], screen: Screen) -> String {
        let name = tell::technique_name(self.technique);
        let mut text = format!("{}\n", tell::capital(name));
        text.push_str(&print::folded(tell::technique_description(self.technique), screen));
        for (number, it) in (1..).zip(drills) {
            let question = tell::drill_question(it.puzzle.size(), &it.houses, &it.answer);
            let houses: Vec<String> = it.houses.iter().map(|house| named(it, *house)).collect();
            let heading = format!("{number}. {}: {question}", tell::capital(&tell::list(&houses)));
            // Writing to a text cannot fail.
            _ = write!(text, "\n{}\n{}", print::folded(&heading, screen), boards(it));
            if !it.known.is_empty() {
                text.push_str(&print::folded(&format!("Known besides: {}.", known(it).join("; ")), screen));
            }
        }
        let answers = drills.iter().enumerate().map(|(at, it)| (at + 1, answer(it)));
        text + "\nKey\n" + &print::numbered(answers, screen)
    }

    fn document(&self, drills: &[Drill]) -> json::Drills {
        let cell = |it: &Shown| json::DrillCell {
            cell: it.cell.to_string(),
            digits: it.digits.iter().map(|it| it.get()).collect(),
            kind: match (it.is_crust, it.is_filling) {
                (true, _) => Some("crust"),
                (_, true) => Some("filling"),
                _ => None,
            },
        };
        let house = |drill: &Drill, it: &House| json::DrillHouse {
            house: it.to_string(),
            clue: clue(drill, *it),
            cells: drill.puzzle.size().cells_of(*it).iter().map(ToString::to_string).collect(),
        };
        let drill = |it: &Drill| json::Drill {
            houses: it.houses.iter().map(|at| house(it, at)).collect(),
            cells: it.cells.iter().map(cell).collect(),
            known: known(it),
            question: tell::drill_question(it.puzzle.size(), &it.houses, &it.answer),
            answer: it.answer.iter().map(|claim| steps::conclusion(it.puzzle.size(), *claim)).collect(),
            says: answer(it),
        };
        json::Drills {
            format: json::FORMAT,
            seed: self.seed,
            technique: self.technique.name(),
            wanted: self.count,
            drills: drills.iter().map(drill).collect(),
        }
    }
}

/// `row 4 with clue 24`.
fn named(drill: &Drill, house: House) -> String {
    match clue(drill, house) {
        Some(clue) => format!("{house} with clue {clue}"),
        None => house.to_string(),
    }
}

fn clue(drill: &Drill, house: House) -> Option<u16> {
    drill.puzzle.clues().iter().find(|it| it.line == house).map(|it| it.value)
}

/// What is known of the houses besides.
fn known(drill: &Drill) -> Vec<String> {
    drill.known.iter().map(|it| tell::claim(drill.puzzle.size(), it)).collect()
}

fn answer(drill: &Drill) -> String {
    let says = tell::says(&drill.puzzle, &drill.trail, drill.step);
    tell::drill_answer(drill.puzzle.size(), &drill.answer, &says, drill.step.number() - 1)
}

/// The houses one after the other, named if there are several, and then the cell that is asked about if it is in none
/// of them.
fn boards(drill: &Drill) -> String {
    let size = drill.puzzle.size();
    let of_house = |it: &House| {
        let name = if drill.houses.len() > 1 { format!("\n   {it}\n") } else { "\n".to_owned() };
        let cells = size.cells_of(*it);
        let across = if it.is_line() { cells.len() } else { usize::from(size.box_width()) };
        name + &table(drill, &cells, across)
    };
    let is_elsewhere = |it: &Cell| !size.houses_of(*it).iter().any(|it| drill.houses.contains(it));
    let apart = drill.cell.filter(is_elsewhere).map(|it| format!("\n   {it}\n{}", table(drill, &[it], 1)));
    drill.houses.iter().map(of_house).chain(apart).collect()
}

/// The cells with the digits left to each; `#` stands before those of a crust and `o` before those of filling.
fn table(drill: &Drill, cells: &[Cell], across: usize) -> String {
    let shown: Vec<String> =
        cells.iter().filter_map(|at| drill.cells.iter().find(|it| it.cell == *at)).map(cell).collect();
    let widest = shown.iter().map(String::len).max().unwrap_or_default();
    let line = |cells: &[String]| {
        let cells: Vec<String> = cells.iter().map(|it| format!("{it:<widest$}")).collect();
        format!("   | {} |\n", cells.join(" | "))
    };
    shown.chunks(across).map(line).collect()
}

fn cell(it: &Shown) -> String {
    let digits: String = it.digits.iter().map(grid::Digit::to_char).collect();
    match (it.is_crust, it.is_filling, it.digits.len()) {
        (_, _, 1) => digits,
        (true, ..) => format!("#{digits}"),
        (_, true, _) => format!("o{digits}"),
        _ => digits,
    }
}
