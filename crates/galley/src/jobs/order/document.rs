//! An order as a document.

use pack::Placed;
use reason::by_ease;
use study::{StudiedPack, Study};

use super::{aside_document, by};
use crate::places::{self, Places};
use crate::studies::Found;
use crate::{json, words};

/// The order that was found; `proposed` is Galley's, where this one is the editor's.
pub(super) fn document(found: &Found, proposed: Option<&StudiedPack>) -> json::Order {
    let pack = &found.pack;
    let proposed = proposed.unwrap_or(pack);
    json::Order {
        format: json::FORMAT,
        by: by(pack),
        cost: places::costs(pack).map(|it| it.total()),
        costs: places::costs(pack).map(json::Costs::from),
        at_least: places::costs(pack).and(pack.at_least()),
        puzzles: Places::of(pack).iter().map(place).collect(),
        aside: aside_document(pack),
        proposed: json::Proposed {
            cost: places::costs(proposed).map(|it| it.total()),
            puzzles: proposed.studies().iter().map(|it| it.entry().id.to_string()).collect(),
        },
        unreadable: found.unreadable_files(),
        problems: found.all_problems(),
    }
}

/// One place of an order.
pub(super) fn place((place, study, placed): (usize, &Study, Option<&Placed>)) -> json::Place {
    json::Place {
        place,
        id: study.entry().id.to_string(),
        sealed: study.is_sealed(),
        new: placed.map(|it| words::ids(&by_ease(it.new.iter().copied()))),
        practised: placed.map(|it| words::ids(&by_ease(it.practised.iter().copied()))),
        not_shown: placed.map(|it| words::ids(&by_ease(it.unprepared.iter().copied()))),
        opens_with: placed.and_then(|it| it.break_in).map(|it| it.name()),
        seconds_more: placed.and_then(|it| it.step_up),
        same_setter: placed.map(|it| it.flaws.same_setter),
        same_break_in: placed.map(|it| it.flaws.same_break_in),
        shelf_back: placed.map(|it| it.flaws.shelf_back),
        why: words::place(place, study, placed),
    }
}
