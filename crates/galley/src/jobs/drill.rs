//! `galley make --drill`: exercises of a house or a few for a technique.

use std::fmt::Write;

use grid::House;
use make::{Brief, Drill, Shown, drill, usually_known};
use primer::{Exercise, Strip, StripCell};
use trail::TechniqueId;

use crate::args::RawMake;
use crate::job::With;
use crate::jobs::make::asked;
use crate::outcome::{Failure, Outcome};
use crate::screen::Screen;
use crate::{json, print, progress, steps, words};

/// How many, unless it is said.
const COUNT: u16 = 3;

/// What whoever gets too few might do.
const NEXT_MOVE: &str =
    "more of them may be looked through with --tries; `galley make --teaches` sets whole puzzles";

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
        // What is shown of a puzzle is cut out of it, so what it has to spare does not matter.
        brief.is_spare_allowed = true;
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
        let drills: Vec<Exercise> = drills.into_iter().map(Exercise::new).collect();
        let is_short = drills.len() < self.count;
        let short = match drills.len() {
            0 => format!("no drill for `{}` found in {} puzzles", self.technique, self.tries),
            n => format!("{n} of {} drills found in {} puzzles", self.count, self.tries),
        };
        let short = format!("error: {short}\n  help: {NEXT_MOVE}\n");
        Ok(Outcome {
            problems: if is_short && !with.is_json { short } else { String::new() },
            result: match with.is_json {
                true => json::text(&self.document(&drills)),
                false if drills.is_empty() => String::new(),
                false => self.in_words(&drills, with.stdout),
            },
            note: String::new(),
            has_errors: is_short,
        })
    }

    fn in_words(&self, drills: &[Exercise], screen: Screen) -> String {
        let name = tell::technique_name(self.technique);
        let mut text = format!("{}\n", tell::capital(name));
        text.push_str(&print::folded(tell::technique_description(self.technique), screen));
        for (number, it) in (1..).zip(drills) {
            let heading = format!("{number}. {}: {}", tell::capital(&it.about), it.question);
            // Writing to a text cannot fail.
            _ = write!(text, "\n{}{}", print::folded(&heading, screen), boards(&it.strips, screen));
            if !it.known.is_empty() {
                text.push_str(&print::folded(&format!("Known besides: {}.", it.known.join("; ")), screen));
            }
        }
        let answers = drills.iter().enumerate().map(|(at, it)| (at + 1, it.answer.clone()));
        text + "\nKey\n" + &print::numbered(answers, screen)
    }

    fn document(&self, exercises: &[Exercise]) -> json::Drills {
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
            clue: drill.puzzle.clues().iter().find(|clue| clue.line == *it).map(|it| it.value),
            cells: drill.puzzle.size().cells_of(*it).iter().map(ToString::to_string).collect(),
        };
        let exercise = |it: &Exercise| json::Drill {
            houses: it.drill.houses.iter().map(|at| house(&it.drill, at)).collect(),
            cells: it.drill.cells.iter().map(cell).collect(),
            known: it.known.clone(),
            question: it.question.clone(),
            answer: it
                .drill
                .answer
                .iter()
                .map(|claim| steps::conclusion(it.drill.puzzle.size(), *claim))
                .collect(),
            says: it.answer.clone(),
        };
        json::Drills {
            format: json::FORMAT,
            seed: self.seed,
            technique: self.technique.name(),
            wanted: self.count,
            drills: exercises.iter().map(exercise).collect(),
        }
    }
}

/// The houses one after the other, named if there are several.
fn boards(strips: &[Strip], screen: Screen) -> String {
    let board = |it: &Strip| {
        let name = if strips.len() > 1 { format!("\n   {}\n", it.name()) } else { "\n".to_owned() };
        name + &table(it, screen)
    };
    strips.iter().map(board).collect()
}

/// The cells with the digits left to each; `#` stands before those of a crust and `o` before those of filling. Where a
/// row of them is wider than the screen, each cell has a line of its own.
fn table(strip: &Strip, screen: Screen) -> String {
    let shown: Vec<String> = strip.cells.iter().map(cell).collect();
    let widest =
        |column: usize| shown.iter().skip(column).step_by(strip.across).map(String::len).max().unwrap_or(0);
    let line = |cells: &[String]| {
        let cells: Vec<String> =
            cells.iter().enumerate().map(|(at, it)| format!("{it:<width$}", width = widest(at))).collect();
        format!("   | {} |\n", cells.join(" | "))
    };
    let lines: Vec<String> = shown.chunks(strip.across).map(line).collect();
    if lines.iter().all(|it| it.trim_end().len() <= usize::from(screen.width)) {
        return lines.concat();
    }
    strip
        .cells
        .iter()
        .zip(&shown)
        .map(|(cell, it)| format!("   {:<6} | {it}\n", cell.cell.to_string()))
        .collect()
}

/// `?` stands for a digit that is asked for.
fn cell(it: &StripCell) -> String {
    let digits: String = it.digits.iter().map(grid::Digit::to_char).collect();
    match (it.is_crust, it.is_filling, it.digits.len()) {
        (_, _, 0) => "?".to_owned(),
        (_, _, 1) => digits,
        (true, ..) => format!("#{digits}"),
        (_, true, _) => format!("o{digits}"),
        _ => digits,
    }
}
