//! The primer as values: a page a technique, and the key to its exercises.

use grid::DigitSet;
use primer::{Exercise, FirstUse, Lesson, Primer, Strip, StripCell};
use study::Published;
use typst::foundations::{Array, Dict, IntoValue, Value, dict};

use typeset::board;

/// Every lesson, in order. Their first uses are steps of what is published.
pub(crate) fn lessons(primer: &Primer, published: &[Published<'_>]) -> Array {
    primer.lessons.iter().map(|it| Value::Dict(lesson(it, published))).collect()
}

fn lesson(it: &Lesson, published: &[Published<'_>]) -> Dict {
    let exercises = it.exercises.iter().map(|it| Value::Dict(exercise(it)));
    dict! {
        "name" => tell::capital(tell::technique_name(it.technique)),
        "description" => tell::technique_description(it.technique),
        "first" => first(&it.first, &published[it.first.published]),
        "exercises" => exercises.collect::<Array>(),
    }
}

fn first(it: &FirstUse, published: &Published<'_>) -> Dict {
    let trail = published.account.explained.walkthrough().trail();
    dict! {
        "board" => board::after(&published.study.entry().puzzle, trail, &[it.step]),
        "number" => it.number as i64,
        "step" => it.step.number() as i64,
        "says" => it.says.clone(),
        "strips" => strips(&it.strips),
    }
}

fn exercise(it: &Exercise) -> Dict {
    dict! {
        "question" => it.question.clone(),
        "known" => it.known.join("; "),
        "strips" => strips(&it.strips),
        "answer" => it.answer.clone(),
    }
}

fn strips(all: &[Strip]) -> Array {
    all.iter().map(|it| Value::Dict(strip(it))).collect()
}

fn strip(it: &Strip) -> Dict {
    let cells = it.cells.iter().map(|it| Value::Dict(cell(it)));
    dict! {
        "name" => it.title(),
        "clue" => it.clue.map(|it| it.to_string()),
        "across" => it.across as i64,
        "cells" => cells.collect::<Array>(),
        "alt" => it.in_words(),
    }
}

fn cell(it: &StripCell) -> Dict {
    let digits = digits(it.digits);
    dict! {
        "wide" => digits.iter().any(|it| it.len() > 1),
        // None is left to be shown where it is asked for.
        "digits" => if digits.is_empty() { vec!["?".to_owned()] } else { digits }.into_iter().map(IntoValue::into_value).collect::<Array>(),
        "kind" => it.kind().map(|it| it.name()),
    }
}

fn digits(digits: DigitSet) -> Vec<String> {
    digits.iter().map(|it| it.get().to_string()).collect()
}
