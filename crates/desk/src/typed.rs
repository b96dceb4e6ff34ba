//! A board as it is typed on a page: digits and numbers, right or wrong.

use std::collections::BTreeMap;

use grid::{HouseKind, Size};
use rulebook::{Puzzle, RULES};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// What is printed on a board.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct TypedBoard {
    /// Row by row from the top; 0 is an empty cell.
    #[schema(example = json!([0, 5, 0, 0]))]
    pub(crate) givens: Vec<u8>,
    /// The clues of each rule that may have some, by the rule's name.
    #[serde(default)]
    pub(crate) clues: BTreeMap<String, TypedClues>,
}

/// The clues of one rule; null where none is printed.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct TypedClues {
    /// Beside the rows, from the top.
    pub(crate) rows: Vec<Option<u16>>,
    /// Above the columns, from the left.
    pub(crate) columns: Vec<Option<u16>>,
}

impl TypedBoard {
    /// The board of a puzzle, with room for the clues of every rule that can have clues beside lines.
    pub(crate) fn of(puzzle: &Puzzle) -> TypedBoard {
        let size = puzzle.size();
        let givens = size.cells().map(|it| puzzle.givens().get(it).map_or(0, |it| it.get())).collect();
        let clues = RULES.into_iter().filter(|it| !it.reachable(size).is_empty()).map(|rule| {
            let beside = |kind| {
                let lines = size.lines().filter(|it| it.kind() == kind);
                lines.map(|line| puzzle.clue_at(rule, line).map(|(_, it)| it.value)).collect()
            };
            let clues = TypedClues { rows: beside(HouseKind::Row), columns: beside(HouseKind::Column) };
            (rule.id().name().to_owned(), clues)
        });
        TypedBoard { givens, clues: clues.collect() }
    }

    /// Whether it has as many cells and lines as a board of that size, and only digits and rules that there are.
    pub(crate) fn fits(&self, size: Size) -> bool {
        let side = usize::from(size.side());
        let is_rule = |name: &str| RULES.into_iter().any(|it| it.id().name() == name);
        self.givens.len() == size.n_cells()
            && self.givens.iter().all(|it| *it <= size.side())
            && self
                .clues
                .iter()
                .all(|(name, it)| is_rule(name) && it.rows.len() == side && it.columns.len() == side)
    }
}
