//! `galley table`: the pack at a glance.

use pack::{Coverage, Placed};
use reason::by_ease;
use study::{Placement, Study};

use super::order::{aside_document, by};
use crate::job::With;
use crate::json;
use crate::outcome::{Failure, Outcome};
use crate::places::Places;
use crate::screen::Screen;
use crate::studies::{Found, Target};
use crate::{print, words};

/// The command.
#[derive(Debug)]
pub(crate) struct Table {
    /// The pack.
    pub(crate) target: Target,
}

impl Table {
    /// Puts the pack into a table.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let found = self.target.study(with)?;
        let result = match with.is_json {
            true => json::text(&document(&found)),
            false => in_words(&found, with.stdout),
        };
        Ok(Outcome {
            problems: found.problems(with),
            result,
            note: String::new(),
            has_errors: found.has_errors(),
        })
    }
}

/// A row a puzzle in order of the pack, then those that cannot be read; then what no puzzle teaches.
pub(crate) fn in_words(found: &Found, screen: Screen) -> String {
    let pack = &found.pack;
    if pack.all().next().is_none() && found.unreadable.is_empty() {
        return String::new();
    }
    let has_shelves = !pack.info().shelves.is_empty();
    let headings = ["", "puzzle", "setter", "solutions", "minutes", "shelf", "new in it"];
    let kept = |it: &usize| has_shelves || *it != 5;
    let columns: Vec<usize> = (0..headings.len()).filter(kept).collect();
    let chosen = |cells: [String; 7]| columns.iter().map(|it| cells[*it].clone()).collect::<Vec<_>>();

    let mut table = print::table(&columns.iter().map(|it| headings[*it]).collect::<Vec<_>>(), screen);
    let places = Places::of(pack);
    for (place, study, reasons) in places.iter() {
        table.add_row(chosen(row_in_words(pack.placement(place - 1), study, reasons)));
    }
    for it in pack.aside() {
        table.add_row(chosen(aside_in_words(it)));
    }
    for it in &found.unreadable {
        let title = it.title.clone().unwrap_or_else(|| print::visible(&it.name));
        let empty = String::new;
        table.add_row(chosen([empty(), title, empty(), words::UNREADABLE.into(), empty(), empty(), empty()]));
    }
    let title = if pack.info().title.is_empty() { String::new() } else { format!("{}\n", pack.info().title) };
    let note = print::folded(&words::minutes_note(pack.n_solves()), screen);
    let not_taught = match words::techniques(&places.not_taught()) {
        it if it.is_empty() => String::new(),
        it => print::folded(&format!("No puzzle teaches yet: {it}."), screen),
    };
    let not_practised: Vec<_> = places.not_practised().iter().map(|it| it.0).collect();
    let not_practised = match words::techniques(&not_practised) {
        it if it.is_empty() => String::new(),
        it => print::folded(&format!("Taught once and practised in no other puzzle: {it}."), screen),
    };
    format!("{title}{}{not_taught}{not_practised}{note}", print::drawn(&table))
}

/// The row of a puzzle that has no place.
fn aside_in_words(study: &Study) -> [String; 7] {
    let entry = study.entry();
    [
        String::new(),
        entry.title.clone(),
        entry.setter.clone(),
        words::n_solutions(study.finding()).to_owned(),
        study.minutes().map(words::minutes).unwrap_or_default(),
        entry.shelf.clone().unwrap_or_default(),
        format!("({})", words::state(entry.state)),
    ]
}

fn row_in_words(placement: Placement<'_>, study: &Study, reasons: Option<&Placed>) -> [String; 7] {
    let entry = study.entry();
    let new = match reasons {
        Some(it) if it.new.is_empty() => "nothing".to_owned(),
        Some(it) => words::techniques(&by_ease(it.new.iter().copied())),
        None if study.is_sealed() => "(sealed)".to_owned(),
        None => String::new(),
    };
    [
        placement.number.to_string(),
        entry.title.clone(),
        entry.setter.clone(),
        words::n_solutions(study.finding()).to_owned(),
        study.minutes().map(words::minutes).unwrap_or_default(),
        placement.shelf.unwrap_or_default().to_owned(),
        new,
    ]
}

/// The same as a document.
pub(crate) fn document(found: &Found) -> json::Table {
    let pack = &found.pack;
    let places = Places::of(pack);
    let row = |(place, study, reasons): (usize, &Study, Option<&Placed>)| {
        let entry = study.entry();
        let placement = pack.placement(place - 1);
        json::Row {
            place: placement.number,
            id: entry.id.to_string(),
            title: entry.title.clone(),
            setter: entry.setter.clone(),
            sealed: study.is_sealed(),
            verdict: json::verdict(study.finding()),
            minutes: study.minutes().map(json::Minutes::from),
            shelf: placement.shelf.map(str::to_owned),
            new: reasons.map(|it| words::ids(&by_ease(it.new.iter().copied()))),
            practised: reasons.map(|it| words::ids(&by_ease(it.practised.iter().copied()))),
        }
    };
    let covered = |it: &Coverage| json::Coverage {
        technique: it.technique.name(),
        known: it.is_known,
        puzzles: it.puzzles.iter().map(ToString::to_string).collect(),
    };
    json::Table {
        format: json::FORMAT,
        title: pack.info().title.clone(),
        editor: pack.info().editor.clone(),
        by: by(pack),
        puzzles: places.iter().map(row).collect(),
        aside: aside_document(pack),
        coverage: places.used().map(covered).collect(),
        not_taught: words::ids(&places.not_taught()),
        not_practised: places.not_practised().iter().map(|it| it.0.name()).collect(),
        unreadable: found.unreadable_files(),
        problems: found.all_problems(),
    }
}
