//! The cue sheet as PDF.

use captions::Time;
use rehearse::{Cue, Passage, Plan, Setting};
use trail::StepId;
use typeset::{LONGEST_TEXT, Printer, Writing, board, fonts, typeset};
use typst::foundations::{Array, Dict, IntoValue, Value, dict};

use crate::{MOST_STEPS, basis, is_new, said};

/// How it is laid out.
const TEMPLATE: &str = include_str!("cue.typ");

/// The cue sheet of a puzzle, as a tagged PDF that keeps to PDF/UA-1. Equal inputs give equal bytes.
///
/// # Errors
///
/// If the typesetter refuses it, in its own words: a mistake in Galley's template.
pub fn in_print(setting: &Setting, plan: &Plan) -> Result<Vec<u8>, String> {
    typeset(TEMPLATE, data(setting, plan), Writing { issued: None, is_plain: false })
}

fn data(setting: &Setting, plan: &Plan) -> Dict {
    let (script, entry) = (&plan.script, setting.study().entry());
    let mut printer = Printer::default();
    let part = |title: &str, starts: Time, takes: Time| {
        Value::Dict(dict! { "title" => title, "starts" => starts.clock(), "takes" => takes.clock() })
    };
    let parts = std::iter::once(part("Credit and rules", Time(0), script.opening))
        .chain(script.passages.iter().map(|it| part(&it.title, it.starts, it.takes)))
        .chain([part("Close", script.closes(), script.closing)]);
    let passages = script.passages.iter().map(|it| Value::Dict(passage(setting, plan, it, &mut printer)));
    let passages: Array = passages.collect();
    let orphans = plan
        .orphans
        .iter()
        .map(|it| Value::Dict(dict! { "key" => printer.name(&it.key), "says" => printer.text(&it.says) }));
    let orphans: Array = orphans.collect();
    let opening: Vec<&str> = script.opening_lines().flat_map(str::lines).collect();
    dict! {
        "title" => printer.name(&entry.title),
        "setter" => printer.name(entry.credited()),
        "credit" => printer.text(&script.credit),
        "total" => script.total().clock(),
        "basis" => basis(plan),
        "parts" => parts.collect::<Array>(),
        "beforehand" => beforehand(plan, &mut printer),
        "board" => board::handed_out(&entry.puzzle),
        "opening" => dict! {
            "starts" => Time(0).clock(),
            "takes" => script.opening.clock(),
            "lines" => lines(&opening, &mut printer),
        },
        "passages" => passages,
        "close" => dict! {
            "starts" => script.closes().clock(),
            "takes" => script.closing.clock(),
            "lines" => lines(&script.close.lines().collect::<Vec<_>>(), &mut printer),
        },
        "orphans" => orphans,
        "face" => fonts::FACE,
        "stand-ins" => fonts::STAND_INS.into_iter().map(IntoValue::into_value).collect::<Array>(),
        "type" => dict! { "clue-left" => 0.86, "clue-above" => 0.74 },
        "form" => dict! { "black" => false, "large" => false },
    }
}

/// What to have in mind before: headings, each with lines and what stands below them.
fn beforehand(plan: &Plan, printer: &mut Printer) -> Array {
    let mut parts = Array::new();
    let mut put = |title: String, lines: Vec<(String, Vec<String>)>| {
        if lines.is_empty() {
            return;
        }
        let lines = lines.into_iter().map(|(head, below)| {
            let below: Array = below.into_iter().map(IntoValue::into_value).collect();
            Value::Dict(dict! { "head" => printer.text(&head), "below" => below })
        });
        let lines: Array = lines.collect();
        parts.push(Value::Dict(dict! { "title" => title, "lines" => lines }));
    };
    let new = plan.introductions.iter().map(|it| {
        let name = tell::capital(tell::technique_name(it.technique));
        (format!("{name}, first at step {}. {}", it.step.number(), it.says), it.figures.clone())
    });
    put("New here".to_owned(), new.collect());
    let taught: Vec<String> = plan.taught.iter().map(crate::screen::taught).collect();
    let taught = (!taught.is_empty()).then(|| (format!("{}.", taught.join("; ")), Vec::new()));
    put("Taught before".to_owned(), taught.into_iter().collect());
    let asked = plan.questions.iter().map(|it| {
        let before = it.step.map_or(String::new(), |it| format!(" (before step {})", it.number()));
        (format!("{}{before}", it.asks), Vec::new())
    });
    put("To ask".to_owned(), asked.collect());
    let stumbles =
        plan.stumbles.iter().map(|it| (format!("Step {}. {}", it.step.number(), it.why), Vec::new()));
    put("Where viewers may stumble".to_owned(), stumbles.collect());
    if let Some(target) = plan.target {
        put(format!("To keep to {}", target.clock()), crate::screen::to_shorten(plan));
    }
    parts
}

fn passage(setting: &Setting, plan: &Plan, passage: &Passage, printer: &mut Printer) -> Dict {
    let puzzle = &setting.study().entry().puzzle;
    let trail = setting.account().explained.walkthrough().trail();
    let stretches = page::stretches(&passage.cues, MOST_STEPS).map(|cues| {
        let steps: Vec<StepId> = cues.iter().map(|it| it.step).collect();
        let told: Array = cues.iter().map(|it| Value::Dict(step(plan, it, printer))).collect();
        Value::Dict(dict! {
            "board" => board::after(puzzle, trail, &steps),
            "last" => steps.last().map_or(0, |it| it.number()) as i64,
            "steps" => told,
        })
    });
    let stretches: Array = stretches.collect();
    dict! {
        "title" => passage.title.clone(),
        "starts" => passage.starts.clock(),
        "takes" => passage.takes.clock(),
        "stretches" => stretches,
    }
}

fn step(plan: &Plan, cue: &Cue, printer: &mut Printer) -> Dict {
    let says = cue.says.lines().map(|line| {
        let (premises, conclusion) = said(line);
        Value::Dict(dict! { "premises" => premises, "conclusion" => conclusion })
    });
    let note: Vec<&str> = cue.note.iter().flat_map(|it| it.lines()).collect();
    dict! {
        "number" => cue.step.number() as i64,
        "technique" => tell::technique_name(cue.technique),
        "new" => is_new(plan, cue),
        "takes" => cue.takes.clock(),
        "lines" => says.collect::<Array>(),
        "note" => lines(&note, printer),
    }
}

/// An editor's text, line by line, each cut where the printer cuts the longest text it sets.
fn lines(lines: &[&str], printer: &mut Printer) -> Array {
    let mut set = Array::new();
    for line in lines.iter().filter(|it| !it.trim().is_empty()) {
        let characters: Vec<char> = line.chars().collect();
        for piece in characters.chunks(LONGEST_TEXT) {
            set.push(printer.text(&piece.iter().collect::<String>()).into_value());
        }
    }
    set
}
