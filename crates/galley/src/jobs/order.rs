//! `galley order`: the order of the puzzles with a reason for each place, and what it costs; which to choose
//! where there are more puzzles than places; and what gets worse when one is moved.

mod document;
mod moves;

use pack::Weights;
use reason::by_ease;
use study::{StudiedPack, Study};

use crate::job::With;
use crate::json;
use crate::outcome::{Failure, Outcome};
use crate::places::Places;
use crate::screen::Screen;
use crate::studies::{self, Target};
use crate::{places, print, words};

pub(crate) use moves::Move;

/// The command.
#[derive(Debug)]
pub(crate) struct Order {
    /// The pack.
    pub(crate) target: Target,
    /// How many puzzles are to be chosen; none for all that have a place.
    pub(crate) choose: Option<usize>,
    /// Puzzles to be moved by hand, one after the other.
    pub(crate) moves: Vec<Move>,
}

impl Order {
    /// Puts the puzzles in order.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let places = self.choose.map_or(studies::Places::AsTheyAre, studies::Places::Choose);
        let found = self.target.study_choosing(places, with)?;
        if !self.moves.is_empty() {
            return moves::run(found, &self.moves, with);
        }
        // Beside an order of the editor's stands the one that would be proposed.
        let proposed = match found.pack.is_proposed() {
            true => None,
            false => Some(found.with_order(None, with)?),
        };
        let result = match with.is_json {
            true => json::text(&document::document(&found, proposed.as_ref())),
            false => in_words(&found.pack, proposed.as_ref(), self.choose, with.stdout),
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

fn in_words(
    pack: &StudiedPack,
    proposed: Option<&StudiedPack>,
    choose: Option<usize>,
    screen: Screen,
) -> String {
    if pack.all().next().is_none() {
        return String::new();
    }
    let places = Places::of(pack);
    let places = places.iter().map(|(place, study, placed)| {
        (place, format!("{}: {}", study.entry().title, words::place(place, study, placed)))
    });
    let places = print::numbered(places, screen);
    let what = if choose.is_some() { "choice and order" } else { "order" };
    let head = match (pack.is_proposed(), places::costs(pack)) {
        (true, Some(costs)) => format!("The {what} that Galley proposes, which costs {}.", costs.total()),
        (true, None) => format!("The {what} that Galley proposes."),
        (false, _) => "The editor's order.".to_owned(),
    };
    let aside = aside(pack, screen);
    let both = proposed.map(|it| both(pack, it, screen)).unwrap_or_default();
    format!("{head}\n\n{places}\n{aside}{both}{}", costs_explained(pack, choose.is_some(), screen))
}

/// The puzzles that have no place, with what each would bring.
fn aside(pack: &StudiedPack, screen: Screen) -> String {
    if pack.aside().is_empty() {
        return String::new();
    }
    let said = pack.aside().iter().map(|it| {
        let reason = it.entry().reason.as_ref().map(|it| format!(" ({it})")).unwrap_or_default();
        let state = words::state(it.entry().state);
        print::folded(&format!("{}: {state}{reason}. {}", it.entry().title, would_bring(pack, it)), screen)
    });
    format!("Without a place:\n{}\n", said.collect::<String>())
}

/// The same for a document.
pub(crate) fn aside_document(pack: &StudiedPack) -> Vec<json::Aside> {
    let document = |it: &Study| json::Aside {
        id: it.entry().id.to_string(),
        sealed: it.is_sealed(),
        state: words::state(it.entry().state),
        reason: it.entry().reason.clone(),
        why: would_bring(pack, it),
    };
    pack.aside().iter().map(document).collect()
}

/// What a puzzle without a place would bring to the pack.
fn would_bring(pack: &StudiedPack, study: &Study) -> String {
    let Some(account) = study.opened().and_then(|it| it.account) else {
        return match study.is_sealed() {
            true => "Sealed: what it would bring is kept back.".to_owned(),
            false => "There is no walkthrough to weigh.".to_owned(),
        };
    };
    let taught: Vec<_> = (pack.coverage().into_iter())
        .filter(|it| it.is_known || !it.puzzles.is_empty())
        .map(|it| it.technique)
        .collect();
    let used = account.techniques();
    match by_ease(used.iter().copied().filter(|it| !taught.contains(it))) {
        it if it.is_empty() => "It would teach nothing that the others do not.".to_owned(),
        it => format!("It alone would teach {}.", words::techniques(&it)),
    }
}

/// The editor's order beside the one that Galley would propose.
fn both(pack: &StudiedPack, proposed: &StudiedPack, screen: Screen) -> String {
    let mut table = print::table(&["", "editor's order", "Galley's proposal"], screen);
    for (at, (ours, theirs)) in pack.studies().iter().zip(proposed.studies()).enumerate() {
        table.add_row([(at + 1).to_string(), ours.entry().title.clone(), theirs.entry().title.clone()]);
    }
    if let (Some(ours), Some(theirs)) = (places::costs(pack), places::costs(proposed)) {
        table.add_row(["costs".to_owned(), ours.total().to_string(), theirs.total().to_string()]);
    }
    print::drawn(&table) + "\n"
}

fn costs_explained(pack: &StudiedPack, is_choice: bool, screen: Screen) -> String {
    let this = match places::costs(pack) {
        Some(costs) if costs.total() > 0 => format!("What this order costs: {}.", tell::costs(costs)),
        Some(_) => "This order costs nothing.".to_owned(),
        None => "What these orders cost is kept back while a puzzle is sealed.".to_owned(),
    };
    let bound = match (places::costs(pack), pack.at_least()) {
        (Some(costs), Some(at_least)) if at_least >= costs.total() => {
            " No order of these puzzles, with these walkthroughs, costs less."
        }
        // Nothing is known of more puzzles than are bounded, or nothing has to cost anything.
        (Some(_), Some(0)) => " It is not proved to be the best.",
        (Some(_), Some(at_least)) => &format!(
            " It is not proved to be the best: none, with these walkthroughs, costs less than {at_least}."
        ),
        _ => "",
    };
    let text = format!(
        "{this}{bound} {} {}",
        weights_explained(pack, is_choice),
        words::minutes_note(pack.n_solves()),
    );
    print::folded(&text, screen)
}

fn weights_explained(pack: &StudiedPack, is_choice: bool) -> String {
    let weights: Weights = pack.objective().weights;
    let not_taught = match is_choice {
        true => format!(", and {} for each technique that none of those chosen takes", weights.not_taught),
        false => String::new(),
    };
    let untrue = match pack.all().any(|it| !it.entry().said.is_empty()) {
        true => {
            format!(", and {} for each thing that a recording says and that is not so", weights.said_untrue)
        }
        false => String::new(),
    };
    format!(
        "An order costs {} for each technique beyond the first that is new in one puzzle, {} for each that a new \
         one builds on and that has not been shown, {} for each minute by which a puzzle is easier than the one \
         before, {} for two puzzles by one setter in a row and {} for two that open with the same technique, and \
         {} for a puzzle after one of a later shelf{not_taught}{untrue}; `[weights]` in pack.toml changes that.",
        weights.new_at_once,
        weights.prerequisite,
        weights.minute_back,
        weights.same_setter,
        weights.same_break_in,
        weights.shelf_back,
    )
}
