//! `galley order`: the order of the puzzles with a reason for each place, and what it costs.

use pack::WEIGHTS;
use study::{StudiedPack, Study};

use crate::job::With;
use crate::json;
use crate::outcome::{Failure, Outcome};
use crate::places::{Places, Reasons};
use crate::screen::Screen;
use crate::studies::{Found, Target};
use crate::{places, print, words};

/// The command.
#[derive(Debug)]
pub(crate) struct Order {
    /// The pack.
    pub(crate) target: Target,
}

impl Order {
    /// Puts the puzzles in order.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let found = self.target.study(with)?;
        let result = match with.is_json {
            true => json::text(&document(&found)),
            false => in_words(&found.pack, with.stdout),
        };
        Ok(Outcome {
            problems: found.problems(with),
            result,
            note: String::new(),
            has_errors: found.has_errors(),
        })
    }
}

/// Whose order it is.
pub(crate) fn by(pack: &StudiedPack) -> &'static str {
    if pack.is_proposed() { "galley" } else { "editor" }
}

fn in_words(pack: &StudiedPack, screen: Screen) -> String {
    if pack.studies().is_empty() {
        return String::new();
    }
    let places = Places::of(pack);
    let places = places.iter().map(|(place, study, reasons)| {
        (place, format!("{}: {}", study.entry().title, words::place(study, reasons.as_ref())))
    });
    let places = print::numbered(places, screen);
    let head = match (pack.is_proposed(), places::cost(pack)) {
        (true, Some(cost)) => format!("The order that Galley proposes, which costs {cost}."),
        (true, None) => "The order that Galley proposes.".to_owned(),
        (false, _) => "The editor's order.".to_owned(),
    };
    let both = if pack.is_proposed() { String::new() } else { both(pack, screen) };
    format!("{head}\n\n{places}\n{both}{}", costs_explained(pack, screen))
}

/// The editor's order beside the one that Galley would propose.
fn both(pack: &StudiedPack, screen: Screen) -> String {
    let proposed = pack.proposed();
    let mut table = print::table(&["", "editor's order", "Galley's proposal"], screen);
    for (at, (ours, theirs)) in pack.studies().iter().zip(proposed.studies()).enumerate() {
        table.add_row([(at + 1).to_string(), ours.entry().title.clone(), theirs.entry().title.clone()]);
    }
    if let (Some(ours), Some(theirs)) = (places::cost(pack), places::cost(&proposed)) {
        table.add_row(["costs".to_owned(), ours.to_string(), theirs.to_string()]);
    }
    print::drawn(&table) + "\n"
}

fn costs_explained(pack: &StudiedPack, screen: Screen) -> String {
    let kept_back = match places::cost(pack) {
        Some(_) => "",
        None => " What these orders cost is kept back while a puzzle is sealed.",
    };
    let text = format!(
        "An order costs {} for each technique beyond the first that is new in one puzzle, {} for each minute \
         by which a puzzle is easier than the one before, and {} for two puzzles by one setter in a row. \
         The least cost is best.{kept_back} {}.",
        WEIGHTS.new_at_once,
        WEIGHTS.minute_back,
        WEIGHTS.same_setter,
        tell::capital(words::NOT_CALIBRATED),
    );
    print::folded(&text, screen)
}

fn document(found: &Found) -> json::Order {
    let pack = &found.pack;
    let proposed = pack.proposed();
    let place = |(place, study, reasons): (usize, &Study, Option<Reasons>)| {
        let reasons = reasons.as_ref();
        json::Place {
            place,
            id: study.entry().id.to_string(),
            sealed: study.is_sealed(),
            new: reasons.map(|it| words::ids(&it.new)),
            practised: reasons.map(|it| words::ids(&it.practised)),
            seconds_more: reasons.and_then(|it| it.seconds_more),
            same_setter: reasons.map(|it| it.same_setter),
            why: words::place(study, reasons),
        }
    };
    json::Order {
        format: json::FORMAT,
        by: by(pack),
        cost: places::cost(pack),
        puzzles: Places::of(pack).iter().map(place).collect(),
        proposed: json::Proposed {
            cost: places::cost(&proposed),
            puzzles: proposed.studies().iter().map(|it| it.entry().id.to_string()).collect(),
        },
        unreadable: found.unreadable_files(),
        problems: found.all_problems(),
    }
}
