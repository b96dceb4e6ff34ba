//! The program's own words: verdicts, minutes, reasons for places. Words for techniques and steps are
//! `tell`'s.

use reason::TECHNIQUES;
use study::{Finding, MinutesRange, Study};
use trail::TechniqueId;

use crate::places::Reasons;

/// Beside every number of minutes.
pub(crate) const NOT_CALIBRATED: &str =
    "minutes are estimates for a solver who knows the techniques; they are not yet calibrated";

/// `1 puzzle`, `2 puzzles`.
pub(crate) fn counted(n: usize, noun: &str) -> String {
    format!("{n} {noun}{}", if n == 1 { "" } else { "s" })
}

/// Of a file that is no puzzle.
pub(crate) const UNREADABLE: &str = "cannot be read";

/// `First light, by Fern`, on a line of its own.
pub(crate) fn head(study: &Study) -> String {
    format!("{}, by {}\n", study.entry().title, study.entry().setter)
}

/// How many solutions a puzzle has.
pub(crate) fn verdict(finding: Finding) -> &'static str {
    match finding {
        Finding::One => "exactly one solution",
        Finding::None => "no solution",
        Finding::Many => "more than one solution",
        Finding::Undecided => "not decided",
    }
}

/// The same as a figure for a narrow column.
pub(crate) fn n_solutions(finding: Finding) -> &'static str {
    match finding {
        Finding::One => "one",
        Finding::None => "none",
        Finding::Many => "several",
        Finding::Undecided => "undecided",
    }
}

/// `5 to 10`.
pub(crate) fn minutes(range: MinutesRange) -> String {
    format!("{} to {}", range.from, range.to)
}

/// The techniques' names, as a list.
pub(crate) fn techniques(ids: &[TechniqueId]) -> String {
    tell::list(&ids.iter().map(|it| tell::technique_name(*it)).collect::<Vec<_>>())
}

/// The technique with that name in files and documents; small arguments have one too.
pub(crate) fn technique_named(name: &str) -> Option<TechniqueId> {
    let all = TECHNIQUES.iter().map(|it| it.id()).chain([TechniqueId::SMALL_ARGUMENT]);
    all.into_iter().find(|it| it.name() == name)
}

/// The techniques' names in files and documents.
pub(crate) fn ids(ids: &[TechniqueId]) -> Vec<&'static str> {
    ids.iter().map(|it| it.name()).collect()
}

/// Why a puzzle stands where it stands.
pub(crate) fn place(study: &Study, reasons: Option<&Reasons>) -> String {
    let Some(it) = reasons else {
        return match study.is_sealed() {
            true => "sealed; its reasons are kept back".to_owned(),
            false => "no walkthrough to weigh".to_owned(),
        };
    };
    let teaches = match (it.new.is_empty(), it.practised.is_empty()) {
        (true, _) => format!("nothing new; practises {}", techniques(&it.practised)),
        (_, true) => format!("new: {}", techniques(&it.new)),
        (_, false) => format!("new: {}; practises {}", techniques(&it.new), techniques(&it.practised)),
    };
    let step = it.seconds_more.map(|it| match it {
        30.. => format!("about {} more", whole_minutes(it)),
        ..=-30 => format!("about {} fewer", whole_minutes(-it)),
        _ => "about as long as the one before".to_owned(),
    });
    let setter = it.same_setter.then(|| "same setter as the one before".to_owned());
    [Some(teaches), step, setter].into_iter().flatten().collect::<Vec<_>>().join("; ")
}

fn whole_minutes(seconds: i64) -> String {
    let minutes = usize::try_from((seconds + 30) / 60).unwrap_or_default();
    counted(minutes, "minute")
}
