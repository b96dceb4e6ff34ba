//! Everything the template prints, as values.
//!
//! The template reads this as `sys.inputs`. Texts of the pack are values of type `str`, which the
//! typesetter sets letter by letter; nothing from a pack is ever read as the typesetter's language.

use std::collections::BTreeSet;

use grid::Size;
use primer::Primer;
use rulebook::{Puzzle, Rule, SANDWICH};
use study::{Published, StudiedPack};
use typst::foundations::{Array, Dict, IntoValue, Value, dict};

use crate::printed::Printer;
use crate::read_back::PrintedPuzzle;
use crate::{Edition, PrintedText, board, fonts, hints, howto, lessons, roles, sums, words};

/// The data, and what reading the booklet back must give.
pub(crate) fn data(
    pack: &StudiedPack,
    published: &[Published<'_>],
    lessons: &Primer,
    edition: &Edition,
    printer: &mut Printer,
) -> (Dict, Vec<PrintedPuzzle>) {
    let printed: Vec<PrintedPuzzle> = published.iter().map(|it| printed_puzzle(it, printer)).collect();
    let puzzles = published.iter().zip(&printed).map(|(it, printed)| puzzle(it, printed, printer));
    let puzzles: Array = puzzles.map(Value::Dict).collect();
    let all: Vec<&Puzzle> = published.iter().map(|it| &it.study.entry().puzzle).collect();
    let info = pack.info();
    let data = dict! {
        "title" => printer.name(&info.title),
        "running" => printer.running(&info.title),
        "subtitle" => words::subtitle(&all),
        "about" => words::about(pack.n_solves()).map(IntoValue::into_value).into_iter().collect::<Array>(),
        "minutes-note" => words::minutes_note(pack.n_solves()),
        "minutes-basis" => tell::basis(pack.n_solves()),
        "proof" => words::proof().map(IntoValue::into_value).into_iter().collect::<Array>(),
        "editor" => printer.name(&info.editor),
        "licence" => info.licence.as_deref().map(|it| printer.name(it)),
        "address" => info.base_url.as_deref().map(|it| printer.name(it)),
        "issued" => edition.issued.map(|it| it.to_string()),
        "rules" => howto::sections(&all),
        "known" => known(pack),
        "cards" => sandwich_sizes(&all).into_iter().map(|it| Value::Dict(sums::card(it))).collect::<Array>(),
        "lessons" => lessons::lessons(lessons),
        "puzzles" => puzzles,
        "face" => fonts::FACE,
        "stand-ins" => fonts::STAND_INS.into_iter().map(IntoValue::into_value).collect::<Array>(),
        "fonts" => fonts::CREDITS.into_iter().map(|(face, licence)| {
            Value::Dict(dict! { "face" => face, "licence" => licence })
        }).collect::<Array>(),
        "type" => roles::value(),
    };
    (data, printed)
}

/// The techniques that solvers are taken to know from the start, easiest first, each with a sentence about it.
fn known(pack: &StudiedPack) -> Array {
    let known = pack.coverage().into_iter().filter(|it| it.is_known).map(|it| it.technique);
    let words = |id| {
        let (name, description) = (tell::technique_name(id), tell::technique_description(id));
        Value::Dict(dict! { "name" => tell::capital(name), "description" => description })
    };
    known.map(words).collect()
}

fn printed_puzzle(published: &Published<'_>, printer: &mut Printer) -> PrintedPuzzle {
    let entry = published.study.entry();
    PrintedPuzzle {
        number: published.number,
        title: PrintedText::new(printer.name(&entry.title)),
        setter: PrintedText::new(printer.name(&entry.setter)),
        puzzle: entry.puzzle.clone(),
    }
}

fn puzzle(published: &Published<'_>, printed: &PrintedPuzzle, printer: &mut Printer) -> Dict {
    let entry = published.study.entry();
    let minutes = published.study.minutes().map(words::minutes);
    dict! {
        "number" => published.number as i64,
        "title" => printed.title.as_str(),
        "title-size" => roles::title_size(printed.title.as_str()),
        "setter" => printed.setter.as_str(),
        "minutes" => minutes,
        "shelf" => published.shelf.map(|it| printer.name(it)),
        "permission" => entry.permission.as_deref().map(|it| printer.text(it)),
        "board" => board::handed_out(&entry.puzzle),
        "solution" => board::solved(&entry.puzzle, published.solution),
        "hints" => hints::staged(&entry.puzzle, published.account),
    }
}

/// The sizes of the puzzles with sandwich sums.
fn sandwich_sizes(puzzles: &[&Puzzle]) -> BTreeSet<Size> {
    let with_sums = puzzles.iter().filter(|it| it.clues().iter().any(|it| it.rule.id() == SANDWICH.id()));
    with_sums.map(|it| it.size()).collect()
}
