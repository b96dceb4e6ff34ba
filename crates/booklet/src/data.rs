//! Everything the template prints, as values.
//!
//! The template reads this as `sys.inputs`. Texts of the pack are values of type `str`, which the
//! typesetter sets letter by letter; nothing from a pack is ever read as the typesetter's language.

use std::collections::{BTreeMap, BTreeSet};

use grid::Size;
use pack::{Erratum, Form, Ink, Layout, Paper};
use primer::Primer;
use rulebook::{Puzzle, Rule, SANDWICH};
use study::{Published, StudiedPack};
use typeset::{board, fonts};
use typst::foundations::{Array, Dict, IntoValue, Value, dict};

use crate::read_back::PrintedPuzzle;
use crate::{Edition, PrintedText, address, hints, howto, lessons, roles, sums, walkthroughs, words};
use typeset::Printer;

/// The data, and what reading the booklet back must give.
pub(crate) fn data(
    pack: &StudiedPack,
    published: &[Published<'_>],
    lessons: &Primer,
    edition: &Edition,
    printer: &mut Printer,
) -> (Dict, Vec<PrintedPuzzle>) {
    let printed: Vec<PrintedPuzzle> = published.iter().map(|it| printed_puzzle(it, printer)).collect();
    let puzzles =
        published.iter().zip(&printed).map(|(it, printed)| puzzle(pack, edition, it, printed, printer));
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
        "issued" => edition.issued.map(tell::day),
        "rules" => howto::sections(&all),
        "known" => known(pack),
        "cards" => sandwich_sizes(&all).into_iter().map(|it| Value::Dict(sums::card(it))).collect::<Array>(),
        "lessons" => lessons::lessons(lessons, published),
        "puzzles" => puzzles,
        "face" => fonts::FACE,
        "stand-ins" => fonts::STAND_INS.into_iter().map(IntoValue::into_value).collect::<Array>(),
        "fonts" => fonts::CREDITS.into_iter().map(|(face, licence)| {
            Value::Dict(dict! { "face" => face, "licence" => licence })
        }).collect::<Array>(),
        "type" => roles::value(edition.form.layout),
        "form" => form(edition.form),
        "shelves" => shelves(published, printer),
        "curve" => curve(published),
        "techniques" => techniques(pack, published, lessons),
        "setters" => setters(published, printer),
        "errata" => errata(pack, printer),
        "walkthroughs" => match edition.form.walkthroughs {
            true => walkthroughs::walkthroughs(published),
            false => Array::new(),
        },
    };
    (data, printed)
}

/// How the booklet is laid out and printed, for the template.
fn form(form: Form) -> Dict {
    dict! {
        "paper" => match form.paper { Paper::A4 => "a4", Paper::Letter => "us-letter" },
        "black" => form.ink == Ink::Black,
        "large" => form.layout == Layout::Large,
        "a-page" => match form.layout {
            Layout::One | Layout::Large => 1,
            Layout::Two => 2,
            Layout::Four => 4,
        },
    }
}

/// The shelves in order, each with how many puzzles of the list stand on it; puzzles without one are a shelf without a
/// name.
fn shelves(published: &[Published<'_>], printer: &mut Printer) -> Array {
    let stretches = published.chunk_by(|a, b| a.shelf == b.shelf);
    let shelf = |it: &[Published<'_>]| {
        Value::Dict(dict! { "name" => it[0].shelf.map(|it| printer.name(it)), "n" => it.len() as i64 })
    };
    stretches.map(shelf).collect()
}

/// The minutes of each puzzle, from and to; nothing for one without.
fn curve(published: &[Published<'_>]) -> Array {
    let minutes = |it: &Published<'_>| match it.study.minutes() {
        Some(it) => Value::Dict(dict! { "from" => i64::from(it.from), "to" => i64::from(it.to) }),
        None => Value::None,
    };
    published.iter().map(minutes).collect()
}

/// The techniques of the walkthroughs by name, each with its lesson, if it has one, and the puzzles that use it.
fn techniques(pack: &StudiedPack, published: &[Published<'_>], lessons: &Primer) -> Array {
    let place = |id| lessons.lessons.iter().position(|it| it.technique == id).map(|it| it as i64);
    let mut used: Vec<(&str, Dict)> = Vec::new();
    for it in pack.coverage() {
        let puzzles =
            published.iter().enumerate().filter(|(_, one)| it.puzzles.contains(&one.study.entry().id));
        let puzzles: Array = puzzles.map(|(at, _)| Value::Int(at as i64)).collect();
        if !puzzles.is_empty() {
            let name = tell::technique_name(it.technique);
            used.push((
                name,
                dict! {
                    "name" => tell::capital(name), "lesson" => place(it.technique), "puzzles" => puzzles,
                },
            ));
        }
    }
    used.sort_by_key(|it| it.0);
    used.into_iter().map(|it| Value::Dict(it.1)).collect()
}

/// The setters by name, each with the puzzles they set.
fn setters(published: &[Published<'_>], printer: &mut Printer) -> Array {
    let mut setters: BTreeMap<&str, Array> = BTreeMap::new();
    for (at, it) in published.iter().enumerate() {
        setters.entry(it.study.entry().credited()).or_default().push(Value::Int(at as i64));
    }
    let setter = |(name, puzzles): (&str, Array)| {
        Value::Dict(dict! { "name" => printer.name(name), "puzzles" => puzzles })
    };
    setters.into_iter().map(setter).collect()
}

fn errata(pack: &StudiedPack, printer: &mut Printer) -> Array {
    let erratum = |it: &Erratum| {
        Value::Dict(dict! { "noted" => tell::day(it.noted), "says" => printer.text(&it.says) })
    };
    pack.info().errata.iter().map(erratum).collect()
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
        setter: PrintedText::new(printer.name(entry.credited())),
        puzzle: entry.puzzle.clone(),
    }
}

fn puzzle(
    pack: &StudiedPack,
    edition: &Edition,
    published: &Published<'_>,
    printed: &PrintedPuzzle,
    printer: &mut Printer,
) -> Dict {
    let entry = published.study.entry();
    let minutes = published.study.minutes().map(words::minutes);
    dict! {
        "number" => published.number as i64,
        "title" => printed.title.as_str(),
        "title-size" => roles::title_size(printed.title.as_str(), edition.form.layout),
        "setter" => printed.setter.as_str(),
        "minutes" => minutes,
        "shelf" => published.shelf.map(|it| printer.name(it)),
        "permission" => entry.permission.as_deref().map(|it| printer.text(it)),
        "board" => board::handed_out(&entry.puzzle),
        "solution" => board::solved(&entry.puzzle, published.solution),
        "hints" => hints::staged(&entry.puzzle, published.account),
        "online" => address::of_page(pack.info(), &entry.id).map(Value::Dict),
    }
}

/// The sizes of the puzzles with sandwich sums.
fn sandwich_sizes(puzzles: &[&Puzzle]) -> BTreeSet<Size> {
    let with_sums = puzzles.iter().filter(|it| it.clues().iter().any(|it| it.rule.id() == SANDWICH.id()));
    with_sums.map(|it| it.size()).collect()
}
