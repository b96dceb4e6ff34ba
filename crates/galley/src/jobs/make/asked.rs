//! From what was typed to a brief, and what no puzzle can be like.

use grid::Size;
use make::{Brief, Clues, Kind, Look, Span, usually_known};
use reason::{Known, rank, technique};
use trail::TechniqueId;

use crate::args::{RawClues, RawLook, RawMake};
use crate::outcome::Failure;
use crate::print::visible;
use crate::range::Range;
use crate::words;

/// The fewest givens with which a classic 9x9 puzzle has one solution (G. McGuire, B. Tugemann, G. Civario,
/// arXiv:1201.0749).
const FEWEST_CLASSIC: usize = 17;

/// The brief that was asked for.
pub(in crate::jobs) fn brief(raw: &RawMake) -> Result<Brief, Failure> {
    let size = size(&raw.size)?;
    let kind = if raw.classic { Kind::Classic } else { Kind::Sandwich };
    let mut teaches = techniques(&raw.teaches);
    teaches.sort_by_key(|it| rank(*it));
    teaches.dedup();
    let known = known(raw, &teaches)?;
    let usual = match kind {
        Kind::Classic => size.n_cells() / 2,
        Kind::Sandwich => size.n_cells() * 3 / 10,
    };
    let givens = span("givens", size, raw.givens, usual, size.n_cells(), "cells")?;
    let n_lines = 2 * usize::from(size.side());
    let clues = match raw.clues {
        None => Clues::Needed,
        Some(RawClues::All) => Clues::All,
        Some(RawClues::Symmetric) => Clues::Symmetric,
        Some(RawClues::Few) => Clues::Few,
        Some(RawClues::Within(range)) => {
            Clues::Within(span("clues", size, Some(range), n_lines, n_lines, "rows and columns")?)
        }
    };
    let minutes =
        raw.minutes.map(|it| Span { least: it.from.unwrap_or(0), most: it.to.unwrap_or(usize::MAX) });
    let look = match raw.look {
        RawLook::Any => Look::Any,
        RawLook::Symmetric => Look::Symmetric,
    };
    let is_spare_allowed = raw.spare_allowed;
    let brief = Brief { size, kind, teaches, known, minutes, givens, clues, look, is_spare_allowed };
    check_is_possible(&brief)?;
    Ok(brief)
}

/// The techniques with those names; which are names was seen to when they were typed.
fn techniques(names: &[String]) -> Vec<TechniqueId> {
    names.iter().filter_map(|it| words::technique_named(it)).collect()
}

/// `6x6`, or `6` for short.
fn size(text: &str) -> Result<Size, Failure> {
    let side = match text.split_once(['x', 'X']) {
        Some((wide, high)) if wide == high => wide,
        Some(_) => "",
        None => text,
    };
    side.parse().ok().and_then(Size::of_side).ok_or_else(|| {
        let sizes: Vec<String> = (1..=16).filter_map(Size::of_side).map(|it| it.to_string()).collect();
        Failure::new(
            format!("there is no board of size `{}`", visible(text)),
            format!("sizes are {}", tell::list(&sizes)),
        )
    })
}

/// What is known: as it was said, or what is usual.
fn known(raw: &RawMake, teaches: &[TechniqueId]) -> Result<Known, Failure> {
    let hardest = raw.hardest.as_deref().and_then(words::technique_named);
    if let Some(hardest) = hardest {
        return match teaches.iter().find(|it| rank(**it) > rank(hardest)) {
            None => Ok(Known::up_to(hardest)),
            Some(it) => Err(Failure::new(
                format!("`{it}` is harder than `{hardest}`, the hardest technique allowed"),
                "name a harder one there, or leave out --hardest",
            )),
        };
    }
    Ok(match &raw.knows {
        Some(names) => Known::only(techniques(names).into_iter().chain(teaches.iter().copied())),
        None => usually_known(teaches),
    })
}

/// The range that was typed within what a board has room for.
fn span(
    option: &str,
    size: Size,
    range: Option<Range>,
    usual: usize,
    room: usize,
    where_to: &str,
) -> Result<Span, Failure> {
    let Some(range) = range else { return Ok(Span { least: 0, most: usual }) };
    let least = range.from.unwrap_or(0);
    if least > room {
        return Err(Failure::new(
            format!("{least} {option} are more than a {size} board has room for"),
            format!("it has {room} {where_to}"),
        ));
    }
    Ok(Span { least, most: range.to.unwrap_or(room).min(room) })
}

/// What contradicts itself, or is known never to be.
fn check_is_possible(brief: &Brief) -> Result<(), Failure> {
    let sandwich = |it: &&TechniqueId| technique(**it).is_some_and(|it| it.rule().is_some());
    let has_no_clues = match brief.clues {
        Clues::Within(span) => span.most == 0,
        _ => brief.kind == Kind::Classic,
    };
    if let Some(it) = brief.teaches.iter().find(sandwich).filter(|_| has_no_clues) {
        return Err(Failure::new(
            format!("`{it}` is about sandwich clues, and the puzzle is to have none"),
            "allow clues, or name a technique that every puzzle of rows, columns and boxes has",
        ));
    }
    if brief.size == Size::NINE && has_no_clues && brief.givens.most < FEWEST_CLASSIC {
        return Err(Failure::new(
            format!("without clues no puzzle with fewer than {FEWEST_CLASSIC} givens has one solution"),
            "allow more givens",
        ));
    }
    let Span { least, most } = brief.givens;
    if brief.look == Look::Symmetric && brief.size.side().is_multiple_of(2) && least == most && most % 2 == 1
    {
        return Err(Failure::new(
            format!("{most} givens cannot look the same after a half turn of a {} board", brief.size),
            "such a board has no middle cell: ask for an even number, or for --look any",
        ));
    }
    if brief.minutes.is_some_and(|it| it.most == 0) {
        return Err(Failure::new("no puzzle takes a regular 0 minutes", "allow more minutes"));
    }
    Ok(())
}
