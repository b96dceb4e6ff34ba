//! What a setter is told of a puzzle: text to send as it is.
//!
//! The setter knows the solution, and the letter holds no digit of it but what the page would have to print. Of a puzzle
//! that is sealed it says the verdict alone, because the editor reads it too.

use pack::{Entry, PackInfo};
use packfile::{LoggedSolve, fingerprint};
use prove::Spare;
use study::{Finding, Opened, Repair, Study};

use crate::Approved;
use crate::stage::ends_right;

/// So many ways to mend or settle are suggested.
const MOST_SUGGESTED: usize = 5;
/// So many spare things are named.
const MOST_SPARE: usize = 12;

/// A letter.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Letter {
    /// What it is about, on one line.
    pub subject: String,
    /// The text: paragraphs with an empty line between them.
    pub text: String,
}

/// One person's solve, as it is told.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TestedBy {
    /// Who.
    pub solver: String,
    /// Whole minutes without pauses.
    pub minutes: u32,
    /// Whether they finished.
    pub is_solved: bool,
}

impl TestedBy {
    /// The solves of this puzzle as it is.
    pub fn of(entry: &Entry, solves: &[LoggedSolve]) -> Vec<TestedBy> {
        let print = fingerprint(&entry.puzzle);
        let of_puzzle = solves.iter().filter(|it| it.solve.puzzle == entry.id.as_str());
        let current = of_puzzle.filter(|it| it.fingerprint.as_deref().is_none_or(|it| it == print));
        let told = |it: &LoggedSolve| {
            let end = it.solve.entries.last().map_or(0.0, |it| it.at);
            let away: f64 = it.solve.pauses.iter().map(|[from, to]| to.min(end) - from.min(end)).sum();
            // The conversion saturates, and no solve is longer than a week.
            let minutes = ((end - away) / 60.0).round().max(1.0) as u32;
            let is_solved = ends_right(entry, &it.solve);
            TestedBy { solver: it.solve.solver.clone(), minutes, is_solved }
        };
        current.map(told).collect()
    }
}

/// The letter about a puzzle. `spare` is what the puzzle could do without, if that was looked for.
pub fn letter(info: &PackInfo, study: &Study, spare: Option<&Spare>, tested: &[TestedBy]) -> Letter {
    let entry = study.entry();
    let pack = if info.title.is_empty() { "our pack" } else { &info.title };
    let mut parts = vec![
        format!("Dear {},", line(&entry.setter)),
        format!(
            "thank you for \"{}\", which you sent for {}. {}",
            line(&entry.title),
            line(pack),
            verdict(study)
        ),
    ];
    if let Some(opened) = study.opened() {
        parts.extend(opened.repair.map(suggested));
        parts.extend(spare.and_then(spared));
        parts.extend(teaches(entry, &opened));
        parts.extend(minutes(study, &opened, tested));
        parts.extend(narrow(&opened));
    }
    parts.push(asked(study));
    parts.push(credit(entry));
    parts.push(format!(
        "With kind regards,\n{}",
        if info.editor.is_empty() { "the editor" } else { &info.editor }
    ));
    Letter { subject: format!("{}, for {}", line(&entry.title), line(pack)), text: parts.join("\n\n") + "\n" }
}

/// A text of a pack on one line.
fn line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn verdict(study: &Study) -> &'static str {
    match study.finding() {
        Finding::One => "It has exactly one solution; that is proved.",
        Finding::None => {
            "As it reached us it has no solution: its givens and clues contradict one another. \
                          Perhaps something was mistyped."
        }
        Finding::Many => "As it reached us it has several solutions.",
        Finding::Undecided => "We could not yet decide how many solutions it has.",
    }
}

fn suggested(repair: &Repair) -> String {
    let (head, items): (&str, Vec<String>) = match repair {
        Repair::Mending(it) => {
            let mends = it.mends.mends.iter();
            ("Any one of these changes leaves a solution:", mends.map(|it| tell::change(it.change)).collect())
        }
        Repair::Settlings(it) => {
            let single: Vec<String> = it.single.givens.iter().map(|it| tell::to_print(*it)).collect();
            let fewest = it.towards.iter().filter_map(|it| it.givens.as_ref().or(it.clues.as_ref()));
            let fewest: Vec<String> = fewest
                .map(|it| tell::list(&it.added.iter().map(|it| tell::to_print(*it)).collect::<Vec<_>>()))
                .collect();
            let items = if single.is_empty() { fewest } else { single };
            ("Printing any one of these as well leaves exactly one solution:", items)
        }
    };
    if items.is_empty() {
        return "We found no change of one thing that would make it sound.".to_owned();
    }
    let more = items.len().saturating_sub(MOST_SUGGESTED);
    let mut text = head.to_owned();
    for it in items.iter().take(MOST_SUGGESTED) {
        text += &format!("\n- {it}");
    }
    if more > 0 {
        text += &format!("\n- or one of {more} more");
    }
    text
}

fn spared(spare: &Spare) -> Option<String> {
    let names: Vec<String> = spare.spare.iter().take(MOST_SPARE).map(|it| tell::to_print(*it)).collect();
    let more = spare.spare.len().saturating_sub(MOST_SPARE);
    match (names.is_empty(), more) {
        (true, _) if spare.undecided.is_empty() => {
            Some("It has nothing to spare: each given and each clue is needed.".to_owned())
        }
        (true, _) => None,
        (false, 0) => Some(format!(
            "It would still have one solution without any one of these: {}. That is no fault; if you want it leaner, \
             there is room.",
            names.join("; ")
        )),
        (false, more) => Some(format!(
            "It would still have one solution without any one of these, among {more} more: {}.",
            names.join("; ")
        )),
    }
}

fn teaches(entry: &Entry, opened: &Opened<'_>) -> Option<String> {
    let account = opened.account?;
    let names: Vec<&str> = account.techniques().iter().map(|it| tell::technique_name(*it)).collect();
    let uses = match names.is_empty() {
        true => "Our walkthrough needs no step: it is printed solved.".to_owned(),
        false => format!("Our walkthrough uses {}.", tell::list(&names)),
    };
    let meant: Vec<String> = entry.intends.iter().map(|it| line(it)).collect();
    Some(match meant.is_empty() {
        true => uses,
        false => format!(
            "You meant it to teach {}. {uses} If what you meant is not among these, tell us which way you had in mind.",
            tell::list(&meant)
        ),
    })
}

fn minutes(study: &Study, opened: &Opened<'_>, tested: &[TestedBy]) -> Option<String> {
    opened.account?;
    let range = study.minutes()?;
    let mut text = format!(
        "We expect it to take a regular solver {} to {} minutes ({}).",
        range.from,
        range.to,
        tell::basis(range.n_solves)
    );
    for it in tested {
        let minutes =
            if it.minutes == 1 { "one minute".to_owned() } else { format!("{} minutes", it.minutes) };
        let did = if it.is_solved { "solved it in" } else { "stopped after" };
        text += &format!("\n- {} {did} {minutes}", line(&it.solver));
    }
    Some(text)
}

/// A letter is no list of everything.
const MOST_NARROW: usize = 3;

fn narrow(opened: &Opened<'_>) -> Option<String> {
    let account = opened.account?;
    let trail = account.explained.walkthrough().trail();
    let narrow = account.estimate.narrow_places();
    if narrow.is_empty() {
        return Some(tell::no_narrow_place());
    }
    let mut text = "Where solvers are likely to wait longest:".to_owned();
    for it in narrow.into_iter().take(MOST_NARROW) {
        let technique = tell::technique_name(trail.step(it.step).technique());
        text +=
            &format!("\n- step {} of {}, {technique}: {}", it.step.number(), trail.n_steps(), tell::wait(it));
    }
    Some(text)
}

fn asked(study: &Study) -> String {
    let entry = study.entry();
    match (study.finding(), Approved::of(entry)) {
        (Finding::None | Finding::Many, _) => {
            "Please tell us which of these you meant, or send the puzzle again. Then please look at the rules text \
             and tell us if it says what you want it to."
        }
        (_, Approved::No) => {
            "Please tell us that we may print it as it is, and whether you want any other words in its rules than those \
             that the pack has for all of its kind."
        }
        (_, Approved::Outdated(_)) => {
            "It has changed since you approved it. Please look at it again and tell us that we may print it as it is now."
        }
        (_, Approved::Yes(_)) => "You have approved it as it is; there is nothing you need to do.",
    }
    .to_owned()
}

fn credit(entry: &Entry) -> String {
    let link = match &entry.credit.link {
        Some(it) => format!(", with a link to {it}"),
        None => ", without a link".to_owned(),
    };
    format!("We credit you as {}{link}. Tell us if you want it otherwise.", line(entry.credited()))
}
